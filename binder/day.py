"""Two shorter ways through the five steps: what a farm lacks, and the sheet of one day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from binder import fetch, units
from binder.build import checked, composed, figures_of
from binder.farm.check import notes
from binder.farm.logbook.entries import read_logs
from binder.farm.logbook.learned import learned
from binder.figures.day.farm_day import position_of
from binder.figures.weather.daylight import day_of
from binder.figures.weather.forecast import day_air
from binder.figures.weather.hot_days import DayWeather, hours
from binder.output.day import write_day
from binder.pages import findings
from binder.pages.book.plan import outdated
from binder.pages.compose import day_book
from binder.pages.context import Context
from binder.pages.readiness import readiness_sheet
from binder.pages.season import mends_text
from binder.pages.text import words
from binder.places import HOME
from binder.problems import Place, Problem, ProblemsError, did_you_mean
from binder.weather.hours import parse_day

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

    from binder.farm.load import Written
    from binder.farm.model import Farm
    from binder.figures.figures import Figures
    from binder.figures.readiness.ranking import Severity
    from binder.figures.stays.plan import Plan
    from binder.figures.weather.daylight import DayAir
    from binder.figures.weather.sun_times import Position

ASKED = "asked"
COMMAND = Place("binder day")
MOST_BYTES = 5_000_000  # our choice: a week of hours is a hundredth of it


@dataclass(frozen=True, slots=True)
class Asked:
    """A day as it was asked for at the command line.

    Attributes:
        on: the date.
        high, low, dew_point: as typed; None where a forecast tells them.
        forecast: a file of hours, None for none; without it and without a high the weather
            service is asked.
        stay: the id of a stay, None for the one that the day lies in.
    """

    on: dt.date
    high: str | None = None
    low: str | None = None
    dew_point: str | None = None
    forecast: Path | None = None
    stay: str | None = None


@dataclass(frozen=True, slots=True)
class Shortfalls:
    """What is to be mended on a farm whose files hold no mistake.

    Attributes:
        lacks: what it lacks on a day, worst first, in words.
        notes: what may be a slip in the files, in their order.
        weather: what the farm's weather files say of it; empty without any.
        country: whose numbers, law and clock the binder uses, and how that is known.
        noted: what sitters wrote in logs/, gravest first, in words.
    """

    lacks: tuple[tuple[Severity, str], ...]
    notes: tuple[Problem, ...]
    country: str
    noted: tuple[str, ...] = ()
    weather: tuple[str, ...] = ()


def shortfalls(folder: Path, on: dt.date) -> Shortfalls:
    """Return what a farm lacks on a day, and what may be a slip in its files.

    All is composed as for a build, so that what passes here can be built.

    Raises:
        ProblemsError: anything wrong in the farm folder or the content, all of it at once.
    """
    made = composed(folder, on)
    owner, figures, farm = made.owner, made.figures, made.figures.farm
    context = Context(figures, words.of(farm), {}, frozenset())
    lacks = tuple(
        (line.severity, findings.told(context, line.finding))
        for line in readiness_sheet.lines(context, outdated(owner.protocols))
    )
    country = _country(context, owner)
    season = figures.season
    weather = mends_text.in_short(context, season) if season is not None else ()
    noted = _noted(context, folder)
    return Shortfalls(lacks, notes(owner, farm, on), country, noted, weather)


def _noted(context: Context, folder: Path) -> tuple[str, ...]:
    """Return what the logs come to, in words."""
    found = read_logs(folder, None)
    if not found:
        return ()
    said = context.words
    told = [
        context.w(
            f"noted.{one.sign}",
            pen=context.farm.pen(one.pen).name,
            times=len(one.lines), of=one.of,
            numbers=str(context.listed(map(str, one.numbers))) or said.text("noted.no_number"),
            last=context.short_day(one.lines[-1].on), visit=one.lines[-1].visit,
        )
        for one in learned(found)
    ]  # fmt: skip
    head = context.w(
        "noted.head",
        lines=len(found),
        days=len({one.on for one in found}),
        window=context.window(found[0].on, found[-1].on),
    )
    return (head, *(told or [context.w("noted.nothing")]))


def _country(context: Context, owner: Written) -> str:
    """Return the line that says in which country the farm is, and how that is known."""
    about = context.farm.about
    farm_file = owner.documents["farm.yaml"].data
    if isinstance(farm_file, dict) and "country" in farm_file:
        how = context.w("country.how.written")
    elif about.place.timezone:
        how = context.w("country.how.zone", zone=about.place.timezone)
    else:
        how = context.w("country.how.assumed")
    pack = about.pack
    return context.w("country.check", name=pack.name, code=pack.code, how=how)


def write_sheet(folder: Path, to: Path, asked: Asked) -> tuple[Path | None, Path, int]:
    """Write the sheet of one day into the folder `to`; return page, paper and its pages.

    The page is made from the farm's public part, like every screen; there is none where the
    place itself is private.

    Raises:
        ProblemsError: anything wrong in the farm folder, the forecast or what was asked.
    """
    owner, farm = checked(folder, asked.on)
    position = position_of(farm)
    if position is None:
        message = "is needed for a day by the hour: latitude, longitude and timezone"
        raise ProblemsError([Problem(Place("farm.yaml"), "place", message)])
    try:
        with owner.naming_lines():
            air = _air(farm, position, asked)
    except ProblemsError:
        raise
    except ValueError as error:
        raise ProblemsError([Problem(COMMAND, "", str(error))]) from error
    figures = figures_of(owner, farm, asked.on, air)
    assert figures.day.day is not None  # noqa: S101 -- the farm has a position
    book = day_book(figures, figures.day.day, _stay(figures, asked))
    return write_day(book, to, f"day-{asked.on.isoformat()}")


def _air(farm: Farm, position: Position, asked: Asked) -> DayAir:
    """Return the air of the day, by the hour from a forecast, else drawn from three numbers.

    Raises:
        ValueError: numbers that cannot be, or a day that the forecast does not cover.
    """
    if asked.high is not None and asked.low is not None and asked.dew_point is not None:
        usual = farm.about.hot_day.hottest_at if farm.about.hot_day else None
        high_c, low_c, dew_c = (
            units.parse(text, "temperature")
            for text in (asked.high, asked.low, asked.dew_point)
        )
        peak_h = None if usual is None else hours(usual)
        given = DayWeather(high_c, low_c, dew_c, peak_h, assumed=False, origin=ASKED)
        return day_of(position, asked.on, given)
    name, text = _forecast(farm, position, asked.forecast)
    if fetch.is_forecast(text):
        text = fetch.as_record(text, name)
    return day_air(position, asked.on, parse_day(text, name, asked.on))


def _forecast(farm: Farm, position: Position, file: Path | None) -> tuple[str, str]:
    """Return the name and the text of a forecast: a file's, else the weather service's."""
    if file is None:
        if farm.about.pack.code != HOME:
            raise fetch.abroad()
        text = fetch.hourly_forecast(position.latitude, position.longitude)
        return str(fetch.PLACE), text
    try:
        with file.open("rb") as stream:
            raw = stream.read(MOST_BYTES + 1)
        text = raw.decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        problem = Problem(Place(file.name), "", "cannot be read as text (UTF-8)")
        raise ProblemsError([problem]) from error
    if len(raw) > MOST_BYTES:
        raise ProblemsError([Problem(Place(file.name), "", "is too long for a forecast")])
    return file.name, text


def _stay(figures: Figures, asked: Asked) -> Plan | None:
    """Return the stay that was asked for, else the first that the day lies in, else None."""
    if asked.stay is not None:
        plan = figures.stays.get(asked.stay)
        if plan is None:
            message = f'"{asked.stay}" is not a stay that is still to come'
            message += did_you_mean(asked.stay, figures.stays)
            raise ProblemsError([Problem(COMMAND, "--stay", message)])
        return plan
    plans = figures.stays.values()
    return next((p for p in plans if p.stay.first <= asked.on <= p.stay.last), None)
