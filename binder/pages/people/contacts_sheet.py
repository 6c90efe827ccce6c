"""The sheet of everybody to call: who they are, what they can do, what they may decide."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.sheet import Block, Heading, Paragraph, Sheet, Table
from binder.pages.text.rich import rich
from binder.pages.views import CallView
from binder.places import ANYWHERE, HOME

if TYPE_CHECKING:
    from collections.abc import Iterable

    from binder.farm.model import Contact
    from binder.pages.context import Context
    from binder.places import Pack

# Roles a sitter will wish for at the worst moment: their lack is said on the sheet.
_WANTED = (
    "owner",
    "backup",
    "vet",
    "night vet",
    "neighbor",
    "hauler",
    "electrician",
    "power company",
)


def calls(context: Context, roles: Iterable[str]) -> tuple[CallView, ...]:
    """Return the contacts of these roles, ready to print."""
    return tuple(
        CallView(
            role=context.w(f"contacts.roles.{contact.role}"),
            name=contact.name,
            phone=context.phones(contact),
            nights=context.phone(contact.nights)
            if contact.nights and contact.nights != contact.phone
            else "",
            hours=contact.hours or "",
            can="; ".join(filter(None, (contact.can, _comes_in(context, contact)))),
            notes=contact.notes or "",
        )
        for role in roles
        for contact in context.contacts(role)
    )


def _comes_in(context: Context, contact: Contact) -> str:
    """Return how soon somebody can be here, empty where nobody wrote it down."""
    comes = contact.comes_in_h
    return context.w("contacts.comes_in", span=context.span(comes)) if comes else ""


def contacts(context: Context) -> Sheet:
    """Return everybody to call, and what is missing."""
    w = context.w
    roles = tuple(w_roles(context))
    rows = tuple(
        (
            call.role,
            call.name,
            rich(call.phone, ", ", w("contacts.nights"), " ", call.nights)
            if call.nights
            else call.phone,
            context.or_missing("; ".join(x for x in (call.hours, call.can, call.notes) if x)),
        )
        for call in calls(context, roles)
    )
    blocks: list[Block] = [
        Table(
            (w("contacts.role"), w("contacts.name"), w("contacts.phone"), w("contacts.can")),
            rows,
        )
    ]
    missing = [w(f"contacts.roles.{role}") for role in _WANTED if not context.contacts(role)]
    if missing:
        blocks.append(Paragraph(w("contacts.missing", roles=", ".join(missing))))
    poison = (w("start.poison"), context.poison_line)
    pack = context.farm.about.pack
    signal = context.farm.about.place.phone_signal
    where = ((w("contacts.signal"), signal),) if signal else ()
    blocks.insert(0, Table((), (poison, *where)))
    blocks.extend(_decides(context))
    blocks.extend(_country(context, pack))
    return Sheet(
        title=w("contacts.title"),
        answer=(
            w(
                "contacts.answer",
                number=context.emergency,
                address=context.or_missing(context.farm.about.place.address),
            ),
        ),
        blocks=tuple(blocks),
        summary=w("contacts.summary"),
        words=w("found_by.contacts", number=context.farm.about.emergency),
        sources=() if pack.code == HOME else pack.sources,
    )


def _country(context: Context, pack: Pack) -> tuple[Block, ...]:
    """Return whose numbers and law these are; a farm in the US has had them all along."""
    if pack.code == HOME:
        return ()
    law = Paragraph(context.words.terms["report_law"])
    if pack.code == ANYWHERE:
        return (Paragraph(context.w("country.sheet.neutral")), law)
    lead = Paragraph(context.w("country.sheet.lead", name=pack.name))
    wall = context.w("country.wall", volts=pack.said("mains"), plug=pack.said("plug"))
    holes = context.w(f"country.holes.{pack.said('holes', 'any')}")
    return (lead, law, Paragraph(f"{wall if pack.said('plug') else ''} {holes}".strip()))


def w_roles(context: Context) -> Iterable[str]:
    """Return the contact roles in the order they print."""
    return context.words.section("contacts.roles")


def _decides(context: Context) -> tuple[Block, ...]:
    """Return who may decide for the owner, or that nobody is recorded."""
    found = tuple(
        (one.name, one.may_decide)
        for role in w_roles(context)
        for one in context.contacts(role)
        if one.may_decide
    )
    if not found:
        return (Paragraph(context.w("contacts.nobody_decides")),)
    return (Heading(context.w("contacts.decides")), Table((), found))
