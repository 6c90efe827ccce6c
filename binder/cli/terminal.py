"""What every command shares: the two consoles, and how folders, days and editions are typed."""

from __future__ import annotations

import datetime as dt
import os
import shutil
import sys
from pathlib import Path

import click
from rich.console import Console

from binder import languages
from binder.pages.page import EDITIONS

FARM_AT_FAULT = 1  # exit code

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
            return dt.date.fromisoformat(value)
        except ValueError:
            self.fail(f'"{value}" is not a date; write it like 2026-07-14', param, ctx)


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
        return dt.datetime.fromtimestamp(int(epoch), tz=dt.UTC).date()
    except (ValueError, OverflowError, OSError):
        message = f'SOURCE_DATE_EPOCH is "{epoch}"; it must be whole seconds since 1970'
        raise click.UsageError(message) from None
