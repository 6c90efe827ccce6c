"""The weather service's forecast: asked for at a server of our own, and made into hours.

The answers have the shape that the US National Weather Service documents for `points` and for
`forecastHourly` (api.weather.gov); place and numbers are invented. Nothing leaves this machine.
"""

from __future__ import annotations

import datetime as dt
import json
import threading
from collections.abc import Callable
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING, Any

import pytest

from binder import fetch
from binder.problems import ProblemsError
from binder.weather.hours import parse_hours

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

Answer = tuple[int, dict[str, str], bytes]
Routes = dict[str, Callable[[str], Answer]]


def period(hour: int, **more: Any) -> dict[str, Any]:
    """Return one hour of a forecast as the service writes it."""
    return {
        "number": hour + 1,
        "startTime": f"2026-07-14T{hour:02d}:00:00-04:00",
        "endTime": f"2026-07-14T{hour + 1:02d}:00:00-04:00",
        "temperature": 80 + hour,
        "temperatureUnit": "F",
        "dewpoint": {"unitCode": "wmoUnit:degC", "value": 22.5},
        "relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 70},
        "windSpeed": "5 mph",
        "shortForecast": "Sunny, hot",
        **more,
    }


def forecast(*periods: Mapping[str, Any]) -> str:
    """Return an hourly forecast."""
    return json.dumps({"type": "Feature", "properties": {"periods": list(periods)}})


def ok(text: str) -> Answer:
    """Return an answer that holds a text."""
    return 200, {"Content-Type": "application/geo+json"}, text.encode()


@pytest.fixture
def service() -> Iterator[tuple[str, Routes, list[str]]]:
    """Return the address of a server of our own, what it answers, and what it was asked."""
    routes: Routes = {}
    asked: list[str] = []

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            asked.append(self.headers["User-Agent"])
            code, headers, body = routes[self.path](address)
            self.send_response(code)
            for key, value in {**headers, "Content-Length": str(len(body))}.items():
                self.send_header(key, value)
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_: object) -> None:
            """Say nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    address = f"http://127.0.0.1:{server.server_port}"
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield address, routes, asked
    server.shutdown()
    server.server_close()
    thread.join()


POINT, HOURLY = "/points/31.5500,-82.1200", "/gridpoints/JAX/40,90/forecast/hourly"


def point(where: str = HOURLY) -> Callable[[str], Answer]:
    """Return what the service says of a place: where its hourly forecast stands."""
    return lambda address: ok(
        json.dumps({"properties": {"forecastHourly": f"{address}{where}", "gridId": "JAX"}})
    )


def ask(address: str) -> str:
    """Return the forecast for a farm in southern Georgia."""
    return fetch.hourly_forecast(31.55, -82.12, address)


Service = tuple[str, Routes, list[str]]


def test_the_place_leads_to_its_hourly_forecast(service: Service) -> None:
    """First the place, then where it points; the service is told who asks."""
    address, routes, asked = service
    routes[POINT], routes[HOURLY] = point(), lambda _: ok(forecast(period(15)))
    assert json.loads(ask(address))["properties"]["periods"][0]["number"] == 16
    assert asked[::2] == [POINT, HOURLY]
    assert all("binder" in each for each in asked[1::2])


def test_a_move_within_the_service_is_followed(service: Service) -> None:
    """It sends from rounded coordinates to others."""
    address, routes, _ = service
    routes[POINT] = lambda _: (301, {"Location": "/points/31.55,-82.12"}, b"")
    routes["/points/31.55,-82.12"] = point()
    routes[HOURLY] = lambda _: ok(forecast(period(15)))
    assert "periods" in ask(address)


@pytest.mark.parametrize("away", ["https://elsewhere.example/x", "file:///etc/hosts", ""])
def test_nobody_else_is_asked_whatever_the_answer_says(service: Service, away: str) -> None:
    """A forecast said to stand elsewhere, and a redirect to there, are refused."""
    address, routes, asked = service
    routes[POINT] = lambda _: ok(json.dumps({"properties": {"forecastHourly": away}}))
    with pytest.raises(ProblemsError, match="names no hourly forecast"):
        ask(address)
    routes[POINT] = lambda _: (302, {"Location": away or "https://elsewhere.example/"}, b"")
    with pytest.raises(ProblemsError):
        ask(address)
    assert set(asked[::2]) == {POINT}


def test_an_endless_chain_of_addresses_is_given_up(service: Service) -> None:
    """It is not followed for ever."""
    address, routes, _ = service
    routes[POINT] = lambda _: (302, {"Location": POINT}, b"")
    with pytest.raises(ProblemsError, match="from one address to the next"):
        ask(address)


@pytest.mark.parametrize(
    ("code", "said"), [(404, "covers the US only"), (503, r"answered with an error \(503\)")]
)
def test_an_error_says_what_to_do_instead(service: Service, code: int, said: str) -> None:
    """One clear message, with the other ways to give a day."""
    address, routes, _ = service
    routes[POINT] = lambda _: (code, {}, b"{}")
    with pytest.raises(ProblemsError, match=f"{said}; give --high, --low and --dew-point"):
        ask(address)


def test_without_a_connection_it_says_so() -> None:
    """A port where nobody listens."""
    with pytest.raises(ProblemsError, match="cannot be reached; is there a connection"):
        ask("http://127.0.0.1:9")


def test_a_slow_service_is_not_waited_for(
    service: Service, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After a while, with a message."""
    address, routes, _ = service
    hold = threading.Event()
    monkeypatch.setattr(fetch, "TIMEOUT_S", 0.2)

    def late(_: str) -> Answer:
        hold.wait(5)
        return ok("{}")

    routes[POINT] = late
    with pytest.raises(ProblemsError, match="did not answer within"):
        ask(address)
    hold.set()


def test_a_flood_is_cut_off(service: Service, monkeypatch: pytest.MonkeyPatch) -> None:
    """More than any forecast is not read to its end."""
    address, routes, _ = service
    monkeypatch.setattr(fetch, "MOST_BYTES", 100)
    routes[POINT] = lambda _: ok("x" * 200)
    with pytest.raises(ProblemsError, match="more than a forecast"):
        ask(address)


def test_what_is_no_forecast_is_refused(service: Service) -> None:
    """A page of something else in its place."""
    address, routes, _ = service
    routes[POINT] = lambda _: ok("<html>")
    with pytest.raises(ProblemsError, match="no JSON"):
        ask(address)
    routes[POINT] = lambda _: ok("[1, 2]")
    with pytest.raises(ProblemsError, match="names no hourly forecast"):
        ask(address)


# --- hours ---------------------------------------------------------------------------------


def rows(*periods: Mapping[str, Any]) -> list[tuple[int, float, float]]:
    """Return hour, air and dew point [C] as the farm's own reader understands them."""
    record = fetch.as_record(forecast(*periods), "forecast.json")
    return [
        (row.when.hour, round(row.temp_c, 2), round(row.dew_point_c, 2))
        for row in parse_hours(record, "forecast.json")
    ]


def test_hours_keep_the_clock_of_the_place() -> None:
    """Three in the afternoon there is three in the afternoon here; 95 F is 35 C."""
    assert rows(period(15)) == [(15, 35.0, 22.5)]


def test_humidity_stands_for_a_dew_point_that_is_not_given() -> None:
    """95 F at 70 % has a dew point of 28.7 C (heat-63, Magnus form, within 0.2)."""
    ((hour, air, dew),) = rows(period(15, dewpoint=None))
    assert (hour, air) == (15, 35.0)
    assert dew == pytest.approx(28.7, abs=0.2)


@pytest.mark.parametrize(
    "temperature",
    [
        {"temperature": 35, "temperatureUnit": "C"},
        {"temperature": {"unitCode": "wmoUnit:degC", "value": 35}, "temperatureUnit": None},
        {"temperature": {"unitCode": "wmoUnit:degF", "value": 95.0}},
    ],
)
def test_the_temperature_may_carry_its_unit_in_several_ways(
    temperature: Mapping[str, Any],
) -> None:
    """A bare number with a letter beside it, or a value with its unit, as in newer answers."""
    assert rows(period(15, **temperature)) == [(15, 35.0, 22.5)]


@pytest.mark.parametrize(
    "gap",
    [
        {"temperature": None},
        {"temperature": True},
        {"temperature": float("nan")},
        {"temperature": 1e300},
        {"dewpoint": {"unitCode": "wmoUnit:degC", "value": None}},
        {"dewpoint": "humid"},
    ],
)
def test_an_hour_without_a_reading_is_passed_over(gap: Mapping[str, Any]) -> None:
    """The others stand."""
    assert [row[0] for row in rows(period(14), period(15, **gap))] == [14]


def test_a_time_that_is_none_is_named() -> None:
    """With the line of the hour it stands in."""
    with pytest.raises(ProblemsError, match=r'forecast.json:3:1 .*"soon  later" is not a time'):
        rows(period(14), period(15, startTime="soon, later"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{", "no JSON"),
        ("[" * 100_000, "no JSON"),
        ("{}", "it has no properties > periods"),
        ('{"properties": {"periods": []}}', "it has no properties > periods"),
        ('{"properties": [1]}', "it has no properties > periods"),
    ],
)
def test_what_is_no_hourly_forecast_is_named(text: str, said: str) -> None:
    """By the name of the file."""
    with pytest.raises(ProblemsError, match=said) as caught:
        fetch.as_record(text, "day.json")
    assert str(caught.value).startswith("day.json")


def test_periods_that_are_no_mappings_are_passed_over() -> None:
    """Whatever else stands in the list."""
    text = json.dumps({"properties": {"periods": [1, period(15), "x"]}})
    assert fetch.as_record(text, "day.json").count("\n") == 2


def test_a_forecast_is_told_from_a_table() -> None:
    """By its first sign."""
    assert fetch.is_forecast('\ufeff  {"properties": {}}')
    assert not fetch.is_forecast("hour,temperature,dew_point")


def test_a_whole_forecast_reads_as_a_day() -> None:
    """24 periods, 24 hours of that date."""
    record = fetch.as_record(forecast(*(period(hour) for hour in range(24))), "day.json")
    found = parse_hours(record, "day.json")
    assert {row.when.date() for row in found} == {dt.date(2026, 7, 14)}
    assert len(found) == 24
