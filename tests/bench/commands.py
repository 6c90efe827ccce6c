"""Measures whole commands, as the owner waits for them, with their parts beneath.

Counted is processor time, that of the drawing processes too: on a busy machine it moves less
than the clock. Compiled modules are kept between runs, as an installed program keeps them.
"""

from __future__ import annotations

import json
import os
import shutil
import statistics
import subprocess
import sys
import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tests.bench import farms

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

DAY = ("--date", "2026-06-01")
COLD, EDITED, SAME, ALONE = "cold", "one animal edited", "no change", "stay pack alone, cold"
SITE, CHECK, SEASON, FIGURE, HELP = "site only", "check", "season", "figure", "--help"
AIMS_S = {ALONE: 4.0, SITE: 1.0, CHECK: 0.8, FIGURE: 0.3, HELP: 0.3}  # the project's own
_TYPED = ("figure", "heat-index", "temperature=96F", "humidity=65%")


@dataclass
class Command:
    """What several runs of one command used, the parts of the first beneath it."""

    name: str
    cpu: list[float] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    parts: dict[str, float] = field(default_factory=dict)

    @property
    def middle(self) -> float:
        """Return the median processor time [s]."""
        return statistics.median(self.cpu)

    def lines(self) -> list[str]:
        """Return the row as printed, its parts indented below."""
        spread = f"{min(self.cpu):.2f} to {max(self.cpu):.2f}"
        aim = AIMS_S.get(self.name)
        said = ""
        if aim is not None:
            said = f"  aim {aim:g}: {'met' if self.middle <= aim else 'NOT MET'}"
        row = f"{self.name:<30} {self.middle:7.2f}  {spread:<16}"
        row += f" {statistics.median(self.seconds):7.2f}{said}"
        return [row, *(f"    {name:<26} {cpu:7.2f}" for name, cpu in self.parts.items())]


HEAD = f"{'whole command':<30} {'cpu s':>7}  {'least to most':<16} {'s':>7}"


def measure(work: Path, rounds: int) -> dict[str, Command]:
    """Run every command so many times, in turns."""
    farm, edited = farms.example(work / "whole"), farms.example(work / "whole-edited")
    farms.heavier_sow(edited)
    found = {
        name: Command(name)
        for name in (COLD, SAME, EDITED, ALONE, SITE, CHECK, SEASON, FIGURE, HELP)
    }
    for turn in range(rounds):
        out, cache = work / f"whole-out-{turn}", work / f"whole-cache-{turn}"
        to = ("--to", str(out), *DAY)
        runs: dict[str, tuple[str, ...]] = {
            COLD: ("build", str(farm), *to),
            SAME: ("build", str(farm), *to),
            EDITED: ("build", str(edited), *to),
            SITE: ("build", str(farm), *to, "--site-only"),
            CHECK: ("check", str(farm)),
            SEASON: ("season", str(farm), *DAY),
            FIGURE: _TYPED,
            HELP: ("--help",),
        }
        for name, typed in runs.items():
            run(found[name], typed, cache)
            say(found[name], turn)
        shutil.rmtree(cache)
        run(found[ALONE], ("build", str(farm), *to, "--stay", "july"), cache)
        say(found[ALONE], turn)
        for made in (cache, out):
            shutil.rmtree(made)
    for at, (name, folder) in enumerate(((COLD, farm), (SAME, farm), (EDITED, edited))):
        found[name].parts = parts(folder, work / f"parts-{at}", work / "parts-cache")
    return found


def say(row: Command, turn: int) -> None:
    """Tell what the last run used, as soon as it is known: all of them take minutes."""
    sys.stderr.write(f"round {turn + 1}: {row.name} {row.cpu[-1]:.2f}\n")


def run(row: Command, typed: Sequence[str], cache: Path) -> None:
    """Run `binder` once and note what it and its processes used."""
    command = [sys.executable, "-P", "-m", "binder", *typed]
    begun = time.perf_counter()
    with subprocess.Popen(
        command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=_apart(cache)
    ) as child:
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        raise SystemExit(f"{' '.join(typed)} ended with {child.returncode}")  # noqa: EM102
    row.seconds.append(time.perf_counter() - begun)
    row.cpu.append(used.ru_utime + used.ru_stime)


def parts(farm: Path, out: Path, cache: Path) -> dict[str, float]:
    """Return the processor seconds of each step of a build."""
    command = [sys.executable, "-m", "tests.bench.child", "parts", str(farm), str(out)]
    done = subprocess.run(
        [*command, str(cache)], capture_output=True, text=True, check=True, env=_apart(cache)
    )
    told: dict[str, float] = json.loads(done.stdout.splitlines()[0])
    return told


def _apart(cache: Path) -> Mapping[str, str]:
    """Return the surroundings of a run that keeps its drawn sheets in a folder of its own."""
    kept = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"XDG_CACHE_HOME": str(cache)}
