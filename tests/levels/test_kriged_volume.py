"""The volume with its interval, and high spots no reading shows."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
import shapely
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.levels.kriged import high_spots
from assistant.levels.kriged.cells import cells_for
from assistant.levels.kriged.covariance import drift_of, matern, pairwise_distances
from assistant.levels.kriged.high_spots import hidden_high_spots
from assistant.levels.kriged.likelihood import LikelihoodData, Pairs
from assistant.levels.kriged.reuse import inverses_anew
from assistant.levels.kriged.surface import KrigedSurface
from assistant.levels.kriged.volume import _widest_sd, volume_with_interval
from assistant.levels.kriging import fit_surface
from assistant.levels.outline import rectangle
from tests.there import there

MM = 0.001
ROOM = rectangle(6, 4)
L_SHAPE = np.array([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]])


def lattice(x: ArrayLike, y: ArrayLike) -> FloatArray:
    return np.stack(np.meshgrid(x, y), axis=2).reshape(-1, 2).astype(float)


GRID = lattice([0.5, 2.2, 3.9, 5.6], [0.5, 2.0, 3.5])


def fixed(
    points: FloatArray,
    heights: FloatArray,
    reach: float = 1.7,
    sill: float = 4 * MM,
    noise: float = MM,
    shared: FloatArray | None = None,
) -> KrigedSurface:
    points, heights = np.asarray(points, float), np.asarray(heights, float)
    drift = drift_of(points, np.zeros((0, 2, 2)))
    readings = LikelihoodData(points, heights, np.full(len(points), noise), drift, 7.2, 0.0, shared)
    pairs = Pairs(np.array([reach]), np.array([sill]), np.zeros(1))
    return KrigedSurface(readings, pairs, readings, inverses_anew(readings, pairs))


def lumps(points: FloatArray, number: int = 0) -> FloatArray:
    return (np.random.default_rng(number).normal(0, 3, len(points))).round() * MM


@pytest.mark.parametrize("outline", [ROOM, L_SHAPE], ids=["rectangle", "L-shaped"])
def test_a_tilted_plane(outline: FloatArray) -> None:
    # Exact arithmetic: depths 5 + 2x + 3y mm; 0.408 m3 on 6 m by 4 m, and 5 mm + the centroid's
    # (2.714286, 1.821429) on the L of 21 m2.
    expected = 0.408 if len(outline) == 4 else 21 * (5 + 2 * 2.714285714 + 3 * 1.821428571) * MM
    floor = fit_surface(GRID, -(5 + GRID @ [2, 3]) * MM)
    assert volume_with_interval(floor, outline, 0.0).mean_m3 == pytest.approx(expected, rel=1e-5)


def test_an_even_depth_on_an_l_shaped_floor() -> None:
    # Exact arithmetic: 21 m2 at 8 mm are 168 litres.
    floor = fit_surface(GRID, np.full(12, -8 * MM))
    found = volume_with_interval(floor, L_SHAPE, 0.0)
    assert found.mean_m3 == pytest.approx(0.168, rel=1e-9)
    assert found.area_m2 == pytest.approx(21)
    # Twelve readings good to 1 mm: a little more than 21 litres / sqrt(12), as sd.
    assert 0.006 < found.sd_m3 < 0.008
    assert 0.150 < found.low_m3 < 0.168 < found.high_m3 < 0.186


def test_an_error_that_all_readings_share_counts_for_the_whole_area() -> None:
    # Exact arithmetic: the floor's own level is left free, so nothing tells the two apart.
    alone = fixed(GRID, lumps(GRID) - 0.030)
    shared = fixed(GRID, lumps(GRID) - 0.030, shared=np.full((12, 1), 2 * MM))
    one, other = (volume_with_interval(floor, ROOM, 0.0) for floor in (alone, shared))
    assert other.sd_m3 == pytest.approx(np.hypot(one.sd_m3, 0.048), rel=1e-6)
    assert other.mean_m3 == pytest.approx(one.mean_m3)


def test_an_error_shared_by_half_the_readings() -> None:
    # The volume is linear in the readings where all is deep: w'y. Its variance is that without
    # the error, with the same weights, and (w's)² more: exact arithmetic, least for its weights.
    shared = np.where(GRID[:, [0]] > 3, 3 * MM, 0.0)
    floor = fixed(GRID, lumps(GRID) - 0.030, shared=shared)
    found = volume_with_interval(floor, ROOM, 0.0)
    apart = []
    for row in range(12):
        risen = lumps(GRID) - 0.030 + np.where(np.arange(12) == row, MM, 0.0)
        apart.append(
            volume_with_interval(fixed(GRID, risen, shared=shared), ROOM, 0.0).mean_m3
            - found.mean_m3
        )
    weights = np.array(apart) / MM
    away = pairwise_distances(GRID, GRID)
    cells = cells_for(ROOM, 12)
    before = (4 * MM) ** 2 * cells.spread(cells.areas_m2, 1.7)
    crossing = cells.areas_m2 @ (
        (4 * MM) ** 2 * matern(pairwise_distances(cells.centres_m, GRID), 1.7)
    )
    readings = (4 * MM) ** 2 * matern(away, 1.7) + MM**2 * np.eye(12) + shared @ shared.T
    variance = before + 2 * weights @ crossing + weights @ readings @ weights
    assert found.sd_m3**2 == pytest.approx(variance, rel=1e-4)


def test_an_error_of_the_zero_counts_for_the_whole_area() -> None:
    # Exact arithmetic: 1 mm over 24 m2 is 24 litres.
    floor = fit_surface(GRID, lumps(GRID) - 0.030)
    alone = volume_with_interval(floor, ROOM, 0.0)
    found = volume_with_interval(floor, ROOM, 0.0, common_sd_m=MM)
    assert found.common_sd_m3 == pytest.approx(0.024, rel=1e-6)
    assert found.sd_m3 == pytest.approx(np.hypot(alone.sd_m3, 0.024), rel=1e-6)
    assert found.mean_m3 == pytest.approx(alone.mean_m3)
    assert alone.common_sd_m3 == 0


def test_a_floor_that_crosses_the_finish() -> None:
    # Exact arithmetic: depth -10 + 5x mm for x to 4 m, 3 m wide: 0.030 m3 of fill.
    points = lattice([0.2, 1.4, 2.6, 3.8], [0.3, 1.1, 1.9, 2.7])
    floor = fixed(points, (10 - 5 * points[:, 0]) * MM, reach=5, sill=0.01 * MM, noise=0.01 * MM)
    found = volume_with_interval(floor, rectangle(4, 3), 0.0)
    assert found.mean_m3 == pytest.approx(0.030, rel=2e-3)


def test_franke() -> None:
    # Franke (1979), its integral over the unit square 0.40696958949156; 10 mm for each unit,
    # on 1 m by 1 m, read without noise.
    places = lattice(np.linspace(0, 1, 21), np.linspace(0, 1, 21))
    x, y = 9 * places.T
    heights = (
        0.75 * np.exp(-((x - 2) ** 2 + (y - 2) ** 2) / 4)
        + 0.75 * np.exp(-((x + 1) ** 2) / 49 - (y + 1) / 10)
        + 0.5 * np.exp(-((x - 7) ** 2 + (y - 3) ** 2) / 4)
        - 0.2 * np.exp(-((x - 4) ** 2) - (y - 7) ** 2)
    )
    assert heights[0] == pytest.approx(0.7664205912849)
    floor = fit_surface(places, -heights * 10 * MM, 1e-6, texture_part=0.0)
    found = volume_with_interval(floor, rectangle(1, 1), 0.0)
    assert found.mean_m3 == pytest.approx(0.40696958949156 * 10 * MM, rel=1e-3)
    assert found.sd_m3 < 0.01 * found.mean_m3


def test_raising_the_finish_a_millimetre_adds_it_over_the_area() -> None:
    floor = fit_surface(GRID, lumps(GRID) - 0.050)
    low, high = (volume_with_interval(floor, ROOM, finish) for finish in (0.0, MM))
    assert high.mean_m3 - low.mean_m3 == pytest.approx(24 * MM, rel=1e-9)
    assert high.sd_m3 == pytest.approx(low.sd_m3, rel=1e-9)


def test_a_sloping_finish_over_a_sloping_floor() -> None:
    slope = np.array([0.010, -0.005])
    level = fit_surface(GRID, lumps(GRID) - 0.050)
    sloped = fit_surface(GRID, lumps(GRID) - 0.050 + GRID @ slope)
    one = volume_with_interval(level, ROOM, 0.0)
    other = volume_with_interval(sloped, ROOM, [0.0, *slope])
    assert other.mean_m3 == pytest.approx(one.mean_m3, rel=1e-6)
    assert other.sd_m3 == pytest.approx(one.sd_m3, rel=1e-4)


def test_turned_and_moved_floors_hold_the_same() -> None:
    turn = np.array([[np.cos(0.4), np.sin(0.4)], [-np.sin(0.4), np.cos(0.4)]])
    one = volume_with_interval(fit_surface(GRID, lumps(GRID)), L_SHAPE, 0.002)
    turned = fit_surface(GRID @ turn + [40, -9], lumps(GRID))
    other = volume_with_interval(turned, L_SHAPE @ turn + [40, -9], 0.002)
    assert other.mean_m3 == pytest.approx(one.mean_m3, rel=1e-5)
    assert other.sd_m3 == pytest.approx(one.sd_m3, rel=1e-4)


def test_double_sum_over_cells_is_that_over_all_pairs() -> None:
    cells = cells_for(L_SHAPE, 12)
    sums = cells.areas_m2 * np.random.default_rng(1).uniform(0, 1, len(cells.areas_m2))
    between = matern(pairwise_distances(cells.centres_m, cells.centres_m), 1.3)
    assert cells.spread(sums, 1.3) == pytest.approx(sums @ between @ sums, rel=1e-9)


def drawn(
    floor: KrigedSurface, outline: FloatArray, finish: float, count: int = 4000
) -> FloatArray:
    """Volumes of floors drawn to pass by the readings, over the same cells."""
    cells = cells_for(outline, len(floor.points_m))
    one = floor.solved[0]
    there = (floor.readings.drift.columns(cells.centroids_m), one.alike(cells.centres_m))
    covariance = one.covariance(there, there, one.alike_between(cells.centres_m))
    root = np.linalg.cholesky(covariance + 1e-14 * np.eye(len(covariance)))
    normal = np.random.default_rng(5).normal(size=(len(covariance), count))
    depths = finish - one.means(*there)[:, None] - root @ normal
    return cells.areas_m2 @ np.maximum(depths, 0)


@pytest.mark.parametrize("finish", [0.020, 0.004, 0.0, -0.003])
def test_volume_and_interval_as_drawn_floors_have_them(finish: float) -> None:
    floor = fixed(GRID, lumps(GRID))
    found = volume_with_interval(floor, ROOM, finish)
    floors = drawn(floor, ROOM, finish)
    # 4000 draws know the mean to 1.6 % of the sd, and the sd to 1.1 %.
    assert found.mean_m3 == pytest.approx(floors.mean(), abs=0.05 * found.sd_m3)
    assert found.sd_m3 == pytest.approx(floors.std(), rel=0.05)
    below, above = np.mean(floors < found.low_m3), np.mean(floors > found.high_m3)
    assert 0.01 < below + above < 0.08


def test_volume_for_a_risk_and_back() -> None:
    found = volume_with_interval(fit_surface(GRID, lumps(GRID)), ROOM, 0.012)
    for chance in (0.05, 0.5, 0.95, 0.99):
        assert found.chance_enough(found.quantile(chance)) == pytest.approx(chance, abs=1e-6)
    assert found.quantile(0.025) == pytest.approx(found.low_m3)
    assert found.quantile(0.975) == pytest.approx(found.high_m3)
    assert found.quantile(0.5) < found.quantile(0.95)
    assert found.chance_enough(-1.0) == 0
    for chance in (0, 1, 95):
        with pytest.raises(SurveyError, match="between 0 and 1"):
            found.quantile(chance)


def test_no_volume_below_nothing() -> None:
    found = volume_with_interval(fit_surface([[3, 2]], [0.050]), ROOM, 0.0)
    assert found.low_m3 >= 0
    assert found.quantile(0.001) >= 0


def test_more_readings_narrow_the_interval() -> None:
    wide = volume_with_interval(fit_surface(GRID[::3], lumps(GRID)[::3], size_m=7.2), ROOM, 0.02)
    narrow = volume_with_interval(fit_surface(GRID, lumps(GRID), size_m=7.2), ROOM, 0.02)
    assert narrow.sd_m3 < wide.sd_m3


@pytest.mark.parametrize("finish", [[0.0, 0.1], np.nan, [0.0, np.inf, 0.0]])
def test_a_finish_that_is_none_is_refused(finish: float | list[float]) -> None:
    with pytest.raises(SurveyError, match="one level, or"):
        volume_with_interval(fit_surface(GRID, lumps(GRID)), ROOM, finish)


def test_hidden_high_spots_as_drawn_floors_have_them() -> None:
    floor = fixed(GRID, lumps(GRID))
    finish = float(floor.heights_m.max()) + 4 * MM
    spots = hidden_high_spots(floor, ROOM, finish, 3 * MM, tolerance_m=0.0)
    one = floor.solved[0]
    columns, alike = floor.readings.drift.columns(spots.places_m), one.alike(spots.places_m)
    there = (columns, alike)
    covariance = one.covariance(there, there, one.alike_between(spots.places_m))
    root = np.linalg.cholesky(covariance + 1e-14 * np.eye(len(covariance)))
    heights = root @ np.random.default_rng(6).normal(size=(len(covariance), 3000))
    heights += one.means(*there)[:, None]
    short = heights > finish - 3 * MM
    assert spots.chance == pytest.approx(short.any(axis=0).mean(), abs=0.04)
    assert spots.chances == pytest.approx(short.mean(axis=1), abs=0.035)
    assert spots.worst_chance == spots.chances.max()
    assert spots.chance > spots.worst_chance


def test_a_high_spot_is_looked_for_where_heights_rise() -> None:
    points = lattice([0.1, 1.5, 3, 4.5, 5.9], [0.1, 1.4, 2.7, 3.9])
    heights = -0.012 + 0.010 * np.exp(-((points - [3.7, 2.0]) ** 2).sum(axis=1) / 2)
    spots = hidden_high_spots(fit_surface(points, heights), ROOM, 0.001, 0.003)
    assert np.hypot(*(there(spots.worst_m) - [3.7, 2.0])) < 0.6
    assert 0 < spots.worst_chance <= spots.chance <= 1


def test_a_known_high_spot_is_not_hidden() -> None:
    heights = np.full(12, -0.010)
    heights[5] = 0.002
    spots = hidden_high_spots(fit_surface(GRID, heights), ROOM, 0.0, 0.003)
    nearest = pairwise_distances(spots.places_m, GRID).argmin(axis=1)
    assert 5 not in nearest
    assert len(spots.places_m) > 300


def test_a_floor_that_is_all_too_high_hides_nothing() -> None:
    spots = hidden_high_spots(fit_surface(GRID, np.full(12, 0.001)), ROOM, 0.0, 0.003)
    assert spots.worst_m is None
    assert (spots.chance, spots.worst_chance, spots.worst_depth_m, spots.worst_sd_m) == (0,) * 4
    assert (len(spots.places_m), len(spots.chances)) == (0, 0)


def test_surfaces_are_drawn_as_often_as_they_weigh_and_the_unlikely_left_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A fiftieth of the likeliest one's weight counts, with twenty floors at the least."""
    drawn_of: list[tuple[str, int]] = []

    def short_of(one: str, places: FloatArray, margins: FloatArray, normal: FloatArray) -> float:
        drawn_of.append((one, normal.shape[1]))
        assert places.tolist() == [[1, 1], [2, 2]]
        assert margins == pytest.approx([0.002 - 0.001, 0.002 - 0.004])
        return {"first": 0.2, "second": 0.5, "third": 0.3, "hardly": 1.0}[one]

    monkeypatch.setattr(high_spots, "_short_of", short_of)
    weights = np.array([0.4, 0.3, 0.2835, 0.0085, 0.008 - 1e-6])
    names = ["first", "second", "third", "hardly", "never"]
    floor: Any = SimpleNamespace(weights=weights, solved=names)
    heights: Any = SimpleNamespace(means=np.tile([0.001, -9.0, 0.004], (5, 1)))
    places = np.array([[1.0, 1], [5, 5], [2, 2]])
    chance = high_spots._chance_of_any(
        floor, places, np.full(3, 0.002), np.array([0.3, 0.0, 0.4]), heights
    )
    # their parts of 0.992, of two thousand floors: exact arithmetic
    assert drawn_of == [("first", 806), ("second", 605), ("third", 572), ("hardly", 20)]
    assert chance == pytest.approx((0.4 * 0.2 + 0.3 * 0.5 + 0.2835 * 0.3 + 0.0085) / 0.992)


def test_places_that_lie_in_each_other_are_drawn_alike_and_break_nothing() -> None:
    floor = fixed(GRID, lumps(GRID))
    places, normal = np.full((4, 2), 1.3), np.random.default_rng(1).normal(size=(4, 500))
    for margin, share in ((1.0, 0), (-1.0, 1), (0.0, 0.5)):
        short = high_spots._short_of(floor.solved[0], places, np.full(4, margin), normal)
        assert short == pytest.approx(share, abs=0.05)


def test_a_deep_pour_hides_nothing() -> None:
    spots = hidden_high_spots(fit_surface(GRID, lumps(GRID)), ROOM, 0.100, 0.003)
    assert spots.chance < 1e-4


@pytest.mark.parametrize("error_m", [2 * MM, 10 * MM, 30 * MM])
@pytest.mark.parametrize("reach", [0.5, 1.7, 5.0])
@pytest.mark.parametrize("shared", [np.where(GRID[:, [0]] > 3, 1, 0), np.eye(12)[:, [5]]],
                         ids=["half the readings", "one reading"])  # fmt: skip
def test_no_cell_is_less_sure_than_what_decides_whether_it_is_surely_deep(
    error_m: float, reach: float, shared: FloatArray
) -> None:
    # A bound that is too low takes a cell for surely covered, and the volume for surer than it is.
    floor = fixed(GRID, lumps(GRID) - 0.030, reach=reach, shared=shared * error_m)
    cells = cells_for(ROOM, 12)
    columns = floor.readings.columns_at(cells.centroids_m)
    [(group, correlations)] = floor.by_range(cells.centres_m, np.array([0]))
    one = group[0]
    alike = one.sill_m**2 * correlations
    own = np.full(len(columns), one.sill_m**2)
    sds = np.sqrt(one.variances(columns, alike, own))
    assert (_widest_sd(one, columns, alike) >= sds * (1 - 1e-9)).all()


def test_beside_a_reading_a_cell_is_as_sure_as_that_reading_makes_it() -> None:
    """A sill of 4 mm and a reading of 1 mm: 16 - 16² / 17 mm², and what the drift is unsure by."""
    floor = fixed(GRID, lumps(GRID))
    one = floor.solved[0]
    columns, alike = floor.readings.columns_at(GRID[:1]), one.alike(GRID[:1])
    drift = float((columns @ one.drift_covariance @ columns.T).item())
    (widest,) = _widest_sd(one, columns, alike)
    assert widest**2 - drift == pytest.approx((16 - 16**2 / 17) * MM**2, rel=1e-3)


def test_what_readings_share_makes_every_cell_less_sure() -> None:
    """By a zero that is known to 5 mm, no cell is surer than half of that."""
    shared = fixed(GRID, lumps(GRID), shared=np.full((12, 1), 5 * MM))
    cells = cells_for(ROOM, 12).centroids_m
    sds = [
        _widest_sd(floor.solved[0], floor.readings.columns_at(cells), floor.solved[0].alike(cells))
        for floor in (fixed(GRID, lumps(GRID)), shared)
    ]
    assert (sds[1] > np.maximum(sds[0], 2.5 * MM)).all()


def test_no_cell_outside_is_taken_where_a_wall_runs_through_its_corner() -> None:
    # But for rounding; "covers" says yes of that cell. The area: exact arithmetic.
    angle, corners = 1.224730744033003, np.array([[-3.0, 4], [-2, -6], [5, -8]])
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    cells = cells_for((0.3 * corners) @ turn + [1, 2], 20)
    (ax, ay), (bx, by) = corners[1:] - corners[0]
    assert cells.areas_m2.sum() == pytest.approx(0.09 * abs(ax * by - ay * bx) / 2, rel=1e-7)


@pytest.mark.parametrize("seed", range(40))
def test_cells_that_no_wall_comes_near_are_as_if_they_were_cut(seed: int) -> None:
    """Against all of them cut by shapely, on rooms of any number of sides and their turns."""
    chance = np.random.default_rng(seed)
    sides = int(chance.integers(4, 12))
    turns = (np.arange(sides) + chance.uniform(0, 0.8, sides)) / sides * 2 * np.pi
    away = chance.uniform(1, 6, len(turns))
    outline = np.column_stack([away * np.cos(turns), away * np.sin(turns)]).round(2)
    polygon = shapely.Polygon(outline)
    cells = cells_for(outline, 100)
    wall = (outline[1] - outline[0]) / np.hypot(*(outline[1] - outline[0]))
    along, across = (
        wall * cells.spacing_m[1] / 2,
        np.array([-wall[1], wall[0]]) * (cells.spacing_m[0] / 2),
    )
    around = [-along - across, along - across, along + across, across - along]
    for centre, centroid, area in zip(
        cells.centres_m, cells.centroids_m, cells.areas_m2, strict=True
    ):
        # On a lattice: without, an overlay now and then loses a whole piece (seed 27).
        box = shapely.Polygon([centre + one for one in around])
        inside = shapely.intersection(polygon, box, grid_size=1e-9)
        assert area == pytest.approx(inside.area, abs=1e-7)
        if area > 1e-3 * np.prod(cells.spacing_m):
            assert centroid == pytest.approx(np.array(inside.centroid.coords[0]), abs=1e-4)
    assert cells.areas_m2.sum() == pytest.approx(polygon.area, abs=1e-6)
