"""The public part of a farm: what is private is gone, and nothing that stays speaks of it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.farm.model.public import amounts_differ, public
from tests import farm_data

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from binder.farm.model import Farm

    Change = Callable[[Callable[[farm_data.Data], None]], Farm]


@pytest.fixture
def farm(tmp_path: Path) -> Change:
    """Return a function that gives the example farm after a change of its files."""

    def changed(change: Callable[[farm_data.Data], None]) -> Farm:
        data = json.loads(json.dumps(farm_data.read()))
        change(data)
        return check(read_folder(farm_data.write(data, tmp_path / "farm")))

    return changed


def named(things: list[dict[str, Any]], name: str) -> dict[str, Any]:
    """Return the thing of an id or a name."""
    return next(each for each in things if name in (each.get("id"), each.get("name")))


def test_a_farm_without_anything_private_is_itself(farm: Change) -> None:
    """The very same farm, codes and all: nothing has to be made twice."""
    whole = farm(lambda _: None)
    assert public(whole) is whole
    assert whole.codes


def test_an_animal_is_gone_and_so_is_its_name_elsewhere(farm: Change) -> None:
    """Hector is not there, and no sow was bred to him; the codes are gone as well."""

    def hide(data: farm_data.Data) -> None:
        named(data["animals.yaml"], "Hector")["private"] = "yes"
        named(data["animals.yaml"], "Clementine")["bred_to"] = "hector"

    whole = farm(hide)
    shown = public(whole)
    assert "Hector" not in [animal.called for animal in shown.animals]
    assert len(shown.animals) == len(whole.animals) - 1
    assert all(
        animal.bred_to is None for animal in shown.animals if animal.name == "Clementine"
    )
    assert shown.codes == ()
    assert amounts_differ(whole, shown)


def test_animals_of_a_private_pen_have_no_pen(farm: Change) -> None:
    """The pen is gone, its animals stay; what its fans hung on no longer names them."""

    def hide(data: farm_data.Data) -> None:
        named(data["pens.yaml"], "stall-1")["private"] = "yes"
        data["equipment.yaml"]["generators"][0]["runs"] = ["fan-1", "fan-2"]
        data["equipment.yaml"]["cords"][0]["feeds"] = "fan-1"

    whole = farm(hide)
    shown = public(whole)
    assert "stall-1" not in [pen.id for pen in shown.pens]
    inside = [animal.called for animal in whole.animals if animal.pen == "stall-1"]
    assert inside
    assert all(animal.pen is None for animal in shown.animals if animal.called in inside)
    assert shown.equipment.generators[0].runs == ("fan-2",)
    assert shown.equipment.cords[0].feeds is None


def test_what_is_inside_a_thing_may_be_private(farm: Change) -> None:
    """A wallow, one of two places of shade, a month's weather, a hose in the equipment."""

    def hide(data: farm_data.Data) -> None:
        creek = named(data["pens.yaml"], "creek")
        creek["wallow"]["private"] = "yes"
        creek["shade"][0]["private"] = "yes"
        data["farm.yaml"]["climate"]["july"]["private"] = "yes"
        data["equipment.yaml"]["hoses"][0]["private"] = "yes"

    whole = farm(hide)
    shown = public(whole)
    assert whole.pen("creek").wallow is not None
    assert shown.pen("creek").wallow is None
    assert len(shown.pen("creek").shade) == len(whole.pen("creek").shade) - 1
    assert "july" not in shown.about.climate
    assert "june" in shown.about.climate
    gone = whole.equipment.hoses[0].id
    assert gone not in [hose.id for hose in shown.equipment.hoses]
    assert all(drinker.fed_by != gone for pen in shown.pens for drinker in pen.drinkers)
    assert any(drinker.fed_by == gone for pen in whole.pens for drinker in pen.drinkers)


@pytest.mark.parametrize("part", ["contacts.yaml", "stays.yaml"])
def test_people_change_no_amount(farm: Change, part: str) -> None:
    """A private contact or stay is gone, and no figure has to say that it leaves one out."""
    whole = farm(lambda data: data[part][0].update(private="yes"))
    shown = public(whole)
    assert shown is not whole
    assert not amounts_differ(whole, shown)


def test_the_place_may_be_private(farm: Change) -> None:
    """No address, no way there; the rest of farm.yaml stays."""
    shown = public(farm(lambda data: data["farm.yaml"]["place"].update(private="yes")))
    assert shown.about.place.address is None
    assert shown.about.name == "Ninebark Bottom Farm"


def test_whole_files_may_be_private(farm: Change) -> None:
    """Of farm.yaml its units and paper remain, of equipment.yaml nothing."""

    def hide(data: farm_data.Data) -> None:
        data["farm.yaml"]["private"] = "yes"
        data["equipment.yaml"]["private"] = "yes"

    whole = farm(hide)
    shown = public(whole)
    assert shown.about.name == "Farm"
    assert shown.about.owner_says is None
    assert (shown.about.units, shown.about.paper) == (whole.about.units, whole.about.paper)
    assert not shown.equipment.hoses
    assert all(drinker.fed_by is None for pen in shown.pens for drinker in pen.drinkers)
    assert all(animal.feed is None for animal in shown.animals)
