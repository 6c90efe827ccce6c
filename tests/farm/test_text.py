"""Characters that no page may carry.

Bidirectional formatting characters: Unicode Standard Annex 9, section 2 (UAX #9, revision 48).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.conftest import FarmFolder
    from tests.farm.conftest import Checked, Said

# UAX #9, tables of explicit directional embeddings, overrides and isolates.
TURNING = [
    "\u202a",
    "\u202b",
    "\u202c",
    "\u202d",
    "\u202e",
    "\u2066",
    "\u2067",
    "\u2068",
    "\u2069",
]


@pytest.mark.parametrize("mark", TURNING)
def test_marks_that_turn_text_around_are_refused(said: Said, mark: str) -> None:
    """A telephone number must read as it is."""
    contacts = f"- {{name: Ann, role: owner, phone: 555-0100, can: a{mark}b}}\n"
    assert said({"contacts.yaml": contacts}) == [
        (
            "contacts.yaml:1:50  Ann > can: holds a hidden mark that turns text around "
            f"(U+{ord(mark):04X}); retype it"
        )
    ]


@pytest.mark.parametrize("code", ["\\0", "\\e", "\\x07", "\\x7f", "\\x9b", "\\u2028", "\\r"])
def test_control_codes_are_refused(said: Said, code: str) -> None:
    """Codes reach us escaped in quotes; no page and no terminal is to act on them."""
    contacts = f'- {{name: Ann, role: owner, phone: 555-0100, can: "a{code}b"}}\n'
    found = said({"contacts.yaml": contacts})
    assert len(found) == 1
    assert "Ann > can: holds a control character (U+" in found[0]
    assert found[0].isprintable()


def test_codes_in_keys_are_seen_too(said: Said) -> None:
    """A key is text as well; what is shown of it is spelt out."""
    found = said({"contacts.yaml": '- {name: A, role: owner, phone: 555-0100, "c\\e": x}\n'})
    assert found[0].startswith('contacts.yaml:1:43  A: "c[U+001B]" is not a key here')
    assert found[1] == (
        "contacts.yaml:1:43  A > c[U+001B]: holds a control character (U+001B); retype it"
    )


def test_ordinary_text_passes(checked: Checked) -> None:
    """Accents, marks of direction and line breaks are no codes."""
    farm = checked({"farm.yaml": "name: Señor Łoś \u200fÅse\nplace: |\n  a, b\n"})
    assert farm.about.name == "Señor Łoś \u200fÅse"


def test_scripts_that_the_print_font_lacks_are_told(said: Said) -> None:
    """With the line: a build would end there, or print boxes."""
    assert said({"farm.yaml": "name: Łoś 农场\nplace: a, b\n"}) == [
        (
            "farm.yaml:1:7  name: holds letters that the print font lacks: 农 (U+519C), "
            "场 (U+573A); write it with others"
        )
    ]


def test_protocols_are_read_through_as_well(said: Said, farm_folder: FarmFolder) -> None:
    """The owner's own protocols are text on our pages too."""
    farm_folder({"protocols/water.md": "# Water\r\n\r\nCarry it.\n\tor drive\u202e it\n"})
    assert said({}) == [
        (
            "protocols/water.md:4:10  holds a hidden mark that turns text around (U+202E); "
            "retype it"
        )
    ]
