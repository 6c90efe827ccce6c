"""The short looks of a plan by sort of day, and the line where nobody can come (step 3)."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from binder.clock import HOURS_IN_DAY, MINUTES_IN_HOUR
from binder.figures.bands.band_rule import Band
from binder.figures.noise import TRACE
from binder.figures.rounds.farm_rounds import round_interval
from binder.figures.rounds.looks import RULES as LOOK_RULES
from binder.figures.rounds.looks import SITTER, Look, People, plan_looks
from binder.figures.rounds.pen_care import PROTECTED, UNPROTECTED
from binder.figures.rounds.round_tasks import in_steps, look_minutes
from binder.figures.rounds.visits import Gap, gaps, overdue_h
from binder.figures.rules import rule
from binder.figures.stays.plan import ORDINARY, Watch
from binder.figures.stays.plan_parts import Call
from binder.figures.stays.stay_load import HOT
from binder.figures.weather.hot_days import hours

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from binder.farm.model import Farm, Stay
    from binder.figures.stays.basis import Basis
    from binder.figures.stays.plan import Visit
    from binder.figures.stays.stay_load import StayLoad

    Needs = Mapping[str, tuple[float, ...]]

LOOKS = "looks"


def people_of(farm: Farm, stay: Stay, visits: Sequence[float]) -> People:
    """Return who can look between visits.

    The sitter within `between`; without it, all day and night where they sleep here, else only
    from the first visit to the last. Helpers are contacts that help with looks.
    """
    most = round(rule(LOOK_RULES, "a person at most", "number").value)
    spans = tuple((hours(first), hours(last)) for first, last in stay.between)
    if not spans and stay.sleeps_here:
        spans = ((0.0, float(HOURS_IN_DAY)),)
    elif not spans and visits:
        spans = ((visits[0], visits[-1]),)
    if stay.id == ORDINARY:
        return People(spans, HOURS_IN_DAY, (), 0)
    helpers = tuple(one.name for one in farm.contacts if LOOKS in one.helps)
    return People(spans, stay.most_looks or most, helpers, most)


def needs_in(load: StayLoad) -> Needs:
    """Return how long each pen may go unseen by hour of a day of that load [h].

    With the sun down number 1 asks for no look and number 2 for few, as the heat of the sun is
    gone and animals lie still (our choice); while a pen is at All hands somebody is there.
    """
    if load.day is None:
        return load.allowed
    up, down = load.day.sunrise_h, load.day.sunset_h
    dark_h = rule(LOOK_RULES, "dark at number 2", "time").value
    dark = [hour >= down or hour + 1 <= up for hour in range(HOURS_IN_DAY)]

    def need(hours_h: float, band: int, *, is_dark: bool) -> float:
        if band == Band.ALL_HANDS or (is_dark and band < Band.HOT):
            return float(HOURS_IN_DAY)
        return max(hours_h, dark_h) if is_dark and band == Band.HOT else hours_h

    return {
        pen: tuple(
            need(hours_h, band, is_dark=night)
            for hours_h, band, night in zip(allowed, load.worst[pen], dark, strict=True)
        )
        for pen, allowed in load.allowed.items()
    }


def attended(load: StayLoad) -> tuple[tuple[float, float], ...]:
    """Return the stretches of a day in which a pen is at All hands, as (from, to) [h]."""
    at = [
        any(bands[hour] == Band.ALL_HANDS for bands in load.worst.values())
        for hour in range(HOURS_IN_DAY)
    ]
    found: list[tuple[float, float]] = []
    for hour, bad in enumerate(at):
        if bad and found and found[-1][1] == hour:
            found[-1] = (found[-1][0], hour + 1.0)
        elif bad:
            found.append((float(hour), hour + 1.0))
    return tuple(found)


def unattended(gap: Gap, spans: Sequence[tuple[float, float]]) -> tuple[Gap, ...]:
    """Return the parts of a gap in which nobody stays with the animals."""
    edges = [gap.start_h]
    for day in (0, HOURS_IN_DAY):
        for first, last in spans:
            edges += [min(max(at + day, edges[-1]), gap.end_h) for at in (first, last)]
    edges.append(gap.end_h)
    parts = (Gap(start, end) for start, end in pairwise(edges))
    return tuple(part for part in list(parts)[::2] if part.hours > TRACE)


def watches(basis: Basis, visits: Sequence[Visit]) -> dict[str, Watch]:
    """Return the short looks of each sort of day, by key of the load."""
    return {key: watch_of(basis, load, visits) for key, load in basis.loads.items()}


def watch_of(basis: Basis, load: StayLoad, visits: Sequence[Visit] = ()) -> Watch:
    """Return the short looks of one sort of day, and what does not hold all the same.

    Args:
        basis: of the plan.
        load: the sort of day.
        visits: of the plan; on a day on which one of them is moved, looks go by its new hour.
    """
    people = people_of(basis.farm, basis.stay, basis.hours)
    needs, spans = needs_in(load), attended(load)
    apart = gaps_on(basis, load.key, visits)
    looks = plan_looks(
        [(part, needs) for gap in apart for part in unattended(gap, spans)], people
    )
    looks = tuple(Look(look.hour, _walked(basis, look), look.by) for look in looks)
    return Watch(
        looks=looks,
        minutes=tuple(_minutes(basis, look) for look in looks),
        attended=spans if basis.gaps else (),
        overdue={pen: _first(apart, allowed) for pen, allowed in needs.items()},
        gaps=apart,
    )


def gaps_on(basis: Basis, key: str, visits: Sequence[Visit]) -> tuple[Gap, ...]:
    """Return the gaps between visits on a sort of day, with those that its air moves.

    Where two would be moved to one time or past each other, those of the hours agreed on.
    """
    starts = [one.fits[key].start_h if key in one.fits else one.hour for one in visits]
    apart = all(first < then for first, then in pairwise(starts))
    return gaps(starts) if starts and apart else basis.gaps


def _walked(basis: Basis, look: Look) -> tuple[str, ...]:
    return tuple(pen for pen in basis.order_at(look.hour % HOURS_IN_DAY) if pen in look.pens)


def _minutes(basis: Basis, look: Look) -> float:
    walk_min = rule(LOOK_RULES, "walk on a look", "time").value * MINUTES_IN_HOUR
    return in_steps(sum(look_minutes(basis.head(pen)) + walk_min for pen in look.pens))


def _first(gaps: Sequence[Gap], allowed: Sequence[float]) -> float | None:
    late = [time for gap in gaps if (time := overdue_h(gap, allowed)) is not None]
    return min(late) if late else None


def calls_of(basis: Basis, found: Mapping[str, Watch]) -> tuple[Call, ...]:
    """Return whom the sitter phones after a visit, mildest sort of day first.

    One line for each gap and person, and for each sort of day in which they look: it names
    exactly the looks that are somebody else's in `found`, and the sitter's own beside them.
    Sorts of day that ask for the same share a line.
    """
    return tuple(call for place in range(len(basis.gaps)) for call in _calls_in(place, found))


def _calls_in(place: int, found: Mapping[str, Watch]) -> Iterator[Call]:
    alike: dict[tuple[Gap, str, tuple[float, ...], tuple[float, ...]], list[str]] = {}
    for key, watch in found.items():
        gap = watch.gaps[place]
        looks = [look for look in watch.looks if gap.start_h < look.hour < gap.end_h]
        times = {
            who: tuple(look.hour for look in looks if look.by == who)
            for who in dict.fromkeys((SITTER, *(look.by for look in looks)))
        }
        own = times.pop(SITTER)
        for who, theirs in times.items():
            alike.setdefault((gap, who, own, theirs), []).append(key)
    for (gap, who, own, theirs), keys in alike.items():
        yield Call(gap.start_h, gap.end_h, tuple(keys), own, theirs, who)


def buys(basis: Basis) -> dict[str, int]:
    """Return the short looks at a pen on a hot day that mending it would save, by pen id.

    Counted for the pen alone: as it is, and as it would be with shade, water and wet. Pens that
    nothing can mend (an animal at risk, an interval of the owner's) save none and are left out.
    """
    hot = basis.loads.get(HOT)
    if hot is None:
        return {}
    people = people_of(basis.farm, basis.stay, basis.hours)
    needs, found = needs_in(hot), {}
    for pen, now in needs.items():
        if basis.rounds.pens[pen].care.status != UNPROTECTED:
            continue
        fewer = _count(basis, pen, now, people) - _count(
            basis, pen, _mended(basis, hot, pen), people
        )
        if fewer > 0:
            found[pen] = fewer
    return found


def _count(basis: Basis, pen: str, allowed: tuple[float, ...], people: People) -> int:
    return len(plan_looks([(gap, {pen: allowed}) for gap in basis.gaps], people))


def _mended(basis: Basis, load: StayLoad, pen: str) -> tuple[float, ...]:
    """Return how long a pen might go unseen if it were protected, by hour [h]."""
    place = basis.farm.pen(pen)
    by_band = [round_interval(basis.farm, place, band, PROTECTED).amount.value for band in Band]
    now, mended = needs_in(load)[pen], []
    for hour, band in enumerate(load.worst[pen]):
        mended.append(max(now[hour], by_band[band]))
    return tuple(mended)
