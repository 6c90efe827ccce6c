"""How soon the home page stands on a phone whose processor is slowed four times.

    .venv/bin/python -m tests.bench.slow_phone

Site and phone file of the example farm are opened from the disk in a real Chromium, on a small
screen, its processor throttled by the browser's own protocol. Aim: one second, of the project's
own plan. Stands: the browser's first contentful paint, and the end of loading, when the scripts
have run and the finder answers.
"""

from __future__ import annotations

import os
import shutil
import statistics
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.browser.conftest import EXAMPLE, PHONE, build_screens

SLOWED, ROUNDS, AIM_MS = 4, 7, 1000
LOADED = "performance.getEntriesByType('navigation')[0].loadEventEnd"
TIMES = """() => {
  const [page] = performance.getEntriesByType("navigation");
  const [paint] = performance.getEntriesByName("first-contentful-paint");
  return [paint.startTime, page.loadEventEnd];
}"""


def main() -> None:
    """Build, open, measure, print."""
    program = os.environ.get("BINDER_CHROMIUM") or shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as started:
        built = build_screens(EXAMPLE, Path(folder))
        browser = started.chromium.launch(executable_path=program, args=["--no-sandbox"])
        for name, address in (("site", built.url("index")), ("phone file", built.phone)):
            seen = []
            for _ in range(ROUNDS):
                context = browser.new_context(
                    viewport={"width": PHONE["width"], "height": PHONE["height"]},
                    has_touch=True,
                    is_mobile=True,
                )
                page = context.new_page()
                protocol = context.new_cdp_session(page)
                protocol.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
                page.goto(address)
                page.wait_for_function(
                    "performance.getEntriesByType('navigation')[0].loadEventEnd"
                )
                seen.append(page.evaluate(TIMES))
                context.close()
            paint, loaded = (statistics.median(times) for times in zip(*seen, strict=True))
            worst = max(times[1] for times in seen)
            sys.stdout.write(
                f"{name}, slowed {SLOWED} times, middle of {ROUNDS}: painted {paint:.0f} ms,"
                f" ready {loaded:.0f} ms, worst {worst:.0f} ms; aim {AIM_MS}\n"
            )
        browser.close()


if __name__ == "__main__":
    main()
