"""Packs of other farms than the example: none may stop a build, none may lead out of itself."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder import packs
from binder.build import checked
from binder.data import CONTENT
from binder.figures.figures import of_stay
from binder.pages.pack import alone
from tests import farm_data

if TYPE_CHECKING:
    from pathlib import Path

    from tests.conftest import FarmFolder

DAY = dt.date(2026, 7, 5)
SMALL = {
    "farm.yaml": "name: Quiet Acre\nplace: {address: 1 Sample Road}\nunits: us\n",
    "contacts.yaml": "- {name: Ann, role: owner, phone: 555-0110}\n",
    "pens.yaml": "- {id: lot, name: Lot, kind: pasture}\n",
    "stays.yaml": "- {id: w, from: 2026-07-10, to: 2026-07-12, sitter: Bo}\n",
}
ANIMALS = {
    "one sow": "- {name: Pru, species: pig, sex: sow, pen: lot, bred: 2026-03-20}",
    "hens": "- {group: Hens, species: chicken, sex: hen, count: 9, pen: lot}",
    "cattle and horses": "- {name: Dot, species: cattle, sex: cow, weight: 1100 lb, pen: lot}\n"
    "- {name: Bay, species: horse, sex: mare, weight: 1000 lb, pen: lot}",
    "rabbits and sheep": "- {group: Does, species: rabbit, sex: doe, count: 4, pen: lot}\n"
    "- {group: Ewes, species: sheep, sex: ewe, count: 4, weight: 150 lb, pen: lot}",
}


def stands_alone(folder: Path, on: dt.date = DAY) -> None:
    """Compose every pack that is due, and hold that each leads to itself alone."""
    owner, farm = checked(folder, on)
    papers = packs.due(owner, farm, on)
    assert papers
    for paper in papers:
        if paper.stem.startswith("stay-"):
            assert alone.strangers(paper.book.pages) == {}
        else:
            assert len(paper.book.pages) == 4


@pytest.mark.parametrize("animals", ANIMALS.values(), ids=ANIMALS.keys())
def test_a_small_farm_without_place_or_visits(farm_folder: FarmFolder, animals: str) -> None:
    """No hours of heat, no cards, no wallow, no map: the pages that are left stand alone."""
    stands_alone(farm_folder({**SMALL, "animals.yaml": animals}))


def test_a_metric_farm_abroad() -> None:
    """The example in Spain, where it has a stay of its own or is given one."""
    on = dt.date(2026, 7, 5)
    owner, farm = checked(CONTENT / "example-finca", on)
    (first, *_) = farm.stays
    papers = packs.named(owner, farm, first.first - dt.timedelta(days=1), first.id)
    assert alone.strangers(papers[0].book.pages) == {}
    words = " ".join(page.body for page in papers[0].book.pages)
    assert "911" not in words


def test_many_visits_share_the_columns_of_the_pocket() -> None:
    """August's seven visits a day: four sides all the same."""
    stands_alone(CONTENT / "example-farm", dt.date(2026, 8, 14))


def test_who_is_not_there_to_clear_feed_is_told_of_dry_feed_everywhere() -> None:
    """Visits said dry, as nobody clears it in time; the page of feed said soaked."""
    on = dt.date(2026, 6, 20)
    owner, farm = checked(CONTENT / "example-farm", on)
    short = farm.stays[0].model_copy(update={"minutes": 30})
    farm = farm.model_copy(update={"stays": (short,)})
    for paper in packs.named(owner, farm, on, "july"):
        told = {page.slug: page.body for page in paper.book.pages if page.tab != "E"}
        assert not [slug for slug, body in told.items() if "soaked in" in body]
        if paper.stem.startswith("stay-"):
            dry = [slug for slug, body in told.items() if "dry (nobody is there" in body]
            assert {"visit-july-0630", "pen-stall-1", "pen-stall-2", "stay-feed"} <= set(dry)


def test_an_owners_own_emergency_may_name_what_no_pack_holds(tmp_path: Path) -> None:
    """Then its sentence says the owner's binder in place of a sheet that is not there."""
    folder = farm_data.write(farm_data.read(), tmp_path / "farm")
    (folder / "protocols").mkdir()
    text = (
        "---\ntitle: A bird is down\nsheet: E3\nkind: emergency\nreviewed: 2026-06-01\n"
        "sources: [our-choice]\nsummary: A bird.\n---\n## See\n\nA bird is down.\n\n## Do\n\n"
        "1. Read on {{ sheet('weekly-care') }} and act.\n\n## Call\n\n- Owner\n"
    )
    (folder / "protocols" / "e03-bird-down.md").write_text(text, encoding="utf-8")
    owner, farm = checked(folder, DAY)
    book = packs.named(owner, farm, DAY, "july")[0].book
    (page,) = [one for one in book.pages if one.sheet == "E3"]
    assert "on the owner&#39;s binder" in page.body or "on the owner's binder" in page.body
    assert alone.strangers(book.pages) == {}


def test_a_pen_that_empties_within_a_stay(tmp_path: Path) -> None:
    """Looks are planned for the pens of the plan: the middle day's pens were asked once."""
    data = farm_data.read()
    data["animals.yaml"] = [
        {**one, "moves": [{"on": "2026-07-18", "to": "hen-run"}]}
        for one in data["animals.yaml"]
        if one["pen"] == "tractor"
    ]
    folder = farm_data.write(data, tmp_path / "farm")
    stands_alone(folder)
    farm = checked(folder, DAY)[1]
    plan = of_stay(farm, farm.stays[0]).stays["july"]
    assert plan.loads
    assert all(set(load.allowed) <= set(plan.pens) for load in plan.loads.values())


def test_animals_in_no_pen(tmp_path: Path) -> None:
    """A stay then knows its nights, but no pen to look at."""
    data = farm_data.read()
    kept = [one for one in data["animals.yaml"] if one.get("name") == "Juniper"]
    data["animals.yaml"] = [{key: one[key] for key in one if key != "pen"} for one in kept]
    stands_alone(farm_data.write(data, tmp_path / "farm"))
