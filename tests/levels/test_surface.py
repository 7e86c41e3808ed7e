"""The surface: right at the points, between them, and carried to the walls."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from numpy.typing import ArrayLike
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import Delaunay

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.levels.outline import rectangle
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill

MM = 0.001
ROOM = rectangle(6, 4)
L_SHAPE = np.array([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]])


def lattice(x: ArrayLike, y: ArrayLike) -> FloatArray:
    return np.stack(np.meshgrid(x, y), axis=2).reshape(-1, 2).astype(float)


def scattered(count: int, number: int) -> FloatArray:
    return np.random.default_rng(number).uniform(0.05, 0.95, (count, 2)) * [6, 4]


@pytest.mark.parametrize("number", range(8))
def test_between_scattered_points_as_scipy_has_it(number: int) -> None:
    # scipy's LinearNDInterpolator: Delaunay triangles are the only ones for scattered points.
    points = scattered(4 + 9 * number, number)
    heights = np.random.default_rng(number).normal(size=len(points)) * 5 * MM
    hull = shapely.MultiPoint(points).convex_hull
    places = lattice(np.linspace(0, 6, 121), np.linspace(0, 4, 81))
    # Within a centimetre of the edge a thin triangle may be left to the side.
    well_in = shapely.contains_xy(hull.buffer(-0.01), places[:, 0], places[:, 1])
    places = places[well_in]
    expected = LinearNDInterpolator(points, heights)(places)
    found = mesh_over(points, ROOM).heights_at(places, heights)
    assert found == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("number", range(8))
def test_beyond_the_points_as_worked_out_place_by_place(
    number: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The definition, with shapely for the nearest place and lstsq for the trend; and with
    # places known exactly, so that no thin triangle is left to a side.
    monkeypatch.setattr("assistant.levels.boundary.PLACED_WITHIN_M", 0.0)
    points = scattered(5 + 3 * number, 40 + number)
    heights = np.random.default_rng(number).normal(size=len(points)) * 5 * MM
    mesh = mesh_over(points, ROOM)
    hull = shapely.MultiPoint(points).convex_hull
    places = lattice(np.linspace(-1, 7, 41), np.linspace(-1, 5, 31))
    places = places[~shapely.intersects_xy(hull, places[:, 0], places[:, 1])]
    nearest = shapely.get_coordinates(
        shapely.get_point(shapely.shortest_line(hull, shapely.points(places)), 0)
    )
    ones = np.ones((len(points), 1))
    trend = np.linalg.lstsq(np.hstack([ones, points]), heights, rcond=None)[0]
    ring = shapely.get_coordinates(hull.exterior)
    row = [int(np.flatnonzero((points == corner).all(axis=1))[0]) for corner in ring]
    distance = np.array([hull.exterior.project(shapely.Point(place)) for place in nearest])
    corner_distance = np.append(0, np.cumsum(np.hypot(*np.diff(ring, axis=0).T)))
    on_edge = np.interp(distance, corner_distance, heights[row])
    expected = on_edge + (places - nearest) @ trend[1:]
    assert mesh.heights_at(places, heights) == pytest.approx(expected, abs=1e-10)


def test_slope_carried_is_that_of_least_squares() -> None:
    # Plane fit through five readings, exact arithmetic: z = 10.11 + 0.5 x + 0.966667 y. At
    # corner (0, 0) the reading is 10, and from there the slope is carried.
    points = np.array([[0, 0], [4, 0], [0, 3], [4, 3], [2, 1.5]])
    mesh = mesh_over(points, rectangle(8, 6) - 2)
    found = mesh.heights_at([[-1, 0], [0, -1], [-1, -1], [-2, -2]], [10, 12.2, 13.1, 14.9, 12.6])
    assert found == pytest.approx(
        [10 - 0.5, 10 - 0.966667, 10 - 0.5 - 0.966667, 10 - 1 - 1.933333], abs=2e-6
    )


def test_a_grid_cell_is_cut_from_its_middle() -> None:
    # Four-corner method: on each side of a cell straight, in its middle the mean. By hand.
    mesh = mesh_over(rectangle(2, 2), rectangle(2, 2))
    heights = [0, 4, 10, 2]
    places = np.array([[1, 1], [1, 0], [1.5, 0.5], [1, 0.5], [0.5, 1]])
    found = mesh.heights_at(places, heights)
    assert found == pytest.approx([4, 2, 4, 3, 2.5])


def test_a_cell_of_unequal_sides_is_cut_where_its_diagonals_cross() -> None:
    # By hand: a trapezium on one circle, diagonals cross at (0, 1) at 2/3 of the way; one
    # diagonal has 8/3 there, the other 2.
    points = np.array([[-2, -1], [2, -1], [1, 2], [-1, 2]])
    mesh = mesh_over(points, points)
    assert mesh.heights_at([[0, 1]], [0, 0, 4, 3]) == pytest.approx([(8 / 3 + 2) / 2])


def test_more_than_four_points_on_a_circle_meet_in_their_mean() -> None:
    angles = np.arange(6) * np.pi / 3
    points = 3 + np.column_stack([np.cos(angles), np.sin(angles)])
    heights = np.array([0, 5, 1, 0, 3, 9])
    for turn in range(6):
        mesh = mesh_over(np.roll(points, turn, axis=0), points)
        found = mesh.heights_at([[3, 3]], np.roll(heights, turn))
        assert found == pytest.approx([3])


@pytest.mark.parametrize("number", range(10))
def test_the_surface_passes_through_every_reading(number: int) -> None:
    rng = np.random.default_rng(number)
    points = np.unique(rng.integers(0, 12, (40, 2)) * 0.5, axis=0) if number % 2 else scattered(
        1 + 7 * number, number
    )  # fmt: skip
    heights = rng.normal(size=len(points))
    for outline in (ROOM, L_SHAPE):
        found = mesh_over(points, outline).heights_at(points, heights)
        assert found == pytest.approx(heights, abs=1e-12)


def test_one_point_gives_a_level_floor() -> None:
    mesh = mesh_over([[2, 1]], L_SHAPE)
    assert mesh.heights_at([[0, 0], [9, 9], [2, 1]], [7 * MM]).tolist() == [7 * MM] * 3
    assert fill(mesh, [7 * MM]).volume_m3 == pytest.approx(0.147)


def test_two_points_slope_between_them_only() -> None:
    # By hand: 2 mm per metre between them, level across, and beyond both.
    mesh = mesh_over([[2, 2], [4, 2]], ROOM)
    found = mesh.heights_at([[3, 2], [3, 0], [0, 4], [6, 1], [7, 9]], [6, 10])
    assert found == pytest.approx([8, 8, 6, 10, 10])
    # 24 m2 at a mean of 8 mm.
    assert fill(mesh, [6 * MM, 10 * MM]).volume_m3 == pytest.approx(0.192)


def test_three_points_in_line_carry_their_slope() -> None:
    mesh = mesh_over([[1, 2], [2, 2], [4, 2]], ROOM)
    assert mesh.heights_at([[0, 4], [6, 1]], [4, 6, 10]) == pytest.approx([2, 14])


@pytest.mark.parametrize("turn", [0, 0.4, np.pi / 2, 2.9])
def test_points_in_line_are_followed_along_the_line(turn: float) -> None:
    # By hand. Readings 0 4 2 2 along a line; slope by least squares
    # sum (t - 1.5) h / sum (t - 1.5)^2 = (0 - 2 + 1 + 3) / 5 = 0.4 per metre.
    along, across = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    heights = np.array([0, 4, 2, 2])
    for order in ([0, 1, 2, 3], [2, 0, 3, 1]):
        points = np.outer(np.arange(4), along)[order]
        mesh = mesh_over(points, rectangle(8, 8) - 4)
        for off in (0, 1, -2.5):
            places = np.outer([-1, 0, 0.5, 1, 1.25, 2.5, 3, 5], along) + off * across
            expected = [-0.4, 0, 2, 4, 3.5, 2, 2, 2.8]
            assert mesh.heights_at(places, heights[order]) == pytest.approx(expected)


def test_points_nearly_in_line_count_all_the_same() -> None:
    # A line of readings down a corridor, off the straight by what a tape gives. A hull that
    # took each millimetre for real would let most readings vanish a hand beside the line.
    t = np.arange(0.5, 12, 1)
    heights = np.where(np.arange(12) % 3 == 0, 12, 5) * MM
    corridor = rectangle(12, 2)
    straight = mesh_over(np.column_stack([t, np.full(12, 1.0)]), corridor)
    expected = fill(straight, heights).volume_m3
    places = lattice(np.linspace(0, 12, 60), [0, 0.5, 1.5, 2])
    for off in (1e-15, 1e-12, 1e-9, 1e-6, 1e-3, 4e-3):
        for number in range(5):
            wobble = np.random.default_rng(number).uniform(-off, off, 12)
            mesh = mesh_over(np.column_stack([t, 1 + wobble]), corridor)
            found = mesh.heights_at(places, heights)
            assert found == pytest.approx(
                straight.heights_at(places, heights), abs=0.2 * MM + off * 0.02
            )
            assert fill(mesh, heights).volume_m3 == pytest.approx(expected, rel=0.01)


def test_a_reading_just_inside_the_edge_counts_up_to_the_wall() -> None:
    # Three readings along a wall, the middle one 1 mm nearer the room than the line through
    # the others: at the wall in front of it the floor is as read, not as its neighbours say.
    for off in (0, 1e-12, 1e-3):
        points = np.array([[1, 0.5], [3, 0.5 + off], [5, 0.5], [1, 3.5], [5, 3.5]])
        mesh = mesh_over(points, ROOM)
        flat, bump = mesh.heights_at([[1, 0.1], [3, 0.1]], [0, 9 * MM, 0, 0, 0])
        assert bump - flat == pytest.approx(9 * MM, rel=0.01)


def test_a_slope_across_two_close_rows_is_not_carried_to_a_far_wall() -> None:
    # Two rows 20 mm apart and one reading 1 mm out: the far wall must not hear of it 100-fold.
    points = lattice(np.arange(0.5, 6, 1), [1.99, 2.01])
    heights = np.zeros(12)
    heights[3] = 1 * MM
    found = mesh_over(points, ROOM).heights_at(lattice(np.linspace(0, 6, 30), [0, 4]), heights)
    assert np.abs(found).max() <= 1.5 * MM


def test_no_error_grows_more_than_tenfold_on_its_way_to_a_wall() -> None:
    for number in range(60):
        rng = np.random.default_rng(number)
        points = rng.uniform(0, 1, (rng.integers(2, 9), 2)) * rng.uniform(0.05, 4, 2)
        mesh = mesh_over(points, ROOM)
        corners = np.array([mesh.heights_at(ROOM, one) for one in np.eye(len(points))])
        # Root of sum of squares: chance errors of 1 at every point, seen at each corner.
        assert np.sqrt((corners**2).sum(axis=0)).max() <= 1 + 10 * np.sqrt(2)


def test_the_same_height_from_both_sides_of_every_border() -> None:
    # Corners of pieces at one place on the walls must agree, whichever piece they are from,
    # and with the height looked up there.
    for number in range(12):
        points = scattered(1 + number * 3, number)
        heights = np.random.default_rng(number).normal(size=len(points))
        mesh = mesh_over(points, L_SHAPE)
        at_corners = mesh.corner_heights(heights).ravel()
        places = mesh.corners_m[mesh.triangles.ravel()]
        assert mesh.heights_at(places, heights) == pytest.approx(at_corners, abs=1e-9)


def test_triangles_add_up_to_the_floor() -> None:
    for number in range(12):
        points = scattered(1 + number * 3, number)
        for outline in (ROOM, L_SHAPE, L_SHAPE[::-1]):
            mesh = mesh_over(points, outline)
            assert mesh.areas_m2.sum() == pytest.approx(mesh.area_m2, rel=1e-12)
            weights = mesh.area_weights
            assert weights.sum() == pytest.approx(mesh.area_m2, rel=1e-9)


def test_points_far_outside_change_nothing_but_what_they_shape() -> None:
    near = lattice([1, 3, 5], [1, 3])
    points = np.vstack([near, [[1e4, 0], [-1e4, 5], [0, 1e6]]])
    heights = np.full(9, 6 * MM)
    result = fill(mesh_over(points, ROOM), heights)
    assert result.volume_m3 == pytest.approx(0.144, rel=1e-6)
    mesh = mesh_over(points, ROOM)
    varied = np.arange(9) * MM
    inside = lattice([1.5, 2.5, 4], [1.5, 2.5])
    assert mesh.heights_at(inside, varied) == pytest.approx(
        mesh_over(near, ROOM).heights_at(inside, varied[:6])
    )


def test_a_room_far_from_the_origin_comes_out_the_same() -> None:
    points = lattice(np.linspace(0.3, 5.7, 5), np.linspace(0.3, 3.7, 4))
    heights = np.random.default_rng(3).normal(size=20) * MM
    away = np.array([4096, -8192])
    here = fill(mesh_over(points, L_SHAPE), heights)
    there = fill(mesh_over(points + away, L_SHAPE + away), heights)
    assert there.volume_m3 == pytest.approx(here.volume_m3, rel=1e-6)


@pytest.mark.parametrize("off", [1e-3, 1e-6, 1e-9, 1e-12, 1e-14, 5e-16])
def test_nearly_equal_places_do_no_harm(off: float) -> None:
    points = lattice(np.linspace(0.5, 5.5, 6), np.linspace(0.5, 3.5, 4))
    points = np.vstack([points, np.add(points, [off, 0]), [[3, 2], [3, 2 + off], [3 - off, 2]]])
    points = np.unique(points, axis=0)
    heights = points[:, 0] * MM + 10 * MM
    mesh = mesh_over(points, L_SHAPE)
    everywhere = lattice(np.linspace(-1, 7, 30), np.linspace(-1, 5, 30))
    assert mesh.heights_at(everywhere, heights) == pytest.approx(
        10 * MM + everywhere[:, 0] * MM, abs=1e-6
    )
    assert fill(mesh, heights).volume_m3 == pytest.approx(21 * (10 + 2.7142857) * MM, rel=1e-4)


def test_the_notch_may_be_spanned() -> None:
    # Two readings on either side of the notch of the L-shaped room share a triangle over it.
    points = np.array([[0.5, 3.5], [3.5, 3.5], [5.5, 2], [5.5, 0.5], [0.5, 0.5]])
    assert len(Delaunay(points).simplices) == 3
    mesh = mesh_over(points, L_SHAPE)
    depths = (8 + points @ [1, 0.5]) * MM
    expected = 21 * (8 + 2.7142857142857 + 0.5 * 1.8214285714286) * MM
    assert fill(mesh, depths).volume_m3 == pytest.approx(expected)


@pytest.mark.parametrize(
    ("points", "says"),
    [
        ([], "at least one point"),
        ([[1, 1], [2, 1], [1, 1]], "rows 1 and 3"),
        ([[1, 1], [0.0, 1], [-0.0, 1]], "rows 2 and 3"),
        ([[1, 1], [2, np.nan]], "point in row 2"),
        ([[np.inf, 1]], "point in row 1"),
        ([[1, 1, 1]], "an x and a y"),
        ([1, 1], "an x and a y"),
    ],
)
def test_points_that_cannot_be_used_are_refused(points: list[int | list[float]], says: str) -> None:
    with pytest.raises(SurveyError, match=says):
        mesh_over(points, ROOM)


def test_outlines_that_cannot_be_used_are_refused() -> None:
    with pytest.raises(SurveyError, match="crosses itself"):
        mesh_over([[1, 1]], [[0, 0], [6, 4], [6, 0], [0, 4]])
    with pytest.raises(SurveyError, match="corner in row 1"):
        mesh_over([[1, 1]], np.array([[np.nan, 0], [6, 4], [6, 0]]))


def test_heights_and_places_that_cannot_be_used_are_refused() -> None:
    mesh = mesh_over([[1, 1], [2, 2]], ROOM)
    with pytest.raises(SurveyError, match="2 heights are needed"):
        mesh.heights_at([[0, 0]], [1])
    with pytest.raises(SurveyError, match="height in row 2"):
        mesh.heights_at([[0, 0]], [1, np.nan])
    with pytest.raises(SurveyError, match="place in row 1"):
        mesh.heights_at([[0, np.nan]], [1, 1])
    assert mesh.heights_at([], [1, 1]).shape == (0,)


def test_the_mesh_keeps_its_own_points() -> None:
    points = np.array([[1.0, 1.0], [5.0, 3.0], [2.0, 3.0]])
    mesh = mesh_over(points, ROOM)
    before = fill(mesh, [1, 2, 3]).volume_m3
    points[:] = 0
    assert fill(mesh, [1, 2, 3]).volume_m3 == before
    assert mesh.points_m[0].tolist() == [1, 1]


@pytest.mark.parametrize(("one", "other"), [(1, 2), (2, 4), (1, 5), (4, 5)])
def test_points_at_one_place_are_named_by_their_rows(one: int, other: int) -> None:
    points = np.array([[1, 1], [2, 3], [4, 1], [3, 3], [5, 3]], dtype=float)
    points[other - 1] = points[one - 1]
    with pytest.raises(SurveyError, match=f"rows {one} and {other} are at the same place"):
        mesh_over(points, ROOM)
