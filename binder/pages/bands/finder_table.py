"""The band finder's data: the look-up worked out in step 3, and the words beside it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from binder import units
from binder.figures.bands.band_rule import Band
from binder.figures.rules import rule
from binder.pages import slugs
from binder.pages.claims import stated
from binder.pages.claims.claim import Claim
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.display import System
    from binder.figures.rounds.farm_rounds import PenRound
    from binder.pages.context import Context
    from binder.pages.views import PenView

READING = "reading_rules"
# Signs that count more than any number; of these, the sheets that this binder has.
_SIGNS = (
    "pig-in-heat-trouble",
    "bird-down",
    "other-animal-in-heat-trouble",
    "person-overheated",
    "no-water-now",
)


def table(context: Context, pens: tuple[PenView, ...]) -> Mapping[str, object]:
    """Return everything the finder shows, as plain data for JSON; empty where no pen is used.

    Returns:
        The look-up of `band_charts.finder_table` and of `finder.minutes`, and besides:
        `units` (`us` or `metric`); `bands` (the words of 0 to 4); `rows`, a pen each in
        their order: `name`, `who`, `slug`, `sheet`, `tables` to take the worst of (none
        for the young that need warmth), `asks` of 0 to 4 as `do`, `above` and `hours`,
        `charts` as sheet and slug; `you` (people): `asks` of 0 to 4, `sheet`, `slug`, `charts`;
        `minutes_said`, the words of each of `minutes_words`; `start`, the typical hot day in
        the farm's whole degrees and % (`temp`, `humidity`, `dew_point`); `signs`, slugs of the
        sheets to turn to without any number; `old_h`, `void_h` and `air_f` of
        reading_rules.csv; `you_first`, from which number on people stand first.
    """
    bands = context.figures.bands
    classes = bands.finder["classes"]
    assert isinstance(classes, dict)  # noqa: S101 -- as finder_table says
    rows = [_row(context, pen, classes) for pen in pens if pen.groups]
    if not rows:
        return {}
    minutes = context.figures.finder_minutes
    words = minutes["minutes_words"]
    assert isinstance(words, list)  # noqa: S101 -- as finder.minutes says
    return {
        **bands.finder,
        **minutes,
        "units": context.farm.about.units,
        "bands": [context.w(f"band.{band.key}") for band in Band],
        "rows": rows,
        "you": {
            "name": context.w("labels.you"),
            "slug": "work-and-rest",
            "sheet": context.sheets["work-and-rest"],
            "asks": [context.w(f"asks.do.people.{band.key}") for band in Band],
            "charts": _charts(context, ("people",)),
        },
        "minutes_said": [_said(context, word) for word in words],
        "start": _start(context),
        "signs": [slug for slug in _SIGNS if slug in context.sheets],
        "emergency": context.w("helper.finder_emergency"),
        **_reading(),
    }


def _reading() -> dict[str, object]:
    """Return what a reading is worth: hours until it is old and void, and what can be air."""
    air = (
        units.convert(Amount(rule(READING, f"{end} air", "temperature").value, "degC"), "us")
        for end in ("coldest", "hottest")
    )
    return {
        "old_h": rule(READING, "old after", "time").value,
        "void_h": rule(READING, "void after", "time").value,
        "air_f": [round(degrees) for degrees in air],
        "you_first": int(Band.SEVERE),
    }


def _row(context: Context, pen: PenView, classes: Mapping[str, int]) -> dict[str, object]:
    round_ = context.figures.rounds.pens[pen.id]
    return {
        "name": pen.name,
        "who": pen.who,
        "slug": pen.slug,
        "sheet": str(pen.sheet),
        "tables": sorted({classes[group.cls] for group in pen.groups if group.cls in classes}),
        "asks": [
            {"do": ask.do, "above": ask.above, "hours": hours}
            for ask, hours in zip(pen.asks, _hours(round_), strict=True)
        ],
        "charts": _charts(context, pen.charts),
    }


def claims(context: Context, pens: tuple[PenView, ...]) -> tuple[Claim, ...]:
    """Return what the finder says: intervals by number, and the numbers it starts with."""
    finder: Mapping[str, Any] = context.figures.bands.finder
    hot = context.figures.hot
    row = _nearest(finder["temps_f"], _whole(hot.high_c))
    damp = _start(context)["humidity"]
    column = finder["humidities"].index(damp)
    found: list[Claim] = []
    for pen in pens:
        classes = [group.cls for group in pen.groups if group.cls in finder["classes"]]
        tables = (finder["tables"][finder["classes"][cls]] for cls in classes)
        if pen.groups:
            found += stated.back_in(pen.id, pen.intervals)
        if classes:
            number = max(table[row][column] for table in tables)
            found.append(Claim(pen.id, "number", stated.HOTTEST, str(int(number))))
    return tuple(found)


def _hours(round_: PenRound) -> list[float]:
    """Return how soon to be back in each band [h]."""
    return [round_.intervals[band.key].amount.value for band in Band]


def _charts(context: Context, charts: tuple[str, ...]) -> list[list[str]]:
    named = [slugs.chart(chart) for chart in charts]
    return [[context.sheets[slug], slug] for slug in named if slug in context.sheets]


def _said(context: Context, word: str) -> str:
    """Return `work 40, rest 20 minutes` for `40/20`, and what stands for the other words."""
    work, sign, rest = word.partition("/")
    if sign:
        return context.w("site.finder.work", work=work, rest=rest)
    return context.w("site.finder.as_usual" if word == "Normal" else "site.finder.stop")


def _start(context: Context) -> dict[str, int]:
    """Return the typical hot day as one would set it, rounded to the hotter and damper side."""
    hot = context.figures.hot
    high_c, dew_c = hot.high_c, min(hot.dew_point_c, hot.high_c)
    system = context.words.system
    return {
        "temp": _whole(high_c, system),
        "dew_point": _whole(dew_c, system),
        "humidity": _humidity(context.figures.bands.finder, _whole(high_c), _whole(dew_c)),
    }


def humidity_column(context: Context, temp_f: int, dew_f: int) -> str:
    """Return the humidity column to read when the dial is broken: `65%`, or a dash.

    Args:
        context: what composing knows.
        temp_f: air temperature in shade [F].
        dew_f: dew point from a weather report [F]; above the air there is none.
    """
    if dew_f > temp_f:
        return context.w("page.none")
    return f"{_humidity(context.figures.bands.finder, temp_f, dew_f)}%"


def _whole(temp_c: float, system: System = "us") -> int:
    """Return a temperature in whole degrees, rounded up."""
    return math.ceil(round(units.convert(Amount(temp_c, "degC"), system), 3))


def _humidity(finder: Mapping[str, Any], temp_f: int, dew_f: int) -> int:
    """Return the humidity that the look-up reads for a temperature and a dew point [%]."""
    row = _nearest(finder["temps_f"], temp_f)
    column = finder["columns_by_dew_point"][row][_nearest(finder["dew_points_f"], dew_f)]
    return int(finder["humidities"][column])


def _nearest(degrees: list[int], wanted: int) -> int:
    return degrees.index(min(max(wanted, degrees[0]), degrees[-1]))
