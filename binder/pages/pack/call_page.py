"""The first page of a pack: whom to call, the way here, what turns off where."""

from __future__ import annotations

from typing import TYPE_CHECKING

from markupsafe import Markup

from binder.pages import slugs
from binder.pages.people.contacts_sheet import calls, w_roles
from binder.pages.power import equipment_facts
from binder.pages.sheet import Block, Heading, Paragraph, Sheet, Table
from binder.pages.text.listing import lower_first, with_more
from binder.pages.text.rich import joined, rich

if TYPE_CHECKING:
    from collections.abc import Sequence

    from binder.figures.stays.plan import Plan
    from binder.pages.context import Context
    from binder.pages.text.rich import Rich
    from binder.pages.views import CallView

    Text = str | Rich | Markup


def page(context: Context, plan: Plan, listed: Sequence[tuple[str, str]]) -> Sheet:
    """Return the call page.

    Args:
        context: of the pack.
        plan: of its stay.
        listed: slug and short name of the pages that follow, in order of use.
    """
    w = context.w
    about = context.farm.about
    number = context.emergency
    address = context.or_missing(about.place.address)
    people = calls(context, w_roles(context))
    heads = tuple(w(f"contacts.{key}") for key in ("name", "phone", "can"))
    facts: list[tuple[Text, ...]] = [(w("start.poison"), context.poison_line)]
    if about.place.phone_signal:
        facts.append((w("pack.call.signal"), about.place.phone_signal))
    if context.contacts("vet"):
        facts.append((w("pack.call.ill"), _ill(context, plan)))
    decides = _decides(context)
    facts.append((w("contacts.decides"), decides or w("contacts.nobody_decides")))
    way = rich(context.or_missing(about.place.directions), " ", w("pack.call.visitors"))
    facts.append((w("cover.way"), way))
    blocks: list[Block] = [
        Table(
            heads,
            tuple(_row(one, w("contacts.nights")) for one in people),
            kind="facts tight wide calls",
        ),
    ]
    shut_offs = equipment_facts.shut_offs(context)
    if shut_offs:
        said = "; ".join(f"{one.what}: {lower_first(str(one.where))}" for one in shut_offs)
        facts.append((w("start.shut_offs"), said))
    blocks.append(Table((), tuple(facts), kind="facts tight wide"))
    blocks += [Heading(w("pack.call.inside")), Paragraph(_inside(context, listed), small=True)]
    if about.owner_says:
        blocks.append(Paragraph(w("pack.call.owner_says", text=about.owner_says), small=True))
    if plan.stay.notes:
        blocks.append(Paragraph(w("stay.notes", text=plan.stay.notes), small=True))
    dates = context.window(plan.stay.first, plan.stay.last)
    return Sheet(
        title=w("pack.call.title"),
        answer=(w("contacts.answer", number=number, address=address),),
        blocks=tuple(blocks),
        summary=w("pack.call.summary", sitter=plan.stay.sitter, dates=dates),
        kind="pack call",
    )


def _row(one: CallView, nights: str) -> tuple[Text, ...]:
    name = with_more(rich(one.name, ","), lower_first(one.role))
    phone: Text = one.phone
    if one.nights:
        phone = Markup("{}<br>{} {}").format(one.phone, nights, one.nights)
    return name, phone, "; ".join(text for text in (one.hours, one.can, one.notes) if text)


def _ill(context: Context, plan: Plan) -> Text:
    """Return what is done with one that is ill, and where what a vet asks stands.

    It is what somebody outside a pen can know. Common practice, no source.
    """
    told = context.w("pack.call.ill_text")
    log, count = slugs.stay_log(plan), slugs.looks(plan)
    if any(slug not in context.sheets for slug in (log, count)):
        return told
    first = next((context.sheet(slugs.pen(pen)) for pen in plan.pens), "")
    asks = context.say(
        "pack.call.vet_known", pens=first, log=context.sheet(log), count=context.sheet(count)
    )
    return rich(told, " ", asks)


def _decides(context: Context) -> str:
    found = (
        f"{one.name}: {one.may_decide}"
        for role in w_roles(context)
        for one in context.contacts(role)
        if one.may_decide
    )
    return "; ".join(found)


def _inside(context: Context, listed: Sequence[tuple[str, str]]) -> Rich:
    """Return what the pack holds, in order of use, each with the number of its sheet."""
    return joined((rich(name, " ", context.sheet(slug)) for slug, name in listed), " · ")
