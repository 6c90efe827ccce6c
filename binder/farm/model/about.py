"""`farm.yaml`: the farm itself, its place, its weather and its rules."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from binder import languages, places
from binder.display import System
from binder.farm import zones
from binder.farm.model.ground import FarmMap, MapPoint
from binder.farm.model.refers import Prose, Withheld
from binder.farm.model.thing import Thing
from binder.farm.model.values import (
    Celsius,
    Clock,
    Country,
    Hours,
    Index,
    Language,
    Latitude,
    Line,
    Link,
    Longitude,
    MillimetresPerDay,
    Past,
    Text,
    TimeZone,
)

MendKey = Literal["waterer", "flow", "bury", "cloth", "tub", "tank", "breaker", "fan"]
BandKey = Literal["fine", "warm", "hot", "severe", "all_hands"]
Month = Literal[
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
]  # fmt: skip


class Spot(Thing):
    """Where the farm is: the address for the emergency number first."""

    address: Line | None = Field(
        default=None,
        description="Address as it is said when 911 (or 112, 000...) is called.",
        examples=["12 Example Road, Somewhere, Georgia"],
    )
    directions: Text | None = Field(default=None, description="How to find the gate.")
    latitude: Latitude | None = Field(
        default=None, description="Degrees north; with longitude, or not at all."
    )
    longitude: Longitude | None = Field(
        default=None, description="Degrees east, so below nought in America."
    )
    timezone: TimeZone | None = Field(default=None, description="Like America/New_York.")
    map: Link | None = Field(default=None, description="Link to a map.")
    phone_signal: Line | None = Field(
        default=None,
        description="Where a mobile phone has signal on the farm, and where it has none.",
        examples=["At the barn and on the road"],
    )


class Weather(Thing):
    """A day's weather in three numbers."""

    high_c: Celsius = Field(
        alias="high", description="The day's highest air temperature, in shade."
    )
    low_c: Celsius = Field(
        alias="low", description="The night's lowest air temperature.", examples=["75 F"]
    )
    dew_point_c: Celsius = Field(
        alias="dew_point", description="Dew point in the afternoon.", examples=["74 F"]
    )
    hottest_at: Clock | None = Field(
        default=None, description="Clock time of the hottest air.", examples=["15:30"]
    )


class ShutOff(Thing):
    """Where something is switched off: water, power, fence, fuel."""

    what: Line = Field(description="What it shuts off.", examples=["All water"])
    where: Line = Field(
        description="Where it is and which way is off.",
        examples=["Red lever in the well house"],
    )
    at: MapPoint | None = Field(default=None, description="Where it is on the map.")


def _address_alone(value: object) -> object:
    """Return a place for `place: Somewhere, Georgia`: the address is enough to begin with."""
    return {"address": value} if isinstance(value, str) else value


class FarmFile(Thing):
    """`farm.yaml`: the farm itself."""

    name: Annotated[Line, Withheld("Farm")] = Field(
        description="What the farm is called.", examples=["Quiet Acre"]
    )
    place: Annotated[
        Spot, BeforeValidator(_address_alone, json_schema_input_type=Spot | str), Prose()
    ] = Field(
        description="Where it is: an address alone, or keys below it.",
        examples=["12 Example Road, Somewhere, Georgia"],
    )
    country: Annotated[Country | None, Withheld()] = Field(
        default=None,
        description="Whose numbers, law, clock and commas; from the time zone if left out.",
    )
    language: Annotated[Language, Withheld()] = Field(
        default=languages.ENGLISH, description="The language of the binder."
    )
    emergency_number: Annotated[Line | None, Withheld()] = Field(
        default=None,
        description="Whom to call where life is in danger; else the country's number.",
        examples=["112"],
    )
    poison_line: Annotated[Line | None, Withheld()] = Field(
        default=None,
        description="Whom to call about poison; else the country's line.",
        examples=["0800 555 0100, day and night"],
    )
    units_written: Annotated[Literal["us", "metric"] | None, Withheld()] = Field(
        default=None,
        alias="units",
        description="The measures that the binder prints; else those of the country.",
    )
    paper_written: Annotated[Literal["letter", "a4"] | None, Withheld()] = Field(
        default=None, alias="paper", description="Paper of the print; else the country's."
    )
    site_address: Link | None = Field(
        default=None, description="Where the site is hosted on the farm."
    )
    owner_says: Text | None = Field(
        default=None, description="The owner's own words to the sitter."
    )
    thermometer: Line | None = Field(default=None, description="Where the thermometer hangs.")
    hygrometer: Line | None = Field(default=None, description="Where the humidity dial hangs.")
    climate: dict[Month, Weather] = Field(
        default_factory=dict, description="A typical day, by month: january to december."
    )
    hot_day: Weather | None = Field(default=None, description="The farm's typical hot day.")
    extreme_day: Weather | None = Field(default=None, description="The worst day to plan for.")
    evaporation_mm_day: MillimetresPerDay | None = Field(
        default=None, alias="evaporation", description="What open water loses on a hot day."
    )
    all_hands_index: Index | None = Field(
        default=None,
        alias="all_hands_from",
        description="Livestock index where All hands starts.",
    )
    round_intervals_h: dict[BandKey, Hours] = Field(
        default_factory=dict,
        alias="round_intervals",
        description="Longest time between two rounds, by band.",
    )
    costs: dict[MendKey, Line] = Field(
        default_factory=dict,
        description="What each mend would cost you, printed beside what it saves.",
        examples=['{cloth: "$60"}'],
    )
    shut_offs: tuple[ShutOff, ...] = Field(
        default=(), description="Where water, power, fence and fuel are shut off."
    )
    map: FarmMap | None = Field(
        default=None, description="The map of the farm: a picture, or places and lines to draw."
    )
    eggs: Line | None = Field(
        default=None, description="When eggs are collected and where they go."
    )
    last_flow_test: Past | None = Field(
        default=None, description="When the flow of the drinkers was last measured."
    )
    last_fan_cleaning: Past | None = Field(
        default=None, description="When the fans were last cleaned."
    )

    @property
    def pack(self) -> places.Pack:
        """Return what is so in the farm's country.

        Where the owner names none, the time zone tells; without either, a farm in US measures
        (or that names none) is in the US, and another is told nothing that may not hold there.
        """
        if self.country is not None:
            return places.pack(self.country)
        zone = self.place.timezone
        if zone is not None:
            found = places.by_zone_country().get(zones.countries().get(zone, ""))
            return places.pack(found or places.ANYWHERE)
        metric = self.units_written == "metric"
        return places.pack(places.ANYWHERE if metric else places.HOME)

    @property
    def emergency(self) -> str:
        """Return the number for a life in danger: the owner's, else the country's or none."""
        return self.emergency_number or self.pack.said("emergency")

    @property
    def units(self) -> System:
        """Return the measures that lead: the owner's, else the country's."""
        return self.units_written or self.pack.system

    @property
    def paper(self) -> Literal["letter", "a4"]:
        """Return the paper of the print: the owner's, else the country's."""
        return self.paper_written or ("letter" if self.pack.said("paper") == "letter" else "a4")
