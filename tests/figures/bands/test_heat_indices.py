"""The indices of heat as figures: value, working, cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder import sources, units
from binder.figures.bands import farm_bands
from binder.figures.bands.band_rule import band
from binder.figures.bands.farm_bands import band_figure, people_band_figure
from binder.figures.entry import read_arguments
from binder.figures.figure import NotPublishedError
from tests.figures.bands.banded import BANDED, H
from tests.figures.written import printed_in_both

if TYPE_CHECKING:
    from binder.figures.figure import Figure


def asked(name: str, **given: str) -> Figure:
    """Return the figure as `binder figure` would, arguments as typed."""
    entry = next(entry for entry in farm_bands.ENTRIES if entry.name == name)
    return entry.compute(**read_arguments(entry, given))


def test_the_band_figure_says_which_line_decided() -> None:
    """Late-gestation sow at 84 F and 70 %: index 80 and the 25.5 C line both say 2."""
    found = asked(
        "band", **{"class": "late-gestation sow", "temperature": "84F", "humidity": "70%"}
    )
    assert found.value == "Hot"
    said = printed_in_both(found)
    assert "Livestock index 79.7, nearest whole number 80: Hot" in said
    assert "Hot from an air temperature of 77.9°F" in said
    assert "25.5°C" in said
    assert "2, Hot" in said
    assert "labour" in said
    assert {"heat-12", "heat-24"} <= set(found.sources)


def test_the_figure_speaks_for_every_class_in_every_band() -> None:
    """No class, measure or band lacks words, and every source is known."""
    known = sources.all_sources()
    for cls in BANDED:
        for temp_c, rh in ((10, 50), (24.5, 90), (28, 95), (31, 60), (34, 60), (37, 60)):
            found = band_figure(cls, temp_c, rh)
            assert found.value == band(cls, temp_c, rh).word
            printed_in_both(found)
            assert set(found.sources) <= set(known)


@pytest.mark.parametrize(
    ("cls", "said"),
    [
        ("dog", "no lines of its own"), ("goat", "disagree"), ("horse", "sum"),
        ("laying hen", "from a livestock index of 81"), ("broiler", "damp air"),
    ],
)  # fmt: skip
def test_the_figure_says_what_is_special_of_a_class(cls: str, said: str) -> None:
    """Disagreements and missing lines are printed with the band."""
    assert said in printed_in_both(band_figure(cls, 29, 90))


def test_a_band_for_people_is_asked_the_same_way() -> None:
    """86 F and 80 %: heat index 100 (heat-2), between 90 and 103."""
    found = asked("band", **{"class": "people", "temperature": "86F", "humidity": "80%"})
    assert found.value == "Hot"
    said = printed_in_both(found)
    assert "Heat index 99." in said or "Heat index 100." in said
    cool = people_band_figure(20, 50)
    assert cool.value == "Fine"
    assert "below the first line" in printed_in_both(cool)


def test_all_hands_is_two_words() -> None:
    """Keys carry the underscore, the word does not."""
    assert (H.key, H.word) == ("all_hands", "All hands")


@pytest.mark.parametrize(
    ("temperature", "humidity", "expected", "said"),
    [
        ("96F", "65%", 121, "long formula"),  # heat-2
        ("70F", "50%", 69.5, "short formula"),  # heat-1, by hand: (69.05 + 70) / 2
        ("80F", "100%", 89.3, "Very damp air adds 2.1°F"),  # heat-1, by hand: 87.2 + 2.1
        ("100F", "10%", 94.6, "Very dry air takes off 0.6°F"),  # by hand: 3/4 sqrt(12/17)
    ],
)
def test_the_heat_index_shows_its_pieces(
    temperature: str, humidity: str, expected: float, said: str
) -> None:
    """Each branch of the published method prints what it added."""
    found = asked("heat-index", temperature=temperature, humidity=humidity)
    assert units.convert(found.amount, "us") == pytest.approx(expected, abs=0.6)
    assert said in printed_in_both(found)
    assert found.amount.unit == "degF"


@pytest.mark.parametrize(
    ("species", "expected", "source"),
    [
        (None, 83.8, "heat-12"), ("cattle", 83.8, "heat-12"), ("pig", 91.5, "heat-77"),
        ("chicken", 32.4, "from-memory"), ("turkey", 34.3, "heat-38"),
        ("goat", 32.7, "heat-78"), ("sheep", 32.7, "heat-78"), ("horse", 130, "heat-50"),
    ],
)  # fmt: skip
def test_each_species_has_its_own_scale(
    species: str | None, expected: float, source: str
) -> None:
    """100 F and 30 %: 83.8 and 91.5 as the published forms give, the others worked by hand.

    Wet bulb 24.2 C: hen 0.6 x 37.78 + 0.4 x 24.2; turkey 0.74 and 0.26; sheep 37.78 -
    (0.31 - 0.093) x 23.38.
    """
    given = {"species": species} if species else {}
    found = asked("livestock-index", temperature="100F", humidity="30%", **given)
    assert found.amount.value == pytest.approx(expected, abs=0.06)
    assert found.amount.unit == "index"
    assert source in found.sources
    assert ("scale of its own" in printed_in_both(found)) is (species not in (None, "cattle"))


def test_wind_and_sun_belong_to_cattle() -> None:
    """Heat-76: + 4.51 - 1.992 x 2 + 0.0068 x 800 = + 5.966."""
    air = {"temperature": "100F", "humidity": "30%"}
    bare = asked("livestock-index", **air).amount.value
    outdoors = {**air, "wind": "2m/s", "sun": "800W/m2"}
    found = asked("livestock-index", species="cattle", **outdoors)
    assert found.amount.value - bare == pytest.approx(5.966)
    assert "With a wind" in printed_in_both(found)
    for wrong in (
        {**outdoors, "species": "pig"},
        outdoors,
        {**air, "species": "cattle", "sun": "9W/m2"},
    ):
        with pytest.raises(NotPublishedError, match="cattle only"):
            asked("livestock-index", **wrong)


def test_wet_bulb_and_dew_point_print() -> None:
    """100 F and 13 %: wet bulb 65 F (heat-62); 35 C and 40 %: dew point 19.4 C (heat-63)."""
    wet = asked("wet-bulb", temperature="100F", humidity="13%")
    assert units.convert(wet.amount, "us") == pytest.approx(65, abs=1)
    dew = asked("dew-point", temperature="35C", humidity="40%")
    assert dew.amount.value == pytest.approx(19.4, abs=0.05)
    assert "humidity" in printed_in_both(wet, dew)
