"""Where a time zone lies: a farm's position and its clock are held against each other."""

from __future__ import annotations

import re
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder.farm import tables

if TYPE_CHECKING:
    from collections.abc import Mapping

    LatLon = tuple[float, float]

# Latitude and longitude as ISO 6709 writes them: +DDMM or +DDMMSS, +DDDMM or +DDDMMSS.
_ISO_6709 = re.compile(r"([+-])(\d{2})(\d{2})(\d{2})?([+-])(\d{3})(\d{2})(\d{2})?")


@lru_cache(maxsize=1)
def countries() -> Mapping[str, str]:
    """Return the country code of each zone, in small letters, by zone; older names too.

    From zone.tab of the IANA time zone database, whose codes are those of ISO 3166-1.
    """
    return MappingProxyType({zone: code.lower() for zone, (code, _) in _zones().items()})


@lru_cache(maxsize=1)
def places() -> Mapping[str, LatLon]:
    """Return latitude and longitude [degrees] of each zone's principal place, by zone.

    From zone.tab of the IANA time zone database; older names stand where the newer one does.
    Zones that are no place, like UTC, are left out.
    """
    return MappingProxyType({zone: _degrees(at) for zone, (_, at) in _zones().items()})


def position(zone: str) -> str:
    """Return where a zone's principal place lies, as it is told: `40.7 and -74.0`."""
    return " and ".join(f"{degrees:.1f}" for degrees in places()[zone])


def _zones() -> Mapping[str, tuple[str, str]]:
    """Return country code and position of each zone as zone.tab has them; older names too."""
    found: dict[str, tuple[str, str]] = {}
    for line in _lines("zone.tab"):
        if not line.startswith("#"):
            code, position, zone, *_ = line.split("\t")
            found[zone] = code, position
    older = (line.split() for line in _lines("tzdata.zi") if line.startswith("L "))
    for _, target, link in older:
        if target in found:
            found.setdefault(link, found[target])
    return found


def _lines(name: str) -> list[str]:
    path = files("tzdata").joinpath("zoneinfo").joinpath(name)
    return path.read_text(encoding="utf-8").splitlines()


def _degrees(position: str) -> LatLon:
    """Return `+404251-0740023` in degrees.

    Raises:
        ValueError: not written as ISO 6709 has it.
    """
    match = _ISO_6709.fullmatch(position)
    if match is None:
        raise ValueError(position)
    return _signed(*match.groups()[:4]), _signed(*match.groups()[4:])


def _signed(sign: str, degrees: str, minutes: str, seconds: str | None) -> float:
    size = int(degrees) + int(minutes) / 60 + int(seconds or 0) / 3600
    return -size if sign == "-" else size


def too_far(zone: str, latitude: float, longitude: float, limit: str = "zone") -> str:
    """Return which of `latitude` and `longitude` does not go with the zone, else nothing.

    Args:
        zone: as the time zone database names it.
        latitude: of the farm [degrees], north positive.
        longitude: of the farm [degrees], east positive.
        limit: of `check_rules.csv`: `zone`, what cannot be, or `near`, what is seldom so.
    """
    known = places().get(zone)
    if known is None:
        return ""
    around = abs(longitude - known[1]) % 360
    most = tables.by("check_rules", "rule")
    if abs(latitude - known[0]) > float(most[f"{limit} latitude"]["most"]):
        return "latitude"
    if min(around, 360 - around) > float(most[f"{limit} longitude"]["most"]):
        return "longitude"
    return ""
