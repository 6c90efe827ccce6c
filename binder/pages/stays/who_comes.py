"""Whom to phone when somebody has to come: one order on every sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.pages.stays import stay_lines

if TYPE_CHECKING:
    from binder.pages.context import Context


def in_order(context: Context) -> tuple[str, ...]:
    """Return who comes, with telephone and minutes: who helps, the backup, the neighbors.

    The owner, who is away, is not among them.
    """
    called = [stay_lines.who_stays(context)]
    called += [one.name for one in context.contacts("backup")]
    called += [one.name for one in context.contacts("neighbor")]
    owner = stay_lines.owner(context)
    return tuple(
        stay_lines.reached(context, one) for one in dict.fromkeys(called) if one != owner
    )
