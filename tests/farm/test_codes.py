"""A gate code stands in private.yaml and nowhere that a screen shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.conftest import FarmFolder
    from tests.farm.conftest import Checked, Said

PRIVATE = 'codes:\n- {what: Gate, code: "4071", where: Post}\n- {what: Shed, code: "12"}\n'
PENS = "- {id: creek, name: Creek, kind: run, gate: %s}\n"


@pytest.mark.parametrize(
    "text", ["Keypad 4071 then lift", "4071", '"code:4071."', "Key in (4071)"]
)
def test_a_code_in_a_public_text_is_refused(said: Said, text: str) -> None:
    """Both places are named, and the code is not repeated."""
    found = said({"private.yaml": PRIVATE, "pens.yaml": PENS % text})
    assert found == [
        (
            "pens.yaml:1:45  creek > gate: holds the code that stands in private.yaml:2:22 and "
            "is printed on the keys sheet only; take it out here, or mark this private: yes"
        )
    ]


@pytest.mark.parametrize(
    "text",
    ["Chain 40712", "Call 912-555-4071", "Lift 12 inches", "A4071", "Keypad on the post"],
)
def test_other_numbers_are_left_alone(checked: Checked, text: str) -> None:
    """Parts of longer numbers, telephone numbers, and numbers too short to be told apart."""
    checked({"private.yaml": PRIVATE, "pens.yaml": PENS % text})


def test_a_private_thing_may_hold_it(checked: Checked) -> None:
    """It is printed with the keys and never shown."""
    pens = PENS.replace("gate: %s", "private: yes, gate: Keypad 4071")
    animals = "- {name: Daisy, species: pig}\n"
    checked({"private.yaml": PRIVATE, "pens.yaml": pens, "animals.yaml": animals})


def test_an_owners_protocol_may_not(farm_folder: FarmFolder, said: Said) -> None:
    """The line of the protocol is named."""
    farm_folder({"protocols/gate.md": "# Gate\n\nKey in 4071.\n"})
    [found] = said({"private.yaml": PRIVATE})
    assert found.startswith("protocols/gate.md:3:1  holds the code that stands in private.yaml")


def test_a_private_file_of_one_word_is_no_code(said: Said) -> None:
    """What is said is that keys belong there, and nothing breaks."""
    [found] = said({"private.yaml": "4071\n"})
    assert "keys belong here" in found
