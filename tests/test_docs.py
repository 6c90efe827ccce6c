"""What is written about the program is true: commands, files, words, sources, review dates.

`tests/farm/test_schema.py` sees to it that every key of the farm folder is described, and
`tests/pages/test_protocols.py` that every protocol has its review date and its sources.
"""

from __future__ import annotations

import ast
import re
import tomllib
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder import sources, yamlfile
from binder.cli import commands
from binder.data import CONTENT
from binder.farm.model import SPECIES
from binder.figures import catalogue
from binder.figures.bands.band_rule import Band
from binder.figures.entry import COMMAND, read_arguments
from binder.pages.book.registry import CHARTS, TABS
from binder.pages.text import words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.display import System

ROOT = Path(__file__).resolve().parents[1]
DOCUMENTS = ("README.md", "DEVELOPERS.md", "CHANGES.md", "SECURITY.md")
# Ids follow the reading lists of the project: heat-1, water-40, extra-3.
SOURCE_ID = re.compile(r"\b(?:heat|water|wallow|husbandry|extra)-\d+\b")
KINDS = ("our-choice", "derived", "common-practice", "from-memory", "owner-record")


@lru_cache(maxsize=1)
def cited() -> dict[str, set[str]]:
    """Return source id -> the files that name it, the bibliography aside."""
    found: dict[str, set[str]] = {}
    for part in ("binder", "content", "tests"):
        for path in sorted((ROOT / part).rglob("*")):
            if path.suffix not in {".py", ".csv", ".md", ".yaml"} or not path.is_file():
                continue
            if path == CONTENT / "sources.yaml" or path == Path(__file__):
                continue
            for name in SOURCE_ID.findall(path.read_text(encoding="utf-8")):
                found.setdefault(name, set()).add(path.relative_to(ROOT).as_posix())
    return found


def test_every_citation_exists() -> None:
    """A number that names a source which is not in the bibliography rests on nothing."""
    known = sources.all_sources()
    invented = {"water-9999"}  # in the tests of what happens with an unknown one
    assert {name: files for name, files in cited().items() if name not in known} == {
        name: files for name, files in cited().items() if name in invented
    }


def test_every_source_is_cited() -> None:
    """The bibliography lists what was used, not what was read."""
    unused = [one for one in sources.all_sources() if one not in cited() and one not in KINDS]
    assert unused == []


def test_no_source_is_typed_in_code() -> None:
    """A row knows what it rests on and code asks it: a source changes in a table alone."""
    kinds = ROOT / "binder" / "figures" / "figure.py"  # where each kind is named once
    typed = [
        f"{path.relative_to(ROOT)}:{part.lineno} {part.value}"
        for path in sorted((ROOT / "binder").rglob("*.py"))
        if path != kinds
        for part in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(part, ast.Constant)
        and isinstance(part.value, str)
        and (SOURCE_ID.fullmatch(part.value) or part.value in KINDS)
    ]
    assert typed == []


def test_every_source_is_complete() -> None:
    """A grade, a title, and where it was read; no grade where it is ours."""
    for one in sources.all_sources().values():
        assert one.title, one.id
        if one.id in KINDS:
            assert one.grade in {"", "D"}, one.id
        else:
            assert one.grade in {"A", "B", "C", "D"}, one.id
            said_where = one.url.startswith(("http://", "https://")) or one.read or one.note
            assert said_where or one.grade in {"C", "D"}, one.id
            assert not one.year or re.fullmatch(r"1[89]\d\d|20\d\d", one.year), one.id
            assert "http" not in one.cited, one.id
            # A year said twice is a year that was not moved to its own field.
            assert not one.year or not one.title.endswith(one.year), one.id


@pytest.mark.parametrize("name", DOCUMENTS)
def test_commands_exist(name: str) -> None:
    """Every `binder x` in the documents is a command, and its options are that command's."""
    text = (ROOT / name).read_text(encoding="utf-8")
    for line in re.findall(r"`(?:\.venv/bin/)?binder ([^`]+)`", text):
        # `binder start check build` lists several; with options or arguments it is one.
        typed = line.split()
        alone = all(re.fullmatch(r"[a-z-]+", word) for word in typed)
        names = typed if alone and len(typed) > 2 else typed[:1]
        assert {one for one in names if one not in commands.commands} == set(), line
        options = {
            option for each in commands.commands[typed[0]].params for option in each.opts
        }
        assert {word for word in typed if word.startswith("--")} <= options, line


def test_every_command_is_in_the_readme() -> None:
    """A command nobody is told of is not there."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert {name for name in commands.commands if f"binder {name}" not in text} == set()


@pytest.mark.parametrize("name", DOCUMENTS)
def test_files_named_exist(name: str) -> None:
    """Paths and pictures that the documents point to are in the checkout."""
    text = (ROOT / name).read_text(encoding="utf-8")
    named = re.findall(r"\]\(([^)#:]+)\)", text)
    named += re.findall(r"sh (script/\w+)", text)
    named += re.findall(r"`((?:binder|content|templates|tests)/[\w./-]+)`", text)
    # NAME, AREA and x09-slug stand for whatever one adds.
    to_be = re.compile(r"[A-Z]{3}|x09-slug")
    assert [one for one in named if not to_be.search(one) and not (ROOT / one).exists()] == []


def test_every_library_has_its_reason() -> None:
    """What `pyproject.toml` asks for stands in the table of libraries, and nothing else."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    asked = [*project["project"]["dependencies"], *project["dependency-groups"]["dev"]]
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text.partition("## Libraries and why")[2].partition("\n## ")[0]
    rows = [line.strip("| ").split(" | ") for line in table.splitlines() if line[:2] == "| "]
    named = [name for row in rows[1:] for name in row[0].split(", ")]
    assert sorted(named) == sorted({re.split(r"[\[=]", one)[0] for one in asked})
    assert [row for row in rows if len(row) != 3 or not all(row)] == []


def test_example_commands_of_the_readme_compute() -> None:
    """`binder figure NAME argument=value` in the README is a figure with those arguments."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    found = re.findall(r"binder figure ([a-z-]+) ([^`\n]+=[^`\n]+?)`", text)
    assert found
    for name, typed in found:
        given = dict(part.split("=", 1) for part in typed.split())
        assert catalogue.compute(name, given).name == name


def test_every_figure_says_what_it_is() -> None:
    """A title and a line of help for each; a sentence with a capital and a stop."""
    said = words.load()
    for name in catalogue.entries():
        assert said.text(f"{name}.title")[0].isupper(), name
        line = said.text(f"{name}.help")
        assert line[0].isupper(), name
        assert line.endswith((".", "?")), name


@pytest.mark.parametrize("name", catalogue.entries())
def test_every_figure_names_what_is_missing(name: str) -> None:
    """Asked with nothing, a figure tells each argument it needs, with something to type."""
    entry = catalogue.entries()[name]
    needed = [one.name for one in entry.arguments if not one.optional and one.default is None]
    if not needed:
        read_arguments(entry, {})
        return
    with pytest.raises(Exception, match="is missing; write it like") as told:
        read_arguments(entry, {})
    for argument in needed:
        assert f"{COMMAND}  {name} > {argument}: is missing" in str(told.value)


@pytest.mark.parametrize("system", ["us", "metric"])
def test_words_load_in_both_systems(system: System) -> None:
    """No measure inside the words is left in its written form."""
    assert [one for one in texts(words.load("en", system).tree) if "[[" in one] == []


def texts(tree: object) -> Iterator[str]:
    """Yield every text of the words."""
    if isinstance(tree, dict | list):
        for part in tree.values() if isinstance(tree, dict) else tree:
            yield from texts(part)
    else:
        yield str(tree)


def test_words_cover_what_a_farm_may_have() -> None:
    """Each species, class, band, chart and tab has its words."""
    said = words.load()
    assert set(said.section("species")) == set(SPECIES)
    assert set(said.section("classes")) == set(said.section("class_one"))
    for band in Band:
        assert said.has(f"band.{band.key}")
        assert all(said.has(f"asks.do.{chart}.{band.key}") for chart in CHARTS)
    assert all(said.has(f"chart.title.{chart}") for chart in CHARTS)
    assert all(
        said.has(f"tab.{letter}") and said.has(f"cover.part.{letter}") for letter in TABS
    )


def test_changes_speak_of_numbers_first() -> None:
    """Whoever prints the binder reads first which numbers moved."""
    text = (ROOT / "CHANGES.md").read_text(encoding="utf-8")
    parts = re.split(r"^## ", text, flags=re.MULTILINE)[1:]
    assert parts
    for part in parts:
        headings = re.findall(r"^### (.+)$", part, re.MULTILINE)
        assert headings[0] == "Numbers that changed"


def test_published_tables_say_what_they_are() -> None:
    """Each CSV opens with what it holds, and every row names sources that exist."""
    known = sources.all_sources()
    for path in sorted((CONTENT / "published").rglob("*.csv")):
        lines = path.read_text(encoding="utf-8").splitlines()
        assert lines[0].startswith("#"), path.name
        rows = [line for line in lines if line and not line.startswith("#")]
        assert "sources" in rows[0].split(","), path.name
        for name in SOURCE_ID.findall("\n".join(rows)):
            assert name in known, f"{path.name}: {name}"


def test_bibliography_is_in_one_order() -> None:
    """No id twice, which the reader of YAML would let pass in silence."""
    text = (CONTENT / "sources.yaml").read_text(encoding="utf-8")
    names = re.findall(r"^([a-z-]+[\w-]*):", text, re.MULTILINE)
    assert len(names) == len(set(names))
    assert set(names) == set(sources.all_sources())
    assert isinstance(yamlfile.read(CONTENT / "sources.yaml").data, dict)
