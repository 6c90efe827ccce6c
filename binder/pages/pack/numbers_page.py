"""The numbers on two pages: how to read the air, every chart in small, when to be back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.figures.bands.band_rule import PEOPLE, Band
from binder.pages import slugs
from binder.pages.bands import joint_charts
from binder.pages.book import names
from binder.pages.claims import stated
from binder.pages.pack.alone import BREATHS, NUMBERS
from binder.pages.sheet import Block, Heading, Paragraph, Raw, Sheet, Table
from binder.pages.stays import stay_lines, who_comes
from binder.pages.text.listing import lower_first
from binder.pages.text.rich import joined

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from binder.figures.bands.band_charts import Chart
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.pack.told import Told
    from binder.pages.text.rich import Rich, Text
    from binder.pages.views import PenView
    from binder.pages.whole import Whole

# Our choice: of the charts in the binder every second row, the hottest among them. Whoever is
# between two takes the hotter, as on the others.
_EVERY = 2
TROUBLE, WORK = "pig-in-heat-trouble", "work-and-rest"


def page(context: Context, plan: Plan, whole: Whole, told: Told) -> Sheet:
    """Return the numbers of the stay's animals and of people."""
    w = context.w
    pens = tuple(view for view in whole.pens if view.groups)
    blocks: list[Block] = [
        Raw(charts(context, pens)),
        Paragraph(names.one_higher(context)),
        Heading(w("pack.numbers.back")),
        _back(context, pens),
        Paragraph(joined(_beside(context, plan, told), " "), small=True),
        *told.parts("reading-the-air"),
        *(told.parts(BREATHS) if _has_breaths(context) else ()),
        *told.parts(BREATHS, "breaths-at-rest"),
    ]
    return Sheet(
        title=w("pack.numbers.title"),
        answer=(w("pack.numbers.answer", between=w("pocket.between")),),
        blocks=tuple(blocks),
        summary=w("pack.numbers.summary"),
        kind="pack small-charts",
        claims=tuple(one for view in pens for one in stated.back_in(view.id, view.intervals)),
    )


def _has_breaths(context: Context) -> bool:
    """Return whether this page, and not that of looks, tells how to count breaths."""
    return context.sheets.get(BREATHS) == context.sheets.get(NUMBERS)


def _beside(context: Context, plan: Plan, told: Told) -> Iterator[Text]:
    if stay_lines.has_night(plan) and slugs.looks(plan) in context.sheets:
        yield context.say("stay.night_on", sheet=context.sheet(slugs.looks(plan)))
    yield context.w("pack.numbers.same")
    if BREATHS in told.protocols and not _has_breaths(context):
        yield context.say("pack.numbers.breaths", sheet=context.sheet(BREATHS))
    yield help_at_four(context)
    if WORK in context.sheets:
        yield own_number(context, "pack.numbers.you", context.sheet(WORK))
    if TROUBLE in context.sheets:
        yield context.say("pack.numbers.wet", sheet=context.sheet(TROUBLE))


def own_number(context: Context, word: str, sheet: Text = "") -> Rich:
    """Return what a person's own number asks, beside the sheet of work and rest.

    Args:
        context: of the pack.
        word: the line, which names `{severe}` and `{all_hands}`.
        sheet: whose minutes of rest count unless the number is stricter, where it names one.
    """
    severe, all_hands = (
        context.w(f"asks.do.people.{band.key}") for band in (Band.SEVERE, Band.ALL_HANDS)
    )
    return context.say(word, sheet=sheet, severe=severe, all_hands=all_hands)


def help_at_four(context: Context, *, vet: bool = False) -> Rich:
    """Return whom to phone where a pen is at 4, from where, and what with several such pens.

    Args:
        context: of the pack.
        vet: give the vet's number too, as what the pen asks names the vet.
    """
    owner = context.call("owner")
    people = who_comes.in_order(context)
    key = "help" if people else "help_one"
    said: list[Text] = [
        context.say(f"pack.numbers.{key}", owner=owner, people="; ".join(people))
    ]
    if vet:
        said.append(context.say("pack.numbers.vet", vet=context.call("vet")))
    signal = context.farm.about.place.phone_signal
    if signal:
        said.append(context.w("pack.numbers.help_signal", signal=lower_first(signal)))
    return joined((*said, context.w("pack.numbers.help_more")), " ")


def charts(context: Context, pens: Sequence[PenView], most: int = 99) -> Markup:
    """Return every chart in small, two side by side; charts whose cells agree are one.

    Args:
        context: of the pack.
        pens: those with animals.
        most: with more than so many, three stand side by side.
    """
    grids = list(small(context, pens))
    share = "half" if len(grids) <= most else "third"
    found = Markup("").join(
        Markup('<div class="{}"><h3>{}</h3>{}</div>').format(share, head, cells)
        for head, cells in grids
    )
    return Markup('<div class="halves">{}</div>').format(found)


def small(context: Context, pens: Sequence[PenView]) -> Iterator[tuple[str, Markup]]:
    """Yield each different chart as a grid, with the pens that are read from it."""
    for together in joint_charts.alike(_used(context, pens)):
        said = [context.w(f"asks.head.{chart.name}") for chart in together]
        places = _pens_of(pens, {chart.name for chart in together})
        head = " · ".join((*said, *([places] if places else [])))
        yield head, joint_charts.grid(together[0], rows=_EVERY)


def _used(context: Context, pens: Sequence[PenView]) -> Iterator[Chart]:
    """Yield the charts that a pen is read from on the days of the stay, and that of people."""
    named = {name for pen in pens for name in pen.charts} | {PEOPLE}
    for name, chart in context.figures.bands.charts.items():
        if name in named:
            yield chart


def _pens_of(pens: Sequence[PenView], names_of: set[str]) -> str:
    return ", ".join(pen.name for pen in pens if names_of.intersection(pen.charts))


def _back(context: Context, pens: Sequence[PenView]) -> Table:
    """Return how soon to be back in each pen at each number."""
    heads = (
        context.w("pen.pen"),
        *(f"{int(band)} {context.w(f'band.{band.key}')}" for band in Band),
    )
    rows = tuple((pen.name, *(pen.every(band.key) for band in Band)) for pen in pens)
    return Table(heads, rows, kind="facts tight wide")
