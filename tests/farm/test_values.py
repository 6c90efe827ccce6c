"""What may be written for each sort of value, and what is said of what may not.

Conversions: NIST Special Publication 811 (2008), appendix B.8. Dates: ISO 8601-1:2019, 5.2.2.1
(calendar date, extended format). Time zones: the IANA time zone database.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest
from pydantic import ValidationError

from binder.farm.model import (
    Animal,
    Bucket,
    Circuit,
    Contact,
    Cord,
    EquipmentFile,
    Fan,
    Farm,
    FarmFile,
    Feed,
    Generator,
    Hose,
    Pen,
    Product,
    Shade,
    Spot,
    Stay,
    Tank,
    Wallow,
    WaterSource,
    Weather,
)
from binder.fit import fit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.fit import Shape
    from binder.yamlfile import Plain

# Each key once, in a mapping that has all else it needs: model, other keys, key, attribute.
Field = tuple["Shape", "Mapping[str, Plain]", str, str]
PIG: Mapping[str, Plain] = {"name": "Daisy", "species": "pig"}
HOSE: Mapping[str, Plain] = {"id": "h1", "inside": "3/4 in", "length": "50 ft"}
WELL: Mapping[str, Plain] = {"id": "well", "name": "Well", "kind": "well"}
PEN: Mapping[str, Plain] = {"id": "creek", "name": "Creek", "kind": "run"}
STAY: Mapping[str, Plain] = {
    "id": "july",
    "from": "2026-07-10",
    "to": "2026-07-19",
    "sitter": "Sam",
}
DAY: Mapping[str, Plain] = {"high": "95 F", "low": "75 F", "dew_point": "74 F"}
WALLOW: Mapping[str, Plain] = {"id": "w1", "shape": "oval", "length": "9 ft", "depth": "9 in"}
BLEACH: Mapping[str, Plain] = {
    "id": "b1",
    "name": "Bleach",
    "kind": "bleach",
    "strength": "6 %",
}
GENERATOR: Mapping[str, Plain] = {"id": "gen", "name": "Generator", "running": "2800 W"}
FEED: Mapping[str, Plain] = {"id": "feed", "name": "Feed"}
OWNER: Mapping[str, Plain] = {"name": "Ann", "role": "owner", "phone": "555-0100"}
FARM: Mapping[str, Plain] = {"name": "Quiet Acre", "place": "Somewhere"}

LENGTH: Field = (Hose, HOSE, "length", "length_m")
BORE: Field = (Hose, HOSE, "inside", "inside_m")
SPAN: Field = (Wallow, WALLOW, "width", "width_m")
DEPTH: Field = (Wallow, WALLOW, "depth", "depth_m")
AREA: Field = (Shade, {"kind": "trees"}, "area", "area_m2")
VOLUME: Field = (Tank, {"id": "tank", "name": "Tank"}, "holds", "holds_l")
BUCKET: Field = (Bucket, {"id": "b1", "name": "Bucket"}, "holds", "holds_l")
WEIGHT: Field = (Animal, PIG, "weight", "weight_kg")
STOCK: Field = (Feed, FEED, "on_hand", "on_hand_kg")
SCOOP: Field = (Feed, FEED, "scoop_holds", "scoop_holds_kg")
TEMPERATURE: Field = (Weather, DAY, "high", "high_c")
TIME: Field = (FarmFile, FARM, "round_intervals", "round_intervals_h")
FLOW: Field = (WaterSource, WELL, "flow", "flow_l_min")
AIR: Field = (Fan, {"id": "fan"}, "air", "air_m3_h")
SHARE: Field = (Shade, {"kind": "cloth", "area": "9 m2"}, "blocks", "blocks_pct")
STRENGTH: Field = (Product, BLEACH, "strength", "strength_pct")
STRIPS: Field = (EquipmentFile, {}, "strips_read_from", "strips_read_from_mg_l")
POWER: Field = (WaterSource, WELL, "pump", "pump_w")
CURRENT: Field = (Circuit, {"id": "c1"}, "breaker", "breaker_a")
VOLTAGE: Field = (Circuit, {"id": "c1", "breaker": "15 A"}, "voltage", "voltage_v")
GAIN: Field = (Animal, PIG, "gain", "gain_kg_day")
FUEL: Field = (Generator, GENERATOR, "fuel_rate", "fuel_l_h")
EVAPORATION: Field = (FarmFile, FARM, "evaporation", "evaporation_mm_day")
WHOLE: Field = (Animal, PIG, "count", "count")
NOUGHT: Field = (Animal, PIG, "litter", "litter")
GAUGE: Field = (Cord, {"id": "c1", "length": "50 ft"}, "gauge", "gauge_awg")
INDEX: Field = (FarmFile, FARM, "all_hands_from", "all_hands_index")
RATIO: Field = (Animal, PIG, "soak", "soak_ratio")
LATITUDE: Field = (Spot, {}, "latitude", "latitude")
LONGITUDE: Field = (Spot, {}, "longitude", "longitude")
YES_NO: Field = (Pen, PEN, "farrowing", "farrowing")
DATE: Field = (Animal, PIG, "born", "born")
CLOCK: Field = (Weather, DAY, "hottest_at", "hottest_at")
ID: Field = (Animal, PIG, "pen", "pen")
LINE: Field = (Animal, PIG, "breed", "breed")
TEXT: Field = (Animal, PIG, "notes", "notes")
PHONE: Field = (Contact, OWNER, "phone", "phone")
EXT: Field = (Contact, OWNER, "ext", "ext")
MORE: Field = (Contact, OWNER, "more_phones", "more_phones")
LINK: Field = (Spot, {}, "map", "map")
ZONE: Field = (Spot, {}, "timezone", "timezone")
CHOICE: Field = (Pen, PEN, "kind", "kind")
LIST: Field = (Stay, STAY, "visits", "visits")


def one(field: Field, value: Plain) -> object:
    """Return what the model keeps of a value, or the sentences against it."""
    model, rest, key, attribute = field
    found = fit(model, {**rest, key: value})
    if found.mistakes:
        return [mistake.sentence or mistake.sort for mistake in found.mistakes]
    return getattr(found.value, attribute)


@pytest.mark.parametrize(
    ("field", "written", "kept"),
    [
        (LENGTH, "150 ft", 45.72),
        (LENGTH, "1 mile", 1609.344),
        (LENGTH, "50 yards", 45.72),
        (LENGTH, "12 ft 6 in", 3.81),
        (LENGTH, "45.7 m", 45.7),
        (BORE, "3/4 in", 0.01905),
        (BORE, "1 1/4 in", 0.03175),
        (BORE, "19 mm", 0.019),
        (SPAN, "8ft", 2.4384),
        (DEPTH, "10 in", 0.254),
        (DEPTH, "25 cm", 0.25),
        (AREA, "240 sqft", 22.2967296),
        (AREA, "240 sq. ft.", 22.2967296),
        (AREA, "2 ha", 20_000.0),
        (VOLUME, "275 gal", 1040.988240600),
        (VOLUME, "1,000 L", 1000.0),
        (VOLUME, "1000.000 L", 1000.0),
        (BORE, "1.375 in", 0.034925),
        (BORE, "15.875 mm", 0.015875),
        (BUCKET, "3 cups", 0.70976472),
        (WEIGHT, "420 lb", 190.5087954),
        (WEIGHT, "190 kg", 190.0),
        (WEIGHT, "12 oz", 0.3401942775),
        (STOCK, "0 lb", 0.0),
        (STOCK, "2 tons", 1814.36948),
        (TEMPERATURE, "95 F", 35.0),
        (TEMPERATURE, "95°F", 35.0),
        (TEMPERATURE, "35 C", 35.0),
        (TEMPERATURE, "-40 F", -40.0),
        (FLOW, "5 gal/min", 18.92705892),
        (FLOW, "5 gallons a minute", 18.92705892),
        (FLOW, "3 cup/min", 0.70976472),
        (AIR, "2400 cfm", 4077.6),
        (SHARE, "80 %", 80.0),
        (SHARE, "80 percent", 80.0),
        (STRENGTH, "8.25 %", 8.25),
        (STRENGTH, "500 ppm", 0.05),
        (STRIPS, "0.5 ppm", 0.5),
        (POWER, "1/2 hp", 372.85),
        (POWER, "3.5 kW", 3500.0),
        (CURRENT, "15 A", 15.0),
        (VOLTAGE, "240 V", 240.0),
        (GAIN, "1.6 lb/day", 0.725747792),
        (FUEL, "0.6 gal/h", 2.2712470704),
        (EVAPORATION, "0.25 in/day", 6.35),
    ],
)
def test_quantities_are_kept_in_metric(field: Field, written: str, kept: float) -> None:
    """The kept number is the one NIST SP 811 gives for the unit written."""
    assert one(field, written) == pytest.approx(kept, rel=2e-5, abs=1e-9)


def test_intervals_are_kept_in_hours() -> None:
    """A round interval of 40 minutes is two thirds of an hour."""
    assert one(TIME, {"warm": "40 min", "fine": "1 day"}) == {
        "warm": pytest.approx(2 / 3),
        "fine": 24.0,
    }


@pytest.mark.parametrize(
    ("field", "written", "kept"),
    [
        (WHOLE, "8", 8),
        (WHOLE, "008", 8),
        (NOUGHT, "0", 0),
        (GAUGE, "12", 12),
        (GAUGE, "12 AWG", 12),
        (GAUGE, "2.5 mm2", 14),
        (GAUGE, "1,5 mm\u00b2", 16),
        (GAUGE, "0.75 mm2", 19),
        (INDEX, "90", 90),
        (RATIO, "1.5", 1.5),
        (LATITUDE, "31.55", 31.55),
        (LONGITUDE, "-82.12", -82.12),
        (YES_NO, "yes", True),
        (YES_NO, "No", False),
        (YES_NO, "true", True),
        (DATE, "2024-02-29", dt.date(2024, 2, 29)),
        (CLOCK, "6:30", dt.time(6, 30)),
        (CLOCK, "23:59", dt.time(23, 59)),
        (ID, "stall-1", "stall-1"),
        (ID, "1", "1"),
        (LINE, "  Red and black  ", "Red and black"),
        (LINE, "no", "no"),
        (LINE, "Nan", "Nan"),
        (TEXT, "one\ntwo", "one\ntwo"),
        (PHONE, "+1 912 555 0110", "+1 912 555 0110"),
        (PHONE, "911", "911"),
        (PHONE, "(03) 5550-0100", "(03) 5550-0100"),
        (EXT, "12", "12"),
        (MORE, ["912-555-0121", "912-555-0122"], ("912-555-0121", "912-555-0122")),
        (LINK, "https://example.org/map?x=1", "https://example.org/map?x=1"),
        (ZONE, "America/New_York", "America/New_York"),
        (CHOICE, "coop", "coop"),
        (LIST, ["06:30", "19:00"], (dt.time(6, 30), dt.time(19, 0))),
    ],
)
def test_other_values_are_kept_as_they_are_meant(
    field: Field, written: Plain, kept: object
) -> None:
    """Numbers, dates, times and words come out as themselves."""
    assert one(field, written) == kept


@pytest.mark.parametrize(
    ("field", "written", "said"),
    [
        (LENGTH, "150", "has no unit; write it like 10 in, 0.8 ft or 25 cm"),
        (LENGTH, "150 lb", "is not a length; write it like 10 in, 0.8 ft or 25 cm"),
        (LENGTH, "long", "is not a length"),
        (LENGTH, "3,5 ft", "is not a length"),
        (LENGTH, "0 ft", "is out of range; write 1 ft or more, and 10 miles at most"),
        (LENGTH, "11 miles", "is out of range; write 1 ft or more, and 10 miles at most"),
        (BORE, "3/4 ft", "is out of range; write 1/8 in or more, and 4 in at most"),
        (BORE, "1/0 in", "is not a length"),
        (SPAN, "-8 ft", "is out of range; write 2 in or more, and 600 ft at most"),
        (DEPTH, "10 ft 1 in", "is out of range; write 1/4 in or more, and 10 ft at most"),
        (AREA, "30 ft", "is not an area; write it like 240 sqft or 22 m2"),
        (LENGTH, "0.000001 ft", "is out of range; write 1 ft or more"),
        (VOLUME, "0.001 ml", "is out of range; write 3.8 L or more, and 940000 L at most"),
        (POWER, "0.0001 W", "is out of range; write 1 W or more, and 1,000 kW at most"),
        (SCOOP, "1.5 g", "is out of range; write 15 g or more, and 27 kg at most"),
        (SCOOP, "300 lb", "is out of range; write 0.5 oz or more, and 60 lb at most"),
        (VOLUME, "5 oz", "is not a volume; write it like 5 gal, 3 cups or 20 L"),
        (WEIGHT, "5 tons", "is out of range; write 0.5 oz or more, and 4,400 lb at most"),
        (TEMPERATURE, "96", "has no unit; write it like 96 F or 35 C"),
        (TEMPERATURE, "196 F", "is out of range; write -40 F or more, and 140 F at most"),
        (FLOW, "5 gal", "is not a flow; write it like 5 gal/min, 3 cup/min or 2 L/min"),
        (AIR, "fast", "is not an air flow; write it like 2400 cfm or 4000 m3/h"),
        (SHARE, "0.8", "has no unit; write it like 80 %"),
        (SHARE, "101 %", "is out of range; write 0 % or more, and 100 % at most"),
        (STRENGTH, "0 %", "is out of range; write 10 ppm or more, and 100 % at most"),
        (STRIPS, "5 %", "is out of range; write 0.1 ppm or more, and 1 % at most"),
        (POWER, "15 A", "is not a power; write it like 750 W, 3.5 kW or 1/2 hp"),
        (CURRENT, "15 W", "is not a current; write it like 15 A"),
        (VOLTAGE, "12 kV", "is not a voltage; write it like 120 V"),
        (GAIN, "1.6 lb", "is not a gain; write it like 1.6 lb/day or 0.7 kg/day"),
        (FUEL, "1 gal", "is not a fuel rate; write it like 0.6 gal/h or 2.3 L/h"),
        (EVAPORATION, "1 in", "is not a depth rate; write it like 0.25 in/day or 6 mm/day"),
        (WEIGHT, ["420 lb"], "is a list or mapping, but one value belongs here, like 420 lb"),
        (WHOLE, "8.5", '"8.5" is not a whole number; write it like 8'),
        (WHOLE, "0", '"0" is out of range; it must be from 1 to 100,000'),
        (WHOLE, "-1", '"-1" is not a whole number'),
        (WHOLE, "1000000", '"1000000" is not a whole number'),
        (
            GAUGE,
            "25",
            '"25" is out of range; it must be from 1 to 24, or a section like 2.5 mm2',
        ),
        (GAUGE, "0,1 mm2", '"0,1 mm2" is no wire of a cord; write it like 12 or 2.5 mm2'),
        (GAUGE, "thick", '"thick" is no wire; write it like 12 or 2.5 mm2'),
        (INDEX, "83", '"83" is out of range; it must be from 84 to 110'),
        (RATIO, "1:1", '"1:1" is not a plain number; write it like 1.5'),
        (RATIO, "6", '"6" is out of range; it must be from 0 to 5'),
        (LATITUDE, "31 30 N", '"31 30 N" is not a latitude in degrees; write it like 31.55'),
        (LATITUDE, "91", '"91" is out of range; it must be from -90 to 90'),
        (LONGITUDE, "-180.5", '"-180.5" is out of range; it must be from -180 to 180'),
        (YES_NO, "maybe", '"maybe" is not yes or no'),
        (YES_NO, ["yes"], "a list or mapping is not yes or no"),
        (DATE, "7/14/2026", "is not a date; write it like 2026-07-14 (year-month-day)"),
        (DATE, "2026-7-4", "is not a date"),
        (DATE, "2026-07-14 06:30", "is not a date"),
        (DATE, "2025-02-29", "is a day that does not exist; check month and day"),
        (DATE, "2206-07-14", "lies outside 1980 to 2099; check the year"),
        (CLOCK, "24:00", '"24:00" is not a time of day; write it like 06:30 or 15:30'),
        (CLOCK, "390", '"390" is not a time of day'),
        (CLOCK, "6:30 pm", '"6:30 pm" is not a time of day'),
        (ID, "Creek", '"Creek" is not an id; use small letters, digits and -'),
        (ID, "a" * 41, "is not an id"),
        (ID, {"id": "creek"}, "a list or mapping is not an id"),
        (LINE, "a" * 201, "is 201 characters long; there is room for 200"),
        (LINE, "one\ntwo", "goes over several lines; write it on one"),
        (LINE, "   ", "is empty; write something, or take the key away"),
        (LINE, ["a"], "is a list or mapping, but plain text belongs here"),
        (TEXT, "a" * 4001, "is 4,001 characters long; there is room for 4,000"),
        (PHONE, "ask Ann", '"ask Ann" is not a phone number; write it like 912-555-0110'),
        (PHONE, "912-555-0110 ext. 12", "has an extension in it; give that a key beside it"),
        (PHONE, "912-555-0110 x12", "has an extension in it"),
        (PHONE, "912-555-0110x12", "has an extension in it"),
        (
            PHONE,
            "912-555-0110, 912-555-0111",
            "more than one number; write one here and the others as",
        ),
        (PHONE, "912-555-0110 / 0111", "is more than one number"),
        (PHONE, "912-555-0110 or 912-555-0111", "is more than one number"),
        (PHONE, "912-555-0110 912-555-0111", "is more than one number"),
        (PHONE, "912-555-0110 (ask for Ann)", "write it like 912-555-0110, with nothing else"),
        (PHONE, "12", "is not a phone number"),
        (EXT, "front desk", "is not an extension; write its digits, like 12"),
        (VOLUME, "1.000 L", "could be two things; write 1 L or 1000 L"),
        (VOLUME, "12.500 litres", "could be two things; write 12.5 litres or 12500 litres"),
        (LINE, "NaN", '"NaN" is what a program writes for nothing; take the key away'),
        (LINE, "#N/A", "is what a program writes for nothing"),
        (
            ID,
            "creek, woods",
            '"creek, woods" names several, but one belongs here; write',
        ),
        (ID, "creek and woods", "names several, but one belongs here"),
        (ID, ["creek", "woods"], "is a list, but one belongs here; write the one, or split"),
        (ZONE, "CEST", '"CEST" is short for the time of many places; write region and town'),
        (LINK, "javascript:alert(1)", "is not a web address; write it like https://"),
        (LINK, "https://", "is not a web address"),
        (ZONE, "America/New_Yorc", "is not a time zone; did you mean America/New_York?"),
        (ZONE, "Eastern", "is not a time zone; write it like America/New_York"),
        (CHOICE, "paddock", "choice"),
        (LIST, "06:30", "list"),
    ],
)
def test_what_may_not_be_written_is_refused(field: Field, written: Plain, said: str) -> None:
    """The sentence says what is wrong and what would do."""
    sentences = one(field, written)
    assert isinstance(sentences, list)
    assert len(sentences) == 1
    assert said in sentences[0]


@pytest.mark.parametrize("text", ["12 Example Road, Somewhere, Georgia"])
def test_a_place_may_be_its_address_alone(text: str) -> None:
    """`place: text` is the address."""
    found = fit(FarmFile, {"name": "Quiet Acre", "place": text})
    assert found.value is not None
    assert found.value.place == Spot(address=text)


def test_models_are_frozen() -> None:
    """Nobody changes the farm after it was checked."""
    assert Farm.model_config["frozen"]
    assert all(model.model_config["frozen"] for model in (Animal, Pen, Stay, FarmFile))


@pytest.mark.parametrize("written", ["06:00", "21:00 to 06:00", "06:00 to 25:00", ["06:00"]])
def test_a_stretch_of_the_day_is_one_time_to_a_later_one(written: Plain) -> None:
    """Half past six to one o'clock may be written; the rest is refused with an example."""
    stay = {"id": "july", "from": "2026-07-10", "to": "2026-07-12", "sitter": "Sam"}
    found = Stay.model_validate({**stay, "between": ["06:30 to 13:00"]})
    assert found.between == ((dt.time(6, 30), dt.time(13, 0)),)
    with pytest.raises(ValidationError, match="write it like 06:00 to 21:30"):
        Stay.model_validate({**stay, "between": [written]})
