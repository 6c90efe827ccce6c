"""Bands: the figure that says which band it is and why, and all of a farm's (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.bands import heat_indices
from binder.figures.bands.band_charts import Chart, chart, chart_of, finder_table
from binder.figures.bands.band_rule import (
    AIR,
    INDEX,
    PEOPLE,
    Band,
    band,
    heat_line_c,
    is_banded,
    ladder,
    people_band,
    people_index_f,
    people_line,
    verdict,
)
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, merge_sources, step
from binder.science.heat import COLDEST_C
from binder.science.humidity import relative_humidity_pct
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.farm.model import Farm
    from binder.figures.bands.band_rule import Rung, Verdict
    from binder.figures.figure import Step
    from binder.figures.herd.groups import Herd
    from binder.figures.weather.hot_days import DayWeather

__all__ = [
    "ENTRIES",
    "Band",
    "BandFigures",
    "Chart",
    "band",
    "band_figure",
    "chart",
    "finder_table",
    "for_farm",
    "heat_line_c",
    "is_banded",
    "people_band",
    "people_band_figure",
]

FORMULAS = "band_formulas"
HOT_DAY = "hot day"  # subject of figures about the farm's typical hot day
_LABOUR = ("late-gestation sow",)  # the class whose quick breath can be labour
_OWN_CAUTION = {"goats and sheep": "sheep", "dogs": "dog", "horses": "horse", "poultry": "bird"}


def _passed(line: Rung, cls: str) -> Step:
    start: Amount | float = Amount(line.start, "degC") if line.measure == AIR else line.start
    return step(f"own_{line.measure}", cls=cls, start=start, band=line.band.word)


def _own_lines(cls: str, passed: Mapping[str, Rung]) -> tuple[Step, ...]:
    """Return what the class's own lines say: each measure that has lines, passed or not."""
    lines = ladder(cls)
    if not lines:
        return (step("no_ladder", cls=cls),)
    own = passed.get(INDEX)
    first = (_passed(own, cls),) if own in lines and own else ()
    return first + tuple(
        _passed(passed[measure], cls)
        if measure in passed
        else step(f"own_{measure}_none", cls=cls)
        for measure in dict.fromkeys(line.measure for line in lines)
        if measure != INDEX
    )


def _measured(cls: str, found: Verdict) -> tuple[Step, ...]:
    """Return what the index and the class's own lines say; air below both has one line."""
    if found.index is None or found.whole is None:
        return (step("cold", coldest=Amount(COLDEST_C, "degC")),)
    passed = {line.measure: line for line in found.passed}
    by_index = passed[INDEX].band if INDEX in passed else Band.FINE
    return (
        step(
            "index", index=Amount(found.index, "index"), whole=found.whole, band=by_index.word
        ),
        *_own_lines(cls, passed),
    )


def band_figure(
    cls: str,
    temp_c: float,
    rh_pct: float,
    all_hands_index: int | None = None,
    subject: str = "",
) -> Figure:
    """Return the band of the air for a class, with the rule that decided it.

    Args:
        cls: a name of `content/published/herd/classes.csv`.
        temp_c: air temperature in the shade [C], up to 50; below -20 it is number 0.
        rh_pct: relative humidity [%], 0 to 100.
        all_hands_index: the owner's own start of All hands on the index; None for ours.
        subject: what on the farm it is about.

    Raises:
        NotPublishedError: no such class, or a young one that needs warmth.
        ValueError: air hotter than the index goes, or an impossible humidity.

    References:
        heat-97 (classes of the index), heat-73 (whole numbers), heat-12 (formula);
        ladders.csv, line by line.
    """
    found = verdict(cls, temp_c, rh_pct, all_hands_index)
    working = (
        step("given", temperature=Amount(temp_c, "degC"), humidity=Amount(rh_pct, "%")),
        *_measured(cls, found),
        step("worse", band=found.band.word, number=int(found.band)),
    )
    sources = merge_sources(
        published.formula(FORMULAS, "band"), *(line.sources for line in ladder(cls))
    )
    own = _OWN_CAUTION.get(chart_of(cls))
    cautions = (
        "shade",
        "no_discount",
        *(("labour",) if cls in _LABOUR else ()),
        *((own,) if own else ()),
    )
    return Figure("band", found.band.word, working, sources, cautions, subject)


def people_band_figure(temp_c: float, rh_pct: float, subject: str = "") -> Figure:
    """Return the band of the air for people, in the shade and light wind.

    Args:
        temp_c: air temperature in the shade [C]; beyond the published chart the worst band is
            given.
        rh_pct: relative humidity [%], 0 to 100.
        subject: what on the farm it is about.

    Raises:
        ValueError: a humidity outside 0 to 100 %.

    References:
        heat-1, heat-3, heat-4; the safer of the two schemes, named by us (people_bands.csv).
    """
    index_f = people_index_f(temp_c, rh_pct)
    line = people_line(temp_c, rh_pct)
    found = line.band if line else Band.FINE
    given = step("given", temperature=Amount(temp_c, "degC"), humidity=Amount(rh_pct, "%"))
    measured = (
        step("off_chart")
        if index_f is None
        else step("heat_index", index=Amount(index_f, "degF"))
    )
    decided = (
        step("people", start=Amount(line.start, "degF"), band=found.word)
        if line
        else step("people_none")
    )
    sources = merge_sources(
        published.formula(FORMULAS, "band of people"),
        line.sources if line else published.formula(FORMULAS, "band of people below all lines"),
    )
    working = (given, measured, decided, step("worse", band=found.word, number=int(found)))
    return Figure("band", found.word, working, sources, ("shade", "people_sun"), subject)


@dataclass(frozen=True, slots=True)
class BandFigures:
    """All that bands say about a farm.

    Attributes:
        charts: chart of each group of classes on the farm, then `people`, by name.
        finder: look-up of the band finder, plain lists (see `finder_table`).
        young: classes on the farm that need warmth and have no band.
        hot_day: band of each class at the hottest hour of the typical hot day.
        people: people's band at that hour.
        heat_index: at that hour; None where the air is beyond the published chart, or so cold
            that the formula does not go there.
        livestock_index: at that hour; None where it is colder than the index goes.
    """

    charts: Mapping[str, Chart]
    finder: Mapping[str, object]
    young: tuple[str, ...]
    hot_day: Mapping[str, Figure]
    people: Figure
    heat_index: Figure | None
    livestock_index: Figure | None


def hottest_planned(farm: Farm) -> float | None:
    """Return the highest temperature of the days that the owner wrote down [C]."""
    about = farm.about
    days = (about.hot_day, about.extreme_day, *about.climate.values())
    return max((day.high_c for day in days if day is not None), default=None)


def for_farm(farm: Farm, herd: Herd, hot: DayWeather, later: Iterable[str] = ()) -> BandFigures:
    """Return the charts, the finder and the hot day's bands of a farm.

    Args:
        farm: the farm.
        herd: its herd on the day.
        hot: its typical hot day (`weather.hot_day`).
        later: classes of its herd in the stays to come, whose cards lead to a chart of theirs.
    """
    own = farm.about.all_hands_index
    banded = tuple(cls for cls in herd.classes if is_banded(cls))
    groups = tuple(dict.fromkeys(chart_of(cls) for cls in banded))
    coming = tuple(cls for cls in later if is_banded(cls) and chart_of(cls) not in groups)
    rh_pct = relative_humidity_pct(hot.high_c, min(hot.dew_point_c, hot.high_c))
    off_chart = people_index_f(hot.high_c, rh_pct) is None
    is_cold, index = hot.high_c < COLDEST_C, heat_indices.livestock_index
    no_heat = off_chart or is_cold
    system, worst_c = farm.about.units, hottest_planned(farm)
    heat = None if no_heat else heat_indices.heat_index(hot.high_c, rh_pct, HOT_DAY)
    return BandFigures(
        charts={
            name: chart(name, banded, system=system, all_hands_index=own, worst_c=worst_c)
            for name in groups
        }
        | {
            name: chart(name, coming, system=system, all_hands_index=own, worst_c=worst_c)
            for name in dict.fromkeys(map(chart_of, coming))
        }
        | {PEOPLE: chart(PEOPLE, system=system, worst_c=worst_c)},
        finder=finder_table(banded, own, worst_c),
        young=tuple(cls for cls in herd.classes if not is_banded(cls)),
        hot_day={cls: band_figure(cls, hot.high_c, rh_pct, own, cls) for cls in banded},
        people=people_band_figure(hot.high_c, rh_pct, PEOPLE),
        heat_index=heat,
        livestock_index=None if is_cold else index(hot.high_c, rh_pct, subject=HOT_DAY),
    )


def _asked(temperature: float, humidity: float, **given: str) -> Figure:
    """Answer `binder figure band`: its argument `class` cannot be a name in Python."""
    if given["class"] == PEOPLE:
        return people_band_figure(temperature, humidity)
    return band_figure(given["class"], temperature, humidity)


_CLASSES = (*(row.text("class") for row in published.rows("classes")), PEOPLE)

ENTRIES = (
    *heat_indices.ENTRIES,
    Entry("band", (Argument("class", "text", choices=_CLASSES), *heat_indices.AIR), _asked),
)
