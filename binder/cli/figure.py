"""The command `figure`: one figure with its working, or the list of them."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from binder import units
from binder.cli.terminal import out
from binder.figures import catalogue
from binder.figures.entry import example
from binder.pages.text import words
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from binder.display import System
    from binder.figures.entry import Argument
    from binder.figures.figure import Figure

_WIDE = 200  # columns where no terminal sets them: a figure a line, for searching


@click.command()
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
        _list_figures(said, system)
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


def _list_figures(said: words.Words, system: System) -> None:
    table = Table(box=None, pad_edge=False)
    table.add_column("Figure", no_wrap=True)
    table.add_column("What it is")
    table.add_column("Arguments (in brackets: may be left out)")
    for area, found in catalogue.by_area().items():
        heading = escape(said.text(f"numbers.catalogue.{area}"))
        table.add_row("")
        table.add_row(f"[bold]{heading}[/bold]")
        for entry in found:
            asked = " ".join(_asked(argument, system) for argument in entry.arguments)
            line = escape(said.text(f"{entry.name}.help"))
            table.add_row(f"  {entry.name}", line, escape(asked))
    shown = out if out.is_terminal else Console(width=_WIDE)
    shown.print(table)


def _asked(argument: Argument, system: System) -> str:
    typed = example(argument, system)
    if argument.optional or argument.default is not None:
        return f"[{argument.name}={_quoted(typed)}]"
    return f"{argument.name}={_quoted(typed)}"


def _quoted(typed: str) -> str:
    """Return what is typed so that a shell takes it for one word."""
    return f'"{typed}"' if " " in typed else typed


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
        out.print(escape(f"  {source}{grade} {entry.cited}"))
