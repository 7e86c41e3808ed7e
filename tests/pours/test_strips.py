"""Strips: exact where the floor is known, and as good as any other way to cut it."""

from itertools import combinations, pairwise

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from assistant.errors import SurveyError
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill
from assistant.pours.fill_along import FillAlong, fill_along
from assistant.pours.strips import Pace, Strip, best_cuts, plan_strips, widest_m

FloatArray = NDArray[np.float64]
ROOM = np.array([[0.0, 0.0], [12.0, 0.0], [12.0, 8.0], [0.0, 8.0]])
L_ROOM = np.array([[0, 0], [10, 0], [10, 4], [6, 4], [6, 9], [0, 9.0]])


def seen_along(
    outline: FloatArray, depths_m: FloatArray, direction: tuple[float, float], points: FloatArray
) -> tuple[FillAlong, float]:
    """A floor along a direction, and the volume that the tally gives."""
    mesh = mesh_over(points, outline)
    triangles = mesh.corners_m[mesh.triangles]
    found = fill_along(triangles, mesh.corner_heights(depths_m), direction, areas_m2=mesh.areas_m2)
    return found, fill(mesh, depths_m).volume_m3


def level(depth_m: float, length: float = 12.0, front: float = 8.0) -> FillAlong:
    outline = np.array([[0, 0], [length, 0], [length, front], [0, front]])
    return seen_along(outline, np.full(4, depth_m), (1, 0), outline)[0]


def drawn_floor(seed: int, outline: FloatArray) -> tuple[FloatArray, FloatArray]:
    random = np.random.default_rng(seed)
    points = random.uniform(outline.min(axis=0), outline.max(axis=0), (25, 2))
    return points, random.normal(0.008, 0.008, 25)


@pytest.mark.parametrize("outline", [ROOM, L_ROOM], ids=["rectangle", "inside corner"])
@pytest.mark.parametrize("direction", [(1, 0), (0, -1), (1, 2)])
def test_volume_behind_the_end_is_the_tallys(
    outline: FloatArray, direction: tuple[float, float]
) -> None:
    points, depths = drawn_floor(1, outline)
    along, volume = seen_along(outline, depths, direction, points)
    assert along.volume_m3 == pytest.approx(volume, rel=1e-9)
    behind = along.volume_behind([along.from_m, along.to_m])
    assert behind == pytest.approx([0, volume], abs=1e-9)
    # numpy's own integration: area by the polygon, by hand
    assert along.area_m2 == pytest.approx(shapely.Polygon(outline).area)


def test_volume_behind_a_line_is_that_of_the_part_cut_off() -> None:
    """Against shapely: the floor is cut at the line first, and its volume taken whole."""
    points, depths = drawn_floor(2, L_ROOM)
    mesh = mesh_over(points, L_ROOM)
    triangles, corner = mesh.corners_m[mesh.triangles], mesh.corner_heights(depths)
    along = fill_along(triangles, corner, (1, 0), areas_m2=mesh.areas_m2)
    for line in (0.7, 3.0, 6.0, 8.31):
        part = shapely.intersection(shapely.Polygon(L_ROOM), shapely.box(-1, -1, line, 20))
        cut = fill_along(triangles, corner, (1, 0), areas_m2=mesh.areas_m2, only=part)
        assert along.volume_behind([line])[0] == pytest.approx(cut.volume_m3, rel=1e-9)
        assert along.area_behind([line])[0] == pytest.approx(part.area, rel=1e-9)


def test_obstacles_take_their_area_and_their_volume() -> None:
    """A column of 1 m by 2 m in a floor 10 mm deep: 20 L less. Exact arithmetic."""
    mesh = mesh_over(ROOM, ROOM)
    column = shapely.box(4, 3, 5, 5)
    along = fill_along(
        mesh.corners_m[mesh.triangles],
        mesh.corner_heights(np.full(4, 0.010)),
        (1, 0),
        only=shapely.Polygon(ROOM).difference(column),
    )
    assert along.volume_m3 == pytest.approx(0.96 - 0.02)
    assert along.volume_behind([4, 4.5, 5])[:] == pytest.approx([0.32, 0.35, 0.38])
    strips = plan_strips(along, Pace(0.0139, 10))
    assert sum(strip.volume_m3 for strip in strips) == pytest.approx(0.94)
    assert sum(strip.area_m2 for strip in strips) == pytest.approx(94)


def test_the_published_rate_comes_to_the_widths_worked_out_from_it() -> None:
    """139 m²/h by three people mixing by hand, an independent trade article; the widths are
    exact arithmetic on it: a front of 8 m, 10 minutes, 6 mm and 12 mm."""
    pace = Pace(139 * 0.006 / 60, 10)
    assert widest_m(pace, 0.006, 8) == pytest.approx(2.896, abs=0.0005)
    assert widest_m(pace, 0.012, 8) == pytest.approx(1.448, abs=0.0005)
    widths = [strip.to_m - strip.from_m for strip in plan_strips(level(0.006), pace)]
    assert len(widths) == 5
    assert max(widths) <= 2.896
    assert len(plan_strips(level(0.012), pace)) == 9
    # one strip fewer could not do: 4 of 3 m, 8 of 1.5 m
    assert widest_m(pace, 0.006, 8) < 12 / 4
    assert widest_m(pace, 0.012, 8) < 12 / 8


def test_strips_of_a_tilted_plane_are_known() -> None:
    """
    Depth grows evenly from nothing at the start: the volume behind x goes with x², so four strips
    of equal volume end at 1/2, √2/2, √3/2 and all of the 5 m. Exact arithmetic.
    """
    room = np.array([[0, 0], [5, 0], [5, 8], [0, 8.0]])
    known = [2.5, 2.5 * 2**0.5, 2.5 * 3**0.5, 5]
    for direction, depths in (((1, 0), [0, 0.012, 0.012, 0]), ((-1, 0), [0.012, 0, 0, 0.012])):
        along, volume = seen_along(room, np.array(depths), direction, room)
        assert volume == pytest.approx(0.24)
        lines = along.from_m + np.array(known)
        assert along.volume_behind(lines) == pytest.approx([0.06, 0.12, 0.18, 0.24])
        # a centimetre at the deep end is 1.6 % of a strip, so the limit is 2 % over a quarter
        strips = plan_strips(along, Pace(0.06 / 10, 10.2), step_m=0.01)
        assert [strip.to_m for strip in strips] == pytest.approx(known, abs=0.03)
    shallow_last, _ = seen_along(room, np.array([0, 0.012, 0.012, 0]), (-1, 0), room)
    turned = plan_strips(shallow_last, Pace(0.06 / 10, 10.2), step_m=0.01)
    assert [5 - strip.from_m for strip in reversed(turned)] == pytest.approx(known, abs=0.03)


def test_clock_and_waits_of_strips() -> None:
    """Level, 8 m by 4 m, 10 mm, 8 L a minute: 40 minutes in four strips of 10."""
    strips = plan_strips(level(0.010, length=4.0), Pace(0.008, 10.0))
    assert [strip.start_min for strip in strips] == pytest.approx([0, 10, 20, 30])
    assert [strip.edge_wait_min for strip in strips[:3]] == pytest.approx([10, 10, 10])
    assert strips[-1].edge_wait_min is None
    assert not any(strip.edge_lost for strip in strips)


def test_what_is_behind_a_dam_need_not_be_met() -> None:
    strips = plan_strips(level(0.010, length=4.0), Pace(0.008, 10.0), dams_m=[1.5])
    assert [strip.to_m for strip in strips if strip.edge_wait_min is None] == [1.5, 4.0]


def test_edges_that_no_cut_saves_are_told() -> None:
    """60 mm deep over 8 m: half a metre takes 240 L, 30 minutes at 8 L a minute."""
    strips = plan_strips(level(0.060, length=2.0), Pace(0.008, 10.0))
    assert [strip.edge_lost for strip in strips] == [True, True, True, False]
    assert [strip.to_m - strip.from_m for strip in strips] == pytest.approx([0.5] * 4)
    assert not any(s.edge_lost for s in plan_strips(level(0.060, length=2.0), Pace(0.024, 10.0)))


def test_batches_that_come_too_seldom_lose_every_edge() -> None:
    strips = plan_strips(level(0.010, length=4.0), Pace(0.008, 10.0, batch_min=12))
    assert all(strip.edge_lost for strip in strips[:-1])


def test_strips_are_no_wider_than_wished() -> None:
    strips = plan_strips(level(0.003), Pace(0.0139, 30), most_width_m=2.0)
    assert max(strip.to_m - strip.from_m for strip in strips) <= 2.0
    assert len(strips) == 6


@pytest.mark.parametrize("bad", [Pace(0, 10), Pace(0.01, 0), Pace(float("nan"), 10)])
def test_a_pace_must_be_one(bad: Pace) -> None:
    with pytest.raises(SurveyError):
        plan_strips(level(0.010), bad)


# --- against all ways to cut a coarse grid -----------------------------------------------


def brute_force(
    done: FloatArray, allowed: NDArray[np.bool_], limit: float
) -> tuple[float, int, float]:
    """The best of all cuts: least over the limit, fewest strips, shortest longest strip."""
    n, best = len(done), (np.inf, 0, np.inf)
    for count in range(n - 1):
        for inner in combinations(range(1, n - 1), count):
            cuts = (0, *inner, n - 1)
            pairs = list(pairwise(cuts))
            if all(allowed[pair] for pair in pairs):
                best = min(best, judged([done[b] - done[a] for a, b in pairs], limit))
    return best


def judged(minutes: list[float], limit: float) -> tuple[float, int, float]:
    over = round(sum(max(each - limit, 0) for each in minutes), 6)
    return over, len(minutes), 0.0 if over else round(max(minutes), 6)


@pytest.mark.parametrize("seed", range(40))
def test_no_other_cut_of_a_coarse_grid_is_better(seed: int) -> None:
    random = np.random.default_rng(seed)
    outline = L_ROOM if seed % 2 else ROOM
    points, depths = drawn_floor(seed, outline)
    along, _ = seen_along(outline, np.abs(depths), (0, 1) if seed % 3 else (1, 0), points)
    places = np.linspace(0, along.to_m - along.from_m, 10)
    limit = float(random.uniform(5, 40))
    done = along.volume_behind(along.from_m + places) / 0.010
    width = places[None, :] - places[:, None]
    allowed = (width > 0) & (width >= random.choice([0.5, 1.7])) & (width <= 4.5)
    if not np.isfinite(brute_force(done, allowed, limit)[0]):
        pytest.skip("no strips of these widths fill the room")
    cuts = best_cuts(done, allowed, limit)
    assert all(allowed[a, b] for a, b in pairwise(cuts))
    assert judged(np.diff(done[cuts]).tolist(), limit) == brute_force(done, allowed, limit)


def test_volumes_of_strips_add_up_on_any_floor() -> None:
    for seed in range(10):
        points, depths = drawn_floor(seed, L_ROOM)
        along, volume = seen_along(L_ROOM, depths, (0, 1), points)
        strips: tuple[Strip, ...] = plan_strips(along, Pace(0.009, 12), dams_m=[4.0])
        assert sum(strip.volume_m3 for strip in strips) == pytest.approx(volume, rel=1e-9)
        assert [strip.from_m for strip in strips[1:]] == [strip.to_m for strip in strips[:-1]]
