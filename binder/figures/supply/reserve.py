"""Water in store: how long it lasts, how much to hold, hauling, a dry spell (step 3)."""

from __future__ import annotations

from binder import units
from binder.figures import published
from binder.figures.entry import Argument, Entry
from binder.figures.figure import DERIVED, Figure, merge_sources, step
from binder.figures.rules import at_least, quantity, rule
from binder.science import drinking
from binder.science.ranges import require_not_negative, require_positive
from binder.units import Amount

RULES = "water_rules"
STEADY, UNSTEADY = "steady", "unsteady"
FULL_PCT = 100.0


def reserve(stored: float, demand: float, subject: str = "") -> Figure:
    """Return how long stored water lasts if the supply stops now [h].

    Args:
        stored: water [L], 0 or more.
        demand: use [L/day], above 0.
        subject: the pen or tank.

    Raises:
        ValueError: a number outside its range.

    References:
        Arithmetic; on site at least a day's need (water-17).
    """
    value = Amount(drinking.reserve_h(stored, demand), "h")
    least = rule(RULES, "on site at least", "time")
    lines = [
        step("lasts", stored=Amount(stored, "L"), demand=Amount(demand, "L/day"), time=value)
    ]
    key = "enough" if at_least(value.value, least.value) else "short"
    lines.append(step(key, least=Amount(least.value, "h")))
    sources = merge_sources((DERIVED,), least.sources)
    return Figure("reserve", value, tuple(lines), sources, ("full",), subject)


def water_store(count: int, weight: float, days: int, subject: str = "") -> Figure:
    """Return the clean water to store for animals by their weight [L].

    Args:
        count: head.
        weight: of one [kg], above 0.
        days: 3 to 7 are published; any whole number from 1 is worked.
        subject: the group.

    Raises:
        ValueError: a weight or number of days that is not above 0.

    References:
        water-117: 1 to 2 gal for 100 lb a day, 3 to 7 days; the upper is used.
    """
    require_positive(weight, "weight", "kg")
    require_positive(days, "number of days")
    per_100_lb = rule(RULES, "store for 100 lb", "volume")
    each_kg = units.parse("100 lb", "weight")
    value = Amount(per_100_lb.value * weight / each_kg * count * days, "L")
    line = step(
        "store",
        count=count,
        weight=Amount(weight, "kg"),
        rate=Amount(per_100_lb.value, "L"),
        per=Amount(each_kg, "kg"),
        days=days,
        store=value,
    )
    return Figure("water-store", value, (line,), per_100_lb.sources, ("days",), subject)


def tank_size(demand: float, source: str, subject: str = "") -> Figure:
    """Return the tank a day's need asks for [L].

    Args:
        demand: use [L/day], 0 or more.
        source: `steady`, or `unsteady`: solar, wind, hauled, or one that fails now and then.
        subject: the tank.

    Raises:
        ValueError: a negative demand.

    References:
        water-120: 100 % of the day's need where refill takes longer than 4 h, 200 % where the
        source is not steady; water-17 asks for a day on site in any case.
    """
    require_not_negative(demand, "demand", "L/day")
    names = {
        STEADY: "tank share where refill is steady",
        UNSTEADY: "tank share where it is not",
    }
    share = rule(RULES, names[source], "share")
    value = Amount(demand * share.value / FULL_PCT, "L")
    line = step(
        source, demand=Amount(demand, "L/day"), share=Amount(share.value, "%"), tank=value
    )
    return Figure("tank-size", value, (line,), share.sources, ("lid",), subject)


def hauling(demand: float, holds: float, subject: str = "") -> Figure:
    """Return the trips a day with a tank of a size [count].

    Args:
        demand: use [L/day], 0 or more.
        holds: what the tank or bucket holds [L], above 0.
        subject: the tank.

    Raises:
        ValueError: a number outside its range.

    References:
        Arithmetic; water-75 for the weight of water.
    """
    each = drinking.trips(demand, holds)
    gallon = rule(RULES, "weight of a gallon", "weight")
    load = Amount(units.convert(Amount(holds, "L"), "us") * gallon.value, "kg")
    lines = (
        step("trips", demand=Amount(demand, "L/day"), holds=Amount(holds, "L"), trips=each),
        step("load", holds=Amount(holds, "L"), load=load),
    )
    sources = merge_sources((DERIVED,), gallon.sources)
    return Figure("hauling", Amount(each, "count"), lines, sources, ("slosh",), subject)


def dry_spell(time: float, subject: str = "") -> Figure:
    """Return what comes first after so long dry: `restore`, `small drinks` or `vet first`.

    No amount of water is printed: none rests on a source that may carry it.

    Args:
        time: without water [h], 0 or more.
        subject: the pen.

    Raises:
        ValueError: a negative time.

    References:
        water-31, water-36 (24 hours); water-30, water-39 (small drinks from 12, derived).
    """
    require_not_negative(time, "time without water", "h")
    rows = published.rows("dry_spell")
    begins_h = {row.text("key"): quantity(row, "from", "time") for row in rows}
    found = [row for row in rows if at_least(time, begins_h[row.text("key")])][-1]
    line = step(
        found.text("key"),
        time=Amount(time, "h"),
        small=Amount(begins_h["small"], "h"),
        vet=Amount(begins_h["vet"], "h"),
    )
    cautions = ("signs", "after", "appetite", "no-salt")
    return Figure("dry-spell", found.text("value"), (line,), found.sources, cautions, subject)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "reserve",
        (Argument("stored", "volume"), Argument("demand", "daily volume")),
        reserve,
    ),
    Entry(
        "water-store",
        (Argument("count", "whole"), Argument("weight", "weight"), Argument("days", "whole")),
        water_store,
    ),
    Entry(
        "tank-size",
        (
            Argument("demand", "daily volume"),
            Argument("source", "text", choices=(STEADY, UNSTEADY), default=STEADY),
        ),
        tank_size,
    ),
    Entry(
        "hauling",
        (Argument("demand", "daily volume"), Argument("holds", "volume")),
        hauling,
    ),
    Entry("dry-spell", (Argument("time", "time"),), dry_spell),
)
