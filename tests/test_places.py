"""Place packs: each fact has its source, the owner's word wins, nothing of the US elsewhere."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from binder import places, sources, units
from binder.farm import zones
from binder.farm.model import EquipmentFile, Farm, FarmFile
from binder.figures.limits import limits
from binder.pages.text import words
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from binder.display import System

EU = ("es", "fr", "gr", "it", "pt")


def about(**given: object) -> FarmFile:
    """Return a `farm.yaml` with these keys."""
    return FarmFile.model_validate({"name": "Farm", "place": {}, **given})


def texts(tree: object) -> Iterator[str]:
    """Yield every text of the words, without their keys."""
    if isinstance(tree, dict):
        for part in tree.values():
            yield from texts(part)
    elif isinstance(tree, list):
        for part in tree:
            yield from texts(part)
    else:
        yield str(tree)


@pytest.mark.parametrize("code", places.packs())
def test_every_fact_names_a_source_that_exists(code: str) -> None:
    """A number to call that rests on nothing is worse than none."""
    pack = places.packs()[code]
    known = sources.all_sources()
    assert pack.facts
    assert [name for name, fact in pack.facts.items() if fact.source not in known] == []


@pytest.mark.parametrize("code", places.packs())
def test_numbers_to_call_are_read_and_not_remembered(code: str) -> None:
    """What one dials rests on a page that was read, never on memory."""
    facts = places.packs()[code].facts
    for name in ("emergency", "poison"):
        if name in facts:
            assert sources.all_sources()[facts[name].source].grade in {"A", "B", "C"}, name
            assert re.fullmatch(r"[\d -]{3,}", facts[name].said), name


@pytest.mark.parametrize("code", EU)
def test_all_of_the_union_calls_112(code: str) -> None:
    """112 reaches help from any phone in every member state (extra-101)."""
    assert places.pack(code).said("emergency") == "112"


@pytest.mark.parametrize(
    ("code", "called"),
    [
        ("gb", "Health Agency 03000 200 301 in England, 0300 303 8268 in Wales."),
        ("au", "Emergency Animal Disease Hotline 1800 675 888."),
    ],
)
def test_each_number_for_disease_stands_by_its_own_place(code: str, called: str) -> None:
    """GOV.UK (extra-109) and the hotline of Australia (extra-105)."""
    assert words.load("en", "metric", code).terms["report_law"].endswith(called)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"country": "es"}, "The address for 112 is not recorded."),
        ({"country": "es", "emergency_number": "062"}, "The address for 062 is not recorded."),
        ({"country": "ke"}, "The address is not recorded."),
    ],
)
def test_a_lacking_address_names_the_number_that_the_cover_names(
    given: Mapping[str, object], said: str
) -> None:
    """The owner's number stands before the country's here too."""
    farm = Farm(
        about=about(**given),
        animals=(),
        pens=(),
        equipment=EquipmentFile(),
        contacts=(),
        stays=(),
    )
    lexicon = words.of(farm)
    assert lexicon.text("ready-findings.no-address").startswith(said)


@pytest.mark.parametrize(
    ("code", "volts", "plug"),
    [
        ("es", "230 V", "F"),
        ("fr", "230 V", "E"),
        ("gb", "230 V", "G"),
        ("au", "230 V", "I"),
        ("za", "230 V", "M, N"),
        ("mx", "127 V", "B"),
        ("in", "230 V", "D, M"),
        ("it", "230 V", "F, L"),
    ],
)
def test_electricity_comes_out_of_the_wall_as_there(code: str, volts: str, plug: str) -> None:
    """Rows of IEC World Plugs (extra-131); of several types those with an earth."""
    pack = places.pack(code)
    assert (pack.said("mains"), pack.said("plug")) == (volts, plug)


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("us", "Plain and unscented, 5% to 9%."),  # wallow-3
        ("es", "35\N{EN DASH}60 g/L"),  # extra-134
        ("fr", "2,6\N{EN DASH}9,6%"),  # extra-135
        ("au", "chlorine of 4% is"),  # extra-137
        ("za", "The label says how strong it is."),  # nothing found
        ("xx", "The label says how strong it is."),
    ],
)
def test_bleach_is_as_strong_as_shops_sell_it_there(code: str, said: str) -> None:
    """The sentence beside what to buy; where no page was found the label decides."""
    system: System = "us" if code == "us" else "metric"
    assert said in words.load("en", system, code).text("bleach-to-buy.cautions.fresh-bottle")


def test_who_has_no_number_is_named_without_one() -> None:
    """A plan of cables asked for on a site (extra-110)."""
    said = words.load("en", "metric", "gb").terms["dig_first"]
    assert said == "Ask before you dig: LinesearchbeforeUdig, some working days ahead."


def test_a_country_without_a_pack_is_told_nothing_of_another() -> None:
    """No number, no body: the neutral words."""
    pack = places.pack("xx")
    assert pack.code == places.ANYWHERE
    assert "emergency" not in pack.facts
    assert "poison" not in pack.facts


@pytest.mark.parametrize(
    ("zone", "code"),
    [
        ("America/New_York", "us"),
        ("America/Puerto_Rico", "us"),
        ("US/Central", "us"),
        ("Europe/Madrid", "es"),
        ("Atlantic/Canary", "es"),
        ("Australia/Darwin", "au"),
        ("Asia/Calcutta", "in"),
        ("Africa/Nairobi", "any"),
        ("Etc/UTC", "any"),
    ],
)
def test_the_time_zone_tells_the_country(zone: str, code: str) -> None:
    """From zone.tab of the IANA database, older names of a zone too."""
    assert about(place={"timezone": zone}).pack.code == code


def test_every_zone_of_the_packs_is_in_the_database() -> None:
    """A slip in a code of `zones` would never match."""
    assert set(places.by_zone_country()) <= set(zones.countries().values())


@pytest.mark.parametrize(
    ("given", "code", "system", "paper"),
    [
        ({}, "us", "us", "letter"),
        ({"units": "metric"}, "any", "metric", "a4"),
        ({"country": "ES"}, "es", "metric", "a4"),
        ({"country": "uk"}, "gb", "metric", "a4"),
        ({"country": "es", "units": "us", "paper": "letter"}, "es", "us", "letter"),
        ({"country": "ke"}, "ke", "metric", "a4"),
        ({"country": "es", "place": {"timezone": "America/New_York"}}, "es", "metric", "a4"),
    ],
)
def test_country_units_and_paper_are_settings_apart(
    given: Mapping[str, object], code: str, system: str, paper: str
) -> None:
    """What the owner writes wins, then the country, then the time zone."""
    found = about(**given)
    assert (found.pack.code, found.units, found.paper) == (
        code if code in places.packs() else "any", system, paper,
    )  # fmt: skip


@pytest.mark.parametrize("code", [code for code in places.packs() if code != places.HOME])
def test_no_words_of_the_us_elsewhere(code: str) -> None:
    """No GFCI, county, state vet or extension office outside the US."""
    said = words.load("en", "metric", code)
    shown = {key: part for key, part in said.tree.items() if key != "country"}
    text = " ".join((*said.terms.values(), *texts(shown)))
    found = re.findall(r"GFCI|\b811\b|\b911\b|[Cc]ounty|Extension office|State vet|USDA", text)
    assert [one for one in found if not (code == "mx" and one == "911")] == []


def test_english_is_spelled_as_the_country_spells_it() -> None:
    """`neighbour` in Britain and Spain, `neighbor` in the US; names in braces stay."""
    at_home, britain = words.load("en", "us", "us"), words.load("en", "metric", "gb")
    assert at_home.text("contacts.roles.neighbor") == "Neighbor"
    assert britain.text("contacts.roles.neighbor") == "Neighbour"
    assert britain.ours("A neighbor: {{ call('neighbor') }}") == (
        "A neighbour: {{ call('neighbor') }}"
    )


@pytest.mark.parametrize(
    ("code", "value", "written"),
    [
        ("es", 1.5, "1,5~L"),
        ("es", 12345.0, "12~345~L"),
        ("gb", 12345.0, "12,345~L"),
        ("gb", 1.5, "1.5~L"),
    ],
)
def test_numbers_are_written_as_there(code: str, value: float, written: str) -> None:
    """A comma for decimals and a space between thousands in Spain (SI Brochure 5.4.4)."""
    marks = places.pack(code).marks
    shown = units.show(Amount(value, "L"), "metric", marks)
    assert shown == written.replace("~", "\N{NO-BREAK SPACE}")


@pytest.mark.parametrize(
    ("value", "unit", "written"),
    [
        (1500, "mL", "1.5~L"),
        (1500, "mL/min", "1.5~L/min"),
        (300, "mm", "30~cm"),
        (0.3, "m", "30~cm"),
        (19, "mm", "19~mm"),
        (0.35, "kg", "350~g"),
        (275, "kPa", "2.8~bar"),
        (0.25, "L", "250~mL"),
    ],
)
def test_metric_amounts_are_in_the_unit_of_their_size(
    value: float, unit: str, written: str
) -> None:
    """1.5 L and 30 cm, never 1,500 mL and 300 mm."""
    assert units.show(Amount(value, unit), "metric").replace("\xa0", "~") == written


@pytest.mark.parametrize(
    ("value", "written"),
    [(0.247, "250~mL"), (0.33, "350~mL"), (1.37, "1.25~L"), (3.8, "4~L"), (18.4, "18~L"),
     (37.2, "35~L"), (276.0, "280~L")],
)  # fmt: skip
def test_metric_amounts_are_poured_in_steps(value: float, written: str) -> None:
    """A jug shows 250 mL, a can half litres, a trough ten; never off by more than an eighth."""
    shown = units.measure(Amount(value, "L"), "metric")
    assert shown.replace("\xa0", "~") == written


@pytest.mark.parametrize(
    "size", [0.11, 0.2, 0.3, 0.6, 1.1, 1.3, 2.2, 3.3, 6.4, 21, 44, 57, 333]
)
def test_steps_stay_within_an_eighth(size: float) -> None:
    """Of what is measured, from 100 mL on (our choice)."""
    said = units.measure(Amount(size, "L"), "metric")
    number, unit = said.split("\xa0")
    litres = float(number.replace(",", "")) / (1000 if unit == "mL" else 1)
    assert litres == pytest.approx(size, rel=0.13)


def test_limits_print_without_the_other_system() -> None:
    """On a metric farm no amount that words may name has its US measure beside it."""
    for amount in limits().values():
        assert not re.search(r"gal|°F|\bft\b|\bcups?\b", units.measure_both(amount, "metric"))
