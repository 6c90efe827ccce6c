"""Band charts (temperature x humidity) and the look-up of the band finder (step 3).

Both read the one band rule, so that print, script and `binder figure` cannot differ.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from binder import units
from binder.figures import published
from binder.figures.bands.band_rule import (
    NO_LADDER,
    PEOPLE,
    RULES,
    Band,
    band,
    index_lines,
    is_banded,
    ladder,
    people_band,
    people_lines,
)
from binder.figures.figure import NotPublishedError, merge_sources
from binder.figures.noise import NOISE
from binder.figures.rules import rule
from binder.problems import did_you_mean
from binder.science.humidity import dew_point_c, relative_humidity_pct
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from binder.display import System

    Judge = Callable[[float, float], Band]

# Of several pig charts for one pen the first of these counts: it warns soonest.
_SOONEST = ("sows with young or due", "sows and boars", "pigs")


@dataclass(frozen=True, slots=True)
class Chart:
    """A band for every temperature and humidity that a thermometer on the farm may show.

    Attributes:
        name: the chart's group of classes, a `chart` of classes.csv, or `people`.
        classes: whose worst band stands in each cell; empty for people.
        system: whose degrees the rows count, `us` or `metric`.
        temps: whole degrees of the rows, hottest first.
        temps_c: the same [C].
        humidities: relative humidity of the columns [%], driest first.
        cells: a row for each temperature; None where air that hot is never that damp.
        dampest_c: the dew point beyond which a cell is left blank [C]; our choice.
        sources: what the cells rest on.
    """

    name: str
    classes: tuple[str, ...]
    system: System
    temps: tuple[int, ...]
    temps_c: tuple[float, ...]
    humidities: tuple[int, ...]
    cells: tuple[tuple[Band | None, ...], ...]
    dampest_c: float
    sources: tuple[str, ...]


def _whole(name: str) -> int:
    return round(rule(RULES, name, "number").value)


def top_row(system: System, worst_c: float | None) -> str:
    """Return the name of the rule that says where charts end: further up in a hotter place.

    Args:
        system: whose degrees the rows count.
        worst_c: the highest temperature that the farm plans for [C]; None where not recorded.
    """
    usual = f"hottest row {system}"
    beyond = worst_c is not None and worst_c > rule(RULES, usual, "temperature").value
    return f"far row {system}" if beyond else usual


def _rows(system: System, worst_c: float | None) -> tuple[int, ...]:
    """Return the whole degrees of a chart's rows, hottest first."""
    hottest, coolest = (
        round(units.convert(Amount(rule(RULES, name, "temperature").value, "degC"), system))
        for name in (top_row(system, worst_c), f"coolest row {system}")
    )
    return tuple(range(hottest, coolest - 1, -_whole(f"row step {system}")))


def _celsius(degrees: int, system: System) -> float:
    return units.parse(f"{degrees} {'F' if system == 'us' else 'C'}", "temperature")


def _worst(classes: Sequence[str], all_hands_index: int | None) -> Judge:
    def judge(temp_c: float, rh_pct: float) -> Band:
        return max(band(cls, temp_c, rh_pct, all_hands_index) for cls in classes)

    return judge


def chart_of(cls: str) -> str:
    """Return the chart a class is read from, empty for the young that need warmth."""
    return published.row("classes", **{"class": cls}).text("chart")


def charts_of(classes: Iterable[str]) -> tuple[str, ...]:
    """Return the charts a pen is read from: one for its pigs, one for each other kind."""
    found = dict.fromkeys(chart_of(cls) for cls in classes if is_banded(cls))
    pigs = [chart for chart in _SOONEST if chart in found]
    return tuple(chart for chart in found if chart not in pigs[1:])


def _members(name: str, classes: Iterable[str] | None) -> tuple[str, ...]:
    """Return whose chart it is: the farm's own of that group, or all of the group.

    Raises:
        NotPublishedError: no class has that chart.
    """
    known = [row.text("class") for row in published.rows("classes")]
    found = tuple(
        dict.fromkeys(
            cls
            for cls in (known if classes is None else classes)
            if is_banded(cls) and chart_of(cls) == name
        )
    )
    if not found:
        groups = dict.fromkeys((*(chart_of(cls) for cls in known if is_banded(cls)), PEOPLE))
        message = f'no class here is read from a chart "{name}"{did_you_mean(name, groups)}'
        raise NotPublishedError(message)
    return found


def chart(
    name: str,
    classes: Iterable[str] | None = None,
    *,
    system: System = "us",
    all_hands_index: int | None = None,
    worst_c: float | None = None,
) -> Chart:
    """Return the chart of a group of classes, the worst class of it in each cell.

    Args:
        name: a `chart` of classes.csv, or `people`.
        classes: the farm's classes, of which those of the group count; None for all.
        system: whose degrees the rows count.
        all_hands_index: the owner's own start of All hands on the index; None for ours.
        worst_c: the highest temperature that the farm plans for [C].

    Raises:
        NotPublishedError: no class has that chart.

    References:
        as `band_rule.verdict` and `band_rule.people_band`; rows, columns and the dampest
        air are our choice (band_rules.csv).
    """
    members = () if name == PEOPLE else _members(name, classes)
    judge = _worst(members, all_hands_index) if members else people_band
    dampest = rule(RULES, "dampest air", "temperature")
    temps = _rows(system, worst_c)
    temps_c = tuple(_celsius(degrees, system) for degrees in temps)
    last = _whole("dampest column")
    humidities = tuple(range(_whole("driest column"), last + 1, _whole("column step")))
    cells = tuple(
        tuple(
            judge(temp_c, rh_pct) if dew_point_c(temp_c, rh_pct) <= dampest.value else None
            for rh_pct in humidities
        )
        for temp_c in temps_c
    )
    lines = people_lines() if name == PEOPLE else index_lines(all_hands_index)
    lines = (*lines, *(line for cls in members for line in ladder(cls)))
    sources = merge_sources(*(line.sources for line in lines), dampest.sources)
    return Chart(
        name, members, system, temps, temps_c, humidities, cells, dampest.value, sources
    )


def _grid(judge: Judge, temps: Sequence[int], humidities: Sequence[int]) -> list[list[int]]:
    return [
        [int(judge(_celsius(degrees, "us"), float(rh_pct))) for rh_pct in humidities]
        for degrees in temps
    ]


def _humidity_column(degrees: int, dew: int, humidities: Sequence[int]) -> int:
    """Return the column for a dew point: the next damper one; -1 where it cannot be."""
    if dew > degrees:
        return -1
    rh_pct = relative_humidity_pct(_celsius(degrees, "us"), _celsius(dew, "us"))
    damper = [place for place, column in enumerate(humidities) if column >= rh_pct - NOISE]
    return damper[0] if damper else len(humidities) - 1


def damper_columns(
    temps_c: Sequence[float], dew_c: float, humidities: Sequence[int]
) -> tuple[int | None, ...]:
    """Return for each temperature the column that holds air of one dew point.

    Args:
        temps_c: temperatures of a chart's rows [C].
        dew_c: the dew point [C].
        humidities: relative humidity of the columns [%], driest first.

    Returns:
        The place of the next damper column, from 0; None where such air cannot be so cool.
    """
    found: list[int | None] = []
    for temp_c in temps_c:
        if dew_c > temp_c + NOISE:
            found.append(None)
            continue
        rh_pct = relative_humidity_pct(temp_c, min(dew_c, temp_c))
        damper = (at for at, column in enumerate(humidities) if column >= rh_pct - NOISE)
        found.append(next(damper, None))
    return tuple(found)


def finder_table(
    classes: Iterable[str], all_hands_index: int | None = None, worst_c: float | None = None
) -> dict[str, object]:
    """Return the band finder's look-up as plain lists, ready for JSON.

    The script takes the next hotter row and the next damper column, so that a reading between
    two is never judged too mild.

    Args:
        classes: the farm's classes; those that need warmth are left out.
        all_hands_index: the owner's own start of All hands on the index; None for ours.
        worst_c: the highest temperature that the farm plans for [C].

    Returns:
        `temps_f`: whole degrees of the rows [F], coolest first. `humidities`: of the columns
        [%], driest first. `tables`: band numbers, `tables[n][row][column]`. `people`: which
        table is people's. `classes`: which table each class reads. `dew_points_f`: dew points
        that may be typed [F]. `columns_by_dew_point[row][dew]`: the column to read, -1 where
        the dew point is above the air temperature.
    """
    hottest = _whole("finder hottest")
    if worst_c is not None and worst_c > _celsius(hottest, "us"):
        hottest = _whole("finder far")
    temps = range(_whole("finder coolest"), hottest + 1)
    humidities = range(
        _whole("finder driest"), _whole("finder dampest") + 1, _whole("column step")
    )
    dews = range(_whole("finder lowest dew point"), _whole("finder highest dew point") + 1)
    tables = [_grid(people_band, temps, humidities)]
    table_of: dict[str, int] = {}
    by_ladder: dict[str, int] = {}
    for cls in dict.fromkeys(classes):
        if not is_banded(cls):
            continue
        name = published.row("class_ladders", **{"class": cls}).text("ladder") or NO_LADDER
        if name not in by_ladder:
            by_ladder[name] = len(tables)
            judge = partial(band, cls, all_hands_index=all_hands_index)
            tables.append(_grid(judge, temps, humidities))
        table_of[cls] = by_ladder[name]
    return {
        "temps_f": list(temps),
        "humidities": list(humidities),
        "tables": tables,
        "people": 0,
        "classes": table_of,
        "dew_points_f": list(dews),
        "columns_by_dew_point": [
            [_humidity_column(degrees, dew, humidities) for dew in dews] for degrees in temps
        ],
    }
