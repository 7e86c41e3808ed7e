"""The depths on a plan in steps, each with its colour."""

from __future__ import annotations

from assistant.handover.isolines import levels_between
from assistant.handover.picture.scale import colour_at, colours
from assistant.handover.picture.views import View
from grammar.frozen import frozen

UNREAD = "#ffffff"


@frozen
class Bands:
    """The depths on a plan in steps, each with its colour."""

    levels: tuple[float, ...]
    """Millimetres, one more than colours."""
    shades: tuple[str, ...]

    def colour(self, value_mm: float | None) -> str:
        """The colour that a value lies on."""
        return UNREAD if value_mm is None else colour_at(value_mm, self.levels, self.shades)


def bands_of(view: View) -> Bands:
    """Steps over all that the surface comes to, also at the walls."""
    low, high = view.range_mm
    if view.surfaces:
        low = min(low, *(float(each.values.min()) for each in view.surfaces))
        high = max(high, *(float(each.values.max()) for each in view.surfaces))
    levels = levels_between(low, high, view.unit)
    return Bands(tuple(levels), tuple(colours(len(levels) - 1)))
