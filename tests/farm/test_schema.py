"""The schemas that editors read say what the check says.

Judged by jsonschema, the reference library of JSON Schema (draft 7).
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING

import jsonschema
import pytest

from binder import yamlfile
from binder.data import CONTENT
from binder.farm import schema
from binder.farm.load import FILES
from binder.farm.model.lists import MODELS
from binder.farm.model.numbers import written
from binder.kinds import KINDS
from binder.units import UnitError, parse

if TYPE_CHECKING:
    from binder.yamlfile import Plain

FARMS = [CONTENT / "example-farm", CONTENT / "starter-farm"]
EVERY_FILE = [path for farm in FARMS for path in sorted(farm.glob("*.yaml"))]


def as_an_editor_reads(value: Plain) -> object:
    """Return plain text as YAML 1.2's core schema reads it: numbers and true or false.

    YAML 1.2.2, 10.3.2, tag resolution. Quoted text is text there; it is not told apart here,
    which only makes the test harder to pass.
    """
    if isinstance(value, dict):
        return {key: as_an_editor_reads(each) for key, each in value.items()}
    if isinstance(value, list):
        return [as_an_editor_reads(each) for each in value]
    if value is not None and re.fullmatch(r"[-+]?[0-9]+", value):
        return int(value)
    if value is not None and re.fullmatch(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)", value):
        return float(value)
    return {"true": True, "false": False}.get(value or "", value)


def errors(name: str, data: object) -> list[str]:
    """Return what is wrong with data according to the schema of a file."""
    made = json.loads(schema.schemas()[f"{name}.schema.json"])
    return [error.message for error in jsonschema.Draft7Validator(made).iter_errors(data)]


def test_the_schemas_on_file_are_current() -> None:
    """`python -m binder.farm.schema` has been run since the models changed."""
    on_file = {path.name: path.read_text("utf-8") for path in schema.FOLDER.iterdir()}
    assert on_file == schema.schemas()


def test_every_file_has_a_schema() -> None:
    """The schemas are those of the farm's files."""
    assert [f"{name}.yaml" for name in MODELS] == list(FILES)


@pytest.mark.parametrize("name", list(MODELS))
def test_each_schema_is_one(name: str) -> None:
    """Draft 7 takes it, and it leads to nothing outside itself."""
    text = schema.schemas()[schema.file_name(name)]
    made = json.loads(text)
    jsonschema.Draft7Validator.check_schema(made)
    references = set(re.findall(r'"\$ref": "([^"]*)', text))
    assert references <= {f"#/$defs/{each}" for each in made["$defs"]}


@pytest.mark.parametrize("path", EVERY_FILE, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_each_file_names_its_schema_and_fits_it(path: Path) -> None:
    """The first line leads an editor to the schema, which finds nothing wrong."""
    first = path.read_text("utf-8").splitlines()[0]
    named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
    assert named is not None
    assert (path.parent / named[1]).resolve() == schema.FOLDER / schema.file_name(path.stem)
    data = as_an_editor_reads(yamlfile.read(path).data)
    if data is not None:
        assert errors(path.stem, data) == []


def properties(node: object) -> list[tuple[str, dict[str, object]]]:
    """Return every key in a schema with what is said of it."""
    found = []
    if isinstance(node, dict):
        inside = node.get("properties")
        for key, each in inside.items() if isinstance(inside, dict) else ():
            found.append((key, each))
        found += [each for value in node.values() for each in properties(value)]
    elif isinstance(node, list):
        found += [each for value in node for each in properties(value)]
    return found


@pytest.mark.parametrize("name", list(MODELS))
def test_every_key_is_described(name: str) -> None:
    """An editor has something to show for each key."""
    every = properties(json.loads(schema.schemas()[schema.file_name(name)]))
    assert len(every) > 4
    assert [key for key, said in every if not said.get("description")] == []


@pytest.mark.parametrize("kind", list(KINDS))
def test_examples_are_what_they_are_examples_of(kind: str) -> None:
    """Whatever a message tells the owner to write is accepted when written."""
    for example in re.split(r", | or ", KINDS[kind].examples):
        assert parse(example, kind) > 0


@pytest.mark.parametrize(
    ("pen", "right"),
    [
        ({"area": "0.5 acre"}, True),
        ({"area": "2,400 sq. ft."}, True),
        ({"area": "10 ft"}, False),
        ({"area": 240}, False),
        ({"area": None}, True),
        ({"farrowing": "yes"}, True),
        ({"farrowing": True}, True),
        ({"farrowing": "maybe"}, False),
        ({"kind": "paddock"}, False),
        ({"route": 2}, True),
        ({"route": "two"}, False),
        ({"shade": [{"kind": "trees", "area": "900 SQFT"}]}, True),
        ({"shade": [{"kind": "trees"}]}, False),
        ({"shade": None}, True),
        ({"gates": "two"}, False),
        ({"round_intervals": {"hot": "2 h"}}, True),
        ({"round_intervals": {"danger": "2 h"}}, False),
        ({"shelter": {"area": "96 sqft", "bedding": "1 1/2 in"}}, True),
        ({"shelter": {"area": "96 sqft", "bedding": "1 ft 2 in"}}, True),
        ({"shelter": {"area": "96 sqft", "bedding": "deep"}}, False),
        ({"drinkers": [{"id": "d1", "kind": "bowl", "flow": "3 cups per min"}]}, True),
        ({"drinkers": [{"id": "d1", "kind": "bowl", "flow": "3 cups"}]}, False),
    ],
)
def test_an_editor_marks_what_the_check_refuses(pen: dict[str, object], *, right: bool) -> None:
    """Units, choices, lists and keys are checked while they are typed."""
    data = [{"id": "creek", "name": "Creek", "kind": "run", **pen}]
    assert (errors("pens", data) == []) == right


@pytest.mark.parametrize("kind", list(KINDS))
def test_every_unit_that_is_read_fits_the_pattern(kind: str) -> None:
    """The pattern in the schema is never stricter than the check."""
    pattern = written(kind).json_schema["pattern"]  # type: ignore[index]
    for unit in KINDS[kind].written:
        for text in (f"3/4 {unit}", f"1,500{unit.upper()}", f"\N{MINUS SIGN}1½ {unit}."):
            try:
                parse(text, kind)
            except UnitError:
                continue
            assert re.search(pattern, text), text


def test_writing_makes_the_folder(tmp_path: Path) -> None:
    """All schemas are written, the folder made where it is missing."""
    schema.write(tmp_path / "a" / "b")
    assert len(list((tmp_path / "a" / "b").iterdir())) == len(MODELS)
