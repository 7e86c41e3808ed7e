"""Limits of depth of the installer's own, beside those that the product's card has."""

from __future__ import annotations

from fractions import Fraction

from assistant.limits.limits import at_least, exact_number, warning
from assistant.products.cards import Card
from assistant.reply.replies import LimitWarning
from assistant.reply.side_by_side import lengths
from grammar.frozen import frozen

__all__ = ["NONE", "OwnLimits", "least_allowed", "most_allowed", "own_depth_warnings"]

SOURCE = "your own limit, as said"


@frozen
class OwnLimits:
    """What somebody wants the depth to stay between; exact millimetres, None for no such limit."""

    least_mm: Fraction | None = None
    most_mm: Fraction | None = None


NONE = OwnLimits()


def least_allowed(own: OwnLimits, card: Card | None) -> tuple[Fraction, bool]:
    """The least depth that both allow, in millimetres, and whether one's own decides it."""
    of_card = exact_number(card.min_mm) if card else Fraction(0)
    if own.least_mm is not None and own.least_mm > of_card:
        return own.least_mm, True
    return of_card, False


def most_allowed(
    own: OwnLimits, card: Card | None, aggregate_percent: Fraction | float = 0
) -> tuple[Fraction | None, bool]:
    """The greatest depth that both allow, None for no limit; and whether one's own decides it."""
    of_card = None
    if card is not None:
        with_it = card.max_with_aggregate_mm if aggregate_percent > 0 else None
        of_card = exact_number(card.max_mm if with_it is None else with_it)
    if own.most_mm is not None and (of_card is None or own.most_mm < of_card):
        return own.most_mm, True
    return of_card, False


def own_depth_warnings(
    point: str, depth: Fraction, own: OwnLimits, unit: str = "mm"
) -> tuple[LimitWarning, ...]:
    """What is past one's own limits at a point whose depth the product allows."""
    least, most = own.least_mm, own.most_mm
    if least is not None and depth < least:
        deep, limit = lengths(unit, depth, least)
        message = (
            f"{point} is {deep} deep, under your own least depth of {limit}. Raise the finish "
            f"by {at_least(least - depth, unit)}, or drop the limit: no least depth."
        )
        return (warning(f"under-own-least:{point}", "caution", message, depth, least, SOURCE),)
    if most is not None and depth > most:
        deep, limit = lengths(unit, depth, most)
        message = (
            f"{point} is {deep} deep, over your own most depth of {limit}. Lower the finish "
            f"by {at_least(depth - most, unit)}, or drop the limit: no most depth."
        )
        return (warning(f"over-own-most:{point}", "caution", message, depth, most, SOURCE),)
    return ()
