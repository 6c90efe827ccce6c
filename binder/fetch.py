"""The weather service's hourly forecast: asked for, and made into a record of hours.

The only module that knows httpx, and the only one that asks anything of another place. It runs
when somebody types `--fetch`, never during a build.
"""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from typing import Any

import httpx

from binder.problems import Place, Problem, ProblemsError, quotable

SERVICE = "https://api.weather.gov"
TIMEOUT_S = 20.0  # our choice: a farm's line is slow, a person's patience short
MOST_REDIRECTS = 4
MOST_BYTES = 5_000_000  # our choice: a week of hours is a tenth of it
PLACE = Place("--fetch")
_HEADERS = {"User-Agent": "binder (farm heat binder)", "Accept": "application/geo+json"}
_BEYOND_ANY_AIR = 1000.0
_UNITS = {"wmounit:degc": "C", "wmounit:degf": "F", "f": "F", "c": "C"}


def hourly_forecast(latitude: float, longitude: float, service: str = SERVICE) -> str:
    """Return the service's hourly forecast for a place, as it sends it.

    Args:
        latitude: north positive [degrees].
        longitude: east positive [degrees].
        service: its address; the US National Weather Service.

    Raises:
        ProblemsError: no connection, no answer in time, or no forecast for that place.
    """
    with httpx.Client(timeout=TIMEOUT_S, headers=_HEADERS) as client:
        ask = _Asker(client, service)
        point = _mapping(ask.text(f"{service}/points/{latitude:.4f},{longitude:.4f}"), PLACE)
        address = _inside(point, "properties").get("forecastHourly")
        return ask.text(str(address))


@dataclass(frozen=True, slots=True)
class _Asker:
    """Asks one service and no other, whatever its answers say."""

    client: httpx.Client
    service: str

    def text(self, address: str) -> str:
        """Return what stands at an address, within the service, after its own redirects."""
        for _ in range(MOST_REDIRECTS):
            if not address.startswith(f"{self.service}/"):
                what = "the weather service names no hourly forecast for this place"
                raise ProblemsError([_problem(what)])
            found, address = self._once(address)
            if not address:
                return found
        what = "the weather service sends from one address to the next"
        raise ProblemsError([_problem(what)])

    def _once(self, address: str) -> tuple[str, str]:
        """Return the text, or the address that it sends to."""
        try:
            with self.client.stream("GET", address) as answer:
                if answer.has_redirect_location:
                    return "", str(answer.url.join(answer.headers["Location"]))
                answer.raise_for_status()
                return _body(answer), ""
        except httpx.TimeoutException as error:
            what = f"the weather service did not answer within {TIMEOUT_S:.0f} seconds"
            raise ProblemsError([_problem(what)]) from error
        except httpx.HTTPStatusError as error:
            raise ProblemsError([_problem(_no(error.response.status_code))]) from error
        except (httpx.HTTPError, httpx.InvalidURL) as error:
            what = "the weather service cannot be reached; is there a connection?"
            raise ProblemsError([_problem(what)]) from error


def _body(answer: httpx.Response) -> str:
    raw = b""
    for part in answer.iter_bytes():
        raw += part
        if len(raw) > MOST_BYTES:
            what = "the weather service sent more than a forecast"
            raise ProblemsError([_problem(what)])
    return raw.decode("utf-8", "replace")


def _no(code: int) -> str:
    if code == httpx.codes.NOT_FOUND:
        return "the weather service has no forecast for this place; it covers the US only"
    return f"the weather service answered with an error ({code})"


def abroad() -> ProblemsError:
    """Return what is said of a farm outside the US: nobody is asked there."""
    what = "the weather service covers the US only, and this farm is elsewhere, by its country"
    return ProblemsError([_problem(f"{what} or its time zone")])


def _problem(message: str) -> Problem:
    hint = "give --high, --low and --dew-point, or a file with --forecast"
    return Problem(PLACE, "", f"{message}; {hint}")


def is_forecast(text: str) -> bool:
    """Return whether a text looks like the service's forecast rather than a table."""
    return text.lstrip("\ufeff \t\r\n").startswith("{")


def as_record(text: str, name: str) -> str:
    """Return the service's hourly forecast as a table that the farm's own reader reads.

    The columns are time, temperature, and dew_point, or humidity where no dew point is given;
    times on the place's own clock, as the service sends them.

    Args:
        text: the forecast, JSON with `properties: periods`.
        name: the file as the owner knows it.

    Raises:
        ProblemsError: it is no such forecast.
    """
    place = Place(name)
    periods = _inside(_mapping(text, place), "properties").get("periods")
    if not isinstance(periods, list) or not periods:
        message = "is not an hourly forecast: it has no properties > periods"
        raise ProblemsError([Problem(place, "", message)])
    hours = [each for each in periods if isinstance(each, dict)]
    moisture = (
        "dew_point" if any(_amount(each.get("dewpoint")) for each in hours) else "humidity"
    )
    key = {"dew_point": "dewpoint", "humidity": "relativeHumidity"}[moisture]
    lines = [f"time,temperature,{moisture}"]
    lines += [f"{_time(each)},{_air(each)},{_amount(each.get(key))}" for each in hours]
    return "\n".join(lines) + "\n"


def _mapping(text: str, place: Place) -> dict[str, Any]:
    try:
        found = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise ProblemsError([Problem(place, "", "is not a forecast: no JSON")]) from error
    return found if isinstance(found, dict) else {}


def _inside(mapping: dict[str, Any], key: str) -> dict[str, Any]:
    found = mapping.get(key)
    return found if isinstance(found, dict) else {}


def _time(period: dict[str, Any]) -> str:
    """Return the hour on the place's own clock: `2026-07-14 15:00`."""
    text = str(period.get("startTime", ""))
    try:
        return dt.datetime.fromisoformat(text).strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return quotable(text).replace(",", " ")


def _air(period: dict[str, Any]) -> str:
    """Return the temperature with its unit: a bare number, or a mapping in newer answers."""
    given = period.get("temperature")
    if isinstance(given, dict):
        return _amount(given)
    unit = str(period.get("temperatureUnit", "F")).lower()
    return f"{given} {_UNITS.get(unit, '')}" if _is_number(given) else ""


def _amount(given: object) -> str:
    """Return `22.5 C` of `{"unitCode": "wmoUnit:degC", "value": 22.5}`, else empty."""
    if not isinstance(given, dict) or not _is_number(given.get("value")):
        return ""
    unit = str(given.get("unitCode", "")).lower()
    return f"{float(given['value']):.6f} {'%' if 'percent' in unit else _UNITS.get(unit, '')}"


def _is_number(given: Any) -> bool:
    number = isinstance(given, int | float) and not isinstance(given, bool)
    return number and abs(given) < _BEYOND_ANY_AIR
