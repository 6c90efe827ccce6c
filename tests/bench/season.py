"""How long a season takes: `python -m tests.bench.season`, processor time, one process each.

The aims are the project's own: the example through one year 2 s, ten years 12 s, fifty pens
through one year 8 s (measured with 56), and no more than 300 MB. Read and played, mends and
stays included; what every command does before (reading the farm, its figures) is told apart.
"""

from __future__ import annotations

import datetime as dt
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from binder.build import checked, figures_of
from binder.figures.season import Plans, for_farm
from binder.weather.read import Asked, read_text
from tests.bench.farms import example, many
from tests.weather_data import TM2, TMY3, text_of

ON = dt.date(2026, 6, 1)
ROUNDS = 3
# name: times the example's pens, years, aim [s]
RUNS = {"one year": (1, 1, 2.0), "ten years": (1, 10, 12.0), "56 pens": (8, 1, 8.0)}
MOST_MB = 300.0
KB_PER_MB = 1024 if sys.platform != "darwin" else 1024 * 1024


def one(times: int, years: int) -> None:
    """Play a farm and print what it took: before [s], the season [s], memory [MB]."""
    with tempfile.TemporaryDirectory() as work:
        folder = (
            example(Path(work) / "farm") if times == 1 else many(Path(work) / "farm", times)
        )
        began = time.process_time()
        owner, farm = checked(folder, ON)
        figures = figures_of(owner, farm, ON)
    before = time.process_time()
    asked = Asked("America/New_York", ON.year, ON)
    names = [(TMY3, TM2)[year % 2] for year in range(years)]
    records = [read_text(text_of(name), name, asked) for name in names]
    plans = Plans(figures.plan, figures.stays, figures.wallows, figures.hoses)
    for_farm(farm, figures.herd, plans, records)
    took = time.process_time() - before
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / KB_PER_MB
    sys.stdout.write(f"{before - began:.2f} {took:.2f} {memory:.0f}\n")


def main() -> None:
    """Play one farm where numbers say which, else each case in a process of its own."""
    if len(sys.argv) > 1:
        one(int(sys.argv[1]), int(sys.argv[2]))
        return
    tell_all()


def tell_all() -> None:
    """Measure each case of `RUNS` and print it."""
    for name, (times, years, aim) in RUNS.items():
        found = []
        for _ in range(ROUNDS):
            typed = (sys.executable, "-m", "tests.bench.season", str(times), str(years))
            done = subprocess.run(typed, check=True, capture_output=True, text=True)
            found.append([float(each) for each in done.stdout.split()])
        before, took, memory = (median(column) for column in zip(*found, strict=True))
        met = "met" if took <= aim and memory <= MOST_MB else "NOT MET"
        sys.stdout.write(
            f"{name:<12} {took:6.2f} s (aim {aim:g}), {memory:4.0f} MB (aim {MOST_MB:g}), "
            f"farm and figures before {before:.2f} s: {met}\n"
        )


if __name__ == "__main__":
    main()
