"""Each limit once, with its value, unit and source, and the checks against it.

Checks take plain numbers, return warnings and print nothing. Bounds include both ends:
a depth of exactly the maximum is allowed. Lengths are compared in exact millimetres and
only shown in the installer's unit. No check ever says that something is safe or strong
enough: it says what is past which limit, what to do next, and who decides. A value and
its limit are worded by ``side_by_side`` only, so that they never look the same.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil, isfinite

from assistant.errors import SurveyError
from assistant.pours.material import KG_M2_PER_KN_M2, lb_per_ft2
from assistant.products.cards import Card
from assistant.reply.replies import LimitWarning
from assistant.reply.side_by_side import figures, floor_distances, lengths
from assistant.units.lengths import as_fraction, inch_text, inches, show_length
from grammar.frozen import frozen

__all__ = [
    "LIMITS",
    "Limit",
    "aggregate_warnings",
    "depth_warnings",
    "door_warnings",
    "points_missing_warnings",
    "points_skipped_warnings",
    "range_warning",
    "spacing_warnings",
    "weight_warnings",
]

PRACTICE = "common practice, no source"
ONE_MAKER = "one maker's advice, the card decides"


@frozen
class Limit:
    """A number not to pass, and who says so."""

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


# --- depth ----------------------------------------------------------------------


def depth_warnings(
    point: str,
    depth_mm: Fraction | float,
    card: Card | None,
    aggregate_percent: float | Fraction = 0,
    unit: str = "mm",
) -> tuple[LimitWarning, ...]:
    """
    What is wrong with the depth at a point: above the finish, too thin, or too deep.

    Without a card only high spots are known. With aggregate in the mix the card's maximum
    with aggregate counts, where it has one.
    """
    depth = exact_number(depth_mm)
    if depth < 0:
        return (high_spot(point, depth, card, unit),)
    if card is None:
        return ()
    if depth < exact_number(card.min_mm):
        return (under_minimum(point, depth, card, unit),)
    if aggregate_percent > 0 and card.max_with_aggregate_mm is not None:
        most = exact_number(card.max_with_aggregate_mm)
        return (over_aggregate_maximum(point, depth, card, unit),) if depth > most else ()
    return (over_maximum(point, depth, card, unit),) if depth > exact_number(card.max_mm) else ()


def high_spot(point: str, depth: Fraction, card: Card | None, unit: str) -> LimitWarning:
    """The floor stands above the finish."""
    least = exact_number(card.min_mm) if card else Fraction(0)
    (height,) = lengths(unit, -depth)
    message = f"{point} stands {height} above the finish. "
    if least:
        message += (
            f"Grind it down or raise the finish, by {at_least(least - depth, unit)} in all, "
            f"to leave the product's {show_length(least, unit)}."
        )
    else:
        message += "Grind it down or raise the finish."
    return warning(f"high-spot:{point}", "stop", message, depth, Fraction(0), "the finish as set")


def under_minimum(point: str, depth: Fraction, card: Card, unit: str) -> LimitWarning:
    """Too thin for the product."""
    least = exact_number(card.min_mm)
    deep, minimum = lengths(unit, depth, least)
    message = (
        f"{point} is {deep} deep, under the product's minimum of {minimum}. Grind it down or "
        f"raise the finish, by {at_least(least - depth, unit)}, or choose a product for thinner "
        "depths."
    )
    return warning(f"under-minimum:{point}", "stop", message, depth, least, card_source(card))


def over_maximum(point: str, depth: Fraction, card: Card, unit: str) -> LimitWarning:
    """Too deep for the product as it comes from the bag."""
    most, with_aggregate = exact_number(card.max_mm), card.max_with_aggregate_mm
    mixed = most if with_aggregate is None else exact_number(with_aggregate)
    deep, maximum, mixed_maximum = lengths(unit, depth, most, mixed)
    over = f"{point} is {deep} deep, over the product's maximum of {maximum}"
    severity = "stop"
    if with_aggregate is not None and depth <= mixed:
        severity = "caution"
        message = f"{over} without aggregate. Add aggregate or pour in lifts"
    else:
        with_it = "" if with_aggregate is None else f" ({mixed_maximum} with aggregate)"
        message = f"{over}{with_it}. Lower the finish, choose a deeper product, or pour in lifts"
    message += " as the data sheet allows."
    return warning(f"over-maximum:{point}", severity, message, depth, most, card_source(card))


def over_aggregate_maximum(point: str, depth: Fraction, card: Card, unit: str) -> LimitWarning:
    """Too deep even with aggregate."""
    assert card.max_with_aggregate_mm is not None
    most = exact_number(card.max_with_aggregate_mm)
    deep, maximum = lengths(unit, depth, most)
    message = (
        f"{point} is {deep} deep, over the product's maximum of {maximum} with aggregate. "
        "Lower the finish, choose a deeper product, or pour in lifts as the data sheet allows."
    )
    return warning(
        f"over-aggregate-maximum:{point}", "stop", message, depth, most, card_source(card)
    )


def aggregate_warnings(
    aggregate_percent: float | Fraction, card: Card | None
) -> tuple[LimitWarning, ...]:
    """More aggregate than the product takes, id ``aggregate``."""
    share = exact_number(aggregate_percent)
    if card is None or share <= 0:
        return ()
    most = exact_number(card.max_aggregate_percent or 0)
    if share <= most:
        return ()
    shown, allowed = figures(2, share, most)
    allowed = f"at most {allowed} percent" if most else "no aggregate"
    message = (
        f"{shown} percent aggregate is in the mix, but {card.name} takes {allowed}. "
        "Put in less, or choose a product that takes it."
    )
    return (warning("aggregate", "stop", message, share, most, card_source(card), "percent"),)


# --- doors ----------------------------------------------------------------------


def door_warnings(
    door: int,
    across_mm: Fraction | float,
    step_mm: Fraction | float | None = None,
    unit: str = "mm",
    most_mm: Fraction | None = THRESHOLD.value,
) -> tuple[LimitWarning, ...]:
    """
    What is wrong at a door: jambs of different height, a step to the floor outside.

    Signs don't matter; ``step_mm`` is None where the floor outside was not read. ``most_mm`` is
    the job's limit for a step, None where it was said to have none.
    """
    across = across_warnings(door, abs(exact_number(across_mm)), unit)
    if step_mm is None:
        return across
    return across + step_warnings(door, abs(exact_number(step_mm)), unit, most_mm)


def across_warnings(door: int, across: Fraction, unit: str) -> tuple[LimitWarning, ...]:
    """One jamb higher than the other."""
    most = DOOR_ACROSS.value
    if across <= most:
        return ()
    shown, allowed = lengths(unit, across, most)
    message = (
        f"Door {door} is {shown} out of level from jamb to jamb, over {allowed}. "
        "Read both jambs again, and settle the finish at this door first."
    )
    return (warning(f"door-across:{door}", "caution", message, across, most, DOOR_ACROSS.source),)


def step_warnings(
    door: int, step: Fraction, unit: str, most: Fraction | None
) -> tuple[LimitWarning, ...]:
    """
    The finish and the floor outside are not flush.

    The standard speaks of the floor as it is walked on, and its space at a door stays level; so
    coverings are spoken of, and a slope is never offered.
    """
    upright = STEP_PLAIN.value if most is None else min(STEP_PLAIN.value, most)
    if step <= upright:
        return ()
    usual = THRESHOLD.value
    shown, level, limit, most_shown = lengths(unit, step, upright, usual, most or usual)
    message = f"Door {door} has a step of {shown} to the floor outside"
    id, source = f"door-step:{door}", f"{THRESHOLD.source}, decided in millimetres"
    if most is None:
        message += (
            f"; this job was told to have no limit there. The usual one is {limit}, with the "
            "coverings on; local rules decide."
        )
        return (warning(id, "note", message, step, usual, source),)
    if step > most:
        own = "this job's limit" if most != usual else "the limit"
        source = "the limit as set; " * (most != usual) + (
            f"{THRESHOLD.source} and 404.2.4.4, decided in millimetres"
        )
        message += (
            f", over {own} of {most_shown} with the coverings on. Move the finish; a slope is no "
            f"cure: the floor at a door stays within 1 in {DOOR_SLOPE.value}. Local rules decide."
        )
        return (warning(id, "stop", message, step, most, source),)
    if step > usual:
        message += (
            f", within this job's limit of {most_shown} and over the usual {limit}, with the "
            "coverings on. Local rules decide."
        )
        return (warning(id, "caution", message, step, usual, source),)
    message += (
        f", over {level}; {most_shown} is the most, with the coverings on. Bevel the threshold not "
        f"steeper than 1 in {BEVEL_RUN.value}, at least "
        f"{at_least(step * BEVEL_RUN.value, unit)} long; local rules decide."
    )
    source = f"{THRESHOLD.source}, 303.2 and 303.3, decided in millimetres"
    return (warning(id, "caution", message, step, upright, source),)


# --- the survey -------------------------------------------------------------------


def spacing_warnings(
    spacing_m: float | Sequence[float], card: Card | None, unit: str = "mm"
) -> tuple[LimitWarning, ...]:
    """Pins further apart than the product's flow allows; of two spacings the wider counts."""
    if card is None:
        return ()
    wider = max(spacing_m) if isinstance(spacing_m, Sequence) else spacing_m
    spacing, most = exact_number(wider), exact_number(card.pin_spacing_m)
    if spacing <= most:
        return ()
    apart, allowed = floor_distances(unit, spacing, most)
    message = (
        f"Points are {apart} apart, but {card.name} wants pins at most {allowed} apart. "
        "Set a closer grid, or add points between; add pins at doors and sudden changes too."
    )
    source = card_source(card) if card.own_pin_spacing_m else ONE_MAKER
    return (warning("pin-spacing", "caution", message, spacing, most, source, "m"),)


def points_missing_warnings(missing: Sequence[str]) -> tuple[LimitWarning, ...]:
    """Points of the grid that have no reading, in walking order."""
    if not missing:
        return ()
    few = ", ".join(missing[:4]) + (" and more" if len(missing) > 4 else "")
    points, them = ("point is", "it") if len(missing) == 1 else ("points are", "them")
    message = (
        f"{len(missing)} {points} not read yet: {few}. Read {them} before you order; "
        "till then the numbers bridge the gaps."
    )
    count = Fraction(len(missing))
    source = "every point of the grid has a reading"
    return (warning("points-missing", "note", message, count, Fraction(0), source, "points"),)


def points_skipped_warnings(skipped: Mapping[str, str]) -> tuple[LimitWarning, ...]:
    """Points that were said to be out of reach, with the reason as it was said."""
    if not skipped:
        return ()
    told = [f"{point} (“{why}”)" if why else point for point, why in skipped.items()]
    few = ", ".join(told[:4]) + (" and more" if len(told) > 4 else "")
    was = "was" if len(skipped) == 1 else "were"
    message = (
        f"{few} {was} skipped; the surface bridges {'it' if len(skipped) == 1 else 'them'}, and "
        "nobody has seen what lies there."
    )
    count = Fraction(len(skipped))
    source = "every point of the grid has a reading"
    return (warning("points-skipped", "caution", message, count, Fraction(0), source, "points"),)


def range_warning(
    point: str,
    reading_mm: Fraction | float,
    range_mm: Fraction | float = INSTRUMENT_RANGE.value,
    unit: str = "mm",
) -> tuple[LimitWarning, ...]:
    """A reading further from zero than the instrument reaches, above or below."""
    away, reach = abs(exact_number(reading_mm)), exact_number(range_mm)
    if away <= reach:
        return ()
    shown, allowed = lengths(unit, away, reach)
    message = (
        f"{point} was read {shown} from zero, past the instrument's {allowed}. "
        "Read it again, or set up nearer."
    )
    source = INSTRUMENT_RANGE.source if reach == INSTRUMENT_RANGE.value else "the range as set"
    return (warning(f"out-of-range:{point}", "caution", message, away, reach, source),)


# --- weight -----------------------------------------------------------------------


def weight_warnings(kg_per_m2: float, unit: str = "mm") -> tuple[LimitWarning, ...]:
    """A pour heavy enough to ask an engineer about; never a word on whether the floor holds."""
    weight = exact_number(kg_per_m2)
    if weight <= WEIGHT.value:
        return ()
    if unit == "in":
        shown = f"{lb_per_ft2(kg_per_m2):.1f} pounds a square foot"
    else:
        shown = f"{kg_per_m2:.0f} kilograms a square metre"
    message = (
        f"The pour weighs {shown} on average, more where it is deep. If the floor is suspended, "
        "have a structural engineer check it before you order."
    )
    return (
        warning("weight", "caution", message, weight, WEIGHT.value, WEIGHT.source, WEIGHT.unit),
    )


# --- words and numbers ----------------------------------------------------------------


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
