"""Clocks: set back, odd time zones, the days they change, leap days."""

from __future__ import annotations

import datetime as dt
import os
from typing import TYPE_CHECKING

from binder.build import book_of
from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import every, work_out
from binder.output.handed import ledger_file
from binder.problems import ProblemsError
from tests.proof import judge
from tests.proof.mutant import Mutant, dumped, plain, write
from tests.proof.sandbox import sandbox

if TYPE_CHECKING:
    from pathlib import Path

    from binder.yamlfile import Plain

# Zones with clocks that change at odd hours, by odd amounts, or not at all; a place in each.
PLACES = (
    ("America/New_York", 31.55, -82.12), ("America/Phoenix", 33.4, -112.0),
    ("Australia/Lord_Howe", -31.55, 159.08), ("Australia/Adelaide", -34.9, 138.6),
    ("Asia/Kathmandu", 27.7, 85.3), ("Pacific/Chatham", -43.9, -176.5),
    ("Pacific/Apia", -13.8, -171.8), ("Pacific/Kiritimati", 1.9, -157.4),
    ("Africa/Casablanca", 33.6, -7.6), ("America/Havana", 23.1, -82.4), ("UTC", 0.0, 0.0),
)  # fmt: skip
# Days on which clocks change in the Americas, Europe, Australia; ends of years; leap days.
DAYS = (
    "2026-03-08", "2026-11-01", "2026-03-29", "2026-10-25", "2026-04-05", "2026-10-04",
    "2026-12-31", "2027-01-01", "2028-02-29", "2100-02-28",
)  # fmt: skip


def changing_days(
    folder: Path, places: tuple[tuple[str, float, float], ...] = PLACES
) -> list[str]:
    """Compose the example farm in each place on each of the days; return what went wrong."""
    found = []
    for zone, latitude, longitude in places:
        about = plain("farm.yaml")
        spot: dict[str, Plain] = {
            "latitude": f"{latitude}", "longitude": f"{longitude}", "timezone": zone,
        }  # fmt: skip
        if isinstance(about, dict):
            about["place"] = spot
        write(Mutant("clocks", zone, {"farm.yaml": dumped(about)}), folder)
        for day in DAYS:
            try:
                book = book_of(folder, dt.date.fromisoformat(day))
            except ProblemsError as error:
                found.append(f"{zone} on {day}: {error}")
                continue
            found += [f"{zone} on {day}: {fault}" for fault in judge.faults_of_book(book)]
    return found


def leap_births(folder: Path) -> list[str]:
    """Compose with animals born, bred and farrowed on a leap day, which the due day counts."""
    animals: list[Plain] = [
        {"name": "Leap", "species": "pig", "sex": "sow", "born": "2024-02-29", "pen": "creek",
         "weight": "400 lb", "bred": "2028-02-29"},
        {"name": "Day", "species": "goat", "sex": "doe", "born": "2020-02-29",
         "pen": "goat-lot", "weight": "100 lb", "farrowed": "2028-02-29"},
    ]  # fmt: skip
    write(Mutant("clocks", "leap", {"animals.yaml": dumped(animals)}), folder)
    found = []
    for day in ("2028-02-29", "2028-03-01", "2029-02-28", "2029-03-01"):
        book = book_of(folder, dt.date.fromisoformat(day))
        found += [f"leap births on {day}: {fault}" for fault in judge.faults_of_book(book)]
    figures = every(work_out(check(read_folder(folder)), dt.date(2028, 3, 1)))
    due = {figure.subject: figure.value for figure in figures if figure.name == "due-date"}
    real = {
        "Leap": "2028-06-23"
    }  # 115 days (husbandry-66): 1 + 31 + 30 + 31 + 22 in a calendar
    return found + ([] if due == real else [f"leap births: due {due}, not {real}"])


def set_back(root: Path) -> list[str]:
    """Build and hand over with a clock that went back, among files from the future."""
    here = sandbox(root)
    found = []
    for day in ("2026-07-15", "2026-06-01", "2025-12-31"):
        code, said = here.run(*here.giving("Dana", day))
        found += [f"hand-over on {day}: {said[-400:]}"] if code or "Traceback" in said else []
        code, said = here.build(day)
        found += [f"build on {day}: {said[-400:]}"] if code else []
    future = dt.datetime(2099, 1, 1, tzinfo=dt.UTC).timestamp()
    for path in (*here.out.rglob("*"), *here.farm.rglob("*"), here.out, here.farm):
        os.utime(path, (future, future))
    code, said = here.build("2026-06-01")
    found += [f"build among files of the future: {said[-400:]}"] if code else []
    for epoch, right in (("1767225600", 0), ("-1", None), ("x", 2), ("9" * 30, 2)):
        code, said = here.run(*here.building("")[:-2], SOURCE_DATE_EPOCH=epoch)
        if "Traceback" in said or (right is not None and code != right):
            found.append(f"SOURCE_DATE_EPOCH={epoch}: {code} {said[-400:]}")
    for day, right in (("0001-01-01", 1), ("9999-12-31", 1), ("2026-02-30", 2), ("now", 2)):
        code, said = here.build(day)
        if "Traceback" in said or code not in {0, right}:
            found.append(f"--date {day}: {code} {said[-400:]}")
    kept = len(ledger_file.load(here.farm).hand_overs)
    return found + ([] if kept == 3 else [f"the ledger holds {kept} hand-overs, not 3"])
