"""The ledger file: what is read is what was written, and no stop at any point loses it."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
import time
from typing import TYPE_CHECKING

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from binder.output.handed import ledger_file
from binder.output.handed.ledger import FILE, HandOver, Ledger, Revision, with_return
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from pathlib import Path

ONE = Ledger(
    {"water": (Revision(1, "2026-05-01", "W1", "How much they drink", "abc"),)},
    (HandOver("Dana", "2026-05-01", "sitter", "f00t", {"water": 1}),),
)

text = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cs", "Cc", "Zl", "Zp", "Cn", "Co")),
    min_size=1,
    max_size=30,
).map(str.strip)
day = st.dates().map(lambda each: each.isoformat())
slug = st.from_regex(r"[a-z][a-z0-9-]{0,20}", fullmatch=True)


@st.composite
def any_ledger(draw: st.DrawFn) -> Ledger:
    """Return a ledger with any texts in it."""
    revisions = {
        name: tuple(
            Revision(
                number, draw(day), draw(text), draw(text), draw(text), draw(st.just("") | text)
            )
            for number in range(1, draw(st.integers(2, 4)))
        )
        for name in draw(st.lists(slug, unique=True, max_size=4))
    }
    held = {name: known[-1].number for name, known in revisions.items()}
    hand_overs = tuple(
        HandOver(
            draw(text),
            draw(day),
            draw(st.sampled_from(["", "sitter"])),
            draw(text),
            held,
            draw(st.just("") | day),
            draw(st.booleans()),
            draw(st.sampled_from([{}, held])),
        )
        for _ in range(draw(st.integers(0, 3)))
    )
    return Ledger(revisions, hand_overs)


@given(any_ledger())
def test_what_is_written_is_read_again(
    tmp_path_factory: pytest.TempPathFactory, ledger: Ledger
) -> None:
    """Names and titles of any letters come back as they were."""
    folder = tmp_path_factory.mktemp("farm")
    ledger_file.save(folder, ledger)
    assert ledger_file.load(folder) == ledger


def test_file_is_plain_yaml(tmp_path: Path) -> None:
    """Any YAML reader understands it (checked with PyYAML's own safe loader)."""
    ledger_file.save(tmp_path, ONE)
    read = yaml.safe_load((tmp_path / FILE).read_text(encoding="utf-8"))
    assert read["sheets"]["water"][0]["title"] == "How much they drink"
    assert read["hand-overs"][0]["sheets"] == {"water": 1}


def test_all_that_is_wrong_is_told_at_once(tmp_path: Path) -> None:
    """Two slips in one file are two lines, each with its own place."""
    slips = "hand-overs:\n- {name: D, date: May, edition: siter, foot: x, shets: {}}\n"
    (tmp_path / FILE).write_text(slips, encoding="utf-8")
    with pytest.raises(ProblemsError) as caught:
        ledger_file.load(tmp_path)
    told = str(caught.value).splitlines()
    assert [line.split("  ")[0] for line in told] == [
        f"{FILE}:2:19",
        f"{FILE}:2:33",
        f"{FILE}:2:49",
    ]


def test_a_row_of_a_sheet_stands_on_one_line(tmp_path: Path) -> None:
    """So that a difference of two ledgers reads as what was handed over since."""
    ledger_file.save(tmp_path, ONE)
    lines = (tmp_path / FILE).read_text(encoding="utf-8").splitlines()
    assert (
        '    - {revision: 1, date: 2026-05-01, sheet: "W1", title: "How much they drink", '
        'content: "abc"}'
    ) in lines


def test_no_ledger_is_an_empty_one(tmp_path: Path) -> None:
    """Before the first hand-over there is no file, and nothing is wrong."""
    assert ledger_file.load(tmp_path) == Ledger()


GIVEN = 'hand-overs:\n- name: D\n  date: 2026-05-01\n  edition: ""\n  foot: x\n'


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("sheets: [", "brackets"),
        ("- 1", "is a list, but keys belong here"),
        ("sheets: {water: 3}", 'sheets > water: is "3", but a list belongs here'),
        (
            "sheets: {water: [{revision: one}]}",
            ':1:29  sheets > water > 1 > revision: "one" is not a whole number; write it like',
        ),
        ("sheets: {water: [{date: 2026-05-01}]}", "sheets > water > 1: revision is missing"),
        ("hand-overs: [{date: 2026-05-01}]", "name is missing; write it like name: Dana; take"),
        ("hand-overs: [{name: [D]}]", "name: is a list or mapping, but plain text belongs"),
        (f"{GIVEN}  by-pen: perhaps", 'hand-overs > D > by-pen: "perhaps" is not yes or no'),
        (
            'hand-overs: [{name: D, date: 2026-05-01, edition: "", foot: x, sheets: {a: 1}}]',
            "no revision 1 stands above",
        ),
        (
            "hand-overs:\n- {name: D, date: 2026-05-01, edition: siter, foot: x}",
            ':2:40  hand-overs > D > edition: "siter" is no edition; did you mean sitter?',
        ),
        (
            'hand-overs:\n- {name: D, date: 1 May, edition: "", foot: x}',
            'hand-overs > D > date: "1 May" is not a date; write it like 2026-05-20',
        ),
        (
            f"{GIVEN}  returned: last week",
            ':6:13  hand-overs > D > returned: "last week" is not a date; write it like',
        ),
        (
            'hand-overs:\n- {name: D, date: 2026-05-01, edition: "", foot: x, returned: [1]}',
            "hand-overs > D > returned: is a list or mapping, but plain text belongs here",
        ),
        (
            f"{GIVEN}  retuned: 2026-05-20",
            ':6:3  hand-overs > D: "retuned" is not a key here; did you mean returned?',
        ),
        ("hand-over: []", '"hand-over" is not a key here; did you mean hand-overs?'),
    ],
)
def test_a_damaged_ledger_is_named_and_left_alone(
    tmp_path: Path, content: str, words: str
) -> None:
    """A file that is not a ledger stops the command; it is neither guessed at nor replaced."""
    (tmp_path / FILE).write_text(content, encoding="utf-8")
    with pytest.raises(ProblemsError) as caught:
        ledger_file.load(tmp_path)
    assert words in str(caught.value)
    assert str(caught.value).startswith(f"{FILE}:")
    assert (tmp_path / FILE).read_text(encoding="utf-8") == content


WRITES_FOREVER = """
import sys
from pathlib import Path
from binder.output.handed import ledger as l, ledger_file
folder, count = Path(sys.argv[1]), 0
long = "x" * 400
while True:
    count += 1
    known = {f"s{n}": (l.Revision(count, "2026-05-01", "W1", long, "c"),) for n in range(300)}
    with ledger_file.held(folder):
        ledger_file.save(folder, l.Ledger(known))
    print(count, flush=True)
"""


@pytest.mark.slow
def test_killed_at_any_point_leaves_an_old_or_a_new_ledger(tmp_path: Path) -> None:
    """Killed without warning while it writes, the file is whole, and never older than told."""
    waits = random.Random(6)
    for _ in range(25):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITES_FOREVER, str(tmp_path)],
            stdout=subprocess.PIPE,
            text=True,
        )
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(waits.uniform(0, 0.03))
        writer.send_signal(signal.SIGKILL)
        told = [int(line) for line in writer.stdout.read().split()] or [1]
        writer.wait()
        writer.stdout.close()
        ledger = ledger_file.load(tmp_path)
        numbers = {known[0].number for known in ledger.revisions.values()}
        assert len(ledger.revisions) == 300
        assert len(numbers) == 1
        assert numbers.pop() in {told[-1], told[-1] + 1}
    ledger_file.save(tmp_path, ONE)
    assert [path.name for path in tmp_path.iterdir()] == [FILE], "leftovers are swept up"


def test_a_full_disk_leaves_the_old_ledger(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the new file cannot be forced to the disk the old one stays, and nothing else."""
    ledger_file.save(tmp_path, ONE)
    before = (tmp_path / FILE).read_bytes()

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(ProblemsError, match="No space left on device; it is as it was"):
        ledger_file.save(tmp_path, Ledger())
    assert (tmp_path / FILE).read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == [FILE]


def test_hand_overs_of_one_farm_wait_for_each_other(tmp_path: Path) -> None:
    """Two at once do not overwrite each other: the second begins when the first ends."""
    order: list[str] = []

    def second() -> None:
        with ledger_file.held(tmp_path):
            order.append("second")

    with ledger_file.held(tmp_path):
        other = threading.Thread(target=second)
        other.start()
        time.sleep(0.1)
        order.append("first")
    other.join()
    assert order == ["first", "second"]


def test_a_returned_binder_is_out_no_more() -> None:
    """After it came back nobody has it; a name that has none is told who does."""
    back = with_return(ONE, "dana ", "2026-05-20")
    assert back.out() == ()
    assert back.binder_of("Dana") is None
    with pytest.raises(ProblemsError, match='no binder is out with "Bo"; out with: Dana'):
        with_return(ONE, "Bo", "2026-05-20")


TWO = """\
sheets:
  water:
    - {revision: 1, date: 2026-05-01, sheet: W1, title: How much they drink, content: a}
    - {revision: 2, date: 2026-05-20, sheet: W1, title: How much they drink, content: b}
    - {revision: 2, date: 2026-05-21, sheet: W1, title: How much they drink, content: c}
hand-overs: []
"""


def test_two_revisions_of_one_number_are_refused(tmp_path: Path) -> None:
    """A ledger put together from two computers is told with the sheet and the line."""
    (tmp_path / FILE).write_text(TWO, encoding="utf-8")
    with pytest.raises(ProblemsError, match="revision 2 of W1 How much they drink after 2"):
        ledger_file.load(tmp_path)
    (tmp_path / FILE).write_text(
        TWO.replace("revision: 2, date: 2026-05-20", "revision: 3, date: 2026-05-20"),
        encoding="utf-8",
    )
    with pytest.raises(
        ProblemsError, match=r"ledger\.yaml:5:\d+ .*revision 2 of W1 .* after 3"
    ):
        ledger_file.load(tmp_path)


def test_a_hand_over_of_another_ledger_is_refused(tmp_path: Path) -> None:
    """Where a merge kept one revision 2 of two, the other hand-over is found out."""
    revisions = (
        Revision(1, "2026-05-01", "W1", "Water", "a"),
        Revision(2, "2026-05-20", "W1", "Water", "b"),
    )
    given = HandOver("Dana", "2026-05-20", "", "f", {"water": 2})
    ledger_file.save(tmp_path, Ledger({"water": revisions}, (given,)))
    assert ledger_file.load(tmp_path).hand_overs == (given,)
    path = tmp_path / FILE
    merged = path.read_text(encoding="utf-8").replace('content: "b"', 'content: "c"')
    path.write_text(merged, encoding="utf-8")
    with pytest.raises(
        ProblemsError, match=r"hand-overs > Dana > seal: .*two ledgers were put"
    ):
        ledger_file.load(tmp_path)


def test_a_hand_over_without_a_seal_is_read(tmp_path: Path) -> None:
    """Ledgers of before the seal go on."""
    ledger_file.save(tmp_path, ONE)
    path = tmp_path / FILE
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    path.write_text("".join(line for line in lines if "seal:" not in line), encoding="utf-8")
    assert ledger_file.load(tmp_path) == ONE
