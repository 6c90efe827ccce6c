"""The commands start, build and figure, as typed; `day` and `check` have a file of their own.

Exit codes: 0 fine, 1 the farm folder is at fault, 2 a wrong command (DEVELOPERS.md).
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

import pypdfium2 as pdfium
import pytest

from binder import __main__ as program
from binder import cli
from binder.figures import catalogue
from binder.figures.entry import example
from binder.output import print as print_step
from binder.pages.text import words
from binder.units import parse
from tests.one_for_all import OneForAll

if TYPE_CHECKING:
    from collections.abc import Callable

    from binder.display import System

EXAMPLE = str(Path(__file__).resolve().parents[1] / "content" / "example-farm")
DAY = ("--date", "2026-06-01")
# What the first version promised, with arguments that do.
PROMISED = {
    "heat-index": ("temperature=96F", "humidity=65%"),
    "livestock-index": ("temperature=96F", "humidity=65%"),
    "wet-bulb": ("temperature=96F", "humidity=65%"),
    "dew-point": ("temperature=96F", "humidity=65%"),
    "band": ("class=boar", "temperature=96F", "humidity=65%"),
    "water-need": ("class=grower", "count=8", "temperature=95F", "weight=100lb"),
    "wallow-volume": ("shape=oval", "length=14ft", "width=9ft", "depth=10in", "use=dosing"),
    "bleach-dose": ("strength=7.5%", "target=0.5ppm", "volume=300gal"),
    "dilution": ("strength=7.5%", "target=500ppm"),
}


@pytest.fixture(autouse=True)
def away(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Work in an empty folder, with no date set from outside."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)


@pytest.fixture
def run(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[..., tuple[int, str, str]]:
    """Return a function that runs a command and tells exit code, output and complaints."""

    def run_one(*typed: str) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["binder", *typed])
        with pytest.raises(SystemExit) as stop:
            cli.main()
        caught = capsys.readouterr()
        code = stop.value.code
        assert isinstance(code, int)
        return code, caught.out, caught.err

    return run_one


def test_figures_are_listed(run: Callable[..., tuple[int, str, str]]) -> None:
    """Every figure, a line each, with what it must be told."""
    code, out, _ = run("figure")
    assert code == 0
    lines = [line for line in out.splitlines()[1:] if line.strip()]
    listed = {line.split()[0] for line in lines if line.startswith("  ")}
    assert set(catalogue.entries()) <= listed
    assert set(PROMISED) <= set(catalogue.entries())
    line = next(line for line in out.splitlines() if line.startswith("  heat-index"))
    assert "temperature=96F humidity=65%" in line
    headings = [line.strip() for line in lines if line[0] != " "]
    assert headings[:2] == ["Animals", "How dangerous the air is"]
    assert len(headings) == len(catalogue.by_area())


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("name", catalogue.entries())
def test_what_the_list_shows_can_be_typed(name: str, system: System) -> None:
    """Each line as it stands is a figure, in both systems; low is not high."""
    entry = catalogue.entries()[name]
    typed = {one.name: example(one, system) for one in entry.arguments}
    assert catalogue.compute(name, typed).name
    if {"high", "low"} <= typed.keys():
        low, high = (parse(typed[key], "temperature") for key in ("low", "high"))
        assert low < high


def test_classes_are_listed(run: Callable[..., tuple[int, str, str]]) -> None:
    """`class=` alone tells which there are."""
    for name in ("band", "water-need", "drinkers"):
        _, _, err = run("figure", name, "class=", "count=8", "temperature=35C", "humidity=50%")
        assert "takes one of these: suckling piglet, weaned pig" in err


@pytest.mark.parametrize("name", PROMISED)
def test_promised_figures_are_there(
    run: Callable[..., tuple[int, str, str]], name: str
) -> None:
    """Value, working, sources with their grades, cautions; exit code 0."""
    code, out, err = run("figure", name, *PROMISED[name])
    assert (code, err) == (0, "")
    title = words.load().text(f"{name}.title")
    assert out.startswith(f"{title}: ")
    assert "[A]" in out or "[B]" in out


@pytest.mark.parametrize("name", PROMISED)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_json_has_six_keys(
    run: Callable[..., tuple[int, str, str]], name: str, system: str
) -> None:
    """The shape that other programs read, for each promised figure in both systems."""
    code, out, _ = run("figure", name, *PROMISED[name], "--json", "--units", system)
    assert code == 0
    found = json.loads(out)
    assert list(found) == ["name", "value", "unit", "working", "sources", "cautions"]
    assert found["name"] == name
    assert found["working"]
    assert found["sources"]


def test_value_is_the_published_one(run: Callable[..., tuple[int, str, str]]) -> None:
    """96 F at 65 % is 121 F on the chart of the US weather service (heat-2), 49 C in metric."""
    _, out, _ = run("figure", "heat-index", *PROMISED["heat-index"], "--json")
    us = json.loads(out)
    assert round(us["value"]) == 121
    assert us["unit"] == "°F"
    _, out, _ = run(
        "figure", "heat-index", *PROMISED["heat-index"], "--json", "--units", "metric"
    )
    metric = json.loads(out)
    assert metric["unit"] == "°C"
    assert metric["value"] == pytest.approx((us["value"] - 32) / 1.8, abs=1e-5)
    assert "36°C" in metric["working"][0].replace("35.6°C", "36°C")


def test_band_is_a_word(run: Callable[..., tuple[int, str, str]]) -> None:
    """A value that is no amount has no unit."""
    _, out, _ = run("figure", "band", *PROMISED["band"], "--json")
    found = json.loads(out)
    assert found["value"] == "Severe"
    assert found["unit"] == ""


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("figure", "heat-indx"), "did you mean heat-index?"),
        (
            ("figure", "heat-index", "temperatur=96F", "humidity=65%"),
            "did you mean temperature?",
        ),
        (("figure", "heat-index", "temperature=96", "humidity=65%"), "has no unit"),
        (("figure", "heat-index", "humidity=65%"), "temperature: is missing"),
        (("figure", "heat-index", "96F"), "is not ARGUMENT=VALUE"),
        (
            ("figure", "band", "class=bore", "temperature=9C", "humidity=1%"),
            "did you mean boar?",
        ),
        (("figure", "heat-index", "--units", "imperial"), "imperial"),
        (("biuld", EXAMPLE), "biuld"),
        (("build", "no-such-folder"), "no-such-folder"),
        (("build", EXAMPLE, "--date", "1 June"), "is not a date"),
        (("build",), "FOLDER"),
    ],
)
def test_wrong_commands_end_with_2(
    run: Callable[..., tuple[int, str, str]], typed: tuple[str, ...], said: str
) -> None:
    """What was typed is at fault, not the farm: exit code 2, and what would do."""
    code, out, err = run(*typed)
    assert code == 2
    assert out == ""
    assert said in " ".join(err.split())


def test_help_and_version_end_with_0(run: Callable[..., tuple[int, str, str]]) -> None:
    """Asking is no mistake."""
    assert run("--help")[0] == 0
    assert run("build", "-h")[0] == 0
    code, out, _ = run("--version")
    assert code == 0
    assert out.startswith("binder ")


@pytest.mark.parametrize(
    ("called", "on_path", "said"),
    [
        ("env dir/bin/binder", False, "'env dir/bin/binder' check my-farm"),
        ("env dir/bin/binder", True, "binder check my-farm"),
        ("binder/__main__.py", False, "python -m binder check my-farm"),
    ],
)
def test_start_says_the_commands_as_typed(
    called: str, on_path: bool, said: str,  # noqa: FBT001 # a row of the table
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    """With the path by which the program was called, where its name alone would not find it."""
    program = Path(called)
    program.parent.mkdir(parents=True)
    program.touch(mode=0o755)
    monkeypatch.setattr(sys, "argv", [called, "start", "my-farm"])
    monkeypatch.setenv("PATH", str(program.parent.resolve()) if on_path else "")
    main = ModuleType("__main__")
    main.__package__ = "binder" if called.endswith("__main__.py") else None
    monkeypatch.setitem(sys.modules, "__main__", main)
    with pytest.raises(SystemExit):
        cli.main()
    assert f"Type: {said}\n" in capsys.readouterr().out


def test_start_then_build(run: Callable[..., tuple[int, str, str]], tmp_path: Path) -> None:
    """The first two commands of the README, as printed, leave a site."""
    code, out, _ = run("start", "my-farm")
    assert code == 0
    assert "binder build my-farm" in out
    code, out, err = run("build", "my-farm", "--site-only", *DAY)
    assert (code, err) == (0, "")
    assert (tmp_path / "build" / "site" / "index.html").is_file()
    assert "index.html" in out or "site" in out


@pytest.mark.slow
def test_two_sided_sheets_are_whole_leaves(
    run: Callable[..., tuple[int, str, str]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Printed on both sides, a binder has an even number of pages: no leaf holds two sheets."""
    monkeypatch.setattr(print_step, "Workers", OneForAll)  # sheets of a page, each on a leaf
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    run("start", "my-farm")
    code, out, err = run("build", "my-farm", "--two-sided", "--edition", "sitter", *DAY)
    assert (code, err) == (0, "")
    printed = tmp_path / "build" / "print" / "binder.pdf"
    with pdfium.PdfDocument(printed) as document:
        assert len(document) % 2 == 0
        assert [page.get_textpage().get_text_range() for page in document][1::2] == [""] * (
            len(document) // 2
        )
        assert f"({len(document)} pages)" in out


def test_start_overwrites_nothing(run: Callable[..., tuple[int, str, str]]) -> None:
    """A farm that is there is not started over."""
    run("start", "my-farm")
    code, _, err = run("start", "my-farm")
    assert code != 0
    assert "my-farm" in err


@pytest.mark.slow
def test_the_starter_farm_prints(
    run: Callable[..., tuple[int, str, str]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The starter farm's whole binder: site, print, phone file; then again from the cache.

    Its sheets are drawn as they are where hand-overs are killed (`tests/test_proof_sample.py`).
    """
    monkeypatch.setattr(print_step, "Workers", OneForAll)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    run("start", "my-farm")
    code, out, _ = run("build", "my-farm", *DAY)
    assert code == 0
    with pdfium.PdfDocument(tmp_path / "build" / "print" / "binder.pdf") as document:
        assert f"({len(document)} pages)" in out
        assert len(document) > 60
    assert run("build", "my-farm", *DAY)[1] == out


def test_farm_mistakes_end_with_1(
    run: Callable[..., tuple[int, str, str]], tmp_path: Path
) -> None:
    """All of them with file and line; the binder that was there stays."""
    run("start", "my-farm")
    run("build", "my-farm", "--site-only", *DAY)
    pens = tmp_path / "my-farm" / "pens.yaml"
    pens.write_text(
        "- {id: a, name: A, kind: pasture,\n"
        "   wallow: {id: w, shape: oval, length: 12, depth: 9 inchs}}\n",
        encoding="utf-8",
    )
    code, out, err = run("build", "my-farm", "--site-only", *DAY)
    assert (code, out) == (1, "")
    assert "pens.yaml:2:" in err
    assert "has no unit" in err
    said = '"9 inchs" is not a length; the nearest unit is inches; write it like 10 in, 0.8 ft'
    assert said in err
    assert (tmp_path / "build" / "site" / "index.html").is_file()


def test_a_folder_of_others_is_not_emptied(
    run: Callable[..., tuple[int, str, str]], tmp_path: Path
) -> None:
    """Only what carries the program's own mark may be written over."""
    (tmp_path / "build").mkdir()
    letter = tmp_path / "build" / "letter.txt"
    letter.write_text("mine", encoding="utf-8")
    code, _, err = run("build", EXAMPLE, "--site-only", *DAY)
    assert code == 1
    assert "build" in err
    assert letter.read_text(encoding="utf-8") == "mine"


def test_the_farm_folder_is_not_written_into(
    run: Callable[..., tuple[int, str, str]], tmp_path: Path
) -> None:
    """The farm folder holds what its owner wrote, and nothing of ours."""
    run("start", "my-farm")
    before = sorted(path.name for path in (tmp_path / "my-farm").rglob("*"))
    assert run("build", "my-farm", "--to", "my-farm/out", "--site-only", *DAY)[0] == 1
    assert sorted(path.name for path in (tmp_path / "my-farm").rglob("*")) == before


def test_the_date_may_come_from_outside(
    run: Callable[..., tuple[int, str, str]],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    """1780272000 seconds after 1970 began 1 June 2026 in Greenwich (date -u -d @1780272000)."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1780272000")
    run("start", "my-farm")
    assert run("build", "my-farm", "--site-only")[0] == 0
    pages = (tmp_path / "build" / "site").rglob("*.html")
    assert any("1 June 2026" in page.read_text(encoding="utf-8") for page in pages)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    code, _, err = run("build", "my-farm", "--site-only")
    assert code == 2
    assert "SOURCE_DATE_EPOCH" in err


@pytest.mark.parametrize("day", ["9999-12-31", "2100-01-01", "0001-01-01"])
def test_a_day_at_the_end_of_the_calendar_is_refused(
    run: Callable[..., tuple[int, str, str]], day: str
) -> None:
    """A stay or a gestation from there has no date any more, in any calendar of Python's."""
    code, _, err = run("check", str(EXAMPLE), "--date", day)
    assert code == 2
    assert "lies outside 1900 to 2099" in err


def test_a_terminal_without_the_letters_gets_them_spelt(tmp_path: Path) -> None:
    """A console of ASCII, as old servers have: the degree sign ended the program."""
    ran = subprocess.run(
        [sys.executable, "-m", "binder", "check", str(EXAMPLE), "--date", "2026-06-01"],
        env={**os.environ, "PYTHONIOENCODING": "ascii", "XDG_CACHE_HOME": str(tmp_path)},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    assert "Traceback" not in ran.stderr
    assert "\\xb0" in ran.stdout


def test_ctrl_c_while_the_program_loads_ends_it_without_a_trace(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The first tenths of a second, in which only libraries are read."""

    class Stopped(ModuleType):
        def __getattr__(self, _name: str) -> None:
            raise KeyboardInterrupt

    monkeypatch.setitem(sys.modules, "binder.cli", Stopped("binder.cli"))
    with pytest.raises(SystemExit) as stop:
        program.main()
    assert stop.value.code == 130
