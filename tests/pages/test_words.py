"""The words of the pages: found, filled in, and missed when they are missing.

Conversions are exact: 1 US gal = 3.785411784 L, 0 degC = 32 degF (NIST SP 811, appendix B).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from binder.figures.figure import Figure, step
from binder.pages.text import words
from binder.pages.text.words import Words
from binder.problems import ProblemsError
from binder.units import Amount

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

TREE = {
    "pen": {"title": "Pen {name}", "days": ["Monday", "Tuesday"], "one": {"a": "b"}},
    "need": {
        "title": "Need",
        "working": {"sum": "{count} x {each} = {need:both}, {x:.1f}, {need:metric}"},
        "cautions": {"sun": "Mind the sun."},
    },
    "list": [{"do": "a"}, "b"],
}
SAID = Words(TREE)
FOUR_GALLONS = Amount(15.141647136, "L")


def test_text_is_found_and_filled() -> None:
    """A key with dots leads down the tree."""
    assert SAID.text("pen.title", name="Creek") == "Pen Creek"
    assert SAID.has("pen.title")
    assert not SAID.has("pen.one")
    assert SAID.many("pen.days") == ("Monday", "Tuesday")
    assert SAID.items("list") == ({"do": "a"},)
    assert SAID.section("pen.one") == {"a": "b"}


def test_farm_text_is_no_pattern() -> None:
    """Braces in what is filled in stay braces."""
    assert SAID.text("pen.title", name="{name} {0} %s") == "Pen {name} {0} %s"


@pytest.mark.parametrize(
    ("ask", "said"),
    [
        (lambda: SAID.text("pen.titel"), "pen.titel: has no words; did you mean title?"),
        (lambda: SAID.text("pen"), "pen: has no words"),
        (lambda: SAID.text("nothing.at.all"), "nothing.at.all: has no words"),
        (lambda: SAID.many("pen.title"), "pen.title: has no words"),
        (lambda: SAID.items("pen.title"), "pen.title: has no words"),
        (lambda: SAID.section("pen.title"), "pen.title: has no words"),
        (lambda: SAID.text("pen.title"), "the words need 'name', which is not given here"),
    ],
)
def test_missing_words_stop_the_build(ask: Callable[[], object], said: str) -> None:
    """With the key, and the nearest one."""
    with pytest.raises(ProblemsError) as caught:
        ask()
    assert said in str(caught.value.problems[0])


@pytest.mark.parametrize(
    ("system", "line"),
    [
        ("us", "2 x 2~gal = 4~gal (15~L), 1.5, 15~L"),
        ("metric", "2 x 7.6~L = 15~L, 1.5, 15~L"),
    ],
)
def test_amounts_print_in_the_readers_units(system: str, line: str) -> None:
    """The reader's units first, the others beside; `~`: no line breaks before a unit."""
    figure = Figure(
        "need",
        FOUR_GALLONS,
        (step("sum", count=2, each=Amount(7.570823568, "L"), need=FOUR_GALLONS, x=1.5),),
        (),
        ("sun",),
    )
    said = Words(TREE, system)  # type: ignore[arg-type]
    assert said.working(figure) == (line.replace("~", "\N{NO-BREAK SPACE}"),)
    assert said.cautions(figure) == ("Mind the sun.",)
    assert said.title(figure) == "Need"


def test_fine_temperatures_keep_a_tenth() -> None:
    """25.5 degC is 77.9 degF: a line between two whole degrees is not rounded away."""
    said = Words({"a": "{at:fine}"})
    assert said.text("a", at=Amount(25.5, "degC")) == "77.9°F"


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder of words that stands in for the project's own."""
    monkeypatch.setattr(words, "CONTENT", tmp_path)
    folder = tmp_path / "words" / "xx"
    folder.mkdir(parents=True)
    return folder


def test_files_are_merged(content: Path) -> None:
    """Each file brings its own keys."""
    (content / "a.yaml").write_text("one: a\n", encoding="utf-8")
    (content / "b.yaml").write_text("two: {three: b}\n", encoding="utf-8")
    said = words.load.__wrapped__("xx", "us")
    assert (said.text("one"), said.text("two.three")) == ("a", "b")


def test_a_key_in_two_files_is_refused(content: Path) -> None:
    """Or one of the two would vanish in silence."""
    (content / "a.yaml").write_text("one: a\n", encoding="utf-8")
    (content / "b.yaml").write_text("two: b\none: c\n", encoding="utf-8")
    with pytest.raises(ProblemsError) as caught:
        words.load.__wrapped__("xx", "us")
    assert str(caught.value.problems[0]) == (
        "content/words/xx/b.yaml:2:1  one: stands in two files"
    )
