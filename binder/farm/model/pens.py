"""`pens.yaml`: anywhere animals live, with its shade, water and air."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from binder.farm.model.about import BandKey
from binder.farm.model.equipment import WATER
from binder.farm.model.ground import MapPoint
from binder.farm.model.refers import Refers, Vital
from binder.farm.model.thing import Thing
from binder.farm.model.values import (
    CubicMetresPerHour,
    Depths,
    Hours,
    Id,
    Line,
    Litres,
    LitresPerMinute,
    Metres,
    Past,
    Percent,
    Spans,
    SquareMetres,
    Watts,
    Whole,
    WholeOrZero,
    YesNo,
)

PenKind = Literal["pasture", "stall", "run", "coop"]


class Shade(Thing):
    """One place of shade."""

    kind: Literal["trees", "cloth", "roof", "wall", "hut"] = Field(description="What gives it.")
    area_m2: SquareMetres = Field(alias="area", description="Shaded ground at noon.")
    blocks_pct: Percent | None = Field(
        default=None, alias="blocks", description="Share of the sun that a cloth keeps off."
    )
    over_wallow: YesNo = Field(default=False, description="yes if it shades the wallow.")


class Shelter(Thing):
    """A roofed place to lie."""

    area_m2: SquareMetres = Field(alias="area", description="Dry floor to lie on.")
    open_ends: WholeOrZero | None = Field(
        default=None, description="Sides that stand open to the wind.", examples=["2"]
    )
    floor: Literal["dirt", "concrete", "slats", "wood", "grass"] | None = Field(
        default=None, description="What they lie on."
    )
    bedding_m: Depths | None = Field(
        default=None,
        alias="bedding",
        description="How deep the bedding lies.",
        examples=["4 in"],
    )


class Wallow(Thing):
    """A dug wallow: surface measures and depth of water in the middle."""

    id: Id = Field(description="A short name of its own.", examples=["w1"])
    shape: Literal["oval", "round", "rectangle"] = Field(description="Its outline.")
    length_m: Spans = Field(
        alias="length", description="Longest way across the water (round: straight across)."
    )
    width_m: Spans | None = Field(
        default=None,
        alias="width",
        description="Across the middle of its length.",
        examples=["8 ft"],
    )
    depth_m: Depths = Field(alias="depth", description="Depth of water in the middle.")
    dug: Past | None = Field(default=None, description="When it was dug.")
    last_refreshed: Past | None = Field(
        default=None, description="When it was last drained and filled again."
    )
    well_distance_m: Metres | None = Field(
        default=None, alias="to_well", description="Distance to the nearest well."
    )
    water_distance_m: Metres | None = Field(
        default=None, alias="to_stream", description="Distance to the nearest stream or pond."
    )
    next_place: Line | None = Field(default=None, description="Where the next one will be dug.")
    fed_by: Annotated[Id | None, Refers(*WATER)] = Field(
        default=None,
        description="The hose, tank or water source that fills it.",
        examples=["h1"],
    )


class Drinker(Thing):
    """One kind of drinking place in a pen."""

    id: Id = Field(description="A short name of its own.", examples=["d1"])
    kind: Literal["nipple", "bowl", "trough", "bell", "tank", "bucket"] = Field(
        description="What they drink from."
    )
    count: Whole = Field(default=1, description="How many of them.", examples=["2"])
    flow_l_min: LitresPerMinute | None = Field(
        default=None, alias="flow", description="Measured flow of one.", examples=["3 cup/min"]
    )
    holds_l: Litres | None = Field(default=None, alias="holds", description="What one holds.")
    fed_by: Annotated[Id | None, Refers(*WATER)] = Field(
        default=None,
        description="A hose, tank or water source id; leave out if filled by hand.",
        examples=["h1"],
    )
    can_tip: YesNo | None = Field(default=None, description="yes if an animal can tip it over.")
    shaded: YesNo | None = Field(default=None, description="yes if it stands in shade at noon.")


class Fan(Thing):
    """A fan in a pen."""

    id: Id = Field(description="A short name of its own.", examples=["fan-1"])
    diameter_m: Spans | None = Field(
        default=None, alias="diameter", description="Across the blades.", examples=["24 in"]
    )
    air_m3_h: CubicMetresPerHour | None = Field(
        default=None, alias="air", description="Air it moves, from its label."
    )
    power_w: Watts | None = Field(
        default=None, alias="power", description="Power from its label."
    )
    circuit: Annotated[Id | None, Refers("circuits")] = Field(
        default=None, description="The breaker it hangs on.", examples=["barn-fans"]
    )
    switch: Line | None = Field(default=None, description="Where its switch is.")
    cleaned: Past | None = Field(default=None, description="When it was last cleaned.")


class Pen(Thing):
    """Anywhere animals live."""

    id: Id = Field(description="A short name that the other files use.", examples=["creek"])
    name: Line = Field(description="What people call it.", examples=["Creek paddock"])
    kind: PenKind = Field(description="pasture, stall, run or coop.")
    route: Whole | None = Field(default=None, description="Order on the round.", examples=["2"])
    area_m2: SquareMetres | None = Field(
        default=None, alias="area", description="Ground they have."
    )
    shade: tuple[Shade, ...] = Field(default=(), description="Each place of shade.")
    shelter: Shelter | None = Field(default=None, description="The roof they lie under.")
    wallow: Wallow | None = Field(default=None, description="The wallow dug here.")
    drinkers: tuple[Drinker, ...] = Field(default=(), description="Where they drink.")
    fans: tuple[Fan, ...] = Field(default=(), description="Fans that cool this pen.")
    feeder: Line | None = Field(default=None, description="What they are fed from.")
    wet_with: Line | None = Field(
        default=None,
        description="What the animals here are wetted with from outside, and where it is.",
        examples=["The spray hose in the aisle"],
    )
    night: Annotated[Line | None, Vital()] = Field(
        default=None,
        description="Birds: who shuts their door at dusk and opens it at first light.",
        examples=["Iris Tack shuts the small door at dusk and opens it at first light"],
    )
    gate: Line | None = Field(default=None, description="How the gate opens and closes.")
    at: MapPoint | None = Field(default=None, description="Where its middle is on the map.")
    gate_at: MapPoint | None = Field(default=None, description="Where its gate is on the map.")
    corners: tuple[MapPoint, ...] = Field(
        default=(), description="Its corners on the map, one after the other."
    )
    phone_signal: Line | None = Field(
        default=None,
        description="Where the nearest signal is, if a phone has none in this pen.",
        examples=["None here. Go to the barn"],
    )
    farrowing: YesNo = Field(default=False, description="yes if sows farrow here.")
    round_intervals_h: dict[BandKey, Hours] = Field(
        default_factory=dict,
        alias="round_intervals",
        description="Longest time between two rounds here, by band, where it differs.",
    )
    tasks: Annotated[tuple[Line, ...], Vital()] = Field(
        default=(), description="The owner's own extra tasks here."
    )
