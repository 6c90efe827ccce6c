"""The commands: start, check, build, figure and the rest; alone in speaking to the terminal.

Exit codes: 0 fine, 1 the farm folder or the content is at fault, 2 wrong command.
"""

from __future__ import annotations

import datetime as dt
import json
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from binder import units
from binder.figures import catalogue
from binder.figures.entry import example
from binder.pages import words
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from binder.figures.figure import Figure
    from binder.pages.page import Book
    from binder.units import System

FARM_AT_FAULT = 1
_WIDE = 200  # columns where no terminal sets them: a figure a line, for searching
_SHOWN_PROBLEMS = 200  # our choice: enough to mend an evening's work, not a flood

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
EDITIONS = click.Choice(["sitter", "helper", "owner", "vet"])


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="binder", message="binder %(version)s")
def commands() -> None:
    """Turn a farm folder into a site and a printed binder that somebody else can follow."""


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


@commands.command()
@click.argument("name", required=False)
@click.argument("given", nargs=-1, metavar="[ARGUMENT=VALUE]...")
@click.option("--json", "as_json", is_flag=True, help="Print the figure as JSON.")
@click.option(
    "--units",
    "system",
    type=click.Choice(["us", "metric"]),
    default="us",
    help="Units to print.",
)
def figure(name: str | None, given: tuple[str, ...], as_json: bool, system: System) -> None:  # noqa: FBT001
    """Work out one figure and show its working and sources.

    Without a NAME, list every figure.
    Example: binder figure heat-index temperature=96F humidity=65%
    """
    said = words.load(system=system)
    if name is None:
        _list_figures(said)
        return
    arguments: dict[str, str] = {}
    for part in given:
        key, sign, value = part.partition("=")
        if not sign:
            message = f'"{part}" is not ARGUMENT=VALUE, like temperature=96F'
            raise click.UsageError(message)
        arguments[key] = value
    try:
        found = catalogue.compute(name, arguments)
    except ProblemsError as error:
        # The farm is not at fault here: what was typed is.
        raise click.UsageError("\n".join(map(str, error.problems))) from error
    if as_json:
        click.echo(json.dumps(as_mapping(found, said, system), ensure_ascii=False))
    else:
        _print_figure(found, said)


def as_mapping(found: Figure, said: words.Words, system: System) -> dict[str, object]:
    """Return the figure as `binder figure --json` prints it."""
    value: object = found.value
    unit = ""
    if isinstance(value, units.Amount):
        unit = units.symbol(value, system)
        value = round(units.convert(value, system), 6)
    elif isinstance(value, tuple):
        unit = units.symbol(value[0], system) if value else ""
        value = [round(units.convert(amount, system), 6) for amount in value]
    return {
        "name": found.name,
        "value": value,
        "unit": unit,
        "working": list(said.working(found)),
        "sources": list(found.sources),
        "cautions": list(said.cautions(found)),
    }


def _list_figures(said: words.Words) -> None:
    table = Table(box=None, pad_edge=False)
    table.add_column("Figure", no_wrap=True)
    table.add_column("What it is")
    table.add_column("Arguments (in brackets: may be left out)")
    for entry in catalogue.entries().values():
        asked = " ".join(
            f"[{argument.name}={example(argument)}]"
            if argument.optional or argument.default is not None
            else f"{argument.name}={example(argument)}"
            for argument in entry.arguments
        )
        table.add_row(entry.name, escape(said.text(f"{entry.name}.help")), escape(asked))
    shown = out if out.is_terminal else Console(width=_WIDE)
    shown.print(table)


def _print_figure(found: Figure, said: words.Words) -> None:
    from binder.sources import all_sources

    out.print(f"[bold]{escape(said.title(found))}: {escape(said.value(found))}[/bold]")
    for line in said.working(found):
        out.print(f"  {escape(line)}")
    for caution in said.cautions(found):
        out.print(f"  ! {escape(caution)}")
    known = all_sources()
    for source in found.sources:
        entry = known[source]
        grade = f" [{entry.grade}]" if entry.grade else ""
        out.print(escape(f"  {source}{grade} {entry.title}"))


@commands.command()
@click.argument("folder", type=click.Path(path_type=Path))
def start(folder: Path) -> None:
    """Write a commented starter farm into FOLDER."""
    from binder.farm.start import start as write_starter

    write_starter(folder)
    out.print(
        f"A starter farm is in {escape(str(folder))}. Change farm.yaml, animals.yaml, pens.yaml"
    )
    out.print("and contacts.yaml to your own, a little at a time. Then:")
    out.print(f"  binder check {escape(str(folder))}")
    out.print(f"  binder build {escape(str(folder))}")


@commands.command("build")
@click.argument("folder", type=FOLDER)
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("build"),
    show_default=True,
    help="Where to write the binder.",
)
@click.option(
    "--date", "on", type=DAY, default=None, help="The day to make it for, like 2026-07-14."
)
@click.option(
    "--edition",
    type=EDITIONS,
    default="owner",
    show_default=True,
    help="Who the printed binder is for.",
)
@click.option("--large-print", is_flag=True, help="Print in 18 pt.")
@click.option(
    "--two-sided", is_flag=True, help="Print on both sides of the paper, a sheet to a leaf."
)
@click.option("--site-only", is_flag=True, help="Leave the printed binder as it is.")
def build_command(
    folder: Path, to: Path, on: dt.date | None, edition: str,
    large_print: bool, two_sided: bool, site_only: bool,  # noqa: FBT001
) -> None:  # fmt: skip
    """Turn the farm FOLDER into a site and a printed binder."""
    from binder.build import build
    from binder.output.write import Options
    from binder.progress import progress

    options = Options(
        edition=edition, large_print=large_print, two_sided=two_sided, site_only=site_only
    )
    with progress(complaints) as moved:
        written = build(folder, to, on or today(), options, moved)
    out.print(f"Site:   {escape(str(written.site))}")
    if written.print_file is not None:
        out.print(f"Print:  {escape(str(written.print_file))} ({written.print_pages} pages)")
    out.print(f"Phone:  {escape(str(written.phone))}")
    for line in written.remarks:
        out.print(escape(line))


@commands.command("hand-over")
@click.argument("folder", type=FOLDER)
@click.option(
    "--to", "name", required=True, metavar="NAME", help="Who gets the printed binder."
)
@click.option(
    "--date", "on", type=DAY, default=None, help="The day it is given, like 2026-07-10."
)
@click.option(
    "--edition", type=EDITIONS, default="sitter", show_default=True, help="What they get."
)
@click.option(
    "--into",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("build"),
    show_default=True,
    help="Where to write the binder to print.",
)
@click.option("--back", is_flag=True, help="The binder came back: stop listing changes for it.")
def hand_over_command(
    folder: Path, name: str, on: dt.date | None, edition: str, into: Path, back: bool,  # noqa: FBT001
) -> None:  # fmt: skip
    """Fix each sheet's revision for a binder given to NAME, and print that binder.

    From then on `binder build` writes changes-NAME.pdf: which sheets to pull and to put in.
    """
    from binder.build import book_of, build
    from binder.output.hand_over import hand_over, take_back, undone_if_it_fails
    from binder.output.write import Options
    from binder.progress import progress

    day = on or today()
    if back:
        take_back(folder, name, day)
        out.print(f"The binder of {escape(name)} is back.")
        return
    with undone_if_it_fails(folder, name), progress(complaints) as moved:
        given = hand_over(folder, book_of(folder, day), name, day, edition)
        changes = () if given.changes is None else (given.changes,)
        written = build(folder, into, day, Options(edition=edition, changes=changes), moved)
    sheets = len(given.hand_over.sheets)
    out.print(
        f"{escape(given.hand_over.name)} gets {sheets} sheets. Written down in ledger.yaml."
    )
    if written.print_file is not None:
        out.print(f"Print:  {escape(str(written.print_file))} ({written.print_pages} pages)")
    for line in written.remarks:
        out.print(escape(line))


@commands.command("host")
@click.argument("folder", type=FOLDER)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8000,
    show_default=True,
    help="Where to listen; 0 for any free port.",
)
@click.option("--only-this-machine", is_flag=True, help="Answer nobody else on the network.")
@click.option(
    "--passphrase",
    default="",
    envvar="BINDER_PASSPHRASE",
    show_envvar=True,
    help="What visitors must know; their phone asks for it, any name will do.",
)
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("build"),
    show_default=True,
    help="Where to write the site.",
)
@click.option("--date", "on", type=DAY, default=None, help="Show this day, not today.")
def host_command(
    folder: Path, port: int, only_this_machine: bool, passphrase: str,  # noqa: FBT001
    to: Path, on: dt.date | None,
) -> None:  # fmt: skip
    """Show the site of the farm FOLDER on the farm's own network, and keep it up to date."""
    from binder.build import book_of
    from binder.output.host.serve import Wishes, serve
    from binder.output.write import Options, write
    from binder.pages.qr import qr_terminal
    from binder.progress import progress

    def rebuild() -> Path:
        build_now()
        return to

    def build_now() -> Book:
        book = book_of(folder, on or today())
        with progress(complaints) as moved:
            write(book, to, folder, Options(site_only=True), moved)
        return book

    def opened(address: str) -> None:
        out.print(qr_terminal(address), style="bright_white on black", markup=False)
        out.print(f"The site is at {escape(address)}  (Ctrl-C stops it)")

    book = build_now()
    shown = book.screens or book
    wishes = Wishes(port, only_this_machine, passphrase, shown.name, shown.site_address)
    serve(folder, to, rebuild, wishes, lambda line: out.print(escape(line)), opened)


@commands.command("check")
@click.argument("folder", type=FOLDER)
@click.option(
    "--date", "on", type=DAY, default=None, help="The day to check it for, like 2026-07-14."
)
@click.option(
    "--strict",
    type=click.Choice(["hours", "day", "week", "season"]),
    default=None,
    help="End with 1 where something hurts an animal as soon as this, or sooner.",
)
def check_command(folder: Path, on: dt.date | None, strict: str | None) -> None:
    """Say what is wrong in FOLDER, then what the farm lacks, worst first."""
    from binder.day import shortfalls
    from binder.figures.readiness import Severity

    found = shortfalls(folder, on or today())
    said = words.load()
    if not found:
        out.print(escape(said.text("readiness.cli_none")))
    else:
        out.print(escape(said.text("readiness.cli_count", count=len(found))))
    for severity, text in found:
        word = said.text(f"readiness.say.{severity.key}")
        out.print(f"[bold]{escape(word):<7}[/bold] {escape(text)}")
    if strict is not None and any(line[0] <= Severity[strict.upper()] for line in found):
        sys.exit(FARM_AT_FAULT)


@commands.command("day")
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
    "--fetch", "fetched", is_flag=True, help="Ask the US weather service for the hours."
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
    out.print(f"Page:   {escape(str(page))}")
    out.print(f"Print:  {escape(str(paper))} ({pages} pages)")


def main() -> NoReturn:
    """Run the commands; every expected mistake ends with a clear message and its exit code."""
    try:
        commands(standalone_mode=False)
    except ProblemsError as error:
        for problem in error.problems[:_SHOWN_PROBLEMS]:
            click.echo(str(problem), err=True)
        more = len(error.problems) - _SHOWN_PROBLEMS
        if more > 0:
            click.echo(f"and {more} more", err=True)
        sys.exit(FARM_AT_FAULT)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except click.exceptions.Exit as stop:
        sys.exit(stop.exit_code)
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped. The last binder is as it was.", err=True)
        sys.exit(130)
    sys.exit(0)


if __name__ == "__main__":
    main()
