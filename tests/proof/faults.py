"""Does harm while binders are written: `python -m tests.proof.faults`. Ends with 1 if it shows.

Kills builds and hand-overs, fills disks, forbids writing, starts two at once, sets clocks back.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

from tests.proof import clocks, disks, kills
from tests.proof.sandbox import sandbox

if TYPE_CHECKING:
    from collections.abc import Callable

KILLED_BUILDS, KILLED_HAND_OVERS = 140, 60
SEED = 20260601


def main() -> int:
    """Do all of it and say what came of each."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--builds", type=int, default=KILLED_BUILDS)
    asked.add_argument("--hand-overs", type=int, default=KILLED_HAND_OVERS)
    asked.add_argument("--seed", type=int, default=SEED)
    asked.add_argument("--only", help="the trials whose name holds this")
    given = asked.parse_args()
    trials: dict[str, Callable[[Path], list[str] | None]] = {
        f"{given.builds} builds killed": lambda at: kills.builds(at, given.builds, given.seed),
        f"{given.hand_overs} hand-overs killed": lambda at: kills.hand_overs(
            at, given.hand_overs, given.seed
        ),
        "two at once": lambda at: kills.at_once(sandbox(at)),
        "disk full while building": disks.full_build,
        "disk full while handing over": disks.full_hand_over,
        "folders that may only be read": disks.read_only,
        f"{len(clocks.PLACES)} places on {len(clocks.DAYS)} days": lambda at: (
            clocks.changing_days(at / "farm")
        ),
        "leap-day births": lambda at: clocks.leap_births(at / "farm"),
        "clock set back": clocks.set_back,
    }
    failed = 0
    for name, trial in trials.items():
        if given.only and given.only not in name:
            continue
        began = time.monotonic()
        with tempfile.TemporaryDirectory(prefix="binder-faults-") as root:
            found = trial(Path(root))
        came = "not tried: needs root" if found is None else "FAILED" if found else "held"
        sys.stdout.write(f"{name:34} {came} ({time.monotonic() - began:.0f} s)\n")
        for fault in (found or [])[:10]:
            sys.stdout.write(f"    {fault}\n")
        sys.stdout.flush()
        failed += bool(found)
    return bool(failed)


if __name__ == "__main__":
    sys.exit(main())
