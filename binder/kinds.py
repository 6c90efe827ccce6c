"""Kinds of quantity, and every way their units may be written in the farm folder."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Kind:
    """A sort of quantity: the unit it is kept in, and the units it may be written in."""

    name: str
    unit: str
    written: dict[str, str]
    examples: str


_LENGTH = {
    "in": "inch", "inch": "inch", "inches": "inch", '"': "inch", "ft": "foot", "foot": "foot",
    "feet": "foot", "'": "foot", "yd": "yard", "yds": "yard", "yard": "yard", "yards": "yard",
    "mile": "mile", "miles": "mile", "mm": "millimeter", "cm": "centimeter", "m": "meter",
    "metre": "meter", "metres": "meter", "meter": "meter", "meters": "meter", "km": "kilometer",
}  # fmt: skip
_AREA = {
    "sqft": "foot**2", "sq ft": "foot**2", "ft2": "foot**2", "square feet": "foot**2",
    "sqm": "meter**2", "sq m": "meter**2", "m2": "meter**2", "square metres": "meter**2",
    "square meters": "meter**2", "acre": "acre", "acres": "acre", "ha": "hectare",
    "hectare": "hectare", "hectares": "hectare", "sq yd": "yard**2",
}  # fmt: skip
_VOLUME = {
    "gal": "gallon", "gallon": "gallon", "gallons": "gallon", "qt": "quart", "qts": "quart",
    "quart": "quart", "quarts": "quart", "pt": "pint", "pts": "pint", "pint": "pint",
    "pints": "pint", "cup": "cup", "cups": "cup", "fl oz": "fluid_ounce", "floz": "fluid_ounce",
    "tbsp": "tablespoon", "tsp": "teaspoon", "l": "liter", "litre": "liter", "litres": "liter",
    "liter": "liter", "liters": "liter", "ml": "milliliter", "m3": "meter**3",
    "cu ft": "foot**3", "ft3": "foot**3", "gals": "gallon",
}  # fmt: skip
_WEIGHT = {
    "lb": "pound", "lbs": "pound", "pound": "pound", "pounds": "pound", "oz": "ounce",
    "kg": "kilogram", "g": "gram", "ton": "short_ton", "tons": "short_ton",
}  # fmt: skip
_TEMPERATURE = {
    "f": "degF", "°f": "degF", "degf": "degF", "deg f": "degF", "c": "degC", "°c": "degC",
    "degc": "degC", "deg c": "degC", "degrees f": "degF", "degrees c": "degC",
}  # fmt: skip
_TIME = {
    "s": "second", "sec": "second", "second": "second", "seconds": "second", "min": "minute",
    "minute": "minute", "minutes": "minute", "h": "hour", "hr": "hour", "hour": "hour",
    "hours": "hour", "hrs": "hour", "mins": "minute", "secs": "second", "day": "day",
    "days": "day", "d": "day", "week": "week", "weeks": "week", "wk": "week", "wks": "week",
    "mo": "month", "mos": "month", "yr": "year", "yrs": "year", "month": "month",
    "months": "month", "year": "year", "years": "year",
}  # fmt: skip
_FLOW = {
    "gal/min": "gallon/minute", "gpm": "gallon/minute", "l/min": "liter/minute",
    "cup/min": "cup/minute", "cups/min": "cup/minute", "ml/min": "milliliter/minute",
    "gal/h": "gallon/hour", "gph": "gallon/hour", "l/h": "liter/hour", "qt/min": "quart/minute",
    "gal/day": "gallon/day", "l/day": "liter/day", "gallons/min": "gallon/minute",
    "gal/minute": "gallon/minute", "gallons/minute": "gallon/minute",
    "cups/minute": "cup/minute", "gallons/hour": "gallon/hour", "gal/hour": "gallon/hour",
    "m3/h": "meter**3/hour", "l/s": "liter/second",
}  # fmt: skip
_STRENGTH = {
    "%": "percent",
    "percent": "percent",
    "ppm": "ppm",
    "mg/l": "ppm",
    "g/l": "permille",
}
_POWER = {
    "w": "watt", "watt": "watt", "watts": "watt", "kw": "kilowatt", "hp": "horsepower",
}  # fmt: skip
_GAIN = {
    "lb/day": "pound/day", "lbs/day": "pound/day", "pounds/day": "pound/day",
    "lb/d": "pound/day", "oz/day": "ounce/day", "kg/day": "kilogram/day",
    "kg/d": "kilogram/day", "g/day": "gram/day",
}  # fmt: skip
_SPEED = {
    "mph": "mile/hour", "m/s": "meter/second", "ft/min": "foot/minute", "fpm": "foot/minute",
    "km/h": "kilometer/hour",
}  # fmt: skip
_FUEL_RATE = {
    "gal/h": "gallon/hour", "gph": "gallon/hour", "gal/hour": "gallon/hour",
    "gallons/hour": "gallon/hour", "l/h": "liter/hour",
}  # fmt: skip
_DAILY_VOLUME = {
    "gal/day": "gallon/day", "l/day": "liter/day", "gal/d": "gallon/day", "l/d": "liter/day",
    "gallons/day": "gallon/day",
}  # fmt: skip

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("length", "m", _LENGTH, "10 in, 0.8 ft or 25 cm"),
        Kind("area", "m2", _AREA, "240 sqft or 22 m2"),
        Kind("volume", "L", _VOLUME, "5 gal, 3 cups or 20 L"),
        Kind("weight", "kg", _WEIGHT, "420 lb or 190 kg"),
        Kind("temperature", "degC", _TEMPERATURE, "96 F or 35 C"),
        Kind("time", "h", _TIME, "2 weeks, 3 h or 40 min"),
        Kind("flow", "L/min", _FLOW, "5 gal/min, 3 cup/min or 2 L/min"),
        Kind("air flow", "m3/h", {"cfm": "foot**3/minute", "m3/h": "meter**3/hour"},
             "2400 cfm or 4000 m3/h"),
        Kind("share", "%", {"%": "percent", "percent": "percent"}, "80 %"),
        Kind("strength", "%", _STRENGTH, "8.25 %, 45 g/L or 500 ppm"),
        Kind("power", "W", _POWER, "750 W, 3.5 kW or 1/2 hp"),
        Kind("current", "A", {"a": "ampere", "amp": "ampere", "amps": "ampere"}, "15 A"),
        Kind("voltage", "V", {"v": "volt", "volt": "volt", "volts": "volt"}, "120 V"),
        Kind("pressure", "kPa", {"psi": "psi", "kpa": "kilopascal", "bar": "bar"},
             "40 psi or 2.8 bar"),
        Kind("gain", "kg/day", _GAIN, "1.6 lb/day or 0.7 kg/day"),
        Kind("depth rate", "mm/day", {"in/day": "inch/day", "mm/day": "millimeter/day",
                                      "in/d": "inch/day", "mm/d": "millimeter/day"},
             "0.25 in/day or 6 mm/day"),
        Kind("speed", "m/s", _SPEED, "400 ft/min or 2 m/s"),
        Kind("sunlight", "W/m2", {"w/m2": "watt/meter**2"}, "1000 W/m2"),
        Kind("fuel rate", "L/h", _FUEL_RATE, "0.6 gal/h or 2.3 L/h"),
        Kind("daily volume", "L/day", _DAILY_VOLUME, "120 gal/day or 450 L/day"),
    )
}  # fmt: skip
