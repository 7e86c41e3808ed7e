"""Each limit once, with its value, unit and source; and what the checks against it share.

The checks are in ``pour_warnings``, ``door_warnings`` and ``point_warnings``. They take plain
numbers, return warnings and print nothing. Bounds include both ends: a depth of exactly the
maximum is allowed. Lengths are compared in exact millimetres and only shown in the installer's
unit. No check ever says that something is safe or strong enough: it says what is past which
limit, what to do next, and who decides. A value and its limit are worded by ``side_by_side``
only, so that they never look the same.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, isfinite

from assistant.errors import SurveyError
from assistant.pours.material import KG_M2_PER_KN_M2
from assistant.products.cards import Card
from assistant.reply.replies import LimitWarning
from assistant.units.lengths import as_fraction, inch_text, inches, show_length
from grammar.frozen import frozen

PRACTICE = "common practice, no source"
ONE_MAKER = "one maker's advice, the card decides"


@frozen
class Limit:
    """A number that is not to be passed, and its source."""

    id: str
    value: Fraction
    unit: str
    source: str


DOOR_ACROSS = Limit("door-across", Fraction(3), "mm", PRACTICE)
# The standard says 1/4 in and 1/2 in, and prints 6.4 and 13 mm beside them. We decide in
# millimetres: 6.4 as printed, and 12.7, half an inch exactly, since 13 is a rounded figure
# that would let through more than half an inch.
STEP_PLAIN = Limit("step-plain", Fraction("6.4"), "mm", "2010 ADA Standards 303.2")
STEP_BEVELLED = Limit("step-bevelled", Fraction("12.7"), "mm", "2010 ADA Standards 303.3")
BEVEL_RUN = Limit("bevel-run", Fraction(2), "length to height", "2010 ADA Standards 303.3")
# A ramp is no cure for more: where a door is opened and passed the floor stays level.
THRESHOLD = Limit("threshold", STEP_BEVELLED.value, "mm", "2010 ADA Standards 404.2.5")
DOOR_SLOPE = Limit("door-slope", Fraction(48), "length to height", "2010 ADA Standards 404.2.4.4")
INSTRUMENT_RANGE = Limit("instrument-range", Fraction(300), "mm", PRACTICE)
# 0.25 kN/m²: from here on an engineer is asked; it says nothing of what a floor can carry
WEIGHT = Limit("weight", Fraction(round(0.25 * KG_M2_PER_KN_M2 * 10), 10), "kg/m2", PRACTICE)

LIMITS: dict[str, Limit] = {
    limit.id: limit
    for limit in (
        DOOR_ACROSS,
        STEP_PLAIN,
        STEP_BEVELLED,
        BEVEL_RUN,
        THRESHOLD,
        DOOR_SLOPE,
        INSTRUMENT_RANGE,
        WEIGHT,
    )
}

# Floats worked out from readings are off by far less than a millionth of a millimetre;
# what is nearer to a limit than that is at it.
FLOAT_PLACES = 6


def exact_number(value: Fraction | float) -> Fraction:
    """
    A number to compare exactly: fractions as they are, floats without their last dust.

    Raises :class:`SurveyError` for what is not finite.
    """
    if not isinstance(value, float):
        return as_fraction(value)
    if not isfinite(value):
        raise SurveyError(f"{value} cannot be held against a limit.")
    return as_fraction(round(value, FLOAT_PLACES))


def warning(
    id: str,
    severity: str,
    message: str,
    value: Fraction,
    limit: Fraction,
    source: str,
    unit: str = "mm",
) -> LimitWarning:
    """The warning as data, its numbers as floats."""
    return LimitWarning(id, severity, message, float(value), float(limit), unit, source)


def card_source(card: Card) -> str:
    """The card as a source."""
    return f"product card {card.name}"


def at_least(length: Fraction, unit: str) -> str:
    """A length rounded up, for work that must not fall short."""
    if unit == "in":
        return inch_text(Fraction(ceil(inches(length) * 16), 16))
    return show_length(Fraction(ceil(length * 10), 10), unit)
