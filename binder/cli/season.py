"""The command that plays a farm through its weather files: season."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING

import click
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from binder.cli.terminal import DAY, FOLDER, out, today
from binder.pages.text import words

if TYPE_CHECKING:
    from binder.pages.season.season_text import TextTable

_WIDE = 160  # columns where no terminal sets them


@click.command("season")
@click.argument("folder", type=FOLDER)
@click.option(
    "--weather",
    "files",
    multiple=True,
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="A file of hours: your logger's table, EPW, TMY3 or TM2. May be given again.",
)
@click.option("--date", "on", type=DAY, default=None, help="The day whose animals are played.")
def season_command(folder: Path, files: tuple[Path, ...], on: dt.date | None) -> None:
    """Play FOLDER through real hours: which days go wrong, what first, what a mend buys."""
    from binder.season import told

    found = told(folder, on or today(), files)
    out.print(escape(found.head))
    for lines, tables in found.files:
        out.print()
        for line in lines:
            out.print(escape(line))
        for table in tables:
            _print(table)
    for table in found.together:
        _print(table)
    if found.files:
        out.print()
        out.print(escape(words.load().text("season.cli_counts")))


def _print(table: TextTable) -> None:
    shown = out if out.is_terminal else Console(width=_WIDE)
    grid = Table(box=None, pad_edge=False, title_justify="left", title=escape(table.title))
    for at, head in enumerate(table.heads):
        grid.add_column(escape(head), justify="right" if at in table.amounts else "left")
    for row in table.rows:
        grid.add_row(*map(escape, row))
    shown.print()
    if table.rows:
        shown.print(grid)
    for note in table.notes:
        shown.print(escape(note))
