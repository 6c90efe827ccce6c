"""Work and rest in the heat, minutes of each hour (step 3)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from binder.clock import MINUTES_IN_HOUR
from binder.figures import published
from binder.figures.bands.band_rule import FULL_RH_PCT, Band, fahrenheit, people_band
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.noise import NOISE
from binder.science.ranges import require_within
from binder.units import Amount, difference_c

if TYPE_CHECKING:
    from binder.figures.figure import Step
    from binder.figures.published import Row

TABLE, ADJUST, BY_BAND = "work_rest", "work_rest_adjust", "work_rest_bands"
FORMULAS = "people_formulas"
EFFORTS = ("light", "moderate", "heavy")
SUNS = ("full", "part", "none")
NORMAL, CAUTION = "normal", "caution"


@dataclass(frozen=True, slots=True)
class WorkRest:
    """Minutes of work and rest in an hour; what is not work is rest.

    Attributes:
        word: `45/15`, `normal` (no extra rest) or `caution` (stop).
        work_min: minutes of work, 60 for normal, 0 for caution.
    """

    word: str
    work_min: int


def _minutes(word: str) -> WorkRest:
    if word == NORMAL:
        return WorkRest(word, MINUTES_IN_HOUR)
    if word == CAUTION:
        return WorkRest(word, 0)
    return WorkRest(word, int(word.partition("/")[0]))


def _added(what: str, case: str) -> Row:
    return published.row(ADJUST, what=what, case=case)


def _humidity_row(rh_pct: float) -> Row:
    """Return the adjustment for a humidity: the higher row between two, the last above all."""
    rows = [row for row in published.rows(ADJUST) if row.text("what") == "humidity"]
    return next((row for row in rows if rh_pct <= row.number("case") + NOISE), rows[-1])


def _by_table(adjusted_f: float, effort: str) -> WorkRest:
    """Return what the table says; whole degrees, rounded up."""
    whole = math.ceil(adjusted_f - NOISE)
    rows = published.rows(TABLE)
    if whole < rows[0].number("from"):
        return _minutes(NORMAL)
    for row in rows:
        if whole <= row.number("to"):
            return _minutes(row.text(effort))
    return _minutes(CAUTION)


def _stricter(found: WorkRest) -> WorkRest:
    """Return the next stricter minutes in the table; normal and caution stay."""
    ladder = _ladder(published.rows(TABLE))
    place = ladder.index(found)
    if found.word in (NORMAL, CAUTION):
        return found
    return ladder[place + 1]


@lru_cache(maxsize=2)
def _ladder(rows: tuple[Row, ...]) -> tuple[WorkRest, ...]:
    """Return all that a table says, from the most work to the least."""
    words = {row.text(effort) for row in rows for effort in EFFORTS}
    return tuple(sorted((_minutes(word) for word in words), key=lambda each: -each.work_min))


def stricter_of(first: str | None, second: str) -> str:
    """Return the printed word that leaves fewer minutes of work, `second` if it is alone.

    Args:
        first: such as `40/20`, `Normal` or `Caution`, None for nothing yet.
        second: another.
    """
    if first is None:
        return second
    return min(second, first, key=lambda word: _minutes(word.lower()).work_min)


def _by_band(band: Band, effort: str) -> WorkRest:
    for row in published.rows(BY_BAND):
        if row.text("band") == band.key:
            return _minutes(row.text(effort))
    return _minutes(NORMAL)


def work_rest(
    temperature: float,
    effort: str,
    humidity: float,
    sun: str = "full",
    subject: str = "",
) -> Figure:
    """Return minutes of work/rest in each hour, such as `20/40`, `Normal` or `Caution`.

    Args:
        temperature: air temperature in the shade [C], -20 or above.
        effort: light, moderate or heavy.
        humidity: relative humidity [%], 0 to 100.
        sun: full, part (part cloud or overcast) or none (shade, no shadows, night).
        subject: what on the farm it is about.

    Raises:
        ValueError: a humidity outside 0 to 100 %, or air colder than the heat index goes.

    References:
        heat-7 (table), heat-75 (adjustments), heat-4 (bands above 60 % humidity).
    """
    require_within(humidity, 0.0, FULL_RH_PCT, "relative humidity", "%")
    in_sun, damp = _added("sun", sun), _humidity_row(humidity)
    adjusted_f = fahrenheit(temperature) + in_sun.number("add") + damp.number("add")
    found = _by_table(adjusted_f, effort)
    working = [
        step("given", temperature=Amount(temperature, "degC"), humidity=Amount(humidity, "%")),
        step("sun", sun=sun, add=_difference(in_sun)),
        step("humidity", add=_difference(damp)),
        step(
            "adjusted", adjusted=Amount(adjusted_f, "degF"), effort=effort, minutes=found.word
        ),
    ]
    sources = merge_sources(
        published.formula(FORMULAS, "work-rest"), in_sun.sources, damp.sources
    )
    if humidity > damp.number("case") + NOISE:
        found = _damp_air(found, temperature, humidity, effort, working)
        sources = merge_sources(sources, published.formula(FORMULAS, "work-rest in damp air"))
    cautions = ("stop",) if found.word == CAUTION else ()
    return Figure(
        "work-rest", found.word.capitalize(), tuple(working), sources,
        (*cautions, "fit", "new"), subject,
    )  # fmt: skip


def _difference(row: Row) -> Amount:
    return Amount(difference_c(row.number("add"), "us"), "delta_degC")


def _damp_air(
    found: WorkRest, temp_c: float, rh_pct: float, effort: str, working: list[Step]
) -> WorkRest:
    """Return the strictest of the table, one step on, and the band; adds the working."""
    band = people_band(temp_c, rh_pct)
    one_on, by_band = _stricter(found), _by_band(band, effort)
    strictest = min(found, one_on, by_band, key=lambda each: each.work_min)
    working.append(step("damp", one_on=one_on.word))
    working.append(step("band", band=band.word, minutes=by_band.word))
    working.append(step("strictest", minutes=strictest.word))
    return strictest
