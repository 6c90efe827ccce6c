"""The farm's facts as they stand on pages: pens, feed, water, equipment.

The values are those of the invented example farm; the sums are done by hand beside each check.
"""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

import pytest

from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import work_out
from binder.pages import facts, pen_facts
from binder.pages.book import names
from binder.pages.context import Context
from binder.pages.feed import feed_facts
from binder.pages.power import equipment_facts
from binder.pages.tags import tags
from binder.pages.text import words
from binder.pages.text.farm_names import in_order
from binder.pages.text.listing import sentences
from binder.pages.water import water_facts
from tests import farm_data

if TYPE_CHECKING:
    from pathlib import Path

    from binder.pages.views import PenView

DAY = dt.date(2026, 6, 1)


def context_of(folder: Path) -> Context:
    """Return what composing knows of a farm folder, pens as its only sheets."""
    owner = read_folder(folder)
    farm = check(owner)
    figures = work_out(farm, DAY, owner.weather)
    sheets = {f"pen-{pen.id}": f"P{n}" for n, pen in enumerate(in_order(farm), 1)}
    sheets |= {f"chart-{name.replace(' ', '-')}": "H" for name in figures.bands.charts}
    sheets |= {"equipment": "Q1"}
    return Context(figures, words.load("en", "us"), sheets, tags(farm, figures.herd))


@pytest.fixture(scope="module")
def example() -> Context:
    """Return what composing knows of the example farm."""
    return context_of(farm_data.EXAMPLE)


@pytest.fixture(scope="module")
def pens(example: Context) -> dict[str, PenView]:
    """Return the example's pens by id."""
    return {pen.id: pen for pen in pen_facts.pens(example)}


def changed(tmp_path: Path, **files: object) -> Context:
    """Return the example with whole files changed."""
    data = farm_data.read() | {f"{name}.yaml": tree for name, tree in files.items()}
    return context_of(farm_data.write(data, tmp_path / "farm"))


def test_a_shade_cloth_says_how_much_it_keeps_off(pens: dict[str, PenView]) -> None:
    """Both cloths of the example keep off 80 % of the sun; trees state no share."""
    assert "of 80% shade cloth (over the wallow)" in str(pens["creek"].shade)
    assert str(pens["woods"].shade).endswith("of trees")


def test_who_lives_in_a_pen(pens: dict[str, PenView]) -> None:
    """Names with their class, groups with their count, piglets with their sow."""
    assert pens["stall-1"].who == "Marigold (sow, 9 piglets)"
    assert pens["hen-run"].who == "45 laying hens"
    goats = "4 goats (Does), Juniper (goat), Pepper (goat), Bramble (dog)"
    assert pens["goat-lot"].who == goats


def test_feed_is_said_in_scoops(example: Context) -> None:
    """5 lb a day is 2.5 lb a meal; of a 3-lb scoop that is 0.83, so 3/4 scoop."""
    lines = {feed.group: str(feed.line) for feed in feed_facts.feeds(example)}
    assert lines["Poppy"] == "Poppy: 3/4 scoop of Sow pellets, morning and evening"
    # 6 lb in two meals of 3 lb: one scoop, and not "1 scoops".
    assert lines["Hector"] == "Hector: 1 scoop of Sow pellets, morning and evening"


def test_hay_is_never_said_as_pellets(example: Context) -> None:
    """A published ration for does is hay and all; pellets nobody wrote down are not made up.

    Too much grain at once can kill a goat (husbandry-76).
    """
    feeds = {feed.group: feed for feed in feed_facts.feeds(example)}
    assert str(feeds["Does"].line) == (
        "Does: hay always there. No Goat pellets, unless the notes below say so"
    )
    assert feeds["Does"].each == "hay only"
    assert feeds["Does"].morning == "hay only"
    assert feeds["Does"].when == "always there"
    assert "lb" not in str(feeds["Does"].line)


def test_feed_without_a_name(tmp_path: Path) -> None:
    """A published ration with no feed named says that it is not recorded, in a sentence."""
    pig = {"name": "Pearl", "species": "pig", "sex": "boar", "weight": "400 lb", "pen": "woods"}
    context = changed(tmp_path, animals=[pig])
    line = str(feed_facts.feeds(context)[0].line)
    assert "of feed (which one is not recorded), morning and evening" in line
    assert "of not recorded" not in line


def test_soaking_water_in_the_owners_bucket(example: Context) -> None:
    """8 growers: a quarter of a bucket is not far more than the water, so it is named."""
    growers = next(feed for feed in feed_facts.feeds(example) if feed.group == "Growers")
    assert "of water (fits one " in str(growers.meal)


def test_drinkers_count_in_words(pens: dict[str, PenView]) -> None:
    """Two nipples each, a trough of 50 gal: as the owner recorded."""
    assert str(pens["stall-1"].drinkers) == "2 nipples, 4\u00a0cups a minute each"
    assert str(pens["creek"].drinkers) == "2 nipples, 3\u00a0cups a minute each"
    assert str(pens["goat-lot"].drinkers) == (
        "1 trough of 50\u00a0gal and 1 bucket of 5\u00a0gal"
    )


def test_what_brings_the_water(pens: dict[str, PenView]) -> None:
    """A hose by its name; what nothing feeds is filled by hand."""
    assert pens["creek"].fed_by == "Long hose to the creek paddock"
    assert pens["hen-run"].fed_by == "filled by hand"


def test_hose_names_its_shut_off(pens: dict[str, PenView], example: Context) -> None:
    """Behind a hose that hangs on another stands the well, with its lever."""
    creek = str(pens["creek"].hose_line)
    assert "3/4\u00a0in inside, 250\u00a0ft long, on the ground" in creek
    assert "All water: red lever in the well house, down is off" in creek
    tractor = next(hose for hose in water_facts.hoses(example) if hose.id == "h3")
    assert tractor.shut_off == "Red lever in the well house, down is off"
    assert tractor.bypass == "its far end"


def test_stall_without_shade_has_its_roof(pens: dict[str, PenView]) -> None:
    """Nobody looks for trees in a barn."""
    assert pens["stall-1"].shade == "only inside the shelter"


def test_wallow_is_overdue(pens: dict[str, PenView]) -> None:
    """Filled on 12 May, every 5 days: due on 17 May, and it is June."""
    wallow = pens["creek"].wallow
    assert wallow is not None
    said = str(wallow.refresh)
    assert said.startswith("It was due for draining and filling on 17 May.")
    assert said.endswith("Two people do it, never a sitter alone.")
    assert str(wallow.size).startswith("Oval, 14\u00a0ft × 9\u00a0ft, 10\u00a0in deep")


def test_tasks_of_a_visit(pens: dict[str, PenView]) -> None:
    """In the order they are done, in halves of a minute, with where the water runs out."""
    tasks = pens["creek"].tasks
    assert [task.task for task in tasks] == [
        "See both stand and drink",
        "Flush: long hose to the creek paddock",
        "Look at each waterer from outside",
        "Top up the wallow",
        "Shade cloth, from outside",
    ]
    assert str(tasks[1].how).endswith("Where: flush tap at its end, on the creek gate post.")
    assert all(re.fullmatch(r"[1-9]?(\u00a0?1/2)?", str(task.minutes)) for task in tasks)
    own = pens["goat-lot"].tasks[-1]
    assert own.task == "The owner asks"
    assert own.how == "Fill the hay rack"
    assert "Iris Tack" in str(pens["hen-run"].tasks[-1].how)


def test_one_chart_for_the_pigs_of_a_pen(pens: dict[str, PenView]) -> None:
    """A bred sow and a boar share a pen: the chart that warns sooner counts."""
    assert pens["creek"].charts == ("sows with young or due",)
    assert pens["goat-lot"].charts == ("goats and sheep", "dogs")


def test_every_animal_of_a_pen_has_its_line(pens: dict[str, PenView]) -> None:
    """A bred sow and a boar: each by name; goats and a dog too; what all ask stands first."""
    creek = pens["creek"].asks
    assert creek[3].do.startswith("Clementine: Wet her often")
    assert "Hector: Wet often. No feed before the evening meal" in creek[3].do
    assert "See the boar drink." in creek[1].do
    assert "Hector: " not in pens["stall-1"].asks[3].do
    lot = pens["goat-lot"].asks
    assert lot[1].do == (
        "Goats and sheep: Fresh cool water. Check that all lie in shade. "
        "Bramble: Fresh water, a second bowl."
    )


def test_rows_add_up(pens: dict[str, PenView]) -> None:
    """What milder numbers ask still holds; what a row asks more of is not said twice."""
    creek = pens["creek"].asks
    assert creek[0].above == ""
    assert "See the boar drink." in creek[3].above
    assert "No breeding, no moving." in creek[3].above
    assert "Wet neck, back and legs" not in creek[3].above  # "Wet often." asks for more
    stall = pens["stall-1"].asks
    assert "Fan on high." in stall[3].above
    assert "Fan on." not in stall[3].above.replace("Fan on high.", "")
    for pen in pens.values():
        for ask in pen.asks:
            parts = [part for part in ask.above.split(". ") if part and ask.do]
            assert len(set(parts)) == len(parts)


def test_what_is_outdone_is_said_somewhere() -> None:
    """Each sentence of `asks.outdone` is one that a row has, or the rule would do nothing."""
    lexicon = words.load("en", "us")
    said = {
        sentence
        for rows in lexicon.section("asks.do").values()
        for row in rows.values()
        for sentence in sentences(row)
    }
    said |= {one for rows in lexicon.section("asks.without").values() for one in rows.values()}
    for less, more in lexicon.section("asks.outdone").items():
        assert {less, *more} <= said


def test_fan_says_switch_and_breaker(example: Context) -> None:
    """Where it is switched, which breaker, where the box hangs."""
    fan = pen_facts.fans(example)[0]
    assert fan.switch == "Left of the stall door"
    assert fan.circuit == "Breaker marked FANS: Grey box left of the barn door."
    assert fan.cleaned == "2 May"
    assert pen_facts.fans(example)[1].cleaned == "not recorded"


def test_equipment_has_no_blank(example: Context) -> None:
    """Every text of every view is there, or says that it is not recorded."""
    views = (
        *equipment_facts.shut_offs(example),
        *equipment_facts.circuits(example),
        *equipment_facts.generators(example),
        *equipment_facts.tanks(example),
        *equipment_facts.sources(example),
        *equipment_facts.buckets(example),
        *equipment_facts.products(example),
    )
    assert views
    assert [view for view in views if not all(str(text) for text in view.texts.values())] == []
    assert equipment_facts.circuits(example)[2].load == "not recorded"
    assert [view.name for view in equipment_facts.products(example, "bleach")] == [
        "Household bleach"
    ]


def test_stored_water_is_told_pen_by_pen_shortest_first(example: Context) -> None:
    """The tank on the rise feeds some pens only; arithmetic of tank over what they drink."""
    hours = [one.lasts.amount.value for one in example.figures.stores.values()]
    told = [str(one.lasts) for one in water_facts.stores(example)]
    dry = [text for text in told if "dry at once" in text]
    assert len(dry) == hours.count(0) > 0
    unknown = len(told) - len(hours)
    assert told[unknown : unknown + len(dry)] == dry
    assert len(set(told)) > 2


def test_due_is_soonest_first(example: Context) -> None:
    """Clementine, bred on 28 March, farrows in July: 114 days on is 20 July (husbandry-66)."""
    due = facts.due(example)
    assert [view.name for view in due] == ["Clementine"]
    assert due[0].window == "11 to 16 July"  # overdue from the 17th, husbandry-97


def test_protocols_are_refused_what_is_not_there(example: Context) -> None:
    """A protocol that names a sheet this farm has not stops the build, and says how to ask."""
    known = names.names(example, facts.farm_view(example), pen_facts.pens(example))
    sheet = known["sheet"]
    assert callable(sheet)
    with pytest.raises(ValueError, match=r"guard it with shows"):
        sheet("no-such-sheet")
    assert str(sheet("pen-creek")) == "P6"


def test_protocols_may_ask_for_pens(example: Context) -> None:
    """By what stands in them, and by who lives in them."""
    known = names.names(example, facts.farm_view(example), pen_facts.pens(example))
    with_tag, of_kind = known["pens_with"], known["pens_of"]
    assert callable(with_tag)
    assert callable(of_kind)
    assert [pen.id for pen in with_tag("wallow")] == ["stall-2", "creek", "woods"]
    assert [pen.id for pen in with_tag("fan")] == ["stall-1", "stall-2"]
    assert [pen.id for pen in of_kind("chicken")] == ["hen-run", "tractor"]
