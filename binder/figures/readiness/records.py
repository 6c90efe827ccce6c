"""Gaps in what the owner wrote: whom to call, where, who lives where, how heavy (step 3)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_rule import Band
from binder.figures.day.farm_day import position_of
from binder.figures.finding import Finding, finding
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule
from binder.figures.stays.stay_load import worst_bands
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.results import Results

AREA = "ready"


def of_people(figures: Results) -> Iterator[Finding]:
    """Yield whom nobody could call, and where nobody could come."""
    farm = figures.farm
    roles = {contact.role for contact in farm.contacts}
    vet = "vet" in roles
    at_night = any(
        c.role == "night vet" or (c.role == "vet" and c.nights) for c in farm.contacts
    )
    if not vet and "night vet" not in roles:
        yield finding(AREA, "no-vet", "")
    elif not at_night:
        yield finding(AREA, "no-night-vet", "")
    if farm.about.place.address is None:
        yield finding(AREA, "no-address", "")
    if "backup" not in roles:
        yield finding(AREA, "no-backup", "")


def of_farm(figures: Results) -> Iterator[Finding]:
    """Yield what the binder needs of the farm itself and does not find."""
    about = figures.farm.about
    if about.thermometer is None:
        yield finding(AREA, "no-thermometer", "")
    if not about.shut_offs and not any(
        s.shut_off for s in figures.farm.equipment.water_sources
    ):
        yield finding(AREA, "no-shut-off", "")
    if position_of(figures.farm) is None:
        yield finding(AREA, "no-position", "")
    if figures.hot.assumed:
        yield finding(
            AREA, "hot-day-assumed", "", high=Amount(figures.hot.high_c, "degC"),
            low=Amount(figures.hot.low_c, "degC"),
        )  # fmt: skip
    yield from _bands(figures)


def _bands(figures: Results) -> Iterator[Finding]:
    """Yield the bands this farm's hot day reaches for which the owner set no interval."""
    day = figures.day.day
    if day is None:
        return
    set_by_owner = set(figures.farm.about.round_intervals_h)
    missing = set()
    for pen, bands in worst_bands(figures.farm, figures.herd, day).items():
        own = set(figures.farm.pen(pen).round_intervals_h)
        keys = {Band(band).key for band in bands}
        missing |= keys - set_by_owner - own
    if missing:
        names = [band.key for band in Band if band.key in missing]
        yield finding(AREA, "no-interval", "", bands=" ".join(names))


def of_animals(figures: Results) -> Iterator[Finding]:
    """Yield animals without a pen, and weights that are old or carry no date."""
    for key, ahead in (("not-born", _unborn(figures)), ("not-bred", _bred_ahead(figures))):
        if ahead:
            yield finding(AREA, key, ", ".join(ahead), who=", ".join(ahead))
    loose = [group.animal.called for group in figures.herd.groups if group.pen is None]
    if loose:
        yield finding(AREA, "no-pen", ", ".join(loose), who=", ".join(loose))
    yield from _weights(figures)


def _unborn(figures: Results) -> list[str]:
    """Return who is born after the day of the binder: likely a year typed wrong."""
    born = ((each.called, each.born) for each in figures.farm.animals)
    return [called for called, day in born if day is not None and day > figures.on]


def _bred_ahead(figures: Results) -> list[str]:
    """Return who is bred after the day of the binder."""
    bred = ((group.animal.called, group.animal.bred) for group in figures.herd.groups)
    return [called for called, day in bred if day is not None and day > figures.on]


def _weights(figures: Results) -> Iterator[Finding]:
    """Yield weights that are old or carry no date."""
    most = rule(RULES, "weights older than", "time").value / HOURS_IN_DAY
    old, undated = [], []
    for group in figures.herd.groups:
        animal = group.animal
        if animal.weight_kg is None:
            continue
        if animal.weighed is None:
            undated.append(animal.called)
        elif (figures.on - animal.weighed).days > most:
            old.append(animal.called)
    for key, names in (("weights-old", old), ("weights-undated", undated)):
        if names:
            who = ", ".join(names)
            yield finding(AREA, key, who, who=who, most=Amount(most, "day"))
