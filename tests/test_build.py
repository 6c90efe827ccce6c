"""One run names what is wrong in every file of a farm; `check` and `build` share the steps."""

from __future__ import annotations

import datetime as dt
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder.build import book_of, composed
from binder.day import shortfalls
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from tests.conftest import FarmFolder

DAY = dt.date(2026, 6, 1)
EXAMPLE = Path(__file__).resolve().parent.parent / "content" / "example-farm"
SOUND = {
    "farm.yaml": 'name: Small Place\nplace: {address: "1 Dry Road, Somewhere, Texas"}\n',
    "animals.yaml": "- {name: Dot, species: pig, sex: sow, pen: lot}\n",
    "pens.yaml": "- {id: lot, name: The lot, kind: pasture}\n",
    "contacts.yaml": "- {name: Ann Owner, role: owner, phone: 555-0100}\n",
}
HEAD = "---\ntitle: Ours\nsheet: {}\nreviewed: 2026-05-01\nsummary: Ours.\n---\n"
BROKEN = {
    "weather.csv": "time,temperature (F),dew_point (F)\n2026-06-01 12:00,hot,70\n",
    "ledger.yaml": "sheets: {}\nhand-overs: [1]\n",
    "protocols/one.md": HEAD.format("W40") + "Ask {{ nobody }}.\n",
    "protocols/two.md": HEAD.format("not a sheet") + "Ours.\n",
}


def places(folder: Path) -> set[str]:
    """Return file and line of each problem that one run of check names."""
    with pytest.raises(ProblemsError) as caught:
        shortfalls(folder, DAY)
    return {f"{each.place.file}:{each.place.line}" for each in caught.value.problems}


def test_one_run_names_the_problems_of_all_files(farm_folder: FarmFolder) -> None:
    """Weather, ledger, front matter and the template of a protocol, each with its line."""
    assert places(farm_folder(SOUND | BROKEN)) == {
        "weather.csv:2",
        "ledger.yaml:2",
        "protocols/one.md:7",
        "protocols/two.md:3",
    }


def test_a_mistake_in_the_farm_hides_no_other_file(farm_folder: FarmFolder) -> None:
    """Only what a template says needs the farm to be whole first."""
    pens = {"pens.yaml": "- {id: lot, name: The lot, kind: meadow}\n"}
    assert places(farm_folder(SOUND | BROKEN | pens)) == {
        "pens.yaml:1",
        "weather.csv:2",
        "ledger.yaml:2",
        "protocols/two.md:3",
    }


def test_a_picture_cut_off_is_told_with_the_rest(tmp_path: Path) -> None:
    """Its head is whole, so that only opening it tells."""
    folder = tmp_path / "farm"
    shutil.copytree(EXAMPLE, folder)
    picture = folder / "pictures" / "creek-gate.png"
    picture.write_bytes(picture.read_bytes()[:2_000])
    (folder / "protocols").mkdir(exist_ok=True)
    (folder / "protocols" / "one.md").write_text(HEAD.format("W40") + "Ask {{ nobody }}.\n")
    found = places(folder)
    assert f"pictures/{picture.name}:0" in found
    assert "protocols/one.md:7" in found


def test_check_and_build_say_the_same(farm_folder: FarmFolder) -> None:
    """What stops one stops the other, with the same words."""
    folder = farm_folder(SOUND | BROKEN)
    with pytest.raises(ProblemsError) as checked:
        shortfalls(folder, DAY)
    with pytest.raises(ProblemsError) as built:
        book_of(folder, DAY)
    assert str(checked.value) == str(built.value)


def test_a_sound_farm_is_composed_whole(farm_folder: FarmFolder) -> None:
    """Owner, figures and book are of one farm and one day."""
    made = composed(farm_folder(SOUND), DAY)
    assert made.figures.on == DAY
    assert made.book.name == made.figures.farm.about.name == "Small Place"
