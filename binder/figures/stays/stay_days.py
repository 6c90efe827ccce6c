"""The days of a stay: sun, who is of which class, what changes, what is due (step 3)."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY
from binder.figures.bleach.bleach_age import bleach_strength
from binder.figures.bleach.mixes import BLEACH
from binder.figures.day.farm_day import position_of
from binder.figures.figure import NotPublishedError
from binder.figures.herd import groups as herds
from binder.figures.herd.breeding import BIRTHS, EXPECTED, WATCH
from binder.figures.rounds.pen_care import WAITS, refill_of
from binder.figures.rounds.visits import RULES
from binder.figures.rules import rule
from binder.figures.weather.sun_times import NoDayError, day_times

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from binder.farm.model import Farm, Stay
    from binder.figures.herd.groups import Group, Herd
    from binder.figures.weather.sun_times import Position, SunTimes

ONE_DAY = dt.timedelta(days=1)
QUIET = ("late gestation",)  # a stage of the mother, nothing to do
WEANING = "weaning"
OWNERS = ("move to farrowing", WEANING)  # never a sitter's work
DAILY = EXPECTED  # told on each of their days
WALLOW, FLOW_TEST, FAN, BLEACH_OLD = "wallow", "flow-test", "fan", "bleach-old"


@dataclass(frozen=True, slots=True)
class Living:
    """An animal or group on a day: class, head, pen id and weight [kg], None where unknown."""

    name: str
    cls: str
    count: int
    pen: str | None
    weight_kg: float | None


@dataclass(frozen=True, slots=True)
class NewClass:
    """An animal or group that is of another class than the day before."""

    name: str
    before: str
    now: str


@dataclass(frozen=True, slots=True)
class Due:
    """Something that falls due in a stay.

    Attributes:
        key: an event of `breeding_events.csv`, or `wallow`, `flow-test`, `fan`, `bleach-old`;
            the words stand under `stay: due:`.
        who: the animal's name, or the id of the wallow, fan or product; empty for the farm.
        pen: pen id, None where it is about no pen.
        first, last: its days; the same where it is one.
    """

    key: str
    who: str
    pen: str | None
    first: dt.date
    last: dt.date

    @property
    def is_birth(self) -> bool:
        """Return whether young are born."""
        return self.key in BIRTHS


@dataclass(frozen=True, slots=True)
class StayDay:
    """One day of a stay.

    Attributes:
        on: the date.
        sunrise_h, sunset_h: on the local clock [h]; None where the farm has no position, and
            on a date on which the sun does not rise and set.
        living: every animal and group of that day.
        changes: who is of another class than the day before; none on the first day.
        due: what begins on this day, on the first day also what is under way; births on each
            of their days, until an overdue one takes their place.
    """

    on: dt.date
    sunrise_h: float | None
    sunset_h: float | None
    living: tuple[Living, ...]
    changes: tuple[NewClass, ...]
    due: tuple[Due, ...]


def classes(farm: Farm, on: dt.date) -> tuple[str, ...]:
    """Return the classes of a farm's herd at the end of each stay that is not over."""
    lasts = sorted({stay.last for stay in farm.stays if stay.last >= on})
    return tuple(
        dict.fromkeys(cls for day in lasts for cls in herds.for_farm(farm, day).classes)
    )


def dated(herd: Herd, days: Iterable[StayDay]) -> Herd:
    """Return a herd whose animals have the dates that fall into any of these days."""
    found: dict[str, dict[tuple[str, dt.date, dt.date], None]] = {}
    for due in (due for day in days for due in day.due):
        found.setdefault(due.who, {})[due.key, due.first, due.last] = None
    groups = tuple(
        replace(group, dates=tuple(found.get(group.animal.called, ()))) for group in herd.groups
    )
    return replace(herd, groups=groups)


def days_of(farm: Farm, stay: Stay) -> tuple[StayDay, ...]:
    """Return the days of a stay, first to last."""
    position = position_of(farm)
    # Each once, in an order of its own: two builds of one farm must give the same bytes.
    once = dict.fromkeys((*_chores(farm, stay), *_parted(tuple(_events(farm, stay)))))
    all_due = sorted(once, key=lambda due: due.first)
    found: list[StayDay] = []
    for number in range(length(stay)):
        on = stay.first + number * ONE_DAY
        living = tuple(_living(group) for group in herds.for_farm(farm, on).groups)
        sun = None if position is None else _sun(position, on)
        found.append(
            StayDay(
                on=on,
                sunrise_h=sun.sunrise_h if sun else None,
                sunset_h=sun.sunset_h if sun else None,
                living=living,
                changes=_changes(found[-1].living, living) if found else (),
                due=tuple(due for due in all_due if _shows(due, on, stay)),
            )
        )
    return tuple(found)


def _sun(position: Position, on: dt.date) -> SunTimes | None:
    """Return the sun's times; None where it does not rise and set: the day is told without."""
    try:
        return day_times(position, on)
    except NoDayError:
        return None


def length(stay: Stay) -> int:
    """Return the days of a stay, both ends counted [days]."""
    return (stay.last - stay.first).days + 1


def births_in(days: Iterable[StayDay]) -> tuple[Due, ...]:
    """Return the births that may fall into days: one for each mother."""
    found: dict[str, Due] = {}
    for due in (due for day in days for due in day.due if due.key in EXPECTED):
        found.setdefault(due.who, due)
    return tuple(found.values())


def _shows(due: Due, on: dt.date, stay: Stay) -> bool:
    if due.key in DAILY:
        return due.first <= on <= due.last
    return on == max(due.first, stay.first)


def _parted(events: Sequence[Due]) -> Iterator[Due]:
    """Yield events; the watch for labor ends where the days of the birth begin."""
    births = {due.who: due.first for due in events if due.is_birth}
    for due in events:
        if due.key != WATCH or due.who not in births:
            yield due
        elif due.first < births[due.who]:
            yield replace(due, last=min(due.last, births[due.who] - ONE_DAY))


def _living(group: Group) -> Living:
    return Living(group.animal.called, group.cls, group.count, group.pen, group.weight_kg)


def _changes(before: tuple[Living, ...], now: tuple[Living, ...]) -> tuple[NewClass, ...]:
    was = {each.name: each.cls for each in before}
    return tuple(
        NewClass(each.name, was[each.name], each.cls)
        for each in now
        if was.get(each.name, each.cls) != each.cls
    )


def _events(farm: Farm, stay: Stay) -> Iterator[Due]:
    """Yield what the breeding dates bring in the stay, as known on its first day."""
    known: Herd = herds.for_farm(farm, stay.first)
    for group in known.groups:
        for event, first, last in group.dates:
            if event not in QUIET and first <= stay.last:
                yield Due(event, group.animal.called, group.pen, first, last)


def _chores(farm: Farm, stay: Stay) -> Iterator[Due]:
    yield from _refreshes(farm, stay)
    weekly = rule(RULES, "flow test every", "time")
    for on in _repeated(farm.about.last_flow_test, weekly.value / HOURS_IN_DAY, stay):
        yield Due(FLOW_TEST, "", None, on, on)
    yield from _fans(farm, stay)
    yield from _bleach(farm, stay)


def _repeated(last: dt.date | None, every_days: float, stay: Stay) -> Iterator[dt.date]:
    """Yield the days something is due: at once where late or unknown, then every so often."""
    step = dt.timedelta(days=every_days)
    on = stay.first if last is None else max(stay.first, last + step)
    while on <= stay.last:
        yield on
        on += step


def _refreshes(farm: Farm, stay: Stay) -> Iterator[Due]:
    """Yield the day each wallow is drained and filled: once a week, one that is late at once.

    Where several are late, they are taken on days that follow each other: draining and filling
    three in one visit is more than anybody does in the heat (our choice). With a sow near birth
    or with young in the pen it is only topped up.
    """
    week = dt.timedelta(days=rule("wallow_rules", "refresh latest", "number").value)
    apart = dt.timedelta(days=rule(RULES, "days between wallows that are late", "number").value)
    late = stay.first
    for pen in farm.pens:
        if pen.wallow is None:
            continue
        last = pen.wallow.last_refreshed or pen.wallow.dug
        on = None if last is None else last + week
        is_late = on is None or on <= stay.first
        on = _refilled(farm, pen.id, late if on is None or is_late else on, stay)
        while on is not None:
            late = on + apart if is_late else late
            is_late = False
            yield Due(WALLOW, pen.wallow.id, pen.id, on, on)
            on = _refilled(farm, pen.id, on + week, stay)


def _refilled(farm: Farm, pen: str, on: dt.date, stay: Stay) -> dt.date | None:
    """Return the first day from `on` on which a wallow may be drained; None in this stay."""
    while on <= stay.last:
        inside = herds.for_farm(farm, on).in_pen(pen)
        if all(refill_of(group.cls) != WAITS for group in inside):
            return on
        on += ONE_DAY
    return None


def _fans(farm: Farm, stay: Stay) -> Iterator[Due]:
    """Yield the fans whose cleaning falls due; a fan without a date is a gap in the records."""
    most = rule("air_rules", "days between cleanings", "number").value
    for pen in farm.pens:
        for fan in pen.fans:
            dates = [day for day in (fan.cleaned, farm.about.last_fan_cleaning) if day]
            if dates:
                for on in _repeated(max(dates), most, stay):
                    yield Due(FAN, fan.id, pen.id, on, on)


def _bleach(farm: Farm, stay: Stay) -> Iterator[Due]:
    """Yield the bottles that are too old for the table of ageing on the last day."""
    for product in farm.equipment.products:
        if product.kind != BLEACH or product.bought is None or product.kept_at_c is None:
            continue
        hours = max(0, (stay.last - product.bought).days) * HOURS_IN_DAY
        try:
            bleach_strength(product.strength_pct, hours, product.kept_at_c, product.id)
        except NotPublishedError:
            yield Due(BLEACH_OLD, product.id, None, stay.first, stay.first)
