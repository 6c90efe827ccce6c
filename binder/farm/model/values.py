"""What one value in a farm file may be: how it is written, its range, and how that is said.

Each type carries a schema of what may be written, so that an editor and our own messages show
the same example.
"""

from __future__ import annotations

import datetime as dt
from typing import Annotated

from pydantic import BeforeValidator, WithJsonSchema

from binder.farm.model.numbers import (
    DECIMAL,
    decimal,
    quantity,
    quantity_schema,
    whole,
    wire,
)
from binder.farm.model.readers import (
    CLOCK,
    DATE,
    ID,
    LONGEST_LINE,
    LONGEST_TEXT,
    clock,
    country,
    date,
    extension,
    id_,
    language,
    link,
    phone,
    schema,
    time_zone,
    words,
    yes_or_no,
)
from binder.farm.model.refers import Happened, Prose

_TEXTS = ["string", "number", "boolean"]  # an editor may take 4071 or yes for something else

Metres = Annotated[float, quantity("run"), quantity_schema("run")]
CordMetres = Annotated[float, quantity("cord"), quantity_schema("cord")]
Spans = Annotated[float, quantity("span"), quantity_schema("span")]
Depths = Annotated[float, quantity("depth"), quantity_schema("depth")]
Bores = Annotated[float, quantity("bore"), quantity_schema("bore")]
Walls = Annotated[float, quantity("wall"), quantity_schema("wall")]
Pressures = Annotated[float, quantity("pressure"), quantity_schema("pressure")]
SquareMetres = Annotated[float, quantity("ground"), quantity_schema("ground")]
TankLitres = Annotated[float, quantity("tank"), quantity_schema("tank")]
Litres = Annotated[float, quantity("vessel"), quantity_schema("vessel")]
BucketLitres = Annotated[float, quantity("bucket"), quantity_schema("bucket")]
FuelLitres = Annotated[float, quantity("fuel tank"), quantity_schema("fuel tank")]
Kilograms = Annotated[float, quantity("animal weight"), quantity_schema("animal weight")]
Scoopfuls = Annotated[float, quantity("scoop"), quantity_schema("scoop")]
Stock = Annotated[float, quantity("stock"), quantity_schema("stock")]
Celsius = Annotated[float, quantity("air temperature"), quantity_schema("air temperature")]
WaterCelsius = Annotated[
    float, quantity("water temperature"), quantity_schema("water temperature")
]
Hours = Annotated[float, quantity("interval"), quantity_schema("interval")]
LitresPerMinute = Annotated[float, quantity("flow"), quantity_schema("flow")]
CubicMetresPerHour = Annotated[float, quantity("fan air"), quantity_schema("fan air")]
Percent = Annotated[float, quantity("share"), quantity_schema("share")]
Strength = Annotated[float, quantity("strength"), quantity_schema("strength")]
Watts = Annotated[float, quantity("load"), quantity_schema("load")]
Amperes = Annotated[float, quantity("breaker"), quantity_schema("breaker")]
Volts = Annotated[float, quantity("mains"), quantity_schema("mains")]
KilogramsPerDay = Annotated[float, quantity("ration"), quantity_schema("ration")]
Gains = Annotated[float, quantity("gain"), quantity_schema("gain")]
FuelLitresPerHour = Annotated[float, quantity("burn"), quantity_schema("burn")]
MillimetresPerDay = Annotated[float, quantity("evaporation"), quantity_schema("evaporation")]

_WHOLE_SCHEMA = {"pattern": "^[0-9]{1,6}$"}
_DECIMAL_SCHEMA = {"pattern": DECIMAL.pattern}
Whole = Annotated[int, whole(1, 100_000), schema(["integer", "string"], "8", **_WHOLE_SCHEMA)]
WholeOrZero = Annotated[
    int, whole(0, 100_000), schema(["integer", "string"], "9", **_WHOLE_SCHEMA)
]
_WIRE_SCHEMA = {
    "pattern": "^[0-9]{1,2}([.,][0-9]{1,2})?( ?[A-Za-z]{2,3}( ?mm|\\^?2|\u00b2)?)?$"
}
Gauge = Annotated[int, wire(1, 24), schema(["integer", "string"], "12", **_WIRE_SCHEMA)]
Index = Annotated[int, whole(84, 110), schema(["integer", "string"], "90", **_WHOLE_SCHEMA)]
Latitude = Annotated[
    float,
    decimal(-90, 90, "a latitude in degrees", "31.55"),
    schema(["number", "string"], "31.55", **_DECIMAL_SCHEMA),
]
Longitude = Annotated[
    float,
    decimal(-180, 180, "a longitude in degrees", "-82.12"),
    schema(["number", "string"], "-82.12", **_DECIMAL_SCHEMA),
]
Ratio = Annotated[
    float,
    decimal(0, 5, "a plain number", "1.5"),
    schema(["number", "string"], "1.5", **_DECIMAL_SCHEMA),
]
YesNo = Annotated[
    bool,
    BeforeValidator(yes_or_no),
    WithJsonSchema({"enum": ["yes", "no", "true", "false", True, False], "examples": ["yes"]}),
]
Date = Annotated[
    dt.date,
    BeforeValidator(date),
    schema("string", "2026-07-14", pattern=f"^{DATE.pattern}$"),
]
Past = Annotated[
    dt.date,
    BeforeValidator(date),
    schema("string", "2026-07-14", pattern=f"^{DATE.pattern}$"),
    Happened(),
]
Clock = Annotated[
    dt.time, BeforeValidator(clock), schema("string", "06:30", pattern=f"^{CLOCK.pattern}$")
]
Id = Annotated[
    str,
    BeforeValidator(id_),
    schema(["string", "integer"], "creek", pattern=f"^{ID.pattern}$"),
]
Line = Annotated[
    str,
    BeforeValidator(words(LONGEST_LINE, one_line=True)),
    schema(_TEXTS, minLength=1, maxLength=LONGEST_LINE),
    Prose(),
]
Text = Annotated[
    str,
    BeforeValidator(words(LONGEST_TEXT, one_line=False)),
    schema(_TEXTS, minLength=1, maxLength=LONGEST_TEXT),
    Prose(),
]
Phone = Annotated[
    str, BeforeValidator(phone), schema(_TEXTS, "912-555-0110", maxLength=LONGEST_LINE)
]
Extension = Annotated[
    str, BeforeValidator(extension), schema(["string", "integer"], "12", pattern="^[0-9]{1,8}$")
]
Link = Annotated[
    str,
    BeforeValidator(link),
    schema("string", "https://example.org/map", pattern="^https?://"),
]
TimeZone = Annotated[str, BeforeValidator(time_zone), schema("string", "America/New_York")]
Country = Annotated[
    str, BeforeValidator(country), schema("string", "es", pattern="^[A-Za-z]{2}$")
]
Language = Annotated[
    str, BeforeValidator(language), schema("string", "en", pattern="^[A-Za-z]{2,3}$")
]
