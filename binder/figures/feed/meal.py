"""One meal measured out: scoops of feed, water to soak it, batches in the bucket."""

from __future__ import annotations

from math import ceil, floor

from binder.figures.entry import Argument, Entry, renamed
from binder.figures.figure import Figure, merge_sources, step
from binder.figures.noise import TRACE
from binder.figures.rules import rule
from binder.science.ranges import require_not_negative, require_positive
from binder.units import Amount

RULES = "feed_rules"
KG_OF_WATER_PER_L = 1.0  # fresh water, to a third of a per cent at farm temperatures
_FRACTIONS = ("", "1/4", "1/2", "3/4")


def soak(dry_kg: float, ratio: float, subject: str = "") -> Figure:
    """Return the water to soak a meal with [L].

    Args:
        dry_kg: dry feed [kg], 0 or more.
        ratio: parts of water to one part of feed, by weight, more than 0.
        subject: whose meal it is.

    References:
        At least the feed's own weight of water: common practice, no source. Liquid feeding, 3
        to 1: water-107, water-108. How long it may lie rests on weak sources: no hours stand.
    """
    require_not_negative(dry_kg, "dry feed", "kg")
    require_positive(ratio, "water for one part of feed")
    least = rule(RULES, "least water for a part of feed", "number")
    liquid = rule(RULES, "water for a part of feed in liquid feeding", "number")
    water_l = dry_kg * ratio / KG_OF_WATER_PER_L
    working = (
        step("water", dry=Amount(dry_kg, "kg"), ratio=Amount(ratio, "ratio"),
             water=Amount(water_l, "L")),
        step("range", least=Amount(least.value, "ratio"), liquid=Amount(liquid.value, "ratio")),
    )  # fmt: skip
    too_dry = ("own-weight",) if ratio < least.value else ()
    return Figure(
        "soak",
        Amount(water_l, "L"),
        working,
        merge_sources(least.sources, liquid.sources),
        (*too_dry, "clear-soon", "sour", "drinking-water"),
        subject,
    )


def soaked_room_l(dry_kg: float, water_l: float) -> float:
    """Return the room that a meal takes in the bucket while it soaks [L].

    The pellets as they lie, and the water on top: what runs between them is the room to stir
    and to swell in (our choice).

    Args:
        dry_kg: dry feed [kg], 0 or more.
        water_l: water to soak it [L], 0 or more.

    References:
        Pellets lie at about 40 lb a cubic foot (feed_rules.csv).
    """
    kg_per_l = rule(RULES, "pellets in a litre", "weight").value
    return dry_kg / kg_per_l + water_l


def soak_batches(dry_kg: float, water_l: float, bucket_l: float, subject: str = "") -> Figure:
    """Return how many times a bucket is filled to soak a meal, a whole number as text: `2`.

    Args:
        dry_kg: dry feed of the meal [kg], 0 or more.
        water_l: water to soak it [L], 0 or more.
        bucket_l: what the bucket holds [L], more than 0.
        subject: whose meal it is.

    References:
        As `soaked_room_l`; all batches alike: our choice.
    """
    require_not_negative(dry_kg, "feed", "kg")
    require_not_negative(water_l, "water", "L")
    require_positive(bucket_l, "bucket", "L")
    density = rule(RULES, "pellets in a litre", "weight")
    room_l = soaked_room_l(dry_kg, water_l)
    count = max(1, ceil(room_l / bucket_l - TRACE))
    working = (
        step("room", dry=Amount(dry_kg, "kg"), water=Amount(water_l, "L"),
             room=Amount(room_l, "L"), bucket=Amount(bucket_l, "L")),
        step("batches", count=count, each=Amount(dry_kg / count, "kg"),
             water=Amount(water_l / count, "L")),
    )  # fmt: skip
    return Figure("soak-batches", str(count), working, density.sources, (), subject)


def _in_quarters(steps: int) -> str:
    whole, part = divmod(steps, len(_FRACTIONS))
    return " ".join(text for text in (str(whole) if whole else "", _FRACTIONS[part]) if text)


def _measured(name: str, amount: Amount, measure: Amount, subject: str) -> Figure:
    """Return an amount in quarters of a measure: to the nearest; at least one."""
    quarters = rule(RULES, "scoop steps", "number")
    exact = amount.value / measure.value
    in_steps = exact * quarters.value
    # Half a step goes up: nobody is fed less by it.
    steps = max(1, floor(in_steps + 0.5 + TRACE))
    text = _in_quarters(steps)
    rounded = steps / quarters.value
    key = "even" if abs(rounded - exact) < TRACE else ("up" if rounded > exact else "down")
    working = (
        step("measure", amount=amount, measure=measure, exact=Amount(exact, "ratio")),
        step(key, measured=text),
    )
    return Figure(name, text, working, quarters.sources, (), subject)


def scoops(feed_kg: float, scoop_kg: float, subject: str = "") -> Figure:
    """Return a meal in scoops, to the nearest quarter and at least one, as text: `1 1/2`.

    Args:
        feed_kg: dry feed of the meal [kg], 0 or more.
        scoop_kg: what the farm's own scoop holds of that feed [kg], more than 0.
        subject: whose meal it is.

    References:
        Quarters of a scoop: our choice; the working says which way it was rounded.
    """
    require_not_negative(feed_kg, "feed", "kg")
    require_positive(scoop_kg, "scoop", "kg")
    feed, scoop = Amount(feed_kg, "kg"), Amount(scoop_kg, "kg")
    return _measured("scoops", feed, scoop, subject)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "soak",
        (Argument("dry", "weight"), Argument("ratio", "ratio", optional=True, default="1")),
        renamed(soak, dry="dry_kg"),
    ),
    Entry(
        "scoops",
        (Argument("feed", "weight"), Argument("scoop", "weight")),
        renamed(scoops, feed="feed_kg", scoop="scoop_kg"),
    ),
    Entry(
        "soak-batches",
        (
            Argument("dry", "weight"),
            Argument("water", "volume"),
            Argument("bucket", "volume"),
        ),
        renamed(soak_batches, dry="dry_kg", water="water_l", bucket="bucket_l"),
    ),
)
