"""Print, site, phone file and `binder figure --json` say the same numbers; so do both systems.

What stands on the pages is read back from the finished files: PDF text by another library than
the one that wrote it, HTML by the standard library's parser.
"""

from __future__ import annotations

import datetime as dt
import json
import math
import random
import re
from collections import Counter
from dataclasses import dataclass
from functools import partial
from html.parser import HTMLParser
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from click.testing import CliRunner

from binder import units, yamlfile
from binder.build import book_of
from binder.cli import commands
from binder.data import CONTENT
from binder.farm.check import check
from binder.farm.load import read_folder
from binder.figures.figures import every, work_out
from binder.output.paper.sheet import CARDS
from binder.output.print import render_book
from binder.output.write import Options, write
from tests.proof import farm as farms
from tests.proof import values
from tests.proof.mutant import write as write_farm
from tests.structures import EVERY, FEW, few_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from binder.figures.figure import Figure
    from binder.pages.page import Book, Page
    from binder.yamlfile import Plain
    from tests.conftest import Once

pytestmark = pytest.mark.slow

EXAMPLE = CONTENT / "example-farm"
DAY = dt.date(2026, 6, 1)
NUMBER = re.compile(r"\d[\d,]*(?:\.\d+)?(?:/\d+)?")
VOID = frozenset({"br", "hr", "img", "input", "meta", "link", "col", "wbr", "source"})
BREAKS = frozenset({"p", "li", "td", "th", "tr", "div", "h1", "h2", "h3", "dt", "dd", "text"})


class _Text(HTMLParser):
    """Gathers what stands below the element with an id, a space between blocks."""

    def __init__(self, wanted: str) -> None:
        super().__init__(convert_charrefs=True)
        self.wanted = wanted
        self.depth = 0
        self.parts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in BREAKS:
            self.parts.append(" ")
        if tag in VOID:
            return
        if self.depth or not self.wanted or ("id", self.wanted) in attrs:
            self.depth += 1

    def handle_endtag(self, tag: str) -> None:
        if tag in BREAKS:
            self.parts.append(" ")
        self.depth -= bool(self.depth)

    def handle_data(self, data: str) -> None:
        if self.depth or not self.wanted:
            self.parts.append(data)


def text_of(html: str, wanted: str = "") -> str:
    """Return the text of an element, or of all."""
    reader = _Text(wanted)
    reader.feed(html)
    reader.close()
    return " ".join("".join(reader.parts).split())


def numbers(text: str) -> list[str]:
    """Return every number of a text, in order."""
    return [found.rstrip(",") for found in NUMBER.findall(text)]


def linked(page: Page) -> Iterator[tuple[str, str]]:
    """Yield key and printed text of every number whose working is known."""
    for key, text in re.findall(r'href="working:([^"]+)"[^>]*>(.*?)</a>', page.body, re.DOTALL):
        yield key, text_of(text)


@dataclass(frozen=True)
class Outputs:
    """The example farm's binder, and what its finished files say, by slug."""

    book: Book
    site: Mapping[str, str]
    phone: Mapping[str, str]
    print: Mapping[str, str]

    @property
    def screens(self) -> Book:
        """Return what site and phone show."""
        return self.book.screens or self.book


@pytest.fixture(scope="module", params=[FEW, pytest.param(EVERY, marks=pytest.mark.every)])
def outputs(request: pytest.FixtureRequest, once: Once) -> Outputs:
    """Return the example farm, built once: all for screens, few or every sheet on paper."""
    extent: str = request.param
    return once(f"truth-{extent}", partial(_outputs, extent))


def _outputs(extent: str, folder: Path) -> Outputs:
    to = folder / "build"
    book = book_of(EXAMPLE, DAY)
    write(book, to, EXAMPLE, Options(edition="", site_only=True), lambda *_: None)
    printed = book if extent == EVERY else few_of(book)
    file = render_book(printed, folder).file
    screens = book.screens or book
    phone = (to / "phone" / "binder.html").read_text("utf-8")
    return Outputs(
        book,
        {
            page.slug: text_of((to / "site" / f"{page.slug}.html").read_text("utf-8"), "main")
            for page in screens.pages
            if "site" in page.where and page.kind not in CARDS
        },
        {
            page.slug: text_of(phone, page.slug)
            for page in screens.pages
            if "phone" in page.where and page.kind not in CARDS
        },
        _printed(file, book),
    )


def _printed(path: Path, book: Book) -> Mapping[str, str]:
    """Return the text of each sheet's pages; its bookmark says where they begin."""
    with pypdfium2.PdfDocument(path) as file:
        starts: dict[str, int] = {}
        for entry in file.get_toc():
            at = entry.get_dest()
            if entry.level and at is not None:
                starts.setdefault(entry.get_title().split(" ")[0], at.get_index() or 0)
        texts = [
            file[number].get_textpage().get_text_bounded().replace("\N{NO-BREAK SPACE}", " ")
            for number in range(len(file))
        ]
    ends = [*sorted(starts.values())[1:], len(texts)]
    end_of = dict(zip(sorted(starts.values()), ends, strict=True))
    return {
        page.slug: " ".join(
            " ".join(texts[starts[page.sheet] : end_of[starts[page.sheet]]]).split()
        )
        for page in book.pages
        if page.kind not in CARDS and "print" in page.where and page.sheet in starts
    }


def _is_within(part: list[str], whole: list[str]) -> bool:
    """Return whether all of `part` stands in `whole` in the same order."""
    left = iter(whole)
    return all(each in left for each in part)


def test_site_and_phone_say_every_number_of_every_sheet(outputs: Outputs) -> None:
    """In the same order as the composed page; none is lost or changed on the way."""
    wrong = []
    for page in outputs.screens.pages:
        for name, found in (("site", outputs.site), ("phone", outputs.phone)):
            if page.slug in found and not _is_within(
                numbers(text_of(page.body)), numbers(found[page.slug])
            ):
                wrong.append((name, page.slug))
    assert wrong == []
    assert len(outputs.site) > 50
    assert len(outputs.phone) > 50


def test_print_says_every_number_of_every_sheet(outputs: Outputs) -> None:
    """As often as the composed page does (a table may be read column by column)."""
    wrong = {}
    for page in outputs.book.pages:
        if page.slug not in outputs.print or page.kind == "cover":
            continue
        lost = Counter(numbers(text_of(page.body))) - Counter(numbers(outputs.print[page.slug]))
        if lost:
            wrong[page.slug] = lost
    assert wrong == {}
    assert len(outputs.print) > 50


def test_every_linked_number_stands_in_all_three(outputs: Outputs) -> None:
    """With its unit: `73 gal (276 L) a day`, word for word."""
    wrong, count = [], 0
    for page in outputs.screens.pages:
        for key, text in linked(page):
            for name, found in (
                ("site", outputs.site),
                ("phone", outputs.phone),
                ("print", outputs.print),
            ):
                count += 1
                if page.slug in found and _plain(text) not in _plain(found[page.slug]):
                    wrong.append((name, page.slug, key, text))
    assert wrong == []
    assert count > 500


def _plain(text: str) -> str:
    """Return a text without its spaces, which a PDF's text may lack or have too many of."""
    return re.sub(r"\s", "", text)


SUN = ["latitude=31.55", "longitude=-82.12", "timezone=America/New_York", "date=2026-06-01"]
HOT = [*SUN, "high=95F", "low=75F", "dew_point=74F", "hottest_at=15:30"]
# Key of a figure on the example farm -> how one asks for it, with what the farm's files say.
ASKED: Mapping[str, tuple[str, ...]] = {
    "sunrise.hot day": tuple(SUN),
    "sunset.hot day": tuple(SUN),
    "day-curve.hot day": tuple(HOT),
    "day-load.boar": ("class=boar", *HOT),
    "day-load.laying hen": ("class=laying hen", *HOT),
    "morning-meal.gestating sow": ("class=gestating sow", *HOT),
    "evening-meal.gestating sow": ("class=gestating sow", *HOT),
    "due-date.Clementine": ("species=pig", "bred=2026-03-22"),
    "return-check.Clementine": ("bred=2026-03-22",),
    "weaning.Marigold": ("farrowed=2026-05-28",),
    "class.Clementine": (
        "species=pig", "sex=sow", "born=2023-03-02", "date=2026-06-01", "weight=420lb",
        "bred=2026-03-22", "farrowed=2025-11-03", "purpose=breeding",
    ),
    "class.Laying hens": (
        "species=chicken", "sex=hen", "born=2025-03-20", "date=2026-06-01", "purpose=eggs",
        "weight=4.6lb",
    ),
    "weight-on.Growers": (
        "weight=78lb", "weighed=2026-05-20", "gain=1.5lb/day", "date=2026-06-01",
    ),
    "weight-on.Meat birds": (
        "weight=1.5lb", "weighed=2026-05-30", "gain=0.08lb/day", "date=2026-06-01",
        "species=chicken",
    ),
    "water-need.Clementine": ("class=gestating sow", "count=1", "temperature=95F",
    "weight=420lb"),
    "water-need.Laying hens": ("class=laying hen", "count=45", "temperature=95F",
    "weight=4.6lb"),
    "water-need.Hector": ("class=boar", "count=1", "temperature=95F", "weight=510lb"),
    "drinkers.hen-run laying hen": ("class=laying hen", "count=45"),
    "drinkers.stall-2 gilt": ("class=gilt", "count=2"),
    "flow-test.d1": ("class=lactating sow", "caught=4cups", "seconds=60"),
    "hose-volume.h1": ("inside=3/4in", "length=250ft"),
    "hose-volume.h2": ("inside=5/8in", "length=100ft"),
    "hose-flush.h1": ("inside=3/4in", "length=250ft", "flow=5gal/min"),
    "hose-flush.h2": ("inside=5/8in", "length=100ft", "flow=3gal/min"),
    "hose-pressure-loss.h1": ("inside=3/4in", "length=250ft", "flow=5gal/min"),
    "hose-pressure-loss.h2": ("inside=5/8in", "length=100ft", "flow=3gal/min"),
    "wallow-volume.w1 dosing": (
        "shape=oval", "length=14ft", "width=9ft", "depth=10in", "use=dosing",
    ),
    "wallow-volume.w1 filling": (
        "shape=oval", "length=14ft", "width=9ft", "depth=10in", "use=filling",
    ),
    "wallow-volume.w3 dosing": ("shape=round", "length=8ft", "depth=9in", "use=dosing"),
    "wallow-depth.w2": ("depth=8in",),
    "wallow-refresh.w1": ("last=2026-05-12",),
    "wallow-setback.w1 well": ("distance=640ft", "source=well"),
    "bleach-strength.bleach": ("strength=7.5%", "stored_for=79days", "storage_temperature=95F"),
    "dog-energy.Bramble": ("weight=112lb",),
    "fan-limit.pig": ("who=pig",),
    "fan-limit.chicken": ("who=chicken",),
    "drip-cycle.75 F": ("temperature=75F",),
    "longest-gap.july": ("visits=06:30,13:00,20:45",),
    "helper-drink.hour": (),
}  # fmt: skip


@pytest.mark.parametrize("key", ASKED)
def test_the_command_says_what_the_pages_say(outputs: Outputs, key: str) -> None:
    """The number on the sheet of workings is the command's, rounded as it is printed."""
    name = key.partition(".")[0]
    ran = CliRunner().invoke(commands, ["figure", name, *ASKED[key], "--json"])
    assert ran.exit_code == 0, ran.output
    answer = json.loads(ran.output)
    head = re.search(r"<p><b>(.*?)</b>", outputs.book.workings[key])
    assert head is not None
    shown = text_of(head[1])
    values = answer["value"] if isinstance(answer["value"], list) else [answer["value"]]
    for value, printed in zip(values, shown.split(", "), strict=True):
        assert _agree(value, answer["unit"], printed)
    paper = [outputs.print] if len(outputs.print) > len(outputs.site) else []  # every sheet
    for said in (outputs.site, outputs.phone, *paper):
        numbers = _plain(" ".join(text for slug, text in said.items() if "numbers" in slug))
        assert _plain(shown) in numbers
        for line in answer["working"]:
            assert _plain(line) in numbers


# US liquid measures in fluid ounces: NIST Handbook 44, Appendix C.
FLUID_OUNCES = {"fl oz": 1.0, "cup": 8.0, "cups": 8.0, "qt": 32.0, "gal": 128.0}
SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0, "days": 86400.0}


def _agree(value: object, unit: str, printed: str) -> bool:
    """Return whether a value is the printed one, rounded at its last printed place.

    Numbers print whole from 10, with three digits from 1,000, in quarters where a measuring cup
    has them; times and liquids also in a larger unit.
    """
    if isinstance(value, str):
        return value == printed
    assert isinstance(value, int | float)
    found = re.fullmatch(r"(-?[\d,]+)?(\.\d+)? ?(?:(\d)/(\d))? ?(\D*)", printed)
    assert found is not None, printed
    whole, decimals, top, bottom, said_unit = found.groups(default="")
    number = float((whole + decimals).replace(",", "") or 0)
    step = 10.0 ** -(len(decimals) - 1) if decimals else 1.0
    if number >= 1000:
        step = 10.0 ** (len(whole.replace(",", "")) - 3)
    if bottom:
        number += int(top) / int(bottom)
        step = 0.25
    unit_said = said_unit.strip().removesuffix(" a day")
    if unit != said_unit.strip() and unit in SECONDS and unit_said in SECONDS:
        value = value * SECONDS[unit] / SECONDS[unit_said]
    elif unit != said_unit.strip() and unit in FLUID_OUNCES and unit_said in FLUID_OUNCES:
        value = value * FLUID_OUNCES[unit] / FLUID_OUNCES[unit_said]
    elif unit != said_unit.strip():
        return False
    return abs(value - number) <= step / 2 + 1e-9


# Type of a value in a farm file -> its sort, and how one writes it in metric measures.
METRIC: Mapping[str, tuple[str, str]] = {
    "Metres": ("length", "m"), "Spans": ("length", "m"), "Depths": ("length", "m"),
    "Bores": ("length", "m"), "SquareMetres": ("area", "m2"), "Litres": ("volume", "L"),
    "Kilograms": ("weight", "kg"), "Stock": ("weight", "kg"), "Celsius": ("temperature", "C"),
    "LitresPerMinute": ("flow", "L/min"), "CubicMetresPerHour": ("air flow", "m3/h"),
    "KilogramsPerDay": ("gain", "kg/day"), "Gains": ("gain", "kg/day"),
    "FuelLitresPerHour": ("fuel rate", "L/h"), "MillimetresPerDay": ("depth rate", "mm/day"),
}  # fmt: skip


def figures_by_key(folder: Path) -> dict[str, Figure]:
    """Return every figure of a farm folder."""
    owner = read_folder(folder)
    return {figure.key: figure for figure in every(work_out(check(owner), DAY))}


def written(folder: Path, changed: farms.Farm) -> Path:
    """Return the folder that now holds a changed farm."""
    write_farm(changed.mutant("truth", ""), folder)
    return folder


@pytest.fixture(scope="module")
def metric(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the example farm as a neighbour with metric measures would have written it."""
    farm = farms.Farm(random.Random(0))
    count = 0
    for spot in farm.spots():
        kind, unit = METRIC.get(values.type_name(spot.shape), ("", ""))
        text = yamlfile.value_at(farm.data[spot.file], spot.path)
        if kind and isinstance(text, str):
            farm.set(spot, f"{units.parse(text, kind):.10f} {unit}")
            count += 1
        elif spot.path == ("units",):
            farm.set(spot, "metric")
    assert count > 120
    return written(tmp_path_factory.mktemp("metric") / "farm", farm)


def test_a_farm_in_metric_measures_has_the_same_figures(metric: Path) -> None:
    """The inch is 25.4 mm by definition: nothing but rounding may tell the two apart."""
    ours, theirs = figures_by_key(EXAMPLE), figures_by_key(metric)
    assert ours.keys() == theirs.keys()
    wrong = [key for key in ours if not _same(ours[key].value, theirs[key].value)]
    assert wrong == []


def _same(one: object, other: object) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_same, one, other))
    if isinstance(one, units.Amount) and isinstance(other, units.Amount):
        near = math.isclose(one.value, other.value, rel_tol=1e-6, abs_tol=1e-6)
        return one.unit == other.unit and near
    return one == other


def test_metric_pages_show_the_same_amounts(metric: Path) -> None:
    """`280 L a day`: the amount in metric alone, in the steps of a can or rounded for reading.

    Read back as an owner would write it; a step is an eighth of the amount at most, below 100
    mL a quarter.
    """
    ours, book = figures_by_key(EXAMPLE), book_of(metric, DAY)
    wrong, count = [], 0
    for page in book.pages:
        for key, text in linked(page):
            value = ours[key].value
            if isinstance(value, units.Amount) and units.symbol(value, "metric"):
                count += 1
                if not _agree_in_metric(value, text):
                    wrong.append((page.slug, key, value, text))
    assert wrong == []
    assert count > 200


# Kept unit -> the kind that its printed amounts are read back as.
READ_AS = {
    "degC": "temperature", "L": "volume", "mL": "volume", "L/min": "flow", "mL/min": "flow",
    "m": "length", "mm": "length", "m2": "area", "kg": "weight", "kg/day": "gain",
    "L/day": "daily volume", "m3/h": "air flow", "W": "power", "A": "current",
    "kPa": "pressure", "mm/day": "depth rate",
}  # fmt: skip


def _agree_in_metric(value: units.Amount, printed: str) -> bool:
    """Return whether an amount is the printed one, read back from the page."""
    if value.value == 0 and not any(map(str.isdigit, printed)):
        return True  # "dry at once" where nothing is in store
    kind = READ_AS.get(value.unit)
    if kind is None:
        return _agree(units.convert(value, "metric"), units.symbol(value, "metric"), printed)
    read = units.parse(printed.replace(" a day", "/day"), kind)
    kept = {"mL": 1000.0, "mL/min": 1000.0, "mm": 1000.0}.get(value.unit, 1.0)
    near = 0.26 if value.unit in {"L", "L/day"} and value.value < 0.1 else 0.13
    return math.isclose(read * kept, value.value, rel_tol=near, abs_tol=0.5)


def doubled() -> farms.Farm:
    """Return the example farm with a second one just like it beside it: all of it twice."""
    farm = farms.Farm(random.Random(0))
    for name in ("animals.yaml", "pens.yaml"):
        listed = farm.data[name]
        assert isinstance(listed, list)
        listed += [_twin(item) for item in listed]
        farm.touched.add(name)
    equipment = farm.data["equipment.yaml"]
    assert isinstance(equipment, dict)
    for listed in equipment.values():
        if isinstance(listed, list):
            listed += [_twin(item) for item in listed]
    farm.touched.add("equipment.yaml")
    return farm


_NAMED = ("id", "name", "group", "pen", "fed_by", "feed", "circuit", "feeds")


def _twin(data: Plain, key: str = "") -> Plain:
    """Return a thing with the names in it, and those it names, changed."""
    if isinstance(data, dict):
        # No two pens stand at one point of the map.
        return {inner: _twin(value, inner) for inner, value in data.items() if inner != "at"}
    if isinstance(data, list):
        return [_twin(item, "id" if key == "runs" else key) for item in data]
    return f"{data}-b" if key in _NAMED and data else data


def test_twice_the_farm_needs_twice_the_water(tmp_path: Path) -> None:
    """And twice the feed, shade and bleach for wallows; its stores last as long as before."""
    once, twice = figures_by_key(EXAMPLE), figures_by_key(written(tmp_path, doubled()))
    for key in ("farm-water", "farm-water.july", "water-demand", "water-stored", "water-days"):
        assert twice[key].amount.value == pytest.approx(2 * once[key].amount.value, rel=1e-9), (
            key
        )
    for key in ("reserve.drinking", "reserve.everything"):
        assert twice[key].amount.value == pytest.approx(once[key].amount.value, rel=1e-9), key
    sums = ("pen-water", "water-need", "group-ration", "pen-shade-need", "wallow-volume",
            "hose-flush-water", "wallow-top-up")  # fmt: skip
    for name in sums:
        assert _sum(twice, name) == pytest.approx(2 * _sum(once, name), rel=1e-9), name


def _sum(figures: Mapping[str, Figure], name: str) -> float:
    return sum(figure.amount.value for figure in figures.values() if figure.name == name)
