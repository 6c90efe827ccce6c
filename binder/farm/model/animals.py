"""`animals.yaml`: each animal by name, or a group that is counted."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal, get_args

from pydantic import Field

from binder.farm.model.refers import Refers, Vital
from binder.farm.model.thing import Thing
from binder.farm.model.values import (
    Date,
    Gains,
    Id,
    Kilograms,
    KilogramsPerDay,
    Line,
    Past,
    Ratio,
    Text,
    Whole,
    WholeOrZero,
)

if TYPE_CHECKING:
    import datetime as dt

Species = Literal[
    "pig", "chicken", "turkey", "duck", "goat", "sheep", "cattle", "horse", "donkey",
    "mule", "rabbit", "dog"
]  # fmt: skip
SPECIES: tuple[str, ...] = get_args(Species)
# The trade's own words for sex, by species; the class on a date follows from them.
Sex = Literal[
    "sow", "gilt", "boar", "barrow", "hen", "pullet", "rooster", "doe", "buck", "wether",
    "ewe", "ram", "cow", "heifer", "bull", "steer", "mare", "stallion", "gelding",
    "jenny", "jack", "molly", "john", "tom",
    "drake", "female", "male", "mixed",
]  # fmt: skip
Purpose = Literal["eggs", "meat", "milk", "breeding", "guard", "work", "pet"]


class Move(Thing):
    """A day on which an animal goes to another pen."""

    on: Date = Field(description="The day it moves.", examples=["2026-07-03"])
    to: Annotated[Id, Refers("pens")] = Field(
        description="The id of the pen it moves to.", examples=["stall-2"]
    )


class Animal(Thing):
    """One animal by name, or a group that is counted."""

    name: Line | None = Field(
        default=None, description="The name of one animal.", examples=["Clementine"]
    )
    group: Line | None = Field(
        default=None, description="The name of several, with a count.", examples=["Growers"]
    )
    species: Species = Field(description="What kind of animal it is.")
    sex: Sex | None = Field(
        default=None, description="The trade's word: sow, gilt, hen, wether..."
    )
    purpose: Purpose | None = Field(default=None, description="What it is kept for.")
    breed: Line | None = Field(default=None, description="Breed or cross.")
    mark: Line | None = Field(
        default=None, description="Ear tag, band, colour: how to know it."
    )
    temper: Line | None = Field(
        default=None,
        description="How it is with people, in one line.",
        examples=["Calm, but she will not be hurried"],
    )
    count: Whole | None = Field(default=None, description="How many there are in the group.")
    pen: Annotated[Id | None, Refers("pens")] = Field(
        default=None, description="The id of a pen in pens.yaml."
    )
    moves: tuple[Move, ...] = Field(
        default=(), description="Days on which it goes to another pen, and to which."
    )
    born: Past | None = Field(
        default=None, description="Day of birth, a guess if need be.", examples=["2026-02-20"]
    )
    weight_kg: Kilograms | None = Field(
        default=None, alias="weight", description="Weight of one animal."
    )
    weighed: Past | None = Field(default=None, description="When it was weighed.")
    gain_kg_day: Gains | None = Field(
        default=None, alias="gain", description="What one gains a day."
    )
    bred: Past | None = Field(default=None, description="First day she was bred.")
    bred_to: Annotated[Line | None, Refers("animals", must_exist=False)] = Field(
        default=None, description="The sire.", examples=["Hector"]
    )
    farrowed: Past | None = Field(
        default=None, description="Last farrowing, kidding, lambing or calving."
    )
    litter: WholeOrZero | None = Field(default=None, description="Young at her side.")
    weaned: Past | None = Field(default=None, description="When her young were last weaned.")
    ration_kg_day: KilogramsPerDay | None = Field(
        default=None, alias="ration", description="Feed for one a day.", examples=["5 lb/day"]
    )
    feed: Annotated[Id | None, Refers("feeds")] = Field(
        default=None, description="The id of a feed in equipment.yaml.", examples=["sow-feed"]
    )
    soak_ratio: Ratio | None = Field(
        default=None, alias="soak", description="Parts of water to one part of feed, by weight."
    )
    medicine: Annotated[Text | None, Vital()] = Field(
        default=None, description="Name, dose and date, as the vet wrote it."
    )

    @property
    def called(self) -> str:
        """Return the name or group as the owner writes it."""
        return self.name or self.group or ""

    def pen_on(self, day: dt.date) -> str | None:
        """Return the pen it lives in on a day, after the moves up to and on that day."""
        done = sorted((move for move in self.moves if move.on <= day), key=lambda move: move.on)
        return done[-1].to if done else self.pen

    @property
    def head(self) -> int:
        """Return the number of animals."""
        return self.count or 1
