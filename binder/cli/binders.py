"""The commands that write a whole binder: build, hand-over, host."""

from __future__ import annotations

import datetime as dt
import os
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click
from rich.markup import escape

from binder.cli.terminal import DAY, EDITION, FOLDER, complaints, out, spoken, today

if TYPE_CHECKING:
    from binder.output.write import Papers
    from binder.pages.page import Book

_LONGEST_PASSPHRASE = 500  # characters that an `Authorization` header has room for: our choice


@click.command("build")
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
    type=EDITION,
    default="owner",
    show_default=True,
    help="Who the printed binder is for.",
)
@click.option("--large-print", is_flag=True, help="Print in 18 pt.")
@click.option(
    "--two-sided", is_flag=True, help="Print on both sides of the paper, a sheet to a leaf."
)
@click.option("--site-only", is_flag=True, help="Leave the printed binder as it is.")
@click.option(
    "--language", callback=spoken, default="", help="The language of the binder, like en."
)
@click.option(
    "--stay",
    metavar="NAME",
    default=None,
    help="Print the papers of this stay alone: the sitter's pack and pocket.",
)
def build_command(
    folder: Path, to: Path, on: dt.date | None, edition: str,
    large_print: bool, two_sided: bool, site_only: bool, stay: str | None,  # noqa: FBT001
    language: str,
) -> None:  # fmt: skip
    """Turn the farm FOLDER into a site and a printed binder."""
    from binder.build import build, build_pack
    from binder.output.write import Options
    from binder.progress import progress

    options = Options(
        edition=edition, large_print=large_print, two_sided=two_sided, site_only=site_only,
        language=language,
    )  # fmt: skip
    if stay is not None:
        _say_papers(build_pack(folder, to, on or today(), stay, options))
        return
    with progress(complaints) as moved:
        written = build(folder, to, on or today(), options, moved)
    out.print(f"Site:   {escape(str(written.site))}")
    if written.print_file is not None:
        out.print(f"Print:  {escape(str(written.print_file))} ({written.print_pages} pages)")
    _say_papers(written.others)
    out.print(f"Phone:  {escape(str(written.phone))}")
    for line in written.remarks:
        out.print(escape(line))


_SAID = {"cards": "Cards:  ", "stay": "Pack:   ", "pocket": "Pocket: "}


def _say_papers(papers: Papers) -> None:
    """Say where cards, packs and pockets lie."""
    for file, pages in papers:
        kind = file.stem.partition("-")[0]
        counted = "1 page" if pages == 1 else f"{pages} pages"
        out.print(f"{_SAID[kind]}{escape(str(file))} ({counted})")


@click.command("hand-over")
@click.argument("folder", type=FOLDER)
@click.option(
    "--to", "name", required=True, metavar="NAME", help="Who gets the printed binder."
)
@click.option(
    "--date", "on", type=DAY, default=None, help="The day it is given, like 2026-07-10."
)
@click.option(
    "--edition", type=EDITION, default="sitter", show_default=True, help="What they get."
)
@click.option(
    "--into",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("build"),
    show_default=True,
    help="Where to write the binder to print.",
)
@click.option(
    "--reprint",
    is_flag=True,
    help="Print each changed sheet anew, also where a pen could correct it.",
)
@click.option("--back", is_flag=True, help="The binder came back: stop listing changes for it.")
def hand_over_command(
    folder: Path, name: str, on: dt.date | None, edition: str, into: Path,
    reprint: bool, back: bool,  # noqa: FBT001
) -> None:  # fmt: skip
    """Fix each sheet's revision for a binder given to NAME, and print that binder.

    From then on `binder build` writes changes-NAME.pdf: which sheets to pull and to put in.
    """
    from binder.build import book_of, other_days, papers_of
    from binder.output.handed.hand_over import hand_over, take_back, undone_if_it_fails
    from binder.output.write import Options, write
    from binder.progress import progress

    day = on or today()
    if back:
        take_back(folder, name, day)
        out.print(f"The binder of {escape(name)} is back.")
        return
    with undone_if_it_fails(folder, name), progress(complaints) as moved:
        book = book_of(folder, day)
        as_of = other_days(folder)
        given = hand_over(folder, book, name, day, edition, by_pen=not reprint, as_of=as_of)
        changes = () if given.changes is None else (given.changes,)
        book = replace(book, papers=papers_of(folder, day))
        only = given.hand_over.only
        options = Options(edition=edition, changes=changes, as_of=as_of, only=only)
        written = write(book, into, folder, options, moved)
    sheets = len(given.hand_over.sheets)
    out.print(
        f"{escape(given.hand_over.name)} gets {sheets} sheets. Written down in ledger.yaml."
    )
    if only:
        out.print(f"Of the stays, only those of {escape(only)} are in it.")
    if written.print_file is not None:
        out.print(f"Print:  {escape(str(written.print_file))} ({written.print_pages} pages)")
    _say_papers(written.others)
    for line in written.remarks:
        out.print(escape(line))


@click.command("host")
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
    "--ask-passphrase",
    is_flag=True,
    help="Ask here for what visitors must know; their phone asks for it, any name will do.",
)
@click.option(
    "--passphrase-file",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="Read it from the first line of a file. Else from BINDER_PASSPHRASE, if that is set.",
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
    folder: Path, port: int, only_this_machine: bool, ask_passphrase: bool,  # noqa: FBT001
    passphrase_file: Path | None, to: Path, on: dt.date | None,
) -> None:  # fmt: skip
    """Show the site of the farm FOLDER on the farm's own network, and keep it up to date."""
    from binder.build import book_of
    from binder.output.host.serve import ServeOptions, serve
    from binder.output.write import Options, write
    from binder.pages.art.qr import qr_terminal
    from binder.progress import progress

    passphrase = _passphrase(passphrase_file, asked=ask_passphrase)

    def build_site() -> Book:
        book = book_of(folder, on or today())
        with progress(complaints) as moved:
            write(book, to, folder, Options(site_only=True), moved)
        return book

    def rebuild() -> Path:
        build_site()
        return to

    def opened(address: str) -> None:
        out.print(qr_terminal(address), style="bright_white on black", markup=False)
        out.print(f"The site is at {escape(address)}  (Ctrl-C stops it)")

    book = build_site()
    shown = book.screens or book
    options = ServeOptions(port, only_this_machine, passphrase, shown.name, shown.site_address)
    serve(folder, to, rebuild, options, lambda line: out.print(escape(line)), opened)


def _passphrase(file: Path | None, *, asked: bool) -> str:
    """Return the passphrase that was typed, written in a file or set; empty for none.

    Never an argument of the command: other users of a computer see those.

    Raises:
        click.UsageError: an empty one.
    """
    if asked:
        typed: str = click.prompt("Passphrase", hide_input=True, confirmation_prompt=True)
        return typed
    if file is None:
        return os.environ.get("BINDER_PASSPHRASE", "")
    try:
        with file.open(encoding="utf-8") as stream:
            first = stream.readline(_LONGEST_PASSPHRASE).strip()
    except (OSError, UnicodeDecodeError) as error:
        message = f"{file} cannot be read as text (UTF-8)"
        raise click.UsageError(message) from error
    if not first:
        message = f"the first line of {file} is empty; write the passphrase there"
        raise click.UsageError(message)
    return first
