"""The first page of a change set: what to write in, which sheets to pull, which to put in."""

from __future__ import annotations

import re
from html import escape, unescape
from typing import TYPE_CHECKING

from binder.output.handed.changes import LOG
from binder.output.handed.given import given_sheets
from binder.output.paper.sheet import CARDS, age
from binder.pages.page import PRINT_ONLY, Page

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.output.handed.by_pen import Pen
    from binder.output.handed.changes import Change, Changes
    from binder.pages.page import Book

KIND = "changes"
_ROW_SHOWN = 44  # characters of a row's head: our choice


def change_page(changes: Changes, book: Book) -> Page:
    """Return the page that tells what to do."""
    labels = {
        name.removeprefix("print.changes."): text
        for name, text in book.labels.items()
        if name.startswith("print.changes.")
    }
    title = labels["title"].replace("{name}", changes.name)
    tell = _whole if changes.whole else _some
    total = len(given_sheets(book, changes.edition, changes.only))
    body = tell(changes, labels, book.labels, total)
    front = book.tabs[0].letter if book.tabs else ""
    return Page("changes", "", front, title, body, where=PRINT_ONLY, kind=KIND)


def _whole(
    changes: Changes, labels: Mapping[str, str], _all: Mapping[str, str], total: int
) -> str:
    many = labels["many"].replace("{count}", str(len(changes.sheets)))
    why = labels["foot"] if changes.foot else many.replace("{total}", str(total))
    return (
        f'<div class="answer"><p><strong>{escape(labels["whole"])}</strong></p></div>'
        f"<p>{escape(why)}</p><p>{escape(labels['kept-logs'])}</p>"
        + (f"<p>{escape(labels['hang'])}</p>" if _hangs(changes.lines) else "")
    )


def _hangs(lines: Iterable[Change]) -> bool:
    """Return whether something that hangs outside the binder changes too."""
    return any(line.kind in CARDS for line in lines)


def _called(line: Change, sheet: str, labels: Mapping[str, str]) -> str:
    """Return `P1`, or `Card P1` for what hangs outside the binder under the same number."""
    return labels[line.kind].replace("{sheet}", sheet) if line.kind in CARDS else sheet


def _some(
    changes: Changes, labels: Mapping[str, str], every: Mapping[str, str], _total: int
) -> str:
    lead = labels["lead"].replace("{date}", changes.since)
    draft = f'<p class="sources">{escape(labels["drafts"])}</p>' if changes.drafts else ""
    return (
        f'<div class="answer"><p>{escape(lead)}</p></div>'
        f"{_pen_table(changes, labels)}{_sheet_table(changes, labels, every)}"
        f'<p class="lead last"><span class="tick"></span>{escape(labels["list"])}</p>{draft}'
    )


def _sheet_table(changes: Changes, labels: Mapping[str, str], every: Mapping[str, str]) -> str:
    if not changes.sheets:
        return ""
    rows = "".join(_row(line, labels, every) for line in changes.sheets)
    hang = f'<p class="lead">{escape(labels["hang"])}</p>' if _hangs(changes.sheets) else ""
    return (
        f"<h2>{escape(labels['swap'])}</h2><p>{escape(labels['throw'])}</p>"
        f'<table class="tasks pull"><thead><tr>{_heads(("pull", "put", "name"), labels)}</tr>'
        f"</thead><tbody>{rows}</tbody></table>{hang}"
    )


def _heads(names: Iterable[str], labels: Mapping[str, str]) -> str:
    return "".join(f'<th scope="col">{escape(labels[name])}</th>' for name in names)


def _row(line: Change, labels: Mapping[str, str], every: Mapping[str, str]) -> str:
    old = new = labels["nothing"]
    if line.pulled:
        old = labels["old"].replace("{sheet}", _called(line, line.pulled, labels))
        old = old.replace("{number}", str(line.pulled_revision))
        if line.penned:
            old = labels["penned"].replace("{old}", old)
        if line.kind == LOG:
            old = labels["keep-log"].replace("{sheet}", old)
    if line.put:
        new = labels["new"].replace("{sheet}", _called(line, line.put, labels))
        new = new.replace("{age}", age(every, line.mark))
    first = f'<th scope="row"><span class="tick"></span>{escape(old)}</th>'
    second = f'<td><span class="tick"></span><b>{escape(new)}</b></td>'
    return f"<tr>{first}{second}<td>{escape(line.title)}</td></tr>"


def _pen_table(changes: Changes, labels: Mapping[str, str]) -> str:
    """Return what to write in: one line a value, with a box for each sheet it stands on."""
    values: dict[Pen, list[str]] = {}
    for pen in changes.foot_pens:
        values.setdefault(pen, []).append(labels["every-foot"])
    for line in changes.pens:
        for pen in line.pens:
            values.setdefault(pen, []).append(_called(line, line.pulled, labels))
    if not values:
        return ""
    rows = "".join(_pen_row(pen, names, labels) for pen, names in values.items())
    return (
        f"<h2>{escape(labels['write'])}</h2><p>{escape(labels['write-lead'])}</p>"
        f'<table class="tasks pens"><thead><tr>{_heads(("on", "says", "becomes"), labels)}</tr>'
        f"</thead><tbody>{rows}</tbody></table>"
    )


def _pen_row(pen: Pen, names: Iterable[str], labels: Mapping[str, str]) -> str:
    said = _tidy(pen.old)
    if pen.row and pen.old not in pen.row:
        said = (
            labels["in-row"].replace("{row}", _short(_tidy(pen.row))).replace("{value}", said)
        )
    if pen.places > 1:
        said = labels["places"].replace("{value}", said).replace("{count}", str(pen.places))
    boxes = " ".join(
        f'<span class="one"><span class="tick"></span>{escape(name)}</span>' for name in names
    )
    new = _tidy(pen.new) or labels["cross"]
    return (
        f'<tr><th scope="row">{boxes}</th><td>{escape(said)}</td>'
        f"<td><b>{escape(new)}</b></td></tr>"
    )


def _tidy(text: str) -> str:
    """Return a text as the sheet has it: no space before a comma or a full stop."""
    return re.sub(r" (?=[.,;:)])", "", unescape(text))


def _short(text: str) -> str:
    """Return the beginning of what heads a row, enough to find it."""
    if len(text) <= _ROW_SHOWN:
        return text
    return text[:_ROW_SHOWN].rsplit(" ", 1)[0] + "…"
