"""Quantities in and out.

Factors: NIST Special Publication 811 (2008), appendix B.8. Horsepower is that of 550 ft lbf/s.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder import units
from binder.display import DISPLAY
from binder.kinds import KINDS
from binder.units import Amount, UnitError, convert, parse, show, show_both

# kind, written, kept: the factor of NIST SP 811 B.8 beside each
NIST = [
    ("length", "1 in", 0.0254),
    ("length", "1 ft", 0.3048),
    ("length", "1 yd", 0.9144),
    ("length", "1 mile", 1609.344),
    ("area", "1 sqft", 0.09290304),
    ("area", "1 acre", 4046.873),
    ("area", "1 ha", 10_000),
    ("volume", "1 gal", 3.785412),
    ("volume", "1 qt", 0.9463529),
    ("volume", "1 pt", 0.4731765),
    ("volume", "1 cup", 0.2365882),
    ("volume", "1 fl oz", 0.02957353),
    ("volume", "1 tbsp", 0.01478676),
    ("volume", "1 tsp", 0.004928922),
    ("volume", "1 cu ft", 28.31685),
    ("weight", "1 lb", 0.45359237),
    ("weight", "1 oz", 0.02834952),
    ("weight", "1 ton", 907.1847),
    ("flow", "1 gal/min", 3.785412),
    ("flow", "1 gal/h", 0.06309020),
    ("air flow", "1 cfm", 1.699011),
    ("power", "1 hp", 745.6999),
    ("pressure", "1 psi", 6.894757),
    ("speed", "1 mph", 0.44704),
    ("speed", "1 ft/min", 0.00508),
    ("temperature", "32 F", 0.0),
    ("temperature", "212 F", 100.0),
    ("temperature", "0 F", -17.7777777778),
    ("time", "1 day", 24.0),
    ("time", "1 week", 168.0),
    ("strength", "1 ppm", 0.0001),
    ("depth rate", "1 in/day", 25.4),
    ("gain", "1 lb/day", 0.45359237),
    ("fuel rate", "1 gal/h", 3.785412),
    ("daily volume", "1 gal/day", 3.785412),
    ("sunlight", "1000 W/m2", 1000.0),
    ("current", "15 A", 15.0),
    ("voltage", "120 V", 120.0),
    ("share", "80 %", 80.0),
]


@pytest.mark.parametrize(("kind", "written", "kept"), NIST)
def test_written_units_are_the_published_ones(kind: str, written: str, kept: float) -> None:
    """To the seven figures that NIST prints."""
    assert parse(written, kind) == pytest.approx(kept, rel=2e-6, abs=1e-9)


def test_every_kind_is_tried_against_a_table() -> None:
    """No kind of quantity is left out above."""
    assert {kind for kind, _, _ in NIST} == set(KINDS)


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("3/4 in", 0.01905),
        ("1 1/2 in", 0.0381),
        ("1-1/2 in", 0.0381),
        ("1½ in", 0.0381),
        ("½ in", 0.0127),
        (".5 in", 0.0127),
        ("0.5in", 0.0127),
        ("6 IN.", 0.1524),
        ('6"', 0.1524),
        ("1,500 ft", 457.2),
        ("12 ft 6 in", 3.81),
        ("12' 6 1/2\"", 3.8227),
        ("12ft6in", 3.81),
        ("5 ft. 6 in.", 1.6764),
        ("5 Ft. 6 1/2 in", 1.6891),
        ("5ft.6in.", 1.6764),
        ("\u22125 ft", -1.524),
        ("5\xa0ft", 1.524),
    ],
)
def test_numbers_may_be_written_as_people_write_them(text: str, metres: float) -> None:
    """Fractions, feet and inches, thousands, and what word processors make of them."""
    assert parse(text, "length") == pytest.approx(metres, rel=1e-9)


@pytest.mark.parametrize(
    "text",
    ["", " ", "ft", "1/0 ft", "1.5 1/2 ft", "1 2 ft", "3,5 ft", "1,50 ft", "12,34,567 ft",
     "1e3 ft", "nan ft", "inf ft", "5. ft", "5 ft ft", "5 ft 6", "5 ft. 6",
     "5 ft.. 6 in", "3-4 ft", "٣ ft", "5 fathoms",
     "1" * 39 + "ft", "5\x00ft", "--5 ft", "1//2 ft"],
)  # fmt: skip
def test_what_is_no_quantity_is_refused(text: str) -> None:
    """Nothing is guessed: a comma for a decimal point would be read tenfold elsewhere."""
    with pytest.raises(UnitError, match=r"write it like 10 in, 0\.8 ft or 25 cm"):
        parse(text, "length")


@pytest.mark.parametrize(
    ("kind", "text", "near"),
    [
        ("length", "5 fts", "ft"),
        ("time", "40 minuts", "minutes"),
        ("volume", "3 galon", "gallon"),
    ],
)
def test_the_nearest_unit_is_named(kind: str, text: str, near: str) -> None:
    """A slip of the pen is told with the spelling that would do."""
    with pytest.raises(UnitError, match=f"; the nearest unit is {near}; write it like"):
        parse(text, kind)


def test_no_unit_of_another_kind_is_bent_into_one() -> None:
    """A thousandfold wrong voltage is not mended by leaving its letter out."""
    for kind, text in (("voltage", "12 kV"), ("volume", "5 oz"), ("flow", "5 gal")):
        with pytest.raises(UnitError, match=f'^"{text}" is not a {kind}; write it like'):
            parse(text, kind)


def test_long_text_is_refused_at_once() -> None:
    """However long the text, it is neither searched nor printed whole."""
    with pytest.raises(UnitError) as caught:
        parse("1 " * 500_000 + "ft", "length")
    assert len(str(caught.value)) < 150


@pytest.mark.parametrize(
    ("kind", "text", "same"),
    [
        ("flow", "5 gal per min", "5 gal/min"),
        ("flow", "5 gal. a minute", "5 gal/min"),
        ("flow", "5  GAL / MIN", "5 gal/min"),
        ("gain", "1.6 lb a day", "1.6 lb/day"),
        ("area", "240 sq. ft.", "240 sqft"),
        ("volume", "3 fl. oz.", "3 fl oz"),
        ("volume", "2 Tbsp.", "2 tbsp"),
        ("volume", "12 cu. ft.", "12 ft3"),
        ("weight", "180 lbs.", "180 lb"),
        ("pressure", "40 p.s.i.", "40 psi"),
        ("power", "1/2 h.p.", "1/2 hp"),
        ("time", "2 hrs.", "2 h"),
        ("time", "40 mins.", "40 min"),
        ("temperature", "96 deg. F.", "96 F"),
        ("temperature", "96°F", "96 F"),
        ("temperature", "96 degrees F", "96 F"),
    ],
)
def test_units_may_be_written_in_several_ways(kind: str, text: str, same: str) -> None:
    """Full stops, capitals and the words for `/` make no difference."""
    assert parse(text, kind) == parse(same, kind)


def test_a_difference_has_no_offset() -> None:
    """NIST SP 811 B.8: a degree Fahrenheit is 5/9 of a degree Celsius."""
    assert units.difference_c(9.0, "us") == 5.0
    assert units.difference_c(9.0, "metric") == 9.0


def test_a_round_number_stays_round() -> None:
    """95 F is 35 C, not a hair more: a band that begins there must begin there."""
    assert parse("95 F", "temperature") == 35.0
    assert convert(Amount(35.0, "degC"), "us") == 95.0
    assert parse("50 F", "temperature") == 10.0


@pytest.mark.parametrize("unit", list(DISPLAY))
def test_every_kept_unit_prints_in_both_systems(unit: str) -> None:
    """No page can meet an amount that it cannot print."""
    for system in ("us", "metric"):
        assert show(Amount(1234.5, unit), system)


@pytest.mark.parametrize(
    ("amount", "us", "both"),
    [
        (Amount(56.78, "L"), "15\xa0gal", "15\xa0gal (57\xa0L)"),
        (Amount(35.0, "degC"), "95°F", "95°F (35°C)"),
        (Amount(1.0, "delta_degC"), "2°F", "2°F (1.0°C)"),
        (Amount(0.254, "m"), "0.83\xa0ft", "0.83\xa0ft (0.25\xa0m)"),
        (Amount(120.0, "V"), "120\xa0V", "120\xa0V"),
        (Amount(50.0, "%"), "50%", "50%"),
        (Amount(4.0, "count"), "4", "4"),
        (Amount(79.25, "index"), "79.2", "79.2"),
        (Amount(4000.0, "L"), "1,057\xa0gal", "1,057\xa0gal (4,000\xa0L)"),
        (Amount(-0.001, "m"), "0\xa0ft", "0\xa0ft (0\xa0m)"),
        (Amount(53.0, "L/day"), "14\xa0gal a\xa0day", "14\xa0gal (53\xa0L) a\xa0day"),
        (Amount(1041.0, "L"), "275\xa0gal", "275\xa0gal (1,040\xa0L)"),
        (Amount(7857.1, "mg/L"), "7,860\xa0ppm", "7,860\xa0ppm"),
        (Amount(22.3, "m2"), "240\xa0sq\xa0ft", "240\xa0sq\xa0ft (22\xa0m²)"),
        # small and large amounts are said in the measure that fits them
        (Amount(19.05, "mm"), "3/4\xa0in", "3/4\xa0in (19\xa0mm)"),
        (Amount(15.875, "mm"), "5/8\xa0in", "5/8\xa0in (16\xa0mm)"),
        (Amount(119.0, "mm"), "4.7\xa0in", "4.7\xa0in (119\xa0mm)"),
        (Amount(1.12, "L"), "4\xa03/4\xa0cups", "4\xa03/4\xa0cups (1.1\xa0L)"),
        (Amount(0.1775, "L"), "3/4\xa0cup", "3/4\xa0cup (0.18\xa0L)"),
        (Amount(4.93, "mL"), "1\xa0tsp", "1\xa0tsp (5\xa0mL)"),
        (Amount(2.0, "mL"), "0.41\xa0tsp", "0.41\xa0tsp (2\xa0mL)"),
        (Amount(108.0, "h"), "4\xa01/2\xa0days", "4\xa01/2\xa0days"),
        (Amount(115.0, "h"), "4.8\xa0days", "4.8\xa0days"),
        (Amount(47.9, "h"), "48\xa0h", "48\xa0h"),
        (Amount(0.5, "h"), "30\xa0min", "30\xa0min"),
        (Amount(103.0, "s"), "1\xa03/4\xa0min", "1\xa03/4\xa0min"),
        (Amount(83.0, "s"), "83\xa0s", "83\xa0s"),
    ],
)
def test_amounts_print_as_they_are_said(amount: Amount, us: str, both: str) -> None:
    """Two or three honest digits, the symbol, and the other system in brackets."""
    assert show(amount, "us") == us
    assert show_both(amount, "us") == both


def test_metric_readers_get_metric_measures_alone() -> None:
    """No gallon beside the litres: whoever thinks in litres has no use for one."""
    assert show_both(Amount(56.78, "L"), "metric") == "57\xa0L"
    assert units.symbol(Amount(1.0, "L"), "metric") == "L"


@given(st.floats(0.01, 10_000), st.sampled_from(["m", "L", "kg", "m2", "L/min", "kPa", "W"]))
def test_there_and_back_is_the_same(value: float, unit: str) -> None:
    """What is shown in one system and written down again is the amount it was."""
    kind = next(kind for kind in KINDS.values() if kind.unit == unit)
    shown = DISPLAY[unit]["us"].pint_unit
    written = next(text for text, name in kind.written.items() if name == shown)
    there = convert(Amount(value, unit), "us")
    assert parse(f"{there:.9f} {written}", kind.name) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("amount", "said"),
    [
        (Amount(0.18, "mL"), "0.04\xa0tsp"),
        (Amount(0.001, "kg"), "0.002\xa0lb"),
        (Amount(0.0, "L"), "0\xa0gal"),
    ],
)
def test_a_small_amount_never_prints_as_nothing(amount: Amount, said: str) -> None:
    """A dose of 0.18 mL is 0.04 tsp (1 tsp is 4.93 mL), not 0."""
    assert show(amount, "us") == said


@pytest.mark.parametrize(
    ("gauge", "section", "sold"),
    [
        (18, 0.82, "1 mm2"),
        (16, 1.31, "1.5 mm2"),
        (14, 2.08, "2.5 mm2"),
        (12, 3.31, "4 mm2"),
        (10, 5.26, "6 mm2"),
    ],
)
def test_a_wire_is_said_by_its_section_where_metric_measures_lead(
    gauge: int, section: float, sold: str
) -> None:
    """0.82 mm2 of gauge 18: a maker's table (dtsheet.com, 1611412); the others from memory.

    What is sold is never thinner than the gauge (sections of IEC 60228).
    """
    assert units.copper_mm2(gauge) == pytest.approx(section, abs=0.006)
    wire = Amount(gauge, "AWG")
    assert show(wire, "metric").replace("\xa0", " ") == sold.replace("mm2", "mm\u00b2")
    assert show(wire, "us").replace("\xa0", " ") == f"{gauge} AWG"
    assert units.gauge_of(float(sold.split(maxsplit=1)[0])) == gauge


@pytest.mark.parametrize(
    ("ml", "said"),
    [
        (0.18, "0.18 mL"), (3.27, "3.3 mL"), (12.4, "12 mL"), (58, "60 mL"), (118.3, "125 mL"),
        (236.6, "250 mL"), (473, "450 mL"), (946, "950 mL"), (1420, "1.5 L"),
    ],
)  # fmt: skip
def test_a_dose_is_one_that_a_jug_shows(ml: float, said: str) -> None:
    """A cup is a quarter of a litre and a dose of drops keeps its digits: our choice."""
    assert units.measure(Amount(ml, "mL"), "metric").replace("\xa0", " ") == said
