"""The helper's own heat: work and rest, drinking, the first days."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.people.work_rest import NORMAL
from binder.figures.published import rests_on
from binder.figures.rules import rule
from binder.pages.sheet import Block, Caution, Heading, Paragraph, Sheet, Table
from binder.pages.text.rich import rich

if TYPE_CHECKING:
    from binder.pages.context import Context
    from binder.pages.text.rich import Text

_COLUMNS = (
    ("light", "none"),
    ("moderate", "none"),
    ("heavy", "none"),
    ("moderate", "full"),
    ("heavy", "full"),
)
LIGHT = ("light", "none")


def work_and_rest(context: Context) -> Sheet:
    """Return minutes of work and rest by air temperature, and the schedule for a new helper."""
    w = context.w
    people = context.figures.people
    who = "backup" if context.contacts("backup") else "owner"
    rows = _rows(context)
    keys = ("air", "shade_light", "shade_moderate", "shade_heavy", "sun_moderate", "sun_heavy")
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
        Table(heads, rows, kind="facts tight", amounts=(1, 2, 3, 4, 5)),
        Paragraph(w("helper.unit"), small=True),
        Paragraph(f"{w('helper.kinds')} {_light(context)}".strip(), small=True),
        Paragraph(w("helper.rule")),
        Paragraph(context.say("helper.ill", helper=context.call(who))),
        Heading(w("helper.new")),
        Paragraph(
            w(
                "helper.new_how",
                day=context.span(rule("stay_rules", "full day of work", "time").value),
            )
        ),
        Table(new_heads, days, kind="facts tight keep", amounts=(1, 2)),
        Caution("warning", sick),
    ]
    answer = context.say(
        "helper.answer",
        drink=rich(context.number_both(people.drink)),
        first=rich(context.number(people.new[0])),
    )
    return Sheet(
        title=w("helper.title"),
        answer=(answer,),
        blocks=tuple(blocks),
        summary=w("helper.summary"),
        sources=rests_on("work-and-rest"),
        words=w("found_by.work"),
    )


def _light(context: Context) -> str:
    """Return up to which air light work in shade needs no extra rest, empty for never."""
    limit = light_up_to(context)
    return context.w("helper.light", limit=limit) if limit else ""


def light_up_to(context: Context) -> str:
    """Return the hottest air in which light work in shade needs no extra rest, or nothing."""
    table = context.figures.people.by_temperature
    free = [temp_c for temp_c, _, minutes in table if minutes[LIGHT].lower() == NORMAL]
    return context.degrees(max(free)) if free else ""


def _rows(context: Context) -> tuple[tuple[Text, ...], ...]:
    """Return the minutes by temperature, hottest first; equal rows in a run become one."""
    runs: list[tuple[float, float, tuple[str, ...]]] = []
    for temp_c, _, minutes in context.figures.people.by_temperature:
        cells = tuple(
            context.words.get(f"helper.word.{minutes[column].lower()}", minutes[column])
            for column in _COLUMNS
        )
        if runs and runs[-1][2] == cells:
            runs[-1] = (runs[-1][0], temp_c, cells)
        else:
            runs.append((temp_c, temp_c, cells))
    return tuple((_span(context, hottest, coolest), *cells) for hottest, coolest, cells in runs)


def _span(context: Context, hottest_c: float, coolest_c: float) -> str:
    if hottest_c == coolest_c:
        return context.degrees(hottest_c)
    low, high = context.degrees(coolest_c), context.degrees(hottest_c)
    return context.w("helper.range", low=low, high=high)
