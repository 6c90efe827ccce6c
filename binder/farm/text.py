"""Text that would not print as it was meant: characters no page may carry, words cut off."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

from binder.farm.load import PROTOCOLS
from binder.farm.model import Prose, Vital
from binder.farm.model.lists import marked
from binder.letters import lacking, told_lacking
from binder.problems import Place, Problem, quotable
from binder.yamlfile import named

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.farm.load import Written
    from binder.yamlfile import Document, Path_, Plain

# C0 and C1 codes but for tab and line break; line and paragraph separators; embeddings,
# overrides and isolates of the bidirectional algorithm (UAX #9); surrogates and non-characters.
_REFUSED = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]"
)
_TURNING = re.compile("[\u202a-\u202e\u2066-\u2069]")


def problems(written: Written) -> list[Problem]:
    """Return a problem for each text, key or protocol that holds such a character."""
    found = []
    for document in written.documents.values():
        for path, text, is_key in _texts(document.data, ()):
            bad = _REFUSED.search(text)
            if bad:
                found.append(_problem(document, path, bad[0], is_key=is_key))
    for name, text in written.protocols.items():
        for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), start=1):
            bad = _REFUSED.search(line)
            if bad:
                place = Place(f"{PROTOCOLS}/{quotable(name)}", number, bad.start() + 1)
                found.append(Problem(place, "", _message(bad[0])))
    return found


def unprintable(written: Written) -> list[Problem]:
    """Return where a text holds letters that the print font lacks; a build would end there.

    Names of pictures are not printed. Entities of a protocol count as what they stand for.
    """
    found = []
    for document in written.documents.values():
        for path, text, is_key in _texts(document.data, ()):
            missing = lacking(text) if path[-1:] != ("picture",) else ()
            if missing:
                place = document.key_place(path) if is_key else document.place(path)
                found.append(Problem(place, named(document.data, path), told_lacking(missing)))
    for name, text in written.protocols.items():
        for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), start=1):
            missing = lacking(unescape(line))
            if missing:
                place = Place(f"{PROTOCOLS}/{quotable(name)}", number, 1)
                found.append(Problem(place, "", told_lacking(missing)))
    return found


def lost(written: Written, *, vital: bool) -> list[Problem]:
    """Return where words behind a ` #` are taken for a comment.

    With `vital` those that are clearly words, in a dose or a task, for which the farm is
    refused; without it all others, which may be meant as a comment.
    """
    return [
        Problem(
            document.place(path),
            named(document.data, path),
            f"ends before the #: {quotable(said)} is left out; put the whole text in "
            '"quotes", or a remark on a line of its own',
        )
        for name, document in written.documents.items()
        for path, said in document.cut.items()
        if marked(name, path, Prose)
        and vital == (marked(name, path, Vital) and not said[1:].startswith((" ", "\t")))
    ]


def _problem(document: Document, path: Path_, character: str, *, is_key: bool) -> Problem:
    place = document.key_place(path) if is_key else document.place(path)
    return Problem(place, named(document.data, path), _message(character))


def _message(character: str) -> str:
    if _TURNING.match(character):
        return f"holds a hidden mark that turns text around (U+{ord(character):04X}); retype it"
    return f"holds a control character (U+{ord(character):04X}); retype it"


def _texts(data: Plain, path: Path_) -> Iterator[tuple[Path_, str, bool]]:
    """Yield every key and every text of a file with its path."""
    if isinstance(data, str):
        yield path, data, False
    elif isinstance(data, list):
        for number, item in enumerate(data):
            yield from _texts(item, (*path, number))
    elif isinstance(data, dict):
        for key, item in data.items():
            yield (*path, key), key, True
            yield from _texts(item, (*path, key))


def leaves(data: Plain, path: Path_ = ()) -> Iterator[tuple[Path_, str]]:
    """Yield every text of a file with its path."""
    return ((path, text) for path, text, is_key in _texts(data, path) if not is_key)
