"""A small invented binder, made by hand: what the output step is given."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from binder import yamlfile
from binder.output.cache import Cache
from binder.pages.page import EVERYWHERE, PRINT_ONLY, Book, Foot, Page, Tab

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

ROOT = Path(__file__).resolve().parents[2]

TABS = (
    ("A", "At the front"),
    ("E", "Emergencies"),
    ("H", "Heat"),
    ("R", "Rounds"),
    ("P", "Pens"),
    ("W", "Water"),
    ("M", "Wallows"),
    ("B", "Breeding and calendar"),
    ("C", "People"),
    ("K", "Keys and codes"),
    ("L", "Logs"),
    ("N", "Numbers"),
)

COVER = """
<p class="eyebrow">Heat binder</p>
<h1>Sallow Branch Farm</h1>
<p class="lead">How to keep every animal here alive and at ease through the hot months.</p>
<div class="answer">
<p><strong>911 address:</strong> 2260 Sallow Branch Road, blue gate</p>
<p><strong>Owner</strong> Ada Quillfeather 555-0104</p>
<p><strong>Vet</strong> Dr. Osei Marlowe 555-0117, nights 555-0119</p>
</div>
<table class="facts"><tbody>
<tr><th scope="row">How to get here</th><td>South on County 9 for 4 miles, left after the church.</td></tr>
<tr><th scope="row">Who lives here</th><td>2 sows, 1 boar, 2 gilts, 8 growers, 45 laying hens, 6 goats, 1 dog</td></tr>
</tbody></table>
<h2>What is in here</h2>
<table class="facts parts"><tbody>
<tr><th scope="row"><span class="letter">E</span></th><td><b>Emergencies</b></td><td>One page each. See, do, call</td></tr>
<tr><th scope="row"><span class="letter">H</span></th><td><b>Heat</b></td><td>How to read the air, and what it asks</td></tr>
<tr><th scope="row"><span class="letter">P</span></th><td><b>Pens</b></td><td>Each pen, what it needs and what is there</td></tr>
<tr><th scope="row"><span class="letter">W</span></th><td><b>Water</b></td><td>How much, how to keep it cool, how to test it</td></tr>
</tbody></table>
"""

START = """
<div class="answer"><p>Read the dial on the north wall of the barn. Find the number for each pen. Do what the number asks.</p></div>
<h2>Your first ten minutes</h2>
<ol class="steps">
<li><p>Read the air: how hot, how damp.</p><p class="more">Both dials hang on the north wall of the barn, in the shade.</p></li>
<li><p>Look up the number from 0 to 4 for each pen.</p><p class="more">Charts: <a class="sheet" href="sheet:pig-chart">H1</a>.</p></li>
<li><p>Walk the pens in order. See each animal drink.</p></li>
<li><p>Write what you saw on the round log.</p><p class="more">Sheet <a class="sheet" href="sheet:round-log">L1</a>.</p></li>
</ol>
<h2>Who lives where</h2>
<table class="facts"><thead><tr><th scope="col">Pen</th><th scope="col">Animals</th><th scope="col">At its hottest</th><th scope="col">Back in</th></tr></thead><tbody>
<tr><th scope="row">Creek paddock <a class="sheet" href="sheet:pen-creek">P1</a></th><td>Clementine, Juniper</td><td><span class="band b2">2</span> <b>Danger</b></td><td>2 hours</td></tr>
<tr><th scope="row">Woods <a class="sheet" href="sheet:pen-woods">P2</a></th><td>8 growers</td><td><span class="band b2">2</span> <b>Danger</b></td><td>2 hours</td></tr>
<tr><th scope="row">Stall one</th><td>Marigold and litter</td><td><span class="band b3">3</span> <b>Emergency</b></td><td>1 hour</td></tr>
<tr><th scope="row">Hen house</th><td>45 hens</td><td><span class="band b1">1</span> <b>Alert</b></td><td>4 hours</td></tr>
<tr><th scope="row">Goat run</th><td>6 goats</td><td><span class="band b0">0</span> <b>Normal</b></td><td>8 hours</td></tr>
<tr><th scope="row">Boar lot</th><td>Barnaby</td><td><span class="band b4">4</span> <b>All hands</b></td><td>stay</td></tr>
</tbody></table>
<p class="sources">Numbers are for a hot day here: high 96°F (36°C), low 75°F (24°C), dew point 74°F (23°C). The owner wrote this day down.</p>
"""

HANDOVER = """
<div class="answer"><p>Fill this in together, at the farm, before the owner leaves.</p></div>
<div class="columns"><p class="fill">Given to</p><p class="fill">Phone</p><p class="fill">From</p><p class="fill">To</p></div>
<h2>Shown and tried by hand</h2>
<table class="tasks"><thead><tr><th scope="col">Shown</th><th scope="col">Note</th></tr></thead><tbody>
<tr><th scope="row"><span class="tick"></span>Walked every pen in route order</th><td></td></tr>
<tr><th scope="row"><span class="tick"></span>Turned the main water off and on</th><td></td></tr>
<tr><th scope="row"><span class="tick"></span>Let the warm water out of each hose, and felt it turn cool at the far end</th><td></td></tr>
</tbody></table>
"""

PIG = """
<section class="see"><h2>See</h2><p>Mouth open and panting. Lying apart. Blotchy red skin. Weak, staggering or down.</p></section>
<section class="do"><h2>Do</h2>
<ol class="steps">
<li><p>Stop. Do not drive, chase or lift the pig.</p></li>
<li><p>Make shade over it. Move the other pigs away.</p></li>
<li><p>Get air moving.</p><p class="more">Stalls: the fan switch is left of the door. Outside: box fan and white cord in the pump house.</p></li>
<li><p>Call the vet now: <b>555-0117</b>. Nights: <b>555-0119</b>.</p></li>
<li><p>Wet legs and belly with cool tap water. Lay wet towels.</p><p class="more">Let the hose run cool first: <a class="number" href="working:flush-h1">1½ minutes</a>. No ice. No hard spray on a pig that is down.</p></li>
<li><p>Offer small drinks in a pan, often. Never pour water into its mouth.</p></li>
<li><p>Write the time on <a class="sheet" href="sheet:round-log">L1</a>. Check every other pig.</p></li>
</ol></section>
<section class="call"><h2>Call</h2><table class="facts"><tbody>
<tr><th scope="row">Vet</th><td>555-0117</td></tr><tr><th scope="row">Vet, nights</th><td>555-0119</td></tr></tbody></table></section>
<div class="caution warning"><strong>WARNING</strong><p>A sick sow or boar can knock you down. Keep a way out behind you. Never go in alone with a boar.</p></div>
<div class="caution notice"><strong>NOTICE</strong><p>Fast breathing in a sow that is due can be labour. Look at <a class="sheet" href="sheet:due-dates">B1</a> first.</p></div>
<p class="sources">Rests on sources husbandry-12, heat-31 (sheet N1). Vets differ on how fast to cool a pig that is down: do what yours says.</p>
"""

BLEACH = """
<section class="see"><h2>See</h2><ul><li>Bleach in eyes or on skin</li><li>A sharp smell after something was mixed with bleach</li><li>An animal that drank from a bucket of mix</li></ul></section>
<section class="do"><h2>Do</h2>
<ol class="steps">
<li><p>Get out into fresh air. Take the others along.</p></li>
<li><p>Rinse eyes or skin under running water for 15 to 20 minutes.</p><p class="more">Nearest tap: the pump house, red lever up.</p></li>
<li><p>Call poison help: <b>1-800-222-1222</b>. Hard to breathe: call <b>911</b>.</p></li>
</ol></section>
<div class="caution danger"><strong>DANGER</strong><p>Bleach with acid or ammonia makes a gas that kills. Never mix it with any cleaner, and never pour it on droppings.</p></div>
<div class="caution warning"><strong>WARNING</strong><p>Bleach burns eyes and skin. Wear goggles and gloves, and read the label first.</p></div>
<div class="caution"><strong>CAUTION</strong><p>Splashes bleach cloth and rust metal.</p></div>
<div class="caution notice"><strong>NOTICE</strong><p>Bleach grows weak in a hot shed.</p></div>
<p class="sources">Rests on source wallow-31 (sheet N1).</p>
"""


def _chart() -> str:
    """Return a grid of bands; the numbers are placeholders, no table."""
    heads = "".join(f'<th scope="col">{h}%</th>' for h in range(20, 95, 5))
    rows = []
    for t in range(110, 72, -2):
        cells = []
        for h in range(20, 95, 5):
            score = t + h * (t - 58) / 160
            if score > 138:
                cells.append("<td></td>")
                continue
            band = sum(score >= limit for limit in (88, 97, 107, 119))
            cells.append(f'<td class="b{band}">{band}</td>')
        rows.append(f'<tr><th scope="row">{t}°</th>{"".join(cells)}</tr>')
    return (
        '<div class="answer"><p>Read the two dials on the north wall of the barn. Find the box. '
        "<strong>Then do what the number asks.</strong></p></div>"
        f'<table class="bands"><thead><tr><th scope="col">Air °F</th>{heads}</tr></thead>'
        f"<tbody>{''.join(rows)}</tbody></table>"
        '<ul class="legend">'
        '<li><span class="band b0">0</span> <b>Normal</b><br>Rounds at dawn, midday, evening</li>'
        '<li><span class="band b1">1</span> <b>Alert</b><br>Top up, flush lines, fans on</li>'
        '<li><span class="band b2">2</span> <b>Danger</b><br>Every 2 hours. Wet the pigs with air moving</li>'
        '<li><span class="band b3">3</span> <b>Emergency</b><br>Every hour. No feed, no moving</li>'
        '<li><span class="band b4">4</span> <b>All hands</b><br>Stay with them. Call the owner</li></ul>'
        '<p class="sources">Placeholder numbers. Empty boxes: air that hot is never that damp. All hands is our choice.</p>'
    )


DAY = """
<div class="answer"><p>The worst hours are 2 to 6 pm. Feed before 7 am and after 8 pm.</p></div>
<figure class="drawing"><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 660 200" role="img" aria-label="Air through a hot day: lowest at 6 am, highest at 4 pm">
<rect x="40" y="20" width="150" height="150" fill="#efece7"/><rect x="540" y="20" width="108" height="150" fill="#efece7"/>
<path d="M40 20H648M40 70H648M40 120H648M40 170H648" stroke="#8a8178" stroke-width=".5"/>
<polyline points="40,140 140,160 190,165 300,90 400,40 450,32 520,60 600,110 648,138" fill="none" stroke="#1b1712" stroke-width="2.4"/>
<text x="34" y="36" font-size="11" text-anchor="end">95°</text><text x="34" y="168" font-size="11" text-anchor="end">75°</text>
<text x="190" y="190" font-size="11" text-anchor="middle">6 am</text><text x="450" y="190" font-size="11" text-anchor="middle">4 pm</text></svg>
<figcaption>Grey is night.</figcaption></figure>
<table class="facts wide"><thead><tr><th scope="col">Month</th><th scope="col" class="amount">High</th><th scope="col" class="amount">Low</th><th scope="col">Hardest hours</th></tr></thead><tbody>
<tr><th scope="row">June</th><td class="amount">91°F</td><td class="amount">70°F</td><td>1 to 6 pm</td></tr>
<tr><th scope="row">July</th><td class="amount">94°F</td><td class="amount">73°F</td><td>12 to 7 pm</td></tr>
<tr><th scope="row">August</th><td class="amount">93°F</td><td class="amount">72°F</td><td>12 to 7 pm</td></tr></tbody></table>
"""

CREEK = """
<div class="answer">
<p><strong>Who:</strong> Clementine (sow, 420 lb, red ear tag 14) and Juniper (sow, 385 lb, tag 22, due 12–18 July).</p>
<p><strong>Today they need</strong> <a class="number" href="working:water-creek">15 gal</a> of drinking water, 9 lb of dry feed soaked in 2½ gal, and a wallow over 8 in deep.</p></div>
<h2>Every visit</h2>
<table class="tasks"><thead><tr><th scope="col">Task</th><th scope="col">How</th><th scope="col" class="amount">Amount</th><th scope="col" class="amount">Minutes</th></tr></thead><tbody>
<tr><th scope="row"><span class="tick"></span>Both pigs up, seen to drink</th><td>Call them to the trough; watch for a minute</td><td class="amount">2 pigs</td><td class="amount">2</td></tr>
<tr><th scope="row"><span class="tick"></span>Flush the creek hose</th><td>Open the brass valve by the gate post until it runs cool</td><td class="amount"><a class="number" href="working:flush-h1">5.7 gal</a></td><td class="amount">1½</td></tr>
<tr><th scope="row"><span class="tick"></span>Clear the nipples</th><td>Press each for 20 seconds</td><td class="amount">2</td><td class="amount">1</td></tr>
<tr><th scope="row"><span class="tick"></span>Top up the wallow</th><td>Hose to the paint mark on the post</td><td class="amount"><a class="number" href="working:nowhere">18 gal</a></td><td class="amount">4</td></tr>
<tr><th scope="row"><span class="tick"></span>Shade cloth tied</th><td>Four corners</td><td class="amount"></td><td class="amount">½</td></tr></tbody></table>
<h2>What is here</h2>
<table class="facts"><tbody>
<tr><th scope="row">Water</th><td>2 nipples on the creek hose (¾ in, 250 ft, on the ground). Shut-off: red lever at the pump house.</td></tr>
<tr><th scope="row">Shade</th><td>900 sq ft of oaks, 240 sq ft of cloth.</td></tr>
<tr><th scope="row">Wallow</th><td>12 × 8 ft oval, dug in April. Holds about 300 gal.</td></tr>
<tr><th scope="row">Gate</th><td>not recorded</td></tr></tbody></table>
<h2>If it goes wrong</h2>
<p class="wrong">Panting <a class="sheet" href="sheet:pig-in-heat-trouble">E1</a> · Bleach <a class="sheet" href="sheet:bleach-accident">E2</a></p>
"""

WOODS = CREEK.replace("Clementine (sow, 420 lb, red ear tag 14) and Juniper (sow, 385 lb, tag 22, due 12–18 July)", "8 growers, about 110 lb each").replace("2 pigs", "8 pigs").replace("Both pigs", "All eight")

WATER = """
<div class="answer"><p>The whole farm drinks about <a class="number" href="working:water-farm">140 gal</a> on a hot day.</p></div>
<table class="facts"><thead><tr><th scope="col">Pen</th><th scope="col">Animals</th><th scope="col" class="amount">Each</th><th scope="col" class="amount">Pen</th></tr></thead><tbody>
<tr><th scope="row">Creek</th><td>2 sows</td><td class="amount">7½ gal</td><td class="amount">15 gal</td></tr>
<tr><th scope="row">Woods</th><td>8 growers</td><td class="amount">3 gal</td><td class="amount">24 gal</td></tr></tbody></table>
<h2>Test a nipple</h2>
<ol class="steps"><li><p>Hold a measuring cup under it and press for 15 seconds.</p></li><li><p>Less than a cup and a half: clean the screen and try again.</p></li></ol>
<ul><li>Touch the pipe. Too warm to hold is too warm to drink.</li><li>Look for each animal at the drinker.</li></ul>
<div class="caution"><strong>CAUTION</strong><p>Hose water that stood in the sun can scald. Let it run over your own hand first.</p></div>
"""

BREEDING = """
<table class="facts"><thead><tr><th scope="col">Sow</th><th scope="col">Bred</th><th scope="col">Watch from</th><th scope="col">Due</th></tr></thead><tbody>
<tr><th scope="row">Juniper</th><td>22 March</td><td>9 July</td><td>12–18 July</td></tr></tbody></table>
"""

CONTACTS = """
<table class="facts"><thead><tr><th scope="col">Who</th><th scope="col">Phone</th><th scope="col">Can do</th></tr></thead><tbody>
<tr><th scope="row">Owner</th><td>Ada Quillfeather <b>555-0104</b></td><td>Decides. Knows all.</td></tr>
<tr><th scope="row">Vet</th><td>Dr. Osei Marlowe <b>555-0117</b></td><td>Pigs and goats</td></tr>
<tr><th scope="row">Neighbor</th><td>Bo Tindall <b>555-0123</b></td><td>Has a trailer, 10 minutes away</td></tr></tbody></table>
"""

KEYS = """
<table class="facts"><tbody><tr><th scope="row">Blue gate</th><td>4471 then the bell sign</td></tr><tr><th scope="row">Feed room</th><td>Key on the second nail</td></tr></tbody></table>
<div class="caution notice"><strong>NOTICE</strong><p>This sheet is on paper only. Hand it back.</p></div>
"""

LOG = (
    '<table class="log"><thead><tr><th scope="col">Date</th><th scope="col">Time</th><th scope="col">Air</th><th scope="col">Band</th><th scope="col">All seen to drink</th><th scope="col">What I saw</th></tr></thead><tbody>'
    + "<tr><th scope=\"row\"> </th><td></td><td></td><td></td><td></td><td></td></tr>" * 16
    + "</tbody></table>"
)

NUMBERS = "".join(
    f'<h2 id="working-{key}">{title}</h2><p>{text}</p><p class="sources">Sources: water-12, water-40</p>'
    for key, title, text in (
        ("water-creek", "Water a day, Creek paddock", "2 × 7½ gal = 15 gal"),
        ("water-farm", "Water a day, whole farm", "15 + 24 + 101 = 140 gal"),
        ("flush-h1", "Flushing the creek hose", "250 ft of ¾ in hose hold 5.7 gal"),
    )
)

CARD = """
<div class="answer"><p><strong>Clementine, Juniper.</strong> Drink 15 gal a day.</p></div>
<table class="facts"><tbody><tr><th scope="row"><span class="band b2">2</span> <b>Danger</b></th><td>Wet them with air moving. Back in 2 hours.</td></tr>
<tr><th scope="row"><span class="band b3">3</span> <b>Emergency</b></th><td>Every hour. No feed.</td></tr></tbody></table>
"""

PAGES = (
    ("cover", "A1", "Heat binder", COVER, "cover"),
    ("start-here", "A2", "Start here", START, "start"),
    ("hand-over-sheet", "A3", "Hand-over", HANDOVER, "form"),
    ("pig-in-heat-trouble", "E1", "A pig is in heat trouble", PIG, "emergency"),
    ("bleach-accident", "E2", "Bleach went wrong", BLEACH, "emergency"),
    ("pig-chart", "H1", "How dangerous is the air for pigs?", _chart(), "chart"),
    ("hot-day", "H2", "What a hot day is like here", DAY, "figures"),
    ("pen-creek", "P1", "Creek paddock", CREEK, "pen"),
    ("pen-woods", "P2", "Woods", WOODS, "pen"),
    ("water", "W1", "How much they drink", WATER, "figures"),
    ("due-dates", "B1", "Who is due, and when", BREEDING, "figures"),
    ("contacts", "C1", "Whom to call", CONTACTS, "figures"),
    ("gate-codes", "K1", "Gates and keys", KEYS, "private"),
    ("round-log", "L1", "Round log", LOG, "log"),
    ("workings", "N1", "How each number was worked out", NUMBERS, "numbers"),
    ("card-creek", "P1", "Creek paddock", CARD, "card"),
)


def labels() -> dict[str, str]:
    """Return the words of content/words/en/print.yaml under dotted names."""
    tree = yamlfile.read(ROOT / "content/words/en/print.yaml").data

    def walk(node: object, name: str) -> Iterator[tuple[str, str]]:
        if isinstance(node, dict):
            for key, below in node.items():
                yield from walk(below, f"{name}.{key}" if name else key)
        else:
            yield name, str(node)

    return dict(walk(tree, ""))


def make_book(changed: Mapping[str, str] | None = None, without: tuple[str, ...] = ()) -> Book:
    """Return the invented binder, with some bodies changed or sheets left out."""
    changed = changed or {}
    pages = tuple(
        Page(
            slug,
            number,
            number[0],
            title,
            changed.get(slug, body),
            where=PRINT_ONLY if kind in {"private", "card"} else EVERYWHERE,
            kind=kind,
            editions=frozenset({"owner", "sitter"} if kind == "private" else {"sitter", "helper", "owner", "vet"}),
        )
        for slug, number, title, body, kind in PAGES
        if slug not in without
    )
    return Book(
        name="Sallow Branch Farm",
        date="2026-06-01",
        paper="letter",
        language="en",
        tabs=tuple(Tab(letter, name, at) for at, (letter, name) in enumerate(TABS)),
        pages=pages,
        foot=Foot(
            "Trouble?",
            "2260 Sallow Branch Road, blue gate",
            (("Owner", "555-0104"), ("Vet", "555-0117, nights 555-0119")),
        ),
        labels=labels(),
    )


@pytest.fixture
def book() -> Book:
    """Return the invented binder."""
    return make_book()


@pytest.fixture
def cache(tmp_path: Path) -> Cache:
    """Return an empty cache."""
    return Cache(tmp_path / "cache")
