"""What the air of its hour asks of whoever does a visit: rests, another start, looks only."""

from __future__ import annotations

from typing import TYPE_CHECKING

from binder.figures.stays.plan_fit import FITS, MOVE, SPLIT

if TYPE_CHECKING:
    from collections.abc import Iterator

    from binder.figures.stays.plan import Fit, Visit
    from binder.pages.context import Context


def lines(context: Context, visit: Visit) -> Iterator[str]:
    """Yield a line for each way of doing a visit; days that ask the same share it."""
    alike: dict[tuple[str, str], list[str]] = {}
    for key, fit in visit.fits.items():
        if fit.key != FITS:
            alike.setdefault((_key(fit), _parts(context, fit)), []).append(key)
    for (key, parts), loads in alike.items():
        load = str(context.listed(context.w(f"stay.loads.{one}") for one in loads))
        start = context.clock(visit.fits[loads[0]].start_h)
        yield context.w(f"visit.fit.{key}", load=load, clock=start, parts=parts)


def _key(fit: Fit) -> str:
    return "move_split" if fit.key == MOVE and len(fit.parts) > 1 else fit.key


def _parts(context: Context, fit: Fit) -> str:
    """Return `From 7 pm: Hen run, Barn stall 1`, a part after the other; the start if moved."""
    if fit.key not in (SPLIT, MOVE):
        return ""
    if len(fit.parts) == 1:
        return context.clock(fit.start_h)
    said = (
        context.w(
            "visit.fit.part", clock=context.clock(part.start_h),
            pens=", ".join(context.farm.pen(pen).name for pen in part.pens)
            or context.w("visit.fit.part_end"),
        )
        for part in fit.parts
    )  # fmt: skip
    return "; ".join(said)
