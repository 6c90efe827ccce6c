"""Builds anew when the farm folder or the day changes (knows watchfiles)."""

from __future__ import annotations

import datetime as dt
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from watchfiles import watch

from binder.output.host import snapshot
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from threading import Event

    from binder.output.host.app import SiteState

Rebuild = Callable[[], Path]
Tell = Callable[[str], None]
# Our choices.
_QUIET_MS = 300  # after the last change, since editors write a file in several steps
_LOOK_UP_MS = 5_000  # how often to look whether to stop, or whether it is another day
_RETRY_S = 5.0  # after watching itself failed


def renew(state: SiteState, rebuild: Rebuild, tell: Tell) -> None:
    """Build anew; where that fails, say so and keep serving the last good build.

    Whatever goes wrong is told and ends here: the watching has to outlive it, so that the next
    save is built again.
    """
    try:
        fresh = snapshot.take(rebuild())
    except ProblemsError as error:
        state.rebuild_failed = True
        tell("Not rebuilt. The last good version stays up. What is wrong:")
        for problem in error.problems:
            tell(f"  {problem}")
    except BaseException as error:  # noqa: BLE001 -- nobody else hears of it in this thread
        state.rebuild_failed = True
        reason = "".join(traceback.format_exception_only(error)).strip()
        tell(
            f"Not rebuilt. The last good version stays up. The program itself failed: {reason}"
        )
        for line in "".join(traceback.format_tb(error.__traceback__)).splitlines():
            tell(line)
        tell("The next save is tried again.")
    else:
        state.snapshot = fresh
        state.rebuild_failed = False


def keep_renewing(
    folder: Path, state: SiteState, rebuild: Rebuild, tell: Tell, stop: Event
) -> None:
    """Watch until `stop` is set. While watching itself fails, every page says so."""
    while not stop.is_set():
        try:
            _watch_once(folder, state, rebuild, tell, stop)
            reason = ""
        except BaseException as error:  # noqa: BLE001 -- as above: told, and tried again
            reason = f" ({error or type(error).__name__})"
        if stop.is_set():
            return
        if not state.rebuild_failed:
            tell(f"{folder} cannot be watched{reason}. Trying again every {_RETRY_S:.0f} s.")
        state.rebuild_failed = True
        stop.wait(_RETRY_S)
        if folder.is_dir() and not stop.is_set():
            _renew_and_tell(state, rebuild, tell)  # what was saved meanwhile went unseen


def _watch_once(
    folder: Path, state: SiteState, rebuild: Rebuild, tell: Tell, stop: Event
) -> None:
    day = _today()
    for changes in watch(
        folder, stop_event=stop, debounce=_QUIET_MS * 10, step=_QUIET_MS,
        rust_timeout=_LOOK_UP_MS, yield_on_timeout=True, raise_interrupt=False,
    ):  # fmt: skip
        if not changes and _today() == day:
            continue
        day = _today()
        _renew_and_tell(state, rebuild, tell)


def _renew_and_tell(state: SiteState, rebuild: Rebuild, tell: Tell) -> None:
    before = state.snapshot.version
    renew(state, rebuild, tell)
    if state.snapshot.version != before:
        tell(f"{dt.datetime.now().astimezone():%H:%M:%S} New version is up.")


def _today() -> dt.date:
    return dt.datetime.now().astimezone().date()
