"""The logs that a phone saves: read, refused with file and line, and summed up."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner

from binder.cli import commands
from binder.farm.logbook.entries import COLUMNS, read_logs
from binder.farm.logbook.learned import learned
from binder.problems import ProblemsError

if TYPE_CHECKING:
    from pathlib import Path

    from tests.conftest import FarmFolder

HEAD = ",".join(COLUMNS)
LINES = f"""{HEAD}
2026-07-12,13:00,13:20,creek,3,95°F 55%,1,2,open-mouth,failed,"lay, panting",MQ
2026-07-12,20:45,20:50,creek,1,,2,2,easy,good,,MQ
2026-07-13,look 15:10,15:12,creek,4,,2,2,open-mouth,warm,'=odd,MQ
2026-07-13,13:00,13:05,barn,2,,,,fast,,,MQ
"""
FARM = {
    "farm.yaml": "name: Quiet Acre\nplace: Somewhere, Georgia\n",
    "animals.yaml": "- {name: Clementine, species: pig, sex: sow, pen: creek}\n",
    "pens.yaml": "- {id: creek, name: Creek paddock, kind: pasture}\n"
    "- {id: barn, name: Barn, kind: stall}\n",
    "contacts.yaml": "- {name: Ann Example, role: owner, phone: 555-0100}\n",
}


def test_lines_are_read_and_summed_up(farm_folder: FarmFolder) -> None:
    """By hand: open mouth twice of three, at 3 and 4; water failed once; one short once."""
    folder = farm_folder({"logs/july.csv": LINES, "logs/again.csv": LINES})
    found = read_logs(folder, ["creek", "barn"])
    assert len(found) == 4  # what two files hold counts once
    told = {
        (one.sign, one.pen): (len(one.lines), one.of, one.numbers) for one in learned(found)
    }
    assert told == {
        ("open-mouth", "creek"): (2, 3, (3, 4)),
        ("failed", "creek"): (1, 3, (3,)),
        ("short", "creek"): (1, 3, (3,)),
        ("fast", "barn"): (1, 1, (2,)),
        ("warm", "creek"): (1, 3, (4,)),
    }
    assert learned(found)[0].sign == "open-mouth"


def test_a_farm_without_logs_has_none(tmp_path: Path) -> None:
    """No folder, no lines."""
    assert read_logs(tmp_path, None) == ()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("day,pen\n", "logs/a.csv:1:1  date: is missing in the first line"),
        ("date,pen,breath\n", "logs/a.csv:1:1  breath: is no column of a log"),
        ("date,pen\n12 July,creek\n", 'logs/a.csv:2:1  date: "12 July" is no day'),
        ("date,pen\n2026-07-12,creak\n", '"creak" is no pen of this farm; did you mean creek?'),
        ("date,pen,number\n2026-07-12,creek,7\n", 'number: "7" is none of 0, 1, 2, 3, 4'),
        (
            "date,pen,water\n2026-07-12,creek,wet\n",
            'water: "wet" is none of good, warm, failed',
        ),
        ("date,pen,counted\n2026-07-12,creek,two\n", '"two" is no whole number of head'),
    ],
)
def test_what_cannot_be_read_is_told(farm_folder: FarmFolder, text: str, told: str) -> None:
    """With file, line, what was read and what would do."""
    folder = farm_folder({"logs/a.csv": text})
    with pytest.raises(ProblemsError) as caught:
        read_logs(folder, ["creek"])
    assert told in str(caught.value)


def test_check_tells_what_was_noted(farm_folder: FarmFolder) -> None:
    """Who panted at which number, and where the water failed; a bad line stops the check."""
    folder = farm_folder({**FARM, "logs/july.csv": LINES})
    ran = CliRunner().invoke(commands, ["check", str(folder), "--date", "2026-07-20"])
    assert ran.exit_code == 0, ran.output
    said = " ".join(ran.output.split())
    assert "Written in logs: 4 lines on 2 days" in said
    assert "Creek paddock: panted with an open mouth 2 of 3 times. Numbers then: 3" in said
    assert "Creek paddock: water weak or dry 1 of 3 times." in said
    farm_folder({"logs/bad.csv": "date,pen\n2026-07-12,nowhere\n"})
    ran = CliRunner().invoke(commands, ["check", str(folder)])
    assert ran.exit_code == 1
    assert "logs/bad.csv:2" in str(ran.exception)
    to = str(folder.parent / "out")
    built = CliRunner().invoke(commands, ["build", str(folder), "--to", to])
    assert (built.exit_code, str(built.exception)) == (1, str(ran.exception))
