"""What is wrong with points: too far apart, not read, skipped, out of the instrument's range."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from assistant.limits.limits import (
    INSTRUMENT_RANGE,
    ONE_MAKER,
    card_source,
    exact_number,
    warning,
)
from assistant.products.cards import Card
from assistant.reply.replies import LimitWarning
from assistant.reply.side_by_side import floor_distances, lengths

__all__ = [
    "points_missing_warnings",
    "points_skipped_warnings",
    "range_warning",
    "spacing_warnings",
]


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
