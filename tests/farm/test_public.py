"""The public part of a farm: what is private is gone, and nothing that stays speaks of it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Annotated, Any, get_args, get_origin

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.farm.model import Animal, Pen, Refers, Thing
from binder.farm.model.lists import kinds, pointers
from binder.farm.model.public import amounts_differ, public
from binder.farm.model.readers import id_
from binder.farm.model.values import Id
from binder.fit import keys_of, marks_at
from tests import farm_data

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
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


# --- keys that are not there yet -------------------------------------------------------------

HOLLOW = "hollow-under-the-oak"


class Tied(Animal):
    """An animal with keys made up for this test: in one, in several, and one it must have."""

    winters_in: Annotated[Id | None, Refers("pens")] = None
    graze: Annotated[tuple[Id, ...], Refers("pens")] = ()


class Housed(Animal):
    """An animal that cannot be without its pen."""

    home: Annotated[Id, Refers("pens")]


class Annex(Pen):
    """A pen that cannot be without another."""

    beside: Annotated[Id, Refers("pens")]


def with_secret_pen(farm: Farm, *animals: Animal, pens: tuple[Pen, ...] = ()) -> Farm:
    """Return the farm with a private pen, and animals and pens that name it."""
    hidden = Pen.model_validate({"id": HOLLOW, "name": "H", "kind": "run", "private": "yes"})
    return farm.model_copy(
        update={
            "animals": (*farm.animals, *animals),
            "pens": (*farm.pens, hidden, *pens),
        }
    )


def test_a_made_up_reference_cannot_leak(farm: Change) -> None:
    """A key that says what it refers to needs no more to keep a private pen off screens."""
    tied = Tied(name="Heather", species="goat", winters_in=HOLLOW, graze=("creek", HOLLOW))
    whole = with_secret_pen(farm(lambda _: None), tied)
    assert repr(whole).count(HOLLOW) == 3
    shown = public(whole)
    assert HOLLOW not in repr(shown)
    heather = next(animal for animal in shown.animals if animal.called == "Heather")
    assert isinstance(heather, Tied)
    assert (heather.winters_in, heather.graze) == (None, ("creek",))


def test_what_cannot_be_without_a_private_thing_is_private_too(farm: Change) -> None:
    """Its own name goes as well, wherever that stands, and so on down the chain."""
    annex = Annex(id="annex", name="Annex", kind="run", beside=HOLLOW)
    housed = Housed(name="Ivy", species="goat", home="annex")
    kid = Animal(name="Moss", species="goat", pen="annex", bred_to="Ivy")
    whole = with_secret_pen(farm(lambda _: None), housed, kid, pens=(annex,))
    text = repr(public(whole))
    assert "Moss" in text
    for name in (HOLLOW, "annex", "Annex", "Ivy"):
        assert name in repr(whole)
        assert name not in text


def test_a_name_is_withheld_only_where_it_is_that_thing(farm: Change) -> None:
    """A feed may be called as a private pen is: what names the feed keeps it."""

    def hide(data: farm_data.Data) -> None:
        named(data["pens.yaml"], "woods")["private"] = "yes"
        named(data["equipment.yaml"]["feeds"], "grower-feed")["id"] = "woods"
        for animal in data["animals.yaml"]:
            if animal.get("feed") == "grower-feed":
                animal["feed"] = "woods"

    shown = public(farm(hide))
    growers = next(animal for animal in shown.animals if animal.group == "Growers")
    assert (growers.pen, growers.feed) == (None, "woods")


def ids_that_name(model: type[Thing]) -> Iterator[str]:
    """Yield the keys of a model that hold ids of other things: those read as ids are."""
    for key in keys_of(model):
        readers_of = (getattr(mark, "func", None) for mark in marks_at(model, (key,)))
        if key != "id" and id_ in readers_of:
            yield key


def test_every_id_says_what_it_names() -> None:
    """No key that holds another thing's id comes without saying whose."""
    found = {
        (kind.key, key) for kind in kinds() for key in ids_that_name(kind.model)
    }  # seen by the reader that all ids share
    assert ("animals", "pen") in found
    assert ("generators", "runs") in found
    assert [(key, name) for key, name in found if name not in pointers(model_of(key))] == []


def model_of(key: str) -> type[Thing]:
    """Return the model of a kind of thing."""
    return next(kind.model for kind in kinds() if kind.key == key)


def test_what_is_named_is_one_or_a_tuple() -> None:
    """Names stand alone or in a tuple: in nothing else would they be looked for."""
    for kind in kinds():
        for name, _ in pointers(kind.model).values():
            shape = kind.model.model_fields[name].annotation
            inside = [each for each in get_args(shape) if each is not type(None)] or [shape]
            one = get_origin(shape) is tuple or get_args(inside[0])[:1] == (str,)
            assert one or inside == [str], (kind.key, name, shape)
