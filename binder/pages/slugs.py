"""What the sheets of things are called: how the other sheets find them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from binder.figures.stays.plan import Plan, Visit


_LOOKS = "looks-"
CHARTS = "all-charts"  # one sheet of paper


def pen(pen_id: str) -> str:
    """Return the slug of a pen's sheet."""
    return f"pen-{pen_id}"


def card(pen_id: str) -> str:
    """Return the slug of the card that hangs at a pen's gate."""
    return f"card-{pen_id}"


def chart(name: str) -> str:
    """Return the slug of the sheet of an air chart."""
    return "chart-" + name.replace(" ", "-")


def is_chart(slug: str) -> bool:
    """Return whether a slug is that of an air chart."""
    return slug.startswith("chart-")


def wall(name: str) -> str:
    """Return the slug of an air chart as it hangs on the wall."""
    return f"wall-{chart(name)}"


def workings(area: str) -> str:
    """Return the slug of the sheet that holds the workings of an area."""
    return f"numbers-{area}"


def stay(plan: Plan) -> str:
    """Return the slug of a stay's plan."""
    return f"stay-{plan.stay.id}"


def visit(plan: Plan, one: Visit) -> str:
    """Return the slug of a visit's card: `visit-july-0630`."""
    return f"visit-{plan.stay.id}-{one.clock.replace(':', '')}"


def looks(plan: Plan) -> str:
    """Return the slug of the card of a stay's short looks."""
    return f"{_LOOKS}{plan.stay.id}"


def is_looks(slug: str) -> bool:
    """Return whether a sheet is the card of a stay's short looks."""
    return slug.startswith(_LOOKS)


def stay_log(plan: Plan) -> str:
    """Return the slug of a stay's own round log."""
    return f"log-{plan.stay.id}"
