"""The owner's own words: they replace a sheet, add one, or are refused with a reason."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Protocol

import pytest

from binder.build import book_of
from binder.letters import lacking
from binder.problems import ProblemsError
from tests.pages.conftest import DAY
from tests.pages.test_protocol import HOSTILE, outline

if TYPE_CHECKING:
    from binder.pages.page import Book, Page
    from tests.conftest import FarmFolder

EMERGENCY = "## See\n\nA pig.\n\n## Do\n\n1. Our own way.\n\n## Call\n\n- Us\n"


class Composed(Protocol):
    """Composes the least farm with protocols of its own."""

    def __call__(self, protocols: dict[str, str], **files: str) -> Book:
        """Return the binder; protocols by file name, other files without `.yaml`."""


@pytest.fixture
def composed(farm_folder: FarmFolder, least: dict[str, str]) -> Composed:
    """Return a function that composes the least farm with protocols of its own."""

    def made(protocols: dict[str, str], **files: str) -> Book:
        own = {f"protocols/{name}": text for name, text in protocols.items()}
        changed = {f"{name}.yaml": text for name, text in files.items()}
        return book_of(farm_folder(least | changed | own), DAY)

    return made


def own(sheet: str, text: str, more: str = "") -> str:
    """Return the text of a protocol."""
    head = f"title: Ours\nsheet: {sheet}\n{more}reviewed: 2026-11-25\nsummary: Ours.\n"
    return f"---\n{head}---\n{text}\n"


def page(book: Book, slug: str) -> Page:
    """Return a sheet."""
    return next(page for page in book.pages if page.slug == slug)


@pytest.mark.parametrize("name", ["e01-pig-in-heat-trouble.md", "pig-in-heat-trouble.md"])
def test_same_name_replaces_a_maintained_sheet(composed: Composed, name: str) -> None:
    """Under the same number, marked as the farm's own, and the maintained words are gone."""
    book = composed({name: own("E1", EMERGENCY, "kind: emergency\n")})
    found = page(book, "pig-in-heat-trouble")
    assert (found.sheet, found.owner_version, found.title) == ("E1", True, "Ours")
    assert "Our own way." in found.body
    assert '<p class="own">' in found.body
    assert "Call the vet now" not in found.body
    assert [page.sheet for page in book.pages].count("E1") == 1


def test_replacing_one_leaves_the_others(composed: Composed) -> None:
    """Only the sheet of that name changes."""
    book = composed({"pig-in-heat-trouble.md": own("E1", EMERGENCY, "kind: emergency\n")})
    assert [page.slug for page in book.pages if page.owner_version] == ["pig-in-heat-trouble"]
    assert "cool water at once" in page(book, "no-water-now").body


@pytest.mark.parametrize("sheet", ["W40", "A9", "N8", "R99"])
def test_extra_pages_go_to_any_tab(composed: Composed, sheet: str) -> None:
    """A farm may say more than we do, wherever it fits."""
    book = composed({"our-ways.md": own(sheet, "Our ways at {{ farm.name }}.")})
    found = page(book, "our-ways")
    assert (found.sheet, found.tab) == (sheet, sheet[0])
    assert "Our ways at Small Place." in found.body


def test_own_sheet_shows_without_what_the_maintained_one_needs(composed: Composed) -> None:
    """The owner knows better what the farm has."""
    book = composed({"stall-fans.md": own("S4", "Ours.", "needs: [fan]\n")})
    assert page(book, "stall-fans").owner_version


@pytest.mark.parametrize(
    ("file", "sheet", "said"),
    [
        (
            "our-water.md",
            "W4",
            (
                "W4 is the sheet of flushing-a-hose; name the file like it to replace it, "
                "or choose a free number"
            ),
        ),
        ("our-water.md", "W1", "W1 is the sheet of water-today; choose a free number"),
        ("our-pen.md", "P1", "P1 is the sheet of pen-lot; choose a free number"),
        ("our-log.md", "L1", "L1 is the sheet of round-log; choose a free number"),
        (
            "wall-chart-people.md",
            "W40",
            "wall-chart-people is a sheet that the program makes; name the file otherwise",
        ),
        (
            "water-today.md",
            "W40",
            "water-today is a sheet that the program makes; name the file otherwise",
        ),
        (
            "no-water-now.md",
            "E40",
            "no-water-now is sheet E7; keep that number, others point to it",
        ),
        (
            "our-water.md",
            "X4",
            '"X" is not a tab; expected one of A, E, H, R, P, W, M, S, F, B, Q, C, K, L, N',
        ),
    ],
)
def test_a_taken_number_is_refused(
    composed: Composed, file: str, sheet: str, said: str
) -> None:
    """On paper a number means one sheet; the message says what would do."""
    with pytest.raises(ProblemsError) as caught:
        composed({file: own(sheet, "Ours.")})
    assert [str(each) for each in caught.value.problems] == [
        f"protocols/{file}:3:1  sheet: {said}"
    ]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (own("W40", "One.\n\n{{ pens_withh('fan') }}"), ":9:1  'pens_withh' is undefined"),
        (
            own("W40", "See {{ sheet('flushing-a-hose') }}."),
            (
                ':7:1  sheet("flushing-a-hose") is not shown for this farm; '
                "guard it with shows(...)"
            ),
        ),
        (
            own("W40", "Ours.", "sources: [water-9999]\n"),
            ':4:1  sources: "water-9999" is not a source',
        ),
    ],
)
def test_an_unknown_name_stops_the_build(composed: Composed, text: str, said: str) -> None:
    """With file and line."""
    with pytest.raises(ProblemsError) as caught:
        composed({"our-water.md": text})
    assert [str(each) for each in caught.value.problems] == [f"protocols/our-water.md{said}"]


def test_mistakes_in_two_sheets_are_told_together(composed: Composed) -> None:
    """The owner mends both in one go."""
    with pytest.raises(ProblemsError) as caught:
        composed({"a.md": own("W40", "{{ a }}"), "b.md": own("W41", "{{ b }}")})
    assert [problem.place.file for problem in caught.value.problems] == [
        "protocols/a.md",
        "protocols/b.md",
    ]


@pytest.mark.parametrize("text", [text for text in HOSTILE if not lacking(text)])
def test_farm_text_is_only_ever_text(composed: Composed, text: str) -> None:
    """Names, notes and places reach sheets as they were typed, and nothing in them runs."""
    typed = " ".join(text.split())
    quoted = "'" + typed.replace("'", "''") + "'"
    book = composed(
        {"ours.md": own("W40", "At {{ pens[0].name }}.\n\n- {{ call('owner') }}\n")},
        pens=f"- {{id: lot, name: {quoted}, kind: pasture, gate: {quoted}, notes: {quoted}}}\n",
        contacts=f"- {{name: {quoted}, role: owner, phone: 555-0100}}\n",
    )
    for slug in ("ours", "near-big-animals", "pig-in-heat-trouble", "the-round"):
        assert typed in outline(page(book, slug).body)[1], slug
    everything = "".join(one.body for one in book.pages)
    assert "<script" not in everything
    assert "onerror=alert(1)>" not in everything
    assert 'href="javascript' not in everything


LISTS = "".join(f"{'    ' * depth}- a\n" for depth in range(110))
ENDLESS = [
    ("{{ pens[0].every('emergncy') }}", 7, '"emergncy" is no band; expected one of fine'),
    ("{{ '{a}'.format() }}", 7, "format"),
    ("One.\n\n{{ call(a=1, a=2) }}", 9, "names one thing twice"),
    ("{{ dict(a=1) }}", 7, "'dict' is undefined"),
    (LISTS, 7, "nests too deep"),
    ("1. " * 2_000, 7, "nests too deep"),
    ("> " * 1_500, 7, "nests too deep"),
    ("One.\n\n" + "[" * 20_000, 9, "more than 200 ["),
    ("x" * 30_001, 7, "is too long; 30,000 characters are the most"),
    ("{{ " + "(" * 5_000, 7, ""),
    ("{{ " + "-" * 5_000 + "1 }}", 7, ""),
    ("{% for a in range(99999) %}{% for b in range(99999) %}{% endfor %}{% endfor %}", 7,
     "goes on for too long"),
    ("{% for a in range(9999) %}pppppppp{% endfor %}", 7, "grows too large"),
    ("{% for a in range(9) recursive %}{{ loop(range(9)) }}{% endfor %}", 7, "recursive"),
    ("{{ 10 ** (10 ** 8) }}", 7, "** is not for protocols"),
    ("{{ 9 * 'a' }}", 7, "* is for numbers"),
    ("{{ 'a%999999999d' % 1 }}", 7, "% is for numbers"),
    ("{{ 999999999999999 * 999999999999999 * 9 }}", 7, "* is for numbers"),
    ("{{ 1 // 0 }}", 7, "zero"),
    ("{% set a = 'x' %}{{ a ~ a }}", 7, "~ is not for protocols"),
    ("{% macro m() %}{{ m() }}{{ m() }}{% endmacro %}{{ m() }}", 7, "{% macro %} is not"),
    ("{% set a %}x{% endset %}", 7, "{% set %} with an end is not"),
    ("{% set a = [1] %}{% set a = [a, a] %}", 7, "plain words and numbers only"),
    ("{% include 'x' %}", 7, "{% include %} is not for protocols"),
    ("{{ lipsum(99999) }}", 7, "'lipsum' is undefined"),
    ("{{ 'a'.center(10 ** 9) }}", 7, ""),
    ("{{ 'a'.center(999999999) }}", 7, "center"),
    ("{{ 'a'.replace('a', 'b') }}", 7, "replace"),
    ("{{ 'a' | center(999999999) }}", 7, "No filter named 'center'"),
    ("{{ t('hot') }}", 7, ""),
    ("{{ t(1e999) }}", 7, ""),
    ("{{ pens['x'] }}", 7, ""),
    ("{{ pens[99] }}", 7, ""),
    ("{{ damp(1, 'x') }}", 7, ""),
    ("{{ limit('nosuch') }}", 7, '"nosuch" is not known here'),
    ("a\x02klzzwxh:0000\x03b", 7, "control character (U+0002)"),
    ("{{ 'a\\x02wzxhzdk:0\\x03' }}", 7, "cannot be printed (U+0002)"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line", "words"), ENDLESS)
def test_no_protocol_ends_in_a_traceback_or_never(
    composed: Composed, text: str, line: int, words: str
) -> None:
    """One message with file and line, and soon."""
    begun = time.process_time()
    with pytest.raises(ProblemsError) as caught:
        composed({"ours.md": own("W40", text)})
    (problem,) = caught.value.problems
    assert (problem.place.file, problem.place.line) == ("protocols/ours.md", line)
    assert words in problem.message
    assert len(problem.message) < 400
    assert time.process_time() - begun < 10  # a whole build of the least farm takes 2


@pytest.mark.parametrize(
    "sign", ["&#1114112;", "&#55296;", "&#0;", "&#9999999999999999999;", "&#xD800;"]
)
def test_an_entity_of_no_sign_is_one_message(composed: Composed, sign: str) -> None:
    """HTML shows U+FFFD for it (WHATWG HTML, 13.2.5.80), which the print font lacks."""
    with pytest.raises(ProblemsError) as caught:
        composed({"ours.md": own("W40", f"a {sign} b")})
    (problem,) = caught.value.problems
    assert (problem.place.file, problem.place.line) == ("protocols/ours.md", 7)
    assert "U+FFFD" in problem.message


def test_an_entity_of_a_control_sign_is_left_out(composed: Composed) -> None:
    """A sign that prints nothing reaches no page."""
    body = page(composed({"ours.md": own("W40", "a &#2; b")}), "ours").body
    assert "\x02" not in body


def test_a_gate_card_keeps_its_name(composed: Composed) -> None:
    """A protocol that would take its place is refused, though nothing leads to the card."""
    with pytest.raises(ProblemsError, match="card-lot is a sheet that the program makes"):
        composed({"card-lot.md": own("W40", "Ours.")})


@pytest.mark.parametrize(
    ("link", "said"),
    [
        ("sheet:contacs", '"sheet:contacs" leads nowhere; did you mean contacts?'),
        ("sheet:contacs#top", '"sheet:contacs" leads nowhere; did you mean contacts?'),
        ("working:nosuch.figure", '"working:nosuch.figure" leads nowhere'),
        ("sheet:", '"sheet:" leads nowhere'),
    ],
)
def test_a_link_that_leads_nowhere_is_refused(composed: Composed, link: str, said: str) -> None:
    """On paper it names no sheet, on screens it opens nothing; the line is told."""
    with pytest.raises(ProblemsError) as caught:
        composed({"ours.md": own("W40", f"One.\n\nSee [there]({link}).")})
    (problem,) = caught.value.problems
    assert str(problem).startswith(f"protocols/ours.md:9:1  {said}")


def test_links_to_what_is_there_pass(composed: Composed) -> None:
    """A sheet by its name, a part of one, the list of sheets, the sheet itself."""
    links = ("contacts", "contacts#x", "list-of-sheets", "ours", "no-water-now")
    text = " ".join(f"[a](sheet:{link})" for link in links)
    assert 'href="sheet:ours"' in page(composed({"ours.md": own("W40", text)}), "ours").body


@pytest.mark.parametrize("slug", ["card-lot", "wall-chart-pigs", "chart-pigs", "pen-lot"])
def test_the_names_of_cards_and_charts_are_taken(composed: Composed, slug: str) -> None:
    """Under one name two would be printed with one's drawing."""
    with pytest.raises(ProblemsError, match=f"{slug} is a sheet that the program makes"):
        composed({f"{slug}.md": own("W40", "Ours.")})
