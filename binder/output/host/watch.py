"""Renews what is shown when the farm folder or the day changes (knows watchfiles)."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from watchfiles import watch

from binder.output.host import shelf
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from threading import Event

    from binder.output.host.app import Shown

Rebuild = Callable[[], Path]
Tell = Callable[[str], None]
_QUIET_MS = (
    300  # after the last change, since editors write a file in several steps: our choice
)
_LOOK_UP_MS = 5_000  # how often to look whether to stop, or whether it is another day


def renew(shown: Shown, rebuild: Rebuild, tell: Tell) -> None:
    """Build anew; where that fails, say so and keep showing the last good build."""
    try:
        built = rebuild()
    except ProblemsError as error:
        shown.failed = True
        tell("Not rebuilt. The last good version stays up. What is wrong:")
        for problem in error.problems:
            tell(f"  {problem}")
        return
    shown.shelf = shelf.read(built)
    shown.failed = False


def keep_renewing(
    folder: Path, shown: Shown, rebuild: Rebuild, tell: Tell, stop: Event
) -> None:
    """Watch until `stop` is set. Where watching itself ends, every page says that it is old."""
    day = _today()
    try:
        for changes in watch(
            folder, stop_event=stop, debounce=_QUIET_MS * 10, step=_QUIET_MS,
            rust_timeout=_LOOK_UP_MS, yield_on_timeout=True, raise_interrupt=False,
        ):  # fmt: skip
            if not changes and _today() == day:
                continue
            day = _today()
            before = shown.shelf.version
            renew(shown, rebuild, tell)
            if shown.shelf.version != before:
                tell(f"{dt.datetime.now().astimezone():%H:%M:%S} New version is up.")
    finally:
        if not stop.is_set():
            shown.failed = True
            tell(f"{folder} is no longer watched. Start the host again.")


def _today() -> dt.date:
    return dt.datetime.now().astimezone().date()
