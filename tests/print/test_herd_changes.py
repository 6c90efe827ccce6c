"""After changes in the herd a handful of sheets is replaced, and only those."""

from __future__ import annotations

import datetime as dt
import random
import shutil
from typing import TYPE_CHECKING, Any

import pytest
import yaml

from binder.build import book_of, other_days
from binder.cache import Cache
from binder.output import print as print_step
from binder.output.handed import ledger_file, ledger_texts
from binder.output.handed.by_pen import corrected, shown
from binder.output.handed.changes import all_changes, marks
from binder.output.handed.fingerprint import foot_seen, seen
from binder.output.handed.given import given_sheets
from binder.output.handed.hand_over import hand_over
from binder.output.print import PrintOptions, render_book
from tests.one_for_all import OneForAll
from tests.print.conftest import DAY, EXAMPLE

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from binder.output.handed.by_pen import Cell
    from binder.output.handed.changes import Changes
    from binder.pages.page import Book

pytestmark = pytest.mark.slow


SITTER = "Marisol Quade"  # of the July stay


@pytest.fixture
def farm(tmp_path: Path) -> Path:
    """Return a copy of the example farm whose binder Dana got, in the sitter's edition."""
    return handed_to("Dana", tmp_path)


def handed_to(name: str, tmp_path: Path) -> Path:
    """Return a copy of the example farm with a sitter's binder handed over."""
    folder = tmp_path / "farm"
    shutil.copytree(EXAMPLE, folder)
    hand_over(folder, book_of(folder, DAY), name, DAY, "sitter")
    return folder


def edit(farm: Path, change: Callable[[list[dict[str, Any]]], None]) -> None:
    """Change the list of animals."""
    path = farm / "animals.yaml"
    herd = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506 -- our own
    change(herd)
    path.write_text(yaml.safe_dump(herd, sort_keys=False, allow_unicode=True), encoding="utf-8")


def one(herd: list[dict[str, Any]], name: str) -> dict[str, Any]:
    """Return one animal."""
    return next(animal for animal in herd if animal.get("name") == name)


def found(farm: Path, on: dt.date = DAY) -> Changes | None:
    """Return what to change in Dana's binder on a day."""
    ledger, texts = ledger_file.load(farm), ledger_texts.load(farm)
    changed = all_changes(ledger, book_of(farm, on), texts, other_days(farm))
    return changed[0] if changed else None


def shows(book: Book) -> dict[str, tuple[Cell, ...]]:
    """Return what each sheet of the sitter's edition says."""
    return {
        page.slug: shown(seen(page, book.pictures)[1:]) for page in given_sheets(book, "sitter")
    }


def random_edit(farm: Path, chance: random.Random) -> None:
    """Change one thing in the farm folder: what an owner does in a summer."""
    what = chance.choice(["sell", "weigh", "move", "grow", "rename", "phone", "hose"])
    if what in {"sell", "weigh", "move", "grow"}:

        def herd_edit(herd: list[dict[str, Any]]) -> None:
            named = [animal for animal in herd if animal.get("species") == "pig"]
            animal = chance.choice(named)
            if what == "sell" and "litter" not in animal:
                herd.remove(animal)
            elif what == "move" and animal.get("sex") == "gilt":
                animal["pen"] = "woods"
            elif what == "grow" and "count" in animal:
                animal["count"] = str(int(animal["count"]) + 1)
            else:
                animal["weight"] = f"{chance.randint(60, 500)} lb"

        edit(farm, herd_edit)
        return
    name, old, new = {
        "rename": ("pens.yaml", "name: Creek paddock", "name: Brook paddock"),
        "phone": ("contacts.yaml", "912-555-0132", f"912-555-01{chance.randint(80, 99)}"),
        "hose": ("equipment.yaml", "length: 250 ft", f"length: {chance.randint(251, 290)} ft"),
    }[what]
    path = farm / name
    path.write_text(path.read_text("utf-8").replace(old, new), encoding="utf-8")


@pytest.mark.parametrize("seed", range(3))
def test_old_binder_minus_pulled_plus_put_in_plus_pen_is_a_new_one(
    farm: Path, seed: int
) -> None:
    """Whoever does every line of the pack has the binder that would be printed today."""
    chance = random.Random(seed)
    before = book_of(farm, DAY)
    paper = shows(before)
    for _ in range(chance.randint(1, 3)):
        random_edit(farm, chance)
    after = book_of(farm, DAY)
    ledger, texts = ledger_file.load(farm), ledger_texts.load(farm)
    new = shows(after)
    for told in all_changes(ledger, after, texts):
        for line in told.sheets:
            paper.pop(line.slug, None)
            if line.put:
                paper[line.slug] = new[line.slug]
        for line in told.pens:
            (page,) = (page for page in before.pages if page.slug == line.slug)
            paper[line.slug] = corrected(seen(page, before.pictures)[1:], line.pens)
        if told.foot and not told.whole:
            foot = corrected(foot_seen(before.foot), told.foot_pens)
            assert foot == shown(foot_seen(after.foot))
    assert paper == new


def test_nothing_changed_nothing_to_pull(farm: Path) -> None:
    """The same farm on the same day asks for nothing."""
    assert found(farm) is None


def test_a_note_that_stands_on_no_sheet_changes_none(farm: Path) -> None:
    """A comment in a file is not printed and makes no revision."""
    path = farm / "animals.yaml"
    path.write_text("# counted again on Sunday\n" + path.read_text("utf-8"), encoding="utf-8")
    assert found(farm) is None


def test_days_that_pass_change_no_sheet(farm: Path) -> None:
    """Growing animals eat a little more, dates are past: the papers stay.

    After a week a bottle of bleach has lost strength, which may not drift: one pen line.
    """
    assert found(farm, DAY + dt.timedelta(days=1)) is None
    later = found(farm, DAY + dt.timedelta(days=7))
    assert later is None or (not later.sheets and {line.put for line in later.pens} <= {"M2"})


def test_sell_a_pig_add_a_litter_move_the_boar(farm: Path) -> None:
    """A handful of sheets, each with what to pull and what to put in; emergencies stay."""

    def change(herd: list[dict[str, Any]]) -> None:
        herd.remove(one(herd, "Fern"))
        one(herd, "Marigold")["litter"] = "11"
        one(herd, "Hector")["pen"] = "woods"

    edit(farm, change)
    changed = found(farm)
    assert changed is not None
    pens = {line.pulled for line in changed.lines if line.pulled[:1] == "P"}
    names = {page.slug: page.sheet for page in book_of(farm, DAY).pages}
    wanted = {names[f"pen-{pen}"] for pen in ("stall-1", "stall-2", "creek", "woods")}
    assert pens == wanted
    assert not changed.whole
    # Visit cards hold every pen's amounts for one visit, so all of a stay's change with a pen.
    others = [line for line in changed.lines if line.put[0] != "R"]
    in_the_binder = [line for line in others if not line.kind]  # cards and charts hang outside
    assert len(in_the_binder) <= 25, [line.put for line in in_the_binder]
    assert all(line.pulled == line.put for line in changed.lines), "no sheet is renumbered"
    assert all(line.pulled_revision == 1 and line.mark.draft for line in changed.lines)
    # The log of a stay tells how many heads to count in each pen; the other logs stay.
    counted = {f"log-{stay}" for stay in ("july", "august-weekend")}
    assert {line.slug for line in changed.lines if line.put[0] in "ELK"} <= counted


def test_only_what_changed_is_drawn(
    farm: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After the hand-over, one heavier sow draws a few sheets anew; the others are kept."""
    monkeypatch.setattr(print_step, "Workers", OneForAll)
    options = PrintOptions(edition="sitter", cache=Cache(tmp_path / "cache"))
    before = book_of(farm, DAY)
    ledger = ledger_file.load(farm)
    first = render_book(before, tmp_path, options=options, marks=marks(ledger, before))
    assert first.drawn >= len(first.lines)
    edit(farm, lambda herd: one(herd, "Clementine").update(weight="441 lb"))
    after = book_of(farm, DAY)
    result = render_book(after, tmp_path, options=options, marks=marks(ledger, after))
    assert 2 <= result.drawn <= len(result.lines) / 4


GILT = {
    "name": "Olive", "species": "pig", "sex": "gilt", "purpose": "breeding", "pen": "woods",
    "mark": "White, yellow tag 23", "born": "2025-11-01", "weight": "230 lb",
    "weighed": "2026-05-30", "ration": "5 lb/day", "feed": "sow-feed",
}  # fmt: skip


def add_a_gilt(farm: Path) -> None:
    """Put another gilt into the woods."""
    edit(farm, lambda herd: herd.append(dict(GILT)))


def sell_a_gilt(farm: Path) -> None:
    """Take one of two away."""
    edit(farm, lambda herd: herd.remove(one(herd, "Fern")))


def move_a_gilt(farm: Path) -> None:
    """Move one of two to the growers, a month before she was to go."""

    def change(herd: list[dict[str, Any]]) -> None:
        one(herd, "Poppy")["pen"] = "woods"
        del one(herd, "Poppy")["moves"]

    edit(farm, change)


def rewrite(name: str, old: str, new: str) -> Callable[[Path], None]:
    """Return an edit of words in one of the farm's files."""

    def change(farm: Path) -> None:
        path = farm / name
        assert old in path.read_text("utf-8")
        path.write_text(path.read_text("utf-8").replace(old, new), encoding="utf-8")

    return change


def walk_the_other_way(farm: Path) -> None:
    """Go past the tractor before the hen run."""
    for old, new in (
        ("route: 4", "route: 0"),
        ("route: 5", "route: 4"),
        ("route: 0", "route: 5"),
    ):
        rewrite("pens.yaml", old, new)(farm)


# The aim is 8 sheets, for a new name 15; those that come to fewer are held to what they do.
@pytest.mark.parametrize(
    ("change", "most"),
    [
        (add_a_gilt, 8),
        (sell_a_gilt, 2),
        (move_a_gilt, 5),
        (rewrite("pens.yaml", "name: Creek paddock", "name: Brook paddock"), 3),
        (walk_the_other_way, 4),
        (rewrite("equipment.yaml", "length: 250 ft", "length: 275 ft"), 1),
        (rewrite("contacts.yaml", "912-555-0132", "912-555-0139"), 0),
    ],
    ids=[
        "added",
        "sold",
        "moved",
        "renamed",
        "another way",
        "a longer hose",
        "the vet's phone",
    ],
)
def test_one_edit_prints_few_sheets_for_a_sitter(
    change: Callable[[Path], None], most: int, tmp_path: Path
) -> None:
    """What else changed is written in by pen, and makes the old sheet say the new one."""
    farm = handed_to(SITTER, tmp_path)
    change(farm)
    told = found(farm)
    assert told is not None
    assert not told.whole
    assert len(told.sheets) <= most, [line.put or line.pulled for line in told.sheets]


def test_a_sitter_learns_nothing_of_a_stay_that_is_not_theirs(tmp_path: Path) -> None:
    """No plan, card or log of the August stay, whatever changes."""
    farm = handed_to(SITTER, tmp_path)
    add_a_gilt(farm)
    told = found(farm)
    assert told is not None
    assert not [line.slug for line in told.lines if "august" in line.slug]
