"""Units and kinds of quantity: names, what people type for them, and their exact definitions.

Definitions are exact: NIST SP 811 (2008) Appendix B and NIST Handbook 44 Appendix C for the US
customary units; the Weights and Measures Act 1985 Schedule 1 (UK) for the imperial gallon.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit.

    Attributes:
        name: as shown, for example ``fl oz``.
        kind: the kind of quantity that it measures.
        definition: one line in the language of the unit registry.
        typed: other lower-case spellings that people type, without full stops.
    """

    name: str
    kind: str
    definition: str
    typed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of quantity.

    Attributes:
        base: the unit of every value that the program computes with.
        shown: the units that a person can choose to see, the base first.
        example: what to write, for the sentences.
        bare: unit of a number typed without one, where the field assumes nothing.
        largest: magnitude above which a value is a slip of the finger, in the base unit.
        ratio: kinds above and below the line, where the kind is a ratio.
        decimals: the most decimals that a value can have.
        signed: whether a value below zero has a meaning.
    """

    base: str
    shown: tuple[str, ...]
    example: str
    largest: float
    bare: str | None = None
    ratio: tuple[str, str] | None = None
    decimals: int | None = None
    signed: bool = False


KINDS: dict[str, Kind] = {
    "mass": Kind("g", ("g", "kg", "oz", "lb", "lb oz"), "1020 g, 2 lb 4 oz", 1e9),
    "volume": Kind("mL", ("mL", "L", "fl oz", "UK fl oz"), "250 mL, 9 fl oz", 1e9),
    "length": Kind("mm", ("mm", "cm", "in"), "75 mm, 2 5/8 in", 1e7),
    "temperature": Kind("°C", ("°C", "°F"), "82 °C, 180 °F", 2000.0, bare="°C", signed=True),
    "load": Kind("%", ("%", "oz/lb"), "6 %, 1 oz/lb", 100.0, bare="%", ratio=("mass", "mass")),
    "percent": Kind("%", ("%",), "6 %", 100_000.0, bare="%"),
    "density": Kind(
        "g/mL", ("g/mL", "kg/m³", "lb/gal"), "860 kg/m³, 7 lb/gal", 10_000.0,
        bare="g/mL", ratio=("mass", "volume"),
    ),
    "count": Kind("", ("",), "12", 1e9, bare="", decimals=0),
    "money": Kind("", ("",), "12", 1e9, bare="", decimals=2, signed=True),
    "number": Kind("", ("",), "12", 1e12, bare=""),
    "duration": Kind("min", ("min", "h"), "90 min, 1 h 30 min", 1e7),
    "days": Kind("d", ("d",), "14 days, 2 weeks", 100_000.0, bare="d", decimals=0),
}  # fmt: skip

UNITS: tuple[Unit, ...] = (
    Unit("g", "mass", "gram = [mass]", ("gram", "grams", "gramme", "grammes", "gramm")),
    Unit("mg", "mass", "milligram = 1/1000 * gram", ("milligram", "milligrams")),
    Unit("kg", "mass", "kilogram = 1000 * gram", ("kilo", "kilos", "kgs", "kilogram", "kilograms")),
    Unit("lb", "mass", "pound = 45359237/100000 * gram", ("lbs", "pound", "pounds")),
    Unit("oz", "mass", "ounce = 1/16 * pound", ("ozs", "ounce", "ounces")),
    Unit("mL", "volume", "milliliter = [volume]", ("cc", "cm3", "milliliter", "millilitre",
         "milliliters", "millilitres")),
    Unit("µL", "volume", "microliter = 1/1000 * milliliter", ("ul",)),
    Unit("cL", "volume", "centiliter = 10 * milliliter"),
    Unit("dL", "volume", "deciliter = 100 * milliliter"),
    Unit("L", "volume", "liter = 1000 * milliliter", ("liter", "litre", "liters", "litres", "dm3")),
    Unit("m³", "volume", "cubic_meter = 1000000 * milliliter", ("m3",)),
    Unit("gal", "volume", "gallon = 3785411784/1000000 * milliliter", ("gallon", "gallons")),
    Unit("qt", "volume", "quart = 1/4 * gallon", ("quart", "quarts")),
    Unit("pt", "volume", "pint = 1/8 * gallon", ("pint", "pints")),
    Unit("cup", "volume", "cup = 1/16 * gallon", ("cups",)),
    Unit("fl oz", "volume", "fluid_ounce = 1/128 * gallon", ("floz", "fluid ounce",
         "fluid ounces", "us fl oz")),
    Unit("UK gal", "volume", "imperial_gallon = 454609/100 * milliliter"),
    Unit("UK qt", "volume", "imperial_quart = 1/4 * imperial_gallon"),
    Unit("UK pt", "volume", "imperial_pint = 1/8 * imperial_gallon"),
    Unit("UK fl oz", "volume", "imperial_fluid_ounce = 1/160 * imperial_gallon", ("imp fl oz",)),
    Unit("mm", "length", "millimeter = [length]", ("millimeter", "millimetre", "millimeters",
         "millimetres")),
    Unit("µm", "length", "micrometer = 1/1000 * millimeter", ("um",)),
    Unit("cm", "length", "centimeter = 10 * millimeter", ("centimeter", "centimetre",
         "centimeters", "centimetres")),
    Unit("m", "length", "meter = 1000 * millimeter", ("meter", "metre", "meters", "metres")),
    Unit("in", "length", "inch = 254/10 * millimeter", ("inch", "inches", '"', "''")),
    Unit("ft", "length", "foot = 12 * inch", ("foot", "feet", "'")),
    Unit("°C", "temperature", "celsius = [temperature]; offset: 0", ("c", "celsius", "degc")),
    Unit("°F", "temperature", "fahrenheit = 5/9 * celsius; offset: -160/9", ("f", "fahrenheit",
         "degf")),
    Unit("K", "temperature", "kelvin = 1 * celsius; offset: -27315/100", ("kelvin",)),
    Unit("min", "duration", "minute = [time]", ("mins", "minute", "minutes")),
    Unit("s", "duration", "second = 1/60 * minute", ("sec", "secs", "second", "seconds")),
    Unit("h", "duration", "hour = 60 * minute", ("hr", "hrs", "hour", "hours")),
    Unit("d", "days", "day = [days]", ("day", "days")),
    Unit("wk", "days", "week = 7 * day", ("wks", "week", "weeks")),
    Unit("%", "percent", "percent = []", ("percent", "pct")),
)  # fmt: skip

BY_NAME: dict[str, Unit] = {unit.name: unit for unit in UNITS}


def kind_of(kind: str) -> Kind:
    """The row of the table for a kind.

    Raises:
        ValueError: no such kind; a slip in the program, not of the person.
    """
    if kind not in KINDS:
        raise ValueError(kind)
    return KINDS[kind]


# "gr" is grain or gram, "t" a ton or a teaspoon, "fl" half a unit, "m" of time a minute or a month.
UNCLEAR = frozenset({"gr", "#", "fl", "t", "tbsp", "tsp", "ton", "tons", "dr"})

# Smaller unit that may follow a larger one in one value.
NEXT_SMALLER = {"lb": "oz", "ft": "in", "kg": "g", "L": "mL", "h": "min", "min": "s", "wk": "d"}

IMPERIAL = {"gal": "UK gal", "qt": "UK qt", "pt": "UK pt", "fl oz": "UK fl oz"}

_BY_TYPED: dict[str, str] = {
    typed: unit.name for unit in UNITS for typed in (unit.name.lower(), *unit.typed)
}


def unit_name(typed: str, *, imperial: bool = False) -> str | None:
    """The shown name of a unit as typed, or None for an unknown or unclear one.

    Args:
        typed: a spelling in any case, full stops allowed; ratios such as ``oz/lb`` too.
        imperial: read fl oz, pt, qt and gal as the UK's.
    """
    above, line, below = typed.partition("/")
    if line:
        pair = unit_name(above, imperial=imperial), unit_name(below, imperial=imperial)
        return f"{pair[0]}/{pair[1]}" if pair[0] and pair[1] else None
    words = " ".join(typed.lower().replace(".", " ").split())
    for written, meant in (("° ", "°"), ("degrees ", "°"), ("degree ", "°"), ("deg ", "°"),
                           ("³", "3")):  # fmt: skip
        words = words.replace(written, meant)
    name = _BY_TYPED.get(words)
    if name and imperial and not words.startswith("us "):
        return IMPERIAL.get(name, name)
    return name
