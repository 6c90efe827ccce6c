"""What every command shares: the two consoles, and how folders, days and editions are typed."""

from __future__ import annotations

import datetime as dt
import io
import os
import shutil
import sys
from pathlib import Path

import click
from rich.console import Console

from binder import languages
from binder.pages.page import EDITIONS

FARM_AT_FAULT = 1  # exit code
# Days that a binder may be made for: our choice, so that no stay or gestation runs off the
# calendar. A farm's own dates are held to the same end.
FIRST_YEAR, LAST_YEAR = 1900, 2099

out = Console(soft_wrap=True, highlight=False)
complaints = Console(stderr=True, soft_wrap=True, highlight=False)


class _Day(click.ParamType[dt.date]):
    name = "date"

    def convert(
        self, value: str | dt.date, param: click.Parameter | None, ctx: click.Context | None
    ) -> dt.date:
        if isinstance(value, dt.date):
            return value
        try:
            day = dt.date.fromisoformat(value)
        except ValueError:
            self.fail(f'"{value}" is not a date; write it like 2026-07-14', param, ctx)
        if not _in_range(day):
            self.fail(f'"{value}" lies outside {FIRST_YEAR} to {LAST_YEAR}', param, ctx)
        return day


FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)
DAY = _Day()
EDITION = click.Choice(EDITIONS)


def spoken(_context: click.Context, _option: click.Parameter, code: str) -> str:
    """Return the language of a binder; one that is not complete is refused."""
    refused = languages.refusal(code) if code else ""
    if refused:
        message = f'"{code}" {refused}'
        raise click.BadParameter(message)
    return code


def as_typed() -> tuple[str, ...]:
    """Return how the program was called, a word each; with its path only where it needs one."""
    name = click.get_current_context().find_root().info_name or "binder"
    typed = sys.argv[0]
    found = shutil.which(name)
    by_path = os.sep in typed and Path(typed).name == name
    if by_path and (found is None or not Path(found).samefile(typed)):
        return (typed,)
    return tuple(name.split())


def today() -> dt.date:
    """Return the day a binder is made for: SOURCE_DATE_EPOCH where it is set, else today."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if epoch is None:
        return dt.datetime.now().astimezone().date()
    try:
        day = dt.datetime.fromtimestamp(int(epoch), tz=dt.UTC).date()
    except (ValueError, OverflowError, OSError):
        message = f'SOURCE_DATE_EPOCH is "{epoch}"; it must be whole seconds since 1970'
        raise click.UsageError(message) from None
    if not _in_range(day):
        message = f'SOURCE_DATE_EPOCH is "{epoch}", outside {FIRST_YEAR} to {LAST_YEAR}'
        raise click.UsageError(message)
    return day


def _in_range(day: dt.date) -> bool:
    """Return whether a farm may have dates around this day: never at the calendar's end."""
    return FIRST_YEAR <= day.year <= LAST_YEAR


def speak_any_letters() -> None:
    """Let a letter that the terminal cannot show be spelt out rather than end the program."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
