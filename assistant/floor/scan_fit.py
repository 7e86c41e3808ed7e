"""Points of a file against the room: which way they lie, and whether they lie in it at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.errors import SurveyError
from assistant.floor.late_numpy import np
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

LEAST_IN = 0.9
"""Share of points that has to lie in the room: scanners see through doors."""
_NEARLY_M = 0.05


@frozen
class Fit:
    """How much of a file lies in the room, read one way round and the other."""

    as_read: float
    swapped: float
    spans_m: tuple[float, float]
    """Extent of the points, first and second place."""
    starts_m: tuple[float, float]

    @property
    def lies_as_read(self) -> bool:
        """Whether nearly all points lie in the room as they are."""
        return self.as_read >= LEAST_IN

    @property
    def lies_swapped(self) -> bool:
        """Whether they do the other way round."""
        return self.swapped >= LEAST_IN


def fit_of(outline_m: FloatArray, first_m: FloatArray, second_m: FloatArray) -> Fit:
    """Shares of points within the outline, both ways round."""
    if not len(first_m):
        raise SurveyError("There are no points.")
    places = np.column_stack((first_m, second_m))
    # A few tell as much as all.
    some = places[:: max(len(places) // 20_000, 1)]
    low, high = np.percentile(some, [1, 99], axis=0)
    return Fit(
        _share(outline_m, some),
        _share(outline_m, some[:, ::-1]),
        (float(high[0] - low[0]), float(high[1] - low[1])),
        (float(low[0]), float(low[1])),
    )


def _share(outline_m: FloatArray, places_m: FloatArray) -> float:
    import shapely

    room = shapely.Polygon(outline_m).buffer(_NEARLY_M)
    shapely.prepare(room)
    return float(np.mean(shapely.contains_xy(room, places_m[:, 0], places_m[:, 1])))
