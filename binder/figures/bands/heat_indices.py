"""Heat index, livestock index and its species variants, wet bulb, dew point (step 3)."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import fahrenheit
from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, step
from binder.figures.published import formula
from binder.science import heat
from binder.science import heat_index as people_index
from binder.science.heat_index import REGRESSION_FROM_INDEX_F
from binder.science.humidity import air_pressure_pa, dew_point_c, wet_bulb_c, wet_bulb_exact_c
from binder.units import Amount, difference_c

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from binder.figures.figure import Step

AIR = (Argument("temperature", "temperature"), Argument("humidity", "share"))
SHADE = ("shade",)
FORMULAS = "band_formulas"


def _celsius(temp_c: float) -> Amount:
    return Amount(temp_c, "degC")


def _percent(rh_pct: float) -> Amount:
    return Amount(rh_pct, "%")


def _index(value: float) -> Amount:
    return Amount(value, "index")


def heat_index(temperature: float, humidity: float, subject: str = "") -> Figure:
    """Return the heat index for people [F], with the pieces it is made of.

    Args:
        temperature: air temperature in the shade [C], -20 to 44.4 (112 F).
        humidity: relative humidity [%], 0 to 100.
        subject: what on the farm it is about.

    Raises:
        ValueError: air outside the published range or chart.

    References:
        heat-1 (method), heat-3 (shade; what sun adds).
    """
    temp_f = fahrenheit(temperature)
    value_f = people_index.heat_index_f(temp_f, humidity)
    average_f = people_index.heat_index_average_f(temp_f, humidity)
    given = step("given", temperature=_celsius(temperature), humidity=_percent(humidity))
    working = [given, step("average", average=Amount(average_f, "degF"))]
    if average_f >= REGRESSION_FROM_INDEX_F:
        long_f = people_index.heat_index_regression_f(temp_f, humidity)
        working.append(step("regression", regression=Amount(long_f, "degF")))
        adjustment = people_index.heat_index_adjustment_f(temp_f, humidity)
        if adjustment:
            key = "humid" if adjustment > 0 else "dry"
            change = Amount(difference_c(abs(adjustment), "us"), "delta_degC")
            working.append(step(key, change=change))
    working.append(step("result", result=Amount(value_f, "degF")))
    return Figure(
        "heat-index", Amount(value_f, "degF"), tuple(working),
        formula(FORMULAS, "heat-index"), SHADE, subject,
    )  # fmt: skip


def _livestock(temp_c: float, rh_pct: float) -> tuple[float, tuple[Step, ...]]:
    value = heat.livestock_index(temp_c, rh_pct)
    line = step(
        "livestock",
        temperature=Amount(fahrenheit(temp_c), "degF"),
        number=fahrenheit(temp_c),
        humidity=rh_pct,
        index=_index(value),
    )
    return value, (line,)


def _with_wet_bulb(
    formula: Callable[[float, float], float], key: str, temp_c: float, rh_pct: float
) -> tuple[float, tuple[Step, ...]]:
    wet_c = wet_bulb_c(temp_c, rh_pct)  # the fit that the published indices were worked with
    value = formula(temp_c, wet_c)
    air = step("wet_bulb", wet_bulb=_celsius(wet_c), temperature=_celsius(temp_c))
    return value, (air, step(key, index=_index(value)))


def _sheep(temp_c: float, rh_pct: float) -> tuple[float, tuple[Step, ...]]:
    value = heat.sheep_index(temp_c, rh_pct)
    return value, (step("sheep", index=_index(value)),)


def _horse(temp_c: float, rh_pct: float) -> tuple[float, tuple[Step, ...]]:
    temp_f = fahrenheit(temp_c)
    value = heat.horse_sum(temp_f, rh_pct)
    return value, (step("horse", number=temp_f, humidity=rh_pct, index=_index(value)),)


_VARIANTS: Mapping[str, tuple[Callable[[float, float], tuple[float, tuple[Step, ...]]],
                              tuple[str, ...]]] = {
    "cattle": (_livestock, ()),
    "pig": (partial(_with_wet_bulb, heat.pig_index_thip, "pig"), ("own_scale",)),
    "chicken": (partial(_with_wet_bulb, heat.hen_index, "chicken"), ("own_scale", "memory")),
    "turkey": (partial(_with_wet_bulb, heat.turkey_index, "turkey"), ("own_scale",)),
    "goat": (_sheep, ("own_scale", "sheep")),
    "sheep": (_sheep, ("own_scale", "sheep")),
    "horse": (_horse, ("own_scale", "horse")),
}  # fmt: skip


def livestock_index(
    temperature: float,
    humidity: float,
    species: str | None = None,
    wind: float | None = None,
    sun: float | None = None,
    subject: str = "",
) -> Figure:
    """Return the livestock index, or the index of one species on a scale of its own.

    Args:
        temperature: air temperature in the shade [C], -20 to 50.
        humidity: relative humidity [%], 0 to 100; 5 to 99 where a wet bulb is needed.
        species: whose variant; None for the livestock index that the bands rest on.
        wind: wind over the animals [m/s], 0 to 15; cattle only, with `sun`.
        sun: sun on a level surface [W/m2], 0 to 1400; cattle only, with `wind`.
        subject: what on the farm it is about.

    Raises:
        NotPublishedError: wind and sun for other animals than cattle, or one without the other.
        ValueError: air outside the range of the formula.

    References:
        heat.md 2.1; each variant's sources stand in the figure.
    """
    variant, cautions = _VARIANTS[species or "cattle"]
    value, working = variant(temperature, humidity)
    sources = formula(FORMULAS, f"livestock-index {species or 'cattle'}")
    given = step("given", temperature=_celsius(temperature), humidity=_percent(humidity))
    if wind is not None or sun is not None:
        if species != "cattle" or wind is None or sun is None:
            message = "wind and sun are published together, and for species=cattle only"
            raise NotPublishedError(message)
        value = heat.cattle_adjusted_index(value, wind, sun)
        line = step(
            "outdoors", wind=Amount(wind, "m/s"), sun=Amount(sun, "W/m2"), index=_index(value)
        )
        working = (*working, line)
        sources = (*sources, *formula(FORMULAS, "livestock-index with wind and sun"))
    return Figure(
        "livestock-index", _index(value), (given, *working), sources,
        SHADE + cautions, subject,
    )  # fmt: skip


def wet_bulb(
    temperature: float, humidity: float, altitude: float | None = None, subject: str = ""
) -> Figure:
    """Return the wet bulb temperature [C]: evaporation cools no further.

    Args:
        temperature: air temperature [C], -40 to 60.
        humidity: relative humidity [%], 0 to 100.
        altitude: height of the farm above the sea [m], 0 to 4,800; None for sea level.
        subject: what on the farm it is about.

    Raises:
        ValueError: air or altitude outside the range.

    References:
        heat-62, ASHRAE Fundamentals 2017, chapter 1, equations 3, 33 and 35.
    """

    def at_altitude(temp_c: float, rh_pct: float) -> float:
        return wet_bulb_exact_c(temp_c, rh_pct, air_pressure_pa(altitude or 0.0))

    return _moist("wet-bulb", at_altitude, temperature, humidity, subject)


def dew_point(temperature: float, humidity: float, subject: str = "") -> Figure:
    """Return the dew point of the air [C].

    Args:
        temperature: air temperature [C], -40 to 60.
        humidity: relative humidity [%], 1 to 100.
        subject: what on the farm it is about.

    Raises:
        ValueError: air outside the range of the formula.

    References:
        heat-63, Lawrence 2005.
    """
    return _moist("dew-point", dew_point_c, temperature, humidity, subject)


def _moist(
    name: str,
    fit: Callable[[float, float], float],
    temp_c: float,
    rh_pct: float,
    subject: str,
) -> Figure:
    value = _celsius(fit(temp_c, rh_pct))
    line = step("fit", temperature=_celsius(temp_c), humidity=_percent(rh_pct), result=value)
    return Figure(name, value, (line,), formula(FORMULAS, name), (), subject)


ENTRIES = (
    Entry("heat-index", AIR, heat_index),
    Entry(
        "livestock-index",
        (
            *AIR,
            Argument("species", "text", optional=True, choices=tuple(_VARIANTS)),
            Argument("wind", "speed", optional=True),
            Argument("sun", "sunlight", optional=True),
        ),
        livestock_index,
    ),
    Entry("wet-bulb", (*AIR, Argument("altitude", "length", optional=True)), wet_bulb),
    Entry("dew-point", AIR, dew_point),
)
