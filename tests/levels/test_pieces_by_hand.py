"""Strips and wedges beyond the points, pieces cut to a floor, and walls that meet. By hand."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from assistant.levels.area import as_area
from assistant.levels.clipping import (
    _clip,
    _fans,
    _following,
    _pairs,
    _whole_and_met,
    cut_to_area,
)
from assistant.levels.extrapolation import _right_of, _wedges, extrapolate
from assistant.levels.facets import SAME_CORNER_M, Facets, _joined
from assistant.levels.kriged.solved import Inverse, invert
from assistant.levels.outline import _meet, _on_a_wall, _runs_back, _side, _signed_area

SQUARE = np.array([[0.0, 0], [2, 0], [2, 2], [0, 2]])


def places(*xy: tuple[float, float]) -> np.ndarray:
    return np.array(xy, dtype=float)


def in_pieces(x: float, y: float, points: np.ndarray, *sides: list[int]) -> list[list[float]]:
    """The weights of the points of each piece that a place is in, nought for three alike."""
    beyond = extrapolate(points, tuple(np.array(side) for side in sides))
    at, found = np.array([x, y]), []
    for corners, slopes, inwards, origins in zip(
        beyond.corners, beyond.slopes, beyond.inwards, beyond.origins_m, strict=True
    ):
        if (((at - origins) * inwards).sum(axis=1) < 0).any():
            continue
        second, third = slopes @ (at - points[corners[0]])
        weights = np.zeros(len(points))
        for corner, weight in zip(corners, (1 - second - third, second, third), strict=True):
            weights[corner] += weight
        found.append(weights.round(9).tolist())
    return found


def test_beyond_a_square_the_nearest_place_of_its_edge_counts() -> None:
    """Its sides in turn, counter-clockwise; a corner's wedge has the corner alone."""
    sides = ([0, 1], [1, 2], [2, 3], [3, 0])
    for x, y, weights in (
        (0.5, -1, [0.75, 0.25, 0, 0]), (1.5, -9, [0.25, 0.75, 0, 0]), (3, 0.5, [0, 0.75, 0.25, 0]),
        (1, 5, [0, 0, 0.5, 0.5]), (-2, 1.5, [0.25, 0, 0, 0.75]), (3, 3, [0, 0, 1, 0]),
        (-1, -1, [1, 0, 0, 0]), (3, -0.5, [0, 1, 0, 0]), (-0.1, 2.1, [0, 0, 0, 1]),
    ):  # fmt: skip
        assert in_pieces(x, y, SQUARE, *sides) == [weights], (x, y)
    assert in_pieces(1, 1, SQUARE, *sides) == []


def test_a_side_of_several_points_has_a_strip_for_each_stretch() -> None:
    """Along 4 m with its middle point half a metre out; the strips stand across the side."""
    points = places((0, 0), (1, -0.5), (4, 0))
    sides = ([0, 1, 2], [2, 0])
    for x, y, weights in (
        (0.5, -2, [0.5, 0.5, 0]), (2.5, -2, [0, 0.5, 0.5]), (1, -3, [0, 1, 0]),
        (5, -0.5, [0, 0, 1]), (-1, 0, [1, 0, 0]), (2, 1, [0.5, 0, 0.5]),
    ):  # fmt: skip
        found = in_pieces(x, y, points, *sides)
        assert weights in found, (x, y, found)
        assert all(each == weights for each in found)


def test_points_one_above_the_other_seen_from_outside_leave_no_strip_between_them() -> None:
    """Of a side along x: the second and third both at 1 m, the third half a metre further in."""
    points = places((0, 0), (1, -0.5), (1, 0), (2, 0))
    for x, weights in ((0.5, [0.5, 0.5, 0, 0]), (1.25, [0, 0, 0.75, 0.25])):
        assert in_pieces(x, -3, points, [0, 1, 2, 3], [3, 0]) == [weights], x


def test_a_line_has_a_strip_on_either_side_and_turns_round_at_its_ends() -> None:
    line = places((0, 0), (1, 0))
    for x, y, weights in ((0.25, 3, [0.75, 0.25]), (0.25, -3, [0.75, 0.25]), (2, 1, [0, 1]),
                          (-1, -4, [1, 0])):  # fmt: skip
        assert in_pieces(x, y, line, [0, 1], [1, 0]) == [weights]
    alone = extrapolate(places((3, 4)), ())
    assert alone.corners.tolist() == [[0, 0, 0]]
    assert not alone.slopes.any()
    assert not alone.inwards.any()
    assert alone.origins_m.shape == alone.inwards.shape == (1, 3, 2)


def test_a_wedge_is_where_a_side_turns_left_or_right_round() -> None:
    along = places((1, 0))
    for after, is_wedge in (
        ((0, 1), True), ((0, -1), False), ((1, 0), False), ((-1, 0), True), ((-1, 1e-13), True),
        ((-1, -1e-13), True), ((1, 1e-13), False), ((0.6, 0.8), True), ((-0.6, 0.8), True),
        ((-0.6, -0.8), False),
    ):  # fmt: skip
        found = _wedges(SQUARE, np.array([2]), along, places(after))
        assert len(found.corners) == is_wedge, after
        assert found.slopes.shape == (is_wedge, 2, 2)
        if is_wedge:
            assert found.corners.tolist() == [[2, 2, 2]]
            assert found.origins_m.tolist() == [[[2, 2]] * 3]
            back = [-after[0], -after[1]]
            assert found.inwards[0].tolist() == [[1, 0], back, back]
    assert _right_of(places((1, 0), (0, 1))).tolist() == [[0, -1], [1, 0]]


# --- pieces cut to a floor ----------------------------------------------------------------------

NONE = np.zeros((0, 3, 2))


def test_triangles_are_whole_or_cut() -> None:
    inside, half, out = (
        places((0, 0), (1, 0), (0, 1)), places((1, 0), (3, 0), (1, 2)),
        places((5, 5), (6, 5), (5, 6)),
    )  # fmt: skip
    cut = cut_to_area(np.array([inside, half, out]), NONE, NONE, as_area(SQUARE))
    assert cut.whole.tolist() == [True, False, False]
    assert cut.areas_m2.sum() == pytest.approx(2 - 0.5)
    assert set(cut.piece.tolist()) == {1}
    assert cut.triangles.shape[1] == 3
    whole, rest = _whole_and_met(np.array([inside, half, out]), as_area(SQUARE))
    assert (whole.tolist(), rest.tolist()) == ([True, False, False], [1])


def test_a_piece_without_end_takes_what_of_the_floor_it_sees() -> None:
    right = np.array([[[1.0, 0], [1, 0], [1, 0]]])
    origins = np.array([[[0.5, 0.0], [0.5, 0], [0.5, 0]]])
    cut = cut_to_area(NONE, right, origins, as_area(SQUARE))
    assert cut.areas_m2.sum() == pytest.approx(1.5 * 2)
    assert cut.whole.tolist() == [False]
    far = cut_to_area(NONE, right, origins + np.array([5.0, 0]), as_area(SQUARE))
    assert far.areas_m2.sum() == 0
    assert len(far.triangles) == 0


def test_a_hole_is_taken_off_what_a_piece_leaves() -> None:
    floor = shapely.Polygon(SQUARE, [[(0.5, 0.5), (1, 0.5), (1, 1), (0.5, 1)]])
    right = np.array([[[1.0, 0], [1, 0], [1, 0]]])
    for start, area in ((0.0, 4 - 0.25), (0.75, 2.5 - 0.125), (1.5, 1.0)):
        origins = np.full((1, 3, 2), 0.0)
        origins[..., 0] = start
        found = cut_to_area(NONE, right, origins, as_area(floor))
        assert found.areas_m2.sum() == pytest.approx(area), start
    rings = as_area(floor).rings_m
    for start, met in ((0.0, 2), (0.9, 2), (1.0, 2), (1.2, 1), (3.0, 0)):
        origins = np.full((1, 3, 2), start)
        piece, which = _pairs(rings, right, origins)
        assert len(piece) == len(which) == met, start
    assert len(_pairs(rings[:1], right, np.full((1, 3, 2), 9.0))[0]) == 1  # a single ring is kept


def test_a_ring_is_cut_at_each_border() -> None:
    inwards = np.array([[[1.0, 0], [0, 1], [-1, 0]]])
    origins = np.array([[[0.5, 0], [0, 1.5], [1.5, 0]]])
    corners, ring = _clip((SQUARE,), np.array([0]), inwards, origins)
    assert shapely.Polygon(corners).equals(shapely.box(0.5, 1.5, 1.5, 2))
    assert set(ring.tolist()) == {0}
    two, ring = _clip((SQUARE, SQUARE / 2), np.array([0, 1]), np.repeat(inwards, 2, 0),
                      np.repeat(np.array([[[0.5, 0], [0, 0.5], [1.5, 0]]]), 2, 0))  # fmt: skip
    areas = [shapely.Polygon(two[ring == row]).area for row in (0, 1)]
    assert areas == pytest.approx([1.5, 0.25])


def test_corners_follow_each_other_round_their_own_ring() -> None:
    assert _following(np.array([0, 0, 0])).tolist() == [1, 2, 0]
    assert _following(np.array([0, 0, 0, 2, 2, 2, 2])).tolist() == [1, 2, 0, 4, 5, 6, 3]
    assert _following(np.array([3])).tolist() == [0]
    assert _following(np.zeros(0, dtype=int)).tolist() == []


def test_a_ring_is_a_fan_from_its_first_corner() -> None:
    corners = np.vstack([SQUARE, [[5, 5], [6, 5], [6, 6]], [[9, 9], [9, 8]]])
    triangles, areas = _fans(corners, np.array([0, 0, 0, 0, 1, 1, 1, 2, 2]))
    assert triangles.tolist() == [[0, 1, 2], [0, 2, 3], [4, 5, 6]]
    assert areas.tolist() == [2, 2, 0.5]
    _, turned = _fans(SQUARE[::-1], np.zeros(4, dtype=int))
    assert turned.tolist() == [-2, -2]


def test_triangles_that_share_corners_are_joined_and_turned_left() -> None:
    hair = 0.2 * SAME_CORNER_M
    found = _joined(np.array([
        [(0, 0), (2, 0), (2, 2)], [(2, 2 + hair), (0, 0), (0, 2)], [(0, 0), (0, 2), (2, 2)],
        [(0, 0), (1, 1), (2, 2 + 1e-10)],
    ], dtype=float))  # fmt: skip
    assert len(found.corners_m) == 4  # the middle is of a sliver alone
    assert len(found.triangles) == 3
    assert (found.areas_m2 > 0).all()
    assert found.areas_m2.tolist() == pytest.approx([2, 2, 2])
    apart = _joined(np.array([[(0, 0), (1, 0), (0, 1)], [(3e-6, 0), (1, 0), (0, 1)]], dtype=float))
    assert len(apart.corners_m) == 4
    one = Facets(SQUARE, np.array([[0, 1, 2], [0, 2, 3]]))
    assert one.areas_m2.tolist() == [2, 2]


# --- walls --------------------------------------------------------------------------------------


def test_on_which_side_of_a_wall_a_place_lies() -> None:
    a, b = places((0, 0)), places((4, 0))
    for place, side in (((1, 1), 1), ((1, -1), -1), ((9, 0), 0), ((1, 0.5e-9), 0), ((-3, 2), 1)):
        assert _side(a, b, places(place)).tolist() == [side], place
        assert _side(b, a, places(place)).tolist() == [-side]


def test_walls_meet_that_have_a_place_in_common() -> None:
    for a, b, c, d, meet in (
        ((0, 0), (2, 0), (1, -1), (1, 1), True), ((0, 0), (2, 0), (3, -1), (3, 1), False),
        ((0, 0), (2, 0), (1, 0), (1, 1), True), ((0, 0), (2, 0), (1, 0.1), (1, 1), False),
        ((0, 0), (2, 0), (1, 0), (3, 0), True), ((0, 0), (2, 0), (3, 0), (4, 0), False),
        ((0, 0), (2, 0), (2, 0), (4, 0), True), ((0, 0), (0, 2), (0, 3), (0, 4), False),
        ((0, 0), (0, 2), (0, 1), (0, 4), True), ((0, 0), (2, 2), (3, 3), (4, 4), False),
        ((0, 0), (2, 0), (0, 1), (2, 1), False), ((1, -1), (1, 1), (0, 0), (2, 0), True),
    ):  # fmt: skip
        assert _meet(places(a), places(b), places(c), places(d)).tolist() == [meet], (a, b, c, d)
        assert _meet(places(c), places(d), places(a), places(b)).tolist() == [meet]


def test_a_wall_that_leaves_a_corner_as_another_does_runs_back() -> None:
    corner = places((1, 1))
    for one, other, back in (
        ((3, 1), (2, 1), True), ((3, 1), (0, 1), False), ((3, 1), (3, 2), False),
        ((3, 3), (2, 2), True), ((3, 1), (1, 3), False),
    ):  # fmt: skip
        assert _runs_back(corner, places(one), places(other)).tolist() == [back], (one, other)


def test_a_place_on_a_wall_is_on_it_from_end_to_end() -> None:
    walls, start = places((4, 0)), places((1, 1))
    for place, on_it in (
        ((1, 1), True), ((5, 1), True), ((3, 1), True), ((3, 1.1), False), ((5.1, 1), False),
        ((0.9, 1), False), ((3, 1 + 0.5e-9), True),
    ):  # fmt: skip
        to_point = places(place)[:, None, :] - start
        assert _on_a_wall(walls, to_point).tolist() == [on_it], place
    nothing = places((0, 0))
    assert _on_a_wall(nothing, places((1, 1))[:, None, :] - start).tolist() == [True]
    assert _on_a_wall(nothing, places((1, 2))[:, None, :] - start).tolist() == [False]


def test_the_area_has_the_sign_of_the_way_round() -> None:
    for moved in (0.0, 1e6):
        assert _signed_area(SQUARE + moved) == 4
        assert _signed_area(SQUARE[::-1] + moved) == -4
    assert _signed_area(places((0, 0), (4, 0), (0, 3))) == 6


# --- one reading more or less --------------------------------------------------------------------


def test_an_inverse_with_one_reading_more_or_less_is_that_of_the_rest() -> None:
    """Held against numpy's own inverse and determinant."""
    correlations = np.array([[1, 0.5, 0.2], [0.5, 1, 0.4], [0.2, 0.4, 1]])
    variances = np.array([0.1, 0.2, 0.3])
    covariance = 4 * correlations + np.diag(variances)
    found = invert(correlations.copy(), 2.0, variances)
    assert found.matrix == pytest.approx(np.linalg.inv(covariance))
    assert found.log_det == pytest.approx(np.linalg.slogdet(covariance)[1])
    for row in range(3):
        kept = [n for n in range(3) if n != row]
        less = covariance[np.ix_(kept, kept)]
        without = found.without(row)
        assert without.matrix == pytest.approx(np.linalg.inv(less))
        assert without.log_det == pytest.approx(np.linalg.slogdet(less)[1])
    first = covariance[:2, :2]
    two = Inverse(np.linalg.inv(first), float(np.linalg.slogdet(first)[1]))
    more = two.with_reading(covariance[:2, 2], float(covariance[2, 2]))
    assert more.matrix == pytest.approx(np.linalg.inv(covariance))
    assert more.log_det == pytest.approx(found.log_det)


def test_beyond_a_single_point_one_piece_covers_the_plane() -> None:
    whole = extrapolate(np.array([[3.0, 2.0]]), ())
    assert (whole.corners.shape, whole.slopes.shape) == ((1, 3), (1, 2, 2))
    assert whole.inwards.shape == whole.origins_m.shape == (1, 3, 2)


def test_where_the_middle_of_a_side_lies_makes_no_difference() -> None:
    """The corner of the room may stand anywhere, in the middle of a side as well."""
    corners = np.array([[-1.0, -1], [1, -1], [1, 1], [-1, 1]])
    sides = tuple(np.array([row, (row + 1) % 4]) for row in range(4))
    here, away = extrapolate(corners, sides), extrapolate(corners + np.array([7, 4]), sides)
    assert np.isfinite(here.inwards).all()
    assert here.slopes == pytest.approx(away.slopes)
    for one, other in zip(here.inwards.reshape(-1, 2), away.inwards.reshape(-1, 2), strict=True):
        assert one / np.hypot(*one) == pytest.approx(other / np.hypot(*other))
