"""Mutants that are damaged as text or bytes: cuts, pastes, encodings, tricks of YAML."""

from __future__ import annotations

from typing import TYPE_CHECKING

import yaml

from tests.proof import values
from tests.proof.mutant import Mutant, dumped, plain, texts

if TYPE_CHECKING:
    import random
    from collections.abc import Callable

    from binder.yamlfile import Plain

_PIECES = (
    "~", "null", "[]", "{}", "- ", '"', "'", "\n", ":", ": ", " #", "&a ", "*a", "!x ", "|\n",
    ">\n",
    "? ", "\t", "\x00", "\N{RIGHT-TO-LEFT OVERRIDE}", "\x85", "---\n", "...\n", "[[", "{{",
    "}}",
    "{%", "%}", "<b>", "&#0;", "\ufeff", "\r", "\ufffe", "\N{PIG FACE}", "`", "@", "%", "\\",
    ",",
    "  ", "\n\n\n", "x: y\n", "- x\n", " " * 40, "é", "\udcff", "0", "-", ".", "/", "<<: *a\n",
)  # fmt: skip


def cut_and_pasted(rng: random.Random) -> Mutant:
    """Pieces are cut out of a file and others put in."""
    name = rng.choice(sorted(texts()))
    text = texts()[name]
    for _ in range(rng.choice((1, 1, 2, 4))):
        start = rng.randint(0, len(text))
        length = rng.choice((0, 0, 1, 3, 20, 300))
        piece = rng.choice(_PIECES) if rng.random() < 0.8 else rng.choice(values.HOSTILE)
        text = text[:start] + piece + text[start + length :]
    return Mutant("cut and pasted", name, {name: text.encode("utf-8", "surrogateescape")})


def scalar_overwritten(rng: random.Random) -> Mutant:
    """One value, or one key, is overwritten with something hostile, raw."""
    name = rng.choice(sorted(texts()))
    text = texts()[name]
    scalars: list[tuple[int, int]] = []
    for event in yaml.parse(text, Loader=yaml.CSafeLoader):
        if isinstance(event, yaml.ScalarEvent) and event.start_mark and event.end_mark:
            scalars.append((event.start_mark.index, event.end_mark.index))
    start, end = rng.choice(scalars)
    new = rng.choice(values.HOSTILE)
    if rng.random() < 0.3:
        new = f'"{new}"'
    changed = text[:start] + new + text[end:]
    note = f"{name}: {text[start:end][:40]!r} -> {new[:40]!r}"
    return Mutant("overwritten", note, {name: changed.encode("utf-8", "surrogateescape")})


def lines_moved(rng: random.Random) -> Mutant:
    """Lines are doubled, swapped, lost or indented otherwise: keys repeat, lists break."""
    name = rng.choice(sorted(texts()))
    lines = texts()[name].splitlines(keepends=True)
    for _ in range(rng.choice((1, 1, 2, 5))):
        here = rng.randrange(len(lines))
        what = rng.choice(("double", "lose", "swap", "indent", "outdent", "tab", "copy"))
        if what == "double":
            lines.insert(here, lines[here])
        elif what == "lose" and len(lines) > 1:
            del lines[here]
        elif what == "swap":
            there = rng.randrange(len(lines))
            lines[here], lines[there] = lines[there], lines[here]
        elif what == "indent":
            lines[here] = "  " + lines[here]
        elif what == "outdent":
            lines[here] = lines[here].lstrip()
        elif what == "tab":
            lines[here] = "\t" + lines[here].lstrip()
        else:
            lines.insert(rng.randrange(len(lines)), lines[here])
    return Mutant("lines moved", name, {name: "".join(lines).encode()})


def encoded(rng: random.Random) -> Mutant:
    """A file is saved in another encoding, with other line ends, or cut short."""
    name = rng.choice(sorted(texts()))
    text = texts()[name]
    ways: tuple[tuple[str, Callable[[], bytes]], ...] = (
        ("byte order mark", lambda: text.encode("utf-8-sig")),
        ("two byte order marks", lambda: b"\xef\xbb\xbf" + text.encode("utf-8-sig")),
        ("UTF-16", lambda: text.encode("utf-16")),
        ("UTF-16 without mark", lambda: text.encode("utf-16-le")),
        ("UTF-32", lambda: text.encode("utf-32")),
        ("EBCDIC", lambda: text.encode("cp500", "replace")),
        ("Latin 1", lambda: text.replace("e", "é").encode("latin-1", "replace")),
        ("CRLF", lambda: text.replace("\n", "\r\n").encode()),
        ("CR", lambda: text.replace("\n", "\r").encode()),
        ("mixed line ends", lambda: "".join(
            sign if sign != "\n" else rng.choice(("\n", "\r\n")) for sign in text).encode()),
        ("tabs", lambda: text.replace("  ", "\t").encode()),
        ("next line signs", lambda: text.replace("\n", "\x85").encode()),
        ("zeros at the end", lambda: text.encode() + b"\x00" * 50),
        ("cut short", lambda: text.encode()[: rng.randrange(len(text))]),
        ("bytes flipped", lambda: _flipped(text.encode(), rng)),
        ("random bytes", lambda: rng.randbytes(rng.choice((1, 10, 1000)))),
        ("nothing", lambda: b""),
        ("only spaces", lambda: b" \n" * rng.choice((1, 1000))),
        ("only a comment", lambda: b"# nothing here\n"),
        ("overlong UTF-8", lambda: text.encode() + b"\n# \xc0\xaf\n"),
        ("surrogates", lambda: text.encode() + b"\n# \xed\xa0\xbd\n"),
        ("no line end", lambda: text.rstrip().encode()),
    )  # fmt: skip
    what, make = rng.choice(ways)
    return Mutant("encoding", f"{name}: {what}", {name: make()})


def _flipped(raw: bytes, rng: random.Random) -> bytes:
    changed = bytearray(raw)
    for _ in range(rng.choice((1, 3, 20))):
        changed[rng.randrange(len(changed))] ^= 1 << rng.randrange(8)
    return bytes(changed)


def yaml_tricks(rng: random.Random) -> Mutant:
    """Anchors, merge keys, tags, bombs, depth: what YAML offers beyond plain values."""
    name = rng.choice(sorted(texts()))
    text = texts()[name]
    size = rng.choice((10, 1000, 100_000))
    bomb = "\n".join(
        f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9) if n else 'x'}]" for n in range(12)
    )
    tricks = {
        "bomb": bomb,
        "bomb below": text + bomb,
        "merge": f"base: &b {{x: 1}}\n<<: *b\n{text}",
        "anchor on the root": f"&root\n{text}",
        "alias to itself": "&a [*a]",
        "python tag": f"!!python/object/apply:os.system ['true']\n{text}",
        "binary tag": "name: !!binary aGVsbG8=",
        "set": "? a\n? b\n",
        "second document": f"{text}\n---\n{text}",
        "end of document": f"...\n{text}\n...\n",
        "directive": f"%YAML 1.1\n---\n{text}",
        "unknown directive": f"%FARM 9\n---\n{text}",
        "brackets": "[" * size,
        "braces": "{a: " * size,
        "dashes": "- " * size,
        "brackets, closed": "[" * size + "]" * size,
        "colons": "a: " * size,
        "question marks": "? " * size,
        "quotes": '"' * size,
        "repeated keys": "x: y\n" * size,
        "list as a key": f"? [a, b]\n: c\n{text}",
        "mapping as a key": f"? {{a: b}}\n: c\n{text}",
        "long key": f"{'k' * size}: v\n{text}",
        "long line": f"{text}\n# {'x' * size}\n",
        "many comments": "# x\n" * size + text,
        "block": f"notes: |\n{'  x' * size}\n",
    }
    what = rng.choice(sorted(tricks))
    return Mutant("YAML tricks", f"{name}: {what} ({size})", {name: tricks[what].encode()})


def misshapen(rng: random.Random) -> Mutant:
    """In some places stands another shape: a list for a text, a mapping for a list."""
    name = rng.choice(sorted(texts()))
    data = plain(name)
    for _ in range(rng.choice((1, 1, 2, 5))):
        data = _replaced(data, rng)
    return Mutant("misshapen", name, {name: dumped(data)})


def _replaced(data: Plain, rng: random.Random) -> Plain:
    if isinstance(data, dict) and data and rng.random() < 0.8:
        key = rng.choice(sorted(data))
        if rng.random() < 0.15:
            return {**data, rng.choice(("id", "[key]", "", "pen", "notes ", "Name")): data[key]}
        return {**data, key: _replaced(data[key], rng)}
    if isinstance(data, list) and data and rng.random() < 0.8:
        number = rng.randrange(len(data))
        return [*data[:number], _replaced(data[number], rng), *data[number + 1 :]]
    others: tuple[Plain, ...] = (None, "", "x", [], {}, [None], {"": None}, [data], {"x": data},
                                 [[]], [{}], ["a",
                                 "b"], {"id": "a"}, {"name": "a"})  # fmt: skip
    return rng.choice(others)
