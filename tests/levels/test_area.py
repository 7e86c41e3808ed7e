"""Areas with holes: what stands on a floor is off its area and its volume, exactly.

Check values: exact arithmetic (a plane's volume over an area is the area times the plane's height
at the centroid; the centroid of a difference from those of its parts), and shapely's own areas.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import SurveyError
from assistant.levels.area import as_area
from assistant.levels.arrays import FloatArray
from assistant.levels.kriged.cells import cells_for
from assistant.levels.kriged.volume import volume_with_interval
from assistant.levels.kriging import fit_surface
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill

ROOM = shapely.box(0, 0, 12, 8)
L_SHAPE = shapely.Polygon([(0, 0), (12, 0), (12, 5), (7, 5), (7, 8), (0, 8)])


def grid(step: float = 2.0) -> FloatArray:
    return np.array([(x, y) for y in np.arange(1, 8, step) for x in np.arange(1, 12, step)])


def plane(places: FloatArray) -> FloatArray:
    """Depth 10 mm at the corner, 3 mm a metre along x and 2 mm along y."""
    depths: FloatArray = 0.010 + places @ np.array([0.003, 0.002])
    return depths


def volume_of_plane(area: shapely.Geometry) -> float:
    return float(area.area * plane(shapely.get_coordinates(area.centroid))[0])


def poured(area: shapely.Geometry) -> float:
    points = grid()
    return fill(mesh_over(points, area), plane(points)).volume_m3


def test_a_tilted_plane_round_a_column_loses_just_the_columns_volume() -> None:
    # 0.4 by 0.4 m at 3 by 2 m: 0.16 m² times a depth of 10 + 9 + 4 = 23 mm.
    floor = ROOM.difference(shapely.box(2.8, 1.8, 3.2, 2.2))
    assert as_area(floor).area_m2 == pytest.approx(95.84, abs=1e-12)
    assert poured(ROOM) - poured(floor) == pytest.approx(0.16 * 0.023, abs=1e-12)


def test_cells_run_along_the_longest_wall_of_walls_as_long_the_first() -> None:
    """But for rounding: a nanometre in ten metres."""
    hair = 5e-10
    for corners, wall in (
        ([(0, 0), (3, 0), (3, 8), (0, 8)], [(3, 0), (3, 8)]),
        ([(0, 0), (8, 0), (8, 8 + hair), (0, 8 + hair)], [(0, 0), (8, 0)]),
        ([(0, 0), (8, 0), (8, 8.001), (0, 8.001)], [(8, 0), (8, 8.001)]),
    ):
        found = as_area(shapely.Polygon(corners)).wall_m
        assert found.tolist() == pytest.approx(np.array(wall)), corners


@pytest.mark.parametrize(
    ("area", "what"),
    [
        (ROOM.difference(shapely.box(0, 0, 2, 0.6)), "in the corner"),
        (ROOM.difference(shapely.box(4, 7.4, 6, 8)), "along a wall"),
        (ROOM.difference(shapely.box(5.8, 0, 6.2, 8)), "from wall to wall, in two pieces"),
        (L_SHAPE.difference(shapely.box(6.5, 4.5, 7.2, 5.2)), "over an inside corner"),
        (ROOM.difference(shapely.box(0, 0, 11.9, 8)), "all but a strip"),
        (ROOM.difference(shapely.box(1, 1, 11, 7)), "past all points"),
        (ROOM.difference(shapely.box(3, 2, 9, 6)).union(shapely.box(5, 3, 7, 5)), "an island"),
    ],
)
def test_whatever_shape_is_left_keeps_the_planes_volume(area: shapely.Geometry, what: str) -> None:
    assert as_area(area).area_m2 == pytest.approx(area.area, abs=1e-9), what
    assert poured(area) == pytest.approx(volume_of_plane(area), abs=1e-12), what


boxes = st.lists(
    st.tuples(
        st.floats(-0.5, 11.9),
        st.floats(-0.5, 7.9),
        st.floats(0.05, 4),
        st.floats(0.05, 4),
        st.booleans(),
    ),
    min_size=1,
    max_size=8,
)


@given(boxes)
def test_area_and_volume_agree_with_shapely_for_any_things(
    drawn: list[tuple[float, float, float, float, bool]],
) -> None:
    things = [
        shapely.Point(x, y).buffer(w / 2) if is_round else shapely.box(x, y, x + w, y + d)
        for x, y, w, d, is_round in drawn
    ]
    area = shapely.difference(L_SHAPE, shapely.union_all(things, grid_size=1e-9), grid_size=1e-9)
    if area.area < 1e-6:
        return
    mesh = mesh_over(grid(), area)
    assert mesh.area_m2 == pytest.approx(area.area, abs=1e-8)
    assert mesh.areas_m2.sum() == pytest.approx(area.area, abs=1e-8)
    assert poured(area) == pytest.approx(volume_of_plane(area), abs=1e-9)
    assert cells_for(area, 24).areas_m2.sum() == pytest.approx(area.area, abs=1e-6)


def test_a_floor_that_is_no_plane_loses_what_the_surface_has_under_the_column() -> None:
    points = grid()
    depths = 0.02 + 0.004 * np.sin(points[:, 0]) * np.cos(points[:, 1])
    column = shapely.box(4.3, 2.6, 5.1, 3.9)
    whole, round_it, under = (
        fill(mesh_over(points, area), depths).volume_m3
        for area in (ROOM, ROOM.difference(column), column)
    )
    assert whole - round_it == pytest.approx(under, abs=1e-12)


def test_the_intervals_volume_leaves_the_column_out_as_well() -> None:
    points = grid()
    column = shapely.box(3.5, 2.5, 6.5, 5.5)
    area = ROOM.difference(column)
    floor = fit_surface(points, -plane(points))
    found = volume_with_interval(floor, area, 0.0)
    assert found.area_m2 == pytest.approx(area.area, abs=1e-6)
    assert found.mean_m3 == pytest.approx(volume_of_plane(area), rel=1e-3)
    assert found.mean_m3 < volume_with_interval(floor, ROOM, 0.0).mean_m3


def test_an_outline_comes_out_as_its_polygon_does() -> None:
    outline = shapely.get_coordinates(L_SHAPE.exterior)[:-1]
    for given_m in (outline, outline[::-1]):
        assert as_area(given_m).area_m2 == as_area(L_SHAPE).area_m2 == 81.0
        assert as_area(given_m).polygon.equals(L_SHAPE)


def test_nothing_left_is_said() -> None:
    with pytest.raises(SurveyError, match="no floor left"):
        as_area(ROOM.difference(ROOM))


@pytest.mark.parametrize("turn", [1, -1])
def test_far_from_the_origin_no_digit_of_an_area_is_lost(turn: int) -> None:
    """A small room in the coordinates of a whole country, exact but for rounding."""
    corners = np.array([[0, 0], [0.3, 0], [0.3, 0.2], [0, 0.2]])[::turn] + 4_500_000.3
    for found in (as_area(corners), as_area(shapely.Polygon(corners))):
        assert found.area_m2 == pytest.approx(0.06, rel=1e-6)
        assert np.shape(found.wall_m) == (2, 2)
        (ring,) = found.rings_m
        assert shapely.LinearRing(ring).is_ccw
