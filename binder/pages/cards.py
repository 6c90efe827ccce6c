"""What hangs outside the ring binder, laminated: a card for each gate, charts for the wall."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from binder.pages.page import PRINT_ONLY, Page
from binder.pages.text import template

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.pages.context import Context
    from binder.pages.views import PenView


def gate_cards(context: Context, pens: Iterable[PenView]) -> tuple[Page, ...]:
    """Return a card for the gate of every pen with animals in it."""
    return tuple(_gate_card(context, pen) for pen in pens if pen.groups)


def _gate_card(context: Context, pen: PenView) -> Page:
    number = context.sheets[pen.slug]
    body = template.page(
        "parts/card.html",
        {
            "w": context.w,
            "pen": pen,
            "number": number,
            "owner": context.call("owner"),
            "vet": context.call("vet"),
        },
    )
    return Page(
        slug=f"card-{pen.id}",
        sheet=number,
        tab="P",
        title=pen.name,
        body=body,
        where=PRINT_ONLY,
        summary=pen.who,
        kind="card",
    )


def wall_charts(pages: Iterable[Page]) -> tuple[Page, ...]:
    """Return each air chart once more, for the wall by the thermometer."""
    return tuple(
        replace(page, slug=f"wall-{page.slug}", where=PRINT_ONLY, kind="wall")
        for page in pages
        if page.kind == "chart"
    )
