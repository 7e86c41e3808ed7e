"""
What lies behind a line, piece by piece, against shapely and against exact arithmetic.

The volume over a part of a flat triangle is the part's area times the depth at its centroid. So
each triangle is cut by shapely at the line and where the floor comes up to the finish, and what is
left needs no integral.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from shapely.affinity import translate

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.pours import fill_along as module
from assistant.pours.fill_along import fill_along, joined

SQUARE = [[[0, 0], [4, 0], [4, 3]], [[0, 0], [4, 3], [0, 3]]]
"""4 by 3 m in two triangles."""


def behind_by_cutting(
    triangle: FloatArray, depths: FloatArray, way: FloatArray, line: float
) -> tuple[float, float]:
    """Volume and area behind a line, where depth is a plane through the corners."""
    slope = np.linalg.solve(np.column_stack([triangle, np.ones(3)]), depths)
    aside = np.array([-way[1], way[0]])
    reach = [way * line + aside * 99, way * line - aside * 99, (-aside - way) * 99]
    part = shapely.Polygon(triangle) & shapely.Polygon([*reach, (aside - way) * 99])
    deep = part
    if np.ptp(depths) > 0:
        gradient = float(np.hypot(*slope[:2]))
        up = slope[:2] / gradient
        at, beside = -up * slope[2] / gradient, np.array([-up[1], up[0]])
        far = [at + beside * 99, at - beside * 99, at + (up - beside) * 99, at + (up + beside) * 99]
        deep = part & shapely.Polygon(far)
    elif depths[0] <= 0:
        return 0.0, part.area
    centre = deep.centroid
    depth = 0.0 if deep.is_empty else float(slope @ [centre.x, centre.y, 1])
    return deep.area * depth, part.area


def test_behind_any_line_lies_what_cutting_there_leaves() -> None:
    """Corners beside each other along the way, at the finish, on both sides of it, or all level."""
    chance = np.random.default_rng(5)
    corners = [np.array(SQUARE[0], float), np.array([[0, 0], [2, 5], [3, -1.0]])]
    corners += [chance.uniform(0, 5, (3, 2))]
    deeps = [(1, 1, 1), (0, 1, 2), (2, 0, 0), (-1, 1, 2), (-1, -2, 3), (1, 0, -1), (-1, 0, -1),
             (0, 0, -1), (-1, -1, -1)]  # fmt: skip
    for triangle in corners:
        for deep in deeps:
            for turn in range(3):
                depths = np.roll(np.array(deep) / 100, turn)
                for way in ((1, 0), (-0.6, 0.8)):
                    found = fill_along([triangle], [depths], way)
                    lines = np.linspace(found.from_m - 0.1, found.to_m + 0.1, 5)
                    known = [behind_by_cutting(triangle, depths, np.array(way), at) for at in lines]
                    case = triangle.tolist(), depths.tolist(), way
                    assert found.volume_behind(lines) == pytest.approx(
                        [volume for volume, _ in known], abs=1e-12
                    ), case
                    assert found.area_behind(lines) == pytest.approx(
                        [area for _, area in known], abs=1e-9
                    ), case
                    assert found.volume_m3 == pytest.approx(known[-1][0], abs=1e-12)


def test_the_way_may_be_of_any_length_but_none() -> None:
    """3, 4 is a way of five metres: the corner at 4, 3 lies 4.8 m along it. Exact arithmetic."""
    for way in ((3, 4), (0.006, 0.008), (0.6, 0.8)):
        found = fill_along(SQUARE, np.full((2, 3), 0.01), way)
        assert (found.from_m, found.to_m) == pytest.approx((0, 4.8)), way
    for none in ((0, 0), (0.0, -0.0), (float("nan"), 1)):
        with pytest.raises(SurveyError, match="needs a direction"):
            fill_along(SQUARE, np.full((2, 3), 0.01), none)


def test_what_is_taken_off_again_has_a_negative_area() -> None:
    """A square metre too much, one triangle of it taken off; and one that counts for nothing."""
    half = [[[0, 0], [1, 0], [1, 1]], [[0, 0], [1, 1], [0, 1]], [[0, 0], [1, 1], [0, 1]]]
    for areas, area in (([0.5, 0.5, -0.5], 0.5), ([0.5, 0.5, 0.0], 1.0), ([0.5, 0.5, 0.5], 1.5)):
        found = fill_along(half, np.full((3, 3), 0.02), (1, 0), areas_m2=areas)
        assert (found.area_m2, found.volume_m3) == pytest.approx((area, area * 0.02)), areas


def test_only_a_part_of_the_floor_keeps_the_depth_of_each_place() -> None:
    """A ramp from 0 to 40 mm over 4 m, 3 m wide: 15 L behind 1 m, 135 L behind 3 m."""
    ramp = np.array([[0, 0.04, 0.04], [0, 0.04, 0]])
    for low, high, volume in ((0, 4, 0.24), (0, 1, 0.015), (1, 3, 0.12), (3.9, 9, 0.01185)):
        part = shapely.box(low, -1, high, 9)
        # Seven metres on, so that no corner is at the origin of places.
        found = fill_along(np.add(SQUARE, (7, -2)), ramp, (1, 0), only=translate(part, 7, -2))
        assert found.volume_m3 == pytest.approx(volume), (low, high)
        assert (found.from_m, found.to_m) == pytest.approx((low + 7, min(high, 4) + 7))
        two = shapely.union_all([part & shapely.box(0, 0, 9, 1), part & shapely.box(0, 2, 9, 3)])
        assert fill_along(SQUARE, ramp, (1, 0), only=two).volume_m3 == pytest.approx(volume * 2 / 3)
    # what is taken off again is taken off inside of it only
    off = fill_along(SQUARE, ramp, (1, 0), areas_m2=[6, -6], only=shapely.box(0, 0, 4, 3))
    assert off.area_m2 == pytest.approx(0, abs=1e-12)


def test_where_no_floor_is_there_is_none_to_pour_on() -> None:
    line = [[[0, 0], [1, 1], [2, 2]]]
    for triangles, only in ((SQUARE, shapely.box(9, 9, 10, 10)), (SQUARE, shapely.box(4, 0, 5, 3)),
                            (line, None)):  # fmt: skip
        with pytest.raises(SurveyError, match="no floor to pour on"):
            fill_along(triangles, np.full((len(triangles), 3), 0.01), (1, 0), only=only)


def test_parts_of_a_floor_are_one_from_the_first_to_the_last() -> None:
    parts = [
        fill_along(SQUARE, np.full((2, 3), deep), (1, 0), only=shapely.box(low, 0, high, 3))
        for low, high, deep in ((2, 3, 0.01), (0.5, 1, 0.02), (3, 3.5, 0.03))
    ]
    whole = joined(parts)
    assert (whole.from_m, whole.to_m) == pytest.approx((0.5, 3.5))
    assert whole.volume_behind([0.75, 1.5, 3.5]) == pytest.approx([0.015, 0.03, 0.105])


def test_only_so_much_is_looked_at_in_one_go(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lines times triangles: what is kept of one go at a time, but a line at least."""
    found = fill_along(SQUARE, np.full((2, 3), 0.01), (1, 0))
    lines = np.linspace(0, 4, 7)
    known = found.volume_behind(lines)
    assert known == pytest.approx(lines * 0.03)
    gone: list[int] = []
    behind = module._behind_lines

    def seen(some: FloatArray, *rest: FloatArray) -> FloatArray:
        gone.append(len(some))
        return behind(some, *rest)

    monkeypatch.setattr(module, "_behind_lines", seen)
    for at_once, goes in ((1, [1] * 7), (7, [3, 3, 1]), (8, [4, 3]), (99, [7])):
        monkeypatch.setattr(module, "_AT_ONCE", at_once)
        gone.clear()
        assert found.volume_behind(lines).tolist() == known.tolist()
        assert gone == goes, at_once
    assert found.volume_behind([]).tolist() == []
