"""The first page of a change set: which sheets to pull, which to put in."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from binder.output.sheet import age
from binder.pages.page import PRINT_ONLY, Page

if TYPE_CHECKING:
    from collections.abc import Mapping

    from binder.output.hand_over import Change, Changes
    from binder.pages.page import Book

KIND = "changes"


def change_page(changes: Changes, book: Book, total: int) -> Page:
    """Return the page that tells what to do; `total` is how many sheets that binder has."""
    labels = {
        name.removeprefix("print.changes."): text
        for name, text in book.labels.items()
        if name.startswith("print.changes.")
    }
    title = labels["title"].replace("{name}", changes.name)
    tell = _whole if changes.whole else _some
    body = tell(changes, labels, book.labels, total)
    front = book.tabs[0].letter if book.tabs else ""
    return Page("changes", "", front, title, body, where=PRINT_ONLY, kind=KIND)


def _whole(
    changes: Changes, labels: Mapping[str, str], _all: Mapping[str, str], total: int
) -> str:
    many = labels["many"].replace("{count}", str(len(changes.lines)))
    why = labels["foot"] if changes.foot else many.replace("{total}", str(total))
    return (
        f'<div class="answer"><p><strong>{escape(labels["whole"])}</strong></p></div>'
        f"<p>{escape(why)}</p>"
        + (f"<p>{escape(labels['hang'])}</p>" if _hangs(changes) else "")
    )


def _hangs(changes: Changes) -> bool:
    """Return whether something that hangs outside the binder changes too."""
    return any(line.kind for line in changes.lines)


def _called(line: Change, sheet: str, labels: Mapping[str, str]) -> str:
    """Return `P1`, or `Card P1` for what hangs outside the binder under the same number."""
    return labels[line.kind].replace("{sheet}", sheet) if line.kind else sheet


def _some(
    changes: Changes, labels: Mapping[str, str], every: Mapping[str, str], _total: int
) -> str:
    lead = labels["lead"].replace("{date}", changes.since)
    heads = "".join(
        f'<th scope="col">{escape(labels[name])}</th>' for name in ("pull", "put", "name")
    )
    rows = "".join(_row(line, labels, every) for line in changes.lines)
    hang = f'<p class="lead">{escape(labels["hang"])}</p>' if _hangs(changes) else ""
    draft = f'<p class="sources">{escape(labels["drafts"])}</p>' if changes.drafts else ""
    return (
        f'<div class="answer"><p>{escape(lead)}</p></div>'
        f'<table class="tasks pull"><thead><tr>{heads}</tr></thead>'
        f"<tbody>{rows}</tbody></table>{hang}"
        f'<p class="lead last"><span class="tick"></span>{escape(labels["list"])}</p>{draft}'
    )


def _row(line: Change, labels: Mapping[str, str], every: Mapping[str, str]) -> str:
    old = new = labels["nothing"]
    if line.pulled:
        old = labels["old"].replace("{sheet}", _called(line, line.pulled, labels))
        old = old.replace("{number}", str(line.pulled_revision))
    if line.put:
        new = labels["new"].replace("{sheet}", _called(line, line.put, labels))
        new = new.replace("{age}", age(every, line.mark))
    first = f'<th scope="row"><span class="tick"></span>{escape(old)}</th>'
    second = f'<td><span class="tick"></span><b>{escape(new)}</b></td>'
    return f"<tr>{first}{second}<td>{escape(line.title)}</td></tr>"
