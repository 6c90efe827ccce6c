"""What hangs at each gate, laminated: the card of its pen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.claims import stated
from binder.pages.sheet import Filled
from binder.pages.text import template

if TYPE_CHECKING:
    from binder.pages.context import Context
    from binder.pages.views import PenView


def gate_card(context: Context, pen: PenView) -> Filled:
    """Return the card for the gate of a pen, under the number of the pen's sheet."""
    body = template.page(
        "parts/card.html",
        {
            "w": context.w,
            "pen": pen,
            "number": context.sheets[pen.slug],
            "owner": context.call("owner"),
            "vet": context.call("vet"),
        },
    )
    claims = stated.back_in(pen.id, pen.intervals)
    return Filled(title=pen.name, body=body, summary=pen.who, kind="card", claims=claims)
