"""What a bag or a data sheet prints, in its own units, as the numbers of a product card.

"50 lb", "5 to 5.5 qt", "1/8 in", "250 ft²/gal": each with the unit it is printed in, which is
never guessed. Factors are those of the one pint registry, exactly.
"""

from __future__ import annotations

import re
from fractions import Fraction

from assistant.errors import CardError
from assistant.units.kinds import registry
from assistant.units.temperature import from_fahrenheit
from grammar.frozen import frozen

__all__ = ["QUANTITIES", "Printed", "in_card_unit", "printed"]

PLACES = 4
"""Decimals that a converted number is kept to: a tenth of a millilitre, of a gram."""

QUANTITIES: dict[str, dict[str, str]] = {
    "length": {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot"},
    "mass": {"kg": "kilogram", "g": "gram", "lb": "pound"},
    "volume": {
        "L": "liter", "mL": "milliliter", "qt": "quart", "gal": "gallon", "pt": "pint",
        "ft³": "foot ** 3", "m³": "meter ** 3",
    },
    "density": {
        "kg/m³": "kilogram / meter ** 3", "kg/L": "kilogram / liter", "lb/ft³": "pound / foot ** 3",
        "lb/gal": "pound / gallon", "g/cm³": "gram / centimeter ** 3",
    },
    "coverage": {"m²/L": "meter ** 2 / liter", "ft²/gal": "foot ** 2 / gallon"},
    "time": {"min": "minute", "h": "hour", "days": "day"},
    "temperature": {"C": "", "F": ""},
    "share": {"%": ""},
    "emission": {"lb": ""},
    "pH": {"": ""},
    "count": {"": ""},
}  # fmt: skip
"""Kind of quantity -> unit as it is printed -> the same for pint; US gallons and quarts."""

_WORDS = {
    "millimetre": "mm", "millimeter": "mm", "centimetre": "cm", "centimeter": "cm", "metre": "m",
    "meter": "m", "inche": "in", "inch": "in", '"': "in", "″": "in", "feet": "ft", "foot": "ft",
    "'": "ft", "kilogram": "kg", "kilo": "kg", "gram": "g", "pound": "lb", "lbs": "lb", "#": "lb",
    "l": "L", "litre": "L", "liter": "L", "ml": "mL", "millilitre": "mL", "milliliter": "mL",
    "quart": "qt", "gallon": "gal", "pint": "pt", "minute": "min", "hour": "h", "hr": "h",
    "day": "days", "d": "days", "c": "C", "celsius": "C", "f": "F", "fahrenheit": "F",
    "percent": "%", "ph": "",
}  # fmt: skip
"""As people write them, the plural's s left off -> as a card's question names them."""

_NUMBER = r"-?(?:\d+[ -]\d+/\d+|\d+/\d+|\d+\.\d+|\.\d+|\d+)"
_PRINTED = re.compile(
    rf"\s*(?P<low>{_NUMBER})\s*(?P<unit>[^\d\s].*?)??\s*"
    rf"(?:(?:to|and|through|-|–|—)\s*(?P<high>{_NUMBER})\s*(?P<last>[^\d\s].*)?)?\s*$"
)


@frozen
class Printed:
    """One or two numbers and the unit they are printed in."""

    low: Fraction
    high: Fraction
    """The same as the lower one where there is one number."""
    unit: str
    is_range: bool = False


def printed(text: str, quantity: str) -> Printed:
    """
    An answer as it stands on the bag.

    Raises :class:`CardError` where a number or its unit is missing, or another kind of unit is
    given; it says what would be right.

    >>> printed("1 1/2 inches", "length")
    Printed(low=Fraction(3, 2), high=Fraction(3, 2), unit='in', is_range=False)
    >>> printed("5 - 5.5 quarts", "volume").unit
    'qt'
    """
    units = [unit for unit in QUANTITIES[quantity] if unit]
    if re.search(r"\d,\d", text):
        raise CardError(f"“{text.strip()}”: write a decimal with a point, and thousands plainly.")
    found = _PRINTED.fullmatch(text)
    if found is None:
        like = f"a number and its unit: {_listed(units)}" if units else "a number"
        raise CardError(f"“{text.strip()}”: that takes {like}.")
    said = (found["last"] or found["unit"] or "").strip()
    unit = _unit_named(said)
    if not said and units and quantity not in ("share", "emission"):
        raise CardError(f"“{text.strip()}”: in which unit, {_listed(units)}?")
    if not said:
        unit = next(iter(QUANTITIES[quantity]))
    if unit not in QUANTITIES[quantity]:
        like = _listed(units) if units else "no unit"
        raise CardError(f"“{said}”: that takes {like}.")
    low = _number(found["low"])
    high = low if found["high"] is None else _number(found["high"])
    return Printed(low, high, unit, found["high"] is not None)


def in_card_unit(number: Fraction, unit: str, quantity: str, card_unit: str) -> float:
    """
    A number in the unit that a card's key is in.

    >>> in_card_unit(Fraction(50), "lb", "mass", "kg"), in_card_unit(Fraction(1, 8), "in",
    ...     "length", "mm")
    (22.6796, 3.175)
    >>> in_card_unit(Fraction(50), "F", "temperature", "C")
    10.0
    """
    if quantity == "temperature":
        exact = from_fahrenheit(number) if unit == "F" else number
    elif unit == card_unit:
        exact = number
    else:
        units, names = registry(), QUANTITIES[quantity]
        exact = units.Quantity(number, names[unit]).to(names[card_unit]).magnitude
    return round(float(exact), PLACES)


def _number(text: str) -> Fraction:
    try:
        if "/" not in text:
            return Fraction(text)
        return sum((Fraction(part) for part in re.split("[ -]", text)), Fraction(0))
    except ZeroDivisionError:
        raise CardError(f"“{text}” divides by nothing.") from None


def _unit_named(said: str) -> str:
    """``ft²/gal`` of "sq. ft. per gallon"."""
    plain = re.sub(r"\bper\b", "/", said.strip().rstrip(".").casefold().replace("°", " "))
    plain = re.sub(r"\b(degrees?|deg|us|u\.s\.)\b", " ", plain)
    return "/".join(_single(part) for part in plain.split("/"))


def _single(part: str) -> str:
    words = part.replace(".", " ").split()
    power = ""
    if words and words[0] in ("sq", "square"):
        words, power = words[1:], "²"
    elif words and words[0] in ("cu", "cubic"):
        words, power = words[1:], "³"
    name = " ".join(words)
    for sign, meant in (("^2", "²"), ("^3", "³"), ("²", "²"), ("³", "³"), ("2", "²"), ("3", "³")):
        if name.endswith(sign):
            name, power = name.removesuffix(sign), meant
    known = next((_WORDS[each] for each in (name, name.removesuffix("s")) if each in _WORDS), name)
    return known + power


def _listed(units: list[str]) -> str:
    return ", ".join(units[:-1]) + f" or {units[-1]}" if len(units) > 1 else "".join(units)
