"""`binder day` and `binder check`, as typed."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
import pytest

from binder import cli, day, fetch
from binder.problems import Place, Problem, ProblemsError
from tests.test_fetch import forecast, period

if TYPE_CHECKING:
    from collections.abc import Sequence

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE = str(ROOT / "content" / "example-farm")
HOT = ("--high", "101F", "--low", "76F", "--dew-point", "71F", "--date", "2026-07-14")


def run(*words: str) -> int:
    """Run a command in this process; return its exit code."""
    sys_argv, sys.argv = sys.argv, ["binder", *words]
    try:
        with pytest.raises(SystemExit) as stop:
            cli.main()
    finally:
        sys.argv = sys_argv
    code = stop.value.code
    assert isinstance(code, int)
    return code


def said(capsys: pytest.CaptureFixture[str]) -> str:
    """Return what was printed, on one line."""
    caught = capsys.readouterr()
    return " ".join((caught.out + caught.err).split())


def words_of(pdf: Path) -> str:
    """Return the text of a printed file."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        pages = [
            document[number].get_textpage().get_text_range() for number in range(len(document))
        ]
    finally:
        document.close()
    return " ".join(" ".join(pages).split())


def files(folder: Path) -> list[str]:
    """Return the names in a folder."""
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder with the sheet of a day of 101 F in the July stay."""
    to = tmp_path_factory.mktemp("day") / "sheets"
    assert run("day", EXAMPLE, *HOT, "--to", str(to)) == 0
    return to


def test_a_day_is_a_page_and_a_print_of_the_same_name(written: Path) -> None:
    """Named after its date; nothing else is written."""
    assert files(written) == ["day-2026-07-14.html", "day-2026-07-14.pdf"]


def test_the_page_opens_by_itself(written: Path) -> None:
    """No address of any other place, no link that leads nowhere, no script."""
    page = (written / "day-2026-07-14.html").read_text(encoding="utf-8")
    assert not re.findall(r'(?:src|href)="(?!tel:|data:)[^"#]', page)
    assert "<script" not in page
    assert page.count("<h1>") == 2


@pytest.mark.parametrize(
    "wanted",
    [
        "Tuesday 14 July: 101°F",  # which day
        "It gets to All hands",  # its worst band (example farm: from an index of 90)
        "Morning feed eaten by",  # meals
        "Visits at 6:30 am, 1 pm and 8:45 pm",  # the rounds of the stay that the day lies in
        "Where the visits are too few",
        "Water and power stop at first light",  # what fails first
        "Be back in",
        "gal a day",
    ],
)
def test_the_print_says_what_the_day_asks(written: Path, wanted: str) -> None:
    """Timeline, bands, meals, rounds, amounts and warnings are on paper."""
    assert wanted in words_of(written / "day-2026-07-14.pdf")


def test_two_sheets_are_four_pages_at_most(written: Path) -> None:
    """One for what to do, one for what fails and what to feed: front and back each."""
    document = pypdfium2.PdfDocument(written / "day-2026-07-14.pdf")
    assert 2 <= len(document) <= 4
    document.close()


def table(folder: Path, *, head: str = "hour,temperature,dew_point") -> Path:
    """Return a file of hours: 95 F at three in the afternoon."""
    lines = [f"{hour},{76 + 19 * (14 <= hour <= 16)} F,70 F" for hour in range(24)]
    path = folder / "hours.csv"
    path.write_text("\n".join([head, *lines]), encoding="utf-8")
    return path


def test_a_day_from_a_file_of_hours(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The high, low and dew point are the file's own."""
    to = tmp_path / "to"
    code = run("day", EXAMPLE, "--forecast", str(table(tmp_path)), "--date", "2026-06-20",
               "--to", str(to))  # fmt: skip
    assert code == 0
    assert "Print:" in said(capsys)
    text = words_of(to / "day-2026-06-20.pdf")
    assert "From a forecast: high 95°F, low 76°F, dew point 70°F" in text
    assert "Visits at" not in text


def test_a_day_from_the_weather_services_file(tmp_path: Path) -> None:
    """Its JSON is known by its first sign; a stay may be named for a day outside it."""
    path = tmp_path / "hourly.json"
    path.write_text(forecast(*(period(hour) for hour in range(24))), encoding="utf-8")
    to = tmp_path / "to"
    code = run("day", EXAMPLE, "--forecast", str(path), "--date", "2026-07-14",
               "--stay", "august-weekend", "--to", str(to))  # fmt: skip
    assert code == 0
    assert "Visits at 6 am, 9:30 am" in words_of(to / "day-2026-07-14.pdf")


def test_a_day_fetched(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Asked for at the farm's own place."""
    asked: list[tuple[float, float]] = []

    def hourly(latitude: float, longitude: float) -> str:
        asked.append((latitude, longitude))
        return forecast(*(period(hour) for hour in range(24)))

    monkeypatch.setattr(fetch, "hourly_forecast", hourly)
    assert run("day", EXAMPLE, "--fetch", "--date", "2026-07-14", "--to", str(tmp_path)) == 0
    assert asked == [(31.55, -82.12)]


def test_nobody_is_asked_for_a_farm_outside_the_us(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """One message that says why and what to do instead, before anything is sent."""
    finca = str(ROOT / "content" / "example-finca")
    monkeypatch.setattr(fetch, "hourly_forecast", lambda *_: pytest.fail("somebody was asked"))
    assert run("day", finca, "--fetch", "--to", str(tmp_path / "to")) == 1
    told = said(capsys)
    assert "the weather service covers the US only, and this farm is elsewhere" in told
    assert "or a file with --forecast" in told


def test_a_fetch_that_fails_ends_with_its_message(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """And with 1; nothing is written."""

    def refused(*_: float) -> str:
        raise ProblemsError([Problem(Place("--fetch"), "", "cannot be reached")])

    monkeypatch.setattr(fetch, "hourly_forecast", refused)
    assert run("day", EXAMPLE, "--fetch", "--to", str(tmp_path / "to")) == 1
    assert "--fetch cannot be reached" in said(capsys)
    assert not (tmp_path / "to").exists()


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("--high", "101F"),
        ("--high", "101F", "--low", "76F"),
        (*HOT, "--fetch"),
        ("--fetch", "--forecast", __file__),
    ],
)
def test_a_day_is_given_in_one_way(
    words: Sequence[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """All three numbers, or a file, or the service: else the command is wrong, 2."""
    assert run("day", EXAMPLE, *words) == 2
    assert "give --high, --low and --dew-point, or --forecast FILE, or --fetch" in said(capsys)


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        (("--high", "101", *HOT[2:]), 'binder day "101" has no unit'),
        (("--high", "60F", *HOT[2:]), "binder day"),
        ((*HOT, "--stay", "julie"), "did you mean july?"),
        ((*HOT[:-1], "2026-09-01", "--stay", "july"), "is not a stay that is still to come"),
    ],
)
def test_numbers_and_stays_that_cannot_be(
    words: Sequence[str], wanted: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each ends with one message and 1."""
    assert run("day", EXAMPLE, *words, "--to", str(tmp_path / "to")) == 1
    assert wanted in said(capsys)
    assert not (tmp_path / "to").exists()


@pytest.mark.parametrize(
    ("content", "wanted"),
    [
        (b"hour,temperature\n15,95 F", "nor dew point"),
        (b"\xff\xfe\x00", "cannot be read as text"),
        (b'{"properties": 1}', "is not an hourly forecast"),
        (b"x" * (day.MOST_BYTES + 2), "is too long for a forecast"),
        (b"hour,temperature,dew_point\n,,", "the forecast has no hour of 2026-07-14"),
    ],
)
def test_a_forecast_that_cannot_be_read(
    content: bytes, wanted: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the name of the file where it has one to blame."""
    path = tmp_path / "hours.csv"
    path.write_bytes(content)
    code = run("day", EXAMPLE, "--forecast", str(path), "--date", "2026-07-14",
               "--to", str(tmp_path / "to"))  # fmt: skip
    assert code == 1
    assert wanted in said(capsys)


def small(folder: Path, **files_: str) -> str:
    """Write a small farm with some files of its own."""
    texts = {
        "farm": "name: Quiet Acre\nplace: Somewhere, Georgia\n",
        "animals": "- {name: Clover, species: goat, pen: lot}\n",
        "pens": "- {id: lot, name: Goat lot, kind: run}\n",
        "contacts": "- {name: Ann Example, role: owner, phone: 555-0100}\n",
        **files_,
    }
    folder.mkdir()
    for name, text in texts.items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return str(folder)


def test_a_farm_without_a_place_has_no_day(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nobody knows when its sun rises."""
    assert run("day", small(tmp_path / "farm"), *HOT, "--to", str(tmp_path / "to")) == 1
    assert "farm.yaml place: is needed for a day by the hour" in said(capsys)


def test_a_farm_without_a_hot_day_has_a_sheet_too(tmp_path: Path) -> None:
    """The hottest hour is the published one; nothing is known of stays."""
    place = (
        "{address: Somewhere, latitude: 31.55, longitude: -82.12, timezone: America/New_York}"
    )
    folder = small(tmp_path / "farm", farm=f"name: Quiet Acre\nplace: {place}\n")
    assert run("day", folder, *HOT, "--to", str(tmp_path / "to")) == 0


def test_a_folder_that_cannot_be_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file stands where the folder should be."""
    blocked = tmp_path / "blocked"
    blocked.write_text("x")
    assert run("day", EXAMPLE, *HOT, "--to", str(blocked / "to")) == 1
    assert "cannot be written" in said(capsys)


# --- check ---------------------------------------------------------------------------------


def test_check_lists_what_a_farm_lacks_worst_first(capsys: pytest.CaptureFixture[str]) -> None:
    """Count, then a line each with how soon it hurts; exit 0 without --strict."""
    assert run("check", EXAMPLE, "--date", "2026-06-01") == 0
    country, *lines = capsys.readouterr().out.splitlines()
    assert country.startswith("Country: the United States (us), from the time zone")
    assert re.fullmatch(r"\d+ things to mend, worst first:", lines[0])
    order = ["hours", "day", "week", "season"]
    found = [line.split()[0] for line in lines[1:]]
    assert found == sorted(found, key=order.index)
    assert set(found) == set(order)


@pytest.mark.parametrize(("level", "code"), [("hours", 0), ("day", 1), ("season", 1)])
def test_strict_ends_with_1_at_its_level_and_above(
    level: str, code: int, tmp_path: Path
) -> None:
    """A goat lot with water, a vet for the night and an address hurts nobody within hours."""
    folder = small(
        tmp_path / "farm",
        pens="- {id: lot, name: Goat lot, kind: run, shade: [{kind: trees, area: 700 sqft}], "
        "drinkers: [{id: d1, kind: trough, holds: 50 gal, count: 2}]}\n",
        contacts="- {name: Ann Example, role: owner, phone: 555-0100}\n"
        "- {name: Dr. Example, role: night vet, phone: 555-0101}\n",
    )
    assert run("check", folder, "--strict", level) == code


def test_check_of_a_broken_farm_tells_all_that_is_wrong(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Problems first, exit 1; readiness waits until the farm can be read."""
    assert run("check", small(tmp_path / "farm", animals="- {name: Clover}\n")) == 1
    out = said(capsys)
    assert "animals.yaml:1" in out
    assert "to mend" not in out


def test_check_tells_a_weather_that_cannot_be(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the line of the farm file in which it stands."""
    place = "{address: X, latitude: 31.5, longitude: -82.1, timezone: America/New_York}"
    hot = "hot_day: {high: 90 F, low: 70 F, dew_point: 95 F}"
    folder = small(tmp_path / "farm", farm=f"name: Quiet Acre\nplace: {place}\n{hot}\n")
    assert run("check", folder) == 1
    assert "farm.yaml:" in said(capsys)


def test_the_owners_older_protocol_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A maintained sheet reviewed later than the owner's own version of it."""
    folder = Path(small(tmp_path / "farm"))
    maintained = ROOT / "content" / "protocols" / "en" / "e16-animal-out.md"
    text = maintained.read_text(encoding="utf-8")
    (folder / "protocols").mkdir()
    mine = folder / "protocols" / maintained.name
    mine.write_text(text, encoding="utf-8")
    run("check", str(folder))
    assert "older than the maintained one" not in said(capsys)
    mine.write_text(re.sub(r"reviewed: \S+", "reviewed: 2020-01-01", text), encoding="utf-8")
    run("check", str(folder))
    assert "Your own sheet E16 is older than the maintained one" in said(capsys)


@pytest.mark.slow
def test_the_commands_run_from_the_shell(tmp_path: Path) -> None:
    """As an owner types them."""
    done = subprocess.run(
        [sys.executable, "-m", "binder", "day", EXAMPLE, *HOT, "--to", str(tmp_path)],
        cwd=ROOT, check=False, capture_output=True, text=True,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert json.dumps(files(tmp_path)) == '["day-2026-07-14.html", "day-2026-07-14.pdf"]'
