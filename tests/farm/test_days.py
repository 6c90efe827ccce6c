"""What the calendar says against a farm's records."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from binder.farm.check import check, notes
from binder.farm.load import read_folder
from binder.problems import ProblemsError
from tests.farm.conftest import SMALL

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tests.conftest import FarmFolder

ON = dt.date(2026, 6, 1)
SOW = "- {name: Daisy, species: pig, sex: sow, pen: creek, %s}\n"


def noted(farm_folder: FarmFolder, files: Mapping[str, str], on: dt.date = ON) -> list[str]:
    """Return the notes on a farm that holds no mistake."""
    written = read_folder(farm_folder({**SMALL, **files}))
    return [str(note) for note in notes(written, check(written, on), on)]


@pytest.mark.parametrize(
    ("files", "expected"),
    [
        (
            {"animals.yaml": SOW % "farrowed: 2026-06-02"},
            ("animals.yaml:1:63  Daisy > farrowed: 2026-06-02 is still to come; "
            "write the day when it happened, or check the year"),
        ),
        ({"animals.yaml": SOW % "born: 2027-05-01"}, "Daisy > born: 2027-05-01 is still"),
        (
            {"equipment.yaml": "products:\n- {id: b1, name: B, kind: bleach, strength: 6 %, "
             "bought: 2026-07-01}\n"},
            "products > b1 > bought: 2026-07-01 is still to come",
        ),
        (
            {"farm.yaml": "name: A\nplace: B\nlast_flow_test: 2026-06-10\n"},
            "farm.yaml:3:17  last_flow_test: 2026-06-10 is still to come",
        ),
    ],
)  # fmt: skip
def test_what_has_happened_lies_behind(
    farm_folder: FarmFolder, files: Mapping[str, str], expected: str
) -> None:
    """A farrowing of next year is a slip of the pen; a stay of next year is none."""
    stays = "- {id: july, from: 2027-07-01, to: 2027-07-03, sitter: Sam}\n"
    written = read_folder(farm_folder({**SMALL, "stays.yaml": stays, **files}))
    with pytest.raises(ProblemsError) as caught:
        check(written, ON)
    [said] = str(caught.value).splitlines()
    assert expected in said
    check(written, dt.date(2027, 12, 31))
    check(written)


@pytest.mark.parametrize(
    ("place", "said"),
    [
        # A slip of one figure: 31.55 lies in Georgia, 61.55 in Hudson Bay.
        (("61.55", "-82.12", "America/New_York"), "farm.yaml:4:13  place > latitude: is far"),
        (("31.55", "-42.12", "America/New_York"), "farm.yaml:5:14  place > longitude: is far"),
        # Where people live by the clock of a far town; from memory, to a tenth of a degree.
        (("24.5", "-81.8", "America/New_York"), ""),  # Key West
        (("49.0", "-122.8", "America/Los_Angeles"), ""),  # Blaine
        (("69.0", "33.1", "Europe/Moscow"), ""),  # Murmansk
        (("8.1", "77.5", "Asia/Kolkata"), ""),  # Kanyakumari
        (("-15.8", "128.7", "Australia/Perth"), ""),  # Kununurra
        (("61.55", "-82.12", "UTC"), ""),
    ],
)
def test_a_farm_far_from_its_clock_is_noted(
    farm_folder: FarmFolder, place: tuple[str, str, str], said: str
) -> None:
    """It may be so, and the owner is asked to look; nobody is refused for living far out."""
    lines = "name: A\nplace:\n  address: B\n  latitude: %s\n  longitude: %s\n  timezone: %s\n"
    found = noted(farm_folder, {"farm.yaml": lines % place})
    assert [note[: len(said)] for note in found] == ([said] if said else [])


@pytest.mark.parametrize(("day", "said"), [("2026-06-01", 0), ("2026-06-02", 1)])
def test_today_has_happened(farm_folder: FarmFolder, day: str, said: int) -> None:
    """What was done on the day itself is done; on the day after it is not."""
    written = read_folder(farm_folder({**SMALL, "animals.yaml": SOW % f"weighed: {day}"}))
    if said:
        with pytest.raises(ProblemsError):
            check(written, ON)
    else:
        check(written, ON)


@pytest.mark.parametrize(
    ("record", "expected"),
    [
        ("bred: 2026-01-26", []),  # 126 days: inside the window and a week
        ("bred: 2026-01-25", ["2026-01-25 is 127 days ago and nothing is written since"]),
        ("bred: 2025-02-27", ["2025-02-27 is 459 days ago and nothing is written since"]),
        ("bred: 2026-01-25, farrowed: 2026-05-19", []),
        ("bred: 2026-01-25, farrowed: 2025-08-01", ["nothing is written since"]),
        ("farrowed: 2025-08-01", []),
    ],
)
def test_a_birth_long_due_is_asked_for(
    farm_folder: FarmFolder, record: str, expected: list[str]
) -> None:
    """A sow farrows 111 to 120 days after breeding [husbandry-66]; a week later we ask."""
    found = noted(farm_folder, {"animals.yaml": SOW % record})
    assert len(found) == len(expected)
    assert all(text in line for text, line in zip(expected, found, strict=True))


def test_stays_that_overlap_or_are_over_are_noted(farm_folder: FarmFolder) -> None:
    """A stay typed as last year, and two sitters on one day; neither stops a build."""
    stays = (
        "- {id: last, from: 2025-07-10, to: 2025-07-19, sitter: Sam}\n"
        "- {id: july, from: 2026-07-10, to: 2026-07-19, sitter: Sam}\n"
        "- {id: eve, from: 2026-07-19, to: 2026-07-20, sitter: Eve}\n"
        "- {id: kim, from: 2026-07-21, to: 2026-07-22, sitter: Kim}\n"
    )
    assert noted(farm_folder, {"stays.yaml": stays}) == [
        "stays.yaml:1:36  last > to: 2025-07-19 is over; check the year, or take this stay out",
        (
            "stays.yaml:3:19  eve > from: overlaps the stay july, 2026-07-10 to 2026-07-19; "
            "each has its own cards, so agree who does what"
        ),
    ]


@pytest.mark.parametrize(
    ("group", "said"),
    [
        ("species: pig, count: 9, pen: creek, born: 2026-05-20", 1),
        ("species: pig, count: 9, pen: creek, born: 2026-05-27", 1),
        ("species: pig, count: 9, pen: creek, born: 2026-05-28", 0),
        ("species: pig, count: 9, born: 2026-05-20", 0),
        ("species: goat, count: 9, pen: creek, born: 2026-05-20", 0),
    ],
)
def test_young_are_counted_once(farm_folder: FarmFolder, group: str, said: int) -> None:
    """Nine piglets as her litter and again as a group would drink twice."""
    animals = SOW % "farrowed: 2026-05-20, litter: 9" + f"- {{group: Piglets, {group}}}\n"
    found = noted(farm_folder, {"animals.yaml": animals})
    assert len(found) == said
    assert all("may be the 9 young that Daisy has as her litter" in line for line in found)


@pytest.mark.parametrize(
    ("medicine", "refused"),
    [
        ("Heartworm chew #3 size, NOT the #1 of the pigs", True),
        ("Heartworm chew   # from the vet in town", False),
    ],
)
def test_a_dose_that_is_cut_is_refused(
    farm_folder: FarmFolder, medicine: str, *, refused: bool
) -> None:
    """YAML 1.1 (5.6): a comment begins at a # after a space; a dose is not a place for one."""
    animals = f"- name: Daisy\n  species: pig\n  pen: creek\n  medicine: {medicine}\n"
    expected = (
        f"animals.yaml:4:13  Daisy > medicine: ends before the #: {medicine[14:].strip()} is "
        'left out; put the whole text in "quotes", or a remark on a line of its own'
    )
    if refused:
        with pytest.raises(ProblemsError) as caught:
            noted(farm_folder, {"animals.yaml": animals})
        assert str(caught.value) == expected
    else:
        assert noted(farm_folder, {"animals.yaml": animals}) == [expected]


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("  gate: Chain #2 first", 1),
        ("  gate: 'Chain #2 first'", 0),
        ("  gate: Chain#2 first", 0),
        ("  gate: #2 first", 1),
        ("  gate:  # not known yet", 0),
        ("  notes: |\n    Chain #2 first", 0),
        ("  route: 2 # after the barn", 0),
        ("  tasks:\n  - Count them # twice", 1),
    ],
)
def test_text_behind_a_sign_is_noted(farm_folder: FarmFolder, line: str, said: int) -> None:
    """Where words are read, what is cut off is named; a remark after a number is one."""
    pens = f"- id: creek\n  name: Creek\n  kind: run\n{line}\n"
    assert len(noted(farm_folder, {"pens.yaml": pens})) == said


def test_a_task_that_is_cut_is_refused(farm_folder: FarmFolder) -> None:
    """What is left of `Fill trough #3` sends a sitter to any trough."""
    pens = "- id: creek\n  name: Creek\n  kind: run\n  tasks:\n  - Fill trough #3\n"
    with pytest.raises(ProblemsError, match=r"pens\.yaml:5:5  creek > tasks > 1: ends before"):
        noted(farm_folder, {"pens.yaml": pens})


def test_an_address_that_is_cut_is_noted(farm_folder: FarmFolder) -> None:
    """An address written as the place itself is text too."""
    farm = "name: Quiet Acre\nplace: 12 Example Road #3, Somewhere\n"
    assert len(noted(farm_folder, {"farm.yaml": farm})) == 1
