"""`contacts.yaml`, `stays.yaml` and `private.yaml`: whom to call, who comes, and the codes."""

from __future__ import annotations

import datetime as dt
import re
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from binder.farm.model.thing import Thing
from binder.farm.model.values import (
    Clock,
    Date,
    Extension,
    Hours,
    Id,
    Language,
    Line,
    Phone,
    Whole,
    YesNo,
)
from binder.problems import quotable

Role = Literal[
    "owner", "backup", "vet", "night vet", "neighbor", "hauler", "electrician", "plumber",
    "well service", "power company", "water company", "feed store", "doctor", "hospital",
    "extension office", "state vet", "fuel", "sitter", "other",
]  # fmt: skip
# What a contact comes to help with: the second person for what nobody does alone.
Help = Literal["looks", "farrowing", "moving", "wallow"]
_SPAN = re.compile(
    r"([01]?[0-9]|2[0-3]):([0-5][0-9])\s*(?:-|to)\s*([01]?[0-9]|2[0-3]):([0-5][0-9])"
)


def _between(value: object) -> tuple[dt.time, dt.time]:
    found = _SPAN.fullmatch(value.strip()) if isinstance(value, str) else None
    if found:
        first, last = (dt.time(int(found[at]), int(found[at + 1])) for at in (1, 3))
        if first < last:
            return first, last
    what = f'"{quotable(value)}"' if isinstance(value, str) else "a list or mapping"
    message = f"{what} is not a time of day to another; write it like 06:00 to 21:30"
    raise ValueError(message)


Between = Annotated[
    tuple[dt.time, dt.time],
    BeforeValidator(_between),
    WithJsonSchema({"type": "string", "pattern": f"^{_SPAN.pattern}$",
                    "examples": ["06:00 to 21:30"]}),
]  # fmt: skip


class Contact(Thing):
    """Somebody to call."""

    name: Line = Field(description="Person or office.", examples=["Ann Example"])
    role: Role = Field(description="What they are to the farm.")
    phone: Phone = Field(description="The number to call.")
    ext: Extension | None = Field(
        default=None, description="The extension to key in once phone answers."
    )
    more_phones: tuple[Phone, ...] = Field(
        default=(), description="Other numbers of theirs, in a list."
    )
    nights: Phone | None = Field(default=None, description="The number to call after hours.")
    hours: Line | None = Field(default=None, description="When they answer.")
    can: Line | None = Field(
        default=None, description="What this person can do: has a trailer..."
    )
    may_decide: Line | None = Field(
        default=None,
        description="What they may decide for the owner: putting an animal down, up to what "
        "cost, what the vet may do.",
        examples=["Costs up to $300 when the owner cannot be reached"],
    )
    language: Language | None = Field(
        default=None, description="The language to write to them in; else the farm's."
    )
    helps: tuple[Help, ...] = Field(
        default=(), description="What they come to help with: looks, farrowing, moving, wallow."
    )
    comes_in_h: Hours | None = Field(
        default=None, alias="comes_in", description="How soon they can be here.",
        examples=["15 min"],
    )  # fmt: skip


# Our choice: as many cards as a stay has numbers for; one every 80 minutes, day and night.
MOST_VISITS = 18


class Stay(Thing):
    """The dates a sitter covers and the times they come."""

    id: Id = Field(description="A short name of its own.", examples=["july"])
    first: Date = Field(alias="from", description="First day.", examples=["2026-07-10"])
    last: Date = Field(alias="to", description="Last day.", examples=["2026-07-19"])
    sitter: Line = Field(description="Who comes.", examples=["Sam Example"])
    phone: Phone | None = Field(default=None, description="The sitter's number.")
    visits: tuple[Clock, ...] = Field(
        default=(), description="Clock times they come each day, in a list."
    )
    minutes: Whole | None = Field(
        default=None, description="Minutes the sitter has each visit.", examples=["60"]
    )
    between: tuple[Between, ...] = Field(
        default=(), description="When they can come for a short look, besides their visits."
    )
    most_looks: Whole | None = Field(
        default=None, description="Short looks a day that may be asked of them at most."
    )
    language: Language | None = Field(
        default=None, description="The language of the sitter's papers; else the farm's."
    )
    sleeps_here: YesNo = Field(default=False, description="yes if they stay overnight.")
    new_to_heat: YesNo = Field(
        default=False, description="yes if they have not worked in heat this season."
    )


class Code(Thing):
    """A gate or alarm code: printed, never on the site or phone."""

    what: Line = Field(description="What it opens.", examples=["Gate at the road"])
    code: Line = Field(description="The code.", examples=["0000"])
    where: Line | None = Field(default=None, description="Where it is keyed in.")


class PrivateFile(Thing):
    """`private.yaml`."""

    codes: tuple[Code, ...] = Field(default=(), description="Gate, door and alarm codes.")
