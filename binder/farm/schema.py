"""JSON Schemas of the farm's files, made from the models so that an editor knows what we know.

`python -m binder.farm.schema` writes them to content/schemas/; a test says when that is due.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, cast

from binder.data import CONTENT
from binder.farm.model.lists import LISTS, MODELS
from binder.writing import write_inside

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    Node = dict[str, object]

FOLDER = CONTENT / "schemas"
DIALECT = "http://json-schema.org/draft-07/schema#"

_SAID = frozenset({"description", "examples"})
_LEFT_OUT = frozenset({"title", "default", "properties"})


def file_name(name: str) -> str:
    """Return the name of the schema of a file whose name is given without its ending."""
    return f"{name}.schema.json"


def schemas() -> dict[str, str]:
    """Return the text of each schema by its file name."""
    return {
        file_name(name): json.dumps(_schema(name), indent=2, ensure_ascii=False) + "\n"
        for name in MODELS
    }


def write(folder: Path) -> None:
    """Write all schemas into a folder, made where it is missing."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in schemas().items():
        write_inside(folder, name, text.encode())


def _schema(name: str) -> Node:
    made = _mapping(MODELS[name].model_json_schema(by_alias=True))
    definitions = made.pop("$defs", {})
    head: Node = {"$schema": DIALECT, "title": f"{name}.yaml"}
    body: Node = {"type": "array", "items": made, "minItems": 1} if name in LISTS else made
    if name == "stays":
        del body["minItems"]
    return {**head, **body, "$defs": definitions}


def _mapping(node: Mapping[str, object]) -> Node:
    """Return a schema as an editor reads it best.

    The titles that only repeat the key go, and so do defaults in our own units; a key that may
    be left out may also stand with nothing after it.
    """
    made = {key: _node(each) for key, each in node.items() if key not in _LEFT_OUT}
    properties = cast("dict[str, Node]", node.get("properties", {}))
    needed = cast("list[str]", node.get("required", []))
    if properties:
        made["properties"] = {
            key: _mapping(each) if key in needed else _or_nothing(_mapping(each))
            for key, each in properties.items()
        }
    return made


def _node(value: object) -> object:
    if isinstance(value, dict):
        return _mapping(value)
    return [_node(each) for each in value] if isinstance(value, list) else value


def _or_nothing(node: Node) -> Node:
    """Return a schema that also takes an empty value."""
    said: Node = {key: each for key, each in node.items() if key in _SAID}
    rest = {key: each for key, each in node.items() if key not in said}
    options = cast("list[Node]", rest.pop("anyOf", [rest]))
    empty: Node = {"type": "null"}
    return {**said, "anyOf": [*(each for each in options if each != empty), empty]}


if __name__ == "__main__":  # pragma: no cover -- one line, run by whoever changes a model
    write(FOLDER)
