"""The example farm as plain data that a test changes and writes back.

Written back as JSON, which is YAML too, so that no text needs quoting by hand.
"""

from __future__ import annotations

import json
import shutil
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from binder import yamlfile
from binder.data import CONTENT
from binder.farm.model import (
    Animal,
    Contact,
    EquipmentFile,
    FarmFile,
    Pen,
    PrivateFile,
    Stay,
    Thing,
)
from binder.fit import fit

if TYPE_CHECKING:
    from collections.abc import Iterator

EXAMPLE = CONTENT / "example-farm"
MODELS: dict[str, type[Thing]] = {
    "farm.yaml": FarmFile,
    "equipment.yaml": EquipmentFile,
    "private.yaml": PrivateFile,
    "animals.yaml": Animal,
    "pens.yaml": Pen,
    "contacts.yaml": Contact,
    "stays.yaml": Stay,
}
Data = dict[str, Any]
Path_ = tuple[str | int, ...]


def read() -> Data:
    """Return the example's files as data, by name."""
    return {name: yamlfile.read(EXAMPLE / name).data for name in MODELS}


def write(data: Data, to: Path) -> Path:
    """Write a farm folder of data, with the example's pictures."""
    to.mkdir(parents=True, exist_ok=True)
    for name, tree in data.items():
        (to / name).write_text(json.dumps(tree, ensure_ascii=False), encoding="utf-8")
    shutil.copytree(EXAMPLE / "pictures", to / "pictures", dirs_exist_ok=True)
    return to


def leaves(tree: Any, path: Path_ = ()) -> Iterator[tuple[Path_, str]]:
    """Yield every text of a file with its path."""
    if isinstance(tree, dict):
        for key, value in tree.items():
            yield from leaves(value, (*path, key))
    elif isinstance(tree, list):
        for place, value in enumerate(tree):
            yield from leaves(value, (*path, place))
    elif isinstance(tree, str):
        yield path, tree


def at(tree: Any, path: Path_) -> Any:
    """Return what stands at a path."""
    for part in path:
        tree = tree[part]
    return tree


def put(tree: Any, path: Path_, value: Any) -> None:
    """Set what stands at a path."""
    at(tree, path[:-1])[path[-1]] = value


@lru_cache(maxsize=1)
def free_texts() -> frozenset[tuple[str, Path_]]:
    """Return where the owner may write anything: file, and path without places in lists.

    Found by trying: a text of signs that no id, number, date or choice may have is accepted.
    """
    strange = "~<%&> {{x}}"
    found = set()
    for name, tree in read().items():
        for path, _ in leaves(tree):
            key = (name, _keys(path))
            if key in found or path[-1] == "picture":
                continue
            changed = json.loads(json.dumps(tree))
            put(changed, path, strange)
            items = changed if isinstance(changed, list) else [changed]
            if not any(fit(MODELS[name], item).mistakes for item in items):
                found.add(key)
    return frozenset(found)


def _keys(path: Path_) -> Path_:
    return tuple(part for part in path if isinstance(part, str))


def is_free(name: str, path: Path_) -> bool:
    """Return whether the owner may write anything there."""
    return (name, _keys(path)) in free_texts()
