"""Bleach and cleaning: doses with their gate, one mixing sheet, ageing, the farm's bottles.

Published rows run in `tests/published/` (bleach_dose, bleach_strength, dilution). The gate is
our choice: held still, not proved.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder import units
from binder.farm.model import Animal, Farm, Product
from binder.figures.bleach import cleaning, cleaning_plan, doses
from binder.figures.bleach.bleach_age import bleach_strength
from binder.figures.bleach.cleaning import algae, mix_strength, peroxide_level, strip_gate
from binder.figures.bleach.cleaning_plan import bleach_to_buy
from binder.figures.bleach.doses import bleach_dose, dilution, trade_strength
from binder.figures.bleach.mixes import dilution_table, is_listed
from binder.figures.entry import read_arguments
from binder.figures.figure import Figure, NotPublishedError
from binder.figures.herd.groups import Group, Herd
from binder.figures.wallows import wallow_plan
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from binder.problems import ProblemsError
from binder.science.chlorine import free_chlorine_mg_l
from tests.figures.written import celsius, printed, written_farm

if TYPE_CHECKING:
    from binder.figures.bleach.cleaning_plan import CleaningFigures

FT, IN, GAL, FL_OZ_ML = 0.3048, 0.0254, 3.785411784, 29.5735295625
PPM = 1e-4  # in %, weight in volume
MONTH_H = 365.25 * 24 / 12
DAY = dt.date(2026, 7, 14)
HOT = DayWeather(32.0, 23.0, 22.0, None, assumed=False, origin="hot_day")


# Bleach


@pytest.mark.parametrize(
    ("label", "basis", "trade"),
    [
        (6.0, "weight", 6.17),  # wallow-10, check value 6
        (12.5, "weight", 14.2),  # wallow-8, check value 7: 142 g/L
        (12.5, "volume", 12.5),
        (8.25, None, 8.73),
        (5.0, "weight", 5.0 / 1.05 * 1.07),  # below the table: its first density
        (6.75, "weight", 6.75 / 1.05 * 1.09),  # half-way between 1.08 and 1.10
    ],
)
def test_trade_strength(label: float, basis: str | None, trade: float) -> None:
    """Weight % becomes trade % by density."""
    assert trade_strength(label, basis).trade_pct == pytest.approx(trade, abs=0.05)


def test_an_unknown_basis_counts_as_the_stronger() -> None:
    """Where the label does not say, the dose is the smaller: safer for animals."""
    unknown, weight, volume = (
        bleach_dose(8.25, 5 * PPM, 500.0, basis) for basis in (None, "weight", "volume")
    )
    assert unknown.amount == weight.amount
    assert unknown.amount.value < volume.amount.value
    text = printed([unknown, weight, volume])
    assert "The stronger is assumed" in text
    assert "8.25% by weight, which is 8.72% by volume" in text


@given(strength=st.floats(1, 12.5), ppm=st.floats(0.1, 50), litres=st.floats(50, 5000))
def test_a_dose_gives_its_target(strength: float, ppm: float, litres: float) -> None:
    """The dose put back into the water gives the target, and a bigger wallow takes more."""
    dose_l = bleach_dose(strength, ppm * PPM, litres).amount.value / 1000
    trade_pct = trade_strength(strength).trade_pct
    assert free_chlorine_mg_l(trade_pct, dose_l, litres) == pytest.approx(ppm)


def test_a_cup_in_a_wallow_is_weak() -> None:
    """A cup in 200-500 gal is 7 to 27 ppm, hundreds of times weaker than one part in ten.

    Common practice, no source.
    """
    found = [
        mix_strength(strength, 0.2365882, gallons * GAL).amount.value
        for strength in (5.25, 8.25) for gallons in (200.0, 500.0)
    ]  # fmt: skip
    assert all(6 < ppm < 28 for ppm in found)
    assert mix_strength(8.25, 1.0, 9.0).amount.value / max(found) > 300


def test_two_ounces_in_a_hundred_gallons() -> None:
    """2 fl oz of 5.25 % in 100 gal is 8.2 ppm (wallow-16), 8.4 by the exact form."""
    figure = mix_strength(5.25, 2 * FL_OZ_ML / 1000, 100 * GAL)
    assert figure.amount.value == pytest.approx(8.36, abs=0.02)
    assert printed([figure])


def test_a_dose_carries_every_caution() -> None:
    """Label, bedded, gate, bloom, mixing, drain and the honest line print with each dose."""
    figure = bleach_dose(8.25, 8.2 * PPM, 500.0)
    assert figure.cautions == doses.DOSE_CAUTIONS
    text = printed([figure])
    for said in (
        "label",
        "bedded",
        "0.5\N{NO-BREAK SPACE}ppm",
        "no color at all",
        "peroxide",
        "2.11 ppm",
        "bloom",
    ):
        assert said in text.replace("blue-green", "bloom")


def test_a_strong_dose_says_so() -> None:
    """Above the weakest published stock-tank rate, 8.2 ppm, a dose is strong (wallow-16)."""
    assert "strong" not in bleach_dose(8.25, 8.2 * PPM, 500.0).cautions
    assert "strong" in bleach_dose(8.25, 8.3 * PPM, 500.0).cautions


def test_doses_refused() -> None:
    """No target, a target above the bottle itself, and a bottle nobody publishes."""
    with pytest.raises(ValueError, match="target"):
        bleach_dose(8.25, 0.0, 500.0)
    with pytest.raises(ValueError, match="target"):
        bleach_dose(6.0, 7.0, 500.0)
    with pytest.raises(NotPublishedError, match="basis=volume"):
        bleach_dose(13.0, PPM, 500.0)
    assert bleach_dose(13.0, PPM, 500.0, "volume").amount.value > 0


def test_no_bleach_is_that_strong_by_volume() -> None:
    """The strongest that is sold is 12.5 % by weight (wallow-8): 100 % is a slip of the pen."""
    assert trade_strength(15, "volume").trade_pct == 15
    with pytest.raises(NotPublishedError, match="up to 15 % by volume, not with 100 %"):
        trade_strength(100, "volume")


def test_dilution_prints() -> None:
    """1 part to 9 of water brings 5.25 % to 0.525 %, 5,250 ppm (wallow-1)."""
    figure = dilution(5.25, 0.525)
    assert figure.value == units.Amount(pytest_approx_nine(figure), "ratio")
    text = printed([figure])
    assert "9 parts of water" in text
    assert "5,250" in text
    with pytest.raises(ValueError, match="strength"):
        dilution(5.0, 6.0)


def pytest_approx_nine(figure: Figure) -> float:
    """Return the figure's value once it is seen to be nine."""
    assert figure.amount.value == pytest.approx(9.0)
    return figure.amount.value


# Stored bleach


def test_bleach_at_and_between_the_tabled_ages() -> None:
    """Full strength when new, the table's months, lines between them (wallow-11)."""
    assert bleach_strength(12.5, 0.0, celsius(90)).amount.value == pytest.approx(12.5)
    month = bleach_strength(12.5, MONTH_H, celsius(90)).amount.value
    assert month == pytest.approx(8.36, abs=0.005)
    # half-way along 1/strength from 8.36 (1 month) to 5.72 (3 months)
    two = bleach_strength(12.5, 2 * MONTH_H, celsius(90)).amount.value
    assert two == pytest.approx(2 / (1 / 8.36 + 1 / 5.72), abs=0.005)
    # half-way between 80 F (9.93) and 90 F (8.36)
    warm = bleach_strength(12.5, MONTH_H, celsius(85)).amount.value
    assert warm == pytest.approx(9.145, abs=0.005)


def test_weaker_bleach_keeps_the_same_share_at_least() -> None:
    """8.25 % after a month at 90 F: at least 8.36 / 12.5 of it (wallow-9, wallow-12)."""
    figure = bleach_strength(8.25, MONTH_H, celsius(90))
    assert figure.amount.value == pytest.approx(8.25 * 8.36 / 12.5, abs=0.005)
    assert "full strength on the label" in printed([figure])
    days = dict(figure.working[0].values)["time"]
    assert isinstance(days, units.Amount)
    assert days.value == pytest.approx(365.25 / 12)


def test_a_cool_place_counts_as_70_f() -> None:
    """Cooler than the table gives its coolest column, at most too low."""
    cool, tabled = (bleach_strength(12.5, MONTH_H, warm) for warm in (10.0, celsius(70)))
    assert cool.amount.value == pytest.approx(tabled.amount.value)


@pytest.mark.parametrize(
    ("strength", "hours", "warm_c"),
    [(12.6, 0.0, 20.0), (12.5, 6.1 * MONTH_H, 20.0), (12.5, 24.0, celsius(101))],
)
def test_beyond_the_table_buy_fresh(strength: float, hours: float, warm_c: float) -> None:
    """Stronger, older or warmer than the table is refused, never guessed."""
    with pytest.raises(NotPublishedError, match="buy a fresh bottle"):
        bleach_strength(strength, hours, warm_c)


def test_ages_refused() -> None:
    """Neither no strength nor a time that has not passed."""
    with pytest.raises(ValueError, match="strength"):
        bleach_strength(0.0, 1.0, 20.0)
    with pytest.raises(ValueError, match="time"):
        bleach_strength(12.5, -1.0, 20.0)


# Gate, algae, peroxide


@pytest.mark.parametrize(
    ("ppm", "animals", "verdict"),
    [
        (0.6, "sows due or piglets", "out"), (0.6, "pigs and birds", "out"),
        (0.5, "sows due or piglets", "out"), (0.5, "pigs and birds", "in"),
        (0.0, "sows due or piglets", "in"), (0.0, "pigs and birds", "in"),
        (0.01, "sows due or piglets", "out"), (0.51, "pigs and birds", "out"),
    ],
)  # fmt: skip
def test_the_gate(ppm: float, animals: str, verdict: str) -> None:
    """0.5 ppm for pigs and birds, no color for sows and piglets (our choice)."""
    figure = strip_gate(ppm * PPM, animals)
    assert figure.value == verdict
    assert printed([figure])


@pytest.mark.parametrize(
    ("stick", "jar", "scum", "verdict"),
    [
        ("strands", "sinks", "no", "green"),
        (
            "strands",
            "sinks",
            "yes",
            "keep out",
        ),  # any scum keeps them out (wallow-33, wallow-36)
        ("paint", "sinks", "no", "keep out"),
        ("clean", "sinks", "no", "keep out"),  # a clean stick is inconclusive (wallow-36)
        ("strands", "floats", "no", "keep out"),
    ],
)
def test_algae(stick: str, jar: str, scum: str, verdict: str) -> None:
    """Green only when both tests and the look agree; a doubt keeps animals out."""
    figure = algae(stick, jar, scum)
    assert figure.value == verdict
    assert "No home test shows poison" in printed([figure])


def test_peroxide_is_information() -> None:
    """25 mL of 3 % in 100 gal is 2 mg/L (worked); stronger than household is refused."""
    figure = peroxide_level(3.0, 0.0252, 100 * GAL)
    assert figure.amount.value == pytest.approx(2.0, abs=0.01)
    assert "Never with bleach" in printed([figure])
    assert peroxide_level(9.0, 0.001, 1.0).amount.value > 0
    with pytest.raises(NotPublishedError, match="9 %"):
        peroxide_level(9.1, 0.001, 1.0)


# The mixing sheet


def product(**fields: Any) -> Product:
    """Return a bleach as the owner would write it."""
    return Product.model_validate(
        {"id": "jug", "name": "Bleach", "kind": "bleach", "strength": "8.25 %"} | fields
    )


def test_one_sheet_shows_strong_and_weak() -> None:
    """Every use of every bleach, strongest first: the wallow rate is some 900 times weaker."""
    table = dilution_table([product(), product(id="old", strength="5.25 %"),
                            product(id="h2o2", kind="peroxide", strength="3 %")])  # fmt: skip
    assert [(row.use, row.product) for row in table] == [
        (use, name)
        for use in ("surface", "boot bath", "waterer", "wallow")
        for name in ("jug", "old")
    ]  # fmt: skip
    ppm = {(row.use, row.product): row.ppm.amount.value for row in table if row.ppm}
    # 1 + 9 of 5.25 % by weight: 5,350 ppm (wallow-1). 1/3 cup a gallon: about 1,685 by the
    # shortcut (wallow-46). 1 tsp a quart: about 430 (wallow-62).
    assert ppm["surface", "old"] == pytest.approx(5350, abs=20)
    assert ppm["boot bath", "jug"] == pytest.approx(1685, rel=0.06)
    assert ppm["waterer", "jug"] == pytest.approx(430, rel=0.06)
    assert ppm["boot bath", "old"] >= 1000  # wallow-4: at least 1,000 ppm
    assert ppm["wallow", "jug"] == ppm["wallow", "old"] == pytest.approx(8.2)
    assert ppm["surface", "jug"] / ppm["wallow", "jug"] > 900
    assert printed(row.ppm for row in table)
    assert all(words.load().has(f"cleaning-uses.{row.use}.how") for row in table)
    assert [row.wet_min for row in table if row.use == "wallow"] == [None, None]


def test_a_strength_nobody_publishes_has_no_ppm() -> None:
    """A bottle stronger than the table keeps its recipe without a ppm."""
    row = dilution_table([product(strength="14 %")])[0]
    assert row.ppm is None
    assert row.bleach is not None


@pytest.mark.parametrize(
    ("line", "use", "listed"),
    [
        ("Livestock water", "wallow", True),
        ("hog wallows", "wallow", True),
        ("ponds", "wallow", True),
        ("not for ponds", "wallow", False),
        ("do not use in livestock water", "wallow", False),
        ("stock tanks", "wallow", False),  # another site (wallow-65)
        ("for responders", "wallow", False),
        ("Hard surfaces", "surface", True),
        ("laundry", "surface", False),
    ],
)
def test_label_uses(line: str, use: str, listed: bool) -> None:  # noqa: FBT001 -- a table
    """A use counts only where the owner's words for the label name it (wallow-65)."""
    assert is_listed(product(label_lists=[line]), use) is listed


def test_bleach_to_buy() -> None:
    """Ten days: 10 boot baths of 1 cup (wallow-4), 2 cleanings of 6 places, 4 tsp a gallon."""
    figure = bleach_to_buy("jug", 10, 6)
    cup_ml, tsp_ml = 236.588, 4.92892
    expected = 10 * cup_ml + 2 * 6 * 4 * tsp_ml
    assert figure.amount.value == pytest.approx(expected, rel=1e-4)
    assert printed([figure])


# Farm


def farm(wallow: dict[str, Any], equipment: dict[str, Any] | None = None, **about: Any) -> Farm:
    """Return a farm with one wallow in the woods."""
    pens = (
        {"id": "woods", "wallow": {"id": "w1", **wallow},
         "drinkers": [{"id": "d1", "kind": "nipple", "count": "3"}]},
        {"id": "barn"},
    )  # fmt: skip
    return written_farm(pens=pens, equipment=equipment, **about)


def herd(*weights_kg: float | None) -> Herd:
    """Return growers of these weights in the woods; a piglet and a dog do not count."""
    pig = Animal.model_validate({"group": "Growers", "species": "pig"})
    dog = Animal.model_validate({"name": "Rex", "species": "dog"})
    return Herd(DAY, (
        *(Group(pig, "grower", 4, weight, "woods") for weight in weights_kg),
        Group(pig, "suckling piglet", 9, 2.0, "woods"),
        Group(dog, "dog", 1, 45.0, "woods"),
    ))  # fmt: skip


OVAL = {"shape": "oval", "length": "12 ft", "width": "8 ft", "depth": "10 in"}


def cleaned(
    equipment: dict[str, Any], wallow: dict[str, Any] = OVAL, days: int | None = None
) -> CleaningFigures:
    """Return the cleaning figures of a farm with such equipment."""
    place = farm(wallow, equipment)
    animals = herd(50.0)
    return cleaning_plan.for_farm(
        place, animals, HOT, wallow_plan.for_farm(place, animals), days
    )


JUG = {
    "id": "jug",
    "name": "Bleach",
    "kind": "bleach",
    "strength": "8.25 %",
    "bought": "2026-06-14",
}
LISTED = JUG | {"label_lists": ["livestock water"]}


def test_a_dose_only_where_the_label_and_strips_allow() -> None:
    """The low volume dosed at the stock-tank rate, once label and strips are recorded."""
    found = cleaned({"products": [LISTED], "strips_read_from": "0.5 ppm"})
    assert found.strips_show_gate
    (dose,) = found.doses
    assert dose.reason == ""
    assert dose.dose is not None
    low_l = 3.14159265 / 3 * 6 * 4 * (10 / 12) * FT**3 * 1000
    assert dose.dose.amount.value == pytest.approx(
        bleach_dose(8.25, 8.2 * PPM, low_l).amount.value, rel=1e-6
    )
    assert dose.dose.subject == "w1 jug"


@pytest.mark.parametrize(
    ("bottle", "strips", "wallow", "reason"),
    [
        (JUG, "0.5\N{NO-BREAK SPACE}ppm", OVAL, "label"),
        (LISTED, "1 ppm", OVAL, "strips"),
        (LISTED, None, OVAL, "strips"),
        (
            LISTED,
            "0.5\N{NO-BREAK SPACE}ppm",
            {"shape": "oval", "length": "9 ft", "depth": "9 in"},
            "size",
        ),
        (LISTED | {"strength": "14 %"}, "0.5\N{NO-BREAK SPACE}ppm", OVAL, "strength"),
    ],
)
def test_no_dose_and_why(
    bottle: dict[str, Any], strips: str | None, wallow: dict[str, Any], reason: str
) -> None:
    """Without label, strips, width or a published strength: no dose, and why."""
    gear = {"products": [bottle]} | ({"strips_read_from": strips} if strips else {})
    (dose,) = cleaned(gear, wallow).doses
    assert dose.dose is None
    assert dose.reason == reason
    assert "Drain and refill" in words.load().text(f"wallow-dose-reasons.{reason}")


def test_bottles_age_on_the_farm() -> None:
    """A bottle ages from the day it was bought; beyond the table it is bought fresh."""
    found = cleaned(
        {"products": [
            JUG,
            JUG | {"id": "cool", "kept_at": "70 F"},
            JUG | {"id": "old", "bought": "2025-06-14", "kept_at": "70 F"},
            JUG | {"id": "next", "bought": "2026-08-01"},
            {k: v for k, v in JUG.items() if k != "bought"} | {"id": "undated"},
            JUG | {"id": "h2o2", "kind": "peroxide"},
        ]},
        days=7,
    )  # fmt: skip
    assert set(found.aged) == {"jug", "cool"}
    assert found.aged["jug"].amount.value < found.aged["cool"].amount.value < 8.25
    assert found.too_old == ("old",)
    assert found.storage_assumed == ("jug", "next")
    assert found.strips_show_gate is None
    assert set(found.buy) == {"jug", "cool", "old", "next", "undated"}
    assert len(found.table) == 4 * 5
    assert printed([*found.aged.values(), *found.buy.values()])


def test_a_bottle_bought_today_has_its_full_strength() -> None:
    """Full strength when new (wallow-11)."""
    found = cleaned({"products": [JUG | {"bought": DAY.isoformat()}]})
    assert found.aged["jug"].amount.value == pytest.approx(8.25)


def test_nothing_to_buy_without_a_stay() -> None:
    """Without days there is nothing to buy."""
    assert cleaned({"products": [JUG]}).buy == {}


# Command line


def test_figures_are_asked_for_by_name() -> None:
    """The arguments of the command line reach the figures, and each has a line of help."""
    found = {entry.name: entry for module in (doses, cleaning) for entry in module.ENTRIES}
    typed: dict[str, dict[str, str]] = {
        "bleach-dose": {"strength": "8.25 %", "target": "5 ppm", "volume": "157 gal"},
        "strip-gate": {"reading": "0.5 ppm"},
        "algae": {"stick": "strands", "jar": "sinks", "scum": "no"},
    }
    got = {
        name: found[name].compute(**read_arguments(found[name], given))
        for name, given in typed.items()
    }
    assert units.convert(got["bleach-dose"].amount, "us") == pytest.approx(1.15, abs=0.01)
    assert (got["strip-gate"].value, got["algae"].value) == ("in", "green")
    with pytest.raises(ProblemsError, match="expected one of weight, volume"):
        read_arguments(found["bleach-dose"], typed["bleach-dose"] | {"basis": "xyz"})
    assert all(words.load().has(f"{name}.help") for name in found)
