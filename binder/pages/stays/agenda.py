"""The plans as a phone asks them by the hour: which visit, which stops, what is due, what next.

Plain data, read off the plans that the sheets are made of; nothing is worked out here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.figures.rounds.looks import NOBODY, SITTER
from binder.figures.rules import rule
from binder.figures.stays.stay_load import HOT, TYPICAL
from binder.pages import slugs
from binder.pages.stays.stay_sheet import day_lines

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.stays.plan import Plan, Visit
    from binder.pages.context import Context

    Data = dict[str, object]

READING = "reading_rules"


def agenda(context: Context) -> tuple[Data, ...]:
    """Return each plan that has visits: those of stays, then that of an ordinary day.

    Returns:
        For each plan `id`, `sitter`, `first` and `last` day (empty for the ordinary one),
        `slug` of its sheet, `log` of its log; `visits` with `h` [h since midnight], `clock`,
        `title`, `slug` of the card, `takes_h` [h], `meal`, `stops` (pen ids in walking order);
        `looks` and `hot_looks` with `h`, `clock`, `pens`, `by`; `days`, what is due by date;
        `pens` with `id`, `name`, `slug`, `head`.
    """
    plans = (*context.figures.stays.values(), context.figures.plan)
    return tuple(_plan(context, plan) for plan in plans if plan.visits)


def begins_before_h() -> float:
    """Return how long before its time a visit counts as the one to go to [h]: our choice."""
    return rule(READING, "visit begins before", "time").value


def binder_old_days() -> int:
    """Return after how many days pages ask for new ones: our choice."""
    return round(rule(READING, "binder old after", "time").value / HOURS_IN_DAY)


def _plan(context: Context, plan: Plan) -> Data:
    own = plan.is_ordinary
    log = "round-log" if own else slugs.stay_log(plan)
    slug = slugs.looks(plan)
    usual = TYPICAL if TYPICAL in plan.watches else HOT
    return {
        "id": plan.stay.id,
        "sitter": "" if own else plan.stay.sitter,
        "first": "" if own else plan.stay.first.isoformat(),
        "last": "" if own else plan.stay.last.isoformat(),
        "slug": "" if own else slugs.stay(plan),
        "log": {"slug": log, "sheet": context.sheets.get(log, "")},
        "visits": [_visit(context, plan, visit) for visit in plan.visits],
        "looks_slug": "" if own or slug not in context.sheets else slug,
        "looks": list(_looks(context, plan, usual)),
        "hot_looks": list(_looks(context, plan, HOT)) if usual != HOT else [],
        "days": {
            day.on.isoformat(): [str(line) for line in day_lines(context, plan, day)]
            for day in plan.days
            if day.due or day.changes
        },
        "pens": [
            {
                "id": pen,
                "name": context.farm.pen(pen).name,
                "slug": slugs.pen(pen),
                "head": plan.rounds.pens[pen].head,
            }
            for pen in plan.pens
        ],
    }


def _visit(context: Context, plan: Plan, visit: Visit) -> Data:
    takes = max((visit.work.amount.value, *(fit.takes_min for fit in visit.fits.values())))
    slug = slugs.visit(plan, visit)
    clock = context.clock(visit.hour)
    return {
        "h": visit.hour,
        "clock": clock,
        "title": context.w("visit.title", clock=clock),
        "slug": slug if slug in context.sheets else "",
        "takes_h": takes / MINUTES_IN_HOUR,
        "meal": context.w(f"site.hour.meal_{visit.meal}") if visit.meal else "",
        "stops": list(visit.order),
    }


def _looks(context: Context, plan: Plan, load: str) -> Iterator[Data]:
    by = {SITTER: context.w("looks.you"), NOBODY: context.w("looks.nobody")}
    for look in plan.watches[load].looks if load in plan.watches else ():
        yield {
            "h": look.hour % HOURS_IN_DAY,
            "clock": context.clock(look.hour),
            "pens": [context.farm.pen(pen).name for pen in look.pens],
            "by": by.get(look.by, look.by),
        }
