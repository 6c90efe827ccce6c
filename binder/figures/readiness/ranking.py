"""Readiness: everything the farm lacks, worst first (step 3)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TYPE_CHECKING

from binder.figures import published
from binder.figures.readiness import company, records, shortfalls
from binder.figures.stays.stay_load import HOT

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from binder.figures.finding import Finding
    from binder.figures.results import Results
    from binder.figures.season import Season

RULES, MENDS = "readiness_rules", "mend_findings"
STOCK = ("short", "not-counted", "stock-unknown")  # findings about the feed for a stay
TODAY = {"drinkers": "drinkers-short", "slow": "drinkers-slow"}  # the same on the binder's day


class Severity(IntEnum):
    """How soon a shortfall hurts an animal once it is hot; the worst is the smallest."""

    HOURS = 0
    DAY = 1
    WEEK = 2
    SEASON = 3

    @property
    def key(self) -> str:
        """Return the key in words and at the command line: `hours`."""
        return self.name.lower()


@dataclass(frozen=True, slots=True)
class Shortfall:
    """One shortfall with how soon it hurts.

    The words: what is wrong and the fix under `AREA-findings: KEY`, in a stay the fix under
    `stay-fixes: KEY`; what mending it changes under `readiness-effects: AREA: KEY`.
    """

    severity: Severity
    finding: Finding


def line_of(found: Finding) -> tuple[int, Shortfall]:
    """Return a finding as a line, and the row it is ranked by.

    Raises:
        MissingRowError: no severity stands in `readiness_rules.csv` for it.
    """
    row = published.row(RULES, area=found.area, key=found.key)
    order = published.rows(RULES).index(row)
    return order, Shortfall(Severity[row.text("severity").upper()], found)


def ranked(findings: Iterable[Finding], season: Season | None = None) -> tuple[Shortfall, ...]:
    """Return findings as lines, worst first; equal ones in the order of the table.

    Where the farm has weather, those of one severity stand first that would have saved most.

    Args:
        findings: in any order.
        season: the farm played through its weather files, None without any.
    """
    saved = _saved(season)
    lines = sorted((line_of(found) for found in findings), key=lambda line: line[0])

    def order(line: tuple[int, Shortfall]) -> tuple[Severity, float, float]:
        animal_h, looks = _saves(line[1].finding, saved)
        return line[1].severity, -animal_h, -looks

    return tuple(line for _, line in sorted(lines, key=order))


def _saved(season: Season | None) -> Mapping[tuple[str, str], tuple[float, float]]:
    """Return what each mend of a season saves, by its key and subject."""
    if season is None:
        return {}
    return {
        (mend.key, mend.subject): worth.rank for worth in season.worths for mend in worth.mends
    }


def _saves(
    found: Finding, saved: Mapping[tuple[str, str], tuple[float, float]]
) -> tuple[float, float]:
    """Return what mending a shortfall saves: animal-hours and looks; nought where unknown."""
    if not saved:
        return 0.0, 0.0
    mends = [
        row.text("mend")
        for row in published.rows(MENDS)
        if (row.text("area"), row.text("key")) == (found.area, found.key)
    ]
    pens = found.subject.split()
    return max(
        (saved.get((mend, pen), (0.0, 0.0)) for mend in mends for pen in pens),
        default=(0.0, 0.0),
    )


def lines_of(figures: Results) -> tuple[Shortfall, ...]:
    """Return every shortfall of the farm, worst first."""
    return ranked(findings_of(figures), figures.season)


def findings_of(figures: Results) -> Iterator[Finding]:
    """Yield every shortfall in figures and records, and where plans of stays do not hold.

    Of a stay's days the hot one counts, as everywhere in the binder.
    """
    for part in (figures.feed, figures.shade, figures.air, figures.power):
        yield from part.findings
    watered = tuple(shortfalls.of_water(figures))
    yield from watered
    yield from shortfalls.of_hoses(figures)
    yield from shortfalls.of_wallows(figures)
    yield from shortfalls.of_bleach(figures)
    yield from company.of_company(figures)
    yield from company.of_stays(figures)
    yield from records.of_people(figures)
    yield from records.of_farm(figures)
    yield from records.of_animals(figures)
    yield from _of_stays(figures, {(each.key, each.subject) for each in watered})


def _of_stays(figures: Results, told: set[tuple[str, str]]) -> Iterator[Finding]:
    """Yield what is wrong in stays only: drinkers short today are told once, and so is feed."""
    bins: set[str] = set()
    for key, check in figures.stay_checks.items():
        for found in (*check.always, *check.before, *check.by_load.get(HOT, ())):
            pens = str(dict(found.values).get("pens", ""))
            if (TODAY.get(found.key, ""), pens) not in told:
                yield found
        for found in figures.stays[key].feed.findings:
            if found.key in STOCK and found.subject not in bins:
                bins.add(found.subject)
                yield found
