"""Step 3, figure: everything that is worked out for a farm on a day."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import TYPE_CHECKING

from binder.farm.model.public import public
from binder.figures import (
    bands,
    bleach,
    day,
    feed,
    herd,
    hoses,
    housing,
    place,
    power,
    readiness,
    rounds,
    season,
    wallows,
    water,
)
from binder.figures.herd import breeding
from binder.figures.nested import APART, every
from binder.figures.people import finder_minutes, in_heat
from binder.figures.published import row
from binder.figures.results import Results
from binder.figures.stays import stay_check, stay_days, stay_load, stay_plan
from binder.figures.stays.visits import meals_given
from binder.figures.supply import farm_supply, water_store
from binder.figures.weather import hot_days
from binder.weather.hours import parse_hours

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from binder.farm.model import Farm, Stay
    from binder.figures.figure import Figure
    from binder.figures.herd.groups import Herd
    from binder.figures.readiness import Readiness
    from binder.figures.weather.daylight import DayAir
    from binder.weather.record import Hour, Record

__all__ = ["Figures", "every", "of_stay", "work_out"]

BOAR = "boar"


@dataclass(frozen=True, slots=True)
class Figures(Results):
    """The result of step 3: what all areas work out.

    Attributes:
        readiness: what the farm lacks, worst first, and what fails first on the day.
        shown: the same for the farm without what its owner marked private, which is all that
            screens get to know; None where nothing is private.
    """

    readiness: Readiness = field(metadata={APART: True})  # its figures are those of the areas
    shown: Figures | None = field(default=None, metadata={APART: True})


def work_out(
    farm: Farm,
    on: dt.date,
    weather_text: str | None = None,
    air_of_day: DayAir | None = None,
    records: Sequence[Record] = (),
) -> Figures:
    """Return all figures of `farm` on the day `on`, and of the part that screens may show.

    Args:
        farm: the checked farm.
        on: the day of the binder.
        weather_text: the farm's own weather record (`weather.csv`), None without one.
        air_of_day: one day's own air, in place of the farm's hot day: figures for that day.
        records: its weather files, to play its season through.

    Raises:
        ProblemsError: the weather record cannot be read.
    """
    rows = _record(farm, weather_text)
    whole, open_part = _figures(farm, on, rows, air_of_day, records), public(farm)
    if open_part is farm:
        return whole
    return replace(whole, shown=_figures(open_part, on, rows, air_of_day, records))


def of_stay(farm: Farm, stay: Stay, weather_text: str | None = None) -> Figures:
    """Return the figures that every sheet made for one stay rests on, as its plan has them.

    Amounts, classes and pens are those of the stay's last day, like the plan's; of dates in the
    herd there are those of all its days. Other stays are as if they were not.

    Args:
        farm: the checked farm, whole.
        stay: one of its stays.
        weather_text: the farm's own weather record (`weather.csv`), None without one.

    Raises:
        ProblemsError: the weather record cannot be read.
    """
    rows = _record(farm, weather_text)
    alone = farm.model_copy(update={"stays": (stay,)})
    found = _figures(alone, stay.last, rows, None, ())
    plan = found.stays[stay.id]
    dated = stay_days.dated(found.herd, plan.days)
    given = meals_given.farm_given(plan, found.feed)
    return replace(found, on=stay.first, herd=dated, feed=given)


def _record(farm: Farm, weather_text: str | None) -> tuple[Hour, ...]:
    """Return the hours of the farm's own record, on its own clock."""
    if not weather_text:
        return ()
    return parse_hours(weather_text, "weather.csv", farm.about.place.timezone or "")


def _figures(
    farm: Farm,
    on: dt.date,
    rows: Sequence[Hour],
    air_of_day: DayAir | None,
    records: Sequence[Record],
) -> Figures:
    """Return all figures of a farm, or of its public part."""
    hot, extreme = hot_days.hot_day(farm, rows), hot_days.extreme_day(farm, rows)
    if air_of_day is not None:
        hot = air_of_day.weather
    animals = herd.for_farm(farm, on)
    banded = bands.for_farm(farm, animals, hot, stay_days.classes(farm, on))
    watered = water.for_farm(farm, animals, hot)
    drinking, drunk_from = watered.need, watered.drinkers
    lines = hoses.for_farm(farm, drinking, hot)
    dug = wallows.for_farm(farm, animals)
    days = _longest_stay(farm, on)
    hours = day.for_farm(farm, animals, hot, rows, air_of_day)
    meals = feed.for_farm(farm, animals)
    walked = rounds.for_farm(farm, animals, lines, dug)
    powered, housed = power.for_farm(farm, animals), housing.for_farm(farm, animals)
    shaded, aired = housed.shade, housed.air
    people = in_heat.for_farm(farm, hot)
    supply = farm_supply.for_farm(
        farm, animals, hot, drinking, lines, dug, _soaking_l_day(meals), _wet_hours(hours)
    )
    cleaning = bleach.for_farm(farm, animals, hot, dug, days)
    stores = water_store.pen_stores(farm, drinking.pens)
    boars = _boars(animals, hours.heat_waves)
    known = {
        figure.key: figure
        for figure in every((
            animals, banded, hours, people, drinking, drunk_from, lines, dug, supply, cleaning,
            shaded, aired, meals, powered, walked, stores, boars,
        ))
    }  # fmt: skip
    weathers = {stay_load.HOT: hot, stay_load.EXTREME: extreme}
    plans = stay_plan.for_farm(farm, on, weathers, rows, lines, known)
    hours, meals = stay_plan.inside(plans, on, hours, meals)
    results = Results(
        farm=farm,
        on=on,
        hot=hot,
        extreme=extreme,
        herd=animals,
        bands=banded,
        day=hours,
        people=people,
        water=drinking,
        drinkers=drunk_from,
        hoses=lines,
        wallows=dug,
        supply=supply,
        cleaning=cleaning,
        shade=shaded,
        air=aired,
        feed=meals,
        power=powered,
        rounds=walked,
        finder_minutes=finder_minutes.minutes(banded.finder),
        stores=stores,
        boars=boars,
        stays=plans,
        stay_checks=stay_check.for_farm(farm, plans, lines, powered),
        plan=stay_plan.ordinary(farm, on, weathers, rows, lines, known),
        ground=place.for_farm(farm),
        season=None,
    )
    if records and hours.day is not None:
        by = season.Plans(results.plan, plans, dug, lines)
        results = replace(results, season=season.for_farm(farm, animals, by, records))
    worked_out = {one.name: getattr(results, one.name) for one in fields(results)}
    return Figures(**worked_out, readiness=readiness.for_farm(results))


def _longest_stay(farm: Farm, on: dt.date) -> int | None:
    """Return the days of the longest stay that is not over [days], None without one."""
    return max((stay_days.length(stay) for stay in farm.stays if stay.last >= on), default=None)


def _wet_hours(day: day.DayFigures) -> float | None:
    """Return the hours of the hot day in which pigs are wetted [h], None where not drawn."""
    if day.day is None:
        return None
    return farm_supply.warm_hours(hour.temp_c for hour in day.day.hours)


def _boars(
    animals: Herd, heat_waves: Sequence[tuple[dt.date, dt.date]]
) -> Mapping[str, Figure]:
    """Return until when each boar's matings may fail, after the last hot spell on record.

    A spell that the boars have got over by the binder's date says nothing any more.
    """
    harmful = int(row("hot_spell").number("harmful_days"))
    spells = [
        last
        for first, last in heat_waves
        if (last - first).days + 1 > harmful and last <= animals.on
    ]
    if not spells:
        return {}
    found = {
        group.animal.called: breeding.boar_fertility(max(spells), group.animal.called)
        for group in animals.groups
        if group.cls == BOAR
    }
    until = animals.on.isoformat()
    return {name: figure for name, figure in found.items() if str(figure.value) >= until}


def _soaking_l_day(meals: feed.FarmFeed) -> float | None:
    """Return the water that soaks feed in a day [L], None where none is soaked."""
    soaked = [
        meal.water.amount.value
        for one in meals.groups
        for meal in (one.morning, one.evening)
        if meal is not None and meal.water is not None
    ]
    return sum(soaked) if soaked else None
