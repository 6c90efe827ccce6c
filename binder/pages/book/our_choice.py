"""What is our choice and not published: kept off a sitter's paper, listed in Numbers.

A sitter at a gate acts on a time or a limit and does not weigh where it comes from. So the mark
is taken off every sheet that a sitter gets, and sheet N3 lists each sentence that had it.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages.text.protocol import plain_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.pages.context import Context
    from binder.pages.page import Page
    from binder.pages.text.words import Words

SITTER, LIST = "sitter", "open-points"


def unmarked(said: Words, body: str) -> str:
    """Return a text without the mark, which is written as the language has it."""
    mark = said.text("numbers.our_choice_mark")
    return re.sub(rf"\s*{re.escape(mark)}", "", body) if mark in body else body


def apart(context: Context, pages: Iterable[Page]) -> list[Page]:
    """Return the pages with the mark taken off a sitter's sheets and listed on N3."""
    made, said = [], []
    for page in pages:
        body = unmarked(context.words, page.body)
        if SITTER not in page.editions or body == page.body:
            made.append(page)
            continue
        said += [(page.sheet, line) for line in _marked(context.words, page.body)]
        made.append(replace(page, body=body))
    return [_listed(context, page, said) if page.slug == LIST else page for page in made]


def _marked(said: Words, body: str) -> list[str]:
    text = plain_text(body.replace("</", "\n</"))
    sentences = re.findall(rf"[^.:;?!\n|]*{_mark(said)}[^.;?!\n|]*", text)
    return [" ".join(unmarked(said, found).split()) for found in sentences]


def _mark(said: Words) -> str:
    return re.escape(said.text("numbers.our_choice_mark"))


def _listed(context: Context, page: Page, said: Iterable[tuple[str, str]]) -> Page:
    rows = Markup("").join(
        Markup("<li>{}: {}</li>\n").format(sheet, line)
        for sheet, line in dict.fromkeys(said)
        if line
    )
    if not rows:
        return page
    more = Markup("<h2>{}</h2>\n<ul>\n{}</ul>\n").format(context.w("numbers.our_choice"), rows)
    return replace(page, body=page.body + str(more))
