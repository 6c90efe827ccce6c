"""Pipes that are sold by their outside diameter: how wide they are inside."""

from __future__ import annotations

from typing import Any

from binder import units
from binder.farm import tables

_MM_PER_M = 1000.0


def inside_or_outside(schema: dict[str, Any]) -> None:
    """Tell an editor that a pipe's outside diameter does in place of the inside one."""
    schema["required"] = [key for key in schema["required"] if key != "inside"]
    schema["anyOf"] = [{"required": ["inside"]}, {"required": ["outside"]}]


def inside(written: dict[str, Any]) -> str:
    """Return the inside diameter of a pipe, as an owner would write it.

    Raises:
        ValueError: neither wall nor pressure class, or a size that the standard does not list.
    """
    outside, wall = written["outside"], written.get("wall")
    try:
        outside_mm = units.parse(str(outside), "length") * _MM_PER_M
        wall_mm = None if wall is None else units.parse(str(wall), "length") * _MM_PER_M
    except units.UnitError:
        return str(outside)  # said where it stands
    if wall_mm is None:
        wall_mm = _wall_mm(outside_mm, str(written.get("pressure_class") or ""))
    if wall_mm * 2 >= outside_mm:
        message = "has a wall that leaves no room for water; check outside and wall"
        raise ValueError(message)
    return f"{outside_mm - 2 * wall_mm:.4g} mm"


def _wall_mm(outside_mm: float, pressure_class: str) -> float:
    """Return the least wall of a PE 100 pipe of a size [mm]."""
    if not pressure_class:
        message = "tells outside without wall or pressure_class; write one of them, or inside"
        raise ValueError(message)
    sizes = tables.rows("pe_pipes")
    found = [row for row in sizes if float(row["outside_mm"]) == round(outside_mm, 3)]
    wall = found[0].get(pressure_class, "") if found else ""
    if not wall:
        listed = ", ".join(row["outside_mm"] for row in sizes if row.get(pressure_class))
        said = f"{outside_mm:.4g} mm is no size of {pressure_class}"
        message = f"{said}; write its wall, or one of {listed} mm"
        raise ValueError(message)
    return float(wall)
