"""Shortfalls in words: what is wrong, what would mend it, what that changes."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from binder.figures.entry import read_time_of_day
from binder.figures.stays.stay_meals import EVERY_PEN
from binder.pages.text.listing import upper_first

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from binder.figures.finding import Finding
    from binder.pages.context import Context

STAY = "stay"


def values(context: Context, found: Finding) -> Mapping[str, object]:
    """Return the values of a finding as its words take them: times, days and names said.

    `..._clock` is an hour, `..._clocks` several times of day, `..._date` a day; `pens`, `hoses`
    and `bands` are ids with spaces between, `classes` names with `; ` between.
    """
    return {key: _said(context, key, value) for key, value in found.values}


def _said(context: Context, key: str, value: object) -> object:
    text = str(value)
    if key.endswith("_clock"):
        return context.clock(float(text))
    if key.endswith("_clocks"):
        return _listed(
            context, (context.clock(read_time_of_day(time)) for time in text.split())
        )
    if key.endswith("_date"):
        return context.short_day(dt.date.fromisoformat(text))
    return _NAMES[key](context, text) if key in _NAMES else _pen_name(context, value)


def _listed(context: Context, items: Iterable[str]) -> str:
    return str(context.listed(items))


def _pen_name(context: Context, value: object) -> object:
    return next((pen.name for pen in context.farm.pens if pen.id == value), value)


def _named(context: Context, text: str) -> str:
    if text == EVERY_PEN:
        return context.w("stay.every_pen")
    return _listed(context, (context.named(each) for each in text.split()))


def _things(context: Context, text: str) -> str:
    return _listed(context, (context.named(each) for each in text.split(", ")))


def _bands(context: Context, text: str) -> str:
    return _listed(context, (context.w(f"band.{key}") for key in text.split()))


def _classes(context: Context, text: str) -> str:
    return _listed(context, (context.w(f"classes.{cls}") for cls in text.split("; ")))


def _minutes(context: Context, text: str) -> str:
    """Return `20/40` or `Normal` as people say it."""
    work, slash, rest = text.partition("/")
    if not slash:
        return context.w("stay.minutes.all")
    return context.w("stay.minutes.some", work=work, rest=rest)


_NAMES: Mapping[str, Callable[[Context, str], str]] = {
    "pens": _named,
    "hoses": _named,
    "bands": _bands,
    "band": _bands,
    "classes": _classes,
    "minutes": _minutes,
    "load": lambda context, text: context.w(f"stay.loads.{text}"),
    "lacks": lambda context, text: _listed(
        context, (context.w(f"stay.lacks.{key}") for key in text.split())
    ),
    "job": lambda context, text: context.w(f"stay.jobs.{text}"),
    "without": lambda context, text: context.w("readiness.without", names=text) if text else "",
    "fan": _things,
    "fans": _things,
    "cord": _things,
    "what": lambda context, text: (
        context.w(f"event.{text}")
        if context.words.has(f"event.{text}")
        else _things(context, text)
    ),
}


def sentence(context: Context, found: Finding) -> str:
    """Return what is wrong; outside stays also what would mend it."""
    return upper_first(context.w(found.words, **values(context, found)))


def fix(context: Context, found: Finding) -> str:
    """Return what would mend a finding about a stay."""
    return context.w(f"stay-fixes.{found.key}", **values(context, found))


def told(context: Context, found: Finding) -> str:
    """Return what is wrong and what would mend it; in a stay, whose.

    This is for the owner, so files are named; the sheets of a stay name none.
    """
    if found.area != STAY:
        return sentence(context, found)
    plan = context.figures.stays[found.subject]
    both = f"{sentence(context, found)} {fix(context, found)}"
    if context.words.has(f"stay-files.{found.key}"):
        both = f"{both} {context.w(f'stay-files.{found.key}')}"
    dates = context.window(plan.stay.first, plan.stay.last)
    return context.w("readiness.in_stay", stay=dates, text=both)


def effect(context: Context, found: Finding) -> str:
    """Return what mending it changes, roughly."""
    return context.w(f"readiness-effects.{found.area}.{found.key}", **values(context, found))
