"""Which sheets the binder of a farm has: those that the program makes, and its protocols."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from binder.data import CONTENT
from binder.languages import ENGLISH
from binder.pages.book.numbering import other_numbers, refuse_clashes
from binder.pages.book.registry import TABS, Planned, sheets_of
from binder.pages.readiness import readiness_sheet
from binder.pages.text.protocol_file import Protocol, load_folder, load_texts
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.figures.figures import Figures
    from binder.figures.finding import Finding

NONE: Mapping[str, str] = MappingProxyType({})
MAINTAINED = "content/protocols"


@dataclass(frozen=True, slots=True)
class Contents:
    """The sheets of one binder.

    Attributes:
        made: those that the program makes.
        protocols: the instructions, maintained and the farm's own.
        numbers: slug -> number of every sheet that another may lead to, in binder order.
    """

    made: tuple[Planned, ...]
    protocols: tuple[Protocol, ...]
    numbers: Mapping[str, str]


def plan_of(
    figures: Figures,
    owner_texts: Mapping[str, str],
    shown_tags: frozenset[str],
    numbered: Mapping[str, str] = NONE,
) -> Contents:
    """Return the sheets of a farm's binder.

    Args:
        figures: of the farm.
        owner_texts: the farm's own protocols, text by file name.
        shown_tags: what the farm has, for choosing protocols.
        numbered: slug -> number in the binder of the whole farm, where this is its public part:
            its sheets keep their numbers.

    Raises:
        ProblemsError: a mistake in any front matter; two sheets of one name or one number.
    """
    made = tuple(
        replace(one, number=numbered.get(one.slug, one.number)) for one in sheets_of(figures)
    )
    protocols = _choose(owner_texts, shown_tags, figures.farm.about.language)
    refuse_clashes(protocols, made, tuple(TABS))
    numbers = {one.slug: one.number for one in made if not one.copy}
    numbers |= {one.slug: one.sheet for one in protocols}
    return Contents(
        made, protocols, dict(sorted(numbers.items(), key=lambda item: place(item[1])))
    )


def place(number: str) -> tuple[int, int]:
    """Return where a sheet stands in the binder, by its number."""
    return tuple(TABS).index(number[0]), int(number[1:])


def maintained_in(language: str) -> tuple[Protocol, ...]:
    """Return every maintained protocol in a language, by sheet."""
    return load_folder(CONTENT / "protocols" / language, f"{MAINTAINED}/{language}")


def _choose(
    owner_texts: Mapping[str, str], shown_tags: frozenset[str], language: str
) -> tuple[Protocol, ...]:
    """Return the protocols of this farm: maintained ones that fit, the owner's own in place.

    Raises:
        ProblemsError: a mistake in any front matter, or an owner's sheet that takes the number
            of a maintained one under another name.
    """
    maintained = {one.slug: one for one in maintained_in(language)}
    own = {one.slug: one for one in load_texts(owner_texts, owner=True)}
    problems = other_numbers(own.values(), maintained)
    if problems:
        raise ProblemsError(problems)
    both = maintained | own
    return tuple(one for one in both.values() if one.owner_version or one.shown(shown_tags))


def outdated(owner_texts: Mapping[str, str]) -> tuple[Finding, ...]:
    """Return the owner's protocols that are older than the maintained ones they stand for.

    Raises:
        ProblemsError: a mistake in any front matter.
    """
    own = tuple(load_texts(owner_texts, owner=True))
    if not own:
        return ()
    return readiness_sheet.changed(own, maintained_in(ENGLISH))
