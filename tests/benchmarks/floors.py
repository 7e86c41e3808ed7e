"""
Simulated floors, whose volume is known.

The unevenness comes from an independent library of random fields (GSTools) with
covariances of several families, only one of which the surface under test supposes. Tilts,
curled slab edges and steps come on top, then readings with 1 mm noise, rounded to 1 mm.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from assistant.levels.arrays import FloatArray
from assistant.levels.grid import grid_points
from assistant.levels.outline import contains, outline_area, rectangle

MM = 0.001
FAMILIES = (
    "Exponential",
    "Gaussian",
    "Matern 3/2",
    "Matern 5/2",
    "Spherical",
    "Cubic",
    "Stable 1.5",
)
_ACROSS = 90
"""Cells along the longer side that the true volume is added up over."""


@dataclass(frozen=True, eq=False)
class Floor:
    """A floor as it is, and as it was read."""

    kind: str
    points_m: FloatArray
    readings_m: FloatArray
    """(n,) heights, with noise, to whole millimetres."""
    outline_m: FloatArray
    finish_m: float
    lattice_m: FloatArray
    """(q, 2) inside the outline, evenly."""
    true_m: FloatArray
    """(q,) heights there without noise."""
    true_at_m: FloatArray
    """(n,) heights of the points without noise."""
    step_m: FloatArray | None = None
    """(2, 2) two places on the line of its step."""

    @property
    def true_volume_m3(self) -> float:
        """Of material under the finish; good to a tenth of a percent."""
        depths = np.maximum(self.finish_m - self.true_m, 0.0)
        return float(depths.mean()) * outline_area(self.outline_m)


def simulated(number: int) -> Floor:
    """A floor that follows from its number."""
    chance = np.random.default_rng([7, number])
    first, second = np.sort(chance.uniform(3, 15, 2))[::-1]
    second = max(second, first / 4)
    outline = _outline(first, second, chance)
    points = _points(first, second, outline, chance)
    lattice = _lattice(outline)
    places = np.vstack([points, lattice])
    family = FAMILIES[number % len(FAMILIES)]
    heights = _field(family, float(np.hypot(first, second)), places, chance, number)
    heights += (places * chance.normal(0, 2 * MM, 2)).sum(axis=1)
    kind, step = family, None
    if chance.random() < 0.3:
        heights += _curl(places, first, second, chance)
        kind += ", curled"
    if chance.random() < 0.15:
        step, risen = _step(places, first, second, chance)
        heights += risen
        kind += ", stepped"
    return _read(kind, points, heights, outline, lattice, step, chance)


def franke(number: int) -> Floor:
    """
    Franke's function as a floor of 8 m by 6 m, 15 mm for each of its units.

    Franke (1979), as check values have it: the integral over the unit square is
    0.40696958949156.
    """
    chance = np.random.default_rng([11, number])
    outline = rectangle(8, 6)
    points = _points(8.0, 6.0, outline, chance)
    lattice = _lattice(outline)
    places = np.vstack([points, lattice]) / [8, 6]
    heights = 15 * MM * franke_at(places)
    return _read("Franke", points, heights, outline, lattice, None, chance)


def franke_at(places: FloatArray) -> FloatArray:
    """Franke's function on the unit square, (m,) for (m, 2)."""
    x, y = 9 * places[:, 0], 9 * places[:, 1]
    heights: FloatArray = (
        0.75 * np.exp(-((x - 2) ** 2 + (y - 2) ** 2) / 4)
        + 0.75 * np.exp(-((x + 1) ** 2) / 49 - (y + 1) / 10)
        + 0.5 * np.exp(-((x - 7) ** 2 + (y - 3) ** 2) / 4)
        - 0.2 * np.exp(-((x - 4) ** 2) - (y - 7) ** 2)
    )
    return heights


def _read(
    kind: str,
    points: FloatArray,
    heights: FloatArray,
    outline: FloatArray,
    lattice: FloatArray,
    step: FloatArray | None,
    chance: np.random.Generator,
) -> Floor:
    true_at_points, true = np.split(heights, [len(points)])
    readings = (true_at_points + chance.normal(0, MM, len(points))) / MM
    readings = np.round(readings) * MM
    if chance.random() < 0.75:
        finish = readings.max() + chance.uniform(2, 8) * MM
    else:
        finish = np.quantile(readings, chance.uniform(0.5, 0.9))
    return Floor(
        kind, points, readings, outline, float(finish), lattice, true, true_at_points, step
    )


def _outline(first: float, second: float, chance: np.random.Generator) -> FloatArray:
    """Two rooms in three are rectangles, the others have a corner taken out."""
    if chance.random() < 2 / 3:
        return rectangle(first, second)
    x, y = np.array([first, second]) * chance.uniform(0.5, 0.8, 2)
    return np.array([[0, 0], [first, 0], [first, y], [x, y], [x, second], [0, second]])


def _points(
    first: float, second: float, outline: FloatArray, chance: np.random.Generator
) -> FloatArray:
    """12 to 80 points: a grid, a grid walked loosely, or scattered."""
    count = int(chance.integers(12, 81))
    manner = chance.random()
    if manner < 0.65:
        points = _grid(outline, count)
        if manner > 0.45:
            points = points + chance.normal(0, 0.12, points.shape)
            points = np.clip(points, 0.05, [first - 0.05, second - 0.05])
    else:
        points = chance.uniform(0.02, 0.98, (6 * count, 2)) * [first, second]
    points = points[contains(outline, points)]
    return points if manner < 0.65 else points[:count]


def _grid(outline: FloatArray, count: int) -> FloatArray:
    """The widest grid with so many points at least, at most 80."""
    spacing = np.sqrt(outline_area(outline) / count) * 1.4
    grid = grid_points(outline, spacing, spacing).xy_m
    while len(grid) < count:
        spacing *= 0.97
        finer = grid_points(outline, spacing, spacing).xy_m
        if len(finer) > 80:
            break
        grid = finer
    return grid


def _lattice(outline: FloatArray) -> FloatArray:
    sides = np.ptp(outline, axis=0)
    counts = np.maximum(np.round(_ACROSS * sides / sides.max()), 20).astype(int)
    x, y = (
        (np.arange(count) + 0.5) * side / count for count, side in zip(counts, sides, strict=True)
    )
    places = np.stack(np.meshgrid(x, y), axis=2).reshape(-1, 2)
    return places[contains(outline, places)]


def _field(
    family: str, size: float, places: FloatArray, chance: np.random.Generator, number: int
) -> FloatArray:
    import gstools

    name, _, smoothness = family.partition(" ")
    more: dict[str, float] = {}
    if name == "Matern":
        more["nu"] = 1.5 if smoothness == "3/2" else 2.5
    if name == "Stable":
        more["alpha"] = float(smoothness)
    make: Callable[..., object] = getattr(gstools, name)
    sd = 5 * MM * np.exp(chance.normal(0, 0.5))
    reach = size * chance.uniform(0.1, 0.5)
    # By their integral scale: one range means another thing in each family.
    model = make(dim=2, var=sd**2, integral_scale=reach / 2, **more)
    field = gstools.SRF(model, seed=20_000 + number, mode_no=500)
    return np.array(field((places[:, 0], places[:, 1])), dtype=np.float64)


def _curl(
    places: FloatArray, first: float, second: float, chance: np.random.Generator
) -> FloatArray:
    """Slabs between joints, each edge risen by the square of the way out from the middle."""
    bays = np.maximum(np.round(np.array([first, second]) / chance.uniform(4, 6)), 1)
    across = places / [first, second] * bays
    out = 2 * np.abs(across - np.floor(across) - 0.5)
    risen: FloatArray = chance.uniform(1, 4) * MM * (out**2).sum(axis=1) / 2
    return risen


def _step(
    places: FloatArray, first: float, second: float, chance: np.random.Generator
) -> tuple[FloatArray, FloatArray]:
    middle = np.array([first, second]) * chance.uniform(0.25, 0.75, 2)
    line = np.array([middle, middle + np.array([0.0, 1.0])])
    if chance.random() < 0.5:
        line = np.array([middle, middle + np.array([1.0, 0.0])])
    axis = int(line[0, 0] != line[1, 0])
    height = chance.choice([-1, 1]) * chance.uniform(2, 8) * MM
    return line, np.where(places[:, axis] > middle[axis], height, 0.0)
