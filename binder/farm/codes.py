"""Gate codes that stand where everybody reads them: typed into a text that is not private."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from binder.farm import tables
from binder.farm.load import PROTOCOLS
from binder.farm.model import Prose
from binder.farm.model.lists import marked
from binder.farm.text import leaves
from binder.problems import Place, Problem, quotable
from binder.yamlfile import named, value_at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.load import Written
    from binder.yamlfile import Document, Path_

PRIVATE = "private.yaml"
_YES = frozenset({"yes", "true"})


def problems(written: Written) -> list[Problem]:
    """Return each public text that holds a code of private.yaml, with both places."""
    found = []
    codes = list(_codes(written))
    for place, path, text in _public_texts(written) if codes else ():
        for code, where in codes:
            if _holds(text, code):
                message = (
                    f"holds the code that stands in {where} and is printed on the keys sheet "
                    "only; take it out here, or mark this private: yes"
                )
                found.append(Problem(place, path, message))
    return found


def _codes(written: Written) -> Iterator[tuple[str, Place]]:
    """Yield each code that is long enough to be told from other numbers, and its place."""
    document = written.documents.get(PRIVATE)
    shortest = int(tables.by("check_rules", "rule")["shortest code"]["most"])
    for path, text in leaves(document.data) if document else ():
        if document and path[-1:] == ("code",) and len(text.strip()) >= shortest:
            yield text.strip(), document.place(path)


def _holds(text: str, code: str) -> bool:
    """Return whether a text holds a code by itself, not within a longer number or word."""
    return code.casefold() in text.casefold() and bool(
        re.search(rf"(?<!\w)(?<!\d[-. ]){re.escape(code)}(?!\w)", text, re.IGNORECASE)
    )


def _public_texts(written: Written) -> Iterator[tuple[Place, str, str]]:
    for name, document in written.documents.items():
        if name == PRIVATE:
            continue
        for path, text in leaves(document.data):
            if marked(name, path, Prose) and not _is_private(document, path):
                yield document.place(path), named(document.data, path), text
    for name, whole in written.protocols.items():
        for number, line in enumerate(whole.splitlines(), start=1):
            yield Place(f"{PROTOCOLS}/{quotable(name)}", number, 1), "", line


def _is_private(document: Document, path: Path_) -> bool:
    """Return whether what a text belongs to, or anything around it, is marked private."""
    around = (value_at(document.data, (*path[:n], "private")) for n in range(len(path)))
    return any(isinstance(mark, str) and mark.lower() in _YES for mark in around)
