"""Shade and shelter against need.

Areas are published ones, the source beside each; sums are worked beside the check.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder import sources, units
from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile, Pen
from binder.figures.entry import read_arguments
from binder.figures.figure import NotPublishedError
from binder.figures.herd import groups
from binder.figures.housing.shade import ENTRIES, PenShade, for_farm, shade_need
from binder.figures.housing.shelter import shelter_need
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.written import keys_of, us

if TYPE_CHECKING:
    from binder.figures.figure import Figure

LB = 0.45359237
DAY = dt.date(2026, 7, 14)


# --- published areas ------------------------------------------------------------------------


def test_ten_mature_pigs_need_200_square_feet() -> None:
    """20 sq ft a head, never under 160 in all (husbandry-1)."""
    for cls in ("boar", "gilt", "dry sow", "gestating sow", "late-gestation sow"):
        found = shade_need(cls, 10)
        assert us(found) == pytest.approx(200)
        least = dict(found.working[-1].values)["least"]
        assert isinstance(least, units.Amount)
        assert units.convert(least, "us") == pytest.approx(160)


@pytest.mark.parametrize(
    ("cls", "square_feet"),
    [
        ("lactating sow", 48),  # husbandry-15
        ("sheep", 20), ("goat", 20), ("calf", 23), ("feeder cattle", 32),  # husbandry-1
        ("beef cow", 40), ("dairy cow", 50),  # husbandry-1
        ("suckling piglet", 0),  # in its mother's 48
    ],
)  # fmt: skip
def test_one_head_needs_what_is_published(cls: str, square_feet: float) -> None:
    """Square feet a head as printed."""
    assert us(shade_need(cls, 1)) == pytest.approx(square_feet)


def test_a_cow_with_her_calf_needs_63_square_feet() -> None:
    """Beef cow and calf 63 sq ft (husbandry-1); a litter adds nothing to a goat's."""
    assert us(shade_need("beef cow", 1, litter=1)) == pytest.approx(63)
    assert us(shade_need("goat", 1, litter=2)) == pytest.approx(20)


@pytest.mark.parametrize(
    ("pounds", "square_feet"),
    [(55, 4.0), (110, 6.3), (165, 8.3), (220, 10.0), (275, 11.6), (330, 13.1)],
)
def test_a_growing_pig_lies_clear_of_the_others(pounds: float, square_feet: float) -> None:
    """10 sq ft at 220 lb (husbandry-15); the other rows are derived there."""
    assert us(shade_need("finisher", 1, pounds * LB)) == pytest.approx(square_feet, abs=0.05)


def test_the_heaviest_growing_pig_of_the_table_is_in_it() -> None:
    """150 kg, 331 lb: 13.1 sq ft (husbandry-15, derived there), not a mature pig's 20."""
    assert us(shade_need("finisher", 1, 150.0)) == pytest.approx(13.1, abs=0.1)


@pytest.mark.parametrize(
    ("cls", "pounds", "square_feet"),
    [
        ("weaned pig", 20, 4.0),  # under the table: its first row
        ("finisher", 331, 20),  # over it: as a mature pig, husbandry-1
        ("finisher", None, 20),
        ("grower", None, 8.3),  # the row above 130 lb
        ("weaned pig", None, 4.0),
    ],
)
def test_a_growing_pig_outside_the_table(
    cls: str, pounds: float | None, square_feet: float
) -> None:
    """Where the table of weights says nothing, the larger area stands (our choice)."""
    weight = None if pounds is None else pounds * LB
    assert us(shade_need(cls, 1, weight)) == pytest.approx(square_feet, abs=0.05)


def test_birds_need_a_fifth_of_their_range() -> None:
    """Shade over at least 20 % of the range (husbandry-11), however many birds."""
    hens = shade_need("laying hen", 45, range_m2=2400 * 0.09290304)
    assert us(hens) == pytest.approx(480)


@pytest.mark.parametrize(
    ("cls", "expected"),
    [("laying hen", "give the range"), ("horse", "no shade is published here for a horse")],
)
def test_no_shade_is_made_up(cls: str, expected: str) -> None:
    """What was not read is refused with the reason."""
    with pytest.raises(NotPublishedError, match=expected):
        shade_need(cls, 1)


@pytest.mark.parametrize(
    ("cls", "kg", "square_metres"),
    [
        ("weaned pig", 10, 0.15), ("weaned pig", 10.1, 0.20), ("weaned pig", 20, 0.20),
        ("grower", 30, 0.30), ("grower", 50, 0.40), ("finisher", 85, 0.55),
        ("finisher", 110, 0.65), ("finisher", 110.1, 1.00),  # EU 2008/120, husbandry-16
        ("finisher", None, 1.00), ("gilt", None, 1.64), ("dry sow", None, 2.25),
        ("boar", None, 6),  # husbandry-16
    ],
)  # fmt: skip
def test_shelter_floor_is_the_legal_minimum(
    cls: str, kg: float | None, square_metres: float
) -> None:
    """Floor a head by live weight, in a group of six."""
    found = shelter_need(cls, 6, kg)
    assert found.amount.value / 6 == pytest.approx(square_metres)


def test_a_small_group_gets_a_tenth_more() -> None:
    """Under six sows: 10 % more (husbandry-16), 5 x 2.25 x 1.1 = 12.375 m2."""
    assert shelter_need("dry sow", 5).amount.value == pytest.approx(12.375)
    assert shelter_need("dry sow", 1, together=6).amount.value == pytest.approx(2.25)
    assert shelter_need("boar", 1).amount.value == pytest.approx(6)


def test_a_hen_needs_175_square_feet_of_floor() -> None:
    """1.75 sq ft in the house at night (husbandry-13)."""
    assert us(shelter_need("laying hen", 40)) == pytest.approx(70)


def test_no_shelter_is_made_up() -> None:
    """Nothing was read for goats."""
    with pytest.raises(NotPublishedError, match='class "goat"'):
        shelter_need("goat", 1)


# --- the pens -------------------------------------------------------------------------------

SOWS = {"group": "Sows", "species": "pig", "sex": "sow", "count": "10", "pen": "creek"}
BOAR = {"name": "Hector", "species": "pig", "sex": "boar", "weight": "510 lb", "pen": "creek"}
HENS = {"group": "Hens", "species": "chicken", "sex": "hen", "count": "45", "pen": "creek"}
ROOSTER = {"name": "Rooster", "species": "chicken", "sex": "rooster", "pen": "creek"}
HORSE = {"name": "Bay", "species": "horse", "pen": "creek"}
NURSING = {"name": "Marigold", "species": "pig", "sex": "sow", "farrowed": "2026-07-01",
           "litter": "9", "pen": "creek"}  # fmt: skip
OPEN_HUT = {"area": "400 sqft", "open_ends": "2"}
TREES = {"kind": "trees", "area": "900 sqft"}
CLOTH = {"kind": "cloth", "area": "150 sqft"}


def shaded(*animals: dict[str, str], **pen: object) -> PenShade:
    """Return the shade of an invented pasture with these animals, a good hut unless given."""
    described = {"id": "creek", "name": "Creek", "kind": "pasture", "shelter": OPEN_HUT, **pen}
    farm = Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=tuple(Animal.model_validate(each) for each in animals),
        pens=(
            Pen.model_validate(described),
            Pen.model_validate({"id": "empty", "name": "Empty", "kind": "pasture"}),
        ),
        equipment=EquipmentFile(),
        contacts=(),
        stays=(),
    )
    found = for_farm(farm, groups.for_farm(farm, DAY))
    assert list(found.pens) == ["creek"]
    assert found.findings == found.pens["creek"].findings
    return found.pens["creek"]


def keys(pen: PenShade) -> list[str]:
    """Return the keys of its findings; each must have its words."""
    return keys_of(pen.findings)


def test_a_good_pen_has_nothing_to_find() -> None:
    """10 sows and a boar: 220 sq ft of shade; floor 10 x 2.25 m2 + 6 m2 (husbandry-16)."""
    pen = shaded(SOWS, BOAR, shade=[TREES, CLOTH])
    assert keys(pen) == []
    assert us(pen.need) == pytest.approx(220)
    assert us(pen.have) == pytest.approx(1050)
    assert pen.shelter_need is not None
    assert pen.shelter_need.amount.value == pytest.approx(28.5)
    assert us(pen.shelter_have) == pytest.approx(400)


def test_short_shade_is_found_at_the_limit() -> None:
    """200 sq ft for ten sows is enough, less is not."""
    half = {"kind": "trees", "area": "100 sqft"}
    assert keys(shaded(SOWS, shade=[half, half])) == []
    less = {"kind": "cloth", "area": "99 sqft"}
    assert keys(shaded(SOWS, shade=[half, less])) == ["short"]


def test_shade_that_is_missing_or_badly_placed_is_found() -> None:
    """None at all, a single place for many, a roof over the wallow only."""
    pen = shaded(SOWS)
    assert keys(pen) == ["none"]
    assert pen.have is None
    assert keys(shaded(SOWS, shade=[{**TREES, "area": "599 sqft"}])) == ["single-place"]
    assert keys(shaded(SOWS, shade=[{**TREES, "area": "600 sqft"}])) == []  # 3 x 200
    assert keys(shaded(HORSE, ROOSTER, shade=[TREES])) == ["no-range", "single-place"]
    assert keys(shaded(BOAR, shade=[TREES])) == []  # alone, nobody keeps it out
    over = {**TREES, "over_wallow": "yes"}
    assert keys(shaded(SOWS, shade=[over, over])) == ["only-over-wallow"]
    assert keys(shaded(SOWS, shade=[over, CLOTH])) == []  # one place to lie dry


def test_the_roof_of_a_stall_is_shade() -> None:
    """The larger of roof and written shade: both may be the same roof."""
    stall = {"kind": "stall", "shelter": {"area": "140 sqft"}}
    pen = shaded(NURSING, **stall)
    assert keys(pen) == []
    assert us(pen.have) == pytest.approx(140)
    assert us(pen.need) == pytest.approx(48)
    written = shaded(NURSING, **stall, shade=[{"kind": "roof", "area": "150 sqft"}])
    assert us(written.have) == pytest.approx(150)
    assert keys(shaded(NURSING, kind="stall", shelter=None)) == ["none", "no-shelter"]


def test_a_range_of_birds_counts_once() -> None:
    """45 hens and a rooster on 2,400 sq ft: 480 in all."""
    pen = shaded(HENS, ROOSTER, kind="coop", area="2400 sqft", shade=[CLOTH, CLOTH])
    assert us(pen.need) == pytest.approx(480)
    assert keys(pen) == ["short"]
    unknown = shaded(HENS, ROOSTER, kind="coop", shade=[CLOTH, CLOTH])
    assert unknown.need is None
    assert keys(unknown) == ["no-range"]


def test_what_is_not_published_is_left_open() -> None:
    """A horse alone: no need of shade or floor is known."""
    pen = shaded(HORSE, shade=[TREES])
    assert (pen.need, pen.shelter_need) == (None, None)
    assert keys(pen) == []


@pytest.mark.parametrize(
    ("shelter", "expected"),
    [
        (None, ["no-shelter"]),
        ({"area": "200 sqft", "open_ends": "2"}, ["shelter-short"]),  # 242 sq ft needed
        ({"area": "400 sqft"}, ["open-ends-unknown"]),
        ({"area": "400 sqft", "open_ends": "1"}, ["closed"]),
        ({"area": "400 sqft", "open_ends": "2", "bedding": "2 in"}, []),
        ({"area": "400 sqft", "open_ends": "2", "bedding": "3 in"}, ["bedding"]),
    ],
)
def test_a_shelter_is_looked_over(shelter: dict[str, str] | None, expected: list[str]) -> None:
    """Floor, open ends and bedding in heat (our choice of limits)."""
    assert keys(shaded(SOWS, shelter=shelter, shade=[TREES, CLOTH])) == expected


def test_a_roof_over_birds_is_shelter_enough() -> None:
    """A tractor's roof; and what was read of open ends is about pig huts."""
    roof = {"kind": "roof", "area": "64 sqft"}
    hens = shaded(HENS, kind="run", area="96 sqft", shelter=None, shade=[roof])
    assert keys(hens) == []
    shut = {**OPEN_HUT, "open_ends": "0"}
    assert keys(shaded(HENS, kind="run", area="96 sqft", shelter=shut, shade=[roof])) == []


def test_straw_stays_where_it_is_wanted() -> None:
    """A sow's nest and the litter of a hen house."""
    deep = {**OPEN_HUT, "bedding": "8 in"}
    assert keys(shaded(NURSING, shelter=deep, shade=[TREES])) == []
    hens = shaded(HENS, kind="coop", area="100 sqft", shelter=deep, shade=[TREES, CLOTH])
    assert keys(hens) == []


def test_small_groups_count_over_the_whole_pen() -> None:
    """Five sows and a gilt are six: no tenth more (husbandry-16)."""
    five = {**SOWS, "count": "5"}
    gilt = {"name": "Poppy", "species": "pig", "sex": "gilt", "pen": "creek"}
    together = shaded(five, gilt, shade=[TREES, CLOTH]).shelter_need
    assert together is not None
    assert together.amount.value == pytest.approx(5 * 2.25 + 1.64)
    alone = shaded(five, shade=[TREES, CLOTH]).shelter_need
    assert alone is not None
    assert alone.amount.value == pytest.approx(12.375)


# --- words and sources ----------------------------------------------------------------------


def said(figure: Figure) -> None:
    """Check that a figure's words and sources are there."""
    lexicon = words.load()
    assert lexicon.title(figure)
    assert all(lexicon.working(figure))
    assert len(lexicon.cautions(figure)) == len(figure.cautions)
    assert set(figure.sources) <= set(sources.all_sources())


def test_all_of_it_can_be_said() -> None:
    """Every figure of a pen, and every sort of working."""
    pens = (
        shaded(SOWS, HENS, area="2400 sqft", shade=[TREES]),
        shaded(NURSING, kind="stall"),
    )
    for pen in pens:
        for figure in (pen.need, pen.have, pen.shelter_need, pen.shelter_have):
            assert figure is not None
            said(figure)
    for figure in (
        shade_need("beef cow", 1, litter=1),
        shade_need("finisher", 1, 60.0),
        shelter_need("finisher", 1, 60.0),
        shelter_need("dry sow", 2),
        shade_need("laying hen", 2, range_m2=10.0),
    ):
        said(figure)


ASKED = {
    "shade-need": {"class": "gestating sow", "count": "10"},
    "shelter-need": {"class": "dry sow", "count": "6"},
}


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes and has its words."""
    assert {entry.name for entry in ENTRIES} == set(ASKED)
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert words.load().text(f"{entry.name}.help")
        said(found)


@pytest.mark.parametrize("table", ["shade", "shelter", "shelter_by_weight", "shade_rules"])
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed; every class has a row of shade."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())
    listed = [each.text("class") for each in rows("classes")]
    assert [each.text("class") for each in rows("shade")] == listed
