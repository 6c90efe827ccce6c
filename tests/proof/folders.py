"""Mutants of the folder: files missing or unreadable, pictures, protocols, weather."""

from __future__ import annotations

import io
import struct
import zlib
from functools import lru_cache
from typing import TYPE_CHECKING

from PIL import Image

from tests.proof.mutant import Content, Link, Mutant, Odd, dumped, plain, texts

if TYPE_CHECKING:
    import random
    from collections.abc import Callable, Mapping

_NAMES = ("farm.yaml", "animals.yaml", "pens.yaml", "contacts.yaml", "equipment.yaml",
          "stays.yaml", "private.yaml")  # fmt: skip


def files_amiss(rng: random.Random) -> Mutant:
    """A file is missing, locked, a folder, a pipe, a link to nowhere or without end."""
    name = rng.choice((*_NAMES, "weather.csv", "protocols/a20-x.md", "protocols", "pictures"))
    ways: Mapping[str, Content] = {
        "missing": None, "locked": Odd("locked"), "a folder": Odd("folder"),
        "a pipe": Odd("pipe"),
        "a dead link": Link("nowhere.yaml"), "a link to itself": Link(name.rpartition("/")[2]),
        "endless": Link("/dev/zero"), "unreadable": Link("/proc/self/mem"),
        "the root folder": Link("/"), "a link up": Link(".."), "huge": b"# x\n" * 600_000,
        "empty": b"", "a terminal": Link("/dev/tty"), "the process": Link("/proc/self/fd/0"),
    }  # fmt: skip
    what = rng.choice(sorted(ways))
    return Mutant("files amiss", f"{name}: {what}", {name: ways[what]})


def strays(rng: random.Random) -> Mutant:
    """Files that do not belong there lie in the folder."""
    name = rng.choice((
        "animal.yaml", "farm.yml", "Farm.yaml", "ANIMALS.YAML", "x.yaml", ".hidden.yaml",
        "handed-over.yaml", "pens.yaml~", "pens (copy).yaml", "pens\N{PIG FACE}.yaml",
        "a\nb.yaml", "protocols/x.txt", "pictures/.DS_Store", "protocols/Pig.md", "weather.CSV",
        "protocols/e01-Pig In Heat.md", "x" * 200 + ".yaml", "\N{RIGHT-TO-LEFT OVERRIDE}.yaml",
    ))  # fmt: skip
    return Mutant("strays", repr(name), {name: rng.choice((b"", b"x: 1\n", b"\xff\xfe"))})


def _png(width: int, height: int, colour: int = 2, rows: bytes = b"") -> bytes:
    head = struct.pack(">IIBBBBB", width, height, 8, colour, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(rows, 9)), (b"IEND", b""))
    body = b"".join(
        struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        for name, data in parts
    )
    return b"\x89PNG\r\n\x1a\n" + body


@lru_cache(maxsize=32)
def _saved(kind: str, mode: str, width: int, height: int) -> bytes:
    stream = io.BytesIO()
    Image.new(mode, (width, height)).save(stream, kind)
    return stream.getvalue()


@lru_cache(maxsize=1)
def _bomb() -> bytes:
    """Return a picture of a few hundred kilobytes that takes 300 MB when decoded."""
    return _png(10_000, 10_000, 2, b"\0" * (10_000 * 30_001))


def pictures(rng: random.Random) -> Mutant:
    """The farm shows a picture that is none, is broken, or is enormous."""
    size = rng.choice((1, 7, 1400, 3000))
    ways: Mapping[str, Callable[[], Content]] = {
        "text": lambda: b"not a picture",
        "nothing": lambda: b"",
        "GIF": lambda: _saved("GIF", "P", 9, 9),
        "BMP": lambda: _saved("BMP", "RGB", 9, 9),
        "TIFF": lambda: _saved("TIFF", "RGB", 9, 9),
        "WebP": lambda: _saved("WEBP", "RGB", 9, 9),
        "SVG": lambda: b"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>",
        "PDF": lambda: b"%PDF-1.7\n",
        "good PNG": lambda: _saved("PNG", rng.choice(("RGB", "RGBA", "L", "LA", "P", "1",
        "I;16")),
                                   size, size),
        "good JPEG": lambda: _saved("JPEG", rng.choice(("RGB", "L", "CMYK")), size, size),
        "one pixel high": lambda: _saved("PNG", "RGB", 11_000, 1),
        "cut short": lambda: _saved("JPEG", "RGB", 500, 500)[: rng.randrange(1, 2000)],
        "PNG cut short": lambda: _saved("PNG", "RGB", 500, 500)[: rng.randrange(1, 500)],
        "head only": lambda: b"\x89PNG\r\n\x1a\n",
        "JPEG head only": lambda: b"\xff\xd8\xff\xe0",
        "claims 60,000 a side": lambda: _png(60_000, 60_000),
        "claims 4 billion": lambda: _png(2**32 - 1, 2**32 - 1),
        "claims no size": lambda: _png(0, 10),
        "claims 11,000, holds nothing": lambda: _png(10_900, 10_900),
        "no such colour": lambda: _png(10, 10, 5, b"\0" * 310),
        "bomb": _bomb,
        "flipped bytes": lambda: _flipped(_saved("PNG", "RGB", 300, 300), rng),
        "JPEG flipped bytes": lambda: _flipped(_saved("JPEG", "RGB", 300, 300), rng),
        "text bomb": _text_bomb,
        "missing": lambda: None,
        "a folder": lambda: Odd("folder"),
        "a pipe": lambda: Odd("pipe"),
        "endless": lambda: Link("/dev/zero"),
        "huge": lambda: _saved("PNG", "RGB", 9, 9) + b"\0" * (21 * 1024 * 1024),
    }  # fmt: skip
    what = rng.choice(sorted(ways))
    name = rng.choice(("gate.png", "gate.jpg", "gate.JPEG", "a b.png", "g'\"<.png", "täg.png",
                       "..png", "gate", "gate.gif", "../farm.yaml",
                       "x" * 190 + ".png"))  # fmt: skip
    data = plain("pens.yaml")
    if isinstance(data, list) and isinstance(data[0], dict):
        data[0]["picture"] = name
    files: dict[str, Content] = {"pens.yaml": dumped(data)}
    if ".." not in name:
        files[f"pictures/{name}"] = ways[what]()
    return Mutant("pictures", f"{name}: {what}", files)


def _flipped(raw: bytes, rng: random.Random) -> bytes:
    changed = bytearray(raw)
    for _ in range(rng.choice((1, 5, 40))):
        changed[rng.randrange(8, len(changed))] ^= 1 << rng.randrange(8)
    return bytes(changed)


@lru_cache(maxsize=1)
def _text_bomb() -> bytes:
    """Return a small PNG with a compressed comment of 100 MB."""
    good = _saved("PNG", "RGB", 9, 9)
    data = b"Comment\0\0" + zlib.compress(b"\0" * 100_000_000, 9)
    chunk = struct.pack(">I", len(data)) + b"zTXt" + data
    chunk += struct.pack(">I", zlib.crc32(b"zTXt" + data))
    return good[:33] + chunk + good[33:]


_FRONT = """---
title: Our own gate
sheet: {sheet}
reviewed: {reviewed}
summary: How the gate opens.
{more}---
"""
_BODIES = (
    "", "1. Lift.\n2. Pull.\n", "{{ farm.name }} {{ nothing }}\n", "{{ farm }}\n", "{% if %}\n",
    "{{ 1/0 }}\n", "{% for i in range(10**9) %}x{% endfor %}\n", "{{ 'x' * 10**10 }}\n",
    "{{ ().__class__.__base__.__subclasses__() }}\n", "{{ '%d' % 'x' }}\n", "{{ 9**9**9 }}\n",
    "{% include '/etc/passwd' %}\n", "{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}\n",
    "{{ farm.address }}\n", "{{ pens }}\n", "{% for p in pens %}{{ p.name }} {% endfor %}\n",
    "<script>alert(1)</script>\n", "![x](https://example.org/x.png)\n", "[x](javascript:x)\n",
    "[x](sheet:nowhere)\n", "[x](sheet:contacts)\n", "![a gate](picture:none.png)\n",
    "> " * 200 + "x\n", "* " * 200 + "x\n", "[" * 5000 + "\n", "*" * 5000 + "\n",
    "`" * 5001 + "\n",
    "_a" * 3000 + "\n", "x" * 100_000 + "\n", "| a | b |\n|---|---|\n| c |\n",
    "!!! danger\n    x\n",
    "!!! x\n", "## See\n\n## Do\n\n## Call\n", "\x00", "\N{PIG FACE} **b\n", "---\n",
    "    code {{\n",
    "{{ [].append(1) }}\n", "{{ lipsum() }}\n", "{{ cycler }}\n", "{{ self }}\n",
    "{% raw %}{{x}}\n",
    "{{ w }}\n", "{{ farm.name.upper() * 3 }}\n", "{% set x = 1 %}{{ x.y.z }}\n",
    "{{ none }}\n",
    "{{ namespace(x=1).x }}\n", "<!-- -->\n", "&#x7b;&#x7b;\n", "1. a\n\n   b\n\n2. c\n" * 500,
)  # fmt: skip


def protocols(rng: random.Random) -> Mutant:
    """The owner has written a protocol, and not quite so as they are written."""
    name = rng.choice(("x20-own-gate.md", "own-gate.md", "e01-pig-in-heat-trouble.md", "Own.md",
                       "a.md", ".md", "w09-own.md"))  # fmt: skip
    front = _FRONT.format(
        sheet=rng.choice(("E40", "E1", "X1", "W0", "w4", "", "W100", "E40", "E40", "A1", "N1")),
        reviewed=rng.choice(("2026-05-01", "2026-05-01", "2026-02-30", "yesterday", "")),
        more=rng.choice(("", "", "kind: emergency\n", "kind: x\n", "for: pigs\n",
        "sources: [x]\n",
                         "sources: [heat-1]\n", "needs: {a: b}\n", "titel: x\n", "title: y\n",
                         "when: soon\n", "words: [a]\n", "for: &a x\n")),
    )  # fmt: skip
    text = front + rng.choice(_BODIES)
    if rng.random() < 0.15:
        start = rng.randrange(len(text))
        text = text[:start] + rng.choice(("---\n", "\t", "\x00", ":", "")) + text[start + 5 :]
    return Mutant("protocols", f"{name}: {text[-40:]!r}", {f"protocols/{name}": text.encode()})


_CELLS = ("", "nan", "inf", "-999", "1e999", "96 F", "35", "60 C", "-50", "105 %", "0 %", "x",
'"',
          "\N{PIG FACE}", "1e3", "٣", "99.9", "-1e400", "0", "41")  # fmt: skip
_TIMES = ("2026-07-14 15:00", "2026-02-30 15:00", "15:00", "2026-07-14T15:00Z", "",
"9999-12-31",
          "0001-01-01 00:00", "2026-03-08 02:30", "2026-11-01 01:30", "20260714T1500",
          "2026-W10-1", "now")  # fmt: skip
_HEADS = ("time,temperature (F),dew_point (F)", "time,temperature,humidity", "time,temperature",
          "", "time;temperature;humidity", "Time,Temperature [C],Humidity [%]", "a,b,c",
          "time,time,temperature (C),humidity (%)", "LOCATION,x",
          "\ufefftime,temperature (F),humidity (%)",
          '"time","temperature (F)","dew point (F)"',
          "time,temperature (K),humidity (%)")  # fmt: skip


def weather(rng: random.Random) -> Mutant:
    """The farm's weather record is damaged or odd."""
    lines = [rng.choice(_HEADS)]
    good = rng.random() < 0.5
    for n in range(rng.choice((0, 1, 24, 500))):
        when = f"2026-07-{n // 24 % 28 + 1:02d} {n % 24:02d}:00"
        if good or rng.random() < 0.9:
            lines.append(f"{when},{60 + n % 40},{rng.randint(0, 60)}")
        else:
            lines.append(",".join((rng.choice(_TIMES), rng.choice(_CELLS), rng.choice(_CELLS))))
    text = rng.choice(("\n", "\n", "\r\n")).join(lines)
    files: dict[str, Content] = {"weather.csv": text.encode()}
    if rng.random() < 0.7:  # without the owner's own climate the record decides
        data = plain("farm.yaml")
        if isinstance(data, dict):
            for key in rng.sample(("climate", "hot_day", "extreme_day"), rng.randint(1, 3)):
                data.pop(key)
        files["farm.yaml"] = dumped(data)
    return Mutant("weather", f"{lines[0]!r}, {len(lines)} lines", files)


def references(rng: random.Random) -> Mutant:
    """Ids are taken twice, lead nowhere or in a circle."""
    name = rng.choice(("pens.yaml", "equipment.yaml", "animals.yaml"))
    text = texts()[name]
    ids = ("creek", "stall-1", "h1", "h2", "h3", "h4", "well", "hill-tank", "barn-fans", "w1",
    "d1",
           "fan-1", "sow-feed", "nowhere", "cord-1", "gen", "bleach", "july")  # fmt: skip
    old, new = rng.choice(ids), rng.choice(ids)
    if name == "equipment.yaml" and rng.random() < 0.6:
        hoses = rng.sample(("h1", "h2", "h3", "h4", "hill-tank"), rng.randint(1, 5))
        ring = zip(hoses, [*hoses[1:], hoses[0]], strict=True)
        data = plain(name)
        if isinstance(data, dict):
            fed = dict(ring)
            for kind in ("hoses", "tanks"):
                listed = data[kind]
                for item in listed if isinstance(listed, list) else ():
                    if isinstance(item, dict) and item["id"] in fed:
                        item["fed_by"] = fed[str(item["id"])]
        return Mutant("references", f"ring of {hoses}", {name: dumped(data)}, must_fail=True)
    places = [n for n in range(len(text)) if text.startswith(old, n)]
    if not places:
        return Mutant("references", "nothing changed", {})
    at = rng.choice(places)
    changed = text[:at] + new + text[at + len(old) :]
    return Mutant("references", f"{name}: {old} -> {new}", {name: changed.encode()})
