"""The bibliography: every source a figure or protocol may name, with its grade."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from binder.data import CONTENT, plain

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of `content/sources.yaml`.

    `grade` is A (standard, agency, peer-reviewed, handbook), B (extension, producer body, vet
    school, maker), C (reprint, press, forum, shop), D (from memory), or empty for our choices.
    `by` is who published or wrote it, `year` when; empty where the page does not say, or where
    the title is all that is known.
    `read` is `abstract`, `extract` or `copy` where less than the publisher's page was read;
    `copy` is `True` where the grade is one lower because it was met on another host.
    """

    id: str
    grade: str
    title: str
    by: str = ""
    year: str = ""
    url: str = ""
    read: str = ""
    note: str = ""
    copy: str = ""

    @property
    def cited(self) -> str:
        """Return who, what and when in one line, as far as they are known."""
        return ", ".join(part for part in (self.by, self.title, self.year) if part)


@lru_cache(maxsize=1)
def all_sources() -> Mapping[str, Source]:
    """Return every source by its id."""
    data = plain(CONTENT / "sources.yaml", "sources.yaml")
    assert isinstance(data, dict)  # noqa: S101 -- our own file, checked by a test
    found: dict[str, Source] = {}
    for key, fields in data.items():
        assert isinstance(fields, dict)  # noqa: S101
        found[key] = Source(
            id=key,
            **{
                name: str(fields.get(name) or "")
                for name in ("grade", "title", "by", "year", "url", "read", "note", "copy")
            },
        )
    return found
