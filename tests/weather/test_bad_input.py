"""A weather file that cannot be true is refused with one clear message."""

from __future__ import annotations

import datetime as dt
import os
from typing import TYPE_CHECKING

import pytest

from binder.problems import ProblemsError
from binder.weather.read import MOST_BYTES, read_file, read_files, read_folder, read_text
from tests.weather_data import ASKED, TM2, TMY3, logger, text_of

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

FAHRENHEIT = logger(48, row=lambda _, at: f"{at:%Y-%m-%d %H:%M},{68 + at.hour},60")
MIXED = logger(48, row=lambda _, at: f"{at:%Y-%m-%d %H:%M},{40 + at.hour},60")
SHARES = logger(48, row=lambda _, at: f"{at:%Y-%m-%d %H:%M},25,0.{50 + at.hour}")
NOVEMBER = logger(30, first=dt.datetime(2025, 11, 2)).splitlines()  # noqa: DTZ001
DOUBLE = "\n".join([*NOVEMBER[:3], NOVEMBER[2], *NOVEMBER[3:]])
JULY = logger(30).splitlines()
DOUBLE_IN_JULY = "\n".join([*JULY[:3], JULY[2], *JULY[3:]])
FIVE_YEARS = "\n".join(
    [
        "time,temperature (C),humidity (%)",
        *(
            f"{year}-{month:02d}-01 {hour:02d}:00,20,60"
            for year in range(2019, 2024)
            for month in range(1, 13)
            for hour in range(24)
        ),
    ]
)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (FAHRENHEIT, "every temperature is above 60 C, the highest 91"),
        (MIXED, "6 of 48 temperatures are above 60 C"),
        (SHARES, "every humidity is 0.73 % or less: these look like shares of 1"),
        (logger(96, minutes=30), "has a row every 30 minutes; one an hour is read"),
        (logger(48, minutes=15), "has a row every 15 minutes"),
        (
            DOUBLE,
            "has 2025-11-02 01:00 twice, at lines 3 and 4: the night the clocks went back",
        ),
        (DOUBLE_IN_JULY, "has 2025-07-01 01:00 twice, at lines 3 and 4; take one of them out"),
        (FIVE_YEARS, "holds 5 years, 2019 to 2023; a file holds a year at most"),
        (
            logger(48, first=dt.datetime(2062, 7, 1)),  # noqa: DTZ001
            "goes to 2062-07-02, which is still to come",
        ),
        (
            logger(48, first=dt.datetime(1904, 1, 1)),  # noqa: DTZ001
            "begins in 1904: the logger's clock was not set",
        ),
        (
            "\n".join([*logger(5, first=dt.datetime(1970, 1, 1)).splitlines(), *JULY[1:]]),  # noqa: DTZ001
            "has 5 hours of 1970 beside 2025: the logger's clock was not set",
        ),
        ("\n".join([JULY[0], *JULY[:0:-1]]), "goes back in time at line 3"),
        ("time,temperature (C),humidity (%)", "holds no hour with a temperature"),
        ("", "is empty"),
        ("  \n \n", "is empty"),
        (text_of(TM2).splitlines()[0], "holds no hour with a temperature"),
    ],
)
def test_a_file_that_cannot_be_true_has_one_message(text: str, said: str) -> None:
    """One message for the whole file, not one for each of its thousands of lines."""
    with pytest.raises(ProblemsError) as caught:
        read_text(text, "logger.csv", ASKED)
    problems = [str(problem) for problem in caught.value.problems]
    assert len(problems) == 1
    assert "logger.csv" in problems[0]
    assert said in problems[0]


@pytest.mark.parametrize(
    ("head", "row", "said"),
    [
        ("time,temp (F),humidity (%)", "2025-07-01 15:00,90,50", "temperature: has no column"),
        ("time,temperature (F),humid (%)", "2025-07-01 15:00,90,50", "did you mean humid"),
        (
            "time,temperature (K),humidity (%)",
            "2025-07-01 15:00,300,50",
            "is not a temperature",
        ),
        ("time (utc),temperature (F),humidity (%)", "x,90,50", '"utc" says nothing about'),
        (
            "time,temperature (F),humidity (%)",
            "07/01/2025 15:00,90,50",
            "time (month/day/year)",
        ),
        ("time,temperature (F),humidity (%)", "2025-07-01T15:00Z,90,50", "carries a time zone"),
        (
            "time,temperature (F),humidity (%)",
            "2025-07-01 15:00,hot,50",
            "is not a temperature",
        ),
        ("time,temperature (F),humidity (%)", "2025-07-01 15:00,90,140", "a humidity of 140 %"),
        ("time,temperature (F),dew point (F)", "2025-07-01 15:00,70,90", "which cannot be"),
        (
            "time,temperature (F),humidity (%),wind (mph)",
            "2025-07-01 15:00,70,90,400",
            "a wind",
        ),
        (
            "time,temperature (F),humidity (%),sun (W/m2)",
            "2025-07-01 15:00,70,90,9000",
            "sun of",
        ),
    ],
)
def test_a_line_that_cannot_be_read_is_named(head: str, row: str, said: str) -> None:
    """The message says what was read and what was expected."""
    with pytest.raises(ProblemsError) as caught:
        read_text(f"{head}\n{row}", "logger.csv", ASKED)
    assert said in str(caught.value)


def test_all_wrong_lines_are_told_but_no_flood() -> None:
    """Of a thousand bad lines twenty are named, and the rest is counted."""
    text = logger(1000, row=lambda _, at: f"{at:%Y-%m-%d %H:%M},warm,60")
    with pytest.raises(ProblemsError) as caught:
        read_text(text, "logger.csv", ASKED)
    problems = [str(problem) for problem in caught.value.problems]
    assert len(problems) == 21
    assert any("has 980 more lines like these" in problem for problem in problems)


def test_a_file_of_zeros_is_refused_unread(tmp_path: Path) -> None:
    """2 GB of zero bytes: its size is asked before it is opened."""
    path = tmp_path / "zeros.csv"
    with path.open("wb") as stream:
        stream.truncate(2_000_000_000)  # takes no room on the disk
    with pytest.raises(ProblemsError, match=r"zeros\.csv.*is 2,000 MB; a year of hours is"):
        read_file(path, ASKED)
    path.write_bytes(b"\0" * 1000)
    with pytest.raises(ProblemsError, match="is no text: it holds zero bytes"):
        read_file(path, ASKED)


@pytest.mark.parametrize("name", [TMY3, TM2])
def test_a_cut_line_of_a_typical_year_is_named(name: str) -> None:
    """The line number is that of the file."""
    lines = text_of(name).splitlines()
    lines[99] = lines[99][:20]
    with pytest.raises(ProblemsError, match=r":100\b"):
        read_text("\n".join(lines), name, ASKED)


def test_everything_wrong_in_several_files_is_told_at_once(tmp_path: Path) -> None:
    """One message for each of two files; a folder that is missing holds no weather."""
    (tmp_path / "a.csv").write_text(FAHRENHEIT, encoding="utf-8")
    (tmp_path / "b.csv").write_text(FIVE_YEARS, encoding="utf-8")
    (tmp_path / "c.csv").write_text(logger(), encoding="utf-8")
    (tmp_path / "notes.md").write_text("not weather", encoding="utf-8")
    with pytest.raises(ProblemsError) as caught:
        read_folder(tmp_path, ASKED)
    inside = tmp_path.name
    told = [problem.place.file for problem in caught.value.problems]
    assert told == [f"{inside}/a.csv", f"{inside}/b.csv"]  # so that the owner finds them
    with pytest.raises(ProblemsError, match=r"^a\.csv"):  # from elsewhere: the name alone
        read_file(tmp_path / "a.csv", ASKED)
    assert [record.file for record in read_files([tmp_path / "c.csv"], ASKED)] == ["c.csv"]
    assert read_folder(tmp_path / "none", ASKED) == ()
    assert MOST_BYTES < 2_000_000_000


@pytest.mark.parametrize("make", [os.mkfifo, lambda path: path.mkdir()], ids=["pipe", "folder"])
def test_what_is_no_file_is_not_waited_for(
    tmp_path: Path, make: Callable[[Path], None]
) -> None:
    """A pipe called `own.csv`: nobody writes into it, so reading it would never end."""
    (tmp_path / "weather").mkdir()
    make(tmp_path / "weather" / "own.csv")
    with pytest.raises(ProblemsError, match=r"^weather/own\.csv  is not a file"):
        read_folder(tmp_path / "weather", ASKED)
