"""What lies in a farm folder beside its lists: pictures, protocols, weather, logs and links."""

from __future__ import annotations

import datetime as dt
import io
import os
from typing import TYPE_CHECKING

from PIL import Image

from tests.proof.second.dice import MARKUP

if TYPE_CHECKING:
    from pathlib import Path

    from tests.proof.second.farm import Given


def _png() -> bytes:
    held = io.BytesIO()
    Image.new("RGB", (3, 2), (9, 90, 9)).save(held, "PNG")
    return held.getvalue()


PNG = _png()
NAMES = ("a.png", "b.PNG", "c.jpg", "-rf.png", "a b.png", "é.png", "x" * 200 + ".png", "d.svg")
# Names that would lead out of pictures/, were they taken for paths.
LEADING_OUT = (
    "../album/family.png", "../../album/family.png", "/etc/hostname", "a/../../x.png",
    "..\\..\\x.png", "file:///etc/hostname", "http://127.0.0.1:1/x.png", "%2e%2e/x.png", "..",
    "link.png", "con.png\0", "data:image/png;base64,AAAA",
)  # fmt: skip
BODIES = (
    "![a](picture:{picture})", "<img src='{picture}'>", "<iframe src='/etc/passwd'></iframe>",
    "{{{{ 10**(10**8) }}}}", "{{{{ ''.__class__.__mro__ }}}}", "{{{{ range(10**9)|list }}}}",
    "{{% for a in range(99999) %}}{{% for b in range(99999) %}}x{{% endfor %}}{{% endfor %}}",
    "{{% include '/etc/passwd' %}}", "{{% import 'os' as os %}}{{{{ os }}}}",
    "{{{{ call('vet') }}}}", "{{{{ nothing }}}}", "{{{{ care }}}}", "{{{{ farm }}}}",
    "{{{{ pens }}}}", "{{% for pen in pens %}}{{{{ pen.name }}}} {{% endfor %}}",
    "{{{{ self }}}}", "{{{{ cycler.__init__ }}}}", "{{% set x = x %}}", "{{{{ 1/0 }}}}",
    "{{{{ 'a'*10**9 }}}}", "{{% macro m() %}}{{{{ m() }}}}{{% endmacro %}}{{{{ m() }}}}",
    "[a](sheet:nowhere)", "[a](working:none)", "[a](javascript:alert(1))", "&#1114112; &#0;",
    "[[12 in|30 cm]]", "==mark==", "- a\n" * 200, "> " * 200 + "x", "[" * 5000, "*" * 5001,
    "| a | b |\n|---|---|\n| | |", "# One\n\n## Two\n\n### Three\n", "", " ", "\u202eback",
    "1. one\n2. two\n", "<div markdown='1'>\n\n# x\n\n</div>", "```\ncode\n```", "`" * 3001,
    "{{{{ '%s'|format(1) }}}}", "{{{{ [1,2]|map('int')|sum }}}}", "{{# never closed",
    "{{% if true %}}", "{{{{ lipsum(9999) }}}}", "{{{{ namespace(a=1).a }}}}",
)  # fmt: skip
HEADS = (
    "title: {word}\nsheet: {sheet}\nreviewed: 2026-05-01\nsummary: {word}",
    "title: {word}\nsheet: {sheet}\nreviewed: 2026-05-01\nsummary: x\nkind: emergency",
    "title: {word}\nsheet: {sheet}\nreviewed: 2026-05-01\nsummary: x\nsources: [x-1]",
    "title: {word}\nsheet: {sheet}",
    "title: [{word}]\nsheet: {sheet}\nreviewed: 2026-05-01\nsummary: {{a: b}}",
    "{word}",
)
FILES = (
    "e01-pig-in-heat-trouble.md", "x09-mine.md", "mine.md", "w03-daily-water-care.md",
    "k1-keys.md", "-.md", "numbers.md", "index.md", "a" * 120 + ".md", "front.md", "map.md",
)  # fmt: skip


def decoys(around: Path) -> None:
    """Lay out beside the farm what no build may touch or show."""
    (around / "album").mkdir(parents=True)
    (around / "album" / "family.png").write_bytes(PNG)
    (around / "album" / "secret.md").write_text("FAMILY SECRET", "utf-8")


def lay(made: Given) -> None:
    """Add further files to a farm: each sort seldom, or few farms would be built at all."""
    dice = made.dice
    if dice.yes(0.25):
        _pictures(made)
    if dice.yes(0.25):
        for _ in range(dice.randint(1, 2)):
            _protocol(made)
    if dice.yes(0.2):
        made.others["weather.csv"] = _readings(made, 24 * dice.randint(0, 9))
    if dice.yes(0.15):
        made.others["weather/own.csv"] = _readings(made, 24 * dice.one((0, 1, 9, 40)))
    if dice.yes(0.2):
        made.others["logs/june.csv"] = _log(made)


def _pictures(made: Given) -> None:
    dice = made.dice
    for name in dice.some(NAMES, 4):
        made.others[f"pictures/{name}"] = PNG if dice.yes(0.8) else dice.randbytes(80)
    there = [name.partition("/")[2] for name in made.others if name.startswith("pictures/")]
    things = [*made.files["animals"], *made.files["pens"]]
    for thing in things:
        if dice.yes(0.5) and there:
            thing["picture"] = dice.one(there)
    if dice.yes(0.3):
        dice.one(things)["picture"] = dice.one(LEADING_OUT)


def _protocol(made: Given) -> None:
    dice = made.dice
    sheet = f"{dice.one('EHWFBSMRCQX')}{dice.randint(1, 99)}"
    head = dice.one((HEADS[0], HEADS[0], *HEADS)).format(word=made.pen.line(3), sheet=sheet)
    body = "\n\n".join(
        dice.one(BODIES).format(picture=dice.one((*NAMES, *LEADING_OUT)))
        if dice.yes(0.6)
        else dice.one((made.pen.text(), f"1. {made.pen.line()}", dice.one(MARKUP)))
        for _ in range(dice.randint(0, 4))
    )
    if dice.yes(0.3):
        body = f"## See\n\n{body}\n\n## Do\n\n1. Look.\n\n## Call\n\n- Somebody\n"
    made.others[f"protocols/{dice.one(FILES)}"] = f"---\n{head}\n---\n{body}\n"


def _readings(made: Given, count: int) -> str:
    """Return hours before the build, sometimes with a hole, a wrong cell or a strange clock."""
    dice = made.dice
    unit = dice.one(("F", "C"))
    heads = (f"time,temperature ({unit}),dew_point ({unit})", f"time,temperature ({unit}),x")
    head = heads[0] if dice.yes(0.93) else heads[1]
    begin = dt.datetime.combine(made.on, dt.time()) - dt.timedelta(hours=count + 24)
    mean, rows = dice.uniform(-10, 38), [head]
    for hour in range(count):
        air = mean + dice.uniform(-6, 6)
        dew = air - dice.uniform(0, 15)
        if unit == "F":
            air, dew = air * 1.8 + 32, dew * 1.8 + 32
        stamp = begin + dt.timedelta(hours=hour)
        rows.append(f"{stamp:%Y-%m-%d %H:%M},{air:.1f},{dew:.1f}")
    if dice.yes(0.1) and len(rows) > 1:
        at = dice.randrange(1, len(rows))
        rows[at] = dice.one(("", "x,y,z", rows[at].replace("-", "/"), f"{rows[at]},9", "2026"))
    return "\n".join(rows) + "\n"


def _log(made: Given) -> str:
    dice = made.dice
    rows = ["date,visit,written,pen,number,air,counted,of,breathing,water,notes,initials"]
    for _ in range(dice.randint(0, 20)):
        pen = dice.one(made.files["pens"])["id"] if dice.yes(0.97) else "nowhere"
        day = made.on - dt.timedelta(dice.randint(0, 60))
        note = dice.one(("", "fine", "=1+1", made.pen.line(2).replace(",", " "), '"'))
        rows.append(
            f"{day},13:00,13:05,{pen},{dice.randint(0, 4)},90 F,{dice.randint(0, 9)},9,"
            f"{dice.one(('easy', 'fast', 'open-mouth', ''))},"
            f"{dice.one(('good', 'warm', 'failed', ''))},{note.replace(chr(34), '')},AB"
        )
    return "\n".join(rows) + "\n"


def links(made: Given, folder: Path) -> None:
    """Put links, pipes and other things into a farm that lies on the disk."""
    dice = made.dice
    if not dice.yes(0.08):
        return
    place, kind = dice.one(_PLACES)
    path = folder / place
    if os.path.lexists(path):
        return
    path.parent.mkdir(exist_ok=True)
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "folder":
        path.mkdir()
    elif kind == "huge":
        with path.open("wb") as stream:
            stream.truncate(200_000_000)
    else:
        path.symlink_to(kind)


# Where something else lies than a file of its own, and what: a pipe, a folder, a file without
# end, or a link to there.
_PLACES = (
    ("weather.csv", "pipe"), ("ledger.yaml", "pipe"), ("a.yaml", "pipe"), ("x.txt", "pipe"),
    ("logs/pipe.csv", "pipe"), ("weather/pipe.csv", "pipe"), ("protocols/x13-pipe.md", "pipe"),
    ("pictures/pipe.png", "pipe"), ("pictures/link.png", "../../album/family.png"),
    ("protocols/x12-secret.md", "../../album/secret.md"), ("weather.csv", "weather.csv"),
    ("pictures", "../album"), ("protocols", "../album"), ("logs", "/dev"), ("weather", "/dev"),
    ("weather/zero.csv", "/dev/zero"), ("logs/zero.csv", "/dev/zero"), ("logs/x.csv", "folder"),
    ("protocols/x14-folder.md", "folder"), ("weather/x.csv", "folder"), ("pictures", "pipe"),
    ("weather.csv", "huge"), ("weather/huge.csv", "huge"), ("logs/huge.csv", "huge"),
    ("protocols/x15-huge.md", "huge"), ("pictures/huge.png", "huge"), ("ledger.yaml", "folder"),
    ("ledger.yaml", "../album/secret.md"), ("ledger.yaml", "huge"), ("logs", "pipe"),
    ("weather", "pipe"), ("protocols", "pipe"), ("pictures/x.png", "folder"),
)  # fmt: skip
