"""Puts slips into formulas and counts what no test notices: `python -m tests.proof.mutate`.

Each slip is tried in a copy of the project, in a process of its own. Ends with 1 where fewer
than nine in ten are noticed.
"""

from __future__ import annotations

import argparse
import contextlib
import importlib
import io
import multiprocessing
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest

from tests.proof.sandbox import ROOT
from tests.proof.slips import Slip, slips

LEAST_NOTICED = 0.9
LONGEST_S = 600.0  # of the tests of one slip, which may make a loop endless
SEED = 20260601
_TAKEN = ("binder", "content", "templates", "tests", "pyproject.toml")
# What tests load that takes long; loaded once, before processes part.
_WARM = ("pint", "pydantic", "psychrolib", "astral.sun", "CoolProp.CoolProp")
_POLL_S = 0.02
NOTICED, SURVIVED, ENDLESS = "noticed", "survived", "endless"
_BROKEN = 99
# What pytest ends with: all passed, a test failed, a module that cannot be loaded any more.
_CODES = {0: SURVIVED, 1: NOTICED, 2: NOTICED}


def main() -> int:
    """Try the slips that the command line asks for."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("layer", nargs="?", default="science", choices=("science", "figures"))
    asked.add_argument("--module", help="one module of it, like pipe")
    asked.add_argument("--sample", type=int, default=0, help="so many of all, by chance")
    asked.add_argument("--workers", type=int, default=2)
    given = asked.parse_args()
    for name in _WARM:
        importlib.import_module(name)
    found = every_slip(given.layer, given.module)
    if given.sample:
        found = random.Random(SEED).sample(found, min(given.sample, len(found)))
    began = time.monotonic()
    counts: Counter[str] = Counter()
    by_file: dict[str, Counter[str]] = {}
    with (
        tempfile.TemporaryDirectory(prefix="binder-slips-") as root,
        multiprocessing.get_context("fork").Pool(given.workers) as pool,
    ):
        if (wrong := pool.apply(tried, (Path(root), _unchanged(found[0])))[1]) != SURVIVED:
            sys.stdout.write(f"without any slip the tests are {wrong}: nothing can be said\n")
            return 1
        for slip, result in pool.imap_unordered(partial(tried, Path(root)), found):
            counts[result] += 1
            by_file.setdefault(slip.file.name, Counter())[result] += 1
            if result == SURVIVED:
                sys.stdout.write(f"{slip}\n")
                sys.stdout.flush()
    for name, each in sorted(by_file.items()):
        sys.stdout.write(f"{name:22} {each.total():5} slips, {each[SURVIVED]:4} not noticed\n")
    share = 1 - counts[SURVIVED] / max(counts.total(), 1)
    minutes = (time.monotonic() - began) / 60
    sys.stdout.write(
        f"{counts.total()} slips in {given.layer}, {counts[SURVIVED]} not noticed, "
        f"{counts[ENDLESS]} endless: {share:.1%} noticed, {minutes:.0f} min\n"
    )
    return share < LEAST_NOTICED


def every_slip(layer: str, module: str | None) -> list[Slip]:
    """Return every slip in the modules of a layer, or in one of them."""
    folder = ROOT / "binder" / layer
    paths = [folder / f"{module}.py"] if module else sorted(folder.rglob("*.py"))
    return [
        slip
        for path in paths
        for slip in slips(path.relative_to(ROOT), path.read_text(encoding="utf-8"))
    ]


def _unchanged(slip: Slip) -> Slip:
    return replace(slip, source=(ROOT / slip.file).read_text(encoding="utf-8"))


def tests_of(slip: Slip) -> tuple[list[str], list[str]]:
    """Return the tests that may notice a slip: the likeliest, and the others."""
    layer, *inside = slip.file.with_suffix("").parts[1:]
    module = inside[-1]
    own = [str(slip.file)] if layer == "science" else []
    rows = "test_science_rows.py" if layer == "science" else "test_published_rows.py"
    named = {
        path: ".".join([layer, *inside]) in (text := path.read_text(encoding="utf-8"))
        or f"import {module}" in text
        for path in sorted((ROOT / "tests" / layer).rglob("test_*.py"))
    }
    likely = [str(path.relative_to(ROOT)) for path, is_named in named.items() if is_named]
    others = [str(path.relative_to(ROOT)) for path, is_named in named.items() if not is_named]
    return [*likely, *own, f"tests/published/{rows}"], others


def tried(root: Path, slip: Slip) -> tuple[Slip, str]:
    """Return whether a test noticed the slip."""
    tree = root / str(os.getpid())
    if not tree.exists():
        _copy_to(tree)
    target = tree / slip.file
    good = target.read_text(encoding="utf-8")
    target.write_text(slip.source, encoding="utf-8")
    try:
        results = (_judged(tree, tests) for tests in tests_of(slip) if tests)
        return slip, next((result for result in results if result != SURVIVED), SURVIVED)
    finally:
        target.write_text(good, encoding="utf-8")


def _copy_to(tree: Path) -> None:
    tree.mkdir()
    for name in _TAKEN:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, tree / name)
        else:
            shutil.copy2(ROOT / name, tree / name)


def _judged(tree: Path, tests: list[str]) -> str:
    child = os.fork()
    if not child:
        code = _BROKEN
        try:
            code = _run(tree, tests)
        finally:
            os._exit(code)
    ends = time.monotonic() + LONGEST_S
    while time.monotonic() < ends:
        ended, status = os.waitpid(child, os.WNOHANG)
        if ended:
            code = os.waitstatus_to_exitcode(status)
            if code not in _CODES:
                message = f"{tests[0]} and others could not be run: {code}"
                raise RuntimeError(message)
            return _CODES[code]
        time.sleep(_POLL_S)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return ENDLESS


def _run(tree: Path, tests: list[str]) -> int:
    """Run tests in this process, in the copied project; return pytest's exit code."""
    os.chdir(tree)
    os.environ["CI"] = "1"  # the same examples every time
    sys.dont_write_bytecode = True
    for name in [name for name in sys.modules if name.split(".")[0] in {"binder", "tests"}]:
        del sys.modules[name]
    sys.path[:] = [str(tree), *(each for each in sys.path if each not in {"", str(ROOT)})]
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        return int(
            pytest.main(["-x", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", *tests])
        )


if __name__ == "__main__":
    sys.exit(main())
