"""My days: each day of the stay with its sun and what is due, and whose work is not mine."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.weather.hot_days import hours
from binder.pages import slugs
from binder.pages.claims import stated
from binder.pages.sheet import Block, Heading, Paragraph, Points, Sheet, Table
from binder.pages.stays import stay_jobs, stay_sheet
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.rich import Text


def page(context: Context, plan: Plan) -> Sheet:
    """Return the days of the stay, one row for days that say the same."""
    w = context.w
    times = str(context.listed(context.clock(hours(time)) for time in sorted(plan.stay.visits)))
    answer = w("stay.answer_no_phone", visits=times)
    if not plan.stay.visits:
        answer = w("stay.answer_no_visits")
    blocks: list[Block] = [
        Table(
            tuple(w(f"stay.day_head.{key}") for key in ("day", "due")),
            stay_sheet.day_rows(context, plan),
            kind="facts tight wide days",
            claims=stay_sheet.day_claims(context, plan),
        )
    ]
    where = tuple(stay_jobs.elsewhere(context, plan))
    if where:
        blocks += [Heading(w("pack.days.where")), Points(where)]
    blocks += stay_jobs.not_yours(context, plan)
    blocks.append(Paragraph(w("pack.days.amounts"), small=True))
    return Sheet(
        title=w("pack.days.title", dates=stay_sheet.dates(context, plan)),
        answer=(answer, _verdict(context, plan)),
        blocks=tuple(blocks),
        summary=w("stay.summary"),
        kind="pack days",
        claims=stated.visits(context, plan),
    )


def _verdict(context: Context, plan: Plan) -> Text:
    """Return whether visits are enough, and the sheet of looks, which tells whom to phone."""
    said, looks = stay_sheet.verdict(context, plan), slugs.looks(plan)
    if looks not in context.sheets:
        return said
    return rich(said.removesuffix("."), " (", context.sheet(looks), ").")
