"""What the air of its hour asks of whoever does a visit: rests, another start, looks only."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.stays.visits.plan_fit import FITS, LOOK, MOVE, SPLIT
from binder.pages.people import work_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from binder.figures.stays.plan import Fit, Visit
    from binder.pages.context import Context


def lines(context: Context, visit: Visit, *, numbered: bool = False) -> Iterator[str]:
    """Yield a line for each way of doing a visit; days that ask the same share it.

    Args:
        context: what composing knows.
        visit: one visit.
        numbered: name pens by their place on this visit, where the page numbers them.
    """
    alike: dict[tuple[str, str], list[str]] = {}
    for key, fit in visit.fits.items():
        if fit.key != FITS:
            parts = _parts(context, visit, fit, numbered=numbered)
            how = parts or light(context, fit)
            alike.setdefault((_key(fit), how), []).append(key)
    for (key, parts), loads in alike.items():
        load = str(context.listed(context.w(f"stay.loads.{one}") for one in loads))
        start = context.clock(visit.fits[loads[0]].start_h)
        yield context.w(f"visit.fit.{key}", load=load, clock=start, parts=parts)


def light(context: Context, fit: Fit) -> str:
    """Return how long one works before resting, where only light work in shade is left."""
    if fit.key != LOOK:
        return ""
    work, _, rest = fit.word.partition("/")
    if rest:
        return context.w("visit.fit.light_some", work=work, rest=rest)
    limit, sheet = work_sheet.light_up_to(context), context.sheets.get("work-and-rest", "")
    if not limit or not sheet:
        return context.w("visit.fit.light")
    return context.w("visit.fit.light_to", limit=limit, sheet=sheet)


def _key(fit: Fit) -> str:
    return "move_split" if fit.key == MOVE and len(fit.parts) > 1 else fit.key


def _parts(context: Context, visit: Visit, fit: Fit, *, numbered: bool) -> str:
    """Return `From 7 pm: Hen run, Barn stall 1`, a part after the other; the start if moved."""
    if fit.key not in (SPLIT, MOVE):
        return ""
    if len(fit.parts) == 1:
        return context.clock(fit.start_h)
    said = (
        context.w(
            "visit.fit.part", clock=context.clock(part.start_h),
            pens=_named(context, visit, part.pens, numbered=numbered)
            or context.w("visit.fit.part_end"),
        )
        for part in fit.parts
    )  # fmt: skip
    return "; ".join(said)


def _named(context: Context, visit: Visit, pens: Sequence[str], *, numbered: bool) -> str:
    """Return the pens of a part, which follow one another on the visit."""
    if not numbered or not pens:
        return ", ".join(context.farm.pen(pen).name for pen in pens)
    first, last = visit.order.index(pens[0]) + 1, visit.order.index(pens[-1]) + 1
    if first == last:
        return context.w("visit.fit.pen", place=first)
    return context.w("visit.fit.pens", first=first, last=last)
