"""Sheets to write on: the hand-over, the logs, the handing back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages.sheet import Block, Heading, Paragraph, Raw, Sheet, Table
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.pages.context import Context

# Our choice: what fits one page, in rows high enough to write in.
_LINES = {"round": 18, "medicine": 12, "loss": 8}


def hand_over(context: Context) -> Sheet:
    """Return the sheet to fill in together on the day of the hand-over."""
    w = context.w
    many = context.words.many
    return Sheet(
        title=w("handover.title"),
        answer=(w("handover.answer"),),
        blocks=(
            Heading(w("handover.people")),
            _lines(many("handover.fields")),
            Heading(w("handover.shown")),
            _ticks(many("handover.checks")),
            Heading(w("handover.given")),
            _lines(many("handover.given_fields")),
            Heading(w("handover.signed")),
            _lines(many("handover.sign_fields")),
        ),
        summary=w("handover.summary"),
        kind="log",
    )


def _lines(fields: Sequence[str]) -> Table:
    return Table((), tuple((field, "") for field in fields), kind="log fill")


def _ticks(checks: Sequence[str]) -> Raw:
    boxes = Markup("").join(
        Markup('<p><span class="tick"></span>{}</p>').format(check) for check in checks
    )
    return Raw(Markup('<div class="columns ticks">{}</div>').format(boxes))


def round_log(context: Context) -> Sheet:
    """Return the log of the rounds: the air, and how the animals are."""
    return _log(context, "round", degree="°F" if context.words.system == "us" else "°C")


def medicine_log(context: Context) -> Sheet:
    """Return the log of medicines, with what is given as a rule."""
    medicines = tuple(
        Paragraph(rich(group.animal.called, ": ", group.animal.medicine))
        for group in context.figures.herd.groups
        if group.animal.medicine
    )
    standing: tuple[Block, ...] = (
        (Heading(context.w("log.medicine.standing")), *medicines) if medicines else ()
    )
    return _log(context, "medicine", standing)


def loss_log(context: Context) -> Sheet:
    """Return the log of animals lost."""
    return _log(context, "loss")


def _log(context: Context, key: str, first: tuple[Block, ...] = (), degree: str = "") -> Sheet:
    heads = tuple(head.format(degree=degree) for head in context.words.many(f"log.{key}.heads"))
    empty = tuple(tuple("" for _ in heads) for _ in range(_LINES[key]))
    return Sheet(
        title=context.w(f"log.{key}.title"),
        answer=(context.w(f"log.{key}.answer"),),
        blocks=(*first, Table(heads, empty, kind=f"log {key}")),
        summary=context.w(f"log.{key}.summary"),
        kind="log",
    )


def hand_back(context: Context) -> Sheet:
    """Return the sheet to fill in when the farm is handed back."""
    heads = context.words.many("log.back.heads")
    rows = tuple((pen.name, "", "", "") for pen in context.pens)
    return Sheet(
        title=context.w("log.back.title"),
        answer=(context.w("log.back.answer"),),
        blocks=(
            Table(heads, rows, kind="log back"),
            Heading(context.w("log.back.rest")),
            _lines(context.words.many("log.back.fields")),
        ),
        summary=context.w("log.back.summary"),
        kind="log",
    )
