"""A height against the zero, with its side; several of one height; and a side alone."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from grammar import numbers
from grammar.commands import IN_PARTS, Measure, Reading
from grammar.errors import Impossible, Unsayable
from grammar.slots.measure import sample_loose, say_size, short_measure, spoken_measure
from grammar.slots.number import SpokenNumbers, typed_number
from grammar.slots.slot import Slot, SpokenForm, TypedOnly, ValueKind, one_of

if TYPE_CHECKING:
    from random import Random

BELOW, ABOVE = -1, 1

_ROLES: dict[str, dict[str, Any]] = {
    "sign": {"minus": BELOW, "negative": BELOW, "-": BELOW,
             "plus": ABOVE, "positive": ABOVE, "+": ABOVE},
    "side": {"below": BELOW, "low": BELOW, "under": BELOW, "down": BELOW, "lower": BELOW,
             "above": ABOVE, "high": ABOVE, "over": ABOVE, "up": ABOVE, "higher": ABOVE,
             "proud": ABOVE},
    "level": dict.fromkeys(("level", "flush"), None),
    "dead": dict.fromkeys(("dead", "bang", "spot"), None),
    "on": {"on": None},
    "zero_mark": {"zero": None},
    "as_it_was": dict.fromkeys(("good", "fine", "holding"), None),
}  # fmt: skip

_RULES = """
q_signed: r_sign loose
q_sided: loose r_side [r_zero_mark] | r_side [r_by] loose
q_unsided: loose
q_bare: loose
q_level: r_level | r_dead r_level | r_dead r_on
q_more_values: _numerals
_numerals: NUMERAL | _numerals NUMERAL
"""


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
    # Without a unit the first keeps its fraction; with one a decimal says the same.
    sizes = [short_measure(first) if unit is None else numbers.plain_number(first.number)]
    sizes += [numbers.plain_number(size.number) for size in more]
    return f"{sign}{' '.join(sizes)}{f' {unit}' if unit else ''}"


def spoken_reading(number: Decimal, unit: str) -> str:
    """
    A height against the zero to be read out: never a bare sign.

    >>> spoken_reading(Decimal(-18), "mm"), spoken_reading(Decimal(0), "mm")
    ('one eight millimetres below', 'level')
    """
    if number == 0:
        return "level"
    return f"{spoken_measure(number, unit)} {'below' if number < 0 else 'above'}"


# --- said aloud -----------------------------------------------------------------


def _say_reading(voice: SpokenNumbers, reading: Reading) -> str:
    if reading.number == 0 and reading.unit is None:
        return "level"
    return _say_signed(voice, reading)


def _say_signed(voice: SpokenNumbers, reading: Reading) -> str:
    if not reading.side_said or reading.number == 0:
        raise Unsayable
    sign = "minus" if reading.number < 0 else "plus"
    size = Measure(abs(reading.number), reading.unit)
    if size.unit is None and voice.written and voice.spoken.unit_missed:
        return f"{sign} {voice.number(size.number, 1000)}"
    said = say_size(voice, size)
    if voice.written and voice.spoken.unit_is_plain and size.unit == "mm":
        # With its unit first: the first way is the one looked up among the lines already heard.
        said = f"({said} | {said.removesuffix('millimetres').rstrip()})"
    return f"{sign} {said}"


# --- samples --------------------------------------------------------------------

_SIGNS = {-1: ("minus", "-", "negative"), 1: ("plus", "+", "positive")}
_SIDES = {-1: ("below", "low", "under"), 1: ("above", "high", "over")}


def _sample_reading(random: Random) -> tuple[str, Reading]:
    if random.random() < 0.1:
        return "level", Reading(Decimal(0), None)
    said, size = sample_loose(random)
    side = random.choice((-1, 1))
    sided = random.choice(
        (
            f"{random.choice(_SIGNS[side])} {said}",
            f"{said} {random.choice(_SIDES[side])}",
            f"{said} {random.choice(_SIDES[side])} zero",
        )
    )
    if random.random() < 0.1:
        return said, Reading(size.number, size.unit, side_said=False)
    return sided, Reading(size.number * side, size.unit)


def _sample_several(random: Random) -> tuple[str, tuple[Reading, ...]]:
    side, unit = random.choice((-1, 1)), random.choice(("mm", "in", None))
    sizes = [random.randrange(1, 60) for _ in range(random.randrange(2, 5))]
    said = random.choice((" ", ", ")).join(map(str, sizes))
    end = f" {unit}" if unit else ""
    sided = random.choice(
        (f"{random.choice(_SIGNS[side])} {said}{end}", f"{said}{end} {random.choice(_SIDES[side])}")
    )
    return sided, tuple(Reading(Decimal(size * side), unit) for size in sizes)


KIND = ValueKind(
    slots=(
        Slot(
            name="reading",
            rule="q_signed | q_sided | q_unsided | q_level",
            build=lambda reading: reading,
            short=short_reading,
            sample=_sample_reading,
            aloud=SpokenForm(
                heard="(<sign> <size> | level)",
                say=_say_reading,
                under={"open_unit": "open_reading"},
            ),
        ),
        Slot(
            name="signed_reading",
            rule="q_signed | q_sided | q_level | q_bare",
            build=lambda reading: reading,
            short=short_signed,
            sample=_sample_reading,
            aloud=SpokenForm(
                heard="<sign> <size>", say=_say_signed, under={"open_unit": "open_signed_reading"}
            ),
        ),
        Slot(
            name="several",
            rule="r_sign q_size q_more_values [unit]"
            " | q_size q_more_values [unit] r_side [r_zero_mark]",
            build=_several,
            short=short_several,
            sample=_sample_several,
            aloud=TypedOnly(why="numbers in a row sound like one long number"),
        ),
        Slot(
            name="unmoved",
            rule="r_as_it_was",
            build=lambda *_words: Reading(Decimal(0), None),
            short=short_reading,
            sample=one_of({"good": Reading(Decimal(0), None), "fine": Reading(Decimal(0), None)}),
            aloud=TypedOnly(why="aloud the zero is said level, or as a number"),
        ),
        Slot(
            name="side",
            rule="r_sign | r_side",
            build=lambda side: "below" if side == BELOW else "above",
            short=str,
            sample=one_of({"below": "below", "above": "above", "minus": "below", "plus": "above"}),
            aloud=TypedOnly(why="one short word, which noise is taken for"),
        ),
    ),
    roles=_ROLES,
    rules=_RULES,
    builders={
        "q_signed": _reading,
        "q_sided": _sided,
        "q_unsided": _unsided,
        "q_bare": _bare,
        "q_level": lambda *_words: Reading(Decimal(0), None),
        "q_more_values": lambda *values: tuple(typed_number(value) for value in values),
    },
    expected={"r_sign": "minus or plus", "r_side": "below or above", "r_level": "level"},
    offered={"sign": ("minus", "plus"), "side": ("below", "above"), "level": ("level",)},
    never_unsaid=dict.fromkeys(("sign", "side", "level"), "side"),
    spoken_pieces={
        "sign": "(minus | plus)",
        "open_size": "((<under_thousand> | <tenths>) [millimetres] | <centimetres> | <inches>)",
        "open_reading": "(<sign> <open_size> | level)",
        "open_signed_reading": "<sign> <open_size>",
    },
)
