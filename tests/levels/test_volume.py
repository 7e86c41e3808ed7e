"""Volumes against cases worked out elsewhere.

"Exact arithmetic" is a closed formula or integral; other sources stand beside their value.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
import shapely
from numpy.typing import ArrayLike
from scipy.integrate import dblquad

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.levels.grid import grid_points
from assistant.levels.outline import rectangle
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill

MM = 0.001
FOOT = 0.3048
L_SHAPE = np.array([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]])


def lattice(x: ArrayLike, y: ArrayLike) -> FloatArray:
    return np.stack(np.meshgrid(x, y), axis=2).reshape(-1, 2).astype(float)


def volume(points: FloatArray, outline: FloatArray, depths: ArrayLike) -> float:
    return fill(mesh_over(points, outline), depths).volume_m3


UNIT_AREA_DEPTHS = np.array([12, 15, 18, 20, 10, 14, 16, 19, 8, 11, 13, 17]) * MM
UNIT_AREA_POINTS = lattice([0, 2, 4, 6], [4, 2, 0])


def test_unit_area_method() -> None:
    # Exact arithmetic by the unit-area (four-point, borrow-pit) formula
    # V = A/4 (h1 + 2 h2 + 4 h4), read in lecture notes on earthwork from spot levels:
    # 0.349 m3 on 24 m2.
    result = fill(mesh_over(UNIT_AREA_POINTS, rectangle(6, 4)), UNIT_AREA_DEPTHS)
    assert result.volume_m3 == pytest.approx(0.349, rel=1e-12)
    assert result.area_m2 == 24
    assert result.filled_area_m2 == pytest.approx(24)
    assert result.cut_m3 == 0
    assert result.volume_m3 / result.area_m2 / MM == pytest.approx(14.5417, abs=5e-5)


def test_unit_area_method_counts_each_depth_by_its_cells() -> None:
    # The formula's counts: 1, 2 or 4 quarters of a cell of 4 m2. Same source as above.
    expected = [1, 2, 2, 1, 2, 4, 4, 2, 1, 2, 2, 1]
    weights = mesh_over(UNIT_AREA_POINTS, rectangle(6, 4)).area_weights
    assert weights == pytest.approx(expected, rel=1e-12)
    # Exact arithmetic: 1 mm of chance per reading is 7.746 L, 1 mm of zero error is 24 L.
    assert np.sqrt((weights**2).sum()) == pytest.approx(7.746, abs=5e-4)
    assert weights.sum() == pytest.approx(24, rel=1e-12)


def test_the_diagonal_of_a_cell_does_not_count() -> None:
    # Exact arithmetic: z = x y on the unit square holds 1/4; triangles along one diagonal
    # would give 1/3, along the other 1/6.
    corners = rectangle(1, 1)
    for turn in range(4):
        order = np.roll(np.arange(4), turn)
        for points in (corners[order], corners[order[::-1]]):
            depths = points[:, 0] * points[:, 1]
            assert volume(points, rectangle(1, 1), depths) == pytest.approx(1 / 4, rel=1e-12)


PLANE_POINTS = {
    "corners": rectangle(6, 4),
    "3 by 2 cells to the walls": lattice([0, 2, 4, 6], [0, 2, 4]),
    "uneven cells to the walls": lattice([0, 0.7, 4, 6], [0, 3.1, 4]),
    "centred grid": grid_points(rectangle(6, 4), 1.8, 1.5).xy_m,
    "one cell in the middle": lattice([2, 4], [1.5, 2.5]),
    "three points": np.array([[1.0, 1.0], [5.0, 1.5], [2.0, 3.0]]),
    "scattered": np.random.default_rng(5).uniform(0, 1, (40, 2)) * [6, 4],
    "scattered, some on walls": np.vstack(
        [np.random.default_rng(6).uniform(0, 1, (20, 2)) * [6, 4], [[0, 1], [6, 2], [3, 0]]]
    ),
    "beyond the walls": np.random.default_rng(7).uniform(-1, 2, (30, 2)) * [6, 4],
    "all outside": np.array([[-1.0, 2.0], [8.0, 1.0], [3.0, 6.0], [2.0, -2.0]]),
    "round the edge of a circle": 2
    + np.column_stack([np.cos(np.arange(9) * 0.7), np.sin(np.arange(9) * 0.7)]),
}


@pytest.mark.parametrize("points", PLANE_POINTS.values(), ids=PLANE_POINTS.keys())
def test_a_tilted_plane_is_that_plane_from_any_points(points: FloatArray) -> None:
    # Exact arithmetic: 5 + 2 x + 3 y mm on 6 m by 4 m holds 0.408 m3.
    def plane(places: FloatArray) -> FloatArray:
        return (5 + places @ [2, 3]) * MM

    mesh = mesh_over(points, rectangle(6, 4))
    assert fill(mesh, plane(points)).volume_m3 == pytest.approx(0.408, rel=1e-9)
    everywhere = lattice(np.linspace(-2, 8, 41), np.linspace(-2, 6, 33))
    assert mesh.heights_at(everywhere, plane(points)) == pytest.approx(plane(everywhere), abs=1e-9)


def test_published_cell_filled_to_level() -> None:
    # Published exercise (one 50 ft cell, corner elevations 87.6 87.6 87.6 88.6 ft, filled to
    # 90.0 ft): mean depth 2.15 ft, answer 199 cubic yards.
    points = rectangle(50 * FOOT, 50 * FOOT)
    depths = (90.0 - np.array([87.6, 87.6, 87.6, 88.6])) * FOOT
    for order in ([0, 1, 2, 3], [1, 0, 3, 2]):
        cubic_yards = volume(points, points, depths[order]) / (3 * FOOT) ** 3
        assert cubic_yards == pytest.approx(199, abs=0.5)
        assert cubic_yards == pytest.approx(199.074, abs=5e-4)


def test_even_depth_in_the_l_shaped_room() -> None:
    # Exact arithmetic: 21 m2, 8 mm, 168 L. From points in the room, on its walls, one only.
    for points in (L_SHAPE, grid_points(L_SHAPE, 1, 1).xy_m, np.array([[1.0, 1.0]])):
        result = fill(mesh_over(points, L_SHAPE), np.full(len(points), 8 * MM))
        assert result.volume_m3 == pytest.approx(0.168, rel=1e-12)
        assert result.area_m2 == 21
        assert result.filled_area_m2 == pytest.approx(21, rel=1e-12)


def test_plane_in_the_l_shaped_room() -> None:
    # Exact arithmetic: centroid of the room (2.714286, 1.821429), 21 m2.
    points = grid_points(L_SHAPE, 1.1, 0.9).xy_m
    expected = 21 * (5 + 2 * 2.7142857142857 + 3 * 1.8214285714286) * MM
    assert volume(points, L_SHAPE, (5 + points @ [2, 3]) * MM) == pytest.approx(expected)


def test_two_hundred_square_feet_half_an_inch_deep() -> None:
    # Exact arithmetic: 8.3333 cubic feet.
    room = rectangle(20 * FOOT, 10 * FOOT)
    cubic_feet = volume(room, room, np.full(4, FOOT / 24)) / FOOT**3
    assert cubic_feet == pytest.approx(8.3333, abs=5e-5)


@pytest.mark.parametrize(
    "points",
    [
        lattice([0, 4], [0, 3]),
        lattice([0, 1, 2, 3, 4], [0, 1.5, 3]),
        lattice([0, 1.5, 4], [0, 3]),
        lattice([0.3, 3.7], [0.3, 2.7]),
        np.random.default_rng(8).uniform(0, 1, (30, 2)) * [4, 3],
    ],
    ids=["corners", "on the crossing", "beside the crossing", "off the walls", "scattered"],
)
def test_where_the_floor_crosses_the_finish(points: FloatArray) -> None:
    # Exact arithmetic: depth -10 + 5 x mm, x 0 to 4 m, 3 m wide: fill 0.030, cut 0.030.
    # Corner depths below zero set to zero would give 0.060 from the corners.
    result = fill(mesh_over(points, rectangle(4, 3)), (-10 + 5 * points[:, 0]) * MM)
    assert result.volume_m3 == pytest.approx(0.030, rel=1e-9)
    assert result.cut_m3 == pytest.approx(0.030, rel=1e-9)
    assert result.filled_area_m2 == pytest.approx(6, rel=1e-9)


def test_where_the_floor_crosses_the_finish_askew() -> None:
    # Exact arithmetic: x + y - 1 m on the unit square: 1/6 above, 1/6 below; x + y - 1/2:
    # the corner below is a pyramid, (1/2)^3 / 6, and the whole comes to 1/2.
    room = rectangle(1, 1)
    askew = fill(mesh_over(room, room), room.sum(axis=1) - 1)
    assert (askew.volume_m3, askew.cut_m3) == pytest.approx((1 / 6, 1 / 6), rel=1e-12)
    corner = fill(mesh_over(room, room), room.sum(axis=1) - 0.5)
    assert corner.cut_m3 == pytest.approx(1 / 48, rel=1e-12)
    assert corner.volume_m3 == pytest.approx(1 / 2 + 1 / 48, rel=1e-12)
    assert corner.filled_area_m2 == pytest.approx(7 / 8, rel=1e-12)


@pytest.mark.parametrize("small", [1e-6, 1e-12, 1e-100, 1e-200, 5e-324])
def test_a_floor_barely_crossing_the_finish(small: float) -> None:
    room = rectangle(1, 1)
    for depths in ([small, -1, -1, -1], [small, 0, 0, -small], [small, -small, small, -small]):
        for sign in (1, -1):
            result = fill(mesh_over(room, room), sign * np.array(depths))
            net = sign * np.mean(depths)
            assert result.volume_m3 >= 0
            assert result.cut_m3 >= 0
            assert result.volume_m3 - result.cut_m3 == pytest.approx(net, abs=1e-12)
            assert 0 <= result.filled_area_m2 <= 1


def test_a_floor_at_the_finish_takes_nothing() -> None:
    room = rectangle(6, 4)
    result = fill(mesh_over(room, room), np.zeros(4))
    assert (result.volume_m3, result.cut_m3, result.filled_area_m2) == (0, 0, 0)


def test_pyramid_and_frustum() -> None:
    # Exact arithmetic, and lecture notes on volumes: pyramid A h / 3; frustum with square
    # ends 10 and 4, 6 high: 312 (prismoidal 312, end areas 348).
    base = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
    pyramid = np.vstack([base, [[5.0, 5.0]]])
    assert volume(pyramid, base, [0, 0, 0, 0, 6]) == pytest.approx(200, rel=1e-12)
    frustum = np.vstack([base, base * 0.4 + 3])
    assert volume(frustum, base, [0] * 4 + [6] * 4) == pytest.approx(312, rel=1e-12)


def bowl(places: FloatArray) -> FloatArray:
    heights: FloatArray = 20 * MM * (1 - (places**2).sum(axis=1) / 8)
    return heights


def hump(places: FloatArray) -> FloatArray:
    heights: FloatArray = (
        10 + 5 * np.sin(np.pi * places[:, 0] / 6) * np.sin(np.pi * places[:, 1] / 4)
    ) * MM
    return heights


def franke(places: FloatArray) -> FloatArray:
    # Franke 1979.
    x, y = 9 * places.T
    heights: FloatArray = (
        0.75 * np.exp(-((x - 2) ** 2 + (y - 2) ** 2) / 4)
        + 0.75 * np.exp(-((x + 1) ** 2) / 49 - (y + 1) / 10)
        + 0.5 * np.exp(-((x - 7) ** 2 + (y - 3) ** 2) / 4)
        - 0.2 * np.exp(-((x - 4) ** 2) - (y - 7) ** 2)
    )
    return heights


@pytest.mark.parametrize(
    ("shape", "low", "high", "cells", "expected"),
    [
        # Bowl 20 (1 - r2 / 8) mm: exact arithmetic, error in 1 / n2; the integral is 0.2133333.
        (bowl, (-2, -2), (2, 2), 2, 0.160),
        (bowl, (-2, -2), (2, 2), 4, 0.200),
        (bowl, (-2, -2), (2, 2), 8, 0.210),
        (bowl, (-2, -2), (2, 2), 16, 0.2125),
        # Sine hump: exact arithmetic; the integral is 0.2886342.
        (hump, (0, 0), (6, 4), 2, 0.270),
        (hump, (0, 0), (6, 4), 4, 0.283713),
        (hump, (0, 0), (6, 4), 8, 0.287389),
        # Franke's function: trapezoid sums by quadrature; the integral is 0.4069695894915.
        (franke, (0, 0), (1, 1), 10, 0.4048552),
        (franke, (0, 0), (1, 1), 20, 0.4064421),
        (franke, (0, 0), (1, 1), 40, 0.4068378),
    ],
)
def test_four_point_method_on_curved_floors(
    shape: Callable[..., Any],
    low: tuple[int, int],
    high: tuple[int, int],
    cells: int,
    expected: float,
) -> None:
    points = lattice(*(np.linspace(low[axis], high[axis], cells + 1) for axis in (0, 1)))
    room = rectangle(high[0] - low[0], high[1] - low[1]) + low
    assert volume(points, room, shape(points)) == pytest.approx(expected, abs=6e-7)


def test_franke_transcribed_right() -> None:
    # Known value of the function (public literature on scattered data): f(.5, .5).
    assert franke(np.array([[0.5, 0.5]]))[0] == pytest.approx(0.3257620892807, abs=1e-13)


@pytest.mark.parametrize(
    ("depth", "exact"),
    [
        # Exact arithmetic. Paraboloid dish, radius 2 m, 20 mm deep: pi r2 h / 2.
        (lambda r2: 20 * MM * (1 - r2 / 4), 0.1256637),
        # Spherical cap, base radius 2 m, 20 mm deep: pi h (3 r2 + h2) / 6, sphere 100.01 m.
        (lambda r2: np.sqrt(100.01**2 - r2) - 99.99, 0.1256679),
    ],
    ids=["paraboloid", "spherical cap"],
)
def test_dishes_in_a_round_room(depth: Callable[..., Any], exact: float) -> None:
    angles = np.linspace(0, 2 * np.pi, 720, endpoint=False)
    room = 2 * np.column_stack([np.cos(angles), np.sin(angles)])
    errors = []
    for spacing in (0.4, 0.2, 0.1):
        points = lattice(np.arange(-2.4, 2.41, spacing), np.arange(-2.4, 2.41, spacing))
        mesh = mesh_over(points, room)
        net = mesh.area_weights @ depth((points**2).sum(axis=1))
        errors.append(net - exact)
    # The spacing halved, the error falls to a quarter.
    assert errors[0] / errors[1] == pytest.approx(4, rel=0.02)
    assert errors[1] / errors[2] == pytest.approx(4, rel=0.02)
    assert errors[2] == pytest.approx(0, abs=exact / 500)


def test_a_dish_read_only_inside_the_room() -> None:
    # Same exact value. The grid keeps 0.3 m from the walls and the dish goes on falling
    # there, which no reading says: 4 % too much, where stopping at the readings is 6 % short.
    angles = np.linspace(0, 2 * np.pi, 720, endpoint=False)
    room = 2 * np.column_stack([np.cos(angles), np.sin(angles)])
    points = grid_points(room, 0.25, 0.25).xy_m
    result = fill(mesh_over(points, room), 20 * MM * (1 - (points**2).sum(axis=1) / 4))
    assert result.volume_m3 == pytest.approx(0.1256637, rel=0.05)


# The quadrature warns of the bend where the plane crosses the finish; it is near enough.
@pytest.mark.filterwarnings("ignore::scipy.integrate.IntegrationWarning")
@pytest.mark.parametrize(
    ("level", "along_x", "along_y"), [(-1, 2, 3), (0.5, -1, 0.2), (-0.3, 0.1, 0.5), (2, -3, -4)]
)
def test_volume_against_quadrature(level: float, along_x: float, along_y: float) -> None:
    # scipy's adaptive quadrature of planes that cross the finish somewhere in a triangle.
    triangle = np.array([[0, 0], [1, 0], [0, 1]])
    depths = level + triangle @ [along_x, along_y]

    def over(sign: int) -> float:
        def depth(y: float, x: float) -> float:
            return max(sign * (level + along_x * x + along_y * y), 0)

        return dblquad(depth, 0, 1, 0, lambda x: 1 - x, epsabs=1e-5, epsrel=1e-5)[0]

    result = fill(mesh_over(triangle, triangle), depths)
    assert result.volume_m3 == pytest.approx(over(1), abs=2e-5)
    assert result.cut_m3 == pytest.approx(over(-1), abs=2e-5)


@pytest.mark.parametrize("number", range(6))
def test_volume_against_dense_sampling(number: int) -> None:
    # Heights at 240,000 places in the L-shaped room, added up.
    rng = np.random.default_rng(number)
    points = (
        rng.uniform(-0.1, 1.1, (3 + 6 * number, 2)) * [6, 4]
        if number % 2
        else grid_points(L_SHAPE, 2.4 / (number + 1), 1.7 / (number + 1)).xy_m
    )
    depths = rng.uniform(-8, 10, len(points)) * MM
    step = 0.01
    places = lattice(np.arange(step / 2, 6, step), np.arange(step / 2, 4, step))
    places = places[shapely.contains_xy(shapely.Polygon(L_SHAPE), places[:, 0], places[:, 1])]
    mesh = mesh_over(points, L_SHAPE)
    sampled = mesh.heights_at(places, depths)
    result = fill(mesh, depths)
    scale = np.abs(sampled).sum() * step**2
    assert result.volume_m3 == pytest.approx(
        np.maximum(sampled, 0).sum() * step**2, abs=scale / 1e3
    )
    assert result.cut_m3 == pytest.approx(np.maximum(-sampled, 0).sum() * step**2, abs=scale / 1e3)
    assert result.filled_area_m2 == pytest.approx((sampled > 0).sum() * step**2, abs=0.03)


def test_a_floor_half_at_the_finish_is_half_filled() -> None:
    # Rounding of a floor that stands askew must not count as filled. By hand: readings at 0
    # along a line, then 1 mm at its end: a third of the line, and all beyond, is filled.
    line = np.array([[0, -0.3], [0, 0], [0, 0.3], [0, 0.9]])
    for angle in (0, 1, 2, 3):
        turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
        room = (rectangle(2, 1.2) - [1, 0.3]) @ turn
        mesh = mesh_over(line @ turn, room)
        result = fill(mesh, np.array([0, 0, 0, 1]) * MM)
        assert result.filled_area_m2 == pytest.approx(1.2)
        assert fill(mesh, np.zeros(4)).filled_area_m2 == 0


@pytest.mark.parametrize(
    ("angle", "lattice_places"),
    [
        (
            5.3353263830223385,
            "0,0 0,11 5,19 8,0 9,0 9,3 9,7 10,10 11,4 11,5 12,6 17,3 18,2 19,8",
        ),
        (
            2.763474963985737,
            "-2,7 -1,12 0,16 4,0 4,8 5,17 6,7 7,0 8,15 9,7 9,10 12,1 12,8 17,3 19,10",
        ),
    ],
)
def test_no_part_of_the_floor_is_lost_or_counted_twice(angle: float, lattice_places: str) -> None:
    # Borders that meet corners of the room but for rounding: general intersection of
    # polygons took nearly the whole floor twice here, or lost a triangle of it.
    points = 0.3 * np.array([place.split(",") for place in lattice_places.split()], dtype=float)
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    room = np.array([[0, 0], [7.2, 0], [7.2, 3], [4.5, 3], [4.5, 4.8], [0, 4.8]])
    mesh = mesh_over(points @ turn + [1, 2], room @ turn + [1, 2])
    assert mesh.areas_m2.sum() == pytest.approx(29.7, rel=1e-12)
    assert mesh.area_weights.sum() == pytest.approx(29.7, rel=1e-9)


@pytest.mark.parametrize(
    ("depths", "says"),
    [
        ([0.01, 0.01, np.nan, 0.01], "depth in row 3"),
        ([0.01, np.inf, 0.01, 0.01], "depth in row 2"),
        ([0.01, 0.01], "4 depths are needed"),
        ([[0.01] * 4], "4 depths are needed"),
    ],
)
def test_depths_that_cannot_be_used_are_refused(
    depths: list[float | list[float]], says: str
) -> None:
    room = rectangle(6, 4)
    with pytest.raises(SurveyError, match=says):
        fill(mesh_over(room, room), depths)
