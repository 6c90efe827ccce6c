"""Fills in the names of words: amounts in the reader's units, numbers as the country does.

The same few thousand patterns are filled in many times in a build, so each is parted once.
"""

from __future__ import annotations

from functools import lru_cache
from string import Formatter
from typing import TYPE_CHECKING, Any

from binder import units
from binder.display import MARKS, Marks, System
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


def _fine(amount: Amount, system: System, marks: Marks = MARKS) -> str:
    """Return `77.9°F`: a tenth of a degree, where a line lies between two whole ones."""
    number = marks.put(f"{units.convert(amount, system):.1f}")
    return f"{number}{units.symbol(amount, system)}"


_SHOW = {"": units.show, "both": units.show_both, "fine": _fine}
_MEASURE = {**_SHOW, "": units.measure, "both": units.measure_both}


class Filler(Formatter):
    """Fills amounts in the reader's units: `{need}`, `{need:both}`, `{need:metric}`, `{x:.1f}`.

    `{at:fine}` gives a temperature to a tenth of a degree.
    """

    def __init__(self, system: System, marks: Marks, *, exact: bool) -> None:
        """Fill in for a reader; `exact` gives amounts to the digits that they are known to."""
        self.system = system
        self.marks = marks
        self.said = _SHOW if exact else _MEASURE

    def vformat(
        self, format_string: str, args: Sequence[Any], kwargs: Mapping[str, Any]
    ) -> str:
        """Return a pattern filled in; nearly all are plain names, parted once."""
        parts = _parted(format_string)
        if parts is None:
            return str(super().vformat(format_string, args, kwargs))
        made: list[str] = []
        for text, name, spec in parts:
            made.append(text)
            if name is not None:
                made.append(self.format_field(kwargs[name], spec))
        return "".join(made)

    def format_field(self, value: Any, format_spec: str) -> str:
        """Return one value as text."""
        if not isinstance(value, Amount):
            if isinstance(value, float) and not format_spec:
                return self.marks.put(units.show_number(value))
            text = str(super().format_field(value, format_spec))
            return self.marks.put(text) if isinstance(value, int | float) else text
        if format_spec in {"us", "metric"}:
            return units.beside(value, format_spec, self.marks)  # type: ignore[arg-type]
        if format_spec in self.said:
            return self.said[format_spec](value, self.system, self.marks)
        number = super().format_field(units.convert(value, self.system), format_spec)
        return self.marks.put(str(number))


@lru_cache(maxsize=4096)
def _parted(pattern: str) -> tuple[tuple[str, str | None, str], ...] | None:
    """Return texts, each with the name and the form that follow; None where a name is odd."""
    parts = []
    for text, name, spec, conversion in Formatter().parse(pattern):
        if conversion or "{" in (spec or "") or not (name is None or name.isidentifier()):
            return None
        parts.append((text, name, spec or ""))
    return tuple(parts)
