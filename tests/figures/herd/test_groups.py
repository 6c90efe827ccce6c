"""The herd of a farm on a date: its groups, what is asked for by name, planned moves."""

from __future__ import annotations

import datetime as dt

import pytest

from binder import sources
from binder.farm.model import Animal, EquipmentFile, Farm, FarmFile, Pen
from binder.figures.entry import read_arguments
from binder.figures.herd import groups as herds
from binder.figures.herd.groups import ENTRIES, Group
from binder.figures.published import rows
from binder.pages.text import words
from tests.figures.herd.animals import DAY, animal, on
from tests.figures.written import printed, written_farm


def farm(*animals: Animal) -> Farm:
    """Return an invented farm with these animals."""
    return written_farm(animals=animals)


def test_a_herd_knows_its_pens_and_classes() -> None:
    """Groups by pen, classes once, animals born later left out."""
    herd = herds.for_farm(
        farm(
            animal(name="A", sex="sow", pen="creek"),
            animal(group="B", count="8", weight="62 lb", pen="woods"),
            animal(name="C", sex="sow", pen="creek"),
            animal(name="D", born="2026-07-15", pen="creek"),
        ),
        DAY,
    )
    assert [each.animal.called for each in herd.in_pen("creek")] == ["A", "C"]
    assert herd.classes == ("dry sow", "grower")
    assert [each.count for each in herd.groups] == [1, 8, 1]
    assert herd.on == DAY


def test_a_sow_carries_her_figures_by_name() -> None:
    """Class, weight, due date and return check, each about her."""
    sow = on(name="Clementine", sex="sow", weight="420 lb", bred="2026-03-28")
    names = ["class", "weight-on", "due-date", "return-check"]
    assert [each.key for each in sow.figures] == [f"{name}.Clementine" for name in names]


def test_other_mothers_have_a_due_date_but_no_sow_dates() -> None:
    """A doe: due date only; nursing: nothing, since no weaning age was read for kids."""
    doe = on(species="goat", sex="doe", bred="2026-06-01")
    assert [each.name for each in doe.figures] == ["class", "due-date"]
    assert [name for name, _, _ in doe.dates] == ["labor watch", "kidding"]
    nursing = on(species="goat", sex="doe", farrowed="2026-06-01")
    assert [each.name for each in nursing.figures] == ["class"]


ASKED = {
    "class": {"species": "pig", "sex": "gilt", "born": "2025-10-05", "date": "2026-07-14",
              "weight": "245lb"},
    "due-date": {"species": "pig", "bred": "2026-05-01"},
    "return-check": {"bred": "2026-05-01"},
    "weaning": {"farrowed": "2026-05-01"},
    "boar-fertility": {"hot_spell_ended": "2026-07-01"},
    "weight-on": {"weight": "50lb", "weighed": "2026-01-01", "gain": "1.6lb/day",
                  "date": "2026-04-17"},
}  # fmt: skip


def test_a_class_is_asked_for_without_birthday_or_weight() -> None:
    """A sow is one by her sex: dry, as nothing says that she was mated."""
    (entry,) = [entry for entry in ENTRIES if entry.name == "class"]
    given = {"species": "pig", "sex": "sow", "date": "2026-07-14"}
    assert entry.compute(**read_arguments(entry, given)).value == "dry sow"


def test_every_figure_is_asked_for_by_name() -> None:
    """Every entry computes, has its words, and rests on listed sources."""
    assert {entry.name for entry in ENTRIES} == set(ASKED)
    lexicon = words.load()
    for entry in ENTRIES:
        found = entry.compute(**read_arguments(entry, ASKED[entry.name]))
        assert found.name == entry.name
        assert printed((found,))
        assert lexicon.text(f"{entry.name}.help")
        assert set(found.sources) <= set(sources.all_sources())


def test_every_event_has_words() -> None:
    """The calendar can say every event."""
    lexicon = words.load()
    for event in rows("breeding_events"):
        assert lexicon.text(f"breeding-events.{event.text('event')}")


@pytest.mark.parametrize(
    "table",
    [
        "classes",
        "class_rules",
        "sex_words",
        "gestation",
        "breeding_events",
        "growth",
        "hot_spell",
    ],
)
def test_every_row_names_listed_sources(table: str) -> None:
    """No row stands on a source that is not listed."""
    for each in rows(table):
        assert each.sources
        assert set(each.sources) <= set(sources.all_sources())


def farm_with(moves: list[dict[str, str]]) -> Farm:
    """Return a farm with a sow bred on 22 March 2026, and a farrowing pen."""
    sow = {"name": "Sow", "species": "pig", "sex": "sow", "pen": "creek", "born": "2023-01-01",
           "bred": "2026-03-22", "moves": moves}  # fmt: skip
    pens = [{"id": "creek", "name": "Creek", "kind": "pasture"},
            {"id": "stall", "name": "Stall", "kind": "stall", "farrowing": "yes"}]  # fmt: skip
    return Farm(
        about=FarmFile.model_validate({"name": "Test farm", "place": {}}),
        animals=(Animal.model_validate(sow),),
        pens=tuple(Pen.model_validate(pen) for pen in pens),
        equipment=EquipmentFile.model_validate({}),
        contacts=(),
        stays=(),
    )


def to_stall(found: Group) -> list[tuple[dt.date, dt.date]]:
    """Return when she is to be moved to where she gives birth."""
    return [(first, last) for event, first, last in found.dates if event == "move to farrowing"]


def test_an_animal_is_where_its_last_move_took_it() -> None:
    """Creek until 2 July, the stall from 3 July on, creek again from 1 August, in any order."""
    moves = [{"on": "2026-08-01", "to": "creek"}, {"on": "2026-07-03", "to": "stall"}]
    a_farm = farm_with(moves)
    days = [dt.date(2026, 7, 2), dt.date(2026, 7, 3), dt.date(2026, 7, 31), dt.date(2026, 8, 1)]
    pens = [herds.for_farm(a_farm, day).groups[0].pen for day in days]
    assert pens == ["creek", "stall", "stall", "creek"]


def test_who_is_in_a_farrowing_pen_is_not_to_be_moved_there() -> None:
    """Planned for 3 July: due on that day until then, and done from then on."""
    a_farm = farm_with([{"on": "2026-07-03", "to": "stall"}])
    planned = dt.date(2026, 7, 3)
    before = herds.for_farm(a_farm, dt.date(2026, 7, 2)).groups[0]
    assert to_stall(before) == [(planned, planned)]
    assert to_stall(herds.for_farm(a_farm, planned).groups[0]) == []
    unplanned = herds.for_farm(farm_with([]), dt.date(2026, 7, 2)).groups[0]
    assert len(to_stall(unplanned)) == 1
