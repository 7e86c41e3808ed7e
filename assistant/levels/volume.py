"""Volume between a floor and its finish, inside the outline."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from assistant.levels.arrays import FloatArray, as_levels
from assistant.levels.surface import Mesh
from grammar.frozen import frozen

AT_THE_FINISH_M = 1e-12
"""Floor this near the finish is at it, so that rounding does not count as filled area."""


@frozen
class VolumeToFinish:
    """What it takes to bring a floor to its finish."""

    volume_m3: float
    """To pour, over all places where the floor is below the finish."""
    area_m2: float
    """Area within the outline."""
    filled_area_m2: float
    """Area of the places where material goes."""
    cut_m3: float
    """To take off, over all places where the floor is above the finish."""


def fill(mesh: Mesh, depths_m: ArrayLike) -> VolumeToFinish:
    """
    Volume to pour and to take off.

    Parameters
    ----------
    mesh : Mesh
        From :func:`~assistant.levels.surface.mesh_over`.
    depths_m : (n,) array_like
        Depth at each point, metres: finish minus floor, positive where material goes.

    Returns
    -------
    fill : Fill
        Exact for the surface of the mesh: ``volume_m3`` is the integral over the outline of
        the depth where it is positive, ``cut_m3`` that of minus the depth where it is
        negative. Their difference is the mean depth times the area.

    Raises
    ------
    SurveyError
        If a depth is missing or not finite. Names the row.

    Notes
    -----
    Under a flat triangle all on one side of the finish the volume is its area times the mean
    of the corner depths. Where the finish crosses the triangle, it cuts off a smaller one at
    the corner that is alone on its side; its volume is worked out and the rest is the
    difference. Setting negative corner depths to zero instead would be wrong by up to a
    factor of two. Truncated triangular prism: exact arithmetic.

    Examples
    --------
    A floor 3 m wide that falls from 10 mm above the finish to 10 mm below it over 4 m.

    >>> from assistant.levels.surface import mesh_over
    >>> corners = [[0, 0], [4, 0], [4, 3], [0, 3]]
    >>> result = fill(mesh_over(corners, corners), [-0.010, 0.010, 0.010, -0.010])
    >>> round(result.volume_m3, 9), round(result.cut_m3, 9), round(result.filled_area_m2, 9)
    (0.03, 0.03, 6.0)
    """
    depths = as_levels(depths_m, len(mesh.points_m), "depth")
    corners = mesh.corner_heights(depths)
    corners[np.abs(corners) < AT_THE_FINISH_M] = 0.0
    least, most = corners.min(axis=1), corners.max(axis=1)
    # Starts as if every triangle were on one side of the finish.
    mean = corners.mean(axis=1)
    above = np.maximum(mean, 0.0)
    below = np.maximum(-mean, 0.0)
    share = (most > 0).astype(np.float64)
    crossed = np.flatnonzero((least < 0) & (most > 0))
    above[crossed], below[crossed], share[crossed] = _parts_of_crossed(corners[crossed])
    return VolumeToFinish(
        volume_m3=max(float(mesh.areas_m2 @ above), 0.0),
        area_m2=mesh.area_m2,
        filled_area_m2=min(max(float(mesh.areas_m2 @ share), 0.0), mesh.area_m2),
        cut_m3=max(float(mesh.areas_m2 @ below), 0.0),
    )


def _parts_of_crossed(corners: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """
    Triangles the finish crosses, split at the crossing.

    Parameters
    ----------
    corners : (m, 3) array of float
        Depths, in each row at least one above and one below zero.

    Returns
    -------
    above, below, share : (m,) arrays of float
        Integrals of the positive and of minus the negative depth, and the part of the
        triangle that is positive, each per area of the triangle.
    """
    # Turned over where two corners are positive, so that one positive corner is alone.
    turned = np.where((corners > 0).sum(axis=1) == 2, -1.0, 1.0)
    depths = np.sort(corners * turned[:, None], axis=1)
    alone = depths[:, 2]
    # Each factor is between 0 and 1 and its divisor at least `alone`: no depth is too small.
    share = (alone / (alone - depths[:, 0])) * (alone / (alone - depths[:, 1]))
    one_side = share * alone / 3
    other_side = np.maximum(one_side - depths.mean(axis=1), 0.0)
    kept = turned > 0
    return (
        np.where(kept, one_side, other_side),
        np.where(kept, other_side, one_side),
        np.where(kept, share, 1 - share),
    )
