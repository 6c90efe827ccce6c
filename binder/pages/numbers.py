"""The numbers tab: the working of each figure, the sources with their grades, what is open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.areas import AREAS
from binder.figures.figures import every
from binder.pages import slugs
from binder.pages.context import Context
from binder.pages.page import working_anchor
from binder.pages.sheet import Block, Heading, Paragraph, Points, Raw, Sheet, Table
from binder.pages.text.listing import upper_first
from binder.pages.text.rich import Link, rich
from binder.sources import all_sources

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from binder.figures.figure import Figure
    from binder.figures.figures import Figures
    from binder.pages.text.rich import Rich
    from binder.pages.whole import Whole
    from binder.sources import Source


# The results whose figures belong to an area: fields of `Figures`, in the order they print.
_RESULTS: Mapping[str, tuple[str, ...]] = {
    "herd": ("herd", "boars"),
    "bands": ("bands",),
    "people": ("people",),
    "day": ("day",),
    "water": ("water", "drinkers"),
    "hoses": ("hoses",),
    "wallows": ("wallows",),
    "bleach": ("cleaning",),
    "supply": ("supply", "stores"),
    "housing": ("shade", "air"),
    "feed": ("feed",),
    "power": ("power",),
    "rounds": ("rounds",),
    "stays": ("stays", "stay_checks"),
}
# Areas that share a sheet, or whose sheet has another name; others have one of their own. A
# change of one animal renews the sheets of what changed alone.
_SHEETS = {
    "bands": "heat",
    "people": "heat",
    "day": "heat",
    "supply": "water",
    "bleach": "wallows",
    "housing": "shade",
}
FEW = 3  # our choice
_HEAD = ("id", "grade", "title")
SHEETS = tuple(dict.fromkeys(_SHEETS.get(area, area) for area in AREAS if area in _RESULTS))


def areas(figures: Figures) -> Mapping[str, tuple[Figure, ...]]:
    """Return the figures of each sheet that has any; one of two areas stands in the first."""
    seen: set[str] = set()
    parted: dict[str, list[Figure]] = {sheet: [] for sheet in SHEETS}
    for area in AREAS:
        for name in _RESULTS.get(area, ()):
            for figure in every(getattr(figures, name)):
                if figure.key not in seen:
                    seen.add(figure.key)
                    parted[_SHEETS.get(area, area)].append(figure)
    return {sheet: tuple(found) for sheet, found in parted.items() if found}


def introduction(context: Context) -> Sheet:
    """Return what a figure is, and which sheet holds which workings."""
    w = context.w
    rows = tuple(
        (context.sheet(slugs.workings(area)), w(f"numbers.area.{area}"))
        for area in SHEETS
        if slugs.workings(area) in context.sheets
    )
    heads = (w("labels.sheet"), w("labels.title"))
    return Sheet(
        title=w("numbers.title"),
        answer=(w("numbers.answer"),),
        blocks=(
            Table(heads, rows),
            *(Paragraph(line) for line in context.words.many("numbers.how")),
        ),
        summary=w("numbers.summary"),
        words=w("found_by.workings"),
        kind="numbers",
    )


def workings(context: Context, area: str, found: Iterable[Figure]) -> Sheet:
    """Return every figure of an area with its working, numbers put in."""
    blocks: list[Block] = []
    by_name: dict[str, list[Figure]] = {}
    for figure in found:
        by_name.setdefault(figure.name, []).append(figure)
    for name, figures in by_name.items():
        blocks.append(Heading(context.w(f"{name}.title")))
        alike = _alike(context, figures)
        shared = _shared(context, alike)
        lines = [_working(context, one, shared) for one in alike]
        if shared.steps or shared.sources:
            lines.insert(0, _for_all(context, shared))
        inner = Markup("\n").join(lines)
        blocks.append(Raw(Markup('<div class="workings">{}</div>').format(inner)))
    title = context.w(f"numbers.area.{area}")
    return Sheet(
        title=context.w("numbers.area_title", area=title),
        answer=(),
        blocks=tuple(blocks),
        summary=context.w("numbers.area_summary", area=title),
        words=context.w("found_by.workings"),
        kind="numbers",
    )


@dataclass(frozen=True, slots=True)
class _Shared:
    """What every figure of a name has in its working and rests on: said once above them."""

    steps: tuple[str, ...]
    sources: tuple[str, ...]


def _shared(context: Context, alike: Sequence[Sequence[Figure]]) -> _Shared:
    """Return the steps and sources of all; none of so few that a line more saves none."""
    firsts = [group[0] for group in alike]
    if len(firsts) < FEW:
        return _Shared((), ())
    return _Shared(
        _in_all([_told(context, one) for one in firsts]),
        _in_all([one.sources for one in firsts]),
    )


def _in_all(rows: Sequence[Sequence[str]]) -> tuple[str, ...]:
    return tuple(item for item in dict.fromkeys(rows[0]) if all(item in row for row in rows))


def _for_all(context: Context, shared: _Shared) -> Markup:
    """Return the line above the figures of a name."""
    return Markup('<p class="shared">{} {} <span class="rests">{}</span></p>').format(
        context.w("numbers.for_all"),
        " · ".join(shared.steps),
        _source_words(context, shared.sources),
    )


def _alike(context: Context, figures: Iterable[Figure]) -> list[list[Figure]]:
    """Return figures of one name in groups that share value, working and sources."""
    groups: dict[object, list[Figure]] = {}
    for figure in figures:
        said = (context.value(figure), _told(context, figure), figure.sources)
        groups.setdefault(said, []).append(figure)
    return list(groups.values())


def _working(context: Context, alike: Sequence[Figure], shared: _Shared) -> Markup:
    """Return figures that are alike: whose they are, the value, the working, the sources."""
    whose = "; ".join(upper_first(context.named(one.subject)) for one in alike if one.subject)
    anchors = Markup("").join(
        Markup('<span id="{}"></span>').format(anchor(one)) for one in alike[1:]
    )
    first = alike[0]
    return Markup('<p id="{}">{}<b>{}{}.</b> {} <span class="rests">{}</span></p>').format(
        anchor(first),
        anchors,
        f"{whose}: " if whose else "",
        context.value(first),
        " · ".join(step for step in _told(context, first) if step not in shared.steps),
        _source_words(context, (one for one in first.sources if one not in shared.sources)),
    )


def _unique(context: Context) -> tuple[Figure, ...]:
    return tuple({figure.key: figure for figure in every(context.figures)}.values())


def _told(context: Context, figure: Figure) -> tuple[str, ...]:
    """Return a figure's working; its sheet, its pop-up and finding those alike ask for it."""
    return context.once(Context.working, figure)


def anchor(figure: Figure) -> str:
    """Return the id of a figure's working on its sheet."""
    return working_anchor(figure.key)


def _source_words(context: Context, ids: Iterable[str]) -> str:
    known = all_sources()
    return ", ".join(
        f"{source} [{known[source].grade}]"
        if known[source].grade
        else context.w(f"numbers.kind.{source}")
        for source in ids
    )


def popups(context: Context) -> Mapping[str, str]:
    """Return the working of each figure as HTML, for opening beside its number."""
    return {figure.key: _popup(context, figure) for figure in _unique(context)}


def _popup(context: Context, figure: Figure) -> str:
    lines = [*_told(context, figure), *context.words.cautions(figure)]
    points = Markup("").join(Markup("<li>{}</li>").format(line) for line in lines)
    return str(
        Markup('<h2>{}</h2><p><b>{}</b></p><ul>{}</ul><p class="sources">{}</p>').format(
            context.words.title(figure),
            context.value(figure),
            points,
            _source_words(context, figure.sources),
        )
    )


def _named(context: Context, source: Source) -> Rich:
    """Return who wrote it, what it is called, its year, and how much of it was read.

    A screen leads to the page. Addresses stay off the paper. A copy on another host is no
    address of the publisher's, so nothing leads there.
    """
    read = source.read or ("copy" if source.copy else "")
    said = f" ({context.w(f'numbers.read.{read}')})" if read else ""
    title = source.title.rstrip(".")
    by = f"{source.by.rstrip('.')}. " if source.by else ""
    end = "" if title.endswith("?") and not said else "."
    year = f" {source.year}." if source.year else ""
    if source.url and read != "copy":
        return rich(by, Link(title, source.url), said, end, year)
    return rich(by, title, said, end, year)


def sources(context: Context, whole: Whole) -> Sheet:
    """Return the sources this binder rests on, with their grades, in the order of the list."""
    wanted = frozenset(whole.sources) | {
        one for figure in _unique(context) for one in figure.sources
    }
    none = context.w("numbers.not_said")
    rows = tuple(
        (
            source.id,
            source.grade or none,
            _named(context, source),
        )
        for source in all_sources().values()
        if source.id in wanted
    )
    heads = tuple(context.w(f"numbers.source_head.{key}") for key in _HEAD)
    grades = tuple(
        (grade, context.w(f"numbers.grade.{grade}")) for grade in ("A", "B", "C", "D")
    )
    return Sheet(
        title=context.w("numbers.sources_title"),
        answer=(context.w("numbers.sources_answer"),),
        blocks=(Table((), grades), Table(heads, rows, kind="wide sources")),
        summary=context.w("numbers.sources_summary"),
        words=context.w("found_by.sources"),
        kind="numbers",
    )


def open_points(context: Context) -> Sheet:
    """Return where sources disagree or nothing was found, and what is printed instead."""
    blocks: list[Block] = []
    for part in context.words.items("open-points.parts"):
        blocks.append(Heading(str(part["title"])))
        blocks.append(
            Points(tuple(context.words.with_limits(point) for point in part["points"]))
        )
    blocks.append(Paragraph(context.w("open-points.choice"), small=True))
    return Sheet(
        title=context.w("open-points.title"),
        answer=(context.w("open-points.answer"),),
        blocks=tuple(blocks),
        summary=context.w("open-points.summary"),
        words=context.w("found_by.open"),
        kind="numbers",
    )
