"""Whatever stands in the files, the answer is a farm or a list of problems, and soon."""

from __future__ import annotations

import json
import re
import time
from functools import lru_cache
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder import yamlfile
from binder.data import CONTENT
from binder.farm.check import check
from binder.farm.load import FILES, read_folder
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from binder.problems import Problem
    from tests.farm.conftest import Checked, Said

EXAMPLE = CONTENT / "example-farm"
# What breaks readers of YAML elsewhere: its own signs, its traps, and characters.
PIECES = (
    *("~", "null", "[]", "{}", "- ", '"', "'", "\n", ":", ": ", " #", "&a", "*a", "!x", "|"),
    *(">", "? ", "\t", "\x00", "\u202e", "\x85", "0", "-1", "1e999", "9" * 30, "yes", "no"),
    "[key]",
    *('"\\ud83d"', '"\\0"', "10 in", "", "%", "@", "`", "<<: ", "---", "...", "é", "[[", "{{"),
    *("a" * 300, "2026-02-30", "25:00", "\ufeff", "\r", "\ufffe", "½", "٣"),
)  # fmt: skip


@lru_cache(maxsize=1)
def texts() -> Mapping[str, str]:
    """Return the example farm's files."""
    return {name: (EXAMPLE / name).read_text("utf-8") for name in FILES}


@st.composite
def mangled(draw: st.DrawFn) -> bytes:
    """Return one of the example's files with pieces cut out and others put in."""
    text = draw(st.sampled_from(sorted(texts().values())))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        length = draw(st.integers(0, 30))
        piece = draw(st.one_of(st.sampled_from(PIECES), st.text(max_size=8)))
        text = text[:start] + piece + text[start + length :]
    return text.encode("utf-8", "surrogatepass")


plain = st.recursive(
    st.one_of(st.none(), st.sampled_from(PIECES), st.text(max_size=12)),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(
            st.sampled_from(["id", "name", "group", "pen", "fed_by", "shade", "[key]", ""]),
            inner,
            max_size=3,
        ),
    ),
    max_leaves=6,
)


@st.composite
def misshapen(draw: st.DrawFn) -> bytes:
    """Return one of the example's files, well-formed, with other values in some places."""
    name = draw(st.sampled_from(sorted(FILES)))
    data: object = yamlfile.parse(texts()[name], name).data
    for _ in range(draw(st.integers(1, 3))):
        data = _replaced(data, draw)
    return json.dumps(data).encode()


def _replaced(data: object, draw: st.DrawFn) -> object:
    """Return data with one place in it, however deep, holding something else."""
    if isinstance(data, dict) and data and draw(st.integers(0, 4)):
        key = draw(st.sampled_from(sorted(data)))
        return {**data, key: _replaced(data[key], draw)}
    if isinstance(data, list) and data and draw(st.integers(0, 4)):
        number = draw(st.integers(0, len(data) - 1))
        return [*data[:number], _replaced(data[number], draw), *data[number + 1 :]]
    return draw(plain)


@pytest.fixture(scope="module")
def judged(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str, bytes], None]:
    """Return a function that checks the example farm with one file replaced."""
    folder: Path = tmp_path_factory.mktemp("farm")

    def judge(name: str, data: bytes) -> None:
        for each, text in texts().items():
            (folder / each).write_text(text, encoding="utf-8")
        (folder / name).write_bytes(data)
        problems: tuple[Problem, ...] = ()
        try:
            check(read_folder(folder))
        except ProblemsError as error:
            problems = error.problems
        for line in map(str, problems):
            assert line.isprintable()
            assert re.match(r"[a-z]+\.yaml(:\d+:\d+)?  \S", line)
            assert "pydantic" not in line.lower()
            assert "Input should be" not in line

    return judge


@pytest.mark.slow
@settings(max_examples=150)
@given(name=st.sampled_from(sorted(FILES)), data=mangled())
def test_mangled_text_gives_problems(
    judged: Callable[[str, bytes], None], name: str, data: bytes
) -> None:
    """Cut and pasted at random, a file is refused in our words or still right."""
    judged(name, data)


@pytest.mark.slow
@settings(max_examples=150)
@given(name=st.sampled_from(sorted(FILES)), data=misshapen())
def test_misshapen_data_gives_problems(
    judged: Callable[[str, bytes], None], name: str, data: bytes
) -> None:
    """With other values in any place, a file is refused in our words or still right."""
    judged(name, data)


@settings(max_examples=100)
@given(name=st.sampled_from(sorted(FILES)), data=st.binary(max_size=200))
def test_any_bytes_give_problems(
    judged: Callable[[str, bytes], None], name: str, data: bytes
) -> None:
    """No bytes bring the reader down."""
    judged(name, data)


MANY = 10_000
GENEROUS_S = (
    40  # about ten times what an old laptop needs; four times as much data would break it
)


@pytest.mark.slow
def test_ten_thousand_animals_are_refused_at_once(said: Said) -> None:
    """In one sentence, however much else is wrong with them."""
    animals = "".join(
        f"- {{name: A{n}, species: pigg{n}, born: 2023-33-02, weigt: 420 lb, pen: q{n}}}\n"
        for n in range(MANY)
    )
    start = time.monotonic()
    found = said({"animals.yaml": animals})
    assert time.monotonic() - start < GENEROUS_S
    assert found == [
        (
            "animals.yaml:301:3  holds 10,000 items; 300 are the most: "
            "write animals that live alike as a group"
        )
    ]


@pytest.mark.slow
def test_as_many_as_may_be_take_seconds(checked: Checked) -> None:
    """The most animals in the most pens, each wrong in nothing."""
    pens = "".join(f"- {{id: p{n}, name: Pen {n}, kind: pasture}}\n" for n in range(100))
    animals = "".join(
        f"- {{name: A{n}, species: pig, born: 2023-03-02, weight: 420 lb, pen: p{n % 100}}}\n"
        for n in range(300)
    )
    start = time.monotonic()
    farm = checked({"pens.yaml": pens, "animals.yaml": animals})
    assert time.monotonic() - start < GENEROUS_S
    assert (len(farm.animals), len(farm.pens)) == (300, 100)


@pytest.mark.slow
@pytest.mark.parametrize(
    "text",
    ["[{" * 100_000, "- &a x\n" * 50_000, "x: y\n" * 50_000, "- " * 100_000, "\n" * 1_000_000],
    ids=["nested", "anchors", "repeated keys", "dashes", "empty lines"],
)
def test_files_made_to_be_slow_are_not(said: Said, text: str) -> None:
    """Depth, repetition and length cost no more than reading them."""
    start = time.monotonic()
    try:
        said({"equipment.yaml": text})
    except pytest.fail.Exception:
        assert not text.strip()  # empty lines alone are an empty file, which is right
    assert time.monotonic() - start < GENEROUS_S
