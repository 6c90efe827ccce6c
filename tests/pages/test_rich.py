"""Text with links: the same words in HTML and in Markdown."""

from __future__ import annotations

import html

import pytest

from binder.pages.text.protocol import to_html
from binder.pages.text.rich import Link, inert, joined, link_class, rich

LINE = rich(
    "Call ", Link("A & B", "tel:1"), ", or ", Link("E7", "sheet:no-water-now"), " <now>"
)


def test_html_has_classes_and_escapes() -> None:
    """A link says where it leads; words and addresses are escaped."""
    assert str(LINE.__html__()) == (
        'Call <a class="phone" href="tel:1">A &amp; B</a>, or '
        '<a class="sheet" href="sheet:no-water-now">E7</a> &lt;now&gt;'
    )
    assert str(rich(Link("x", 'https://e/"><b>')).__html__()) == (
        '<a class="out" href="https://e/&#34;&gt;&lt;b&gt;">x</a>'
    )


def test_markdown_becomes_the_same_html() -> None:
    """Whichever way a line goes, the reader gets the same."""
    body = to_html(f"- {LINE.__markdown__()}", kind="protocol", signals={})
    inside = body.partition("<li>")[2].partition("</li>")[0]
    assert html.unescape(inside) == html.unescape(str(LINE.__html__()))


def test_words_alone() -> None:
    """Plain text for search and file names."""
    assert str(LINE) == "Call A & B, or E7 <now>"


def test_parts_join() -> None:
    """Lines add up, and lists get a word between."""
    assert str(rich("a") + " b" + rich("c")) == "a bc"
    assert str(joined(["a", Link("b", "tel:1"), rich("c")])) == "a, b, c"
    assert str(joined([], " or ")) == ""


@pytest.mark.parametrize(
    ("href", "kind"),
    [
        ("sheet:a", "sheet"),
        ("working:a", "number"),
        ("tel:1", "phone"),
        ("https://example.org", "out"),
        ("mailto:a@example.org", "out"),
        ("", "out"),
    ],
)
def test_links_have_a_class(href: str, kind: str) -> None:
    """By the part before the colon."""
    assert link_class(href) == kind


@pytest.mark.parametrize("sign", "\\`*_{}[]()<>#+-.!|~=:^$@/&\"'")
def test_every_sign_of_markdown_is_an_entity(sign: str) -> None:
    """CommonMark 0.31, section 2.4, lists the signs that a backslash can escape."""
    assert inert(sign) == f"&#{ord(sign)};"


def test_inert_text_is_one_line() -> None:
    """Line breaks could start a list or a heading."""
    assert inert(" two\nlines\t here ") == "two lines here"
    assert inert(7) == "7"
