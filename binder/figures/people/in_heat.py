"""People in the heat: work and rest, drinking, getting used to it (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures import published
from binder.figures.bands.band_charts import top_row
from binder.figures.bands.farm_bands import hottest_planned
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, step
from binder.figures.people.work_rest import (
    EFFORTS,
    SUNS,
    WorkRest,
    stricter_of,
    work_rest,
)
from binder.figures.rules import quantity, rule
from binder.science.humidity import relative_humidity_pct
from binder.science.ranges import require_positive
from binder.units import Amount, difference_c

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.display import System
    from binder.farm.model import Farm
    from binder.figures.weather.hot_days import DayWeather

__all__ = [
    "ENTRIES",
    "PeopleFigures",
    "WorkRest",
    "for_farm",
    "helper_drink",
    "new_helper",
    "work_rest",
]

ML_PER_L = 1000.0
NEW, RETURNING = "new", "returning"
HOT_DAY = "hot day"


def helper_drink(hours: float | None = None, subject: str = "") -> Figure:
    """Return what one person who works in the heat drinks [mL].

    Args:
        hours: time at work [h], more than 0; one hour where None.
        subject: what on the farm it is about.

    Raises:
        ValueError: a time that is not above 0.

    References:
        heat-5, heat-6 (a cup each 15 to 20 minutes, upper limit), heat-4, heat-8 (the same).
    """
    at_work_h = 1.0 if hours is None else hours
    require_positive(at_work_h, "time at work", "h")
    cup, most = _drink("cup", "volume"), _drink("never more an hour", "volume")
    every_min = rule("drinking", "least minutes between cups", "time").value * MINUTES_IN_HOUR
    seldom_min = rule("drinking", "most minutes between cups", "time").value * MINUTES_IN_HOUR
    hourly_ml = cup.value * MINUTES_IN_HOUR / every_min
    total = Amount(hourly_ml * at_work_h, "mL")
    cool_c = rule("drinking", "water no warmer than", "temperature").value
    working = (
        step("cup", cup=cup, every=round(every_min), seldom=round(seldom_min)),
        step("hourly", hourly=Amount(hourly_ml, "mL")),
        step("total", hours=Amount(at_work_h, "h"), total=total),
        step("cool", cool=Amount(cool_c, "degC")),
        step("most", most=most),
    )
    sources = published.formula("people_formulas", "helper-drink")
    return Figure("helper-drink", total, working, sources, ("too_much", "ill"), subject)


def _drink(name: str, kind: str) -> Amount:
    return Amount(rule("drinking", name, kind).value * ML_PER_L, "mL")


def new_helper(day: int, returning: str = "no", subject: str = "") -> Figure:
    """Return the share of a full day's work in the heat on a day [%].

    Args:
        day: 1 for the first day in the heat.
        returning: yes for somebody who was used to heat and was away; no for a new helper.
        subject: what on the farm it is about.

    Raises:
        NotPublishedError: a day before the first.

    References:
        heat-5: new 20 % and 20 % more a day; returning 50, 60, 80, 100 %.
    """
    if day < 1:
        message = f"day {day} is before the first; the schedule starts on day 1"
        raise NotPublishedError(message)
    helper = RETURNING if returning == "yes" else NEW
    rows = [row for row in published.rows("acclimatise") if row.text("helper") == helper]
    row = next((row for row in rows if row.number("day") == day), rows[-1])
    share = Amount(quantity(row, "share", "share"), "%")
    key = "day" if day <= rows[-1].number("day") else "later"
    working = (step(key, day=day, share=share, full=round(rows[-1].number("day"))),)
    cautions = (helper, "watch")
    return Figure("new-helper", share, working, row.sources, cautions, subject)


@dataclass(frozen=True, slots=True)
class PeopleFigures:
    """People's work on the farm's hot day.

    Attributes:
        work_rest: at the day's high, by (effort, sun).
        by_temperature: minutes for whole degrees of a thermometer at the hot day's dew point:
            (temperature [C], humidity [%], minutes by (effort, sun)); hottest first. At one dew
            point the air dries as it warms, and the published steps of humidity are coarse: so
            that a hotter row never reads milder, each row keeps what a cooler one already asks
            (our choice, the stricter side).
        drink: what one person drinks in an hour.
        new: shares of a full day for a new helper, day 1 first.
        returning: the same for a helper who was away.
    """

    work_rest: Mapping[tuple[str, str], Figure]
    by_temperature: tuple[tuple[float, float, Mapping[tuple[str, str], str]], ...]
    drink: Figure
    new: tuple[Figure, ...]
    returning: tuple[Figure, ...]


def _humidity_at(temp_c: float, hot: DayWeather) -> float:
    return relative_humidity_pct(temp_c, min(hot.dew_point_c, temp_c))


def _cells(temp_c: float, rh_pct: float, subject: str = "") -> dict[tuple[str, str], Figure]:
    return {
        (effort, sun): work_rest(
            temp_c, effort, rh_pct, sun, subject and f"{subject} {effort} {sun}"
        )
        for effort in EFFORTS
        for sun in SUNS
    }


def _schedule(helper: str) -> tuple[Figure, ...]:
    days = [
        round(row.number("day"))
        for row in published.rows("acclimatise")
        if row.text("helper") == helper
    ]
    answer = "yes" if helper == RETURNING else "no"
    return tuple(new_helper(day, answer, f"{helper} {day}") for day in days)


def _table_rows(system: System, worst_c: float | None) -> tuple[float, ...]:
    """Return the temperatures of the farm's own work and rest table [C], hottest first."""
    hottest, coolest = (
        rule("band_rules", name, "temperature").value
        for name in (top_row(system, worst_c), f"coolest row {system}")
    )
    wide = rule("band_rules", f"row step {system}", "number").value
    step_c = difference_c(wide, system)
    count = round((hottest - coolest) / step_c)
    return tuple(hottest - place * step_c for place in range(count + 1))


def for_farm(farm: Farm, hot: DayWeather) -> PeopleFigures:
    """Return people's work, rest and drinking on a farm's hot day.

    Args:
        farm: the farm.
        hot: its typical hot day (`weather.hot_day`).
    """
    table: list[tuple[float, float, dict[tuple[str, str], str]]] = []
    strictest: dict[tuple[str, str], str] = {}
    for temp_c in reversed(_table_rows(farm.about.units, hottest_planned(farm))):
        rh_pct = _humidity_at(temp_c, hot)
        for key, figure in _cells(temp_c, rh_pct).items():
            strictest[key] = stricter_of(strictest.get(key), str(figure.value))
        table.append((temp_c, rh_pct, dict(strictest)))
    table.reverse()
    return PeopleFigures(
        work_rest=_cells(hot.high_c, _humidity_at(hot.high_c, hot), HOT_DAY),
        by_temperature=tuple(table),
        drink=helper_drink(subject="hour"),
        new=_schedule(NEW),
        returning=_schedule(RETURNING),
    )


ENTRIES = (
    Entry(
        "work-rest",
        (
            Argument("temperature", "temperature"),
            Argument("effort", "text", choices=EFFORTS),
            Argument("humidity", "share"),
            Argument("sun", "text", choices=SUNS, default="full"),
        ),
        work_rest,
    ),
    Entry("helper-drink", (Argument("hours", "time", optional=True),), helper_drink),
    Entry(
        "new-helper",
        (
            Argument("day", "whole"),
            Argument("returning", "text", choices=("no", "yes"), default="no"),
        ),
        new_helper,
    ),
)
