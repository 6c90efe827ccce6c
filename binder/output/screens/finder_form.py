"""The band finder's form and the lines that its script fills; without script, the charts."""

from __future__ import annotations

import json
from html import escape
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from binder.output.screens.screen import Screen

# Of the table, what the page has already.
_ON_PAGE = frozenset(
    {"emergency", "signs", "charts", "name", "who", "sheet", "classes", "start"}
)


def finder(screen: Screen) -> str:
    """Return the finder, empty where the farm has nothing to find."""
    data: Mapping[str, Any] = screen.book.finder
    if not data:
        return ""
    return (
        f'<h1 class="now-title" id="hour-title">{screen.say("now")}</h1>\n'
        f'{_signs(screen, data)}<section class="hour with" id="hour"></section>\n'
        f'<h2 class="with" id="air">{screen.say("now")}</h2>\n{_form(screen, data)}'
        f"{_without_script(screen, data)}"
        f'<h2>{screen.say("do_now")} <small class="with" id="read-at"></small></h2>\n'
        f'<ul class="now unread" id="now">\n{_lines(screen, data)}</ul>\n'
        f'<p class="only-ears" role="status" id="worst"></p>\n'
        f'<p class="small">{screen.say("site.finder.shade")}</p>\n'
    )


def _form(screen: Screen, data: Mapping[str, Any]) -> str:
    start = data["start"]
    degree = "°F" if data["units"] == "us" else "°C"
    air, damp, dew = (screen.say(key) for key in ("air", "humidity", "dew_point"))
    choice = (
        f'<select id="damp" aria-label="{screen.say("site.finder.by")}">'
        f'<option value="humidity">{damp}</option><option value="dew">{dew}</option></select>'
    )
    return (
        '<form class="finder with" id="finder" novalidate autocomplete="off">\n'
        f'<div class="set"><label for="temp">{air}</label>'
        f"{_stepper(screen, 'temp', air, start['temp'], degree, 1)}</div>\n"
        f'<div class="set">{choice}'
        f"{_stepper(screen, 'humidity', damp, start['humidity'], '%', 5)}"
        f"{_stepper(screen, 'dew', dew, start['dew_point'], degree, 1)}</div>\n"
        f'<label class="check"><input type="checkbox" id="forecast"> '
        f"{screen.say('site.finder.forecast')}</label>\n"
        f'<p class="note" id="note" role="status"></p>\n</form>\n'
    )


def _stepper(screen: Screen, name: str, label: str, value: int, unit: str, by: int) -> str:
    less, more = screen.say("site.finder.less"), screen.say("site.finder.more")
    hidden = " hidden" if name == "dew" else ""
    named = "" if name == "temp" else f' aria-label="{label}"'
    return (
        f'<span class="stepper" id="set-{name}"{hidden}>'
        f'<button type="button" data-for="{name}" data-by="-{by}" '
        f'aria-label="{label}: {less}">&minus;</button>'
        f'<span class="value"><input id="{name}" type="number" inputmode="decimal" '
        f'step="any" data-start="{value}"{named}>'
        f'<span class="unit" aria-hidden="true">{unit}</span></span>'
        f'<button type="button" data-for="{name}" data-by="{by}" '
        f'aria-label="{label}: {more}">+</button></span>'
    )


def _without_script(screen: Screen, data: Mapping[str, Any]) -> str:
    """Return links to the charts: what is left of the finder where no script runs."""
    charts = {slug: 0 for row in (*data["rows"], data["you"]) for _, slug in row["charts"]}
    return (
        f'<div class="without"><p>{screen.say("site.finder.without")}</p>\n'
        f"{_tiles(screen, charts)}</div>\n"
    )


def _signs(screen: Screen, data: Mapping[str, Any]) -> str:
    """Return the sheets to turn to without any number."""
    if not data["signs"]:
        return ""
    return (
        f'<p class="signs-head">{escape(data["emergency"])}</p>\n'
        f'<div class="signs">{_tiles(screen, data["signs"])}</div>\n'
    )


def _tiles(screen: Screen, slugs: Iterable[str]) -> str:
    pages = [screen.by_slug[slug] for slug in slugs if slug in screen.by_slug]
    items = "".join(
        f'<li><a href="{escape(screen.sheet(page.slug))}">{escape(page.title)} '
        f'<span class="id">{escape(page.sheet)}</span></a></li>'
        for page in pages
    )
    return f'<ul class="tiles">{items}</ul>\n'


def _lines(screen: Screen, data: Mapping[str, Any]) -> str:
    lines = [_line(screen, row, str(place)) for place, row in enumerate(data["rows"])]
    return "".join((*lines, _line(screen, data["you"], "you")))


def _line(screen: Screen, row: Mapping[str, Any], place: str) -> str:
    who = f" <small>{escape(row['who'])}</small>" if "who" in row else ""
    inner = (
        '<span class="band" hidden></span>'
        f'<span class="what"><b>{escape(row["name"])}{who}</b> '
        f'<span class="id">{escape(row["sheet"])}</span></span>'
    )
    address = screen.sheet(row["slug"])
    linked = f'<a class="row" href="{escape(address)}">{inner}</a>' if address else inner
    return (
        f'<li data-row="{place}">{linked}<p class="do with"></p>'
        f'<p class="above with"></p></li>\n'
    )


def data_script(screen: Screen) -> str:
    """Return the finder's table as a script that only sets one value."""
    return f"window.binderFinder={as_script(_needed(screen.book.finder))};\n"


def _needed(tree: Mapping[str, Any]) -> dict[str, Any]:
    """Return the table without what the page shows already."""

    def keep(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: keep(inner) for key, inner in value.items() if key not in _ON_PAGE}
        if isinstance(value, list) and value and isinstance(value[0], dict):
            return [keep(inner) for inner in value]
        return value

    found = keep(dict(tree))
    for row, whole in zip(found.get("rows", ()), tree.get("rows", ()), strict=True):
        row["name"] = whole["name"]
    return dict(found)


def as_script(data: object) -> str:
    """Return data as JSON that is also safe inside a script and inside HTML."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return text
