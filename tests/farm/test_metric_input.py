"""What owners write in metric countries: commas, ordinal signs, outside sizes of pipe."""

from __future__ import annotations

import pytest

from binder import units
from binder.farm.model import EquipmentFile
from binder.farm.model.equipment import Hose
from binder.fit import fit
from binder.units import UnitError, parse
from binder.yamlfile import Plain

HOSE = {"id": "h1", "length": "100 m"}


@pytest.mark.parametrize(
    ("written", "kind", "kept"),
    [
        ("1,5 L", "volume", 1.5),
        ("0,25 kg", "weight", 0.25),
        ("12 345 L", "volume", 12345.0),
        ("12\u202f345,5 L", "volume", 12345.5),
        ("1.500,5 L", "volume", 1500.5),
        ("1,500.5 L", "volume", 1500.5),
        ("38 ºC", "temperature", 38.0),
        ("38,5 °C", "temperature", 38.5),
        ("22 m²", "area", 22.0),
        ("0,5 m³", "volume", 500.0),
        ("1,5 m3/h", "flow", 25.0),
        ("3,2 bar", "pressure", 320.0),
        ("45 g/L", "strength", 4.5),
        ("1 1/2 gal", "volume", 5.678118),
        ("2,400 cfm", "air flow", 4077.6),
    ],
)
def test_numbers_as_people_write_them(written: str, kind: str, kept: float) -> None:
    """A comma or a point for decimals, a space, a point or a comma between thousands."""
    assert parse(written, kind) == pytest.approx(kept, rel=1e-4)


@pytest.mark.parametrize("written", ["1,2,3 L", "1,5 1/2 L", "1.5.2 L", ",5 L"])
def test_numbers_that_are_none(written: str) -> None:
    """Neither here nor there."""
    with pytest.raises(UnitError):
        parse(written, "volume")


@pytest.mark.parametrize(
    ("written", "said"),
    [("1.000 L", "write 1 L or 1000 L"), ("5.250 L", "write 5.25 L or 5250 L"),
     ("5,250 L", "write 5.25 L or 5250 L")],
)  # fmt: skip
def test_what_could_be_two_things_is_asked_about(written: str, said: str) -> None:
    """Five litres or five thousand: both are tanks, so the owner is asked."""
    tank: Plain = {"id": "t", "name": "Tank", "holds": written}
    (mistake,) = fit(EquipmentFile, {"tanks": [tank]}).mistakes
    assert f"could be two things; {said}" in mistake.sentence


def test_a_comma_that_can_only_part_thousands_is_read() -> None:
    """A tank holds no litre (field_limits.csv), so 1,000 L are a thousand."""
    tank = {"id": "t", "name": "Tank", "holds": "1,000 L"}
    read = EquipmentFile.model_validate({"tanks": [tank]})
    assert read.tanks[0].holds_l == 1000.0


def test_where_gallons_are_at_home_a_comma_parts_thousands() -> None:
    """Nobody in the US is asked."""
    assert units.two_things("1,000 gal", "volume") is None
    assert parse("1,000 gal", "volume") == pytest.approx(3785.4, abs=0.1)


def test_limits_are_told_in_the_measures_of_the_writer() -> None:
    """1.8 to 4.5 kg, not pounds, for whoever wrote kilograms."""
    (metric,) = fit(Hose, {"id": "h1", "inside": "2 m", "length": "10 m"}).mistakes
    (us,) = fit(Hose, {"id": "h1", "inside": "7 ft", "length": "10 ft"}).mistakes
    assert "write 3.2 mm or more, and 10 cm at most" in metric.sentence
    assert "write 1/8 in or more, and 4 in at most" in us.sentence


@pytest.mark.parametrize(
    ("given", "inside_mm"),
    [
        ({"outside": "32 mm", "pressure_class": "PN 10"}, 28.0),
        ({"outside": "32 mm", "pressure_class": "PN 16"}, 26.0),
        ({"outside": "25 mm", "wall": "2,3 mm"}, 20.4),
        ({"outside": "63 mm", "pressure_class": "PN 12.5"}, 53.6),
        ({"inside": "3/4 in"}, 19.05),
    ],
)
def test_pipes_are_told_by_their_outside(given: dict[str, str], inside_mm: float) -> None:
    """Outside less two walls; walls of PE 100 after EN 12201-2 as extra-130 prints them."""
    hose = Hose.model_validate({**HOSE, **given})
    assert hose.inside_m * 1000 == pytest.approx(inside_mm)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"outside": "32 mm"}, "write one of them"),
        ({"outside": "33 mm", "pressure_class": "PN 10"}, "is no size of PN 10"),
        ({"outside": "20 mm", "wall": "11 mm"}, "leaves no room for water"),
    ],
)
def test_pipes_that_cannot_be(given: dict[str, str], said: str) -> None:
    """Said with what would do."""
    assert said in " ".join(one.sentence for one in fit(Hose, {**HOSE, **given}).mistakes)
