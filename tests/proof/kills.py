"""Ends `build` and `hand-over` at random moments; nothing half-written may be left."""

from __future__ import annotations

import contextlib
import os
import random
import signal
import subprocess
import time
from typing import TYPE_CHECKING

from binder.output.handed import ledger_file
from binder.problems import ProblemsError
from tests.proof.sandbox import Sandbox, digest, sandbox

if TYPE_CHECKING:
    from pathlib import Path

DAYS = ("2026-06-01", "2026-07-15")
_PAUSE_S = 0.002


def builds(root: Path, count: int, seed: int, *options: str) -> list[str]:
    """Kill `count` builds, turn by turn for one of two days; return what went wrong.

    Half are killed at any moment of the run, half once writing has begun.
    """
    rng = random.Random(seed)
    here = sandbox(root, options=options)
    whole: dict[str, str] = {}
    longest_s = 0.0
    for day in (*DAYS, *DAYS):  # the second time from a warm cache, as the trials will be
        began = time.monotonic()
        code, said = here.build(day)
        longest_s = time.monotonic() - began
        if code:
            return [f"the build before the trials failed: {said[-400:]}"]
        whole.setdefault(digest(here.out), day)
    found, missing = [], 0
    for turn in range(count):
        process = here.start(*here.building(DAYS[turn % 2]))
        if turn % 2:
            _wait_for(process, here.out.parent / f".{here.out.name}.new")
            time.sleep(rng.uniform(0, longest_s / 2))
        else:
            time.sleep(rng.uniform(0, longest_s))
        _kill(process)
        missing += not here.out.exists()
        state = here.out if here.out.exists() else here.out.parent / f".{here.out.name}.old"
        if digest(state) not in whole:
            found.append(f"build {turn}: {state.name} is no whole binder")
    code, said = here.build(DAYS[0])
    if code or whole.get(digest(here.out)) != DAYS[0]:
        found.append(f"the build after the trials failed: {said[-400:]}")
    left = [path.name for path in root.iterdir() if path.name.startswith(f".{here.out.name}.")]
    return found + [f"left behind: {name}" for name in left]


def hand_overs(root: Path, count: int, seed: int, days: tuple[str, ...] = DAYS) -> list[str]:
    """Kill `count` hand-overs; the ledger before or the one after must stand, whole."""
    rng = random.Random(seed)
    here = sandbox(root)
    began = time.monotonic()
    code, said = here.run(*here.giving("Dana", DAYS[0]))
    if code:
        return [f"the hand-over before the trials failed: {said[-400:]}"]
    longest_s = time.monotonic() - began
    found: list[str] = []
    known = 1
    for turn in range(count):
        name = f"Sitter {turn}"
        process = here.start(*here.giving(name, days[turn % len(days)]))
        time.sleep(rng.uniform(0, longest_s))
        _kill(process)
        try:
            now = ledger_file.load(here.farm)
        except (ProblemsError, OSError) as error:
            return [*found, f"hand-over {turn}: the ledger cannot be read: {error}"]
        added = len(now.hand_overs) - known
        if added not in {0, 1} or (added and now.hand_overs[-1].name != name):
            found.append(f"hand-over {turn}: {added} entries came to the ledger")
        lost = {
            f"{slug} {number}"
            for each in now.hand_overs
            for slug, number in each.sheets.items()
            if number not in {one.number for one in now.revisions.get(slug, ())}
        }
        found += [f"hand-over {turn}: names sheets it does not know: {lost}"] if lost else []
        known = len(now.hand_overs)
    code, said = here.run(*here.giving("Last", DAYS[0]))
    if code or len(ledger_file.load(here.farm).hand_overs) != known + 1:
        found.append(f"the hand-over after the trials failed: {said[-400:]}")
    left = [path.name for path in here.farm.iterdir() if path.name.startswith(".ledger")]
    return found + [f"left behind: {name}" for name in left]


def _wait_for(process: subprocess.Popen[str], path: Path) -> None:
    """Return once `path` is there or the process has ended."""
    while process.poll() is None and not path.exists():
        time.sleep(_PAUSE_S)


def _kill(process: subprocess.Popen[str]) -> None:
    """End a process of ours and those it started, as a power cut would."""
    with contextlib.suppress(ProcessLookupError):
        os.killpg(process.pid, signal.SIGKILL)
    process.communicate()


def at_once(here: Sandbox) -> list[str]:
    """Start two builds to one folder and two hand-overs of one farm; return what went wrong."""
    both = [here.start(*here.building(day)) for day in DAYS]
    ends = [(process.communicate()[0], process.returncode) for process in both]
    found = [f"two builds: {said[-400:]}" for said, code in ends if code and
             not (code == 1 and "another build" in said)]  # fmt: skip
    if all(code for _, code in ends):
        found.append("two builds: neither came to its end")
    code, said = here.build(DAYS[0])
    found += [f"a build after two at once: {said[-400:]}"] if code else []
    both = [here.start(*here.giving(name, DAYS[0])) for name in ("Ann", "Bob")]
    ends = [(process.communicate()[0], process.returncode) for process in both]
    found += [f"two hand-overs: {said[-400:]}" for said, code in ends if code and
              "another build" not in said]  # fmt: skip
    names = {each.name for each in ledger_file.load(here.farm).hand_overs}
    # One that found the folder taken printed nothing, and so was not written down either.
    given = {name for name, (_, code) in zip(("Ann", "Bob"), ends, strict=True) if not code}
    right = given and names >= given and not ({"Ann", "Bob"} - given) & names
    return found + ([] if right else [f"two hand-overs: {names} are written"])
