"""The helper's own heat: work and rest, drinking, the first days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.rich import rich
from binder.pages.sheet import Block, Caution, Heading, Paragraph, Sheet, Table

if TYPE_CHECKING:
    from binder.pages.context import Context

_COLUMNS = (("moderate", "none"), ("heavy", "none"), ("moderate", "full"), ("heavy", "full"))


def work_and_rest(context: Context) -> Sheet:
    """Return minutes of work and rest by air temperature, and the schedule for a new helper."""
    w = context.w
    people = context.figures.people
    rows = tuple(
        (
            context.degrees(temp_c),
            *(
                context.words.get(f"helper.word.{minutes[column].lower()}", minutes[column])
                for column in _COLUMNS
            ),
        )
        for temp_c, _, minutes in people.by_temperature
    )
    keys = ("air", "shade_moderate", "shade_heavy", "sun_moderate", "sun_heavy")
    heads = tuple(w(f"helper.head.{key}") for key in keys)
    days = tuple(
        (
            w("helper.day", n=day),
            context.number(new),
            context.number(back),
        )
        for day, (new, back) in enumerate(zip(people.new, people.returning, strict=False), 1)
    )
    new_heads = tuple(w(f"helper.new_head.{key}") for key in ("day", "new", "back"))
    sick = context.say("helper.sick", sheet=context.sheet("person-overheated"))
    blocks: list[Block] = [
        Table(heads, rows, amounts=(1, 2, 3, 4)),
        Paragraph(w("helper.unit"), small=True),
        Paragraph(w("helper.kinds"), small=True),
        Paragraph(w("helper.rule")),
        Heading(w("helper.new")),
        Table(new_heads, days, amounts=(1, 2)),
        Caution("warning", sick),
    ]
    answer = context.say(
        "helper.answer",
        drink=rich(context.number_both(people.drink)),
        first=rich(context.number(people.new[0])),
    )
    return Sheet(
        slug="work-and-rest",
        number="C7",
        title=w("helper.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("helper.summary"),
        sources=("heat-5", "heat-6", "heat-7", "heat-75", "heat-4", "our-choice"),
        words="helper sitter work rest drink sun minutes",
    )
