"""A length with its unit, and pairs of them; feet and inches, and fractions of an inch."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from grammar import numbers
from grammar.commands import IN_PARTS, Measure, Reading
from grammar.errors import Impossible, Unsayable
from grammar.numbers import in_words
from grammar.slots.number import (
    FIGURE,
    NEXT_FIGURE,
    SpokenNumbers,
    sample_number,
    sample_parts,
    sample_plain,
)
from grammar.slots.slot import Slot, SpokenForm, TypedOnly, ValueKind, alternatives_of, one_of

if TYPE_CHECKING:
    from random import Random

UNITS = {
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters", "mil", "mils", "mill"),
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
_UNIT_WORDS = {unit: words[1] for unit, words in SPOKEN_UNITS.items()}

_ROLES: dict[str, dict[str, Any]] = {
    "metric_unit": {word: unit for unit in ("mm", "cm", "m") for word in UNITS[unit]},
    "inch": dict.fromkeys(UNITS["in"], "in"),
    "foot": dict.fromkeys(UNITS["ft"], "ft"),
    "of": {"of": None},
    "by": dict.fromkeys(("by", "x"), None),
    "unit_system": {"metric": "mm", "imperial": "in"},
    "reading_unit": {
        **dict.fromkeys(("inches", "inch", "in"), "in"),
        **dict.fromkeys(UNITS["mm"], "mm"),
    },
}

_RULES = """
unit: r_metric_unit | r_inch | r_foot | q_of_an_inch
q_of_an_inch: [r_of] r_article r_inch
q_inches_and_part: number r_inch r_and n_fraction | [r_article] r_inch r_and n_fraction
feet_inches: number r_foot [r_and] number r_inch
q_size: plain_number | q_parts
q_parts: parts
"""


def _length(number: Any, unit: str | None = None) -> Measure:
    return number if isinstance(number, Measure) else Measure(number, unit)


def _size(said: Decimal | Measure) -> Measure:
    return said if isinstance(said, Measure) else Measure(said, None)


def _inches_and_part(*said: Any) -> Measure:
    whole = said[0] if isinstance(said[0], Decimal) else 1  # "an inch and a half"
    if whole != int(whole):
        raise Impossible("a mixed number is a whole number and a part of one: one and a half")
    return Measure(whole + said[-1], "in")


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
        return f"{sign}{numbers.plain_number(feet)} ft {short_number(inches, 'in')} in"
    number = short_number(size, measure.unit)
    said = measure.unit and measure.unit != IN_PARTS
    return f"{sign}{number} {measure.unit}" if said else f"{sign}{number}"


def short_number(size: Decimal, unit: str | None) -> str:
    parts = numbers.as_fraction(size) if unit in ("in", IN_PARTS) else None
    if parts is None:
        return numbers.plain_number(size)
    whole, top, bottom = parts
    return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"


def short_pair(pair: tuple[Measure, Measure]) -> str:
    """
    Two lengths, the unit said once where it is the same.

    >>> short_pair((Measure(Decimal(12), "m"), Measure(Decimal(8), "m")))
    '12 by 8 m'
    """
    first, second = pair
    if first.unit == second.unit and first.unit != "ft-in":
        return f"{short_number(first.number, first.unit)} by {short_measure(second)}"
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
    words = numbers.spoken_fraction(*parts) if parts else numbers.spelled_digits(size)
    return f"{words} {one if 0 < size <= 1 else many}"


# --- said aloud -----------------------------------------------------------------

_ODD_SIXTEENTHS = [in_words(number) for number in range(3, 16, 2)]
_SPOKEN_PIECES = {
    "part": "(one | a) half | (one | a) quarter | three quarters | (one | an) eighth"
    " | (three | five | seven) eighths | (one | a) sixteenth"
    f" | {alternatives_of(_ODD_SIXTEENTHS)} sixteenths",
    "millimetres": "(<under_thousand> | <tenths>) millimetres",
    "centimetres": "(<under_hundred> | <tenths>) centimetres",
    "inches": "(<under_hundred> | [<under_hundred> and] (<part>)) inches",
    "size": "(<millimetres> | <centimetres> | <inches>)",
    "metre_number": "(<under_hundred> | (<worded_hundred> | zero) point <any_digit> [<any_digit>])",
    "feet": "<under_hundred> feet [<under_twelve> inches]",
}
"""Metres of a reading, decimal inches and thirty-seconds are for typing only: each further word
is one more that others can be mistaken for."""
_FIGURES = {
    "metre_number": f"({FIGURE} [{NEXT_FIGURE}] | 0) +. {NEXT_FIGURE} [{NEXT_FIGURE}]",
    "inches": f"[{FIGURE} [{NEXT_FIGURE}] [and]] <part_figures> inches",
    "part_figures": "1 +/ (+2 | +4 | +8 | +1 +6) | 3 +/ (+4 | +8 | +1 +6)"
    " | (5 | 7) +/ (+8 | +1 +6) | 9 +/ +1 +6 | 1 (+1 | +3 | +5) +/ +1 +6",
}
_SPELLINGS = {
    "millimetres": ("millimeters", "millimetre", "millimeter", "mm"),
    "centimetres": ("centimeters", "centimetre", "centimeter", "cm"),
    "metres": ("meters", "metre", "meter", "m"),
    "inches": ("inch",),
    "feet": ("foot",),
}


def say_size(voice: SpokenNumbers, size: Measure) -> str:
    """A short length, as a reading has: millimetres, centimetres or inches."""
    if size.unit in ("mm", "cm"):
        said = voice.number(size.number, 1000 if size.unit == "mm" else 100)
    elif size.unit == "in":
        said = voice.fraction(size.number)
    else:
        raise Unsayable
    return f"{said} {_UNIT_WORDS[size.unit]}"


def _say_length(voice: SpokenNumbers, length: Measure) -> str:
    number, unit = length.number, length.unit
    if unit == "ft-in":
        feet, inches = divmod(number, 12)
        if inches == 0:
            raise Unsayable
        return f"{voice.whole(int(feet))} feet {voice.whole(int(inches))} inches"
    if unit == "m":
        return f"{voice.number(number, places=2)} metres"
    if unit == "mm" and number == int(number):
        return f"{voice.whole(int(number), 10_000)} millimetres"
    if unit in ("in", "ft") and number == int(number):
        return f"{voice.whole(int(number))} {_UNIT_WORDS[unit]}"
    if unit == "cm":
        return say_size(voice, length)
    raise Unsayable


def _say_pair(voice: SpokenNumbers, pair: list[Measure]) -> str:
    first, second = pair
    families = {("ft" if m.unit == "ft-in" else m.unit) for m in pair}
    if len(families) > 1 or not families <= {"m", "mm", "ft"}:
        raise Unsayable
    one = _say_length(voice, first)
    if first.unit == second.unit and first.unit in ("m", "mm", "ft"):
        number, _, unit = one.rpartition(" ")
        one = f"{number} [{unit}]"
    return f"{one} by {_say_length(voice, second)}"


# --- samples --------------------------------------------------------------------


def _sample_unit(random: Random) -> tuple[str, str]:
    unit = random.choice(sorted(UNITS))
    return random.choice(UNITS[unit]), unit


def _sample_length(random: Random) -> tuple[str, Measure]:
    if random.random() < 0.15:
        feet, inches = random.randrange(1, 40), random.randrange(12)
        return f"{feet} ft {inches} in", Measure(Decimal(feet * 12 + inches), "ft-in")
    (said, number), (unit_said, unit) = sample_number(random), _sample_unit(random)
    return f"{said} {unit_said}", Measure(number, unit)


def sample_loose(random: Random) -> tuple[str, Measure]:
    if random.random() < 0.7:
        return _sample_length(random)
    if random.random() < 0.2:
        said, number = sample_parts(random)
        return said, Measure(number, IN_PARTS)
    said, number = sample_plain(random)
    return said, Measure(number, None)


def _sample_pair(random: Random) -> tuple[str, tuple[Measure, Measure]]:
    (second_said, second) = _sample_length(random)
    by = random.choice(("by", "x"))
    if second.unit != "ft-in" and random.random() < 0.6:
        said, number = sample_number(random)
        return f"{said} {by} {second_said}", (Measure(number, second.unit), second)
    first_said, first = _sample_length(random)
    return f"{first_said} {by} {second_said}", (first, second)


_A_UNIT = "a unit: mm, cm, m, in or ft"

KIND = ValueKind(
    slots=(
        Slot(
            name="length",
            rule="number unit | feet_inches",
            build=_length,
            short=short_measure,
            sample=_sample_length,
            aloud=SpokenForm(
                heard="(<metre_number> metres | <feet> | <under_ten_thousand> millimetres"
                " | <centimetres> | <under_hundred> inches)",
                say=_say_length,
            ),
        ),
        Slot(
            name="loose",
            rule="number unit | q_size | feet_inches | q_inches_and_part",
            build=_length,
            short=short_measure,
            sample=sample_loose,
            aloud=SpokenForm(heard="<size>", say=say_size),
        ),
        Slot(
            name="pair",
            rule="loose r_by length",
            build=_pair,
            short=short_pair,
            sample=_sample_pair,
            aloud=SpokenForm(
                heard="(<metre_number> [metres] by <metre_number> metres | <feet> by <feet>"
                " | <under_hundred> by <under_hundred> feet"
                " | <under_ten_thousand> [millimetres] by <under_ten_thousand> millimetres)",
                say=_say_pair,
            ),
        ),
        Slot(
            name="reading_unit",
            rule="r_reading_unit",
            build=lambda unit: unit,
            short=_UNIT_WORDS.__getitem__,
            sample=one_of({"inches": "in", "millimetres": "mm", "mm": "mm"}),
            aloud=SpokenForm(
                heard="(inches | millimetres)", say=lambda _voice, unit: _UNIT_WORDS[unit]
            ),
        ),
        Slot(
            name="unit_system",
            rule="r_unit_system",
            build=lambda unit: unit,
            short={"mm": "metric", "in": "imperial"}.__getitem__,
            sample=one_of(_ROLES["unit_system"]),
            aloud=TypedOnly(why="aloud the unit itself is said"),
        ),
    ),
    roles=_ROLES,
    rules=_RULES,
    builders={
        "unit": lambda unit: unit,
        "q_of_an_inch": lambda *said: said[-1],
        "q_inches_and_part": _inches_and_part,
        "q_size": _size,
        "q_parts": _parts,
        "feet_inches": _feet_inches,
    },
    expected={
        **dict.fromkeys(("r_metric_unit", "r_inch", "r_foot"), _A_UNIT),
        "r_by": "by",
        "r_reading_unit": "inches or millimetres",
    },
    offered={
        "metric_unit": tuple(UNITS),
        "reading_unit": ("inches",),
        "by": ("by",),
    },
    never_unsaid=dict.fromkeys(
        ("metric_unit", "inch", "foot", "reading_unit", "unit_system"), "unit"
    ),
    spoken_pieces=_SPOKEN_PIECES,
    figures=_FIGURES,
    spellings=_SPELLINGS,
)
