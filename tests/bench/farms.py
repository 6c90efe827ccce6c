"""Farms to measure with: the example farm, edited or many times over."""

from __future__ import annotations

import shutil
from copy import deepcopy
from pathlib import Path
from typing import Any

import yaml

EXAMPLE = Path(__file__).resolve().parents[2] / "content" / "example-farm"


def example(to: Path) -> Path:
    """Return a copy of the example farm in `to`."""
    shutil.copytree(EXAMPLE, to)
    return to


def heavier_sow(farm: Path) -> None:
    """Edit one animal, as an owner would after weighing her."""
    path = farm / "animals.yaml"
    text = path.read_text(encoding="utf-8")
    changed = text.replace("weight: 420 lb", "weight: 441 lb", 1)
    if changed == text:
        message = "the example farm has no animal of 420 lb any more; choose another to edit"
        raise SystemExit(message)
    path.write_text(changed, encoding="utf-8")


def many(to: Path, times: int) -> Path:
    """Return a farm in `to` with `times` the example's pens and animals."""
    farm = example(to)
    for name, more in (("pens.yaml", _pens), ("animals.yaml", _animals)):
        path = farm / name
        given: list[dict[str, Any]] = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)  # noqa: S506 -- our own file, read as text
        copies = [more(deepcopy(one), at) for at in range(1, times) for one in given]
        written = yaml.safe_dump([*given, *copies], sort_keys=False, allow_unicode=True)
        path.write_text(written, encoding="utf-8")
    return farm


def _pens(pen: dict[str, Any], copy: int) -> dict[str, Any]:
    """Return a copy of a pen with ids and a place on the round of its own."""
    again = dict(pen, id=f"{pen['id']}-{copy}", name=f"{pen['name']} {copy}")
    for key in ("at", "gate_at", "corners"):  # no two pens lie at one point of the map
        again.pop(key, None)
    if "route" in pen:
        again["route"] = str(int(pen["route"]) + 1000 * copy)
    if "wallow" in pen:
        again["wallow"] = _named(pen["wallow"], copy)
    for part in ("drinkers", "fans"):
        if part in pen:
            again[part] = [_named(one, copy) for one in pen[part]]
    return again


def _animals(animal: dict[str, Any], copy: int) -> dict[str, Any]:
    """Return a copy of an animal or a group, in the copy of its pen."""
    again = dict(animal, pen=f"{animal['pen']}-{copy}")
    key = "name" if "name" in animal else "group"
    again[key] = f"{animal[key]} {copy}"
    return again


def _named(thing: dict[str, Any], copy: int) -> dict[str, Any]:
    return dict(thing, id=f"{thing['id']}-{copy}")
