"""The commands about the farm folder itself and one day of it: start, check, day."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path

import click
from rich.markup import escape

from binder.cli.terminal import DAY, FARM_AT_FAULT, FOLDER, as_typed, out, today
from binder.pages.text import words
from binder.weather.read import HOURS


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
def start(folder: Path) -> None:
    """Write a commented starter farm into FOLDER."""
    from binder.farm.start import start as write_starter

    started = write_starter(folder, as_typed())
    out.print(f"A starter farm is in {escape(str(started.folder))}.")
    for step in started.next_steps:
        out.print(f"  {escape(step)}")


@click.command("check")
@click.argument("folder", type=FOLDER)
@click.option(
    "--date", "on", type=DAY, default=None, help="The day to check it for, like 2026-07-14."
)
@click.option(
    "--strict",
    type=click.Choice(["hours", "day", "week", "season"]),
    default=None,
    help="End with 1 where something hurts an animal as soon as this, or may be a slip.",
)
@click.option(
    "--weather", is_flag=True, help="Say first what the farm's weather files say of it."
)
def check_command(
    folder: Path,
    on: dt.date | None,
    strict: str | None,
    weather: bool,  # noqa: FBT001
) -> None:
    """Say what is wrong in FOLDER, then what the farm lacks, worst first."""
    from binder.day import shortfalls
    from binder.figures.readiness.ranking import Severity

    found = shortfalls(folder, on or today())
    said = words.load()
    out.print(escape(found.country))
    none = said.text("season.cli_none", folder=f"{folder.name}/{HOURS}/")
    for line in (found.weather or (none,)) if weather else ():
        out.print(escape(line))
    for note in found.notes:
        out.print(escape(f"{said.text('readiness.cli_note')} {note}"))
    if not found.lacks:
        out.print(escape(said.text("readiness.cli_none")))
    else:
        out.print(escape(said.text("readiness.cli_count", count=len(found.lacks))))
    for severity, text in found.lacks:
        word = said.text(f"readiness.say.{severity.key}")
        out.print(f"[bold]{escape(word):<7}[/bold] {escape(text)}")
    for line in found.noted:
        out.print(escape(line))
    if strict is None:
        return
    if found.notes or any(line[0] <= Severity[strict.upper()] for line in found.lacks):
        sys.exit(FARM_AT_FAULT)


@click.command("day")
@click.argument("folder", type=FOLDER)
@click.option("--high", help="The day's highest air temperature, like 101F.")
@click.option("--low", help="The night's lowest, like 76F.")
@click.option("--dew-point", help="Dew point in the afternoon, like 71F.")
@click.option(
    "--forecast",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="A file of hours: hour,temperature,dew_point; or the weather service's JSON.",
)
@click.option(
    "--fetch",
    "fetched",
    is_flag=True,
    help="Ask the US weather service for the hours; for a farm in the US.",
)
@click.option("--date", "on", type=DAY, default=None, help="The day, like 2026-07-14.")
@click.option("--stay", help="The id of a stay, where the day lies in none or in several.")
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("day"),
    show_default=True,
    help="Where to write the sheet; other files there stay.",
)
def day_command(
    folder: Path, high: str | None, low: str | None, dew_point: str | None,
    forecast: Path | None, fetched: bool,  # noqa: FBT001
    on: dt.date | None, stay: str | None, to: Path,
) -> None:  # fmt: skip
    """Write the sheet of one day for FOLDER: its hours, numbers, feed and what to watch for."""
    from binder.day import Asked, write_sheet

    given = (high, low, dew_point)
    ways = sum((any(given), forecast is not None, fetched))
    if ways != 1 or (any(given) and None in given):
        message = "give --high, --low and --dew-point, or --forecast FILE, or --fetch"
        raise click.UsageError(message)
    asked = Asked(on or today(), high, low, dew_point, forecast, stay)
    page, paper, pages = write_sheet(folder, to, asked)
    none = "none, since the farm's place is private: the day stands on paper alone"
    out.print(f"Page:   {none if page is None else escape(str(page))}")
    out.print(f"Print:  {escape(str(paper))} ({pages} pages)")
