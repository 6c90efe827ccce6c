"""Stands in for the processes that draw, where not the drawing is asked but what is drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.output.paper.render import draw
from binder.output.paper.workers import Drawn, PrintJob

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping


class OneForAll:
    """Draws one sheet, of a word, and gives it for every other: which are drawn is asked."""

    def __init__(self, _most: int) -> None:
        """Start nothing."""
        self._drawn: Drawn | None = None

    def __enter__(self) -> OneForAll:
        """Return itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """End nothing: no process was started."""

    def dismiss(self) -> None:
        """Tell nobody."""

    def draw(self, jobs: Mapping[str, PrintJob]) -> Iterator[tuple[str, Drawn]]:
        """Yield the same sheet under each name."""
        for name, job in jobs.items():
            if self._drawn is None:
                html = '<!doctype html><html lang="en"><title>t</title><p>word</p>'
                self._drawn = draw(PrintJob(name, html, job.css, {}))
                assert self._drawn.faults == ()
            yield name, self._drawn
