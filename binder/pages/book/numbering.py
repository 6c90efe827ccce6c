"""A sheet's number means one sheet, on paper for years: what would share one is refused."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.problems import Place, Problem, ProblemsError, did_you_mean

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from binder.pages.book.registry import Planned
    from binder.pages.text.protocol_file import Protocol


def refuse_clashes(
    protocols: Iterable[Protocol], made: Collection[Planned], tabs: Collection[str]
) -> None:
    """Refuse a protocol that takes the place of a sheet that the program makes.

    Args:
        protocols: the farm's protocols, maintained and its own.
        made: every sheet that the program makes for this farm, cards and wall charts too.
        tabs: the letters of all tabs.

    Raises:
        ProblemsError: an unknown tab, a name or a number that is taken; all of them.
    """
    computed = {one.slug for one in made}
    taken = {one.number: one.slug for one in sorted(made, key=lambda one: not one.copy)}
    problems = []
    for one in protocols:
        message = ""
        if one.sheet[0] not in tabs:
            message = f'"{one.sheet[0]}" is not a tab{did_you_mean(one.sheet[0], tabs)}'
        elif one.slug in computed:
            message = f"{one.slug} is a sheet that the program makes; name the file otherwise"
        elif one.sheet in taken:
            message = f"{one.sheet} is the sheet of {taken[one.sheet]}; choose a free number"
        if message:
            problems.append(Problem(Place(one.file, one.sheet_line, 1), "sheet", message))
    if problems:
        raise ProblemsError(problems)


def other_numbers(own: Iterable[Protocol], maintained: Mapping[str, Protocol]) -> list[Problem]:
    """Return a problem for each of the owner's protocols that takes another one's number.

    Args:
        own: the owner's protocols.
        maintained: slug -> maintained protocol.
    """
    slugs = {one.sheet: one.slug for one in maintained.values()}
    problems = []
    for one in own:
        message = ""
        if one.slug in maintained and maintained[one.slug].sheet != one.sheet:
            number = maintained[one.slug].sheet
            message = f"{one.slug} is sheet {number}; keep that number, others point to it"
        elif slugs.get(one.sheet, one.slug) != one.slug:
            message = (
                f"{one.sheet} is the sheet of {slugs[one.sheet]}; "
                "name the file like it to replace it, or choose a free number"
            )
        if message:
            problems.append(Problem(Place(one.file, one.sheet_line, 1), "sheet", message))
    return problems
