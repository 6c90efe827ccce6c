"""When a count is short, and how many there are once young are born: one wording in a pack."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages import slugs

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

OUT, PREDATOR, DEAD = "animal-out", "dog-or-predator", "dead-animal"


def short(context: Context, plan: Plan) -> Text:
    """Return what to do when fewer are counted than there should be."""
    said = context.w("pack.count.short")
    if any(slug not in context.sheets for slug in (OUT, PREDATOR, DEAD)):
        return said
    return context.say(
        "pack.count.short_sheets", out=context.sheet(OUT), predator=context.sheet(PREDATOR),
        dead=context.sheet(DEAD), log=context.sheet(slugs.stay_log(plan)),
    )  # fmt: skip


def born(context: Context, plan: Plan) -> Iterator[Text]:
    """Yield, for each birth of a stay, that the living are counted, not what was expected."""
    for birth in plan.births:
        log = context.sheet(slugs.stay_log(plan))
        yield context.say(
            "pack.count.born", pen=context.pen_name(birth.pen), after=birth.head_after, log=log
        )
