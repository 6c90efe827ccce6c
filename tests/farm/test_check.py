"""What is said of a farm folder that is wrong, word for word."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from pathlib import Path

    from tests.conftest import FarmFolder
    from tests.farm.conftest import Checked, Said

GENERATOR = "generators: [{{id: gen, name: G, running: 2800 W, runs: {runs}}}]"
SHORT_STAY = "from: 2026-07-01, to: 2026-07-02, sitter: Sam"


def test_a_minimal_farm_is_enough(checked: Checked) -> None:
    """Name, place, three animals, one pen and one phone are a farm."""
    farm = checked()
    assert farm.about.place.address == "Somewhere, Georgia"
    assert farm.about.place.latitude is None
    assert [animal.called for animal in farm.animals] == ["Daisy", "Duke", "Clover"]
    assert [animal.head for animal in farm.animals] == [1, 1, 1]
    assert farm.pen("creek").drinkers == ()
    assert (farm.stays, farm.codes, farm.equipment.hoses) == ((), (), ())


def test_a_wrong_unit_is_named_with_what_would_do(said: Said) -> None:
    """A unit that is none gives line, column, path and three ways to write it."""
    pens = """
        - id: creek
          name: Creek paddock
          kind: pasture
          wallow:
            id: w1
            shape: oval
            length: 12 ft
            width: 8 ft
            depth: 10 inchs
    """
    assert said({"pens.yaml": pens}) == [
        (
            'pens.yaml:9:12  creek > wallow > depth: "10 inchs" is not a length; '
            "the nearest unit is inches; write it like 10 in, 0.8 ft or 25 cm"
        )
    ]


def test_a_missing_file_says_what_to_put_in(farm_folder: FarmFolder) -> None:
    """Each file that a farm needs is asked for, with an example."""
    folder = farm_folder({"stays.yaml": ""})
    with pytest.raises(ProblemsError) as caught:
        check(read_folder(folder))
    assert str(caught.value).splitlines() == [
        (
            "animals.yaml  is missing; list your animals in it, like "
            "- {name: Clementine, species: pig, sex: sow}"
        ),
        (
            "contacts.yaml  is missing; list whom to call in it, like "
            "- {name: Ann Example, role: owner, phone: 555-0100}"
        ),
        (
            "farm.yaml  is missing; write its name and place into it, like name: Quiet Acre "
            "and place: Somewhere, Georgia"
        ),
        (
            "pens.yaml  is missing; list where they live in it, like "
            "- {id: creek, name: Creek paddock, kind: pasture}"
        ),
    ]


def test_a_misspelt_pen_gets_the_nearest(said: Said) -> None:
    """A pen that does not exist is answered with the one most like it."""
    animals = "- {name: Daisy, species: pig, pen: crek}\n"
    assert said({"animals.yaml": animals}) == [
        'animals.yaml:1:36  Daisy > pen: "crek" is not a pen in pens.yaml; did you mean creek?'
    ]


def test_a_repeated_key_names_the_first(said: Said) -> None:
    """A key written twice in one item is refused: nobody could tell which one counts."""
    animals = "- name: Daisy\n  species: pig\n  pen: creek\n  pen: creek\n"
    assert said({"animals.yaml": animals}) == [
        'animals.yaml:4:3  Daisy: "pen" is written twice; it stands already in line 3'
    ]


def test_everything_wrong_is_said_at_once(said: Said) -> None:
    """Mistakes of every sort, in all files, come in one list by file and line."""
    found = said(
        {
            "farm.yaml": "nam: Quiet Acre\nplace: {latitude: 31.5}\nunits: uss\n",
            "animals.yaml": "- {name: Daisy, species: pigg, weight: 420, pen: crek}\n"
            "- {group: Hens, species: chicken}\n",
            "contacts.yaml": "- {name: Ann, role: ownr}\n",
            "stays.yaml": "- {id: july, from: 2026-07-10, to: 2026-07-01, sitter: Sam}\n",
            "equipment.yaml": "hoses: [\n",
            "privat.yaml": "",
        }
    )
    assert found == [
        'animals.yaml:1:26  Daisy > species: "pigg" is not a choice here; did you mean pig?',
        'animals.yaml:1:40  Daisy > weight: "420" has no unit; write it like 420 lb or 190 kg',
        'animals.yaml:1:50  Daisy > pen: "crek" is not a pen in pens.yaml; did you mean creek?',
        "animals.yaml:2:3  Hens: count is missing; write it like count: 8",
        "contacts.yaml:1:3  Ann: phone is missing; write it like phone: 912-555-0110",
        'contacts.yaml:1:21  Ann > role: "ownr" is not a choice here; did you mean owner?',
        (
            "equipment.yaml:2:1  does not fit what stands above it; "
            "begin the keys of one item in the same column, and check quotes and brackets"
        ),
        'farm.yaml:1:1  "nam" is not a key here; did you mean name?',
        "farm.yaml:1:1  name is missing; write it like name: Quiet Acre",
        'farm.yaml:3:8  units: "uss" is not a choice here; did you mean us?',
        "privat.yaml  is not a file of a farm; did you mean private.yaml?",
        "stays.yaml:1:36  july > to: 2026-07-01 lies before the first day, 2026-07-10",
    ]


@pytest.mark.parametrize(
    ("files", "expected"),
    [
        pytest.param(
            {"farm.yaml": ""},
            "farm.yaml  is empty; write its name and place into it, like name: Quiet Acre "
            "and place: Somewhere, Georgia",
            id="empty mapping",
        ),
        pytest.param(
            {"pens.yaml": "# nothing yet\n"},
            "pens.yaml  is empty; list where they live in it, like "
            "- {id: creek, name: Creek paddock, kind: pasture}",
            id="empty list",
        ),
        pytest.param(
            {"farm.yaml": "- name: Quiet Acre\n"},
            "farm.yaml:1:1  holds a list, but keys belong here, each with a value",
            id="list for mapping",
        ),
        pytest.param(
            {"farm.yaml": "Quiet Acre\n"},
            "farm.yaml:1:1  holds a single line of text, but keys belong here, "
            "each with a value",
            id="text for mapping",
        ),
        pytest.param(
            {"pens.yaml": "creek:\n  name: Creek paddock\n"},
            "pens.yaml:1:1  does not hold a list; begin each item with a dash (-)",
            id="mapping for list",
        ),
        pytest.param(
            {"stays.yaml": "july\n"},
            "stays.yaml:1:1  does not hold a list; begin each item with a dash (-)",
            id="text for list",
        ),
        pytest.param(
            {"contacts.yaml": "- Ann, 555-0100\n"},
            'contacts.yaml:1:3  1: is "Ann, 555-0100", but keys belong here; '
            "begin like name: ...",
            id="text for item",
        ),
        pytest.param(
            {"contacts.yaml": "-\n- {name: Ann, role: owner, phone: 555-0100}\n"},
            "contacts.yaml:1:2  1: is empty; write something after the dash, "
            "or take the dash away",
            id="empty item",
        ),
        pytest.param(
            {"stays.yaml": f"- {{id: a, visits: 6:30, {SHORT_STAY}}}"},
            'stays.yaml:1:19  a > visits: is "6:30", but a list belongs here; '
            "begin each line of it with a dash (-)",
            id="value for list",
        ),
        pytest.param(
            {"pens.yaml": "- {id: creek, name: C, kind: run, shelter: [96 sqft]}"},
            "pens.yaml:1:44  creek > shelter: is a list, but keys belong here; "
            "begin like area: ...",
            id="list for keys",
        ),
        pytest.param(
            {"pens.yaml": "- {id: creek, name: C, kind: run, round_intervals: 2 h}"},
            'pens.yaml:1:52  creek > round_intervals: is "2 h", but keys belong here, '
            "each with a value",
            id="value for free keys",
        ),
        pytest.param(
            {"pens.yaml": "- {id: creek, name: C, kind: [run]}"},
            "pens.yaml:1:30  creek > kind: is a list; write pasture, stall, run or coop",
            id="list for choice",
        ),
        pytest.param(
            {"pens.yaml": "- {id: creek, name: C, kind: run, shade: [{kind: trees}]}"},
            "pens.yaml:1:43  creek > shade > 1: area is missing; write it like area: 240 sqft",
            id="number where no name",
        ),
        pytest.param(
            {"pens.yaml": "- {id: creek, name: C, kind: run, round_intervals: {sever: 2 h}}"},
            'pens.yaml:1:53  creek > round_intervals: "sever" is not a key here; '
            "did you mean severe?",
            id="fixed set of keys",
        ),
        pytest.param(
            {"farm.yaml": "name: A\nplace: B\nclimate: {june: {high: 90 F, low: 70 F}}\n"},
            "farm.yaml:3:17  climate > june: dew_point is missing; "
            "write it like dew_point: 74 F",
            id="key of a free key missing",
        ),
        pytest.param(
            {"pens.yaml": "- {id: creek, name: C, kind: run, pond: {a: , b: [{c: }]}}"},
            'pens.yaml:1:35  creek: "pond" is not a key here; expected one of id, name, '
            "kind, route, area, shade, shelter, wallow, drinkers, fans, feeder, wet_with, "
            "night, gate, at, gate_at, corners, phone_signal, farrowing, round_intervals, "
            "tasks, notes, private, picture",
            id="empty keys inside an unknown one",
        ),
        pytest.param(
            {"equipment.yaml": GENERATOR.format(runs="[[well]]")},
            "equipment.yaml:1:57  generators > gen > runs > 1: is a list, but one belongs "
            "here; write the one, or split the entry in two",
            id="list for a name",
        ),
        pytest.param(
            {"pens.yaml": "- id: creek\n  name:\n  kind: run\n"},
            "pens.yaml:2:3  creek > name: is empty; write it like name: Creek paddock",
            id="empty value",
        ),
        pytest.param(
            {"contacts.yaml": "- {name: A, role: vet, phone: 555-0100, can: Go, day or night}"},
            'contacts.yaml:1:50  A: "day or night" stands alone; '
            'put text with a comma in it in "quotes"',
            id="comma in braces",
        ),
        pytest.param(
            {"animals.yaml": "- {name: Daisy, species: pig, colour: red}"},
            'animals.yaml:1:31  Daisy: "colour" is not a key here; expected one of name, '
            "group, species, sex, purpose, breed, mark, temper, count, pen, moves, born, "
            "weight, weighed, gain, bred, bred_to, farrowed, litter, weaned, ration, feed, "
            "soak, medicine and 3 more",
            id="unknown key, none near",
        ),
        pytest.param(
            {"animals.yaml": "- {name: Daisy, species: pig, weight_kg: 190 kg}"},
            'animals.yaml:1:31  Daisy: "weight_kg" is not a key here; did you mean weight?',
            id="our own names are no keys",
        ),
        pytest.param(
            {"pens.yaml": "- {id: creek, name: C, kind: run, '[key]': x}"},
            'pens.yaml:1:35  creek: "[key]" is not a key here; expected one of id, name, '
            "kind, route, area, shade, shelter, wallow, drinkers, fans, feeder, wet_with, "
            "night, gate, at, gate_at, corners, phone_signal, farrowing, round_intervals, "
            "tasks, notes, private, picture",
            id="a key like the library's mark",
        ),
    ],
)
def test_each_sort_of_mistake_has_its_sentence(
    said: Said, files: dict[str, str], expected: str
) -> None:
    """What is wrong is said in our words, at its place, with what would do."""
    assert said(files) == [expected]


def test_no_mistake_hides_another_in_the_same_item(said: Said) -> None:
    """A wrong key, a missing one and dates that contradict are all seen in one farm file."""
    farm = """
        place: {latitude: 31.5, timezone: America/Atlanta}
        hot_day: {high: 95 F, low: 75 F}
        extreme_day: {high: 95 F, low: 101 F, dew_point: 99 F}
        climate: {juni: {high: 95 F, low: 75 F, dew_point: 74 F}}
    """
    assert said({"farm.yaml": farm}) == [
        "farm.yaml:1:1  name is missing; write it like name: Quiet Acre",
        (
            'farm.yaml:1:35  place > timezone: "America/Atlanta" is not a time zone; '
            "write it like America/New_York"
        ),
        "farm.yaml:2:10  hot_day: dew_point is missing; write it like dew_point: 74 F",
        'farm.yaml:4:11  climate: "juni" is not a key here; did you mean june?',
    ]


def test_files_that_are_not_yaml_and_hidden_ones_are_left_alone(
    farm_folder: FarmFolder, checked: Checked
) -> None:
    """Notes, lists of other programs and our own schemas do not disturb."""
    farm_folder({"README.md": "x", "herd.csv": "x", ".schemas/pens.schema.json": "{}"})
    assert checked().about.name == "Quiet Acre"


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    """A wrong folder name is one problem and names the command that makes one."""
    with pytest.raises(ProblemsError, match="is not a folder; binder start writes one"):
        read_folder(tmp_path / "nowhere")


@pytest.mark.parametrize(
    ("files", "hint"),
    [
        ({"animals.yaml": "- {name: Daisy, species: pig, age: 3}\n"}, "did you mean born?"),
        ({"pens.yaml": "- {id: creek, name: C, kind: barn}\n"}, "did you mean stall?"),
        ({"pens.yaml": "- {id: creek, name: C, kind: runn}\n"}, "did you mean run?"),
        ({"animals.yaml": "- {name: Daisy, species: cow}\n"}, "did you mean cattle?"),
        ({"animals.yaml": "- {name: Daisy, species: ostrich}\n"}, "expected one of pig,"),
    ],
)  # fmt: skip
def test_a_guess_does_not_mislead(said: Said, files: dict[str, str], hint: str) -> None:
    """A newcomer's everyday word leads to ours, and a chance likeness to none."""
    [found] = said(files)
    assert hint in found
