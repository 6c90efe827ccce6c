"""What a mend buys is what playing the mended farm again finds; the odds of a stay's plan."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder.build import checked, figures_of
from binder.figures.readiness.ranking import findings_of, ranked
from binder.figures.season import Season, Wrong
from tests.figures.season.test_pens import CONTACTS, FARM, HENS, HOSE, LOT, RUN, SOW, record

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from binder.weather.record import Record
    from tests.conftest import FarmFolder

ON = dt.date(2026, 7, 1)
STAY = """
- {id: week, from: 2026-07-02, to: 2026-07-05, sitter: Sam Test, visits: VISITS}
"""


def afternoon(hour: int) -> float:
    """Return 22 C at night and 36 C from noon to six."""
    return 36.0 if 12 <= hour < 18 else 22.0


@pytest.fixture
def season(farm_folder: FarmFolder) -> Callable[..., Season]:
    """Return a function that plays a farm written out, with its mends and stays."""

    def play(hours: Record, **files: str) -> Season:
        named = {f"{name}.yaml": text for name, text in files.items()}
        folder: Path = farm_folder({"farm.yaml": FARM, "contacts.yaml": CONTACTS, **named})
        owner, farm = checked(folder, ON)
        found = figures_of(owner, farm, ON, records=[hours]).season
        assert found is not None
        return found

    return play


def test_a_second_waterer_is_worth_what_it_saves(season: Callable[..., Season]) -> None:
    """Hens with one bell: the mend on top is one more, and it saves every bad hour there is."""
    one = RUN.replace("COUNT", "1")
    found = season(record(5, afternoon), pens=one, animals=HENS)
    best = found.worths[0]
    assert [(mend.key, mend.subject, mend.count) for mend in best.mends] == [
        ("waterer", "run", 1)
    ]
    bad = found.seasons[0].pens["run"]
    two = season(record(5, afternoon), pens=RUN.replace("COUNT", "2"), animals=HENS)
    assert best.animal_h == bad.animal_h - two.seasons[0].pens["run"].animal_h > 0
    assert best.days == 5
    assert not any("waterer" in [m.key for m in w.mends] for w in two.worths)


def test_cloth_is_counted_in_steps_and_shades(season: Callable[..., Season]) -> None:
    """1,000 sq ft of range and 4 sq ft of cloth: what is lacking comes in steps of 50 sq ft."""
    bare = RUN.replace("COUNT", "2").replace("area: 400 sqft", "area: 4 sqft")
    found = season(record(5, afternoon), pens=bare, animals=HENS)
    cloth = next(w for w in found.worths if w.mends[0].key == "cloth").mends[0]
    assert cloth.amount is not None
    sqft = cloth.amount.value / 0.09290304
    assert sqft == pytest.approx(round(sqft / 50) * 50, abs=1e-6)
    assert found.seasons[0].pens["run"].hours_of(Wrong.SHADE) > 0
    more = bare.replace("area: 4 sqft", f"area: {4 + round(sqft)} sqft")
    mended = season(record(5, afternoon), pens=more, animals=HENS)
    assert mended.seasons[0].pens["run"].hours_of(Wrong.SHADE) == 0
    less = bare.replace("area: 4 sqft", f"area: {4 + round(sqft) - 50} sqft")
    short = season(record(5, afternoon), pens=less, animals=HENS)
    assert short.seasons[0].pens["run"].hours_of(Wrong.SHADE) > 0


def test_a_buried_hose_saves_what_the_farm_with_it_saves(
    season: Callable[..., Season],
) -> None:
    """The mend, and the owner's file changed to it, come to the same."""
    hot = season(record(3, afternoon, sun=700.0), pens=LOT, animals=SOW, equipment=HOSE)
    bury = next(w for w in hot.worths if w.mends[0].key == "bury")
    buried = HOSE.replace("sun: full", "runs: buried, buried_depth: 12 in, sun: full")
    cool = season(record(3, afternoon, sun=700.0), pens=LOT, animals=SOW, equipment=buried)
    now, then = (each.seasons[0].pens["lot"].animal_h for each in (hot, cool))
    assert bury.animal_h == now - then > 0


def test_two_mends_of_which_one_hides_the_other(season: Callable[..., Season]) -> None:
    """A bell too few and too little shade at the same hours: alone each saves little."""
    both = RUN.replace("COUNT", "1").replace("area: 400 sqft", "area: 4 sqft")
    found = season(record(5, afternoon), pens=both, animals=HENS)
    alone = {worth.mends[0].key: worth.animal_h for worth in found.worths}
    pair = found.pairs[0]
    assert {mend.key for mend in pair.mends} == {"waterer", "cloth"}
    assert pair.animal_h > sum(alone.get(mend.key, 0) for mend in pair.mends)
    assert pair.animal_h == found.seasons[0].pens["run"].animal_h


def test_mends_are_ranked_by_animals_then_by_looks(season: Callable[..., Season]) -> None:
    """The best stands on top, and what saves nothing is not there."""
    both = RUN.replace("COUNT", "1").replace("area: 400 sqft", "area: 4 sqft")
    found = season(record(5, afternoon), pens=both, animals=HENS)
    ranks = [worth.rank for worth in found.worths]
    assert ranks == sorted(ranks, reverse=True)
    assert all(rank > (0, 0) for rank in ranks)


FANS = """
  fans:
    - {id: f1, air: 9000 cfm, power: 700 W, circuit: c1}
    - {id: f2, air: 9000 cfm, power: 700 W, circuit: c1}
"""
WIRED = HOSE + "circuits: [{id: c1, breaker: 15 A, other_load: 400 W}]\n"


def test_a_second_breaker_keeps_the_fans_running(season: Callable[..., Season]) -> None:
    """Two fans and a heater trip one breaker after three of the six hot hours of each day."""
    lot = LOT.replace("nipple, count: 2, flow: 4 cup/min", "trough, holds: 50 gal") + FANS
    found = season(record(5, afternoon), pens=lot, animals=SOW, equipment=WIRED)
    assert found.seasons[0].pens["lot"].hours_of(Wrong.AIR) == 15
    best = found.worths[0]
    assert best.mends[0].key == "breaker"
    assert best.animal_h == 15


def test_a_tub_and_a_tank_uphill(season: Callable[..., Season]) -> None:
    """A sow without mud on one nipple: wet saves her the hot hours, the tank saves looks."""
    lot = LOT.replace("count: 2", "count: 1")
    dry = "\n".join(line for line in lot.splitlines() if "wallow" not in line)
    found = season(record(5, afternoon), pens=dry, animals=SOW, equipment=HOSE)
    assert found.seasons[0].pens["lot"].hours_of(Wrong.WET) == 30
    keys = {mend.key for worth in (*found.worths, *found.pairs) for mend in worth.mends}
    assert {"tub", "bury"} <= keys
    both = season(record(5, afternoon), pens=lot, animals=SOW, equipment=HOSE)
    tank = next(worth for worth in both.worths if worth.mends[0].key == "tank")
    # It stands in shade, and its water is in no hose.
    assert tank.animal_h == both.seasons[0].pens["lot"].hours_of(Wrong.HOT_WATER) > 0
    assert tank.looks > 0


@pytest.mark.parametrize(
    ("temp", "held", "needed"),
    [(lambda _: 18.0, 4, 0), (lambda hour: 41.0 if 9 <= hour < 20 else 20.0, 0, 4)],
)
def test_a_stay_holds_in_cool_air_and_not_in_great_heat(
    season: Callable[..., Season], temp: Callable[[int], float], held: int, needed: int
) -> None:
    """Three visits a day: enough in 18 C; in 106 F somebody has to be there in between."""
    stay = STAY.replace("VISITS", '["06:30", "13:00", "19:00"]')
    hours = record(7, temp, dew_c=10.0)
    found = season(hours, pens=RUN.replace("COUNT", "2"), animals=HENS, stays=stay)
    (odds,) = found.odds
    assert (odds.stay, len(odds.days), odds.held, len(odds.needed)) == ("week", 4, held, needed)
    assert [day.on for day in odds.days] == [dt.date(2025, 7, n) for n in range(2, 6)]
    if needed:
        assert odds.span_h is not None
        assert 6.5 < odds.span_h[0] < odds.span_h[1] <= 24
        assert odds.worst is not None
        # From 6:30 to 13:00 nobody comes, and at number 4 a pen may wait 20 minutes.
        assert 4 < odds.worst.overdue_h < 6.5
        assert odds.watch_from_c == 41.0
    else:
        assert odds.span_h is None
        assert odds.watch_from_c is None


def test_a_file_without_the_dates_says_nothing_of_the_stay(
    season: Callable[..., Season],
) -> None:
    """Three days of July 1 to 3 hold two of a stay's four dates."""
    stay = STAY.replace("VISITS", '["06:30", "19:00"]')
    files = {"pens": RUN.replace("COUNT", "2"), "animals": HENS}
    found = season(record(3, afternoon), stays=stay, **files)
    assert [len(odds.days) for odds in found.odds] == [2]
    later = stay.replace("2026-07-02", "2026-09-02").replace("2026-07-05", "2026-09-05")
    assert season(record(3, afternoon), stays=later, **files).odds == ()


def test_readiness_puts_first_what_would_have_saved_most(
    season: Callable[..., Season], farm_folder: FarmFolder
) -> None:
    """Two pens of hens short of waterers: with weather the bigger flock's stands first."""
    few = RUN.replace("COUNT", "1")
    small = few.replace("id: run", "id: nook").replace("id: d1", "id: d2")
    pens = small + few.replace("name: Run", "name: Big run")
    birds = HENS.replace("45", "30").replace("Hens", "Few").replace("pen: run", "pen: nook")
    found = season(record(5, afternoon), pens=pens, animals=birds + HENS.replace("45", "90"))
    folder = farm_folder({})
    owner, farm = checked(folder, ON)
    figures = figures_of(owner, farm, ON)

    def order(played: Season | None) -> list[str]:
        lines = ranked(findings_of(figures), played)
        return [one.finding.subject for one in lines if one.finding.key == "drinkers-short"]

    assert order(None) == ["nook", "run"]
    assert order(found) == ["run", "nook"]
