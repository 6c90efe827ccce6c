"""YAML is read as text, and what turns a right-looking page into a wrong one is refused.

The traps are those of YAML 1.1 (yaml.org/type: bool, int with base 60 and base 8, float,
timestamp, null, merge), which the library would follow by itself.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
import yaml

from binder import yamlfile
from binder.problems import Place, ProblemsError

if TYPE_CHECKING:
    from pathlib import Path

    from binder.yamlfile import Plain


def refused(text: str) -> str:
    """Return what is said of a text that must be refused."""
    with pytest.raises(ProblemsError) as caught:
        yamlfile.parse(text, "pens.yaml")
    return str(caught.value)


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        ("6:30", "6:30"),
        ("12:30:45", "12:30:45"),
        ("0123", "0123"),
        ("0o17", "0o17"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        ("1e3", "1e3"),
        ("3.10", "3.10"),
        (".inf", ".inf"),
        ("no", "no"),
        ("off", "off"),
        ("y", "y"),
        ("true", "true"),
        ("null", "null"),
        ("2026-07-14", "2026-07-14"),
        ("<<", "<<"),
        ('""', ""),
        ("''", ""),
        ("'~'", "~"),
        ("", None),
        ("~", None),
        ("a  # remark", "a"),
        ("a#b", "a#b"),
        ('"a: b # c"', "a: b # c"),
        ("555-0100", "555-0100"),
    ],
)
def test_nothing_is_guessed(written: str, kept: Plain) -> None:
    """What is written stays as it is written; nothing after the colon is nothing."""
    assert yamlfile.parse(f"key: {written}\n", "x.yaml").data == {"key": kept}


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        ("|\n  one\n  two\n", "one\ntwo\n"),
        (">\n  one\n  two\n", "one two\n"),
        ("one\n  two\n", "one two"),
        ("[a, 'b, c', [d]]\n", ["a", "b, c", ["d"]]),
        ("{a: b, c: }\n", {"a": "b", "c": None}),
        ("[]\n", []),
        ("{}\n", {}),
    ],
)
def test_text_lists_and_mappings_have_their_shape(written: str, kept: Plain) -> None:
    """Folded and literal text, lists and mappings come out as YAML 1.2.2 chapter 8 has them."""
    assert yamlfile.parse(f"key: {written}", "x.yaml").data == {"key": kept}


def test_an_empty_file_has_no_data() -> None:
    """Comments alone are no data; the place is the file."""
    document = yamlfile.parse("# nothing\n", "x.yaml")
    assert document.data is None
    assert str(document.place(())) == "x.yaml"
    assert str(document.key_place(("a",))) == "x.yaml"


def test_places_are_counted_from_one() -> None:
    """Values, keys and list items each have the line and column an editor shows."""
    document = yamlfile.parse("- id: creek\n  wallow: {depth: 10 in}\n", "pens.yaml")
    assert document.place((0, "id")) == Place("pens.yaml", 1, 7)
    assert document.place((0, "wallow", "depth")) == Place("pens.yaml", 2, 19)
    assert document.key_place((0, "wallow", "depth")) == Place("pens.yaml", 2, 12)
    assert document.place((0, "wallow", "width")) == Place("pens.yaml", 2, 11)
    assert document.key_place((0,)) == Place("pens.yaml", 1, 3)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: 1\na: 2\n", 'pens.yaml:2:1  "a" is written twice; it stands already in line 1'),
        (
            "- id: creek\n  b: {c: 1, c: 2}\n",
            'pens.yaml:2:13  creek > b: "c" is written twice; it stands already in line 2',
        ),
        ("? [a]\n: b\n", "pens.yaml:1:3  a list or mapping cannot be a key"),
        (
            "a: &x 1\nb: *x\n",
            (
                "pens.yaml:1:4  uses an anchor or alias (& or *); write the value out, "
                'or put it in "quotes"\n'
                "pens.yaml:2:4  uses an anchor or alias (& or *); write the value out, "
                'or put it in "quotes"'
            ),
        ),
        (
            "a: !!int 3\n",
            'pens.yaml:1:4  uses a tag (!); write the value without it, or put it in "quotes"',
        ),
        (
            "a: 1\n---\nb: 2\n",
            "pens.yaml:2:1  starts a second document; keep one list or mapping in a file",
        ),
        (
            "[" * 13 + "]" * 13,
            (
                "pens.yaml:1:13  is nested more than 12 levels deep; "
                "check the brackets and indents"
            ),
        ),
        ("a: \x07\n", "pens.yaml:1:4  holds a character that YAML does not allow"),
        ("a: b\n\tc: d\n", "a tab stands where YAML wants spaces; indent with spaces only"),
        ("a:\n\tb: c\n", "pens.yaml:2:1  a tab stands where YAML wants spaces"),
        (
            "notes: Mind: the dog\n",
            (
                "pens.yaml:1:12  has a colon too many or a wrong indent; "
                'put text with a colon in it in "quotes"'
            ),
        ),
        ("name: x\n  kind: y\n", "pens.yaml:2:7  has a colon too many or a wrong indent"),
        ("- {a: b\n- {c: d}\n", "pens.yaml:2:3  a comma or a } is missing"),
        ("a: [b, c\nd: e\n", "pens.yaml:2:2  a comma or a ] is missing"),
        (
            "name: x\nkind y\ngate: z\n",
            "pens.yaml:2:1  a colon is missing; write it like key: value",
        ),
        ('a: "b\nc: d\n', "pens.yaml:1:4  the closing quote of this text is missing"),
        ('a: "b\\q"\n', "holds a \\ that means something else inside"),
        ("a: @b\n", "pens.yaml:1:4  begins with a sign that YAML keeps for itself"),
        ("a: %b\n", "pens.yaml:1:4  begins with a sign that YAML keeps for itself"),
        ("- a: 1\n  b: 2\n - c: 3\n", "pens.yaml:3:2  does not fit what stands above it"),
        ("a: 'it's'\n", "pens.yaml:1:8  does not fit what stands above it"),
        ("a: 1\n- b\n", "pens.yaml:2:1  does not fit what stands above it"),
    ],
)
def test_what_is_refused_is_said_with_its_cause(text: str, said: str) -> None:
    """Each slip that people make has the place and what to do about it."""
    assert said in refused(text)


def test_both_versions_of_the_parser_are_understood(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the quick parser is not installed, the other says the same things differently."""
    monkeypatch.setattr(yamlfile, "_Loader", yaml.SafeLoader)
    for text, said in (
        ("notes: Mind: the dog\n", "has a colon too many"),
        ("- {a: b\n- {c: d}\n", "a comma or a } is missing"),
        ("a: [b, c\nd: e\n", "a comma or a ] is missing"),
        ("name: x\nkind y\ngate: z\n", "pens.yaml:2:1  a colon is missing"),
        ('a: "b\nc: d\n', "pens.yaml:1:4  the closing quote"),
        ("a: @b\n", "begins with a sign"),
        ("a:\n\tb: c\n", "a tab stands"),
        ("a: \x07\n", "pens.yaml:1:4  holds a character that YAML does not allow"),
        ("- a: 1\n  b: 2\n - c: 3\n", "does not fit"),
    ):
        assert said in refused(text)
    assert yamlfile.parse("a: 6:30\nb:\n", "x.yaml").data == {"a": "6:30", "b": None}


def test_reading_along_keeps_what_can_be_read(tmp_path: Path) -> None:
    """A repeated key is a problem and the rest is still there; broken YAML leaves nothing."""
    path = tmp_path / "pens.yaml"
    path.write_text("a: 1\na: 2\nb: 3\n", encoding="utf-8")
    document, problems = yamlfile.read_along(path)
    assert document is not None
    assert document.data == {"a": "1", "b": "3"}
    assert len(problems) == 1
    path.write_text("a: [\n", encoding="utf-8")
    document, problems = yamlfile.read_along(path)
    assert document is None
    assert len(problems) == 1


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"a: caf\xe9\n", "pens.yaml:1:7  is not UTF-8 text; save it again as UTF-8"),
        (b"\xff\xfea\x00", "pens.yaml:1:1  is not UTF-8 text"),
        (b"a: b\n" * 500_000, "pens.yaml  is larger than 2,000,000 bytes; keep what"),
    ],
)
def test_files_that_are_not_text_are_refused(tmp_path: Path, data: bytes, said: str) -> None:
    """Another encoding, and files larger than a farm can be, are said."""
    path = tmp_path / "pens.yaml"
    path.write_bytes(data)
    with pytest.raises(ProblemsError) as caught:
        yamlfile.read(path)
    assert str(caught.value).startswith(said)


def test_a_byte_order_mark_and_windows_line_ends_do_not_matter(tmp_path: Path) -> None:
    """Editors on Windows write both."""
    path = tmp_path / "pens.yaml"
    path.write_bytes(b"\xef\xbb\xbfa: b\r\nc: d\r\n")
    document = yamlfile.read(path)
    assert document.data == {"a": "b", "c": "d"}
    assert document.key_place(("c",)) == Place("pens.yaml", 2, 1)


def test_what_is_not_there_or_no_file_is_said(tmp_path: Path) -> None:
    """A missing file and a folder in its place have the name the owner knows."""
    with pytest.raises(ProblemsError, match=r"^stays\.yaml  cannot be read: No such file"):
        yamlfile.read(tmp_path / "gone", "stays.yaml")
    with pytest.raises(ProblemsError, match=r"^stays\.yaml  is not a file; a plain text file"):
        yamlfile.read(tmp_path, "stays.yaml")


def test_items_are_called_by_what_the_owner_calls_them() -> None:
    """Id, name or group stands for the number of a list item; numbers count from one."""
    data = yamlfile.parse(
        "[{id: creek}, {name: Daisy, group: x}, {group: Hens}, {kind: trees}, {id: }, text]",
        "x.yaml",
    ).data
    called = [yamlfile.named(data, (number, "a")) for number in range(7)]
    assert called == [f"{name} > a" for name in ("creek", "Daisy", "Hens", "4", "5", "6", "7")]
    assert yamlfile.value_at(data, (0, "id")) == "creek"
    assert yamlfile.value_at(data, (9, "id")) is None
    assert yamlfile.value_at(data, ("id",)) is None
