"""
The chance of high spots between the readings.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from assistant.levels.arrays import BoolArray, FloatArray
from assistant.levels.kriged.cells import cells_for
from assistant.levels.kriged.covariance import pairwise_distances
from assistant.levels.kriged.finish import finish_at
from assistant.levels.kriged.mixture import Mixture
from assistant.levels.kriged.solved import SolvedCovariance
from assistant.levels.kriged.surface import KrigedSurface
from assistant.levels.kriged.volume import ENOUGH_WEIGHT
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.area import AreaLike
    from assistant.levels.kriged.finish import FinishLike

TOLERANCE_M = 0.001
"""A depth short by less than this counts as deep enough: one reading's resolution.

Without it a finish set to the highest reading and the least depth would be short somewhere
beside that reading in every second case. Our own choice, no source.
"""
DRAWS = 2000
"""Floors drawn to see whether any place is short; a chance comes out within 0.01 or so."""
_MOST_PLACES = 300
"""Places drawn together, those likeliest short; raising it takes time by the third power."""
_HARDLY = 1e-4
"""Places with less chance than this are not drawn."""


@frozen_identity
class HighSpots:
    """Where the floor may be too high between the readings, and how likely."""

    chance: float
    """That any place away from known high spots is short."""
    worst_m: FloatArray | None
    """(2,) the place likeliest short; None when every place belongs to a known high spot."""
    worst_chance: float
    """The chance that the depth at that place is short."""
    worst_depth_m: float
    """The depth expected at that place."""
    worst_sd_m: float
    """Standard deviation of that depth."""
    places_m: FloatArray
    """(q, 2) the places looked at."""
    chances: FloatArray
    """(q,) the chance of each that its depth is short."""


def hidden_high_spots(
    floor: KrigedSurface,
    area_m: AreaLike,
    finish_m: FinishLike,
    min_depth_m: float,
    *,
    tolerance_m: float = TOLERANCE_M,
) -> HighSpots:
    """
    Chance that a place between the readings leaves less than the least depth.

    Places nearest to a reading that is short itself are left out: those are known.

    Parameters
    ----------
    floor : KrigedSurface
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        The floor, as :func:`~assistant.levels.area.as_area` takes it.
    finish_m : float or (3,) array_like
        A level, or a height at (0, 0) and two slopes.
    min_depth_m : float
        Least depth the product may have, metres.
    tolerance_m : float
        By how much a depth must be less to count, metres.

    Returns
    -------
    spots : HighSpots

    Raises
    ------
    SurveyError
        For the area as :func:`~assistant.levels.area.as_area`.

    Notes
    -----
    Each place's chance is exact for the mixture of surfaces. Whether *any* is short depends
    on how the places go together, so whole floors are drawn that pass by the readings
    (conditional simulation), always the same ones: the same readings give the same chance.
    A bump smaller than the cells, a few hands wide, escapes.

    Examples
    --------
    >>> from assistant.levels.kriging import fit_surface
    >>> points = [[x, y] for x in (1, 3, 5) for y in (1, 3)]
    >>> floor = fit_surface(points, [0.002, 0.000, 0.004, 0.003, 0.001, 0.002])
    >>> spots = hidden_high_spots(floor, [[0, 0], [6, 0], [6, 4], [0, 4]], 0.020, 0.003)
    >>> spots.chance < 0.05
    True
    """
    cells = cells_for(area_m, len(floor.points_m))
    hidden = ~_known(floor, cells.centroids_m, finish_m, min_depth_m)
    places = cells.centroids_m[hidden]
    if len(places) == 0:
        return HighSpots(0.0, None, 0.0, 0.0, 0.0, places, np.zeros(0))
    finish = finish_at(finish_m, places)
    too_high = finish - min_depth_m + tolerance_m
    heights = floor.predict(places)
    chances = 1 - heights.chance_below(too_high)
    worst = int(chances.argmax())
    anywhere = max(_chance_of_any(floor, places, too_high, chances, heights), float(chances[worst]))
    return HighSpots(
        chance=anywhere,
        worst_m=places[worst],
        worst_chance=float(chances[worst]),
        worst_depth_m=float(finish[worst] - heights.mean[worst]),
        worst_sd_m=float(heights.sd[worst]),
        places_m=places,
        chances=chances,
    )


def _known(
    floor: KrigedSurface, places: FloatArray, finish_m: FinishLike, min_depth_m: float
) -> BoolArray:
    """Places nearest to a reading that is short itself."""
    depths = finish_at(finish_m, floor.points_m) - floor.heights_m
    known: BoolArray = (depths < min_depth_m)[
        pairwise_distances(places, floor.points_m).argmin(axis=1)
    ]
    return known


def _chance_of_any(
    floor: KrigedSurface,
    places: FloatArray,
    too_high: FloatArray,
    chances: FloatArray,
    heights: Mixture,
) -> float:
    likeliest = np.argsort(-chances, kind="stable")[:_MOST_PLACES]
    rows = np.sort(likeliest[chances[likeliest] > _HARDLY])
    if not rows.size:
        return 0.0
    counting = np.flatnonzero(floor.weights >= ENOUGH_WEIGHT * floor.weights.max())
    weights = floor.weights[counting] / floor.weights[counting].sum()
    draws = np.maximum(np.round(weights * DRAWS), 20).astype(np.intp)
    normal = np.random.default_rng(0)
    short = [
        _short_of(floor.solved[row], places[rows], too_high[rows] - heights.means[row, rows], some)
        for row, some in zip(
            counting, (normal.normal(size=(len(rows), d)) for d in draws), strict=True
        )
    ]
    return float(weights @ short)


def _short_of(
    one: SolvedCovariance, places: FloatArray, margins: FloatArray, normal: FloatArray
) -> float:
    """Share of drawn floors that rise over their margin anywhere."""
    from scipy.linalg import cholesky

    there = (one.readings.columns_at(places), one.alike(places))
    covariance = one.covariance(there, there, one.alike_between(places))
    # Places beside readings are known so well that rounding could leave less than nothing.
    covariance.flat[:: len(covariance) + 1] += 1e-9 * one.sill_m**2
    drawn = cholesky(covariance, lower=True, overwrite_a=True, check_finite=False) @ normal
    return float((drawn > margins[:, None]).any(axis=0).mean())
