"""Drawings of our own: an animal of each species, the store as a bar, the day, the bands."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest

from binder.farm.model import SPECIES
from binder.figures.bands.band_rule import Band
from binder.pages.art.drawings import Store, animal, store
from binder.pages.art.palette import DIGITS, FILLS
from binder.pages.bands.charts import (
    Mark,
    Strip,
    Timeline,
    bands_table,
    timeline,
)
from binder.pages.text import words

SVG = "{http://www.w3.org/2000/svg}"


def parsed(html: str) -> ET.Element:
    """Return a drawing as XML: a drawing that does not parse is no drawing."""
    return ET.fromstring(html)  # noqa: S314 -- of our own


@pytest.mark.parametrize("species", SPECIES)
def test_every_species_has_a_drawing(species: str) -> None:
    """With a name for those who listen, lines that follow the ink, and nothing else."""
    drawn = parsed(animal(species, words.load().text(f"species.{species}")))
    assert drawn.get("role") == "img"
    assert drawn.get("aria-label")
    assert drawn.get("stroke") == "currentColor"
    assert {one.tag for one in drawn} <= {f"{SVG}path", f"{SVG}circle"}


def test_a_label_cannot_break_out() -> None:
    """Whatever an animal is called, the drawing stays a drawing."""
    assert parsed(animal("pig", '"><b>&')).get("aria-label") == '"><b>&'


def test_store_is_parted_into_days() -> None:
    """100 held at 30 a day: marks at 1, 2 and 3 days, a fourth would be beyond it."""
    drawn = store(
        Store(100.0, 30.0, None, ("1 day", "2 days", "3 days", "4 days"), "", "Store")
    )
    said = [text.text for text in parsed(drawn).iter(f"{SVG}text")]
    assert said == ["1 day", "2 days", "3 days"]
    bar = next(parsed(drawn).iter(f"{SVG}rect"))
    first = next(parsed(drawn).iter(f"{SVG}text"))
    assert float(first.get("x", "0")) == pytest.approx(
        float(bar.get("width", "0")) * 0.3, abs=0.2
    )


def test_store_shows_what_is_wanted() -> None:
    """More is wanted than there is: the mark stands beyond the bar, and all keeps in sight."""
    drawn = parsed(store(Store(50.0, 30.0, 90.0, ("1 day",), "hold 90 gal", "Store")))
    bar = next(drawn.iter(f"{SVG}rect"))
    wanted = list(drawn.iter(f"{SVG}text"))[-1]
    assert wanted.text == "hold 90 gal"
    assert float(wanted.get("x", "0")) > float(bar.get("width", "0"))
    assert float(wanted.get("x", "0")) < float(drawn.get("viewBox", "").split()[2])


def day(**changes: object) -> Timeline:
    """Return a day to draw."""
    given: dict[str, object] = {
        "temperatures": tuple(75.0 + hour for hour in range(24)),
        "degree": "°",
        "strips": (Strip("Pigs", (0,) * 6 + (1,) * 6 + (3,) * 6 + (None,) * 6),),
        "marks": (Mark(6.0, "feed", "meal"), Mark(7.0, "round", "round")),
        "sunrise_h": 6.0,
        "sunset_h": 20.0,
        "clock": ("12", "3", "6", "9", "12", "3", "6", "9", "12"),
        "description": 'The day & its "hours"',
    }
    return Timeline(**{**given, **changes})  # type: ignore[arg-type]


def test_day_draws_runs_with_their_digit() -> None:
    """Hours of one band are one box with its number; hours without a band have none."""
    drawn = parsed(timeline(day()))
    assert drawn.get("aria-label") == 'The day & its "hours"'
    said = [text.text for text in drawn.iter(f"{SVG}text")]
    assert [one for one in said if one in {"0", "1", "2", "3", "4"}][-3:] == ["0", "1", "3"]
    assert {"feed", "round", "Pigs"} <= set(said)


def test_day_without_a_place_has_no_night() -> None:
    """Where the sun is not known, no night is made up."""
    grey = "#efece7"
    assert grey in timeline(day())
    assert grey not in timeline(day(sunrise_h=None, sunset_h=None))


def test_flat_day_is_drawn() -> None:
    """A day that stays at one temperature divides by nothing."""
    parsed(timeline(day(temperatures=(80.0,) * 24)))


def test_every_band_has_fill_and_digit() -> None:
    """Five bands, each darker than the one before, so that a copy in grey keeps the order."""
    assert len(FILLS) == len(DIGITS) == len(Band)
    light = [sum(int(fill[at : at + 2], 16) for at in (1, 3, 5)) for fill in FILLS]
    assert light == sorted(light, reverse=True)
    assert len(set(light)) == len(light)


def test_grid_leaves_impossible_air_empty() -> None:
    """No number where no air is; every other box says its own."""
    html = bands_table("Air", ["20%", "90%"], [("100°", [3, None]), ("80°", [0, 1])])
    assert re.findall(r'<td(?: class="b(\d)")?>(\d?)</td>', html) == [
        ("3", "3"),
        ("", ""),
        ("0", "0"),
        ("1", "1"),
    ]
