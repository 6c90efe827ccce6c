"""Reading protocols, and turning their Markdown into the vocabulary of a sheet.

CommonMark (spec.commonmark.org, 0.31) says which signs Markdown takes for its own; OWASP's
cheat sheet on cross-site scripting lists what hostile text tries. Farm text tries both here.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.pages.text.protocol import plain_text, to_html
from binder.pages.text.protocol_file import Protocol, load_texts
from binder.pages.text.rich import inert
from binder.problems import ProblemsError

SIGNALS = {name: name.upper() for name in ("danger", "warning", "caution", "notice")}

HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "<!-- gone --> <b>bold</b>",
    "&lt;b&gt; &#60;b&#62; &amp;",
    "**loud** __loud__ *low* _low_ `code` ~~gone~~",
    "# heading",
    "1. step",
    "- item",
    "> quote",
    "    code",
    "!!! danger",
    "| a | b |",
    "[tap](javascript:alert(1))",
    "[tap]: javascript:alert(1)",
    "![eye](http://example.com/eye.png)",
    "<https://example.com> <a@example.com>",
    "--- *** ___",
    "line\\\nnext  \n\nparagraph",
    "{{ 7 * 7 }} {% set x = 1 %} {# gone #}",
    "שלום 12 مرحبا",
)
FRONT = """\
---
title: A title
sheet: W40
reviewed: 2026-11-25
summary: One sentence.
---
"""


class _Outline(HTMLParser):
    """Lists the tags of a page and its words, by the standard library's own parser."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(f"{tag} {sorted(attrs)}")

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def html(text: str, kind: str = "protocol") -> str:
    """Return Markdown as a sheet's body."""
    return to_html(text, kind=kind, signals=SIGNALS)


def outline(body: str) -> tuple[list[str], str]:
    """Return the tags and the words of a body."""
    parser = _Outline()
    parser.feed(body)
    parser.close()
    return parser.tags, " ".join(" ".join(parser.words).split())


def one(text: str, name: str = "w40-a-title.md") -> Protocol:
    """Return the protocol of a text."""
    (found,) = load_texts({name: text})
    return found


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize(
    "page",
    [
        "Answer {}.\n\n## Do\n\n1. Step {}.\n2. Next.\n\n    More {}.\n",
        "| Head | Of |\n|---|---|\n| {} | {} |\n",
        "!!! warning\n    Beware of {}.\n\n- {}\n- {}\n",
        "[{}](<sheet:no-water-now>)\n",
    ],
)
def test_farm_text_changes_no_structure(page: str, text: str) -> None:
    """Whatever the owner writes, the page has the tags it has with a plain word."""
    shown = outline(html(page.replace("{}", inert(text))))
    plain = outline(html(page.replace("{}", "word")))
    assert shown[0] == plain[0]
    assert shown[1] == plain[1].replace("word", " ".join(text.split()))


@given(st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp", "Cn")), max_size=60))
def test_any_text_prints_as_it_was_written(text: str) -> None:
    """Only the spaces between words change."""
    assert outline(html(f"- Say {inert(text)} end"))[1] == " ".join(f"Say {text} end".split())


@pytest.mark.parametrize(
    "written",
    [
        "Look <script>alert(1)</script> here.",
        "Look <b onclick='x()'>here</b>.",
        "<div><h1>Head</h1></div>",
        "<!-- gone -->",
        "<iframe src='https://example.com'></iframe>",
    ],
)
def test_html_in_a_protocol_is_shown_as_text(written: str) -> None:
    """A protocol is Markdown; markup in it neither runs nor vanishes."""
    tags, words = outline(html(written))
    assert tags == ["div [('class', 'answer')]", "p []"]
    assert words == written


@pytest.mark.parametrize(
    "href",
    ["javascript:alert(1)", "data:text/html,x", "//example.com", "file:///etc", "other.html"],
)
def test_links_lead_to_known_places_only(href: str) -> None:
    """A link that leads anywhere odd becomes plain words."""
    assert html(f"Tap [here](<{href}>).") == (
        '<div class="answer"><p>Tap <span>here</span>.</p>\n</div>'
    )


def test_links_are_classed_by_where_they_lead() -> None:
    """Sheets, phones, workings and the rest of the world look different."""
    body = html("[E1](<sheet:a>) [1](<tel:1>) [2](<working:b>) [3](<https://example.org>)")
    assert re.findall(r'<a class="(\w+)"', body) == ["sheet", "phone", "number", "out"]


def test_pictures_are_the_farms_own() -> None:
    """A picture of the farm with words for it stays; any other turns into its words."""
    assert 'src="picture:gate.jpg"' in html("![The gate](picture:gate.jpg)")
    assert "<img" not in html("![Eye](https://example.com/eye.png)")
    assert "Eye" in html("![Eye](https://example.com/eye.png)")
    assert "<img" not in html("![](picture:gate.jpg)")


def test_first_paragraph_is_the_answer() -> None:
    """The heavy box holds the first paragraph, and only that."""
    body = html("Do this.\n\nMore.\n")
    assert body == '<div class="answer"><p>Do this.</p>\n</div><p>More.</p>'


def test_steps_have_an_action_and_more() -> None:
    """The first line is the action; what is indented below is smaller detail."""
    body = html("1. Look *up*.\n\n    Slowly.\n\n2. Go.\n3. Come.\n\n    Back.\n4. Rest.\n")
    assert body.count("<ol") == 1
    assert re.findall(r'<p class="more">(.*?)</p>', body) == ["Slowly.", "Back."]
    assert re.findall(r"<p>(.*?)</p>", body) == ["Look <em>up</em>.", "Go.", "Come.", "Rest."]


def test_emergency_has_three_sections() -> None:
    """See, Do and Call are sections; a caution stands between them."""
    body = html(
        "## See\n\nA.\n\n## Do\n\n1. B.\n\n!!! danger\n    C.\n\n## Call\n\n- D\n", "emergency"
    )
    assert re.findall(r'<(section|div) class="([\w ]+)"', body) == [
        ("section", "see"),
        ("section", "do"),
        ("div", "caution danger"),
        ("section", "call"),
    ]
    assert "answer" not in body


@pytest.mark.parametrize("signal", SIGNALS)
def test_cautions_carry_their_signal_word(signal: str) -> None:
    """ANSI Z535.4 knows danger, warning, caution; notice stands apart, for property."""
    body = html(f"A.\n\n!!! {signal}\n    Take care.\n")
    assert f'<div class="caution {signal}">' in body
    assert f"<strong>{signal.upper()}</strong>" in body


def test_unknown_signal_is_a_notice() -> None:
    """A word that is none of the four never looks like danger."""
    assert '<div class="caution notice">\n<strong>NOTICE</strong>' in html("!!! hint\n    A.\n")


def test_tables_have_head_cells_both_ways() -> None:
    """A screen reader can say the column and the row of a cell (HTML 4.9.10, th)."""
    body = html("| Pen | Water |\n|---|---|\n| Creek | 15 gal |\n")
    assert re.findall(r'<th scope="(\w+)">(.*?)</th>', body) == [
        ("col", "Pen"),
        ("col", "Water"),
        ("row", "Creek"),
    ]
    assert '<table class="facts">' in body


def test_a_table_without_lines_goes_with_its_heading() -> None:
    """Where every line of it fell to a condition; what stands beside it stays."""
    empty = "## Who\n\n| Who | Water |\n|---|---|\n| | |\n"
    assert html(f"First.\n\n{empty}") == html("First.\n")
    assert html(f"First.\n\n{empty}\n## More\n\nLast.\n") == html(
        "First.\n\n## More\n\nLast.\n"
    )
    beside = html(f"First.\n\n{empty}\nLast.\n")
    assert "<table" not in beside
    assert "Who" in beside
    assert "Last." in beside
    kept = html("First.\n\n| Who | Water |\n|---|---|\n| | |\n| Hens | 5 |\n")
    assert kept.count("<tr>") == 2


def test_plain_text_drops_markup_and_drawings() -> None:
    """Search and measuring see words alone."""
    body = "<p>A &amp; B<svg><text>no</text></svg></p><p>C &lt; D &#60; E&nbsp;F</p>"
    assert plain_text(body) == "A & B C < D < E F"


def test_front_matter_is_read() -> None:
    """Every field arrives; a single word may stand for a list."""
    found = one(
        "---\ntitle: T\nsheet: W40\nkind: protocol\nfor: [pig, dog]\nneeds: wallow\nwhen: hot\n"
        "reviewed: 2026-11-25\nsources: [heat-1]\nsummary: S.\nwords: x y\n---\nText.\n"
    )
    assert (found.slug, found.sheet, found.tags, found.needs) == (
        "a-title",
        "W40",
        ("pig", "dog"),
        ("wallow",),
    )
    assert (found.when, found.words, found.sources, found.first_line) == (
        "hot",
        "x y",
        ("heat-1",),
        13,
    )
    assert found.text == "Text.\n"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("No head.\n", "w40-a-title.md:1:1  must start with a line of ---"),
        ("---\ntitle: T\n", "w40-a-title.md:1:1  must start with a line of ---"),
        (
            FRONT.replace("summary", "sumary"),
            "5:1  sumary: is not a field; did you mean summary?",
        ),
        (FRONT.replace("title: A title\n", ""), "w40-a-title.md:1:1  title: is missing"),
        (FRONT.replace("W40", "40"), 'w40-a-title.md:3:8  sheet: "40" is not a sheet'),
        (FRONT.replace("W40", "w4"), 'sheet: "w4" is not a sheet; write it like W4'),
        (FRONT.replace("2026-11-25", "25 Nov"), '4:11  reviewed: "25 Nov" is not a date'),
        (
            FRONT.replace("sheet: W40", "sheet: W40\nkind: emergncy"),
            'kind: "emergncy" is not known',
        ),
    ],
)
def test_mistakes_in_front_matter_are_told(text: str, said: str) -> None:
    """With file and line, and what would do."""
    with pytest.raises(ProblemsError) as caught:
        one(text)
    assert any(said in str(problem) for problem in caught.value.problems), [
        str(problem) for problem in caught.value.problems
    ]


def test_all_mistakes_are_told_at_once() -> None:
    """Two files, two mistakes, one message."""
    with pytest.raises(ProblemsError) as caught:
        load_texts({"a.md": "x\n", "b.md": "y\n"})
    assert {problem.place.file for problem in caught.value.problems} == {"a.md", "b.md"}


def test_file_name_is_the_slug() -> None:
    """A sorting prefix is no part of it; other names are refused."""
    assert one(FRONT, "e01-a-title.md").slug == "a-title"
    assert one(FRONT, "a-title.md").slug == "a-title"
    for name in ("A title.md", "a_title.md", "a-title-.md"):
        with pytest.raises(ProblemsError, match="is not named like"):
            one(FRONT, name)


def test_two_files_for_one_sheet_are_refused() -> None:
    """The number on paper never means two sheets."""
    with pytest.raises(ProblemsError, match=r"is the sheet of a\.md already"):
        load_texts({"a.md": FRONT, "b.md": FRONT})


@pytest.mark.parametrize(
    ("tags", "shown"),
    [
        (set(), False),
        ({"pig"}, False),
        ({"wallow"}, False),
        ({"pig", "wallow"}, True),
        ({"dog", "wallow", "hose"}, True),
    ],
)
def test_shown_where_the_farm_has_it(tags: set[str], shown: bool) -> None:  # noqa: FBT001
    """Any of `for`, and all of `needs`."""
    text = FRONT.replace("reviewed", "for: [pig, dog]\nneeds: [wallow]\nreviewed")
    assert one(text).shown(frozenset(tags)) is shown
    assert one(FRONT).shown(frozenset())
