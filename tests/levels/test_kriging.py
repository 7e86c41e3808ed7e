"""The surface with its uncertainty: against other programs, and truths that always hold."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.levels.kriged.covariance import drift_of, matern
from assistant.levels.kriged.likelihood import LikelihoodData, Pairs
from assistant.levels.kriged.reuse import inverses_anew
from assistant.levels.kriged.surface import NOISE_SD_M, KrigedSurface
from assistant.levels.kriging import fit_surface, with_reading, without_points
from tests.levels.lumpy_floors import MM, PLACES, lumpy, scattered


def fixed(
    points: ArrayLike,
    heights: ArrayLike,
    reach: float = 1.7,
    sill: float = 4 * MM,
    noise: float | FloatArray = MM,
    texture: float = 0.0,
    shared: FloatArray | None = None,
) -> KrigedSurface:
    """One range and sill, so that other programs can be asked the same."""
    points, heights = np.asarray(points, float), np.asarray(heights, float)
    drift = drift_of(points, np.zeros((0, 2, 2)))
    noise = np.full(len(points), noise)
    readings = LikelihoodData(points, heights, noise, drift, 7.2, texture, shared)
    pairs = Pairs(np.array([reach]), np.array([sill]), np.zeros(1))
    return KrigedSurface(readings, pairs, readings, inverses_anew(readings, pairs))


def textbook(
    points: FloatArray,
    heights: FloatArray,
    places: FloatArray,
    reach: float = 1.7,
    sill: float = 4 * MM,
    noise: float = MM,
    shared: FloatArray | None = None,
) -> tuple[FloatArray, FloatArray]:
    """The kriging system with Lagrange multipliers, place by place."""
    errors = noise**2 * np.eye(len(points))
    if shared is not None:
        errors = errors + shared @ shared.T

    def covariance(a: FloatArray, b: FloatArray) -> FloatArray:
        scaled = np.sqrt(3) * np.hypot(*(a[:, None] - b).transpose(2, 0, 1)) / reach
        found: FloatArray = sill**2 * (1 + scaled) * np.exp(-scaled)
        return found

    count = len(points)
    drift = np.column_stack([np.ones(count), points])
    system = np.zeros((count + 3, count + 3))
    system[:count, :count] = covariance(points, points) + errors
    system[:count, count:], system[count:, :count] = drift * MM, drift.T * MM
    means, variances = [], []
    for place in places:
        right = np.append(covariance(points, place[None])[:, 0], np.append(1, place) * MM)
        solved = np.linalg.solve(system, right)
        means.append(solved[:count] @ heights)
        variances.append(sill**2 - solved @ right)
    return np.array(means), np.sqrt(variances)


def test_heights_as_the_textbook_system_has_them() -> None:
    points = scattered(20)
    means, sds = textbook(points, lumpy(points), PLACES)
    found = fixed(points, lumpy(points)).predict(PLACES)
    assert found.mean == pytest.approx(means, abs=1e-9)
    assert found.sd == pytest.approx(sds, abs=1e-9)


SHARED = np.random.default_rng(8).normal(0, 1.5 * MM, (20, 3)) * (
    np.arange(20)[:, None] > [4, 8, 12]
)


def test_errors_that_readings_share_are_in_the_textbook_system() -> None:
    points = scattered(20)
    means, sds = textbook(points, lumpy(points), PLACES, shared=SHARED)
    found = fixed(points, lumpy(points), shared=SHARED).predict(PLACES)
    assert found.mean == pytest.approx(means, abs=1e-9)
    assert found.sd == pytest.approx(sds, abs=1e-9)
    # And they matter: taken as each reading's own, the same errors give other heights.
    own = np.hypot(MM, np.sqrt((SHARED**2).sum(axis=1)))
    alone = fixed(points, lumpy(points), noise=own).predict(PLACES)
    assert np.abs(alone.mean - means).max() > 0.2 * MM


def test_a_reading_to_come_shares_them_too() -> None:
    # One more row of the textbook's covariance: left out of it, a reading is foretold by the rest.
    points, heights = scattered(20), lumpy(scattered(20))
    whole = fixed(points, heights, shared=SHARED)
    rest = fixed(points[:-1], heights[:-1], shared=SHARED[:-1])
    expected = rest.predict_reading(points[[19]], MM, SHARED[19])
    left_out = whole.predict_without(19)
    assert left_out.mean == pytest.approx(expected.mean, abs=1e-9)
    assert left_out.sd == pytest.approx(expected.sd, abs=1e-9)
    strange = rest.predict_reading(points[[19]], MM)
    assert abs(float(strange.mean[0] - expected.mean[0])) > 0.1 * MM
    again = with_reading(rest, points[19], heights[19], MM, SHARED[19]).predict(PLACES)
    assert again.mean == pytest.approx(whole.predict(PLACES).mean, abs=1e-9)
    fewer = without_points(whole, [19]).predict(PLACES)
    assert fewer.sd == pytest.approx(rest.predict(PLACES).sd, abs=1e-9)


def test_restricted_likelihood_knows_shared_errors() -> None:
    # Of the contrasts, as below; what both leave out does not depend on range and sill.
    points, heights = scattered(20), lumpy(scattered(20))
    columns = np.column_stack([np.ones(20), points])
    contrasts = np.linalg.svd(columns, full_matrices=True)[0][:, 3:]

    def directly(reach: float) -> float:
        away = np.hypot(*(points[:, None] - points).transpose(2, 0, 1))
        covariance = (4 * MM) ** 2 * matern(away, reach) + MM**2 * np.eye(20) + SHARED @ SHARED.T
        covariance = contrasts.T @ covariance @ contrasts
        seen = contrasts.T @ heights
        _, log_det = np.linalg.slogdet(covariance)
        return float(-0.5 * (log_det + seen @ np.linalg.solve(covariance, seen)))

    def ours(reach: float) -> float:
        return fixed(points, heights, reach=reach, shared=SHARED).solved[0].log_likelihood

    assert ours(0.8) - ours(2.5) == pytest.approx(directly(0.8) - directly(2.5), abs=1e-6)


def test_a_fit_serves_again_while_what_is_shared_stays() -> None:
    points, heights = scattered(40), lumpy(scattered(40))
    shared = np.zeros((40, 1))
    shared[20:] = 1.4 * MM
    before = fit_surface(points[:28], heights[:28], shared_m=shared[:28], size_m=7.2)
    wider = np.hstack([shared, np.zeros((40, 1))])
    wider[29:, 1] = MM
    after = fit_surface(points[:30], heights[:30], shared_m=wider[:30], size_m=7.2, like=before)
    anew = fit_surface(points[:30], heights[:30], shared_m=wider[:30], size_m=7.2)
    assert after.pairs is before.pairs
    assert after.predict(PLACES).mean == pytest.approx(anew.predict(PLACES).mean, abs=1e-9)
    assert after.predict(PLACES).sd == pytest.approx(anew.predict(PLACES).sd, abs=1e-9)
    moved = fit_surface(points[:30], heights[:30], shared_m=2 * wider[:30], size_m=7.2, like=before)
    assert moved.pairs is not before.pairs


@pytest.mark.parametrize("first", [True, False])
def test_a_fit_without_shared_errors_is_none_for_readings_that_have_some(first: bool) -> None:
    points, heights = scattered(20), lumpy(scattered(20))
    shared = np.where(np.arange(20)[:, None] > 10, 4 * MM, 0.0)
    some = (shared, None) if first else (None, shared)
    before, anew = (fit_surface(points, heights, shared_m=one, size_m=7.2) for one in some)
    after = fit_surface(points, heights, shared_m=some[1], size_m=7.2, like=before)
    assert after.pairs is not before.pairs
    assert after.predict(PLACES).mean == pytest.approx(anew.predict(PLACES).mean, abs=1e-9)


@pytest.mark.parametrize("shared", [np.zeros((3, 2)), np.full((20, 1), np.nan), np.zeros(20)])
def test_shared_errors_that_are_none(shared: FloatArray) -> None:
    with pytest.raises(SurveyError, match=r"[Ss]hared error"):
        fit_surface(scattered(20), lumpy(scattered(20)), shared_m=shared)


def test_heights_as_scikit_learn_has_them() -> None:
    # A Gaussian process whose plane has a very wide prior instead of none.
    process = pytest.importorskip("sklearn.gaussian_process")
    kernels = pytest.importorskip("sklearn.gaussian_process.kernels")
    points = scattered(25)
    wandering = kernels.ConstantKernel(16) * kernels.Matern(length_scale=1.7, nu=1.5)
    plane = kernels.ConstantKernel(1e6) * kernels.DotProduct(sigma_0=1)
    other = process.GaussianProcessRegressor(wandering + plane, alpha=1.0, optimizer=None)
    other.fit(points - points.mean(axis=0), lumpy(points) / MM)
    means, sds = other.predict(PLACES - points.mean(axis=0), return_std=True)
    found = fixed(points, lumpy(points)).predict(PLACES)
    assert found.mean / MM == pytest.approx(means, abs=1e-3)
    assert found.sd / MM == pytest.approx(sds, abs=1e-3)


def test_heights_as_pykrige_has_them() -> None:
    # Its nugget belongs to the floor, so noise is left out; a variogram is sill less covariance.
    uk = pytest.importorskip("pykrige.uk")
    points = scattered(25)
    other = uk.UniversalKriging(
        *points.T,
        lumpy(points) / MM,
        variogram_model="custom",
        variogram_parameters=[16.0, 1.7],
        variogram_function=lambda pair, away: pair[0] * (1 - matern(away.copy(), pair[1])),
        drift_terms=["regional_linear"],
    )
    means, variances = other.execute("points", *PLACES.T)
    found = fixed(points, lumpy(points), noise=0.0).predict(PLACES)
    assert found.mean / MM == pytest.approx(np.asarray(means), abs=1e-5)
    assert found.sd / MM == pytest.approx(np.sqrt(np.asarray(variances)), abs=1e-5)


def test_restricted_likelihood_is_that_of_the_contrasts() -> None:
    # Patterson and Thompson: what is left of the heights once any plane is taken off.
    points, heights = scattered(15), lumpy(scattered(15))
    columns = np.column_stack([np.ones(15), points])
    contrasts = np.linalg.svd(columns, full_matrices=True)[0][:, 3:]
    away = np.hypot(*(points[:, None] - points).transpose(2, 0, 1))

    def directly(reach: float, sill: float) -> float:
        covariance = sill**2 * matern(away.copy(), reach) + MM**2 * np.eye(15)
        covariance = contrasts.T @ covariance @ contrasts
        seen = contrasts.T @ heights
        _, log_det = np.linalg.slogdet(covariance)
        return float(-0.5 * (log_det + seen @ np.linalg.solve(covariance, seen)))

    pairs = [(0.5, 3 * MM), (1.7, 4 * MM), (6.0, 12 * MM)]
    ours = [fixed(points, heights, *pair).solved[0].log_likelihood for pair in pairs]
    theirs = [directly(*pair) for pair in pairs]
    assert np.diff(ours) == pytest.approx(np.diff(theirs), abs=1e-6)


def test_passes_through_readings_without_noise_or_texture() -> None:
    points = scattered(30)
    floor = fit_surface(points, lumpy(points), 0.0, texture_part=0.0)
    found = floor.predict(points)
    assert found.mean == pytest.approx(lumpy(points), abs=1e-6)
    assert found.sd == pytest.approx(np.zeros(30), abs=1e-6)


@pytest.mark.parametrize("count", [4, 9, 30])
def test_a_plane_comes_out_as_that_plane(count: int) -> None:
    points = scattered(count)
    heights = 0.003 + points @ [0.020, -0.011]
    found = fit_surface(points, heights).predict(PLACES)
    assert found.mean == pytest.approx(0.003 + PLACES @ [0.020, -0.011], abs=1e-9)


def test_adding_a_plane_adds_that_plane_and_no_doubt() -> None:
    points = scattered(20)
    one = fit_surface(points, lumpy(points)).predict(PLACES)
    other = fit_surface(points, lumpy(points) + 0.5 + points @ [0.03, 0.01]).predict(PLACES)
    assert other.mean - one.mean == pytest.approx(0.5 + PLACES @ [0.03, 0.01], abs=1e-7)
    assert other.sd == pytest.approx(one.sd, rel=1e-4)


def test_moved_and_turned_floors_are_the_same_floors() -> None:
    points = scattered(20)
    turn = np.array([[np.cos(0.7), np.sin(0.7)], [-np.sin(0.7), np.cos(0.7)]])
    one = fit_surface(points, lumpy(points)).predict(PLACES)
    other = fit_surface(points @ turn + [70, -30], lumpy(points)).predict(PLACES @ turn + [70, -30])
    assert other.mean == pytest.approx(one.mean, abs=1e-7)
    assert other.sd == pytest.approx(one.sd, rel=1e-4)


def test_the_order_of_few_readings_makes_no_difference() -> None:
    points, heights = scattered(20), lumpy(scattered(20))
    shuffled = np.random.default_rng(0).permutation(20)
    one = fit_surface(points, heights).predict(PLACES)
    other = fit_surface(points[shuffled], heights[shuffled]).predict(PLACES)
    assert other.mean == pytest.approx(one.mean, abs=1e-7)
    assert other.sd == pytest.approx(one.sd, rel=1e-4)


def test_raising_the_datum_raises_every_height() -> None:
    points = scattered(12)
    one = fit_surface(points, lumpy(points)).predict(PLACES)
    other = fit_surface(points, lumpy(points) + 100).predict(PLACES)
    assert other.mean - 100 == pytest.approx(one.mean, abs=1e-9)


def test_more_doubt_further_from_readings() -> None:
    points = scattered(20)
    sds = fit_surface(points, lumpy(points)).predict([points[0], [3, 7], [3, 12]]).sd
    assert sds[0] < 1.2 * MM < sds[1] < sds[2]


def test_one_reading_is_a_level_floor_with_much_doubt() -> None:
    found = fit_surface([[2, 2]], [0.012], size_m=7.2).predict([[2, 2], [6, 4]])
    assert found.mean == pytest.approx([0.012, 0.012], abs=1e-9)
    assert 1 * MM < found.sd[0] < 2 * MM
    assert 20 * MM < found.sd[1] < 100 * MM


@pytest.mark.parametrize(
    "points",
    [
        [[1, 1], [5, 3]],
        [[1, 1], [5, 3], [2, 4]],
        [[1, 1], [2, 2], [3, 3]],
        [[0, 2], [1, 2], [2, 2], [3, 2], [4, 2], [5, 2]],
        [[1, 1], [1, 1], [1, 1]],
        [[1, 1], [1, 1], [4, 1], [4, 3], [1, 3], [1, 3]],
    ],
    ids=["two", "three", "three in line", "six in line", "one place", "twice at two places"],
)
@pytest.mark.parametrize("noise", [0.0, NOISE_SD_M])
def test_any_arrangement_gives_finite_heights(points: list[list[int]], noise: float) -> None:
    heights = np.array([2, 5, 3, 4, 1, 6])[: len(points)] * MM
    if len({tuple(point) for point in points}) < len(points):
        noise = max(noise, 0.1 * MM)
    found = fit_surface(points, heights, noise).predict(PLACES)
    assert np.isfinite(found.mean).all()
    assert np.abs(found.mean).max() < 0.1
    assert (found.sd >= 0).all()
    assert found.sd.max() < 0.5


def test_two_readings_at_one_place_count_as_their_mean() -> None:
    points, heights = scattered(15), lumpy(scattered(15))
    twice = fixed([*points, points[0]], [*heights, heights[0] + 4 * MM]).predict(PLACES)
    heights[0] += 2 * MM
    better = np.append(MM / np.sqrt(2), np.full(14, MM))
    once = fixed(points, heights, noise=better).predict(PLACES)
    assert twice.mean == pytest.approx(once.mean, abs=1e-8)
    assert twice.sd == pytest.approx(once.sd, abs=1e-8)


def test_all_heights_equal_is_a_level_floor_with_little_doubt() -> None:
    points = scattered(30)
    floor = fit_surface(points, np.full(30, 0.015))
    assert floor.predict(PLACES).mean == pytest.approx(np.full(5, 0.015), abs=1e-12)
    inside = floor.predict(PLACES[1:3])
    assert inside.sd.max() < 1 * MM
    assert floor.weights @ floor.sills_m < 2 * MM


def test_noise_for_each_reading() -> None:
    points, heights = scattered(20), lumpy(scattered(20))
    noise = np.full(20, NOISE_SD_M)
    noise[4] = 20 * MM
    out = heights.copy()
    out[4] += 30 * MM
    doubted = fit_surface(points, out, noise).predict(points[[4]])
    without = fit_surface(np.delete(points, 4, 0), np.delete(heights, 4)).predict(points[[4]])
    assert doubted.mean == pytest.approx(without.mean, abs=2 * MM)


def test_a_step_that_was_told() -> None:
    points = np.stack(np.meshgrid([0.5, 1.5, 2.5, 3.5, 4.5, 5.5], [0.5, 2, 3.5]), 2).reshape(-1, 2)
    heights = np.where(points[:, 0] > 3, 0.012, 0.0)
    line = [[3.0, 0.0], [3.0, 4.0]]
    told = fit_surface(points, heights, steps_m=[line]).predict([[2.9, 2], [3.1, 2]])
    untold = fit_surface(points, heights).predict([[2.9, 2], [3.1, 2]])
    assert told.mean == pytest.approx([0, 0.012], abs=0.2 * MM)
    assert np.ptp(untold.mean) < 4 * MM
    assert told.sd.max() < untold.sd.max() / 2


def test_rounding_does_not_part_places_on_the_line_of_a_step() -> None:
    # Middles of cells on a step's line lay now on one side of it, now on the other.
    drift = drift_of(scattered(20), np.array([[[3.0, 0.0], [3.0, 4.0]], [[0.0, 1.1], [6.0, 3.3]]]))
    middles = [[3.0, 1.7], [3 + 3e-10, 1.7], [3 - 3e-10, 1.7], [1.5, 1.65], [1.5, 1.65 - 3e-10]]
    assert np.ptp(drift.columns(np.array(middles[:3]))[:, 3]) == 0
    assert np.ptp(drift.columns(np.array(middles[3:]))[:, 4]) == 0
    assert list(drift.columns(np.array([[2.999, 0], [3.001, 0]]))[:, 3]) == [0.5, -0.5]


def test_five_hundred_readings() -> None:
    points = scattered(500)
    floor = fit_surface(points, lumpy(points))
    x, y = PLACES[1:3].T
    true = (4 * np.sin(1.3 * x) * np.cos(y) + 2 * x - y) * MM
    found = floor.predict(PLACES[1:3])
    assert found.mean == pytest.approx(true, abs=1.2 * MM)
    assert found.sd.max() < 0.8 * MM
    later = with_reading(floor, [3, 2], 0.005)
    assert len(later.points_m) == 501


def test_intervals_hold_what_they_say() -> None:
    # A floor of the supposed kind, whose true height at places never read is known.
    inside = []
    for number in range(60):
        chance = np.random.default_rng(900 + number)
        places = chance.uniform(0, 1, (25, 2)) * [6, 4]
        away = np.hypot(*(places[:, None] - places).transpose(2, 0, 1))
        reach = np.exp(chance.normal(np.log(1.5), 0.5))
        covariance = (4 * MM) ** 2 * matern(away, reach) + 1e-12 * np.eye(25)
        true = np.linalg.cholesky(covariance) @ chance.normal(size=25)
        read = true[:20] + chance.normal(0, MM, 20)
        found = fit_surface(places[:20], read).predict(places[20:])
        inside.append((found.quantile(0.05) < true[20:]) & (true[20:] < found.quantile(0.95)))
    assert 0.85 < np.mean(inside) < 0.95


@pytest.mark.parametrize(
    ("points", "heights", "noise", "words"),
    [
        ([], [], MM, "at least one point"),
        ([[0, 0], [1, 1]], [0.0], MM, "2 points"),
        ([[0, 0], [1, np.nan]], [0.0, 0.0], MM, "row 2"),
        ([[0, 0], [1, 1]], [0.0, np.inf], MM, "height in row 2"),
        ([[0, 0], [1, 1]], [0.0, 0.0], -MM, "below zero"),
        ([[0, 0], [1, 1]], [0.0, 0.0], [MM], "noises are needed"),
    ],
)
def test_unusable_numbers_are_named(
    points: list[list[float]], heights: list[float], noise: float | list[float], words: str
) -> None:
    with pytest.raises(SurveyError, match=words):
        fit_surface(points, heights, noise)


def test_a_step_without_a_line_is_refused() -> None:
    with pytest.raises(SurveyError, match="two places"):
        fit_surface([[0, 0], [1, 1]], [0, 0], steps_m=[[[1, 1], [1, 1]]])


def test_the_only_reading_has_nothing_to_be_judged_by() -> None:
    floor = fit_surface([[0, 0]], [0.0])
    with pytest.raises(SurveyError, match="no other point"):
        floor.predict_without(0)
    with pytest.raises(SurveyError, match="no other point"):
        without_points(floor, [0])


def test_of_too_many_readings_a_thousand_are_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("assistant.levels.kriging.MOST_READINGS", 100)
    points, heights = scattered(300), lumpy(scattered(300))
    before = fit_surface(points[:299], heights[:299])
    floor = fit_surface(points, heights, like=before)
    assert len(before.points_m) == len(floor.points_m) == 100
    kept = {tuple(point) for point in before.points_m.tolist()}
    assert len(kept & {tuple(point) for point in floor.points_m.tolist()}) >= 99
    whole = np.unique(floor.points_m, axis=0)
    assert whole.min(axis=0) == pytest.approx([0, 0], abs=0.6)
    assert whole.max(axis=0) == pytest.approx([6, 4], abs=0.6)


@pytest.mark.parametrize("off_mm", [0, 3, 40])
def test_a_point_beside_a_line_is_told_by_no_other(off_mm: int) -> None:
    # Exact arithmetic: points in one line say nothing of the slope across it.
    points = np.array([[x, 1.0] for x in range(1, 12, 2)] + [[1.0, 3.0]])
    heights = np.array([-15, -16, -15, -16, -15, -16, -16 - off_mm]) / 1000
    floor = fit_surface(points, heights, size_m=14)
    with np.errstate(all="raise"):
        alone, among = floor.predict_without(6), floor.predict_without(2)
    assert alone.sd[0] > 1
    assert abs(alone.mean[0] - heights[6]) < alone.sd[0]
    assert among.sd[0] < 0.02


@pytest.mark.parametrize(("apart_m", "size_m"), [(0.2, 1.0), (0.5, 1.0), (2.0, 12**0.5)])
def test_a_floor_is_a_metre_large_at_least(apart_m: float, size_m: float) -> None:
    # Exact arithmetic: two points spread as a side of root 3 times their distance would.
    floor = fit_surface([[0.0, 0.0], [apart_m, 0.0]], [0.0, 0.001])
    assert floor.readings.size_m == pytest.approx(size_m)
