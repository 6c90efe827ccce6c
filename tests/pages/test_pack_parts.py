"""Parts of the maintained instructions in a pack: quoted by their headings, never lost."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from binder.build import checked
from binder.figures.figures import of_stay
from binder.pages.context import Context
from binder.pages.pack.told import Told
from binder.pages.text import words
from binder.pages.text.protocol_file import load_texts
from binder.problems import ProblemsError
from tests.pages.conftest import EXAMPLE

JUNE = dt.date(2026, 6, 20)
HEAD = (
    "---\ntitle: Green water\nsheet: M5\nreviewed: 2026-06-01\nsources: [our-choice]\n"
    "summary: A.\n---\nAnswer.\n\n## Look\n\nAt it.\n\n"
)


def algae_with(heading: str, *, owner: bool) -> Told:
    """Return the instruction on green water whose second heading is another one."""
    farm = checked(EXAMPLE, JUNE)[1]
    written = {"m05-algae.md": f"{HEAD}## {heading}\n\nWith a stick.\n"}
    (text,) = load_texts(written, owner=owner)
    figures = of_stay(farm, farm.stays[0])
    context = Context(figures, words.of(farm), {"algae": "M5"}, frozenset())
    return Told(context, {"algae": text}, {})


def test_a_renamed_heading_stops_the_build_with_its_file() -> None:
    """Its part was left out of the pack without a word."""
    with pytest.raises(ProblemsError) as refused:
        algae_with("Test its", owner=False).parts("algae")
    (problem,) = refused.value.problems
    assert "m05-algae.md" in str(problem)
    assert 'no heading "Test it"' in str(problem)
    assert "did you mean Test its?" in str(problem)


def test_an_owners_own_headings_stand_as_they_are() -> None:
    """Its owner knows no list of ours: all parts of their own version are shown."""
    shown = algae_with("Put a stick in", owner=True).parts("algae")
    headings = [re.findall("<h2>(.*?)</h2>", str(part.html)) for part in shown]
    assert headings == [["Look"], ["Put a stick in"]]
