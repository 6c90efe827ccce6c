"""`binder season` and `binder check --weather`, as typed."""

from __future__ import annotations

import csv
import re
from pathlib import Path
from typing import TYPE_CHECKING

from tests.figures.season.test_pens import CONTACTS, FARM, HENS, RUN
from tests.test_cli_day import run, said
from tests.weather_data import TMY3, logger, text_of

if TYPE_CHECKING:
    import pytest

    from tests.conftest import FarmFolder

COUNTS = Path(__file__).parent / "figures" / "season" / "index_hours.csv"
FILES = {
    "farm.yaml": FARM.replace("name: Test Acre", 'name: Test Acre\ncosts: {waterer: "$35"}'),
    "contacts.yaml": CONTACTS,
    "animals.yaml": HENS,
    "pens.yaml": RUN.replace("COUNT", "1"),
}


def test_a_season_is_told_on_the_terminal(
    farm_folder: FarmFolder, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The counts of the expected file, the pen, the mend with its owner's cost, the caution."""
    weather = tmp_path / TMY3
    weather.write_text(text_of(TMY3), encoding="utf-8")
    folder = farm_folder(FILES)
    typed = ("season", str(folder), "--weather", str(weather), "--date", "2026-06-01")
    assert run(*typed) == 0
    text = said(capsys)
    rows = [line for line in COUNTS.read_text(encoding="utf-8").splitlines() if line[0] != "#"]
    july = next(r for r in csv.DictReader(rows) if (r["place"], r["month"]) == (TMY3, "7"))
    over = [july[line] for line in ("75", "79", "84")]
    assert re.search(rf"July 31 (\d+ ){{4}}{' '.join(over)} ", text)
    assert "GREENSBORO PIEDMONT TRIAD INT, NC, 8,760 hours" in text
    assert "It is another place, 3" in text
    assert "waterer empty" in text
    assert re.search(r"Run: (one|\d+) more waterers?, well apart [\d,]+ \d+ \d+ \$35", text)
    assert "cannot say which animal would have fallen ill" in text
    assert "death" not in text


def test_the_farms_own_folder_is_read_too(
    farm_folder: FarmFolder, capsys: pytest.CaptureFixture[str]
) -> None:
    """A logger's table in weather/ needs no option; without one the command says so."""
    folder = farm_folder(FILES)
    assert run("season", str(folder), "--date", "2026-06-01") == 0
    assert "No weather file. Put one into farm/weather/" in said(capsys)
    farm_folder({"weather/logger.csv": logger(72)})
    assert run("season", str(folder), "--date", "2026-06-01") == 0
    text = said(capsys)
    assert "logger.csv: your own logger, 72 hours of 2025." in text
    assert "of 3 days" in text


def test_a_bad_weather_file_fails_the_farm(
    farm_folder: FarmFolder, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 1 and one message, of check and of season alike."""
    folder = farm_folder(FILES | {"weather/logger.csv": logger(72, minutes=30)})
    for command in ("season", "check"):
        assert run(command, str(folder), "--date", "2026-06-01") == 1
        assert said(capsys).count("has a row every 30 minutes") == 1


def test_check_tells_at_once_what_the_weather_says(
    farm_folder: FarmFolder, capsys: pytest.CaptureFixture[str]
) -> None:
    """With --weather first, before what the farm lacks; without it nothing of it."""
    hot = logger(
        120, row=lambda _, at: f"{at:%Y-%m-%d %H:%M},{36 if 12 <= at.hour < 18 else 22},40"
    )
    folder = farm_folder(FILES | {"weather/logger.csv": hot})
    assert run("check", str(folder), "--date", "2026-06-01", "--weather") == 0
    text = said(capsys)
    assert "Something went wrong on 5 of 5 days. First: Run: " in text
    assert text.index("Something went wrong") < text.index("things to mend")
    assert run("check", str(folder), "--date", "2026-06-01") == 0
    assert "Something went wrong" not in said(capsys)


def test_a_season_of_animals_without_a_chart(
    farm_folder: FarmFolder, capsys: pytest.CaptureFixture[str]
) -> None:
    """No animal that screens may show: their calendar has nothing to show and is left out."""
    young = "- {name: Ed, species: mule, pen: run, private: yes}\n"
    folder = farm_folder({**FILES, "animals.yaml": young, "weather/logger.csv": logger(72)})
    assert run("check", str(folder), "--date", "2026-06-01") == 0
    assert "has no words" not in said(capsys)
