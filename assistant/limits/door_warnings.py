"""What is wrong at a door: jambs out of level, a step to the floor outside."""

from __future__ import annotations

from fractions import Fraction

from assistant.limits.door_rules import USA, DoorRules
from assistant.limits.limits import (
    DOOR_ACROSS,
    PRACTICE,
    Limit,
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
    most_mm: Fraction | None = USA.most_mm,
    rules: DoorRules = USA,
    *,
    poured: bool = False,
) -> tuple[LimitWarning, ...]:
    """
    What is wrong at a door: jambs of different height, a step to the floor outside.

    Signs don't matter; ``step_mm`` is None where the floor outside was not read. ``most_mm`` is
    the job's limit for a step, None where it was said to have none; ``rules`` are the country's.
    Once it is ``poured`` there is no finish to be moved.
    """
    across = across_warnings(door, abs(exact_number(across_mm)), unit, poured=poured)
    if step_mm is None:
        return across
    step = abs(exact_number(step_mm))
    return across + step_warnings(door, step, unit, most_mm, rules, poured=poured)


def across_warnings(
    door: int, across: Fraction, unit: str, *, poured: bool = False
) -> tuple[LimitWarning, ...]:
    """One jamb higher than the other."""
    most = DOOR_ACROSS.value
    if across <= most:
        return ()
    shown, allowed = lengths(unit, across, most)
    cure = "grind or fill between them" if poured else "settle the finish at this door first"
    message = (
        f"Door {door} is {shown} out of level from jamb to jamb, over {allowed}. "
        f"Read both jambs again, and {cure}."
    )
    return (warning(f"door-across:{door}", "caution", message, across, most, DOOR_ACROSS.source),)


def step_warnings(
    door: int,
    step: Fraction,
    unit: str,
    most: Fraction | None,
    rules: DoorRules = USA,
    *,
    poured: bool = False,
) -> tuple[LimitWarning, ...]:
    """
    The finish and the floor outside are not flush.

    The standard speaks of the floor as it is walked on, and its space at a door stays level; so
    coverings are spoken of, and a slope is never offered.
    """
    upright = rules.plain_mm if most is None else min(rules.plain_mm, most)
    if step <= upright:
        return ()
    usual = rules.most_mm
    shown, level, limit, most_shown = lengths(unit, step, upright, usual, most or usual)
    message = f"Door {door} has a step of {shown} to the floor outside"
    id, source = f"door-step:{door}", rules.source_between
    if most is None:
        message += (
            f"; this job was told to have no limit there. The usual one is {limit}, with the "
            "coverings on; local rules decide."
        )
        return (warning(id, "note", message, step, usual, source),)
    if step > most:
        own = "this job's limit" if most != usual else "the limit"
        source = "the limit as set; " * (most != usual) + rules.source_over
        cure = (
            "The floor is poured: grind or fill it there, or take another covering"
            if poured
            else "Move the finish"
        )
        message += (
            f", over {own} of {most_shown} with the coverings on. {cure}; {rules.no_slope}. "
            "Local rules decide."
        )
        return (warning(id, "stop", message, step, most, source),)
    if step > usual:
        message += (
            f", within this job's limit of {most_shown} and over the usual {limit}, with the "
            "coverings on. Local rules decide."
        )
        return (warning(id, "caution", message, step, usual, source),)
    message += (
        f", over {level}; {most_shown} is the most, with the coverings on. "
        f"{rules.between(step, unit)}; local rules decide."
    )
    return (warning(id, "caution", message, step, upright, source),)


LEAF_CLEAR = Limit("leaf-clear", Fraction(3), "mm", PRACTICE)
"""What a leaf should clear the floor by, covering and all, so that it neither binds nor drags."""


def leaf_warnings(door: int, clear: Fraction, unit: str) -> tuple[LimitWarning, ...]:
    """
    A door's leaf and the floor under it, covering and all.

    ``clear`` is what is left between them, negative where the leaf would bind.
    """
    least = LEAF_CLEAR.value
    if clear >= least:
        return ()
    shown, wanted = lengths(unit, abs(clear), least)
    if clear <= 0:
        size = f" by {shown}" if clear else ""
        message = f"The leaf of door {door} would bind on the floor{size}, covering and all. "
        severity = "caution"
    else:
        message = f"The leaf of door {door} clears the floor by {shown}, under {wanted}. "
        severity = "note"
    message += (
        f"Shortening it by {at_least(least - clear, unit)} would clear it; a fire or smoke door is "
        "not cut: its maker and local rules decide."
    )
    id = f"door-leaf:{door}"
    return (warning(id, severity, message, clear, least, LEAF_CLEAR.source),)


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
