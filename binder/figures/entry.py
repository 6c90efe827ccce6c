"""How a figure is asked for by name: its arguments as words in, a `Figure` out."""

from __future__ import annotations

import datetime as dt
import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder import units
from binder.clock import MINUTES_IN_HOUR
from binder.figures.examples import BY_NAME, CHOSEN
from binder.kinds import KINDS
from binder.problems import Place, Problem, ProblemsError, did_you_mean

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from binder.display import System
    from binder.figures.figure import Figure

Given = float | int | str | dt.date | None
COMMAND = Place("binder figure")


@dataclass(frozen=True, slots=True)
class Argument:
    """One thing a figure must be told.

    `kind` is a key of `KINDS`, or `text`, `whole` (a whole number from 0), `number`,
    `degrees`, `ratio`, `date` (2026-07-14), `time of day` (15:30). `choices` narrows text.
    `unit` is what a bare number counts in, where the argument's very name is its unit
    (`volts=120`). `known` are words that the figure itself judges, told where none is given.
    `shown` is the example, where that of the name would not do.
    """

    name: str
    kind: str
    optional: bool = False
    choices: tuple[str, ...] = ()
    default: str | None = None
    unit: str = ""
    known: tuple[str, ...] = ()
    shown: str = ""


@dataclass(frozen=True, slots=True)
class Entry:
    """A figure's name, what it must be told, and the function that works it out.

    `compute` takes the arguments by name: amounts as floats in the kept unit of their kind,
    None for an optional one left out.
    """

    name: str
    arguments: tuple[Argument, ...]
    compute: Callable[..., Figure]


def renamed(compute: Callable[..., Figure], **names: str) -> Callable[..., Figure]:
    """Return `compute` taking arguments by the names people type, such as `class` for `cls`.

    Args:
        compute: a function whose parameters carry their unit.
        names: the typed name, and the parameter it is handed to; others keep their name.
    """

    def asked(**given: Given) -> Figure:
        return compute(**{names.get(name, name): value for name, value in given.items()})

    return asked


def read_arguments(entry: Entry, given: Mapping[str, str]) -> dict[str, Given]:
    """Return the arguments of `entry` converted.

    Raises:
        ProblemsError: unknown, missing or unreadable arguments, all of them at once.
    """
    known = [argument.name for argument in entry.arguments]
    problems = [
        Problem(COMMAND, entry.name, f'"{name}" is not an argument{did_you_mean(name, known)}')
        for name in given
        if name not in known
    ]
    values: dict[str, Given] = {}
    for argument in entry.arguments:
        text = given.get(argument.name, argument.default)
        if text is None:
            if not argument.optional:
                message = f"is missing; write it like {argument.name}={example(argument)}"
                problems.append(Problem(COMMAND, f"{entry.name} > {argument.name}", message))
            values[argument.name] = None
            continue
        try:
            values[argument.name] = _convert(argument, text)
        except ValueError as error:
            problems.append(Problem(COMMAND, f"{entry.name} > {argument.name}", str(error)))
    if problems:
        raise ProblemsError(problems)
    return values


def example(argument: Argument, system: System = "us") -> str:
    """Return something a user could type for this argument, in the measures of `system`."""
    choices = argument.choices or argument.known
    if choices:
        return next((one for one in CHOSEN if one in choices), choices[0])
    typed = (
        argument.shown
        or BY_NAME.get((argument.name, argument.kind))
        or BY_NAME.get(argument.name)
    )
    if typed is not None:
        metric = system == "metric" and argument.kind in KINDS
        said = units.limit(typed, argument.kind, up=False) if metric else typed
        return said.replace(" ", "")
    if argument.kind in KINDS:
        shown = re.split(r", | or ", KINDS[argument.kind].examples)
        return shown[0 if system == "us" else -1].replace(" ", "")
    return {
        "whole": "8", "number": "1.5", "degrees": "31.6", "ratio": "1.5", "date": "2026-07-14",
        "time of day": "15:30", "text": "text",
    }[argument.kind]  # fmt: skip


def _convert(argument: Argument, text: str) -> Given:
    if argument.kind in KINDS:
        bare = argument.unit if text.replace(".", "", 1).isdigit() else ""
        return units.parse(f"{text} {bare}" if bare else text, argument.kind)
    if argument.kind == "date":
        return read_date(text)
    if argument.kind == "time of day":
        return read_time_of_day(text)
    if argument.kind == "text":
        if not text and (argument.choices or argument.known):
            message = f"takes one of these: {', '.join(argument.choices or argument.known)}"
            raise ValueError(message)
        if argument.choices and text not in argument.choices:
            message = f'"{text}" is not known{did_you_mean(text, argument.choices)}'
            raise ValueError(message)
        return text
    return _number(argument.kind, text)


def _number(kind: str, text: str) -> float | int:
    if kind == "whole":
        if not (text.isascii() and text.isdigit()):
            message = f'"{text}" is not a whole number; write it like 8'
            raise ValueError(message)
        return int(text)
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        message = f'"{text}" is not a number; write it like 1.5'
        raise ValueError(message)
    return value


def read_date(text: str) -> dt.date:
    """Return the date written as year-month-day.

    Raises:
        ValueError: not such a date, or a day that does not exist.
    """
    try:
        return dt.date.fromisoformat(text)
    except ValueError as error:
        message = f'"{text}" is not a date; write it like 2026-07-14 (year-month-day)'
        raise ValueError(message) from error


def read_time_of_day(text: str) -> float:
    """Return hours since midnight [h] of a time written like 15:30.

    Raises:
        ValueError: not such a time.
    """
    hours, colon, minutes = text.partition(":")
    good = bool(colon) and hours.isdigit() and minutes.isdigit() and len(minutes) == 2  # noqa: PLR2004
    if not good or int(hours) > 23 or int(minutes) > 59:  # noqa: PLR2004 -- a clock
        message = f'"{text}" is not a time of day; write it like 06:30 or 15:30'
        raise ValueError(message)
    return int(hours) + int(minutes) / MINUTES_IN_HOUR
