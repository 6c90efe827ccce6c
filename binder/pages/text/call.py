"""Numbers to call: what stands for them where the owner wrote none, and how a phone dials."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder import places
from binder.pages.text.rich import Link, Rich, rich

if TYPE_CHECKING:
    from binder.farm.model import FarmFile
    from binder.pages.text.words import Words


def phone(number: str) -> Rich:
    """Return a telephone number that a phone can dial."""
    digits = "".join(sign for sign in number if sign.isdigit() or sign == "+")
    return rich(Link(number, f"tel:{digits}")) if digits else rich(number)


def poison_line(about: FarmFile, emergency: str, words: Words) -> str:
    """Return whom to call about poison: the owner's line, else the country's."""
    if about.poison_line:
        return about.poison_line
    found = about.pack.facts.get("poison")
    if found is None:
        return words.text("country.poison.none", emergency=emergency)
    key = "us" if about.pack.code == places.HOME else "any"
    return words.text(f"country.poison.{key}", said=found.said, who=found.who)
