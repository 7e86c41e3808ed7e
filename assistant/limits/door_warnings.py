"""What is wrong at a door: jambs out of level, a step to the floor outside."""

from __future__ import annotations

from fractions import Fraction

from assistant.limits.limits import (
    BEVEL_RUN,
    DOOR_ACROSS,
    DOOR_SLOPE,
    STEP_PLAIN,
    THRESHOLD,
    at_least,
    card_source,
    exact_number,
    warning,
)
from assistant.limits.own_limits import SOURCE as OWN
from assistant.products.cards import Card
from assistant.reply.replies import LimitWarning
from assistant.reply.side_by_side import lengths

__all__ = ["door_warnings", "feather_warnings"]


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


def feather_warnings(
    door: int, depth_mm: Fraction, least_mm: Fraction, card: Card | None, unit: str
) -> tuple[LimitWarning, ...]:
    """
    The pour runs out at a door to less than is allowed.

    Parameters
    ----------
    door : int
    depth_mm : Fraction
        Over the higher jamb.
    least_mm : Fraction
    card : Card or None
        Whose least depth that is; None for one's own.
    unit : str
    """
    if depth_mm >= least_mm:
        return ()
    thin, least = lengths(unit, max(depth_mm, Fraction(0)), least_mm)
    whose = "your own least depth" if card is None else "the product's minimum"
    message = (
        f"The pour runs out to {thin} at door {door}, under {whose} of {least}. Raise the finish "
        f"by {at_least(least_mm - depth_mm, unit)}, or choose a product that may run out to "
        "nothing."
    )
    source = OWN if card is None else card_source(card)
    return (warning(f"feather:{door}", "stop", message, depth_mm, least_mm, source),)
