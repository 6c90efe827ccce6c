"""A pen on one page, for the days of a stay: its rounds stand on the visits, not here again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages import pens
from binder.pages.claims import stated
from binder.pages.feed import feed_facts
from binder.pages.pack import numbers_page
from binder.pages.pack.alone import NUMBERS
from binder.pages.sheet import Filled
from binder.pages.stays import stay_sheet
from binder.pages.stays.stay_jobs import elsewhere
from binder.pages.text import template
from binder.pages.water import water_facts

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.rich import Text
    from binder.pages.views import PenView


def _born(context: Context, plan: Plan, pen: PenView) -> tuple[Text, ...]:
    """Return what a mother in a pen is fed from the day after a birth in the stay."""
    found = feed_facts.after_birth(context, plan)
    return tuple(
        context.say("feed.born", line=found[view.group].line)
        for view in pen.feeds
        if view.group in found
    )


def _least(context: Context, plan: Plan, pen: str) -> str:
    """Return how little is too little from a waterer, also once young are born."""
    said = [water_facts.least_flow(context, pen)]
    if any(birth.slow_after for birth in plan.births if birth.pen == pen):
        said.append(context.w("drinker.slow_after"))
    return " ".join(filter(None, said))


def page(context: Context, plan: Plan, pen: PenView) -> Filled:
    """Return the page of one pen."""
    known = {
        "w": context.w,
        "pen": pen,
        "number": context.sheets[pen.slug],
        "dates": stay_sheet.dates(context, plan),
        "wrong": pens.wrong(context, pen),
        "water": stay_sheet.pen_water(context, plan, pen.id),
        "born": _born(context, plan, pen),
        "least": _least(context, plan, pen.id),
        "elsewhere": tuple(elsewhere(context, plan, pen.id)),
        "charts": context.sheet(NUMBERS),
        "help": numbers_page.help_at_four(
            context, vet=any("vet" in ask.do for ask in pen.asks)
        ),
    }
    return Filled(
        title=pen.name,
        body=template.page("parts/pack-pen.html", known),
        summary=pen.who or context.w("pen.nobody"),
        kind="pack pen",
        claims=stated.back_in(pen.id, pen.intervals) if pen.groups else (),
    )
