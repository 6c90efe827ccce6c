"""Measures printing against other ways of doing it: the table of `sh script/bench`.

Each row is the middle of several runs, taken in turns so that a busy moment of the machine
falls on all rows alike. The spread is shown beside it: a ratio finer than the spread means
nothing.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from tests.bench import commands, farms, season

if TYPE_CHECKING:
    from collections.abc import Sequence

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 5
SIZES = (1, 10, 50, 200)
QUICK_SIZES = (1, 3, 10)
# The aims are those of the project's own plan; none is published.
AIMS = {"cold": 0.6, "edited": 0.15, "same": 0.05, "edited-chromium": 0.3, "growth": 1.1}
CHROMIUM = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--no-pdf-header-footer",
)


@dataclass
class Row:
    """What several runs of one piece of work used."""

    name: str
    seconds: list[float] = field(default_factory=list)
    cpu: list[float] = field(default_factory=list)
    memory: list[float] = field(default_factory=list)
    said: dict[str, int] = field(default_factory=dict)

    @property
    def middle(self) -> float:
        """Return the median time [s]."""
        return statistics.median(self.seconds)

    def line(self) -> str:
        """Return the row as printed."""
        spread = f"{min(self.seconds):.2f} to {max(self.seconds):.2f}"
        cpu = f"{statistics.median(self.cpu):7.2f}" if self.cpu else "      –"
        memory = f"{statistics.median(self.memory) / 1e6:7.0f}" if self.memory else "      –"
        return f"{self.name:<58} {self.middle:7.2f}  {spread:<16} {cpu} {memory}"


HEAD = f"{'':<58} {'s':>7}  {'least to most':<16} {'cpu s':>7} {'MB':>7}"


def say(line: str) -> None:
    """Print a line at once: the whole takes minutes."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def child(row: Row, *arguments: str) -> None:
    """Run one piece of work and note what it used."""
    command = [sys.executable, "-m", "tests.bench.child", *arguments]
    begun = time.perf_counter()
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - begun
    if done.returncode:
        raise SystemExit(f"{row.name} failed:\n{done.stderr}")  # noqa: EM102
    *told, used = [json.loads(line) for line in done.stdout.splitlines() if line[:1] == "{"]
    row.seconds.append(seconds)
    row.cpu.append(used["cpu"])
    row.memory.append(used["memory"])
    for each in told:
        row.said |= each


def chromium(row: Row, html: Path, to: Path, folder: Path) -> None:
    """Let headless Chromium print the same HTML."""
    program = (
        shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("chrome")
    )
    if program is None:
        return
    command = [program, *CHROMIUM, f"--user-data-dir={folder}", f"--print-to-pdf={to}"]
    begun = time.perf_counter()
    subprocess.run([*command, html.as_uri()], capture_output=True, check=True)
    row.seconds.append(time.perf_counter() - begun)


def compare(work: Path, rounds: int) -> dict[str, Row]:
    """Measure the example farm in every way, in turns."""
    names = {
        "one": "one document, one process (WeasyPrint, same sheets)",
        "chromium": "headless Chromium, same HTML",
        "cold": "(a) cold: every sheet drawn",
        "edited": "(b) one animal edited",
        "same": "(c) no change",
        "whole-cold": "    whole program, cold: from farm folder to print",
        "whole-edited": "    whole program, one animal edited",
        "whole-same": "    whole program, no change",
    }
    rows = {key: Row(name) for key, name in names.items()}
    farm, edited = farms.example(work / "farm"), farms.example(work / "edited")
    farms.heavier_sow(edited)
    unmeasured = Row("preparing")
    for name, folder in (("book", farm), ("edited-book", edited)):
        child(unmeasured, "book", str(folder), str(work / name))
    child(unmeasured, "html", str(work / "book"), str(work / "book.html"))
    out, html = work / "out", work / "book.html"
    out.mkdir()
    for turn in range(rounds):
        cache, second = str(work / f"cache-{turn}"), str(work / f"cache-{turn}-whole")
        child(rows["one"], "one", str(html), str(work / "one.pdf"))
        chromium(rows["chromium"], html, work / "chromium.pdf", work / "profile")
        child(rows["cold"], "sheets", str(work / "book"), str(out), cache)
        child(rows["same"], "sheets", str(work / "book"), str(out), cache)
        child(rows["edited"], "sheets", str(work / "edited-book"), str(out), cache)
        child(rows["whole-cold"], "whole", str(farm), str(out), second)
        child(rows["whole-same"], "whole", str(farm), str(out), second)
        child(rows["whole-edited"], "whole", str(edited), str(out), second)
        shutil.rmtree(cache)
        shutil.rmtree(second)
    return rows


def grow(work: Path, sizes: Sequence[int]) -> list[tuple[int, Row]]:
    """Measure farms of many times the example's pens, cold.

    A size that would not fit into this machine, going by the last two, is named and left out.
    """
    rows: list[tuple[int, Row]] = []
    for times in sizes:
        name = f"(e) {times} times the pens, whole program, cold"
        if len(rows) > 1 and (wanted := _expected_bytes(rows, times)) > _machine_bytes():
            say(f"{name:<58} left out: would need about {wanted / 1e9:.0f} GB of memory")
            continue
        farm, row = farms.many(work / f"farm-{times}", times), Row(name)
        out = work / f"out-{times}"
        out.mkdir()
        child(row, "beyond", str(farm), str(out), str(work / f"cache-{times}"))
        shutil.rmtree(work / f"cache-{times}")
        shutil.rmtree(out)
        say(f"{row.line()}   {row.said['pages']} pages")
        rows.append((times, row))
    return rows


def _expected_bytes(rows: Sequence[tuple[int, Row]], times: int) -> float:
    """Return the memory a larger farm would want, in a straight line through the last two."""
    (small, low), (large, high) = rows[-2:]
    step = (high.memory[0] - low.memory[0]) / (large - small)
    return high.memory[0] + step * (times - large)


def _machine_bytes() -> float:
    """Return most of this machine's memory: the rest is others'."""
    return 0.8 * os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")


def exponent(rows: Sequence[tuple[int, Row]]) -> float:
    """Return the slope of log time over log size, by least squares."""
    xs = [math.log(times) for times, _ in rows]
    ys = [math.log(row.middle) for _, row in rows]
    x, y = statistics.fmean(xs), statistics.fmean(ys)
    up = sum((a - x) * (b - y) for a, b in zip(xs, ys, strict=True))
    return up / sum((a - x) ** 2 for a in xs)


def ratio(name: str, got: float, aim: float) -> str:
    """Return one line of the summary."""
    return f"{name:<58} {got:7.3f}  aim {aim:g}: {'met' if got <= aim else 'NOT MET'}"


def whole_commands(work: Path, rounds: int) -> None:
    """Measure whole commands and print them, with what each is of one document's print."""
    found = commands.measure(work, rounds)
    say(f"\n{commands.HEAD}")
    for row in found.values():
        say("\n".join(row.lines()))


def site(work: Path, rounds: int) -> Row:
    """Measure the site alone."""
    row = Row("(f) site only")
    for turn in range(rounds):
        child(row, "site", str(work / "farm"), str(work / f"site-{turn}"))
    return row


def main() -> None:
    """Measure and print."""
    wanted = argparse.ArgumentParser(description=__doc__)
    wanted.add_argument("--quick", action="store_true", help="few rounds, small farms")
    wanted.add_argument("--commands", action="store_true", help="whole commands and no more")
    wanted.add_argument("--largest", type=int, default=SIZES[-1], help="times the pens")
    given = wanted.parse_args()
    rounds = 2 if given.quick else ROUNDS
    wanted_sizes = QUICK_SIZES if given.quick else SIZES
    sizes = [times for times in wanted_sizes if times <= given.largest]
    load = os.getloadavg()[0]
    say(f"{os.cpu_count()} processors, load {load:.1f} at the start, {rounds} rounds")
    with tempfile.TemporaryDirectory(prefix="binder-bench-") as name:
        work = Path(name)
        whole_commands(work, rounds)
        if given.commands:
            return
        season.tell_all()
        say(f"\n{HEAD}")
        rows = compare(work, rounds)
        for row in rows.values():
            if row.seconds:
                say(row.line())
        only_site = site(work, rounds)
        say(only_site.line())
        growth = grow(work, sizes)
    one = rows["one"].middle
    say(f"\n{'ratios of the middles':<58}")
    say(ratio("(a) cold / one document", rows["cold"].middle / one, AIMS["cold"]))
    say(
        ratio(
            "(b) one animal edited / one document", rows["edited"].middle / one, AIMS["edited"]
        )
    )
    say(ratio("(c) no change / one document", rows["same"].middle / one, AIMS["same"]))
    if rows["chromium"].seconds:
        share = rows["edited"].middle / rows["chromium"].middle
        say(ratio("(d) one animal edited / Chromium", share, AIMS["edited-chromium"]))
    say(ratio("(e) growth exponent, time over pens", exponent(growth), AIMS["growth"]))
    say(f"sheets drawn anew after the edit: {rows['edited'].said['drawn']}")


if __name__ == "__main__":
    main()
