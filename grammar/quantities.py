"""A number with its unit, and a reading with its side."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from grammar import numbers
from grammar.commands import IN_PARTS, Measure, Reading
from grammar.errors import Impossible

UNITS = {
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "in": ("in", "inch", "inches", '"'),
    "ft": ("ft", "foot", "feet", "'"),
}
"""Units a length may be said in; the first word of each is its short form."""

SPOKEN_UNITS = {
    "mm": ("millimetre", "millimetres"),
    "cm": ("centimetre", "centimetres"),
    "m": ("metre", "metres"),
    "in": ("inch", "inches"),
    "ft": ("foot", "feet"),
}
BELOW, ABOVE = -1, 1

ROLES: dict[str, dict[str, Any]] = {
    "metric_unit": {word: unit for unit in ("mm", "cm", "m") for word in UNITS[unit]},
    "inch": dict.fromkeys(UNITS["in"], "in"),
    "foot": dict.fromkeys(UNITS["ft"], "ft"),
    "sign": {"minus": BELOW, "negative": BELOW, "-": BELOW,
             "plus": ABOVE, "positive": ABOVE, "+": ABOVE},
    "side": {"below": BELOW, "low": BELOW, "under": BELOW, "down": BELOW, "lower": BELOW,
             "above": ABOVE, "high": ABOVE, "over": ABOVE, "up": ABOVE, "higher": ABOVE},
    "level": dict.fromkeys(("level", "flush"), 0),
    "zero_mark": {"zero": None},
    "percent_mark": dict.fromkeys(("percent", "%"), None),
    "per": {"per": None},
    "cent": {"cent": None},
    "of": {"of": None},
    "by": dict.fromkeys(("by", "x"), None),
    "reading_unit": {**dict.fromkeys(("inches", "inch", "in"), "in"),
                     **dict.fromkeys(UNITS["mm"], "mm")},
}  # fmt: skip

RULES = """
unit: r_metric_unit | r_inch | r_foot | q_of_an_inch
q_of_an_inch: r_of r_article r_inch
length: number unit | feet_inches
feet_inches: number r_foot [r_and] number r_inch
loose: number unit | q_size | feet_inches
q_size: plain_number | q_parts
q_parts: parts
pair: loose r_by length
reading: q_signed | q_sided | q_unsided | q_level
signed_reading: q_signed | q_sided | q_level | q_bare
q_signed: r_sign loose
q_sided: loose r_side [r_zero_mark] | r_side loose
q_unsided: loose
q_bare: loose
q_level: r_level
several: r_sign q_size q_more_values [unit] | q_size q_more_values [unit] r_side [r_zero_mark]
q_more_values: NUMERAL+
side: r_sign | r_side
percent: number | number r_percent_mark | number r_per r_cent
reading_unit: r_reading_unit
"""


def _length(number: Any, unit: str | None = None) -> Measure:
    return number if isinstance(number, Measure) else Measure(number, unit)


def _size(said: Decimal | Measure) -> Measure:
    return said if isinstance(said, Measure) else Measure(said, None)


def _parts(number: Decimal) -> Measure:
    # 8/8 and 16/8 are whole numbers like any other.
    return Measure(number, IN_PARTS if number % 1 else None)


def _feet_inches(feet: Decimal, _foot: Any, *rest: Any) -> Measure:
    inches = rest[-2]
    if feet != feet.to_integral_value() or inches >= 12:
        raise Impossible("feet and inches go together as 13 ft 6 in")
    return Measure(feet * 12 + inches, "ft-in")


def _pair(first: Measure, _by: Any, second: Measure) -> tuple[Measure, Measure]:
    # "12 by 8 metres": the unit at the end is meant for both.
    without = first.unit in (None, IN_PARTS)
    return (Measure(first.number, second.unit) if without else first), second


def _sided(*said: Any) -> Reading:
    size = next(part for part in said if isinstance(part, Measure))
    side = next(part for part in said if isinstance(part, int))
    return _reading(side, size)


def _reading(side: int, size: Measure) -> Reading:
    return Reading(size.number * side if size.number else size.number, size.unit)


def _unsided(size: Measure) -> Reading:
    # Nothing below and nothing above are the same height: no side is wanted for a zero.
    return Reading(size.number, size.unit, side_said=size.number == 0)


def _bare(size: Measure) -> Reading:
    if size.number == 0:
        # One short word, "oh", must not put a reading in the record.
        raise Impossible("a level reading is said with its point, or as 'level'")
    return _unsided(size)


def _several(*said: Any) -> tuple[Reading, ...]:
    side = next(part for part in said if isinstance(part, int))
    first = next(part for part in said if isinstance(part, Measure))
    more = next(part for part in said if isinstance(part, tuple))
    unit = next((part for part in said if isinstance(part, str)), None)
    sizes = (Measure(first.number, unit or first.unit), *(Measure(size, unit) for size in more))
    return tuple(_reading(side, size) for size in sizes)


BUILDERS: dict[str, Callable[..., Any]] = {
    "unit": lambda unit: unit,
    "q_of_an_inch": lambda *said: said[-1],
    "length": _length,
    "loose": _length,
    "q_size": _size,
    "q_parts": _parts,
    "feet_inches": _feet_inches,
    "pair": _pair,
    "reading": lambda reading: reading,
    "signed_reading": lambda reading: reading,
    "q_signed": _reading,
    "q_sided": _sided,
    "q_unsided": _unsided,
    "q_bare": _bare,
    "q_level": lambda _level: Reading(Decimal(0), None),
    "several": _several,
    "q_more_values": lambda *values: tuple(numbers.typed(value) for value in values),
    "side": lambda side: "below" if side == BELOW else "above",
    "percent": lambda number, *_mark: number,
    "reading_unit": lambda unit: unit,
}


def short_measure(measure: Measure | Reading) -> str:
    """
    A length in its short typed form.

    >>> short_measure(Measure(Decimal("-1.5"), "in")), short_measure(Measure(Decimal(162), "ft-in"))
    ('-1 1/2 in', '13 ft 6 in')
    >>> short_measure(Measure(Decimal("0.375"), IN_PARTS))
    '3/8'
    """
    sign = "-" if measure.number < 0 else ""
    size = abs(measure.number)
    if measure.unit == "ft-in":
        feet, inches = divmod(size, 12)
        return f"{sign}{numbers.plain(feet)} ft {_short_number(inches, 'in')} in"
    number = _short_number(size, measure.unit)
    said = measure.unit and measure.unit != IN_PARTS
    return f"{sign}{number} {measure.unit}" if said else f"{sign}{number}"


def _short_number(size: Decimal, unit: str | None) -> str:
    parts = numbers.as_fraction(size) if unit in ("in", IN_PARTS) else None
    if parts is None:
        return numbers.plain(size)
    whole, top, bottom = parts
    return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"


def short_reading(reading: Reading) -> str:
    """
    A reading in its short typed form, its side as a sign.

    >>> short_reading(Reading(Decimal(18), "mm")), short_reading(Reading(Decimal(0), None))
    ('+18 mm', 'level')
    """
    if reading.number == 0:
        return "level" if reading.unit is None else short_measure(reading)
    plus = "+" if reading.number > 0 and reading.side_said else ""
    return plus + short_measure(reading)


def short_signed(reading: Reading) -> str:
    """
    A reading that stands without its point: a bare zero would not be taken there.

    >>> short_signed(Reading(Decimal(0), "mm"))
    '+0 mm'
    """
    short = short_reading(reading)
    return f"+{short}" if reading.number == 0 and reading.unit else short


def short_several(readings: tuple[Reading, ...]) -> str:
    """
    Several readings of one height, the side and the unit said once.

    >>> short_several((Reading(Decimal(-17), "mm"), Reading(Decimal(-18), "mm")))
    '-17 18 mm'
    """
    # The first may be a zero, which has no side.
    sign = "-" if any(reading.number < 0 for reading in readings) else "+"
    first, *more = (Measure(abs(reading.number), reading.unit) for reading in readings)
    unit = first.unit if first.unit and first.unit != IN_PARTS else None
    # As it was said to be in parts or not; a figure with a unit needs no parts here.
    sizes = [short_measure(first) if unit is None else numbers.plain(first.number)]
    sizes += [numbers.plain(size.number) for size in more]
    return f"{sign}{' '.join(sizes)}{f' {unit}' if unit else ''}"


def short_pair(pair: tuple[Measure, Measure]) -> str:
    """
    Two lengths, the unit said once where it is the same.

    >>> short_pair((Measure(Decimal(12), "m"), Measure(Decimal(8), "m")))
    '12 by 8 m'
    """
    first, second = pair
    if first.unit == second.unit and first.unit != "ft-in":
        return f"{_short_number(first.number, first.unit)} by {short_measure(second)}"
    return f"{short_measure(first)} by {short_measure(second)}"


def spoken_measure(number: Decimal, unit: str) -> str:
    """
    A size to be read out, digit by digit, with its unit.

    >>> spoken_measure(Decimal(18), "mm"), spoken_measure(Decimal("1.625"), "in")
    ('one eight millimetres', 'one and five eighths inches')
    """
    size = abs(number)
    if unit == "ft-in":
        feet, inches = divmod(size, 12)
        return f"{spoken_measure(feet, 'ft')} {spoken_measure(inches, 'in')}"
    one, many = SPOKEN_UNITS[unit]
    parts = numbers.as_fraction(size) if unit == "in" else None
    words = numbers.spoken_fraction(*parts) if parts else numbers.spelled(size)
    return f"{words} {one if 0 < size <= 1 else many}"


def spoken_reading(number: Decimal, unit: str) -> str:
    """
    A height against the zero to be read out: never a bare sign.

    >>> spoken_reading(Decimal(-18), "mm"), spoken_reading(Decimal(0), "mm")
    ('one eight millimetres below', 'level')
    """
    if number == 0:
        return "level"
    return f"{spoken_measure(number, unit)} {'below' if number < 0 else 'above'}"
