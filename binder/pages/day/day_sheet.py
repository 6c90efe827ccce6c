"""The sheet of one day: its air by the hour, each pen's numbers, feed, what to watch for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bands.band_rule import Band
from binder.figures.rounds.looks import SITTER
from binder.figures.stays import stay_check
from binder.figures.stays.plan_watch import watch_of
from binder.figures.stays.stay_load import TODAY, load_of, worst_bands
from binder.figures.weather.forecast import ORIGIN
from binder.pages import findings, slugs
from binder.pages.bands import heat_sheets
from binder.pages.feed import feed_facts
from binder.pages.readiness import readiness_sheet
from binder.pages.sheet import Block, Drawing, Heading, Paragraph, Points, Sheet, Table
from binder.pages.stays import stay_lines
from binder.pages.stays.stay_sheet import number
from binder.pages.text.listing import upper_first
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.figures.day.farm_day import Day
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

DANGER = Band.HOT


def front(context: Context, day: Day, stay: Plan | None) -> Sheet:
    """Return the air of the day by the hour, and each pen's numbers.

    Args:
        context: figures of that very day.
        day: its hours.
        stay: the stay whose visits are made on it, None for none.
    """
    w = context.w
    times = [visit.hour for visit in stay.visits] if stay else []
    drawing = Drawing(heat_sheets.hot_day_drawing(context, day, times), w("typical.drawing"))
    blocks = (
        Paragraph(_air(context, day), small=True),
        drawing,
        Heading(w("daysheet.pens")),
        _pens(context, day),
        *_plan(context, day, stay),
    )
    return _sheet(context, _title(context, day), _answer(context, day, times), blocks)


def back(context: Context, day: Day) -> Sheet:
    """Return what fails first on the day, what is fed, and the hours of each class."""
    w = context.w
    blocks = (
        *readiness_sheet.fails(context),
        Heading(w("daysheet.feed")),
        _feed(context),
        Heading(w("daysheet.classes")),
        _classes(context, day),
    )
    return _sheet(context, w("daysheet.back", title=_title(context, day)), (), blocks)


def _title(context: Context, day: Day) -> str:
    return context.w(
        "daysheet.title",
        day=context.weekday(context.figures.on),
        high=context.degrees(day.weather.high_c),
    )


def _sheet(
    context: Context, title: str, answer: tuple[Text, ...], blocks: tuple[Block, ...]
) -> Sheet:
    return Sheet(
        title=title,
        answer=answer,
        blocks=blocks,
        summary=context.w("daysheet.summary"),
        kind="day",
    )


def _air(context: Context, day: Day) -> str:
    air = day.weather
    return context.w(
        "daysheet.forecast" if air.origin == ORIGIN else "daysheet.given",
        high=context.degrees(air.high_c),
        low=context.degrees(air.low_c),
        dew=context.degrees(air.dew_point_c),
    )


def _answer(context: Context, day: Day, times: Sequence[float]) -> tuple[Text, ...]:
    w = context.w
    worst = day.worst_hours
    if worst is None:
        lines = [w("daysheet.answer_mild")]
    else:
        band = max(max(bands) for bands in day.bands.values())
        lines = [
            w(
                "daysheet.answer_worst",
                first=context.clock(worst[0]),
                last=context.clock(worst[1]),
                band=w(f"band.{band.key}"),
            )
        ]
    meals = context.figures.day.meals
    if meals is not None:
        morning, evening = (
            context.clock(meals.morning_by_h),
            context.clock(meals.evening_from_h),
        )
        lines.append(w("daysheet.answer_meals", morning=morning, evening=evening))
    if times:
        listed = str(context.listed(context.clock(time) for time in times))
        lines.append(w("daysheet.rounds", times=listed))
    lines.append(w("daysheet.night_cool" if day.night_recovers else "daysheet.night_warm"))
    return tuple(lines)


def _pens(context: Context, day: Day) -> Table:
    w = context.w
    figures = context.figures
    worst = worst_bands(figures.farm, figures.herd, day)
    rows = []
    for pen_id in figures.plan.basis.order_at(day.air.peak_h):
        if pen_id not in worst:
            continue
        pen = context.farm.pen(pen_id)
        band = Band(max(worst[pen.id]))
        interval = figures.rounds.pens[pen.id].intervals[band.key]
        wallow = figures.wallows.get(pen.wallow.id) if pen.wallow else None
        rows.append(
            (
                rich(pen.name, " ", context.sheet(slugs.pen(pen.id))),
                number(band),
                _stretch(context, worst[pen.id]),
                context.span(interval.amount.value),
                context.number_both(figures.water.pens.get(pen.id)),
                context.number(wallow.top_up) if wallow else w("daysheet.none"),
            )
        )
    keys = ("pen", "worst", "hot", "back", "water", "wallow")
    heads = tuple(w(f"daysheet.pen_head.{key}") for key in keys)
    return Table(heads, tuple(rows), kind="wide", amounts=(4, 5))


def _stretch(context: Context, bands: Sequence[int]) -> str:
    """Return from when to when a pen is at number 2 or worse, each stretch of the day.

    What the night before left over at midnight is left out, unless it lasts all night.
    """
    found: list[list[int]] = []
    began = next((hour for hour, band in enumerate(bands) if band < DANGER), 0)
    for hour, band in enumerate(bands):
        if band < DANGER or hour < began:
            continue
        if found and found[-1][1] == hour:
            found[-1][1] = hour + 1
        else:
            found.append([hour, hour + 1])
    if found == [[0, HOURS_IN_DAY]]:
        return context.w("daysheet.all_day")
    spans = (
        context.w("daysheet.from_to", first=context.clock(first), last=context.clock(last))
        for first, last in found
    )
    return ", ".join(spans) or context.w("daysheet.none")


def _classes(context: Context, day: Day) -> Table:
    rows = tuple(
        (
            upper_first(context.w(f"classes.{cls}")),
            *(str(bands.count(band)) if band in bands else "" for band in Band),
        )
        for cls, bands in day.bands.items()
    )
    names = (f"{int(band)} {context.w(f'band.{band.key}')}" for band in Band)
    heads = (context.w("daysheet.class_head"), *names)
    return Table(heads, rows, kind="wide", amounts=(1, 2, 3, 4, 5))


def _feed(context: Context) -> Table:
    same = context.w("daysheet.feed_same")
    rows = tuple(
        (
            view.group,
            view.morning,
            same if str(view.evening) == str(view.morning) else view.evening,
        )
        for view in feed_facts.feeds(context)
    )
    heads = tuple(
        context.w(f"daysheet.feed_head.{key}") for key in ("who", "morning", "evening")
    )
    return Table(heads, rows, kind="wide")


def _plan(context: Context, day: Day, stay: Plan | None) -> list[Block]:
    """Return where the stay's visits are too few for this day."""
    if stay is None:
        return []
    figures = context.figures
    load = load_of(figures.farm, figures.herd, TODAY, day, figures.rounds)
    found = stay_check.on_day(figures.farm, stay, load, figures.hoses)
    watch = watch_of(stay.basis, load)
    looks = (
        context.w(
            "daysheet.looks", who=who or context.w("stay.nobody"),
            times=stay_lines.times(context, [one for one in watch.looks if one.by == by]),
        )
        for by in dict.fromkeys(look.by for look in watch.looks)
        for who in (stay.stay.sitter if by == SITTER else by,)
    )  # fmt: skip
    wrong = (f"{findings.sentence(context, one)} {findings.fix(context, one)}" for one in found)
    lines = (*looks, *wrong)
    return [Heading(context.w("daysheet.plan")), Points(lines)] if lines else []
