"""Step 5: pages become the site, the printed binder and the phone file, all or none of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from binder.data import CONTENT, TEMPLATES
from binder.output.folder import beside, keep, replaced
from binder.output.handed import ledger_file, ledger_texts
from binder.output.handed.changes import AsOf, all_changes, marks, no_other_day, pack_name
from binder.output.paper.sheet import Setting
from binder.output.screens.phone import write_phone
from binder.output.screens.site import write_site
from binder.pages.page import Book, Paper
from binder.writing import write_inside

if TYPE_CHECKING:
    from binder.output.handed.changes import Changes
    from binder.output.handed.ledger import Ledger
    from binder.output.print import PrintResult

Progress = Callable[[str, int, int], None]
Papers = tuple[tuple[Path, int], ...]  # files, each with its pages
SITE, PRINT, PHONE = "site", "print", "phone"

# What is written besides print: each writes its part of the book below the new folder.
_SCREENS: tuple[Callable[[Book, Path], None], ...] = (write_site, write_phone)


@dataclass(frozen=True, slots=True)
class Options:
    """What to write and how.

    Attributes:
        edition: who the printed binder is for: sitter, helper, owner, vet; empty for all.
        large_print: 18 pt.
        two_sided: each sheet begins on a front, the gutter changes sides.
        site_only: leave the printed binder as it is.
        workers: drawing processes; 0 for the usual number.
        changes: what a hand-over just made changes in the binder they had before: written
            besides what `build` finds by itself.
        language: of the binder; empty for the farm's.
        as_of: makes the binder of another day, to see where only days passed.
        only: the sitter whose stays alone are printed; empty for all stays.
    """

    edition: str = "owner"
    large_print: bool = False
    two_sided: bool = False
    site_only: bool = False
    workers: int = 0
    changes: tuple[Changes, ...] = ()
    language: str = ""
    as_of: AsOf = no_other_day
    only: str = ""


@dataclass(frozen=True, slots=True)
class Built:
    """Where everything is.

    Attributes:
        site: the folder of the site.
        phone: the folder of the phone file.
        print_file: the ring binder, or None where it was left as it was.
        print_pages: its pages.
        others: what else was printed, cards and packs, each with its pages.
        remarks: what the owner should know besides, a sentence each.
    """

    site: Path
    phone: Path
    print_file: Path | None
    print_pages: int
    remarks: tuple[str, ...]
    others: tuple[tuple[Path, int], ...] = ()


def write(book: Book, to: Path, farm: Path, options: Options, progress: Progress) -> Built:
    """Put the whole binder into `to`, in place of what the last build put there.

    Args:
        book: what to write.
        to: the output folder.
        farm: the farm folder, where the ledger is; nothing is written there.
        options: what to write and how.
        progress: told how far it is.

    Raises:
        ProblemsError: the folder must not be emptied, or something cannot be printed; the last
            binder is as it was.
    """
    with replaced(to, (farm, CONTENT, TEMPLATES)) as new:
        for screen in _SCREENS:
            screen(book.screens or book, new)
        printed: PrintResult | None = None
        remarks: tuple[str, ...] = ()
        if options.site_only:
            keep(to / PRINT, new / PRINT)
        else:
            (new / PRINT).mkdir()
            printed, changes = print_binder(book, new / PRINT, farm, options, progress)
            _keep_packs(to / PRINT, new / PRINT, ledger_file.load(farm))
            remarks = tuple(_remark(each, book, to) for each in changes)
    file = to / PRINT / "binder.pdf" if printed else None
    pages = printed.pages if printed else 0
    others = printed.others if printed else ()
    lie = tuple((to / PRINT / path.name, count) for path, count in others)
    return Built(to / SITE, to / PHONE, file, pages, remarks, lie)


def write_papers(
    papers: Sequence[Paper], to: Path, sources: Sequence[Path], options: Options
) -> Papers:
    """Write short books below `to`, where the last build lies; all else stays as it is.

    Args:
        papers: the books.
        to: the output folder, made where it does not exist.
        sources: folders we read from; they must have nothing in common with `to`.
        options: how to print.

    Returns:
        Each file, and its pages.

    Raises:
        ProblemsError: sheets that cannot be printed, or a folder that must not be written.
    """
    from binder.output.print import PrintOptions, render_papers  # noqa: PLC0415 -- as below

    with beside(to, sources) as folder:
        setting = Setting(large=options.large_print, two_sided=options.two_sided)
        drawn = render_papers(papers, PrintOptions("", setting, options.workers))
        return tuple(
            (write_inside(folder, f"{PRINT}/{name}", pdf), pages)
            for name, (pdf, pages) in drawn.items()
        )


def _keep_packs(old: Path, new: Path, ledger: Ledger) -> None:
    """Carry over the change sets of the last hand-overs: somebody may still have to do them."""
    for binder in ledger.out():
        name = pack_name(binder.name, binder.date)
        pack = old / name
        if pack.is_file() and not pack.is_symlink() and not (new / name).exists():
            write_inside(new, name, pack.read_bytes())


def _remark(changes: Changes, book: Book, to: Path) -> str:
    """Return `Dana's binder of 2026-06-01: 3 sheets to change, see build/print/...`."""
    text = book.labels[
        "print.changes.whole-remark" if changes.whole else "print.changes.remark"
    ]
    values = {
        "{name}": changes.name,
        "{date}": changes.since,
        "{count}": str(len(changes.sheets)),
        "{pens}": str(len(changes.pens) + bool(changes.foot_pens)),
        "{file}": str(to / PRINT / changes.file_name),
    }
    if changes.drafts or changes.unfixed_foot:
        what = "whole-fix" if changes.whole else "fix"
        text = f"{text}. {book.labels[f'print.changes.{what}']}"
    for key, value in values.items():
        text = text.replace(key, value)
    return text


def print_binder(
    book: Book, new: Path, farm: Path, options: Options, progress: Progress
) -> tuple[PrintResult, tuple[Changes, ...]]:
    """Write the printed binder into `new`, with what to change in each binder that is out.

    Args:
        book: what to print.
        new: an existing folder.
        farm: the farm folder, where the ledger is.
        options: for whom and how.
        progress: told how far it is.

    Raises:
        ProblemsError: sheets that cannot be printed, or a ledger that cannot be read.
    """
    # The site needs nothing of what print loads.
    from binder.output.print import PrintOptions, render_book  # noqa: PLC0415

    ledger, texts = ledger_file.load(farm), ledger_texts.load(farm)
    changes = (
        *(each for each in options.changes if each.any),
        *all_changes(ledger, book, texts, options.as_of),
    )
    setting = Setting(large=options.large_print, two_sided=options.two_sided)
    how = PrintOptions(options.edition, setting, options.workers, only=options.only)
    return render_book(book, new, progress, how, marks(ledger, book), changes), changes
