"""Renewing: a save is built, a failure is told, and neither ends the watching."""

from __future__ import annotations

import threading
import time
from typing import TYPE_CHECKING

import pytest

from binder.output.host import watch
from binder.problems import Place, Problem, ProblemsError
from tests.output.host.asking import client, wait_for

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from binder.output.host.app import SiteState


def test_a_failed_rebuild_keeps_the_last_good_one(state: SiteState, build: Path) -> None:
    """What is wrong is told; the pages stay and say that they are old. Then all is well."""
    told: list[str] = []
    before = state.snapshot

    def fails() -> Path:
        raise ProblemsError([Problem(Place("pens.yaml", 3, 1), "", "is wrong")])

    watch.renew(state, fails, told.append)
    assert state.snapshot is before
    assert client(state).get("/now.json").json() == {"version": before.version, "failed": True}
    assert any("pens.yaml:3:1" in line for line in told)
    watch.renew(state, lambda: build, told.append)
    assert client(state).get("/now.json").json()["failed"] is False


def test_a_change_in_the_farm_is_seen(state: SiteState, build: Path, tmp_path: Path) -> None:
    """A file saved in the farm folder leads to one new build; stopped, the watching ends."""
    farm = tmp_path / "farm"
    farm.mkdir()
    told: list[str] = []
    stop = threading.Event()

    def rebuild() -> Path:
        (build / "site" / "index.html").write_text("<html lang='en'>Second", encoding="utf-8")
        return build

    watcher = threading.Thread(
        target=watch.keep_renewing, args=(farm, state, rebuild, told.append, stop)
    )
    watcher.start()
    try:
        time.sleep(0.5)
        (farm / "pens.yaml").write_text("- id: a\n", encoding="utf-8")
        wait_for(lambda: "Second" in client(state).get("/").text)
    finally:
        stop.set()
        watcher.join(timeout=15)
    assert not watcher.is_alive()
    assert state.rebuild_failed is False


class Kaputt(BaseException):
    """An error that is no `Exception`, as a library written in another language may raise."""


@pytest.mark.parametrize(
    "error", [ValueError("no such thing"), RecursionError(), SystemExit(3), Kaputt("odd")]
)
def test_any_failure_is_told_and_the_next_build_tried(
    state: SiteState, build: Path, error: BaseException
) -> None:
    """An error of the program itself too: kind, words and lines; then all is well again."""
    told: list[str] = []

    def fails() -> Path:
        raise error

    watch.renew(state, fails, told.append)
    assert state.rebuild_failed is True
    text = "\n".join(told)
    assert type(error).__name__ in text
    assert str(error) in text
    assert "in fails" in text  # where it happened
    watch.renew(state, lambda: build, told.append)
    assert state.rebuild_failed is False


def test_the_watching_outlives_any_failure(
    state: SiteState, build: Path, tmp_path: Path
) -> None:
    """A save that ends in an error of the program, then one that builds: the second is up."""
    farm = tmp_path / "farm"
    farm.mkdir()
    told: list[str] = []
    stop = threading.Event()

    def rebuild() -> Path:
        if "bad" in (farm / "pens.yaml").read_text(encoding="utf-8"):
            raise Kaputt
        (build / "site" / "index.html").write_text("<html lang='en'>Mended", encoding="utf-8")
        return build

    watcher = threading.Thread(
        target=watch.keep_renewing, args=(farm, state, rebuild, told.append, stop)
    )
    watcher.start()
    try:
        time.sleep(0.5)
        (farm / "pens.yaml").write_text("bad", encoding="utf-8")
        wait_for(lambda: state.rebuild_failed)
        assert client(state).get("/now.json").json()["failed"] is True  # what the bar reads
        (farm / "pens.yaml").write_text("good", encoding="utf-8")
        wait_for(lambda: "Mended" in client(state).get("/").text)
    finally:
        stop.set()
        watcher.join(timeout=15)
    assert state.rebuild_failed is False
    assert any("Kaputt" in line for line in told)


def test_where_watching_fails_it_is_tried_again(
    state: SiteState, build: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder that cannot be watched is told, on every page too; what was missed is built."""
    told: list[str] = []
    stop = threading.Event()
    failed: list[bool] = []
    built: list[bool] = []

    def breaks(*_: object, **__: object) -> Iterator[object]:
        if built:
            stop.set()
            return iter(())
        raise OSError(28, "No space left on device")

    def rebuild() -> Path:
        failed.append(state.rebuild_failed)
        built.append(True)
        return build

    monkeypatch.setattr(watch, "watch", breaks)
    monkeypatch.setattr(watch, "_RETRY_S", 0.01)
    watch.keep_renewing(tmp_path, state, rebuild, told.append, stop)
    assert failed == [True]
    assert "cannot be watched" in told[0]
    assert "No space left" in told[0]
