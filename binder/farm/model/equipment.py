"""`equipment.yaml`: water, power, cleaning products, feed and what they are measured with."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, ConfigDict, Field, model_validator

from binder.farm.model.ground import MapPoint
from binder.farm.model.numbers import quantity, quantity_schema
from binder.farm.model.pipes import inside, inside_or_outside
from binder.farm.model.refers import Refers
from binder.farm.model.thing import Thing
from binder.farm.model.values import (
    Amperes,
    Bores,
    BucketLitres,
    Celsius,
    CordMetres,
    Depths,
    FuelLitres,
    FuelLitresPerHour,
    Gauge,
    Hours,
    Id,
    Line,
    LitresPerMinute,
    Metres,
    Past,
    Pressures,
    Scoopfuls,
    Stock,
    Strength,
    TankLitres,
    Volts,
    Walls,
    WaterCelsius,
    Watts,
    YesNo,
)

WATER = ("water_sources", "tanks", "hoses")  # what water comes through
POWERED = ("water_sources", "circuits", "fans")  # what needs current
MG_L_PER_PERCENT = 10_000.0  # 1 % of a litre of water is 10 g: by definition


class Hose(Thing):
    """A hose or surface pipe."""

    id: Id = Field(description="A short name of its own.", examples=["h1"])
    name: Line | None = Field(default=None, description="What people call it.")
    model_config = ConfigDict(json_schema_extra=inside_or_outside)

    inside_m: Bores = Field(alias="inside", description="Inside diameter, printed on the hose.")
    outside_m: Bores | None = Field(
        default=None,
        alias="outside",
        description="Outside diameter of a pipe, with its wall or pressure class, in place of "
        "inside.",
        examples=["32 mm"],
    )
    wall_m: Walls | None = Field(
        default=None, alias="wall", description="How thick the pipe's wall is."
    )
    pressure_class: Literal["PN 10", "PN 12.5", "PN 16"] | None = Field(
        default=None, description="Printed on a pipe of PE 100 (EN 12201); else write its wall."
    )
    length_m: Metres = Field(alias="length", description="Its whole length.")
    runs: Literal["on the ground", "buried", "overhead"] = Field(
        default="on the ground", description="How it lies."
    )
    buried_depth_m: Depths | None = Field(
        default=None, alias="buried_depth", description="Earth above it.", examples=["18 in"]
    )
    sun: Literal["full", "part", "shade"] = Field(
        default="full", description="How much of it lies in the sun at midday."
    )
    colour: Literal["black", "dark", "green", "blue", "red", "brown", "white", "light"] = Field(
        default="dark", description="Its colour: dark hoses heat most."
    )
    flow_l_min: LitresPerMinute | None = Field(
        default=None, alias="flow", description="Measured flow with the end open."
    )
    bypass: Line | None = Field(default=None, description="Where warm water is let out.")
    shut_off: Line | None = Field(
        default=None, description="The valve that closes this hose alone, if it bursts."
    )
    fed_by: Annotated[Id | None, Refers(*WATER)] = Field(
        default=None, description="A water source, tank or hose id.", examples=["well"]
    )
    along: tuple[MapPoint, ...] = Field(
        default=(), description="Its points on the map, from where it is fed to its end."
    )

    @model_validator(mode="before")
    @classmethod
    def _bored(cls, data: object) -> object:
        """Put the inside diameter in where the owner wrote the outside one."""
        if not isinstance(data, dict) or "outside" not in data or "inside" in data:
            return data
        return {**data, "inside": inside(data)}


class WaterSource(Thing):
    """Where water comes from."""

    id: Id = Field(description="A short name of its own.", examples=["well"])
    name: Line = Field(description="What people call it.", examples=["Well behind the barn"])
    kind: Literal["well", "mains", "tap", "pond", "spring", "hauled"] = Field(
        description="What sort of source it is; mains is the water company's."
    )
    pressure_kpa: Pressures | None = Field(
        default=None, alias="pressure", description="Pressure at the farm's first tap."
    )
    flow_l_min: LitresPerMinute | None = Field(
        default=None, alias="flow", description="Flow with one tap fully open."
    )
    temperature_c: WaterCelsius | None = Field(
        default=None,
        alias="temperature",
        description="Temperature as it comes up.",
        examples=["70 F"],
    )
    pump_w: Watts | None = Field(
        default=None, alias="pump", description="Running power of its pump, from the label."
    )
    circuit: Annotated[Id | None, Refers("circuits")] = Field(
        default=None, description="The breaker of its pump.", examples=["well-house"]
    )
    shut_off: Line | None = Field(default=None, description="Where it is shut off.")
    at: MapPoint | None = Field(default=None, description="Where it is on the map.")


class Tank(Thing):
    """Stored water."""

    id: Id = Field(description="A short name of its own.", examples=["hill-tank"])
    name: Line = Field(description="What people call it.", examples=["Tank on the rise"])
    holds_l: TankLitres = Field(
        alias="holds", description="What it holds.", examples=["275 gal"]
    )
    fed_by: Annotated[Id | None, Refers(*WATER)] = Field(
        default=None, description="A water source, tank or hose id.", examples=["well"]
    )
    needs_power: YesNo | None = Field(
        default=None, description="yes if water leaves it only with a pump."
    )
    shaded: YesNo | None = Field(default=None, description="yes if it stands in shade at noon.")
    where: Line | None = Field(default=None, description="Where it stands.")
    at: MapPoint | None = Field(default=None, description="Where it is on the map.")


class Circuit(Thing):
    """A breaker and what hangs on it."""

    id: Id = Field(description="A short name of its own.", examples=["barn-fans"])
    breaker_a: Amperes = Field(alias="breaker", description="The number on its handle.")
    voltage_v: Volts = Field(default=120.0, alias="voltage", description="120 V or 240 V.")
    where: Line | None = Field(default=None, description="Where its box hangs.")
    at: MapPoint | None = Field(default=None, description="Where its box is on the map.")
    label: Line | None = Field(default=None, description="What is written beside it.")
    other_w: Watts | None = Field(
        default=None, alias="other_load", description="Power of what else hangs on it."
    )
    gfci: YesNo | None = Field(
        default=None, description="yes if a ground-fault outlet guards it."
    )


class Cord(Thing):
    """An extension cord in use."""

    id: Id = Field(description="A short name of its own.", examples=["cord-1"])
    length_m: CordMetres = Field(alias="length", description="Its length.")
    gauge_awg: Gauge = Field(
        alias="gauge", description="Wire gauge (AWG) or section, `2.5 mm2`, printed on it."
    )
    feeds: Annotated[Id | None, Refers(*POWERED)] = Field(
        default=None, description="The fan, pump or circuit it feeds.", examples=["fan-1"]
    )


class Generator(Thing):
    """A portable or standing generator."""

    id: Id = Field(description="A short name of its own.", examples=["gen"])
    name: Line = Field(description="What people call it.", examples=["Red generator"])
    running_w: Watts = Field(
        alias="running", description="Running watts on its plate.", examples=["3500 W"]
    )
    starting_w: Watts | None = Field(
        default=None, alias="starting", description="Starting watts on its plate."
    )
    fuel_l: FuelLitres | None = Field(
        default=None, alias="fuel", description="What its tank holds."
    )
    fuel_l_h: FuelLitresPerHour | None = Field(
        default=None, alias="fuel_rate", description="What it burns, as you timed it."
    )
    where: Line | None = Field(default=None, description="Where it is kept.")
    at: MapPoint | None = Field(default=None, description="Where it is on the map.")
    runs: Annotated[tuple[Id, ...], Refers(*POWERED)] = Field(
        default=(), description="Ids of what it must run: water sources, circuits, fans."
    )
    connection: Line | None = Field(
        default=None, description="Transfer switch, or cords from its outlets."
    )
    transfer_switch: YesNo | None = Field(
        default=None, description="Whether an electrician has set a transfer switch for it."
    )


class Product(Thing):
    """Bleach, peroxide or another cleaning product."""

    id: Id = Field(description="A short name of its own.", examples=["bleach"])
    name: Line = Field(description="What its label calls it.", examples=["Household bleach"])
    kind: Literal["bleach", "peroxide", "other"] = Field(description="What is in it.")
    strength_pct: Strength = Field(alias="strength", description="Strength on its label.")
    basis: Literal["weight", "volume"] | None = Field(
        default=None, description="Whether the label counts by weight or by volume."
    )
    bought: Past | None = Field(default=None, description="When it was bought.")
    kept: Line | None = Field(default=None, description="Where it is kept.")
    kept_at_c: Celsius | None = Field(
        default=None, alias="kept_at", description="How warm it gets there.", examples=["95 F"]
    )
    label_lists: tuple[Line, ...] = Field(default=(), description="Uses its own label names.")


class Feed(Thing):
    """A feed and the scoop or bucket it is measured with."""

    id: Id = Field(description="A short name of its own.", examples=["sow-feed"])
    name: Line = Field(description="What the bag says.", examples=["Sow pellets"])
    scoop: Line | None = Field(default=None, description="What it is measured with.")
    scoop_holds_kg: Scoopfuls | None = Field(
        default=None,
        alias="scoop_holds",
        description="Weight of one level scoop of this feed.",
        examples=["3 lb"],
    )
    soaks_in_h: Hours | None = Field(
        default=None,
        alias="soaks_in",
        description="How long it stands in cool water until it is soft.",
        examples=["15 min"],
    )
    kept: Line | None = Field(default=None, description="Where it is kept.")
    on_hand_kg: Stock | None = Field(
        default=None, alias="on_hand", description="How much there is now."
    )


class Bucket(Thing):
    """A bucket for water or soaking."""

    id: Id = Field(description="A short name of its own.", examples=["white-bucket"])
    name: Line = Field(description="What people call it.", examples=["White bucket"])
    holds_l: BucketLitres = Field(alias="holds", description="What it holds.")
    count: Gauge = Field(default=1, description="How many of this kind there are.")


def _to_mg_l(percent: float) -> float:
    return percent * MG_L_PER_PERCENT


class EquipmentFile(Thing):
    """`equipment.yaml`."""

    water_sources: tuple[WaterSource, ...] = Field(
        default=(), description="Wells, taps, ponds."
    )
    tanks: tuple[Tank, ...] = Field(default=(), description="Stored water.")
    hoses: tuple[Hose, ...] = Field(default=(), description="Hoses and pipes.")
    circuits: tuple[Circuit, ...] = Field(default=(), description="Breakers.")
    cords: tuple[Cord, ...] = Field(default=(), description="Extension cords in use.")
    generators: tuple[Generator, ...] = Field(default=(), description="Generators.")
    products: tuple[Product, ...] = Field(default=(), description="Cleaning products.")
    feeds: tuple[Feed, ...] = Field(default=(), description="Feeds and their scoops.")
    buckets: tuple[Bucket, ...] = Field(default=(), description="Buckets.")
    strips_read_from_mg_l: (
        Annotated[
            float,
            AfterValidator(_to_mg_l),
            quantity("strip"),
            quantity_schema("strip"),
        ]
        | None
    ) = Field(
        default=None,
        alias="strips_read_from",
        description="Lowest step of the chlorine strips.",
    )
