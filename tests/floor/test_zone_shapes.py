"""Shapes of zones, by exact arithmetic on halves of rectangles."""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest
import shapely

from assistant.events.zones import ZoneAdded
from assistant.floor.geometry import zone_areas
from assistant.floor.zone_shapes import (
    ON_THE_EDGE_M,
    HalfPlane,
    across_line,
    are_in,
    floor_alone,
    half_of,
    half_planes,
    zone_of_area,
)
from grammar.commands import Measure
from tests.job.conftest import Site

ROOM = shapely.box(0, 0, 12, 8)


def at(x: float, y: float) -> np.ndarray:
    return np.array([x, y], dtype=float)


def zone(
    along: tuple[float | None, float | None] = (None, None),
    across: tuple[float | None, float | None] = (None, None),
    line: tuple[float, ...] = (),
    side: str | None = None,
) -> ZoneAdded:
    def measures(values: tuple[float | None, ...]) -> tuple[Measure | None, ...]:
        return tuple(None if v is None else Measure(Decimal(str(v)), "m") for v in values)

    on_it = tuple(Measure(Decimal(str(v)), "m") for v in line)
    return ZoneAdded("kitchen", "so", measures(along), measures(across), on_it, side)


def test_the_half_on_each_side_of_a_line() -> None:
    """A line of 3 by 4 has its unit vector (0.6, 0.8), and (-0.8, 0.6) across it."""
    left, right = (-0.8, 0.6), (0.8, -0.6)
    for start, end, sides in (
        ((0, 0), (3, 4), {"left": left, "right": right, "above": left, "below": right}),
        ((3, 4), (0, 0), {"left": left, "right": right, "above": left, "below": right}),
        ((7, 1), (4, 5), {"left": (-0.8, -0.6), "right": (0.8, 0.6), "above": (0.8, 0.6),
                          "below": (-0.8, -0.6)}),
        ((1, 2), (1, 9), {"left": (-1, 0), "right": (1, 0), "above": None, "below": None}),
        ((2, 3), (6, 3), {"left": None, "right": None, "above": (0, 1), "below": (0, -1)}),
    ):  # fmt: skip
        for side, inwards in sides.items():
            half = across_line(at(*start), at(*end), side)
            if inwards is None:
                assert half is None, (start, end, side)
                continue
            assert half is not None
            assert half.start_m.tolist() == list(start)
            assert half.inwards == pytest.approx(np.array(inwards)), (start, end, side)
            assert half.other_side.inwards == pytest.approx(-np.array(inwards))


def test_a_line_a_hair_off_an_axis_has_a_side() -> None:
    """Two micrometres in a metre are more than rounding; 0.7 of one are not."""
    for side in ("left", "right", "above", "below"):
        for off, has_side in ((2e-6, True), (0.7e-6, False)):
            end = at(1, off) if side in ("left", "right") else at(off, 1)
            assert (across_line(at(0, 0), end, side) is not None) == has_side, (side, off)


def test_how_far_inside_a_half_places_lie() -> None:
    half = HalfPlane(at(5, 1), at(-0.8, 0.6))
    places = np.array([[5, 1], [4.2, 1.6], [5.8, 0.4], [9, 4], [0, 1]])
    assert half.depth_of(places) == pytest.approx([0, 1, -1, -1.4, 4])


def test_bounds_of_a_zone_are_lines_inwards_from_each() -> None:
    found = half_planes(zone(along=(2, 5), across=(None, 3)))
    assert [(each.start_m.tolist(), each.inwards.tolist()) for each in found] == [
        ([2, 0], [1, 0]), ([5, 0], [-1, 0]), ([0, 3], [0, -1]),
    ]  # fmt: skip
    assert half_planes(zone(across=(1, None)))[0].start_m.tolist() == [0, 1]
    assert half_planes(zone()) == []
    (by_line,) = half_planes(zone(line=(2, 3, 6, 3), side="below"))
    assert (by_line.start_m.tolist(), by_line.inwards.tolist()) == ([2, 3], [0, -1])
    assert half_planes(zone(line=(2, 3, 6, 3), side="left")) == []


def test_places_on_the_edge_are_in_the_zone() -> None:
    """The edge takes a micrometre with it, on either side and from both bounds."""
    kitchen = zone(along=(2, 5), across=(None, 3))
    near, far = 0.5 * ON_THE_EDGE_M, 2e-6
    for place, is_in in (
        ((2, 1), True), ((5, 3), True), ((3, -4), True), ((1.9, 1), False), ((5.1, 1), False),
        ((3, 3.1), False), ((2 - near, 1), True), ((2 - far, 1), False), ((5 + near, 1), True),
        ((5 + far, 1), False), ((3, 3 + near), True), ((3, 3 + far), False),
    ):  # fmt: skip
        assert are_in(kitchen, np.array([place]))[0] == is_in, place
    assert are_in(zone(), np.array([[1, 1], [99, 99]])).tolist() == [True, True]


def test_halves_of_areas_are_exact_wherever_the_line_lies() -> None:
    """Of a floor, a niche of 40 cm, a strip, and with lines far beyond the floor."""
    niche, strip = shapely.box(3, 3, 3.4, 3.4), shapely.box(0, 0, 30, 0.5)
    far = shapely.box(0, 30, 0.4, 30.4)
    for area, start, inwards, expected in (
        (ROOM, (5, 0), (1, 0), 56.0),
        (ROOM, (5, 0), (-1, 0), 40.0),
        (ROOM, (0, 2), (0, 1), 72.0),
        (ROOM, (0, 0), (-0.8, 0.6), 24.0),  # a triangle of 8 by 6 on the left of 3 by 4
        (ROOM, (0, 0), (0.8, -0.6), 72.0),
        (niche, (3.1, 0), (1, 0), 0.12),
        (niche, (3.1, 9), (-1, 0), 0.04),
        (niche, (0, 3.3), (0, -1), 0.12),
        (shapely.box(-2, -2, 2, 2), (1, 0), (1, 0), 4),
        (far, (0.1, 0), (1, 0), 0.12),
        (strip, (29, 0), (1, 0), 0.5),
        (strip, (1, 0), (1, 0), 14.5),
        (ROOM, (50, 0), (-1, 0), 96.0),
        (ROOM, (50, 0), (1, 0), 0.0),
        (ROOM, (-900, 0), (1, 0), 96.0),
        (ROOM, (0, 400), (0, -1), 96.0),
        (ROOM, (0, 400), (0, 1), 0.0),
    ):
        half = HalfPlane(at(*start), at(*inwards))
        found = half_of(area, half).area
        assert found == pytest.approx(expected, abs=1e-9), (start, inwards)


def test_a_zone_keeps_its_floor_where_the_room_becomes_smaller() -> None:
    """Its far edge then lies four times as far off as the room is long."""
    floor = Site("room 60 by 8 metres", "grid 2 metres", "zone hall columns A to Y")
    assert zone_areas(floor.job.layout)["hall"].area == pytest.approx(50 * 8)
    floor.told("room 12 by 8 metres")
    assert zone_areas(floor.job.layout)["hall"].area == pytest.approx(96)


def test_lines_that_an_overlay_leaves_are_no_floor() -> None:
    one, two = shapely.box(0, 0, 1, 1), shapely.box(2, 0, 3, 1)
    line = shapely.LineString([(5, 0), (6, 0)])
    assert floor_alone(one) is one
    both = shapely.MultiPolygon([one, two])
    assert floor_alone(both) is both
    assert floor_alone(shapely.GeometryCollection([line, one])).equals(one)
    assert floor_alone(shapely.GeometryCollection([one, line, two])).equals(both)
    assert floor_alone(shapely.GeometryCollection([line, shapely.Point(0, 0)])).is_empty
    assert floor_alone(line).is_empty


def test_a_zone_takes_of_an_area_what_lies_between_all_its_lines() -> None:
    assert zone_of_area(ROOM, zone(along=(2, 5), across=(None, 3))).bounds == (2, 0, 5, 3)
    assert zone_of_area(ROOM, zone()).equals(ROOM)
    assert zone_of_area(ROOM, zone(along=(13, 15), across=(1, 2))).is_empty
