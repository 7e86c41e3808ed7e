"""What is wrong with a pour: its depth at a point, its aggregate, its weight."""

from __future__ import annotations

from fractions import Fraction

from assistant.limits.limits import WEIGHT, at_least, card_source, exact_number, warning
from assistant.limits.own_limits import NONE, OwnLimits, own_depth_warnings
from assistant.pours.material import lb_per_ft2
from assistant.products.cards import Card
from assistant.reply.replies import LimitWarning
from assistant.reply.side_by_side import figures, lengths
from assistant.units.lengths import show_length

__all__ = ["aggregate_warnings", "depth_warnings", "weight_warnings"]


def depth_warnings(
    point: str,
    depth_mm: Fraction | float,
    card: Card | None,
    aggregate_percent: float | Fraction = 0,
    unit: str = "mm",
    own: OwnLimits = NONE,
) -> tuple[LimitWarning, ...]:
    """
    What is wrong with the depth at a point: above the finish, too thin, or too deep.

    Without a card only high spots and one's own limits are known. With aggregate in the mix the
    card's maximum with aggregate counts, where it has one. What the product does not allow is
    named before one's own limits, however wide those are.
    """
    depth = exact_number(depth_mm)
    if depth < 0:
        return (high_spot(point, depth, card, unit),)
    of_card = _against_card(point, depth, card, aggregate_percent, unit)
    return of_card or own_depth_warnings(point, depth, own, unit)


def _against_card(
    point: str, depth: Fraction, card: Card | None, aggregate_percent: float | Fraction, unit: str
) -> tuple[LimitWarning, ...]:
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
