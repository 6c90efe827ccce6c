"""The kept factors between units: all there, and each as pint has it."""

from __future__ import annotations

import subprocess
import sys

import pytest

from binder import conversion


def test_the_table_holds_every_pair_and_no_other() -> None:
    """A pair that lacks costs a quarter of a second; one too many was forgotten there."""
    assert sorted(conversion._kept()) == conversion.pairs()


@pytest.mark.parametrize(("source", "target"), conversion.pairs())
def test_the_table_says_what_pint_says(source: str, target: str) -> None:
    """Digit by digit: no printed number may hang on which of them was asked."""
    assert conversion._kept()[source, target] == conversion.worked_out(source, target)


@pytest.mark.parametrize(
    ("source", "target", "factor"),
    [
        ("inch", "millimeter", 25.4),
        ("pound", "kilogram", 0.45359237),
        ("gallon", "liter", 3.785411784),
    ],
)
def test_the_table_agrees_with_the_standard(source: str, target: str, factor: float) -> None:
    """NIST Special Publication 811 (2008), appendix B.8, exact by definition; from memory."""
    assert conversion.line(source, target)[0] == pytest.approx(factor, rel=1e-12)


def test_a_pair_outside_the_table_is_worked_out() -> None:
    """The table is there for speed alone."""
    assert conversion.line("mile", "inch")[0] == pytest.approx(63_360)


@pytest.mark.parametrize("words", [["--help"], ["figure"]])
def test_a_short_command_does_not_load_pint(words: list[str]) -> None:
    """What takes longest to load is left where it is until somebody needs it."""
    told = "import sys, atexit; atexit.register(lambda: print('pint' in sys.modules))"
    run = f"{told}; sys.argv[1:] = {words!r}; from binder.cli import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", run], capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines()[-1] == "False"
