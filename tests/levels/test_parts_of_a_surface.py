"""A surface over parts of its floor, and a finish that is level in each of them.

Check values: exact arithmetic (a plane's volume over an area is the area times its depth at the
centroid), and shapely's areas and centroids.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.levels.kriged.cells import cells_for
from assistant.levels.kriged.finish import FinishInParts, finish_over
from assistant.levels.kriged.volume import volume_with_interval
from assistant.levels.kriging import fit_surface
from assistant.levels.outline import rectangle
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill

ROOM = rectangle(7.2, 4.8)
L_SHAPE = np.array([[0, 0], [7.2, 0], [7.2, 3], [4.5, 3], [4.5, 4.8], [0, 4.8]])
POINTS = np.array([[x, y] for x in (0.6, 2.6, 4.6, 6.6) for y in (0.4, 2.4, 4.4)])


def plane(places: np.ndarray) -> np.ndarray:
    depths: np.ndarray = 0.012 + 0.002 * places[:, 0] - 0.001 * places[:, 1]
    return depths


@pytest.mark.parametrize("outline", [ROOM, L_SHAPE], ids=["room", "l-shape"])
@pytest.mark.parametrize(
    "cut",
    [
        shapely.box(0, 0, 3.6, 4.8),
        shapely.Polygon([(0, 0), (7.2, 0), (0, 4.8)]),
        shapely.box(2, 1, 3, 2),
        shapely.box(0, 0, 7.2, 4.8).difference(shapely.box(2, 1, 3, 2)),
    ],
    ids=["half", "diagonal", "middle", "round it"],
)
def test_of_a_plane_a_part_takes_its_area_times_the_depth_at_its_centroid(
    outline: np.ndarray, cut: shapely.Polygon
) -> None:
    part = shapely.Polygon(outline).intersection(cut)
    x, y = shapely.get_coordinates(part.centroid)[0].tolist()
    found = fill(mesh_over(POINTS, outline).over(part), plane(POINTS))
    assert found.area_m2 == pytest.approx(part.area, abs=1e-9)
    assert found.volume_m3 == pytest.approx(part.area * (0.012 + 0.002 * x - 0.001 * y), abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(-30, 60), min_size=12, max_size=12),
    st.sampled_from([ROOM, L_SHAPE]),
    st.floats(-8, 8),
    st.floats(0.1, 3.0),
)
def test_parts_add_up_to_the_floor_whatever_the_line(
    depths_mm: list[int], outline: np.ndarray, offset: float, turn: float
) -> None:
    floor, depths = shapely.Polygon(outline), np.array(depths_mm) / 1000
    normal = np.array([np.cos(turn), np.sin(turn)])
    along = np.array([-normal[1], normal[0]]) * 50
    foot = np.array([3.6, 2.4]) + normal * offset / 3
    half = shapely.Polygon([foot - along, foot + along, foot + along + normal * 50,
                            foot - along + normal * 50])  # fmt: skip
    mesh = mesh_over(POINTS, outline)
    parts = [floor.intersection(half), floor.difference(half)]
    found = [fill(mesh.over(part), depths) for part in parts if part.area > 1e-6]
    whole = fill(mesh, depths)
    for name in ("area_m2", "volume_m3", "cut_m3", "filled_area_m2"):
        together = sum(getattr(each, name) for each in found)
        assert together == pytest.approx(getattr(whole, name), abs=2e-6), name


def test_a_part_beyond_the_points_has_the_slope_of_the_whole_floor() -> None:
    """Only the far wall decides how far a slope is trusted; a part near the points knows less."""
    points = np.array([[1.0, 1.0], [1.5, 1.0], [1.0, 1.3]])
    mesh = mesh_over(points, rectangle(30, 20))
    part = mesh.over(rectangle(2, 2))
    places = [[1.9, 1.9], [0.1, 0.2]]
    depths = [0.010, 0.014, 0.012]
    assert part.heights_at(places, depths) == pytest.approx(mesh.heights_at(places, depths))


# --- a finish in parts ------------------------------------------------------------------------

LEFT, RIGHT = shapely.box(0, 0, 3.05, 4.8), shapely.box(3.05, 0, 7.2, 4.8)
STEPPED = FinishInParts((LEFT, RIGHT), (0.020, 0.016))


def test_a_finish_in_parts_is_level_in_each() -> None:
    places = np.array([[1.0, 1.0], [3.05, 2.0], [5.0, 4.0], [-0.5, 1.0]])
    assert STEPPED.at(places).tolist() == [0.020, 0.020, 0.016, 0.020]


def test_a_cell_across_a_step_counts_both_sides() -> None:
    cells = cells_for(ROOM, 12)
    heights = finish_over(STEPPED, cells)
    assert np.unique(heights.round(9)).size > 2, "a cell lies across the step"
    together = LEFT.area * 0.020 + RIGHT.area * 0.016
    assert float(cells.areas_m2 @ heights) == pytest.approx(together, abs=1e-9)


def test_a_finish_of_one_level_in_parts_is_that_level() -> None:
    floor = fit_surface(POINTS, -plane(POINTS))
    level = volume_with_interval(floor, ROOM, 0.030)
    parts = volume_with_interval(floor, ROOM, FinishInParts((LEFT, RIGHT), (0.030, 0.030)))
    assert parts.mean_m3 == pytest.approx(level.mean_m3, abs=1e-12)
    assert parts.sd_m3 == pytest.approx(level.sd_m3, abs=1e-12)


def test_a_step_of_the_finish_changes_the_likeliest_volume_by_its_area() -> None:
    floor = fit_surface(POINTS, -plane(POINTS))
    level = volume_with_interval(floor, ROOM, 0.030)
    parts = volume_with_interval(floor, ROOM, FinishInParts((LEFT, RIGHT), (0.030, 0.034)))
    assert parts.mean_m3 - level.mean_m3 == pytest.approx(0.004 * RIGHT.area, abs=1e-9)
    assert parts.sd_m3 == pytest.approx(level.sd_m3, rel=1e-6)
