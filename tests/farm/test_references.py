"""Names that point at something else on the farm."""

from __future__ import annotations

from textwrap import dedent
from typing import TYPE_CHECKING, Annotated

import pytest

from binder.farm import references
from binder.farm.model import Contact, Refers
from binder.farm.model.lists import MODELS
from binder.farm.model.values import Id

if TYPE_CHECKING:
    from tests.farm.conftest import Checked, Said

EQUIPMENT = """
    water_sources:
      - {id: well, name: Well, kind: well, circuit: pump}
    tanks:
      - {id: tank, name: Tank, holds: 275 gal, fed_by: well}
    hoses:
      - {id: h1, inside: 3/4 in, length: 50 ft, fed_by: tank}
      - {id: h2, inside: 3/4 in, length: 50 ft, fed_by: h1}
    circuits:
      - {id: pump, breaker: 20 A}
      - {id: barn, breaker: 15 A}
    cords:
      - {id: cord, length: 50 ft, gauge: 12, feeds: fan}
    generators:
      - {id: gen, name: Generator, running: 2800 W, runs: [well, barn, fan]}
    feeds:
      - {id: pellets, name: Pellets}
"""
PENS = """
    - id: creek
      name: Creek paddock
      kind: pasture
      wallow: {id: w1, shape: round, length: 8 ft, depth: 9 in, fed_by: h2}
      drinkers:
        - {id: d1, kind: nipple, fed_by: tank}
      fans:
        - {id: fan, circuit: barn}
"""
ANIMALS = (
    "- {name: Daisy, species: pig, pen: creek, feed: pellets, bred_to: a neighbor's boar}\n"
)
WHOLE = {"equipment.yaml": EQUIPMENT, "pens.yaml": PENS, "animals.yaml": ANIMALS}


def test_names_that_lead_somewhere_pass(checked: Checked) -> None:
    """Every sort of reference may be used, and the sire is free text."""
    farm = checked(WHOLE)
    assert farm.equipment.generators[0].runs == ("well", "barn", "fan")


@pytest.mark.parametrize(
    ("file", "right", "wrong", "path", "sentence"),
    [
        (
            "animals.yaml",
            "feed: pellets",
            "feed: pelets",
            "Daisy > feed",
            '"pelets" is not a feed in equipment.yaml; did you mean pellets?',
        ),
        (
            "pens.yaml",
            "fed_by: h2",
            "fed_by: tanc",
            "creek > wallow > fed_by",
            '"tanc" is not a water source, tank or hose in equipment.yaml; did you mean tank?',
        ),
        (
            "pens.yaml",
            "fed_by: tank",
            "fed_by: barn",
            "creek > drinkers > d1 > fed_by",
            (
                '"barn" is not a water source, tank or hose in equipment.yaml; '
                "expected one of well, tank, h1, h2"
            ),
        ),
        (
            "pens.yaml",
            "circuit: barn",
            "circuit: barns",
            "creek > fans > fan > circuit",
            '"barns" is not a circuit in equipment.yaml; did you mean barn?',
        ),
        (
            "equipment.yaml",
            "circuit: pump",
            "circuit: tank",
            "water_sources > well > circuit",
            '"tank" is not a circuit in equipment.yaml; expected one of pump, barn',
        ),
        (
            "equipment.yaml",
            "fed_by: well",
            "fed_by: wel",
            "tanks > tank > fed_by",
            '"wel" is not a water source, tank or hose in equipment.yaml; did you mean well?',
        ),
        (
            "equipment.yaml",
            "feeds: fan",
            "feeds: fans",
            "cords > cord > feeds",
            (
                '"fans" is not a water source or circuit in equipment.yaml, '
                "nor a fan in pens.yaml; did you mean fan?"
            ),
        ),
        (
            "equipment.yaml",
            "runs: [well, barn, fan]",
            "runs: [well, barn, h1]",
            "generators > gen > runs > 3",
            (
                '"h1" is not a water source or circuit in equipment.yaml, '
                "nor a fan in pens.yaml; expected one of well, pump, barn, fan"
            ),
        ),
    ],
)
def test_a_name_that_leads_nowhere_gets_the_nearest(
    said: Said, file: str, right: str, wrong: str, path: str, sentence: str
) -> None:
    """Each reference is looked up among what it may name; the place is that of the name."""
    assert right in WHOLE[file]
    text = WHOLE[file].replace(right, wrong)
    [found] = said({**WHOLE, file: text})
    place, _, rest = found.partition("  ")
    assert rest == f"{path}: {sentence}"
    name, line, column = place.split(":")
    word = sentence.split('"')[1]
    there = dedent(text).lstrip().splitlines()[int(line) - 1][int(column) - 1 :]
    assert (name, there[: len(word)]) == (file, word)


def test_a_reference_to_nothing_at_all_is_said(said: Said) -> None:
    """Where no such thing is recorded yet, the sentence says so."""
    assert said({"animals.yaml": "- {name: Daisy, species: pig, feed: pellets}\n"}) == [
        (
            'animals.yaml:1:37  Daisy > feed: "pellets" is not a feed in equipment.yaml; '
            "there is none yet"
        )
    ]


@pytest.mark.parametrize(
    ("broken", "first"),
    [
        ({"equipment.yaml": "hoses: [\n"}, "equipment.yaml:2:1"),
        ({"equipment.yaml": "- {id: well}\n"}, "equipment.yaml:1:1"),
        ({"equipment.yaml": EQUIPMENT.replace("hoses:", "hose:")}, "equipment.yaml:5:1"),
        ({"equipment.yaml": EQUIPMENT.replace("hoses:", "tanks: x\nhoses:")}, "equipment"),
        ({"pens.yaml": "creek: {name: Creek}\n"}, "pens.yaml:1:1"),
        ({"pens.yaml": "- [\n"}, "pens.yaml:2:1"),
    ],
)
def test_what_cannot_be_read_brings_no_further_complaints(
    said: Said, broken: dict[str, str], first: str
) -> None:
    """A list that is itself wrong does not make every name that leads into it wrong."""
    found = said({**WHOLE, **broken})
    assert len(found) == 1
    assert found[0].startswith(first)


def test_a_wrong_list_of_one_kind_leaves_the_others_known(said: Said) -> None:
    """With the feeds unreadable, hoses are still looked up."""
    equipment = EQUIPMENT.replace("feeds:\n      - {id", "feeds:\n        {id")
    pens = PENS.replace("fed_by: h2", "fed_by: h3")
    found = said({**WHOLE, "equipment.yaml": equipment, "pens.yaml": pens})
    assert [line.partition("  ")[2].partition(":")[0] for line in found] == [
        "feeds",
        "creek > wallow > fed_by",
    ]


def test_names_given_twice_are_refused(said: Said) -> None:
    """Ids are one set for the whole farm, pens, stays and animals aside."""
    found = said(
        {
            "equipment.yaml": "buckets:\n"
            "  - {id: creek, name: A bucket may be called as a pen is, holds: 5 gal}\n"
            "  - {id: d1, name: B, holds: 5 gal}\n",
            "pens.yaml": "- {id: creek, name: A, kind: run, drinkers: [{id: d1, kind: bowl}]}\n"
            "- {id: creek, name: B, kind: run, wallow: {id: d1, shape: round, length: 8 ft, "
            "depth: 9 in}}\n",
            "animals.yaml": "- {name: Daisy, species: pig}\n"
            "- {group: daisy, species: pig, count: 2}\n",
            "stays.yaml": "- {id: d1, from: 2026-07-01, to: 2026-07-02, sitter: Sam}\n"
            "- {id: d1, from: 2026-07-05, to: 2026-07-06, sitter: Sam}\n",
        }
    )
    assert found == [
        (
            'animals.yaml:2:11  daisy > group: "daisy" is taken (animals.yaml:1:10 has it); '
            "choose another"
        ),
        (
            'equipment.yaml:3:10  buckets > d1 > id: "d1" is taken (pens.yaml:1:51 has it); '
            "choose another"
        ),
        'pens.yaml:2:8  creek > id: "creek" is taken (pens.yaml:1:8 has it); choose another',
        (
            'pens.yaml:2:48  creek > wallow > id: "d1" is taken (pens.yaml:1:51 has it); '
            "choose another"
        ),
        'stays.yaml:2:8  d1 > id: "d1" is taken (stays.yaml:1:8 has it); choose another',
    ]


@pytest.mark.parametrize(
    ("feeds", "expected"),
    [
        (
            {"a": "a"},
            (
                "equipment.yaml:2:55  hoses > a > fed_by: goes in a circle: a is fed by a; "
                "name the tank or water source that it begins with"
            ),
        ),
        (
            {"a": "b", "b": "c", "c": "b"},
            (
                "equipment.yaml:3:55  hoses > b > fed_by: goes in a circle: b is fed by c, "
                "that by b; name the tank or water source that it begins with"
            ),
        ),
        (
            {"a": "b", "b": "c", "c": "d", "d": "e", "e": "f", "f": "a"},
            (
                "equipment.yaml:2:55  hoses > a > fed_by: goes in a circle: a is fed by b, "
                "that by c, that by d, that by ..., that by a; "
                "name the tank or water source that it begins with"
            ),
        ),
    ],
)
def test_water_that_comes_from_itself_is_refused(
    said: Said, feeds: dict[str, str], expected: str
) -> None:
    """A circle of hoses is said once, however many hoses lead into it."""
    hoses = "".join(
        f"  - {{id: {name}, inside: 3/4 in, length: 50 ft, fed_by: {source}}}\n"
        for name, source in feeds.items()
    )
    column = len("  - {id: a, inside: 3/4 in, length: 50 ft, fed_by: ") + 1
    assert said({"equipment.yaml": f"hoses:\n{hoses}"}) == [
        expected.replace(":55 ", f":{column} ")
    ]


def test_so_many_misspelt_names_are_not_all_looked_for(said: Said) -> None:
    """After two hundred the nearest name is no longer sought, and all are still listed."""
    animals = "".join(f"- {{name: D{n}, species: pig, pen: creek{n:03}}}\n" for n in range(205))
    found = said({"animals.yaml": animals})
    assert len(found) == 205
    assert [line.endswith("did you mean creek?") for line in found] == [True] * 200 + [
        False
    ] * 5


def test_a_made_up_reference_is_looked_up(said: Said, monkeypatch: pytest.MonkeyPatch) -> None:
    """A key that says what it refers to is checked without another line anywhere."""

    class Friend(Contact):
        """Somebody who knows one pen best, a key made up for this test."""

        knows: Annotated[Id | None, Refers("pens", "feeds")] = None

    monkeypatch.setattr(references, "MODELS", {**MODELS, "contacts": Friend})
    contacts = "- {name: Ann Example, role: owner, phone: 555-0100, knows: creak}\n"
    assert (
        'contacts.yaml:1:60  Ann Example > knows: "creak" is not a feed in equipment.yaml, '
        "nor a pen in pens.yaml; did you mean creek?"
    ) in said({**WHOLE, "contacts.yaml": contacts})
