"""The farm as the owner wrote it, checked and frozen (the gatekeeper of pydantic).

Field names carry their unit; the YAML key is the alias (`length_m` is written `length: 12 ft`).
None means: not recorded. Nothing here is computed from anything else on the farm.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import UnionType
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationError,
    WithJsonSchema,
    field_validator,
)
from pydantic.fields import FieldInfo

from binder import units


def _quantity(kind: str) -> BeforeValidator:
    def read(value: object) -> float:
        if not isinstance(value, str):
            message = f"is a list or mapping, not {kind}; write it like {units.KINDS[kind].examples}"
            raise ValueError(message)  # noqa: TRY004 -- pydantic reports ValueError, not TypeError
        return units.parse(value, kind)

    return BeforeValidator(read)


def _positive(name: str) -> Any:  # noqa: ANN401
    return Annotated[float, Field(gt=0), _quantity(name)]


Metres = Annotated[float, Field(gt=0, le=20_000), _quantity("length")]
SquareMetres = Annotated[float, Field(gt=0), _quantity("area")]
Litres = Annotated[float, Field(gt=0), _quantity("volume")]
Kilograms = Annotated[float, Field(gt=0, le=2_000), _quantity("weight")]
Celsius = Annotated[float, Field(ge=-40, le=60), _quantity("temperature")]
Hours = Annotated[float, Field(gt=0), _quantity("time")]
LitresPerMinute = Annotated[float, Field(gt=0), _quantity("flow")]
CubicMetresPerHour = Annotated[float, Field(gt=0), _quantity("air flow")]
Percent = Annotated[float, Field(ge=0, le=100), _quantity("share")]
Strength = Annotated[float, Field(gt=0, le=100), _quantity("strength")]
Watts = Annotated[float, Field(gt=0), _quantity("power")]
Amperes = Annotated[float, Field(gt=0), _quantity("current")]
Volts = Annotated[float, Field(gt=0), _quantity("voltage")]
Kilopascals = Annotated[float, Field(gt=0), _quantity("pressure")]
KilogramsPerDay = Annotated[float, Field(gt=0), _quantity("gain")]
FuelLitresPerHour = Annotated[float, Field(gt=0), _quantity("fuel rate")]
MillimetresPerDay = Annotated[float, Field(gt=0), _quantity("depth rate")]

_ID = re.compile(r"^[a-z0-9][a-z0-9_-]{0,39}$")
_WORDS = {"yes": True, "true": True, "no": False, "false": False}


def _yes_or_no(value: object) -> bool:
    if isinstance(value, str) and value.lower() in _WORDS:
        return _WORDS[value.lower()]
    message = f'"{value}" is not yes or no'
    raise ValueError(message)


def _whole(value: object) -> int:
    if isinstance(value, str) and value.isascii() and value.isdigit() and len(value) <= 6:  # noqa: PLR2004
        return int(value)
    message = f'"{value}" is not a whole number; write it like 8'
    raise ValueError(message)


def _date(value: object) -> dt.date:
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d{2}-\d{2}", value):
        try:
            return dt.date.fromisoformat(value)
        except ValueError:
            message = f'"{value}" is a day that does not exist; check the month and day'
            raise ValueError(message) from None
    message = f'"{value}" is not a date; write it like 2026-07-14 (year-month-day)'
    raise ValueError(message)


def _clock(value: object) -> dt.time:
    if isinstance(value, str) and re.fullmatch(r"([01]?\d|2[0-3]):[0-5]\d", value):
        hours, minutes = value.split(":")
        return dt.time(int(hours), int(minutes))
    message = f'"{value}" is not a time of day; write it like 06:30 or 15:30'
    raise ValueError(message)


def _degrees(value: object) -> float:
    if isinstance(value, str) and re.fullmatch(r"-?\d{1,3}(\.\d+)?", value):
        return float(value)
    message = f'"{value}" is not a position in degrees; write it like 31.6 or -81.9'
    raise ValueError(message)


def _id(value: object) -> str:
    if isinstance(value, str) and _ID.fullmatch(value):
        return value
    message = f'"{value}" is not an id; use small letters, digits and -, like creek or stall-1'
    raise ValueError(message)


YesNo = Annotated[bool, BeforeValidator(_yes_or_no)]
Whole = Annotated[int, BeforeValidator(_whole), Field(ge=1, le=100_000)]
WholeOrNone = Annotated[int, BeforeValidator(_whole), Field(ge=0, le=100_000)]
Date = Annotated[dt.date, BeforeValidator(_date)]
Clock = Annotated[dt.time, BeforeValidator(_clock)]
Latitude = Annotated[float, BeforeValidator(_degrees), Field(ge=-90, le=90)]
Longitude = Annotated[float, BeforeValidator(_degrees), Field(ge=-180, le=180)]
Id = Annotated[str, BeforeValidator(_id)]
Line = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)]
Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=4000)]

SPECIES = ("pig", "chicken", "turkey", "duck", "goat", "sheep", "cattle", "horse", "rabbit", "dog")
Species = Literal[
    "pig", "chicken", "turkey", "duck", "goat", "sheep", "cattle", "horse", "rabbit", "dog"
]  # fmt: skip
# The trade's own words for sex, by species; the class on a date follows from them.
Sex = Literal[
    "sow", "gilt", "boar", "barrow", "hen", "pullet", "rooster", "doe", "buck", "wether",
    "ewe", "ram", "cow", "heifer", "bull", "steer", "mare", "stallion", "gelding", "tom",
    "drake", "female", "male", "mixed",
]  # fmt: skip
Purpose = Literal["eggs", "meat", "milk", "breeding", "guard", "work", "pet"]
PenKind = Literal["pasture", "stall", "run", "coop"]
BandKey = Literal["normal", "alert", "danger", "emergency", "all_hands"]
Role = Literal[
    "owner", "backup", "vet", "night vet", "neighbor", "hauler", "electrician", "plumber",
    "well service", "power company", "water company", "feed store", "doctor", "hospital",
    "extension office", "state vet", "fuel", "sitter", "other",
]  # fmt: skip


class Thing(BaseModel):
    """What every written thing may carry: notes where it is needed, a picture, privacy."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)

    notes: Text | None = Field(default=None, description="What somebody who looks after it must know.")
    private: YesNo = Field(default=False, description="yes: print only, never on the site or phone.")
    picture: Line | None = Field(default=None, description="A file in pictures/ (PNG or JPEG).")


class Spot(Thing):
    """Where the farm is: the 911 address first."""

    address: Line | None = Field(default=None, description="Address as the 911 dispatcher needs it.")
    directions: Text | None = Field(default=None, description="How to find the gate.")
    latitude: Latitude | None = None
    longitude: Longitude | None = None
    timezone: Line | None = Field(default=None, description="Like America/New_York.")
    map: Line | None = Field(default=None, description="Link to a map.")


def _address_alone(value: object) -> object:
    return {"address": value} if isinstance(value, str) else value


class Weather(Thing):
    """A day's weather in three numbers."""

    high_c: Celsius = Field(alias="high")
    low_c: Celsius = Field(alias="low")
    dew_point_c: Celsius = Field(alias="dew_point")
    hottest_at: Clock | None = Field(default=None, description="Clock time of the hottest air.")


Month = Literal[
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
]  # fmt: skip


class ShutOff(Thing):
    """Where something is switched off: water, power, fence, fuel."""

    what: Line
    where: Line


class FarmFile(Thing):
    """`farm.yaml`: the farm itself."""

    name: Line
    place: Annotated[Spot, BeforeValidator(_address_alone)]
    units: Literal["us", "metric"] = "us"
    paper: Literal["letter", "a4"] = "letter"
    site_address: Line | None = Field(default=None, description="Where the site is hosted on the farm.")
    owner_says: Text | None = Field(default=None, description="The owner's own words to the sitter.")
    thermometer: Line | None = Field(default=None, description="Where the thermometer hangs.")
    hygrometer: Line | None = Field(default=None, description="Where the humidity dial hangs.")
    climate: dict[Month, Weather] = Field(default_factory=dict, description="A typical day, by month.")
    hot_day: Weather | None = Field(default=None, description="The farm's typical hot day.")
    severe_day: Weather | None = Field(default=None, description="The worst day to plan for.")
    evaporation_mm_day: MillimetresPerDay | None = Field(default=None, alias="evaporation")
    all_hands_index: Annotated[int, BeforeValidator(_whole), Field(ge=84, le=110)] | None = Field(
        default=None, alias="all_hands_from", description="Livestock index where All hands starts."
    )
    round_intervals_h: dict[BandKey, Hours] = Field(default_factory=dict, alias="round_intervals")
    shut_offs: tuple[ShutOff, ...] = ()
    eggs: Line | None = Field(default=None, description="When eggs are collected and where they go.")
    last_flow_test: Date | None = None
    last_fan_cleaning: Date | None = None


class Animal(Thing):
    """One animal by name, or a group that is counted."""

    name: Line | None = None
    group: Line | None = None
    species: Species
    sex: Sex | None = None
    purpose: Purpose | None = None
    breed: Line | None = None
    mark: Line | None = Field(default=None, description="Ear tag, band, colour: how to know it.")
    count: Whole | None = None
    pen: Id | None = None
    born: Date | None = None
    weight_kg: Kilograms | None = Field(default=None, alias="weight")
    weighed: Date | None = None
    gain_kg_day: KilogramsPerDay | None = Field(default=None, alias="gain")
    bred: Date | None = None
    bred_to: Line | None = None
    farrowed: Date | None = Field(default=None, description="Last farrowing, kidding, lambing...")
    litter: WholeOrNone | None = Field(default=None, description="Young at her side.")
    weaned: Date | None = None
    ration_kg_day: KilogramsPerDay | None = Field(default=None, alias="ration")
    feed: Id | None = Field(default=None, description="The id of a feed in equipment.yaml.")
    soak_ratio: Annotated[float, BeforeValidator(_degrees), Field(ge=0, le=5)] | None = Field(
        default=None, alias="soak", description="Parts of water to one part of feed, by weight."
    )
    medicine: Text | None = Field(default=None, description="Name, dose and date, as the vet wrote it.")

    @property
    def called(self) -> str:
        """Return the name or group as the owner writes it."""
        return self.name or self.group or ""

    @property
    def head(self) -> int:
        """Return the number of animals."""
        return self.count or 1


class Shade(Thing):
    """One place of shade."""

    kind: Literal["trees", "cloth", "roof", "wall", "hut"]
    area_m2: SquareMetres = Field(alias="area")
    blocks_pct: Percent | None = Field(default=None, alias="blocks")
    over_wallow: YesNo = False


class Shelter(Thing):
    """A roofed place to lie."""

    area_m2: SquareMetres = Field(alias="area")
    open_ends: WholeOrNone | None = None
    floor: Literal["dirt", "concrete", "slats", "wood", "grass"] | None = None
    bedding_m: Metres | None = Field(default=None, alias="bedding")


class Wallow(Thing):
    """A dug wallow: surface measures and depth of water in the middle."""

    id: Id
    shape: Literal["oval", "round", "rectangle"]
    length_m: Metres = Field(alias="length")
    width_m: Metres | None = Field(default=None, alias="width")
    depth_m: Metres = Field(alias="depth")
    dug: Date | None = None
    last_refreshed: Date | None = None
    well_distance_m: Metres | None = Field(default=None, alias="to_well")
    water_distance_m: Metres | None = Field(default=None, alias="to_stream")
    next_place: Line | None = Field(default=None, description="Where the next one will be dug.")
    fed_by: Id | None = None


class Drinker(Thing):
    """One kind of drinking place in a pen."""

    id: Id
    kind: Literal["nipple", "bowl", "trough", "bell", "tank", "bucket"]
    count: Whole = 1
    flow_l_min: LitresPerMinute | None = Field(default=None, alias="flow")
    holds_l: Litres | None = Field(default=None, alias="holds")
    fed_by: Id | None = Field(default=None, description="A hose, tank or water source id.")
    can_tip: YesNo | None = Field(default=None, description="yes if an animal can tip it over.")
    shaded: YesNo | None = None


class Fan(Thing):
    """A fan in a pen."""

    id: Id
    diameter_m: Metres | None = Field(default=None, alias="diameter")
    air_m3_h: CubicMetresPerHour | None = Field(default=None, alias="air")
    power_w: Watts | None = Field(default=None, alias="power")
    circuit: Id | None = None
    switch: Line | None = Field(default=None, description="Where its switch is.")
    cleaned: Date | None = None


class Pen(Thing):
    """Anywhere animals live."""

    id: Id
    name: Line
    kind: PenKind
    route: Whole | None = Field(default=None, description="Order on the round.")
    area_m2: SquareMetres | None = Field(default=None, alias="area")
    shade: tuple[Shade, ...] = ()
    shelter: Shelter | None = None
    wallow: Wallow | None = None
    drinkers: tuple[Drinker, ...] = ()
    fans: tuple[Fan, ...] = ()
    feeder: Line | None = None
    gate: Line | None = Field(default=None, description="How the gate opens and closes.")
    farrowing: YesNo = False
    round_intervals_h: dict[BandKey, Hours] = Field(default_factory=dict, alias="round_intervals")
    tasks: tuple[Line, ...] = Field(default=(), description="The owner's own extra tasks here.")


class Hose(Thing):
    """A hose or surface pipe."""

    id: Id
    name: Line | None = None
    inside_m: Metres = Field(alias="inside")
    length_m: Metres = Field(alias="length")
    runs: Literal["on the ground", "buried", "overhead"] = "on the ground"
    buried_depth_m: Metres | None = Field(default=None, alias="buried_depth")
    sun: Literal["full", "part", "shade"] = "full"
    colour: Literal["black", "dark", "green", "blue", "red", "brown", "white", "light"] = "dark"
    flow_l_min: LitresPerMinute | None = Field(default=None, alias="flow")
    bypass: Line | None = Field(default=None, description="Where warm water is let out.")
    fed_by: Id | None = Field(default=None, description="A water source, tank or hose id.")


class WaterSource(Thing):
    """Where water comes from."""

    id: Id
    name: Line
    kind: Literal["well", "tap", "pond", "spring", "hauled"]
    flow_l_min: LitresPerMinute | None = Field(default=None, alias="flow")
    temperature_c: Celsius | None = Field(default=None, alias="temperature")
    pump_w: Watts | None = Field(default=None, alias="pump")
    circuit: Id | None = None
    shut_off: Line | None = None


class Tank(Thing):
    """Stored water."""

    id: Id
    name: Line
    holds_l: Litres = Field(alias="holds")
    fed_by: Id | None = None
    needs_power: YesNo | None = None
    shaded: YesNo | None = None
    where: Line | None = None


class Circuit(Thing):
    """A breaker and what hangs on it."""

    id: Id
    breaker_a: Amperes = Field(alias="breaker")
    voltage_v: Volts = Field(default=120.0, alias="voltage")
    where: Line | None = None
    label: Line | None = None
    other_w: Watts | None = Field(default=None, alias="other_load")
    gfci: YesNo | None = None


class Cord(Thing):
    """An extension cord in use."""

    id: Id
    length_m: Metres = Field(alias="length")
    gauge_awg: Whole = Field(alias="gauge")
    feeds: Id | None = None


class Generator(Thing):
    """A portable or standing generator."""

    id: Id
    name: Line
    running_w: Watts = Field(alias="running")
    starting_w: Watts | None = Field(default=None, alias="starting")
    fuel_l: Litres | None = Field(default=None, alias="fuel")
    fuel_l_h: FuelLitresPerHour | None = Field(default=None, alias="fuel_rate")
    where: Line | None = None
    runs: tuple[Id, ...] = Field(default=(), description="Ids of what it must run: pumps, circuits.")
    connection: Line | None = Field(default=None, description="Transfer switch, or cords from its outlets.")


class Product(Thing):
    """Bleach, peroxide or another cleaning product."""

    id: Id
    name: Line
    kind: Literal["bleach", "peroxide", "other"]
    strength_pct: Strength = Field(alias="strength")
    basis: Literal["weight", "volume"] | None = None
    bought: Date | None = None
    kept: Line | None = None
    kept_at_c: Celsius | None = Field(default=None, alias="kept_at")
    label_lists: tuple[Line, ...] = Field(default=(), description="Uses its own label names.")


class Feed(Thing):
    """A feed and the scoop or bucket it is measured with."""

    id: Id
    name: Line
    scoop: Line | None = None
    scoop_holds_kg: Kilograms | None = Field(default=None, alias="scoop_holds")
    kept: Line | None = None
    on_hand_kg: Annotated[float, Field(ge=0), _quantity("weight")] | None = Field(default=None, alias="on_hand")


class Bucket(Thing):
    """A bucket for water or soaking."""

    id: Id
    name: Line
    holds_l: Litres = Field(alias="holds")


class EquipmentFile(Thing):
    """`equipment.yaml`."""

    water_sources: tuple[WaterSource, ...] = ()
    tanks: tuple[Tank, ...] = ()
    hoses: tuple[Hose, ...] = ()
    circuits: tuple[Circuit, ...] = ()
    cords: tuple[Cord, ...] = ()
    generators: tuple[Generator, ...] = ()
    products: tuple[Product, ...] = ()
    feeds: tuple[Feed, ...] = ()
    buckets: tuple[Bucket, ...] = ()
    strips_read_from_mg_l: Annotated[float, Field(gt=0), _quantity("strength")] | None = Field(
        default=None, alias="strips_read_from", description="Lowest step of the chlorine strips."
    )

    @field_validator("strips_read_from_mg_l", mode="after")
    @classmethod
    def _percent_to_mg_l(cls, value: float | None) -> float | None:
        return None if value is None else value * 10_000


class Contact(Thing):
    """Somebody to call."""

    name: Line
    role: Role
    phone: Line
    nights: Line | None = Field(default=None, description="The number to call after hours.")
    hours: Line | None = None
    can: Line | None = Field(default=None, description="What this person can do: has a trailer...")


class Stay(Thing):
    """The dates a sitter covers and the times they come."""

    id: Id
    first: Date = Field(alias="from")
    last: Date = Field(alias="to")
    sitter: Line
    phone: Line | None = None
    visits: tuple[Clock, ...] = ()
    minutes: Whole | None = Field(default=None, description="Minutes the sitter has each visit.")
    sleeps_here: YesNo = False
    new_to_heat: YesNo = False


class Code(Thing):
    """A gate or alarm code: printed, never on the site or phone."""

    what: Line
    code: Line
    where: Line | None = None


class PrivateFile(Thing):
    """`private.yaml`."""

    codes: tuple[Code, ...] = ()


class Farm(BaseModel):
    """The whole farm folder, checked: every reference leads somewhere."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)

    about: FarmFile
    animals: tuple[Animal, ...]
    pens: tuple[Pen, ...]
    equipment: EquipmentFile
    contacts: tuple[Contact, ...]
    stays: tuple[Stay, ...]
    codes: tuple[Code, ...] = ()
    pictures: tuple[str, ...] = ()

    def pen(self, pen_id: str) -> Pen:
        """Return the pen of that id; the check has made sure that it exists."""
        return next(pen for pen in self.pens if pen.id == pen_id)


@dataclass(frozen=True, slots=True)
class Mistake:
    """One thing that does not fit a model: where in it, which sort, and our own sentence if any.

    `sort` is one of: missing, unknown, choice, value, text, long, empty, list, mapping.
    """

    path: tuple[str | int, ...]
    sort: str
    sentence: str = ""


_SORTS = {
    "missing": "missing", "extra_forbidden": "unknown", "literal_error": "choice",
    "value_error": "value", "string_type": "text", "string_too_long": "long",
    "string_too_short": "empty", "tuple_type": "list", "dict_type": "mapping",
    "model_type": "mapping",
}  # fmt: skip

Shape = type[BaseModel]
Model = TypeVar("Model", bound=BaseModel)


def read_as(model: type[Model], data: object) -> Model | tuple[Mistake, ...]:
    """Return `data` as the model, or all that keeps it from being one."""
    try:
        return model.model_validate(data, by_alias=True, by_name=False)
    except ValidationError as error:
        return tuple(
            Mistake(
                path=tuple(part for part in each["loc"] if part != "[key]"),
                sort=_SORTS.get(each["type"], "value"),
                sentence=str(each.get("ctx", {}).get("error", "")),
            )
            for each in error.errors(include_url=False, include_input=False)
        )


def field_at(model: type[BaseModel], path: tuple[str | int, ...]) -> FieldInfo | None:
    """Return the field that a path of YAML keys leads to, None where it leads to none."""
    found: FieldInfo | None = None
    shape: object = model
    for part in path:
        if isinstance(shape, type) and issubclass(shape, BaseModel):
            found = keys(shape).get(str(part))
            if found is None:
                return None
            shape = plain(found.annotation)
        else:  # an item of a list or of a mapping with free keys
            shape = plain(get_args(shape)[-1 if get_origin(shape) is dict else 0])
    return found


def shape_at(model: type[BaseModel], path: tuple[str | int, ...]) -> object:
    """Return the type expected at a path of YAML keys, None where nothing is."""
    shape: object = model
    for part in path:
        if isinstance(shape, type) and issubclass(shape, BaseModel):
            field = keys(shape).get(str(part))
            shape = plain(field.annotation) if field else None
        elif get_origin(shape) is dict:
            shape = plain(get_args(shape)[1])
        elif get_origin(shape) is tuple:
            shape = plain(get_args(shape)[0])
        else:
            return None
    return shape


@lru_cache(maxsize=64)
def keys(model: type[BaseModel]) -> Mapping[str, FieldInfo]:
    """Return the fields of a model by the key the owner writes."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def plain(annotation: object) -> object:
    """Return a type without what is annotated to it, and without `None`."""
    while True:
        if get_origin(annotation) is Annotated:
            annotation = get_args(annotation)[0]
        elif get_origin(annotation) in {Union, UnionType}:
            annotation = next(arg for arg in get_args(annotation) if arg is not type(None))
        else:
            return annotation


def example(annotation: object) -> str:
    """Return how a value of a type may be written, empty where no example is known."""
    if get_origin(annotation) is Annotated:
        for note in get_args(annotation)[1:]:
            if isinstance(note, WithJsonSchema) and note.json_schema:
                return str(note.json_schema["examples"][0])
    inner = plain(annotation)
    return str(get_args(inner)[0]) if get_origin(inner) is Literal else ""
