"""`contacts.yaml`, `stays.yaml` and `private.yaml`: whom to call, who comes, and the codes."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from binder.farm.model.thing import Thing
from binder.farm.model.values import Clock, Date, Id, Line, Phone, Whole, YesNo

Role = Literal[
    "owner", "backup", "vet", "night vet", "neighbor", "hauler", "electrician", "plumber",
    "well service", "power company", "water company", "feed store", "doctor", "hospital",
    "extension office", "state vet", "fuel", "sitter", "other",
]  # fmt: skip


class Contact(Thing):
    """Somebody to call."""

    name: Line = Field(description="Person or office.", examples=["Ann Example"])
    role: Role = Field(description="What they are to the farm.")
    phone: Phone = Field(description="The number to call.")
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
