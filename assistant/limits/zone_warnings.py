"""What is wrong between parts of a floor: a step from one finish to another."""

from __future__ import annotations

from fractions import Fraction

from assistant.limits.limits import BEVEL_RUN, STEP_BEVELLED, STEP_PLAIN, at_least, warning
from assistant.reply import wording
from assistant.reply.replies import LimitWarning
from assistant.reply.side_by_side import lengths

__all__ = ["zone_step_warning"]


def zone_step_warning(
    lower: str, higher: str, step: Fraction, edge_m: float, unit: str = "mm"
) -> LimitWarning:
    """
    The finishes of two parts that meet are not flush, id ``zone-step:lower/higher``.

    The standard speaks of changes in level of the floor as it is walked on, so coverings are
    spoken of: a thicker one on the lower part may be what the step is for.
    """
    bevelled = STEP_BEVELLED.value
    shown, level, limit = lengths(unit, step, STEP_PLAIN.value, bevelled)
    message = (
        f"{higher.capitalize()} is to stand {shown} above {lower} along "
        f"{wording.distance(edge_m, unit)}: it takes a stop there until the higher side has set"
    )
    source = f"{STEP_PLAIN.source} and 303.3, decided in millimetres"
    id = f"zone-step:{lower}/{higher}"
    if step <= STEP_PLAIN.value:
        message += ". With the coverings on it may be gone."
        return warning(id, "note", message, step, STEP_PLAIN.value, source)
    if step <= bevelled:
        message += (
            f". If over {level} of it is left with the coverings on, bevel it not steeper than "
            f"1 in {BEVEL_RUN.value}, at least {at_least(step * BEVEL_RUN.value, unit)} long; "
            "local rules decide."
        )
        return warning(id, "caution", message, step, STEP_PLAIN.value, source)
    message += (
        f". If over {limit} of it is left with the coverings on, it takes a ramp, or has to be a "
        "step that nobody overlooks; local rules decide."
    )
    return warning(id, "caution", message, step, bevelled, source)
