"""Truths that hold for every floor, tried on many."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.levels.arrays import FloatArray
from assistant.levels.outline import rectangle
from assistant.levels.surface import mesh_over
from assistant.levels.volume import VolumeToFinish, fill

MM = 0.001
ROOM = rectangle(7.2, 4.8)
L_SHAPE = np.array([[0, 0], [7.2, 0], [7.2, 3], [4.5, 3], [4.5, 4.8], [0, 4.8]])

# Places on a fine lattice, so that lines, grid cells and circles through many points turn up.
PLACES = st.lists(
    st.tuples(st.integers(-2, 26), st.integers(-2, 18)), min_size=1, max_size=24, unique=True
).map(lambda places: np.array(places) * 0.3)
OUTLINES = st.sampled_from([ROOM, L_SHAPE, L_SHAPE[::-1]])


@st.composite
def floors(draw: Callable[..., Any]) -> tuple[FloatArray, FloatArray, FloatArray]:
    points = draw(PLACES)
    depths = draw(
        st.lists(st.integers(-30, 60), min_size=len(points), max_size=len(points)).map(
            lambda depths: np.array(depths) * MM
        )
    )
    return points, depths, draw(OUTLINES)


def same(one: VolumeToFinish, other: VolumeToFinish) -> None:
    for name in ("volume_m3", "area_m2", "filled_area_m2", "cut_m3"):
        assert getattr(one, name) == pytest.approx(getattr(other, name), rel=1e-7, abs=1e-7), name


quick = settings(max_examples=60, deadline=None)


@quick
@given(floors(), st.randoms(use_true_random=False))
def test_the_order_of_the_points_is_nothing(
    floor: tuple[FloatArray, FloatArray, FloatArray], random: Random
) -> None:
    points, depths, outline = floor
    order = list(range(len(points)))
    random.shuffle(order)
    same(
        fill(mesh_over(points, outline), depths),
        fill(mesh_over(points[order], outline), depths[order]),
    )


@quick
@given(floors(), st.floats(0, 6.3), st.booleans())
def test_turned_flipped_and_moved_the_floor_stays(
    floor: tuple[FloatArray, FloatArray, FloatArray], angle: float, flipped: bool
) -> None:
    points, depths, outline = floor
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    if flipped:
        turn = turn * [-1, 1]
    same(
        fill(mesh_over(points, outline), depths),
        fill(mesh_over(points @ turn + [3, -40], outline @ turn + [3, -40]), depths),
    )


@quick
@given(floors())
def test_fill_less_cut_is_the_signed_volume(
    floor: tuple[FloatArray, FloatArray, FloatArray],
) -> None:
    points, depths, outline = floor
    mesh = mesh_over(points, outline)
    result = fill(mesh, depths)
    signed = mesh.area_weights @ depths
    assert result.volume_m3 - result.cut_m3 == pytest.approx(signed, abs=1e-9)
    turned = fill(mesh, -depths)
    assert turned.cut_m3 == pytest.approx(result.volume_m3, abs=1e-12)
    assert turned.volume_m3 == pytest.approx(result.cut_m3, abs=1e-12)


@quick
@given(floors())
def test_a_finish_one_millimetre_up_takes_area_times_one_millimetre(
    floor: tuple[FloatArray, FloatArray, FloatArray],
) -> None:
    points, depths, outline = floor
    mesh = mesh_over(points, outline)
    # Up until nothing is above the finish.
    depths = depths + max(0.0, -float(mesh.corner_heights(depths).min())) + 1 * MM
    more = fill(mesh, depths + 1 * MM).volume_m3 - fill(mesh, depths).volume_m3
    assert more == pytest.approx(mesh.area_m2 * MM, rel=1e-9)
    assert fill(mesh, depths).cut_m3 == 0


@quick
@given(floors(), st.integers(1, 40))
def test_a_higher_finish_never_takes_less(
    floor: tuple[FloatArray, FloatArray, FloatArray], up: int
) -> None:
    points, depths, outline = floor
    mesh = mesh_over(points, outline)
    low, high = fill(mesh, depths), fill(mesh, depths + up * MM)
    assert high.volume_m3 >= low.volume_m3 - 1e-12
    assert high.filled_area_m2 >= low.filled_area_m2 - 1e-9
    assert high.cut_m3 <= low.cut_m3 + 1e-12
    assert 0 <= low.filled_area_m2 <= low.area_m2


@quick
@given(floors())
def test_corners_of_triangles_are_heights_of_the_surface(
    floor: tuple[FloatArray, FloatArray, FloatArray],
) -> None:
    points, depths, outline = floor
    mesh = mesh_over(points, outline)
    places = mesh.corners_m[mesh.triangles.ravel()]
    found = mesh.heights_at(places, depths)
    assert found == pytest.approx(mesh.corner_heights(depths).ravel(), abs=1e-7)
    assert mesh.areas_m2.sum() == pytest.approx(mesh.area_m2, rel=1e-9)
    assert mesh.heights_at(points, depths) == pytest.approx(depths, abs=1e-12)


@quick
@given(floors(), st.integers(1, 23))
def test_a_floor_in_two_parts_has_the_volume_of_both(
    floor: tuple[FloatArray, FloatArray, FloatArray], split: int
) -> None:
    points, depths, _ = floor
    # With corners read, so that the slope carried is the same for either part.
    corners = ROOM * 0.9 + 0.311
    points = np.vstack([points, corners])
    depths = np.append(depths, [0.01, 0.0, 0.02, 0.005])
    x = split * 0.3
    left, right = rectangle(x, 4.8), np.add(rectangle(7.2 - x, 4.8), [x, 0])
    whole, one, other = (fill(mesh_over(points, part), depths) for part in (ROOM, left, right))
    assert one.volume_m3 + other.volume_m3 == pytest.approx(whole.volume_m3, abs=1e-9)
    assert one.cut_m3 + other.cut_m3 == pytest.approx(whole.cut_m3, abs=1e-9)
    assert one.filled_area_m2 + other.filled_area_m2 == pytest.approx(whole.filled_area_m2)


@quick
@given(st.integers(0, 2**32 - 1))
def test_a_cell_split_at_its_middle_keeps_its_volume(number: int) -> None:
    rng = np.random.default_rng(number)
    cells = np.stack(np.meshgrid([0, 2.4, 4.8, 7.2], [0, 2.4, 4.8]), axis=2).reshape(-1, 2)
    depths = rng.integers(-30, 60, 12) * MM
    middle = np.array([[1.2, 1.2]])
    mean = depths[[0, 1, 4, 5]].mean()
    same(
        fill(mesh_over(cells, L_SHAPE), depths),
        fill(mesh_over(np.vstack([cells, middle]), L_SHAPE), np.append(depths, mean)),
    )


@quick
@given(floors(), st.floats(0.5, 4))
def test_a_floor_drawn_to_scale_keeps_its_shape(
    floor: tuple[FloatArray, FloatArray, FloatArray], scale: float
) -> None:
    points, depths, outline = floor
    once, deeper = (fill(mesh_over(points, outline), depths * factor) for factor in (1, scale))
    assert deeper.volume_m3 == pytest.approx(once.volume_m3 * scale, abs=1e-9)
    assert deeper.filled_area_m2 == pytest.approx(once.filled_area_m2, abs=1e-7)


@quick
@given(
    st.lists(
        st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=1, max_size=15, unique=True
    ),
    st.sampled_from([1.0, 1e-3, 1e-6, 1e-9]),
)
def test_no_arrangement_of_points_upsets_the_mesh(
    places: list[tuple[float, float]], squeeze: float
) -> None:
    points = np.unique(np.array(places) * [1, squeeze] + 0.0, axis=0)
    mesh = mesh_over(points, L_SHAPE)
    result = fill(mesh, np.full(len(points), 5 * MM))
    assert result.volume_m3 == pytest.approx(result.area_m2 * 5 * MM, rel=1e-5)
    heights = np.where(np.arange(len(points)) % 2, 1.0, -1.0)
    found = mesh.corner_heights(heights)
    assert np.isfinite(found).all()
    # Readings of plus or minus 1, carried: no more than the slope trusted lets them grow.
    assert np.abs(found).max() <= 1 + 15 * np.sqrt(len(points))
