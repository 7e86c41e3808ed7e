"""Where names of parts of the floor stand on the plan: hidden by no point, and by no other name."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from assistant.handover.picture.frame import PictureFrame
from assistant.handover.picture.pen import Place, width_of

if TYPE_CHECKING:
    from collections.abc import Sequence

OF_NAMES = 11.0
"""Size of a strip's number and a zone's name."""
_TRIED = 14
"""Places tried for each, each way; with more they are hidden less often where points are dense."""


def places_of_names(
    frame: PictureFrame,
    named: Sequence[tuple[str, Any]],
    points_m: Sequence[tuple[float, float]],
    size: float,
) -> list[Place]:
    """
    A place for each name in its shape, near its middle.

    Where points are so near each other that none is clear, as far off them as can be.

    Parameters
    ----------
    named : sequence of (str, Polygon or MultiPolygon)
        The parts of the floor, metres.
    points_m : sequence of (float, float)
        Where points are, metres.
    size : float
        Of the type of their names and values, pixels.
    """
    half = (width_of("00.0?", size) / 2, size * 1.5)
    taken = [(*frame.place(x, y), *half) for x, y in points_m]
    found = []
    for words, shape in named:
        wide, high = width_of(words, OF_NAMES) / 2 + 4, OF_NAMES * 0.6
        place = _clearest(frame, shape, np.array(taken).reshape(-1, 4), (wide, high))
        taken.append((*place, wide, high))
        found.append(place)
    return found


def _clearest(frame: PictureFrame, shape: Any, taken: np.ndarray, half: Place) -> Place:
    import shapely

    low_x, low_y, high_x, high_y = shape.bounds
    across = (np.arange(_TRIED) + 0.5) / _TRIED
    x, y = np.meshgrid(low_x + across * (high_x - low_x), low_y + across * (high_y - low_y))
    middle = shape.representative_point()
    inside = shapely.contains_xy(shape, x, y)
    tried = [*middle.coords, *zip(x[inside].tolist(), y[inside].tolist(), strict=True)]
    places = np.array([frame.place(*each) for each in tried])
    # 1 and more: beside it, or above or below.
    off = np.abs(places[:, None] - taken[None, :, :2]) / (taken[None, :, 2:] + half)
    clear = np.minimum(off.max(axis=2).min(axis=1, initial=np.inf), 1.0)
    from_middle = np.hypot(*(places - frame.place(*middle.coords[0])).T)
    best = int(np.lexsort((from_middle, -clear))[0])
    return (float(places[best, 0]), float(places[best, 1]))
