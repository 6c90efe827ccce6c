"""The style of printed sheets: names that are given once stand as values, the rest as names."""

from __future__ import annotations

import re

import pytest

from binder.output.paper.paper_style import PAPERS, resolved, stylesheet

_GIVEN = re.compile(r"(--[\w-]+):")


@pytest.mark.parametrize("paper", PAPERS)
def test_every_name_that_is_left_is_given_by_more_than_the_root(paper: str) -> None:
    """Names stand only where a rule may give them again."""
    css = stylesheet(paper)
    left = set(re.findall(r"var\((--[\w-]+)\)", css))
    given = _GIVEN.findall(css)
    assert left
    assert {name: given.count(name) for name in left if given.count(name) < 2} == {}


def test_a_name_that_only_a_rule_gives_stays_within_the_rule() -> None:
    """Elsewhere the name would mean nothing."""
    css = ":root { --a: 1px; } .x { --b: 2px; top: var(--b); left: var(--a); }"
    assert resolved(css) == ":root { --a: 1px; } .x { --b: 2px; top: var(--b); left: 1px; }"


def test_names_that_lead_round_about_come_to_an_end() -> None:
    """A slip in the style must not hang a build."""
    css = ":root { --a: var(--b); --b: var(--a); } p { top: var(--a); }"
    assert resolved(css).startswith(":root")


def test_a_semicolon_inside_a_text_ends_no_value() -> None:
    """The patterns are texts of that kind."""
    css = ':root { --a: url("data:a;b"); } p { background: var(--a); }'
    assert resolved(css).endswith('p { background: url("data:a;b"); }')
