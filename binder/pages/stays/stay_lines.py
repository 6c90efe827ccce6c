"""What a sitter is told beside visits: short looks, whom to phone, what is not their work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.bands.band_rule import Band
from binder.figures.rounds.looks import SITTER
from binder.figures.stays.plan_watch import LOOKS
from binder.pages import slugs
from binder.pages.claims import stated
from binder.pages.sheet import Block, Heading, Paragraph, Points, Table

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from binder.figures.rounds.looks import Look
    from binder.figures.stays.plan import Plan, Watch
    from binder.figures.stays.plan_parts import Call
    from binder.pages.context import Context
    from binder.pages.text.rich import Text


def looks(context: Context, plan: Plan) -> list[Block]:
    """Return the short looks of each sort of day, and whom to phone where nobody is here."""
    w = context.w
    watches = {key: one for key, one in plan.watches.items() if one.looks or one.attended}
    if not watches:
        return []
    heads = tuple(w(f"stay.look_head.{key}") for key in ("load", "you", "others", "stay"))
    rows = tuple(_looks_row(context, keys, watches[keys[0]]) for keys in alike(watches))
    how = context.say("stay.looks_how", sheet=context.sheet(slugs.looks(plan)))
    blocks: list[Block] = [
        Heading(w("stay.looks")),
        Paragraph(how, small=True),
        Table(heads, rows, kind="wide plain", claims=stated.looks(context, plan)),
    ]
    return [*blocks, *calls(context, plan)]


def calls(context: Context, plan: Plan) -> list[Block]:
    """Return who looks when between two visits, and how to tell the sort of day."""
    w = context.w
    if not plan.calls:
        return []
    highs = "; ".join(load_head(context, plan, key) for key in plan.loads)
    said = tuple(call(context, one) for one in plan.calls)
    found = tuple(stated.calls(context, plan))
    which = w("stay.which_day", highs=highs, higher=w("stay.which_higher"))
    return [Points((*said, *night(context, plan), which), claims=found)]


def load_head(context: Context, plan: Plan, key: str) -> str:
    """Return a sort of day with the highs that make it one: `Hot day, above 92 up to 95`.

    What lies between two of them is of the hotter sort; the hottest has no end.
    """
    keys = list(plan.loads)
    degrees = {one: context.degrees(load.weather.high_c) for one, load in plan.loads.items()}
    at = keys.index(key)
    which = "first" if at == 0 else "last" if at == len(keys) - 1 else "next"
    return context.w(
        f"stay.sort.{which if len(keys) > 1 else 'only'}",
        load=context.w(f"stay.load_heads.{key}"), high=degrees[key],
        below=degrees[keys[at - 1]],
    )  # fmt: skip


def night(context: Context, plan: Plan) -> tuple[str, ...]:
    """Return at which numbers the plan's looks are enough at night, and what 3 and 4 ask then.

    Nothing where the farm has no place on the map, or where there are no visits.
    """
    if not has_night(plan):
        return ()
    severe = [
        plan.rounds.pens[pen].intervals[Band.SEVERE.key].amount.value for pen in plan.pens
    ]
    still = context.w(
        "stay.night_still", who=reached(context, who_stays(context)),
        every=context.span(min(severe)),
    )  # fmt: skip
    return context.w("stay.night"), still


def has_night(plan: Plan) -> bool:
    """Return whether a plan knows what its nights ask."""
    return bool(plan.visits and plan.pens) and any(
        load.day is not None for load in plan.loads.values()
    )


def alike(watches: Mapping[str, Watch]) -> tuple[tuple[str, ...], ...]:
    """Return the keys of the sorts of day, those that ask for the same looks together."""
    found: list[list[str]] = []
    for key, watch in watches.items():
        same = next((keys for keys in found if _same(watches[keys[0]], watch)), None)
        if same is None:
            found.append([key])
        else:
            same.append(key)
    return tuple(map(tuple, found))


def _same(one: Watch, other: Watch) -> bool:
    return (one.looks, one.attended) == (other.looks, other.attended)


def days_named(context: Context, keys: Sequence[str]) -> str:
    """Return `Typical day and Hot day`."""
    return str(context.listed(context.w(f"stay.load_heads.{key}") for key in keys))


def _looks_row(context: Context, keys: Sequence[str], watch: Watch) -> tuple[Text, ...]:
    others = dict.fromkeys(look.by for look in watch.looks if look.by != SITTER)
    named = (
        context.w(
            "stay.look_by", who=who or context.w("stay.nobody"),
            times=times(context, [look for look in watch.looks if look.by == who]),
        )
        for who in others
    )  # fmt: skip
    mine = [look for look in watch.looks if look.by == SITTER]
    spans = (
        context.w(
            "stay.stays_span", first=context.clock(first), last=context.clock(last),
            who=who_stays(context),
        )
        for first, last in watch.attended
    )  # fmt: skip
    nothing = context.w("stay.nothing")
    return (
        days_named(context, keys),
        times(context, mine) or nothing,
        "; ".join(named) or nothing,
        ", ".join(spans) or nothing,
    )


def times(context: Context, found: Iterable[Look]) -> str:
    """Return the times of looks, `3 pm and 5 pm`."""
    return str(context.listed(context.clock(look.hour) for look in found))


def call(context: Context, one: Call) -> str:
    """Return the plain line of a gap: what the sitter looks at, and who looks at the rest."""
    w = context.w
    mine = str(context.listed(context.clock(hour) for hour in one.own))
    loads = days_named(context, one.loads)
    return w(
        "stay.call" if one.who else "stay.call_nobody",
        loads=loads, start=context.clock(one.start_h), end=context.clock(one.end_h),
        mine=w("stay.call_mine", times=mine) if mine else w("stay.call_not_you"),
        who=reached(context, one.who or owner(context)),
        times=str(context.listed(context.clock(hour) for hour in one.looks)),
    )  # fmt: skip


def reached(context: Context, name: str) -> str:
    """Return a helper's name with the telephone and how soon they can be here."""
    contact = next((one for one in context.farm.contacts if one.name == name), None)
    if contact is None or contact.private:
        return name
    comes = contact.comes_in_h
    parts = (
        str(context.phones(contact)) if contact.phone else "",
        context.w("stay.comes_in", span=context.span(comes)) if comes else "",
    )
    more = ", ".join(filter(None, parts))
    return f"{name} ({more})" if more else name


def owner(context: Context) -> str:
    """Return the owner's name, or who the owner is where no contact says so."""
    found = context.contacts("owner")
    return found[0].name if found else context.w("stay.owner")


def who_stays(context: Context) -> str:
    """Return whom to phone where an animal is not left alone: who helps, else the owner."""
    contacts = context.farm.contacts
    helping = (one.name for one in contacts if LOOKS in one.helps and not one.private)
    return next(helping, owner(context))


def who_helps(context: Context, job: str) -> str:
    """Return the first contact that helps with a job, empty where nobody does."""
    contacts = context.farm.contacts
    return next((one.name for one in contacts if job in one.helps and not one.private), "")
