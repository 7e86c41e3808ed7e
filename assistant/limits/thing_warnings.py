"""What is to be looked at of drains, joints and cracks."""

from __future__ import annotations

from fractions import Fraction

from assistant.limits.limits import PRACTICE
from assistant.reply import wording
from assistant.reply.replies import LimitWarning

__all__ = ["crack_warning", "drain_warnings", "joint_warning"]


def drain_warnings(
    number: int, point: str, over_mm: Fraction, unit: str
) -> tuple[LimitWarning, ...]:
    """
    A drain whose height the finish does not meet.

    ``over_mm`` is the finish less the drain's height: plus where the finish stands over it.
    Nothing is averaged: until it is settled, the finish and the drain differ by all of it.
    """
    if not over_mm:
        return ()
    by = wording.length(abs(over_mm), unit)
    if over_mm > 0:
        what = (
            f"the finish stands {by} over drain {number} at {point}: a step down to it. A fall "
            f"towards {point}, or a drain set higher, settles it"
        )
    else:
        what = (
            f"drain {number} at {point} stands {by} over the finish, so no water reaches it. "
            "Raise the finish, or set the drain lower"
        )
    return (
        LimitWarning(
            f"drain:{number}",
            "caution",
            f"{what[0].upper()}{what[1:]}; then say its height again.",
            float(over_mm),
            0.0,
            "mm",
            f"the finished floor meets the drain ({PRACTICE})",
        ),
    )


def joint_warning(number: int, where: str) -> LimitWarning:
    """A joint, which the pour must not bridge."""
    return LimitWarning(
        f"joint:{number}",
        "note",
        f"Joint {number}, {where}: carry it through the pour and what covers it, as the data "
        "sheets and whoever designed it say.",
        source=PRACTICE,
    )


def crack_warning(number: int, where: str) -> LimitWarning:
    """A crack that nobody has said to be repaired."""
    return LimitWarning(
        f"crack:{number}",
        "caution",
        f"Crack {number}, {where}: find out why it is there and whether it moves, before it is "
        f"poured over. When it has been seen to: crack {number} repaired.",
        source=f"{PRACTICE}; an engineer where it moves",
    )
