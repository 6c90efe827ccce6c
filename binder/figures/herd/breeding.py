"""Breeding: stage on a date, due date and window, return checks, weaning, boars after heat."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from binder.figures.entry import Argument, Entry
from binder.figures.figure import Figure, NotPublishedError, merge_sources, step
from binder.figures.published import Row, row, rows
from binder.science import gestation as pregnancy
from binder.units import Amount

Due = tuple[str, dt.date, dt.date]


BIRTHS = ("farrowing", "kidding", "lambing", "calving", "foaling", "kindling", "whelping")
OVERDUE = "overdue"
EXPECTED = (*BIRTHS, OVERDUE)  # young may come on any of these days
WATCH = "labor watch"


@dataclass(frozen=True, slots=True)
class Stage:
    """Where a mother (or a weaned youngster) stands on a date.

    Attributes:
        state: `late`, `bred`, `nursing`, `dry`, `weaned` (a young animal), or empty.
        since: mating while `late` or `bred`, the birth while `nursing`, else None.
        expected: the birth was not recorded; it is taken to have come on the due date.
        sources: of the limits that decided.
    """

    state: str = ""
    since: dt.date | None = None
    expected: bool = False
    sources: tuple[str, ...] = ()

    def day(self, on: dt.date) -> int:
        """Return days since mating or birth [days], 0 where there is neither."""
        return (on - self.since).days if self.since else 0


@dataclass(frozen=True, slots=True)
class Records:
    """The breeding dates of one animal as the owner wrote them; None where not recorded."""

    bred: dt.date | None = None
    farrowed: dt.date | None = None
    weaned: dt.date | None = None
    litter: int | None = None

    def on(self, date: dt.date) -> Records:
        """Return what has happened by `date`: entries about later days are left out."""
        bred, farrowed, weaned = (
            day if day is not None and day <= date else None
            for day in (self.bred, self.farrowed, self.weaned)
        )
        if bred is not None and farrowed is not None and bred < farrowed:
            bred = None  # that mating led to this birth
        return Records(bred, farrowed, weaned, self.litter)


def stage(species: str, on: dt.date, records: Records) -> Stage:
    """Return the stage of an animal of `species` on the day `on`.

    A mating without a recorded birth counts as a pregnancy to the last day of the window; after
    it the birth is expected to have come on the due date, so that a binder printed ahead shows
    the sow with her litter. Species without a published gestation have no stage.
    """
    limits = gestation(species)
    if limits is None:
        return Stage()
    past = records.on(on)
    nursing = _nursing(limits, on, past.farrowed, past)
    if past.bred is not None:
        return _after_mating(limits, on, past, nursing=nursing)
    if past.farrowed is not None:
        state = "nursing" if nursing else "dry"
        return Stage(state, past.farrowed if nursing else None, sources=limits.sources)
    return Stage("weaned") if past.weaned is not None else Stage()


def _after_mating(limits: Row, on: dt.date, past: Records, *, nursing: bool) -> Stage:
    assert past.bred is not None  # noqa: S101 -- asked for only after a mating
    day = pregnancy.day_of_gestation(past.bred, on)
    if nursing and limits.has("nurses_while_bred"):
        return Stage("nursing", past.farrowed, sources=limits.sources)
    if day <= limits.number("last"):
        late = limits.has("late_from") and day >= limits.number("late_from")
        return Stage("late" if late else "bred", past.bred, sources=limits.sources)
    birth = pregnancy.due_date(past.bred, int(limits.number("days")))
    if _nursing(limits, on, birth, Records(weaned=past.weaned)):
        return Stage("nursing", birth, expected=True, sources=limits.sources)
    return Stage("dry", expected=True, sources=limits.sources)


def _nursing(limits: Row, on: dt.date, birth: dt.date | None, past: Records) -> bool:
    if birth is None or past.litter == 0:
        return False
    if past.weaned is not None and past.weaned >= birth:
        return False
    return (on - birth).days < limits.number("nursing_days")


def gestation(species: str) -> Row | None:
    """Return the row of published gestation of `species`, None where none is published."""
    found = [limits for limits in rows("gestation") if limits.text("species") == species]
    return found[0] if found else None


def last_day(species: str, bred: dt.date) -> dt.date:
    """Return the last day on which young may come after a mating, the mating where unknown."""
    limits = gestation(species)
    days = int(limits.number("last")) if limits else 0
    return pregnancy.due_date(bred, days)


def dates_due(species: str, on: dt.date, stage_on: Stage) -> tuple[Due, ...]:
    """Return what falls due from the stage on, by first day: (event, first day, last day).

    What is over on the day `on` is left out. A birth is due, and labor watched for, to the day
    before it is overdue: one day is never called both.
    """
    after = {"late": "bred", "bred": "bred", "nursing": "farrowed"}.get(stage_on.state)
    if after is None or stage_on.since is None:
        return ()
    found = [
        (event.text("event"), *_span(event, stage_on.since))
        for event in rows("breeding_events")
        if event.text("species") == species and event.text("after") == after
    ]
    ahead = [due for due in _until_overdue(found) if due[2] >= on]
    return tuple(sorted(ahead, key=lambda due: due[1]))


def _until_overdue(events: list[Due]) -> list[Due]:
    late = [first for event, first, _ in events if event == OVERDUE]
    if not late:
        return events
    end = late[0] - dt.timedelta(days=1)
    return [
        (event, first, min(last, end) if event in (*BIRTHS, WATCH) else last)
        for event, first, last in events
    ]


def _span(event: Row, since: dt.date) -> tuple[dt.date, dt.date]:
    return pregnancy.due_window(since, int(event.number("first")), int(event.number("last")))


def due_date(species: str, bred: dt.date, subject: str = "") -> Figure:
    """Return the day a birth is due, with its window.

    Args:
        species: as in animals.yaml.
        bred: day of the first service.
        subject: the mother's name.

    Raises:
        NotPublishedError: no gestation length was read for the species.

    References:
        husbandry-66 (pig: 115 days, normal 111-120); husbandry-71 (sheep, cattle);
        husbandry-76 (goat).
    """
    limits = gestation(species)
    if limits is None:
        known = ", ".join(each.text("species") for each in rows("gestation"))
        message = (
            f"no gestation length is published here for {species}; there is one for {known}"
        )
        raise NotPublishedError(message)
    days, from_day, to_day = (int(limits.number(name)) for name in ("days", "first", "last"))
    due = pregnancy.due_date(bred, days)
    first, last = pregnancy.due_window(bred, from_day, to_day)
    working = (
        step("due", bred=bred.isoformat(), days=days, due=due.isoformat()),
        step("window", first=first.isoformat(), last=last.isoformat(),
             from_day=from_day, to_day=to_day),
    )  # fmt: skip
    return Figure("due-date", due.isoformat(), working, limits.sources, subject=subject)


def return_check(bred: dt.date, subject: str = "") -> Figure:
    """Return the first day to look whether a mated sow comes back on heat.

    Args:
        bred: day of mating.
        subject: the sow's name.

    References:
        husbandry-68: cycle 21 days (18-24); the second look one cycle on is derived.
    """
    check = row("breeding_events", species="pig", event="return check")
    again = row("breeding_events", species="pig", event="return recheck")
    first, last = _span(check, bred)
    second_first, second_last = _span(again, bred)
    working = (
        step("check", bred=bred.isoformat(), first=first.isoformat(), last=last.isoformat()),
        step("recheck", first=second_first.isoformat(), last=second_last.isoformat()),
    )
    sources = merge_sources(check.sources, again.sources)
    return Figure("return-check", first.isoformat(), working, sources, subject=subject)


def weaning(farrowed: dt.date, subject: str = "") -> Figure:
    """Return the earliest day piglets may be weaned.

    Args:
        farrowed: day of farrowing.
        subject: the sow's name.

    References:
        husbandry-79: 28 days is a legal floor; 49 days in organic herds.
    """
    event = row("breeding_events", species="pig", event="weaning")
    first, last = _span(event, farrowed)
    working = (
        step("earliest", farrowed=farrowed.isoformat(), days=int(event.number("first")),
             first=first.isoformat()),
        step("latest", days=int(event.number("last")), last=last.isoformat()),
    )  # fmt: skip
    return Figure("weaning", first.isoformat(), working, event.sources, subject=subject)


def boar_fertility(hot_spell_ended: dt.date, subject: str = "") -> Figure:
    """Return the day until which a boar's matings may fail after a hot spell.

    Args:
        hot_spell_ended: the last hot day.
        subject: the boar's name.

    References:
        husbandry-94: up to eight weeks; heat-36 and husbandry-69 print five to six.
    """
    limits = row("hot_spell")
    weeks = limits.number("boar_weeks")
    until = hot_spell_ended + dt.timedelta(weeks=weeks)
    working = (
        step("until", ended=hot_spell_ended.isoformat(), weeks=Amount(weeks, "count"),
             until=until.isoformat()),
        step("spell", days=Amount(limits.number("harmful_days"), "count")),
    )  # fmt: skip
    return Figure("boar-fertility", until.isoformat(), working, limits.sources, subject=subject)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "due-date",
        (
            Argument(
                "species",
                "text",
                choices=tuple(each.text("species") for each in rows("gestation")),
            ),
            Argument("bred", "date"),
        ),
        due_date,
    ),
    Entry("return-check", (Argument("bred", "date"),), return_check),
    Entry("weaning", (Argument("farrowed", "date"),), weaning),
    Entry("boar-fertility", (Argument("hot_spell_ended", "date"),), boar_fertility),
)
