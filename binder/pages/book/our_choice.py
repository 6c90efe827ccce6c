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

SITTER, LIST = "sitter", "open-points"
MARK = re.compile(r"\s*\(our choice\)")
_SENTENCE = re.compile(r"[^.:;?!\n|]*\(our choice\)[^.;?!\n|]*")


def apart(context: Context, pages: Iterable[Page]) -> list[Page]:
    """Return the pages with the mark taken off a sitter's sheets and listed on N3."""
    made, said = [], []
    for page in pages:
        if SITTER not in page.editions or not MARK.search(page.body):
            made.append(page)
            continue
        said += [(page.sheet, line) for line in _marked(page.body)]
        made.append(replace(page, body=MARK.sub("", page.body)))
    return [_listed(context, page, said) if page.slug == LIST else page for page in made]


def _marked(body: str) -> list[str]:
    text = plain_text(body.replace("</", "\n</"))
    return [" ".join(MARK.sub("", found).split()) for found in _SENTENCE.findall(text)]


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
