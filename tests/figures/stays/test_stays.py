"""Stays: the gaps between visits, the days, the plan of each, and where it does not hold.

No source gives a sitter's plan, minutes or looks a day (husbandry 7): the rules are our choice
and held still here. What is checked against the outside is named beside each test; the rest is
plain arithmetic, shown.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder import sources
from binder.farm.model import Contact, Farm
from binder.figures import catalogue, published
from binder.figures.bands.band_rule import Band, band
from binder.figures.day.feeding_hours import Meals
from binder.figures.entry import read_time_of_day
from binder.figures.figure import Figure, step
from binder.figures.herd import groups
from binder.figures.hoses import hose_plan
from binder.figures.nested import every, restated
from binder.figures.power import farm_power
from binder.figures.rounds.visits import (
    Gap,
    extra_visits,
    gaps,
    longest,
    on_step,
    overdue_h,
    strictest,
)
from binder.figures.stays import plan_watch, stay_check, stay_days, stay_meals, stay_plan
from binder.figures.stays.visits import plan_fit, visit_rest
from binder.figures.supply.water_store import pen_stores
from binder.figures.wallows import wallow_plan
from binder.figures.water import drinkers, drinking_water
from binder.figures.weather.hot_days import DayWeather
from binder.pages.text import words
from binder.problems import ProblemsError
from binder.units import Amount
from tests.figures.written import celsius, written_farm

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from binder.figures.finding import Finding
    from binder.figures.hoses.hose_plan import HoseSheet
    from binder.figures.stays.plan import Plan
    from binder.figures.stays.stay_check import StayCheck
    from binder.weather.record import Hour

GAL = 3.785411784
PLACE = {"latitude": "31.55", "longitude": "-82.12", "timezone": "America/New_York"}
ON = dt.date(2026, 6, 1)


def weather(high_f: float, low_f: float, dew_f: float) -> DayWeather:
    """Return a day's weather from Fahrenheit."""
    high_c, low_c, dew_c = (celsius(each) for each in (high_f, low_f, dew_f))
    return DayWeather(high_c, low_c, dew_c, 15.5, assumed=False, origin="hot_day")


COOL, HOT, EXTREME = weather(60, 45, 44), weather(95, 75, 74), weather(101, 78, 75)
PEN: Mapping[str, Any] = {
    "id": "creek",
    "name": "Creek paddock",
    "kind": "pasture",
    "shade": [{"kind": "trees", "area": "900 sqft"}],
    "wallow": {"id": "w1", "shape": "round", "length": "14 ft", "depth": "10 in"},
    "drinkers": [{"id": "d1", "kind": "trough", "count": "2", "holds": "150 gal"}],
}
BOAR: Mapping[str, Any] = {
    "name": "Hector", "species": "pig", "sex": "boar", "born": "2022-04-20", "weight": "510 lb",
    "pen": "creek",
}  # fmt: skip
JULY: Mapping[str, Any] = {
    "id": "july", "from": "2026-07-10", "to": "2026-07-12", "sitter": "Sam Example",
    "visits": ["06:30", "13:00", "19:00"], "minutes": "240",
}  # fmt: skip


def farm(
    stay: Mapping[str, Any] | None = None,
    pens: Sequence[Mapping[str, Any]] = ({},),
    animals: Sequence[Mapping[str, Any]] = (BOAR,),
    about: Mapping[str, Any] | None = None,
    **gear: Any,
) -> Farm:
    """Return a farm that a stay of three days in July finds in order, changed as given."""
    return written_farm(
        animals=animals,
        pens=[{**PEN, **pen} for pen in pens],
        equipment=gear,
        stays=[{**JULY, **(stay or {})}],
        **{"place": PLACE, **(about or {})},
    )


@dataclass(frozen=True)
class Case:
    """A farm with the plan of its one stay, and where it does not hold."""

    farm: Farm
    plan: Plan
    check: StayCheck
    hoses: Mapping[str, HoseSheet]

    def told(self, load: str = "") -> list[str]:
        """Return the conflicts of a sort of day, of any day where empty."""
        return [one.key for one in (self.check.by_load[load] if load else self.check.always)]

    def found(self, key: str, load: str = "") -> dict[str, Any]:
        """Return the values of the one conflict of that key."""
        listed = self.check.by_load[load] if load else self.check.always
        (one,) = [each for each in listed if each.key == key]
        return dict(one.values)


def case(
    a_farm: Farm, hot: DayWeather = HOT, extreme: DayWeather = EXTREME,
    rows: Sequence[Hour] = (), on: dt.date = ON,
) -> Case:  # fmt: skip
    """Return the plan of the farm's one stay, and its check."""
    animals = groups.for_farm(a_farm, on)
    hoses = hose_plan.for_farm(a_farm, drinking_water.for_farm(a_farm, animals, hot), hot)
    days = {"hot": hot, "extreme": extreme}
    plans = stay_plan.for_farm(a_farm, on, days, rows, hoses, {})
    checks = stay_check.for_farm(a_farm, plans, hoses, farm_power.for_farm(a_farm, animals))
    key = a_farm.stays[0].id
    return Case(a_farm, plans[key], checks[key], hoses)


def said(findings: Sequence[Finding]) -> str:
    """Return every figure behind findings in words; a missing word or source fails."""
    lexicon = words.load()
    lines = []
    for figure in every(findings):
        assert set(figure.sources) <= set(sources.all_sources()), figure.name
        lines += [lexicon.title(figure), lexicon.value(figure), *lexicon.working(figure)]
    return "\n".join(lines).replace("\N{NO-BREAK SPACE}", " ")


# --- gaps between visits -------------------------------------------------------------------


def test_three_visits_leave_three_gaps_and_the_night() -> None:
    """06:30, 13:00, 19:00: six and a half, six, and eleven and a half hours."""
    found = gaps([13.0, 6.5, 19.0, 13.0])
    assert [gap.hours for gap in found] == [6.5, 6.0, 11.5]
    assert [gap.at_night for gap in found] == [False, False, True]
    assert longest(found) == Gap(19.0, 30.5)


def test_one_visit_leaves_a_whole_day_and_none_leaves_nothing() -> None:
    """A single visit is followed by itself on the next day."""
    assert gaps([8.0]) == (Gap(8.0, 32.0),)
    assert gaps([]) == ()


def test_the_middle_stands_on_a_step_of_the_clock() -> None:
    """Between 06:30 and 13:12 lies 09:51; visits are set to five minutes: 09:50."""
    assert Gap(6.5, 13.2).middle_h == pytest.approx(9 + 50 / 60)
    assert on_step(9.75) == 9.75


def test_a_gap_lies_partly_within_other_hours() -> None:
    """From 19:00 to 06:30 half an hour lies before a sunset at 19:30, none around noon."""
    assert Gap(19.0, 30.5).within(6.0, 19.5) == 0.5
    assert Gap(19.0, 30.5).within(11.0, 13.0) == 0.0


def test_a_pen_is_overdue_when_its_interval_has_passed() -> None:
    """Four hours allowed all day: overdue at 10:30 after a look at 06:30."""
    assert overdue_h(Gap(6.5, 13.0), [4.0] * 24) == 10.5


def test_a_pen_seen_just_in_time_is_not_overdue() -> None:
    """Exactly four hours are four hours."""
    assert overdue_h(Gap(6.5, 10.5), [4.0] * 24) is None


def test_a_pen_is_overdue_at_once_when_the_band_rises() -> None:
    """Eight hours allowed until ten, two from then: at ten nobody was there for 3.5 h."""
    allowed = [8.0] * 10 + [2.0] * 14
    assert overdue_h(Gap(6.5, 13.0), allowed) == 10.0


def test_the_hours_after_midnight_are_those_of_the_next_day() -> None:
    """One hour allowed from 01:00 on: overdue at 01:00 after a look at 21:00."""
    allowed = [8.0] + [1.0] * 5 + [8.0] * 18
    assert overdue_h(Gap(21.0, 30.0), allowed) == 25.0


def test_one_extra_visit_stands_in_the_middle_where_that_will_do() -> None:
    """Four hours allowed, a gap of six and a half: the middle, 09:45."""
    assert extra_visits(Gap(6.5, 13.0), [4.0] * 24) == (9.75,)


def test_one_extra_visit_stands_later_where_the_middle_is_too_early() -> None:
    """From eleven on two hours are allowed: after 09:45 eleven to thirteen is too long."""
    allowed = [5.0] * 11 + [2.0] * 13
    assert extra_visits(Gap(6.5, 13.0), allowed) == (11.0,)


def test_several_extra_visits_come_as_late_as_they_may() -> None:
    """One hour allowed in a gap of four: three looks."""
    assert extra_visits(Gap(9.0, 13.0), [1.0] * 24) == (10.0, 11.0, 12.0)


def test_nothing_is_added_to_a_gap_that_holds() -> None:
    """No look too many."""
    assert extra_visits(Gap(9.0, 10.0), [1.0] * 24) == ()


def test_the_strictest_of_several_pens_decides_each_hour() -> None:
    """Hour by hour the smallest."""
    assert strictest([[4.0, 1.0], [2.0, 3.0]]) == (2.0, 1.0)


@given(
    visits=st.lists(st.integers(0, 287), min_size=1, max_size=6, unique=True),
    allowed=st.lists(st.sampled_from([1 / 3, 0.5, 1.0, 1.5, 2.0, 4.0, 8.0, 12.0]),
                     min_size=24, max_size=24),
)  # fmt: skip
def test_the_extra_visits_leave_nothing_overdue(
    visits: list[int], allowed: list[float]
) -> None:
    """Whatever the visits and bands: with the looks proposed, no pen is overdue any more."""
    for gap in gaps(each / 12 for each in visits):
        times = (gap.start_h, *extra_visits(gap, allowed), gap.end_h)
        parts = [Gap(start, end) for start, end in pairwise(times)]
        assert all(overdue_h(part, allowed) is None for part in parts)
        assert all(part.hours > 0 for part in parts)


def test_the_longest_gap_can_be_asked_for() -> None:
    """`binder figure longest-gap visits="06:30, 13:00 19:00"`: the night, 11.5 h."""
    found = catalogue.compute("longest-gap", {"visits": "06:30, 13:00 19:00"})
    assert found.amount == Amount(11.5, "h")
    assert words.load().working(found)[0].startswith("From 19:00 to 06:30")


@pytest.mark.parametrize(
    ("time", "hour"), [("00:00", 0.0), ("06:30", 6.5), ("23:00", 23.0), ("23:59", 23 + 59 / 60)]
)
def test_a_time_of_day_is_read(time: str, hour: float) -> None:
    """All day long, by a clock of 24 hours (ISO 8601)."""
    assert read_time_of_day(time) == pytest.approx(hour)


def test_what_is_asked_for_must_be_given() -> None:
    """Without visits there is no gap between them."""
    with pytest.raises(ProblemsError):
        catalogue.compute("longest-gap", {})


@pytest.mark.parametrize("visits", ["", "noon", "24:00", "25:00", "12:60"])
def test_a_gap_of_no_times_is_refused(visits: str) -> None:
    """No visit, or something that is no time of day."""
    with pytest.raises(ProblemsError):
        catalogue.compute("longest-gap", {"visits": visits})


# --- figures of another day ----------------------------------------------------------------


def test_a_figure_that_is_the_same_stays_one_figure() -> None:
    """Only what differs on the other day gets the stay's id behind its subject."""
    one = Figure("a", Amount(1, "L"), (step("x"),), (), subject="creek")
    other = Figure("a", Amount(2, "L"), (step("x"),), (), subject="woods")
    known = {one.key: one, "a.woods": Figure("a", Amount(3, "L"), (), (), subject="woods")}
    found = restated({"x": (one, other), "y": [other]}, known, "july")
    assert found["x"][0] is one
    assert found["x"][1].key == "a.woods july"
    bare = Figure("b", "word", (), ())
    assert restated(bare, {}, "july").key == "b.july"


def test_every_figure_is_found_however_deep() -> None:
    """In tuples, lists, mappings and dataclasses."""
    one = Figure("a", Amount(1, "L"), (), ())
    need = drinkers.DrinkerFigures({("p", "c"): one}, {}, (), {"d": one})
    assert len(list(every({"x": [one, (one,)], "y": need, "z": "text"}))) == 4


# --- the days ------------------------------------------------------------------------------


def test_a_stay_has_all_its_days_with_their_sun() -> None:
    """10 to 12 July in southern Georgia: the sun is up from about half past six (heat-69)."""
    days = case(farm()).plan.days
    assert [day.on.day for day in days] == [10, 11, 12]
    assert all(day.sunrise_h is not None and 6.3 < day.sunrise_h < 6.7 for day in days)


def test_a_stay_where_the_sun_sets_after_midnight_is_a_problem_of_the_farm() -> None:
    """Reykjavik at midsummer: up 02:55, down about 00:03 of the next date (from memory)."""
    place = {"latitude": "64.15", "longitude": "-21.94", "timezone": "Atlantic/Reykjavik"}
    north = farm({"from": "2026-06-20", "to": "2026-06-22"}, about={"place": place})
    assert [day.sunrise_h for day in stay_days.days_of(north, north.stays[0])] == [None] * 3
    with pytest.raises(ProblemsError) as caught:  # its visits need the day by the hour
        case(north)
    (problem,) = caught.value.problems
    assert str(problem).startswith('farm.yaml  place > latitude: "64.15": on 2026-06-')


def test_a_farm_without_a_place_has_no_sun() -> None:
    """Nobody knows when it rises."""
    found = case(farm(about={"place": {}}))
    assert found.plan.days[0].sunrise_h is None
    assert found.plan.loads["hot"].day is None
    assert found.plan.meals is None
    assert "no-place" in found.told()


SOW: Mapping[str, Any] = {
    "name": "Clementine", "species": "pig", "sex": "sow", "weight": "420 lb", "pen": "creek",
    "bred": "2026-03-22",
}  # fmt: skip


def test_a_sow_due_in_the_stay_is_due_on_each_of_her_days() -> None:
    """Bred on 22 March: due from 11 to 16 July, day 111 (husbandry-66) to 116."""
    days = case(farm(animals=[SOW])).plan.days
    births = [[due for due in day.due if due.is_birth] for day in days]
    assert [len(due) for due in births] == [0, 1, 1]
    assert (births[1][0].first, births[1][0].last) == (
        dt.date(2026, 7, 11), dt.date(2026, 7, 16),
    )  # fmt: skip


def test_a_mother_who_is_overdue_may_still_give_birth_in_the_stay() -> None:
    """Overdue from day 117 (husbandry-97); the window ends on day 120 (husbandry-66)."""
    first, last = dt.date(2026, 7, 17), dt.date(2026, 7, 20)
    late = stay_days.Due("overdue", "Clementine", "creek", first, last)
    early = replace(
        late, key="farrowing", first=dt.date(2026, 7, 11), last=dt.date(2026, 7, 16)
    )
    days = [stay_days.StayDay(first, None, None, (), (), due) for due in ((early,), (late,))]
    assert stay_days.births_in(days) == (early,)
    assert stay_days.births_in(days[1:]) == (late,)


def test_what_is_under_way_stands_on_the_first_day_only() -> None:
    """The watch for labor began before the stay; late gestation is no task at all."""
    days = case(farm(animals=[SOW])).plan.days
    first = [due.key for due in days[0].due]
    assert "labor watch" in first
    assert "late gestation" not in first
    assert "labor watch" not in [due.key for due in days[1].due]


def test_the_watch_for_labor_ends_where_the_birth_may_begin() -> None:
    """Bred on 22 March: watched from 9 July, day 109, due from 11 July (husbandry-66)."""
    days = case(farm({"from": "2026-07-01", "to": "2026-07-20"}, animals=[SOW])).plan.days
    told = {due.key: due for day in days for due in day.due}
    assert told["labor watch"].last == dt.date(2026, 7, 10)
    assert told["labor watch"].first == dt.date(2026, 7, 9)


def test_a_mother_who_is_overdue_is_not_told_to_be_due_as_well() -> None:
    """Day 117 is 17 July: from then on the vet is called (husbandry-97)."""
    days = case(farm({"from": "2026-07-15", "to": "2026-07-20"}, animals=[SOW])).plan.days
    shown = {
        day.on.day: {due.key for due in day.due} & {"farrowing", "overdue"} for day in days
    }
    assert shown[16] == {"farrowing"}
    assert [shown[day] for day in (17, 18, 19, 20)] == [{"overdue"}] * 4


def test_who_changes_class_is_told_on_that_day() -> None:
    """A grower is a finisher from 130 lb on (water-1): 127 lb on 10 July, 1.5 lb a day."""
    growers = {
        "group": "Growers", "species": "pig", "count": "8", "weight": "127 lb",
        "weighed": "2026-07-10", "gain": "1.5 lb/day", "born": "2026-03-01", "pen": "creek",
    }  # fmt: skip
    days = case(farm(animals=[growers])).plan.days
    assert [[(c.before, c.now) for c in day.changes] for day in days] == [
        [], [], [("grower", "finisher")],
    ]  # fmt: skip


def due_days(found: Case, key: str) -> list[int]:
    """Return the days of the month on which something begins to be due."""
    return [day.on.day for day in found.plan.days for due in day.due if due.key == key]


LONG = {"from": "2026-07-10", "to": "2026-07-24"}


def test_a_wallow_is_drained_once_a_week_and_never_twice() -> None:
    """Water changed at least each 7 days keeps mosquitoes down (wallow-57)."""
    wallow = {**PEN["wallow"], "last_refreshed": "2026-07-07"}
    assert due_days(case(farm(LONG, [{"wallow": wallow}])), "wallow") == [14, 21]


def test_wallows_that_are_late_are_drained_one_a_day() -> None:
    """Three that nobody looked after: the 10th, 11th and 12th, each again a week later."""
    pens = [{"id": f"p{n}", "wallow": {**PEN["wallow"], "id": f"w{n}"}} for n in range(3)]
    found = case(farm(LONG, pens, [{**BOAR, "pen": "p0"}]))
    assert due_days(found, "wallow") == [10, 11, 12, 17, 18, 19, 24]


def test_a_wallow_due_on_the_first_day_fills_that_day() -> None:
    """One whose week is over on the 10th, and one that is late: that one on the 11th."""
    known = {**PEN["wallow"], "last_refreshed": "2026-07-03"}
    late = {**PEN["wallow"], "id": "w2"}
    pens: list[dict[str, Any]] = [{"wallow": known}, {"id": "woods", "wallow": late}]
    assert due_days(case(farm(LONG, pens)), "wallow") == [10, 11, 17, 18, 24]


def test_a_wallow_of_unknown_age_is_due_at_once() -> None:
    """What nobody wrote down is done on the first day."""
    assert due_days(case(farm(LONG)), "wallow") == [10, 17, 24]


def test_drinkers_are_measured_every_week() -> None:
    """Once a week (water-10, water-14); long overdue is due on the first day."""
    about = {"place": PLACE, "last_flow_test": "2026-07-05"}
    assert due_days(case(farm(LONG, about=about)), "flow-test") == [12, 19]
    assert due_days(case(farm(LONG)), "flow-test") == [10, 17, 24]


def test_a_fan_is_cleaned_every_quarter() -> None:
    """91 days after 20 April is 20 July (husbandry-26: quarterly); no date, no day."""
    fans = {"fans": [{"id": "f1", "cleaned": "2026-04-20"}, {"id": "f2"}]}
    found = case(farm(LONG, [fans]))
    assert due_days(found, "fan") == [20]


def test_bleach_too_old_for_the_table_is_replaced() -> None:
    """Kept at 95 F for more than half a year: nobody knows its strength (wallow 5)."""
    old = {"id": "b1", "name": "Bleach", "kind": "bleach", "strength": "7.5 %",
           "bought": "2025-06-01", "kept_at": "95 F"}  # fmt: skip
    fresh = {**old, "id": "b2", "bought": "2026-07-01"}
    undated = {**old, "id": "b3", "bought": None}
    other = {**old, "id": "b4", "kind": "peroxide"}
    next_ = {**old, "id": "b5", "bought": "2026-07-20"}  # a date after the stay: never stale
    found = case(farm(products=[old, fresh, undated, other, next_]))
    listed = [due.who for day in found.plan.days for due in day.due if due.key == "bleach-old"]
    assert listed == ["b1"]


# --- the plan ------------------------------------------------------------------------------


def test_a_stay_that_is_over_has_no_plan() -> None:
    """On its last day it has one, on the day after none."""
    a_farm = farm()
    days = {"hot": HOT, "extreme": EXTREME}
    assert list(stay_plan.for_farm(a_farm, dt.date(2026, 7, 12), days, (), {}, {})) == ["july"]
    assert not stay_plan.for_farm(a_farm, dt.date(2026, 7, 13), days, (), {}, {})


def test_the_typical_day_is_that_of_the_middle_of_the_stay() -> None:
    """30 July to 3 August: the middle is 1 August, so August's day counts."""
    climate = {
        month: {"high": high, "low": "70 F", "dew_point": "68 F"}
        for month, high in (("july", "91 F"), ("august", "92 F"))
    }
    found = case(farm({"from": "2026-07-30", "to": "2026-08-03"}, about={"climate": climate}))
    assert found.plan.loads["typical"].weather.high_c == pytest.approx(celsius(92))
    assert list(found.plan.loads) == ["typical", "hot", "extreme"]
    assert list(case(farm()).plan.loads) == ["hot", "extreme"]


def test_amounts_are_those_of_the_last_day() -> None:
    """8 growers of 100 lb gain 1.5 lb a day: on the third day they eat as at 103 lb."""
    growers = {
        "group": "Growers", "species": "pig", "count": "8", "weight": "100 lb",
        "weighed": "2026-07-10", "gain": "1.5 lb/day", "born": "2026-03-01", "pen": "creek",
    }  # fmt: skip
    found = case(farm(animals=[growers]))
    assert found.plan.herd.groups[0].weight_kg == pytest.approx(103 * 0.45359237)
    assert [len(group.figures) for group in found.plan.herd.groups] == [0]


def at(morning_by_h: float, evening_from_h: float) -> Meals:
    """Return two feeding times, without the figures behind them."""
    none = Figure("meal", "", (), ())
    return Meals(none, none, morning_by_h, evening_from_h)


def test_meals_go_out_at_the_visits_that_suit_them() -> None:
    """The last visit before the morning's end, the first after the evening's start."""
    meals = at(7.0, 18.0)
    assert visit_rest.feeding_visits([5.0, 6.5, 13.0, 17.0, 18.5, 20.0], meals) == (6.5, 18.5)
    assert visit_rest.feeding_visits([5.0, 7.0, 13.0, 18.0, 20.0], meals) == (7.0, 18.0)


def test_meals_go_out_at_the_nearest_visit_where_none_suits() -> None:
    """The first of the day is too late, the last too early: they are taken all the same."""
    assert visit_rest.feeding_visits([9.0, 16.0], at(6.0, 19.0)) == (9.0, 16.0)
    assert visit_rest.feeding_visits([9.0, 12.0, 16.0], None) == (9.0, 16.0)


def test_the_work_of_a_visit_is_tasks_walking_and_feed() -> None:
    """See 1 head 0.5, fill 2 troughs from outside 1, wallow 1, boots 1, walk 3, feed 2 [min].

    Water that nothing feeds is carried: what the boar drinks between visits, and the wallow's
    share, 2 gal/min each, to the whole minute above (our choice).
    """
    fed = {**BOAR, "ration": "6 lb/day"}
    found = case(farm(animals=[fed])).plan
    visits = found.visits
    assert [visit.meal for visit in visits] == ["morning", "", "evening"]
    drunk_gal = found.water.pens["creek"].amount.value / 3 / GAL
    top_up_gal = found.top_ups["w1"].amount.value / GAL
    carried = math.ceil(drunk_gal / 2 - 1e-9) + math.ceil(top_up_gal / 2 - 1e-9)
    works = [visit.work.amount.value - carried for visit in visits]
    assert works == [8.5, 6.5, 8.5]
    assert "Walking and gates: 3 min" in said_of(visits[0].work)


def said_of(figure: Figure) -> str:
    """Return the working of a figure."""
    return "\n".join(words.load().working(figure)).replace("\N{NO-BREAK SPACE}", " ")


def test_a_wallow_gets_its_share_at_each_visit() -> None:
    """A third of a day's top-up at each of three visits, rounded up to whole gallons."""
    plan = case(farm()).plan
    share = plan.top_ups["w1"]
    assert share.working[0].values[1] == ("visits", 3)
    daily = dict(share.working[0].values)["daily"]
    assert isinstance(daily, Amount)
    third_gal = daily.value / 3 / 3.785411784  # L in a US gallon: NIST Handbook 44, App. C
    assert share.amount.value / 3.785411784 == pytest.approx(math.ceil(third_gal))


def test_a_share_of_whole_gallons_is_not_rounded_up() -> None:
    """231 x 12 in lose 1 in a day: 12 gal of 231 cu in (NIST Handbook 44), 4 at each visit."""
    goat = {**BOAR, "species": "goat", "sex": "wether", "weight": "120 lb"}  # carries none off
    wallow = {"id": "w1", "shape": "rectangle", "length": "19.25 ft", "width": "1 ft",
              "depth": "10 in"}  # fmt: skip
    about = {"evaporation": "1 in/day"}
    plan = case(farm(pens=[{"wallow": wallow}], animals=[goat], about=about)).plan
    assert plan.top_ups["w1"].amount.value / GAL == pytest.approx(4)


def test_without_visits_there_is_no_gap_and_no_card() -> None:
    """A stay without times has days only."""
    found = case(farm({"visits": []}))
    assert (found.plan.visits, found.plan.gap, found.plan.top_ups) == ((), None, {})
    assert "no-visits" in found.told()
    assert all(not conflicts for conflicts in found.check.by_load.values())


def test_pens_are_walked_in_the_owners_order_and_empty_ones_passed() -> None:
    """Route 2 after route 1, a pen without a number last, nobody in the fourth."""
    pens = [
        {"id": "c", "wallow": None, "route": "2"},
        {"id": "b", "wallow": None},
        {"id": "a", "wallow": None, "route": "1"},
        {"id": "empty", "wallow": None, "route": "3"},
    ]
    animals = [{**BOAR, "name": pen, "pen": pen} for pen in "abc"]
    plan = case(farm(pens=pens, animals=animals)).plan
    assert plan.basis.walk == ("a", "c", "b")
    assert plan.pens == ("c", "b", "a"), "lists keep the order of pens.yaml, whatever the way"


# --- does it hold? -------------------------------------------------------------------------


def test_a_plan_in_order_holds_on_a_cool_day() -> None:
    """60 F, a boar, water for days, time enough: nothing to say."""
    about = {"round_intervals": {"fine": "12 h", "warm": "12 h"}}
    found = case(farm(about=about), COOL, COOL)
    assert found.check.holds
    assert found.plan.watches["hot"].looks == ()
    assert found.check.overdue["hot"] == {"creek": None}


def test_a_hot_day_between_three_visits_asks_for_looks() -> None:
    """A boar is at 2 from 80 F on (heat-25...): an hour at 3 is not six and a half."""
    found = case(farm({"most_looks": "1"}))
    watch = found.plan.watches["hot"]
    assert not found.check.holds
    assert not watch.holds
    values = found.found("round-many", "hot")
    assert values["pens"] == stay_meals.EVERY_PEN
    late = watch.overdue["creek"]
    assert late is not None
    assert late < watch.looks[1].hour
    assert "A pen is overdue from" in said(found.check.by_load["hot"])


def no_pen_is_overdue(plan: Plan, load: str) -> bool:
    """Return whether with visits and looks no pen is overdue on a day of a load."""
    watch, needs = plan.watches[load], plan_watch.needs_in(plan.loads[load])
    for pen, allowed in needs.items():
        seen = [gap.start_h for gap in plan.gaps]
        seen += [look.hour for look in watch.looks if pen in look.pens]
        for first, last in watch.attended:
            seen += [first, last]
        for gap in gaps([hour % 24 for hour in seen]):
            with_them = any(
                first <= gap.start_h and gap.end_h <= last for first, last in watch.attended
            )
            if not with_them and overdue_h(gap, allowed) is not None:
                return False
    return True


@pytest.mark.parametrize("load", ["hot", "extreme"])
@pytest.mark.parametrize("more", [{}, {"sleeps_here": "yes"}, {"visits": ["05:30", "20:00"]}])
def test_with_its_looks_no_pen_is_overdue(load: str, more: Mapping[str, Any]) -> None:
    """On a hot and on the extreme day, whoever is asked to look."""
    pens: list[Mapping[str, Any]] = [
        {}, {"id": "run", "name": "Run", "wallow": None, "shade": []},
    ]  # fmt: skip
    hen = {"group": "Hens", "species": "chicken", "sex": "hen", "count": "40", "pen": "run",
           "born": "2025-01-01"}  # fmt: skip
    plan = case(farm(more, pens=pens, animals=[BOAR, hen])).plan
    assert plan.watches[load].looks
    assert no_pen_is_overdue(plan, load)


def test_few_looks_that_nobody_does_are_named_one_by_one() -> None:
    """Where three a day are enough, nobody has to stay on the farm (our choice)."""
    hot = dict.fromkeys(("hot", "severe", "all_hands"), "5 h")
    wide = {"round_intervals": {"fine": "24 h", "warm": "24 h", **hot}}
    stay = {"between": ["06:30 to 07:00"]}
    values = case(farm(stay, pens=[wide])).found("round", "hot")
    assert len(values["looks_clocks"].split()) == values["count"] <= 3


def test_a_helper_is_asked_where_the_sitter_cannot_come() -> None:
    """One plain line for the sitter: at which number to phone whom, to look when."""
    a_farm = farm({"between": ["06:30 to 13:00"], "visits": ["06:30", "13:00", "19:00"]})
    helper = Contact.model_validate({"name": "Barnaby", "role": "backup", "phone": "555-0121",
                                     "helps": ["looks"]})  # fmt: skip
    plan = case(a_farm.model_copy(update={"contacts": (helper,)})).plan
    afternoon = [call for call in plan.calls if call.start_h == 13.0]
    assert "Barnaby" in {call.who for call in afternoon}
    assert all(13.0 < hour < call.end_h for call in afternoon for hour in call.looks)
    for call in plan.calls:
        for key in call.loads:
            looks = plan.watches[key].looks
            there = [look for look in looks if call.start_h < look.hour < call.end_h]
            assert call.looks == tuple(look.hour for look in there if look.by == call.who)
            assert call.own == tuple(look.hour for look in there if look.by == "sitter")
    nobody = case(a_farm).plan
    assert "" in {call.who for call in nobody.calls if call.start_h == 13.0}


def test_at_all_hands_somebody_stays() -> None:
    """110 F: the boar's pen is at 4 for hours, which no number of looks will do."""
    killing = weather(110, 85, 80)
    found = case(farm(), killing, killing)
    (span,) = found.plan.watches["hot"].attended
    assert span[0] < 16.0 < span[1]
    assert "attend" in found.told("hot")
    assert not found.plan.watches["hot"].holds


def test_the_night_asks_for_looks_from_number_two_on() -> None:
    """Number 1 in the dark asks nothing of anybody; a sitter who sleeps here sets an alarm."""
    calm = weather(88, 68, 66)
    plan = case(farm(), calm, calm).plan
    load = plan.loads["hot"]
    needs = plan_watch.needs_in(load)["creek"]
    dark = [hour for hour in range(24) if load.day and hour >= load.day.sunset_h]
    for hour in dark:
        if load.worst["creek"][hour] <= Band.WARM:
            assert needs[hour] == 24.0
    here = {"sleeps_here": "yes", "visits": ["06:30", "16:00"], "most_looks": "20"}
    hard = case(farm(here))
    assert "night-alarm" in hard.told("hot")


# --- who does what, how long, in which order -----------------------------------------------


def test_what_is_inside_is_the_owners_before_day_one() -> None:
    """With a boar nobody tries a nipple by hand alone; a helper comes for the wallow."""
    pen = {"drinkers": [{"id": "d1", "kind": "nipple", "count": "2"}]}
    a_farm = farm(pens=[pen])
    helper = Contact.model_validate({"name": "Barnaby", "role": "backup", "phone": "555-0121",
                                     "helps": ["wallow"]})  # fmt: skip
    found = case(a_farm.model_copy(update={"contacts": (helper,)}))
    jobs = {(job.key, job.who, job.helper) for job in found.plan.jobs}
    assert ("drinkers", "owner", "") in jobs
    assert ("refill", "two", "Barnaby") in jobs
    keys = [one.key for one in found.check.before]
    assert {"before", "appointment"} <= set(keys)
    assert "no-helper" in [one.key for one in case(a_farm).check.before]
    for visit in found.plan.visits:
        done = [task for each in visit.tasks.values() for task in each]
        assert {(task.who, task.where) for task in done} == {("alone", "outside")}


def test_a_refill_takes_its_volume_over_the_flow() -> None:
    """1,000 gal at 3 gal/min run for 334 min: volume over flow, to the whole minute above."""
    wallow = {"id": "w1", "shape": "rectangle", "length": "19.25 ft", "width": "8.333333 ft",
              "depth": "10 in", "fed_by": "h1"}  # fmt: skip
    hose = {"id": "h1", "inside": "5/8 in", "length": "100 ft", "flow": "3 gal/min"}
    found = case(farm(pens=[{"wallow": wallow}], hoses=[hose])).plan
    (job, *_) = [job for job in found.jobs if job.key == "refill"]
    high = wallow_plan.for_farm(found.basis.farm, found.herd)["w1"].high
    assert high is not None
    assert job.runs_min == math.ceil(high.amount.value / (3 * GAL))


def test_water_that_runs_long_is_not_waited_for() -> None:
    """The tap is opened and closed at the end of the round; its minutes are nobody's."""
    wallow = {"id": "w1", "shape": "round", "length": "20 ft", "depth": "10 in", "fed_by": "h1"}
    hose = {"id": "h1", "inside": "5/8 in", "length": "100 ft", "flow": "1 gal/min"}
    visit = case(farm(pens=[{"wallow": wallow}], hoses=[hose])).plan.visits[0]
    (task,) = [one for one in visit.tasks["creek"] if one.key == "wallow"]
    assert task.runs_min > 3
    assert task.minutes == 1.0
    (close,) = [one for one in visit.last if one.key == "close"]
    assert (close.count, close.runs_min) == (1, task.runs_min)


def test_a_round_that_does_not_fit_its_hour_is_moved_split_or_left() -> None:
    """Each part fits the work minutes of its hour (heat-7); at noon in July only looks do."""
    hens = {"group": "Hens", "species": "chicken", "sex": "hen", "count": "300",
            "pen": "creek", "born": "2025-01-01"}  # fmt: skip
    plan = case(farm(animals=[hens, BOAR])).plan
    keys = [visit.fits["hot"].key for visit in plan.visits]
    assert keys[0] == "fits"
    assert keys[1] == "look"
    day = plan.loads["hot"].day
    assert day is not None
    for visit in plan.visits:
        fit = visit.fits["hot"]
        if fit.key in ("split", "move"):
            for part in fit.parts:
                allowed = plan_fit.allowed_at(day, part.start_h % 24, "")
                most = plan_fit.minutes_of(allowed)
                assert most
                assert part.minutes <= most or plan_fit.word_of(allowed) == "normal" or (
                    len(part.pens) == 1
                )  # fmt: skip


def test_birds_and_unprotected_pens_come_first_at_midday() -> None:
    """At one o'clock by need; before sunrise, when all may wait as long, as the owner walks."""
    pens: list[Mapping[str, Any]] = [
        {"id": "mud", "name": "Mud", "route": "1"},
        {"id": "bare", "name": "Bare", "route": "2", "wallow": None},
        {"id": "run", "name": "Run", "route": "3", "wallow": None},
    ]
    gilt = {"species": "pig", "sex": "gilt", "born": "2025-10-05", "weight": "245 lb"}
    animals = [
        {**gilt, "name": "A", "pen": "mud"}, {**gilt, "name": "B", "pen": "bare"},
        {"group": "Hens", "species": "chicken", "sex": "hen", "count": "9", "pen": "run",
         "born": "2025-01-01"},
    ]  # fmt: skip
    plan = case(farm({"visits": ["05:00", "13:00"]}, pens=pens, animals=animals)).plan
    noon = plan.visits[1].order
    assert noon.index("bare") < noon.index("mud")
    assert noon.index("run") < noon.index("mud")
    assert plan.pens == ("mud", "bare", "run")


def test_around_a_birth_each_number_says_of_which_side_it_is() -> None:
    """One sow before, a sow and her expected litter after: the pen's water is told apart."""
    sow = {"name": "Clementine", "species": "pig", "sex": "sow", "weight": "420 lb",
           "pen": "creek", "bred": "2026-03-18", "born": "2023-03-02"}  # fmt: skip
    plan = case(farm(animals=[sow])).plan
    (birth,) = plan.births
    assert birth.head_before == 1
    assert birth.head_after > 1
    assert birth.before is not None
    assert birth.after is not None
    assert birth.after.amount.value > birth.before.amount.value


def test_animals_are_where_the_owner_moves_them() -> None:
    """Moved on 11 July: in the creek paddock on the 10th, in the run from the 11th on."""
    pens: list[Mapping[str, Any]] = [{}, {"id": "run", "name": "Run", "wallow": None}]
    boar = {**BOAR, "moves": [{"on": "2026-07-11", "to": "run"}]}
    plan = case(farm(pens=pens, animals=[boar])).plan
    assert [day.living[0].pen for day in plan.days] == ["creek", "run", "run"]
    assert plan.pens == ("run",)
    assert ("moving", "two") in {(job.key, job.who) for job in plan.jobs}


def test_soaked_feed_goes_out_dry_where_nobody_clears_it() -> None:
    """Twenty minutes a visit are not the hour in which it is cleared; an hour is."""
    fed = {**BOAR, "ration": "6 lb/day", "soak": "1"}
    short = case(farm({"minutes": "20"}, animals=[fed])).plan.visits[0]
    assert [(meal.soaked, meal.clear_after_h) for meal in short.meals] == [(False, None)]
    long = case(farm({"minutes": "60"}, animals=[fed])).plan.visits[0]
    assert [(meal.soaked, meal.clear_after_h) for meal in long.meals] == [(True, 1.0)]


def test_a_day_has_the_number_of_its_peak() -> None:
    """Hottest at 15:30: whoever reads the air then finds that number on the paper too."""
    plan = case(farm()).plan
    day = plan.loads["hot"].day
    assert day is not None
    peak = day.air.air_at(day.air.peak_h)
    for cls, bands in day.bands.items():
        assert max(bands) == max(band(cls, peak.temp_c, peak.rh_pct), *bands)
        assert bands[15] >= band(cls, peak.temp_c, peak.rh_pct)


def test_a_class_without_a_band_is_never_overdue() -> None:
    """Chicks need warmth, not looks by the band (heat 3.3)."""
    chicks = {"group": "Chicks", "species": "chicken", "count": "20", "born": "2026-07-05",
              "pen": "creek"}  # fmt: skip
    found = case(farm(animals=[chicks]))
    assert found.check.overdue["hot"] == {}
    assert found.plan.meals is None


# --- water, hoses, mud ---------------------------------------------------------------------


def hens(count: int = 45) -> dict[str, Any]:
    """Return a flock."""
    return {"group": "Hens", "species": "chicken", "count": str(count), "sex": "hen",
            "pen": "creek"}  # fmt: skip


def test_water_carried_by_hand_must_last_the_longest_gap() -> None:
    """45 hens on a hot day drink more in 11.5 h than a gallon; three gallons and more do."""
    short = [{"id": "d1", "kind": "bell", "holds": "1 gal"}]
    found = case(farm(pens=[{"drinkers": short, "wallow": None}], animals=[hens()]))
    values = found.found("store", "hot")
    need_l = found.plan.water.pens["creek"].amount.value * 11.5 / 24
    assert values["more"].value == pytest.approx(need_l - GAL)
    enough = [{"id": "d1", "kind": "bell", "holds": "1 gal", "count": "6"}]
    mended = case(farm(pens=[{"drinkers": enough, "wallow": None}], animals=[hens()]))
    assert "store" not in mended.told("hot")


def test_a_bucket_that_can_tip_counts_for_nothing() -> None:
    """Five gallons that a dog may knock over are no store."""
    tips = [{"id": "d1", "kind": "bucket", "holds": "50 gal", "can_tip": "yes"}]
    assert "store" in case(farm(pens=[{"drinkers": tips}])).told("hot")


PIPED = {"drinkers": [{"id": "d1", "kind": "nipple", "count": "2", "flow": "4 cup/min",
                       "fed_by": "pipe"}]}  # fmt: skip
PIPE = {"id": "pipe", "inside": "1 in", "length": "100 ft", "runs": "buried",
        "buried_depth": "18 in", "fed_by": "well"}  # fmt: skip
WELL = {"id": "well", "name": "Well", "kind": "well"}


def test_nipples_on_a_pump_run_dry_with_it() -> None:
    """No store at all: a tank for the longest gap, 11.5 h of what they drink."""
    found = case(farm(pens=[PIPED], hoses=[PIPE], water_sources=[WELL]))
    values = found.found("supply", "hot")
    daily = found.plan.water.pens["creek"].amount.value
    assert values["tank"].value == pytest.approx(daily * 11.5 / 24)


def test_a_tank_uphill_carries_them_over() -> None:
    """275 gal between the well and the pen last for days; one that needs power does not."""
    tank = {"id": "tank", "name": "Tank", "holds": "275 gal", "fed_by": "well",
            "needs_power": "no"}  # fmt: skip
    through = {**PIPE, "fed_by": "tank"}
    good = case(farm(pens=[PIPED], hoses=[through], water_sources=[WELL], tanks=[tank]))
    assert "supply" not in good.told("hot")
    powered = {**tank, "needs_power": "yes"}
    bad = case(farm(pens=[PIPED], hoses=[through], water_sources=[WELL], tanks=[powered]))
    assert "supply" in bad.told("hot")


def test_a_shared_tank_is_shared_by_what_each_pen_drinks() -> None:
    """Two boars in one pen and one in another: two thirds and one third of the tank."""
    pens = [{**PIPED, "id": "a", "wallow": None}, {**PIPED, "id": "b", "wallow": None}]
    animals = [{**BOAR, "name": str(n), "pen": pen} for n, pen in enumerate("aab")]
    tank = {"id": "tank", "name": "Tank", "holds": "90 gal", "fed_by": "well"}
    a_farm = farm(pens=pens, animals=animals, hoses=[{**PIPE, "fed_by": "tank"}],
                  tanks=[tank], water_sources=[WELL])  # fmt: skip
    need = drinking_water.for_farm(a_farm, groups.for_farm(a_farm, ON), HOT).pens
    stores = pen_stores(a_farm, need)
    assert stores["a"].tank_l == pytest.approx(60 * GAL)
    assert stores["a"].lasts.amount.value == pytest.approx(stores["b"].lasts.amount.value)


def test_a_trough_of_unknown_size_is_no_known_store() -> None:
    """Nobody can say how long it lasts, so nothing is said."""
    a_farm = farm(pens=[{"drinkers": [{"id": "d1", "kind": "trough"}]}])
    need = drinking_water.for_farm(a_farm, groups.for_farm(a_farm, ON), HOT).pens
    assert pen_stores(a_farm, need) == {}


HOSE = {"id": "pipe", "inside": "3/4 in", "length": "250 ft", "sun": "full", "colour": "dark",
        "flow": "5 gal/min", "fed_by": "well"}  # fmt: skip


def test_a_hose_in_the_sun_wants_a_run_every_two_hours() -> None:
    """Full sun on a dark hose ends far above 100 F (water-71: over 120 F at 90 F air)."""
    found = case(farm(pens=[PIPED], hoses=[HOSE], water_sources=[WELL]))
    values = found.found("hose", "hot")
    assert values["every"].value == 2.0
    assert values["ends"].value > celsius(120)
    assert (values["start_clock"], values["end_clock"]) == (6.5, 13.0)


@pytest.mark.parametrize("mend", ["bury", "visits", "unused"])
def test_a_buried_hose_or_frequent_visits_mend_it(mend: str) -> None:
    """In the ground, run every two hours of the sun, or feeding no pen of the stay."""
    hose = {**HOSE, "runs": "buried"} if mend == "bury" else HOSE
    every_two = [f"{hour:02d}:00" for hour in range(6, 23, 2)]
    stay = {"visits": every_two} if mend == "visits" else {}
    pen = PEN if mend == "unused" else PIPED
    found = case(farm(stay, [pen], hoses=[hose], water_sources=[WELL]))
    assert "hose" not in found.told("hot")


def test_a_hose_without_a_place_is_judged_by_the_clock() -> None:
    """Without sunrise all of a day's gap counts, and none of the night's."""
    found = case(farm(pens=[PIPED], hoses=[HOSE], water_sources=[WELL], about={"place": {}}))
    values = found.found("hose", "hot")
    assert values["end_clock"] == 13.0


def test_a_small_wallow_loses_too_much_between_visits() -> None:
    """A boar carries off some 60 L a day (wallow-50); two feet across hold a few litres."""
    small = {"wallow": {"id": "w1", "shape": "round", "length": "2 ft", "depth": "4 in"}}
    values = case(farm(pens=[small])).found("wallow", "hot")
    assert values["lost"].value > 50
    assert "wallow" not in case(farm()).told("hot")


def test_a_wallow_of_unknown_width_is_left_out() -> None:
    """Nobody knows what it holds."""
    oval = {"wallow": {"id": "w1", "shape": "oval", "length": "14 ft", "depth": "10 in"}}
    found = case(farm(pens=[oval, {"id": "dry", "wallow": None}]))
    assert found.plan.top_ups == {}
    assert "wallow" not in found.told("hot")


# --- drinkers ------------------------------------------------------------------------------


def test_too_few_drinkers_and_the_second_that_mends_it() -> None:
    """Growing pigs: at least two a group (water-1), so that one cannot keep the others off."""
    growers = {"group": "Growers", "species": "pig", "count": "8", "weight": "78 lb",
               "weighed": "2026-05-20", "pen": "creek"}  # fmt: skip
    bowl = {"id": "d1", "kind": "bowl", "flow": "4 cup/min"}
    found = case(farm(pens=[{"drinkers": [bowl]}], animals=[growers]))
    values = found.found("drinkers")
    assert (values["need"], values["there"]) == (2, 1)
    two = case(farm(pens=[{"drinkers": [{**bowl, "count": "2"}]}], animals=[growers]))
    assert "drinkers" not in two.told()


def test_a_drinker_too_slow_for_the_animals_of_the_stay() -> None:
    """A sow in milk wants 8 cups a minute or 2 L/min by other books (water-1); 1 is slow."""
    sow = {**SOW, "bred": None, "farrowed": "2026-07-01", "litter": "9"}
    slow = {"drinkers": [{"id": "d1", "kind": "nipple", "count": "2", "flow": "1 cup/min"}]}
    assert "slow" in case(farm(pens=[slow], animals=[sow])).told()
    fast = {"drinkers": [{"id": "d1", "kind": "nipple", "count": "2", "flow": "12 cup/min"}]}
    assert "slow" not in case(farm(pens=[fast], animals=[sow])).told()


def test_one_drinker_alone_may_stay_blocked_too_long() -> None:
    """A boar needs one place; if it blocks at seven in the evening he is dry until morning."""
    one = {"drinkers": [{"id": "d1", "kind": "nipple", "flow": "4 cup/min"}]}
    assert case(farm(pens=[one])).found("one-drinker")["pens"] == "creek"
    two = {"drinkers": [{"id": "d1", "kind": "nipple", "count": "2", "flow": "4 cup/min"}]}
    assert "one-drinker" not in case(farm(pens=[two])).told()
    often = [f"{hour:02d}:00" for hour in range(0, 24, 4)]
    assert "one-drinker" not in case(farm({"visits": often}, [one])).told()
    assert "one-drinker" not in case(farm({"visits": []}, [one])).told()


# --- power, feed, births -------------------------------------------------------------------


def test_fuel_must_last_until_the_next_visit() -> None:
    """4 gal at 0.5 gal/h are 8 h, the night is 11.5 h; 6 gal are 12 h."""
    engine = {"id": "gen", "name": "Red", "running": "2800 W", "fuel": "4 gal",
              "fuel_rate": "0.5 gal/h"}  # fmt: skip
    assert case(farm(generators=[engine])).found("fuel")["lasts"].value == pytest.approx(8.0)
    assert "fuel" not in case(farm(generators=[{**engine, "fuel": "6 gal"}])).told()
    assert "fuel" not in case(farm(generators=[{**engine, "fuel_rate": None}])).told()


def test_soaked_feed_wants_somebody_to_clear_it() -> None:
    """Leftovers go within the hour; half an hour at the farm is too short to see to that."""
    soaked = {**BOAR, "ration": "6 lb/day", "soak": "1"}
    assert case(farm({"minutes": "30"}, animals=[soaked])).found("soaked")["who"] == "Hector"
    assert "soaked" not in case(farm({"minutes": "60"}, animals=[soaked])).told()
    assert "soaked" not in case(farm({"minutes": "30"})).told()


def test_a_birth_in_the_stay_is_told() -> None:
    """The sow bred on 22 March is due in it; one bred in June is not."""
    values = case(farm(animals=[SOW])).found("birth")
    assert (values["who"], values["first_date"]) == ("Clementine", "2026-07-11")
    late = {**SOW, "bred": "2026-06-01"}
    assert "birth" not in case(farm(animals=[late])).told()


def test_what_only_the_owner_does_is_told() -> None:
    """She moves to where she farrows by 10 July, the stay's first day; later, in August."""
    values = case(farm(animals=[SOW])).found("owner-job")
    assert (values["who"], values["job"]) == ("Clementine", "move to farrowing")
    assert values["last_date"] == "2026-07-10"
    assert "owner-job" not in case(farm(animals=[{**SOW, "bred": "2026-06-01"}])).told()


def test_meals_outside_the_feeding_hours_are_told() -> None:
    """Feed at eleven in the morning and three in the afternoon, in the heat of the day."""
    found = case(farm({"visits": ["11:00", "15:00"]}))
    assert {"morning-late", "evening-early"} <= set(found.told("hot"))
    assert "morning-late" not in found.told("extreme")
    early = farm({"visits": ["06:00", "13:00", "19:00"]})
    assert not {"morning-late", "evening-early"} & set(case(early).told("hot"))


def test_a_meal_half_an_hour_late_is_a_conflict() -> None:
    """Sunrise is 06:32, first light half an hour before, to five minutes; 06:30 is late."""
    values = case(farm()).found("morning-late", "hot")
    assert values["at_clock"] == 6.5
    assert values["by_clock"] == pytest.approx(6.0)


# --- minutes and people --------------------------------------------------------------------


def test_work_that_does_not_fit_the_minutes() -> None:
    """Walking and tasks take 5.5 min, and 5 are not enough."""
    found = case(farm({"minutes": "5"}))
    over = [dict(one.values) for one in found.check.always if one.key == "minutes"]
    assert [values["at_clock"] for values in over] == [6.5, 13.0, 19.0]
    assert "minutes" not in case(farm()).told()


def test_minutes_that_nobody_wrote_down() -> None:
    """Asked for, and nothing is held against them."""
    found = case(farm({"minutes": None}))
    assert "no-minutes" in found.told()
    assert "minutes" not in found.told()


def test_a_new_helper_may_do_a_fifth_on_the_first_day() -> None:
    """20 % of eight hours are 96 min, 20 % more each day (heat-5)."""
    growers = {"group": "Hens", "species": "chicken", "count": "400", "sex": "hen",
               "pen": "creek"}  # fmt: skip
    plain = [{"wallow": None, "drinkers": [{"id": "d1", "kind": "nipple", "count": "2"}]}]
    found = case(farm({"new_to_heat": "yes"}, pens=plain, animals=[growers]))
    values = found.found("new-helper")
    assert values["most"].value == pytest.approx(96.0)
    assert (values["first"], values["last"]) == (1, 1)
    assert "new-helper" not in case(farm({"new_to_heat": "yes"})).told()
    # 800 hens: 258.5 min are over 192 min of the second day and under 288 of the third
    more = {**growers, "count": "800"}
    values = case(farm({"new_to_heat": "yes"}, pens=plain, animals=[more])).found("new-helper")
    assert values["need"].value == 258.5
    assert (values["first"], values["last"]) == (1, 2)
    most = {**growers, "count": "1200"}  # 378.5 min: over on every day of the stay
    values = case(farm({"new_to_heat": "yes"}, pens=plain, animals=[most])).found("new-helper")
    assert (values["first"], values["last"]) == (1, 3)
    assert "new-helper" not in case(farm(animals=[growers])).told()


def test_too_hot_to_carry_in_the_sun_but_not_to_look_from_the_shade() -> None:
    """95 F and full sun at one o'clock: the table says stop for moderate work (heat-7)."""
    values = case(farm()).found("light-only", "hot")
    assert "13:00" in values["at_clocks"]
    assert "light-only" not in case(farm(), COOL, COOL).told("hot")


def test_nobody_works_in_the_worst_air() -> None:
    """At 117 F even light work in the shade is past the table (heat-7)."""
    killing = weather(117, 85, 80)
    values = case(farm({"visits": ["05:00", "16:00"]}), killing, killing).found("stop", "hot")
    assert values["at_clocks"] == "16:00"


def test_a_visit_with_its_rests_may_not_fit() -> None:
    """400 hens are 45 min of work; at 82 F in the sun some of each hour is rest (heat-7)."""
    flock = {"group": "Hens", "species": "chicken", "count": "400", "sex": "hen",
             "pen": "creek"}  # fmt: skip
    warm = weather(84, 66, 60)
    stay = {"visits": ["10:30"], "minutes": "50"}
    found = case(farm(stay, animals=[flock]), warm, warm)
    values = found.found("rest", "hot")
    work, rest = (int(part) for part in values["minutes"].split("/"))
    assert work + rest == 60
    assert values["need"].value == pytest.approx(values["work"].value * 60 / work)
    long = farm({**stay, "minutes": "600"}, animals=[flock])
    assert "rest" not in case(long, warm, warm).told("hot")


# --- the tables ----------------------------------------------------------------------------


def test_our_rules_say_that_they_are_ours() -> None:
    """Every row of stay_rules.csv is our choice but the weekly flow test (water-10)."""
    for row in published.rows("stay_rules"):
        published_row = row.text("rule") == "flow test every"
        assert ("our-choice" in row.sources) is not published_row
