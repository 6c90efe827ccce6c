"""What is so in one country: numbers to call, law words, clock, commas; a pack for each.

The packs are `content/places/CODE.yaml`, CODE after ISO 3166-1 in small letters. Each fact
names its source. What nobody found is left out there, and the sheets then use neutral words: a
number that does not answer is worse than none.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder import yamlfile
from binder.data import CONTENT, plain
from binder.display import MARKS, Marks, System

if TYPE_CHECKING:
    from collections.abc import Mapping

HOME = "us"  # where nothing says otherwise: farms of before there were packs
ANYWHERE = "any"  # the pack of neutral words
_FACTS = (
    "emergency", "poison", "report", "shock_switch", "mains", "plug", "dig", "bleach", "paper",
    "holes", "english", "units", "clock", "marks",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fact:
    """One fact of a country.

    Attributes:
        said: what it is: a number, a word that the language files explain; empty if only a law.
        who: the body's own name.
        law: which sentence of the language files goes with it.
        source: the id in the bibliography.
    """

    said: str = ""
    who: str = ""
    law: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Pack:
    """What is so in one country.

    Attributes:
        code: of the country, or `any`.
        name: in English, as it stands in a sentence.
        zones: country codes of the time zone database that it holds for.
        facts: what was found, by name; what was not is missing.
        marks: how numbers are written there.
    """

    code: str
    name: str
    zones: tuple[str, ...]
    facts: Mapping[str, Fact]
    marks: Marks

    def said(self, fact: str, otherwise: str = "") -> str:
        """Return what a fact is, `otherwise` where it was not found."""
        found = self.facts.get(fact)
        return found.said if found and found.said else otherwise

    @property
    def system(self) -> System:
        """Return the measures that lead there."""
        return "us" if self.said("units") == "us" else "metric"

    @property
    def clock_24(self) -> bool:
        """Return whether clocks count to 24 there."""
        return self.said("clock") == "24"

    @property
    def british(self) -> bool:
        """Return whether English is written there as in Britain."""
        return self.said("english") == "british"

    @property
    def sources(self) -> tuple[str, ...]:
        """Return the ids of all that its facts rest on, each once."""
        return tuple(dict.fromkeys(one.source for one in self.facts.values()))


@lru_cache(maxsize=1)
def packs() -> Mapping[str, Pack]:
    """Return every pack by its code.

    Raises:
        ProblemsError: a pack that cannot be read.
        ValueError: a pack with a key that no pack has.
    """
    return MappingProxyType(
        {path.stem: _read(path.stem) for path in sorted((CONTENT / "places").glob("*.yaml"))}
    )


def pack(code: str) -> Pack:
    """Return the pack of a country, the neutral one where there is none."""
    known = packs()
    return known.get(code, known[ANYWHERE])


@lru_cache(maxsize=1)
def by_zone_country() -> Mapping[str, str]:
    """Return the code of the pack by the country codes of the time zone database."""
    return MappingProxyType({zone: one.code for one in packs().values() for zone in one.zones})


def _read(code: str) -> Pack:
    name = f"content/places/{code}.yaml"
    data = plain(CONTENT / "places" / f"{code}.yaml", name)
    if not isinstance(data, dict):
        message = f"{name} holds no facts"
        raise ValueError(message)
    if unknown := set(data) - {"name", "zones", *_FACTS}:
        message = f"{name}: {', '.join(sorted(unknown))} is no fact of a place"
        raise ValueError(message)
    zones = data.get("zones")
    return Pack(
        code=code,
        name=str(data["name"]),
        zones=tuple(str(zone) for zone in zones) if isinstance(zones, list) else (),
        facts=MappingProxyType({key: _fact(data[key]) for key in _FACTS if key in data}),
        marks=_marks(data.get("marks")),
    )


def _fact(written: yamlfile.Plain) -> Fact:
    assert isinstance(written, dict)  # noqa: S101 -- our own files, checked by a test
    return Fact(
        said=str(written.get("is") or ""),
        who=str(written.get("who") or ""),
        law=str(written.get("law") or ""),
        source=str(written["source"]),
    )


def _marks(written: yamlfile.Plain) -> Marks:
    if not isinstance(written, dict):
        return MARKS
    group = str(written["group"])
    return Marks(str(written["decimal"]), "\N{NO-BREAK SPACE}" if group == "space" else group)
