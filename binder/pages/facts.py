"""The farm and its hot day as views: what page templates and protocols may name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder import units
from binder.figures.herd.breeding import BIRTHS, OVERDUE
from binder.figures.rounds.care_times import care_times
from binder.pages.views import DayView, FarmView, MealsView, PlainView
from binder.problems import did_you_mean, quotable

if TYPE_CHECKING:
    from binder.figures.herd.groups import Group
    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context


def farm_view(context: Context) -> FarmView:
    """Return the farm itself."""
    about = context.farm.about
    return FarmView(
        name=about.name,
        address=context.or_missing(about.place.address),
        directions=context.or_missing(about.place.directions),
        owner_says=context.or_missing(about.owner_says),
        thermometer=context.or_missing(about.thermometer),
        hygrometer=context.or_missing(about.hygrometer),
        eggs=context.or_missing(about.eggs),
        phone_signal=about.place.phone_signal or "",
    )


def litters(context: Context) -> tuple[str, ...]:
    """Return each litter at a side, with the day it was born where that is known."""
    on = context.figures.on
    return tuple(
        context.w(
            "feed.litter_born", who=group.animal.called, count=group.litter,
            day=context.short_day(group.animal.farrowed),
        )
        for group in context.figures.herd.groups
        if group.litter and group.animal.farrowed and group.animal.farrowed <= on
    )  # fmt: skip


def due(context: Context) -> tuple[PlainView, ...]:
    """Return the births that are due, soonest first; an overdue one in place of a due one."""
    found = []
    for group in context.figures.herd.groups:
        for event, first, last in group.dates:
            if event in BIRTHS or (event == OVERDUE and first <= context.figures.on):
                found.append((first, group, event, last))
    found.sort(key=lambda item: item[0])
    return tuple(
        PlainView(
            {
                "name": group.animal.called,
                "pen": context.pen_name(group.animal.pen_on(first)),
                "what": context.w(f"event.{event}"),
                "window": context.window(first, last),
                "watch_from": context.short_day(first),
            }
        )
        for first, group, event, last in found
    )


def care(context: Context, name: str) -> str:
    """Return a time of care that several sheets name: `15 minutes`, `30 to 60 minutes`.

    Raises:
        ValueError: there is none of that name.
    """
    known = care_times()
    if name not in known:
        message = f'"{quotable(name)}" is no time of care{did_you_mean(name, known)}'
        raise ValueError(message)
    one = known[name]
    said = units.show_number(one.least)
    if one.most != one.least:
        said = context.w("care.range", least=said, most=units.show_number(one.most))
    return context.w(f"care.{one.unit}", n=said)


def meals(context: Context) -> MealsView:
    """Return the feeding hours of the hot day that suit every class."""
    found = context.figures.day.meals
    if found is None:
        return MealsView(context.missing, context.missing, context.w("feed.answer_unknown"))
    by, start = context.clock(found.morning_by_h), context.clock(found.evening_from_h)
    return MealsView(by, start, _when(context, by, start))


def _when(context: Context, by: str, start: str) -> str:
    """Return when the meals are; inside a stay at its visits, as its cards have it."""
    plan = inside_stay(context)
    inside = meals_at_visits(context, plan) if plan else ""
    if inside:
        return inside
    said = context.w("feed.meals", morning=by, evening=start)
    return f"{said} {context.w('feed.meals_stay')}" if context.figures.stays else said


def meals_at_visits(context: Context, plan: Plan) -> str:
    """Return at which visits of a plan the meals go out; empty where none has a meal."""
    fed = [visit for visit in plan.visits if visit.meal]
    if not fed:
        return ""
    first, last = context.clock(fed[0].hour), context.clock(fed[-1].hour)
    return context.w("feed.meals_inside", morning=first, evening=last)


def inside_stay(context: Context) -> Plan | None:
    """Return the plan of the stay that the binder's day lies in, None outside any."""
    on, plans = context.figures.on, context.figures.stays.values()
    return next((one for one in plans if one.stay.first <= on <= one.stay.last), None)


def day(context: Context) -> DayView:
    """Return the farm's hot day."""
    hot = context.figures.hot
    found = context.figures.day.day
    hottest = hot.hottest_at_h if found is None else found.air.peak_h
    return DayView(
        high=context.degrees(hot.high_c),
        low=context.degrees(hot.low_c),
        dew_point=context.degrees(hot.dew_point_c),
        assumed=hot.assumed,
        hottest_at=context.missing if hottest is None else context.clock(hottest),
        sunrise=context.missing if found is None else context.clock(found.sunrise_h),
        sunset=context.missing if found is None else context.clock(found.sunset_h),
    )


def one(context: Context, group: Group) -> str:
    """Return what one animal is: `boar`, or `sow, 9 piglets` where her young are counted."""
    cls, species = context.w(f"class_one.{group.cls}"), group.animal.species
    if not group.litter:
        return cls
    mother = f"pen.mother.{species}"
    called = context.w(mother) if context.words.has(mother) else cls
    return called + young(context, species, group.litter)


def young(context: Context, species: str, count: int) -> str:
    """Return `, 9 piglets`."""
    key = species if context.words.has(f"pen.litter.{species}") else "any"
    return context.w(f"pen.litter.{key}", n=count)
