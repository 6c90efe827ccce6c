"""Protocols as they are written: front matter between two lines of ---, then Markdown."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from binder import yamlfile
from binder.cache import kept
from binder.pages.text.programs import made_by
from binder.problems import Place, Problem, ProblemsError, did_you_mean
from binder.sources import all_sources

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_FIELDS = (
    "title", "sheet", "kind", "for", "needs", "when", "reviewed", "sources", "summary", "words",
)  # fmt: skip
_NEEDED = ("title", "sheet", "reviewed", "summary")
_KINDS = ("emergency", "protocol")
OWNERS_FOLDER = "protocols"  # as problems name the owner's files
_SHEET = re.compile(r"[A-Z][1-9][0-9]?")
_NAME = re.compile(r"(?:[a-z]\d{2}-)?(?P<slug>[a-z0-9]+(?:-[a-z0-9]+)*)\.md")


@dataclass(frozen=True, slots=True)
class Protocol:
    """One protocol as written: front matter, and the text that Jinja has not seen yet."""

    slug: str
    file: str
    title: str
    sheet: str
    kind: str
    tags: tuple[str, ...]
    needs: tuple[str, ...]
    reviewed: dt.date
    sources: tuple[str, ...]
    summary: str
    words: str
    when: str
    text: str
    first_line: int
    sheet_line: int = 1
    owner_version: bool = False

    def shown(self, tags: frozenset[str]) -> bool:
        """Return whether a farm with these tags has the thing this protocol speaks of."""
        any_of = not self.tags or any(tag in tags for tag in self.tags)
        return any_of and all(tag in tags for tag in self.needs)

    def line_of(self, words: str) -> int:
        """Return the line of the file where `words` stand first, else where its text starts."""
        at = self.text.find(words)
        return self.first_line + (self.text.count("\n", 0, at) if at > 0 else 0)


def load_folder(folder: Path, label: str) -> tuple[Protocol, ...]:
    """Return every maintained protocol in `folder`, by sheet.

    Raises:
        ProblemsError: mistakes in any front matter, all of them.
    """
    texts = {
        f"{label}/{path.name}": path.read_text(encoding="utf-8")
        for path in sorted(folder.glob("*.md"))
    }
    parts = (*texts, *texts.values(), *all_sources())
    made = kept(made_by(), parts, lambda: [_plain(one) for one in load_texts(texts)])
    return tuple(_of_plain(fields) for fields in made)


def _plain(one: Protocol) -> dict[str, Any]:
    """Return a protocol as JSON can keep it."""
    return asdict(one) | {"reviewed": one.reviewed.isoformat()}


def _of_plain(fields: Mapping[str, Any]) -> Protocol:
    """Return the protocol that `_plain` was given."""
    told: dict[str, Any] = {
        key: tuple(one) if isinstance(one, list) else one for key, one in fields.items()
    }
    told["reviewed"] = dt.date.fromisoformat(told["reviewed"])
    return Protocol(**told)


def load_texts(texts: Mapping[str, str], *, owner: bool = False) -> tuple[Protocol, ...]:
    """Return the protocols of `texts`, a mapping of file name to text.

    Raises:
        ProblemsError: mistakes in any front matter, all of them; two files for one sheet.
    """
    problems: list[Problem] = []
    found: list[Protocol] = []
    for name, text in sorted(texts.items()):
        file = f"{OWNERS_FOLDER}/{name}" if owner else name
        try:
            found.append(_parse(file, text, owner=owner))
        except ProblemsError as error:
            problems.extend(error.problems)
    sheets: dict[str, str] = {}
    for one in found:
        if one.sheet in sheets:
            message = f"is the sheet of {sheets[one.sheet]} already; choose a free number"
            problems.append(
                Problem(Place(one.file, one.sheet_line, 1), f"sheet: {one.sheet}", message)
            )
        sheets[one.sheet] = one.file
    if problems:
        raise ProblemsError(problems)
    return tuple(sorted(found, key=lambda one: (one.sheet[0], int(one.sheet[1:]))))


def _parse(file: str, text: str, *, owner: bool) -> Protocol:
    """Return one protocol; its front matter stands between two lines of `---`."""
    name = _NAME.fullmatch(file.rpartition("/")[2])
    if name is None:
        raise _one(file, 0, "", "is not named like e01-pig-in-heat-trouble.md")
    lines = text.removeprefix("\ufeff").splitlines()
    ends = [index for index, line in enumerate(lines) if line.strip() == "---"]
    if len(ends) < 2 or ends[0] != 0:  # noqa: PLR2004 -- a first and a closing line
        raise _one(file, 1, "", "must start with a line of --- , its title and so on, and ---")
    head = yamlfile.parse("\n".join(["", *lines[1 : ends[1]]]), file)
    if not isinstance(head.data, dict):
        raise _one(file, 1, "", "has no title; write `title: ...` between the lines of ---")
    fields = head.data
    problems = [
        Problem(head.key_place((key,)), key, f"is not a field{did_you_mean(key, _FIELDS)}")
        for key in fields
        if key not in _FIELDS
    ]
    problems += [
        Problem(Place(file, 1, 1), key, "is missing") for key in _NEEDED if not fields.get(key)
    ]
    kind = str(fields.get("kind") or "protocol")
    sheet = str(fields.get("sheet") or "")
    if kind not in _KINDS:
        problems.append(
            Problem(
                head.place(("kind",)),
                "kind",
                f'"{kind}" is not known{did_you_mean(kind, _KINDS)}',
            )
        )
    if sheet and not _SHEET.fullmatch(sheet):
        problems.append(
            Problem(
                head.place(("sheet",)), "sheet", f'"{sheet}" is not a sheet; write it like W4'
            )
        )
    reviewed = _date(str(fields.get("reviewed") or ""))
    if fields.get("reviewed") and reviewed is None:
        message = f'"{fields["reviewed"]}" is not a date; write it like 2026-07-14'
        problems.append(Problem(head.place(("reviewed",)), "reviewed", message))
    problems += [
        Problem(head.key_place(("sources",)), "sources", f'"{name}" is not a source')
        for name in _words(fields.get("sources"))
        if name not in all_sources()
    ]
    if problems:
        raise ProblemsError(problems)
    return Protocol(
        slug=name["slug"],
        file=file,
        title=str(fields["title"]),
        sheet=sheet,
        kind=kind,
        tags=_words(fields.get("for")),
        needs=_words(fields.get("needs")),
        reviewed=reviewed or dt.date.min,
        sources=_words(fields.get("sources")),
        summary=str(fields["summary"]),
        words=str(fields.get("words") or ""),
        when=str(fields.get("when") or ""),
        text="\n".join(lines[ends[1] + 1 :]) + "\n",
        first_line=ends[1] + 2,
        sheet_line=head.place(("sheet",)).line,
        owner_version=owner,
    )


def _date(text: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return None


def _words(value: object) -> tuple[str, ...]:
    if value is None:
        return ()
    if isinstance(value, list):
        return tuple(str(item) for item in value)
    return (str(value),)


def _one(file: str, line: int, path: str, message: str) -> ProblemsError:
    return ProblemsError([Problem(Place(file, line, 1 if line else 0), path, message)])
