"""Protocols run in a strict, closed room: unknown names stop the build with file and line.

What a sandbox must not let through is Jinja's own list (jinja.palletsprojects.com, Sandbox).
"""

from __future__ import annotations

import pytest

from binder.pages.text import template
from binder.pages.text.rich import Link, rich
from binder.pages.views import PlainView
from binder.problems import ProblemsError


def filled(text: str, **names: object) -> str:
    """Return the Markdown of a protocol's text."""
    return template.protocol(text, "x.md", 1, names)


def said(text: str, first_line: int = 10, **names: object) -> str:
    """Return the only problem of a protocol's text."""
    with pytest.raises(ProblemsError) as caught:
        template.protocol(text, "w40-x.md", first_line, names)
    (problem,) = caught.value.problems
    return str(problem)


def test_unknown_name_is_told_with_file_and_line() -> None:
    """A missing word on a farm page is a missing instruction, so nothing prints as blank."""
    assert said("One.\n\n{{ pens }}\n") == "w40-x.md:12:1  'pens' is undefined"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("{{ x.sise }}", 10),
        ("a\nb {% if nosuch %}c{% endif %}", 11),
        ("a\n\n{% for one in nosuch %}\n- {{ one }}\n{% endfor %}", 12),
        ("{% for one in things %}\n- {{ one.nosuch }}\n{% endfor %}", 11),
        ("a\n{{ nosuch('vet') }}", 11),
        ("{{ x.name | nosuch }}", 10),
    ],
)
def test_line_is_the_line_of_the_file(text: str, line: int) -> None:
    """Front matter above is counted in; loops and conditions are told where they stand."""
    things = (PlainView({"name": "Well"}),)
    assert said(text, x=PlainView({"name": "Well"}), things=things).startswith(
        f"w40-x.md:{line}:1  "
    )


@pytest.mark.parametrize(
    "text", ["{% if x %}", "{{ x", "{% nosuch %}", "{{ 1 + }}", "{% for %}"]
)
def test_text_that_does_not_parse_is_told(text: str) -> None:
    """Also a mistake in Jinja's own signs has a file and a line."""
    assert said(f"\n{text}\n").startswith("w40-x.md:1")


@pytest.mark.parametrize(
    "text",
    [
        "{{ ''.__class__.__mro__ }}",
        "{{ call.__globals__ }}",
        "{{ x.__init__.__globals__['os'] }}",
        "{{ rows.append(1) }}",
        "{% for i in range(10000000) %}{% endfor %}",
        "{{ 1 / 0 }}",
        "{{ 'x' * 10 ** 14 }}",
        "{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}",
        "{% include 'parts/pen.html' %}",
        "{% import 'x' as y %}",
    ],
)
def test_a_protocol_cannot_leave_its_room(text: str) -> None:
    """It reads the names it is given and nothing behind them."""
    assert said(text, call=said, x=PlainView({"name": "Well"}), rows=[1])


def test_a_name_that_refuses_says_why() -> None:
    """What a given function objects to reaches the person who wrote the protocol."""

    def sheet(slug: str) -> str:
        message = f'sheet("{slug}") is not shown'
        raise ValueError(message)

    assert said("{{ sheet('x') }}", sheet=sheet) == 'w40-x.md:10:1  sheet("x") is not shown'


def test_farm_text_is_inert_and_links_are_links() -> None:
    """Strings and numbers lose every sign; our own rich text keeps its links."""
    link = rich("Dr. Ann ", Link("555-0101", "tel:5550101"))
    assert filled("{{ a }} {{ b }} {{ c }}", a="*x*", b=7, c=link) == (
        "&#42;x&#42; 7 Dr&#46; Ann&#32;[555&#45;0101](<tel:5550101>)"
    )


def test_safe_does_not_make_farm_text_markup() -> None:
    """Even a protocol that says `safe` prints words: markup is switched off after Jinja."""
    assert (
        filled("{{ a | safe }}", a="<b>x</b>") == "<b>x</b>"
    )  # see test_protocol: html as text


def test_a_detail_keeps_its_indent_after_a_tag() -> None:
    """The four spaces before `{% for %}` make the line the detail of a step."""
    text = "1. Look.\n\n    {% for x in xs %}{{ x }} {% endfor %}\n\n2. Go.\n"
    assert filled(text, xs=("a", "b")) == "1. Look.\n\n    a b \n2. Go.\n"


def test_page_templates_name_their_file() -> None:
    """A page template that lacks a name says which file and line."""
    with pytest.raises(ProblemsError) as caught:
        template.page("parts/pen.html", {})
    assert caught.value.problems[0].place.file == "templates/parts/pen.html"
    assert caught.value.problems[0].place.line >= 1


def test_page_templates_escape_farm_text() -> None:
    """HTML in farm text is shown, not run."""
    names = {"w": str, "answer": ("<script>alert(1)</script>",), "blocks": ()}
    body = template.page("parts/sheet.html", names)
    assert "<script>" not in body
    assert "&lt;script&gt;" in body
