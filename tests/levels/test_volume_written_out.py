"""Volume, its interval and high spots: against the formulas written out whole, cell by cell."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.stats import cauchy, norm

from assistant.levels.arrays import FloatArray
from assistant.levels.kriged.cells import about_so_many, cells_for
from assistant.levels.kriged.high_spots import hidden_high_spots
from assistant.levels.kriged.mixture import Mixture
from assistant.levels.kriged.surface import NOISE_SD_M, ROUNDING_SD_M, KrigedSurface
from assistant.levels.kriged.volume import Volume, volume_with_interval
from assistant.levels.kriging import fit_surface
from assistant.levels.outliers import expected_reading, look_at, weigh_alternatives
from assistant.levels.outline import rectangle
from tests.there import there

MM = 0.001
ROOM = rectangle(6, 4)
POINTS = np.array([[x, y] for y in (0.5, 1.5, 2.5) for x in (0.5, 1.5, 2.5, 3.5)])
READINGS = np.array([-15, -14, -16, -17, -15, -13, -15, -18, -16, -14, -15, -16]) * MM
FLOOR = fit_surface(POINTS, READINGS)
NEW = [2.0, 3.5]


# --- the volume -----------------------------------------------------------------------------------


def volume_as_documented(
    floor: KrigedSurface, finish: float, common: float = 0.0
) -> tuple[float, float, FloatArray]:
    """Mean and sd, all cells with all others; and means, sds, weights of the surfaces."""
    cells = cells_for(ROOM, len(floor.points_m))
    areas = cells.areas_m2
    means, variances = [], []
    for one in floor.solved:
        alike = one.alike(cells.centres_m)
        there_ = (floor.readings.columns_at(cells.centroids_m), alike)
        c = one.covariance(there_, there_, one.alike_between(cells.centres_m))
        m = finish - one.means(*there_)
        s = np.sqrt(np.diag(c))
        filled, bell = norm.cdf(m / s), norm.pdf(m / s)
        means.append(areas @ (m * filled + s * bell))
        first = np.outer(filled, filled) * c
        second = np.outer(bell, bell) * c**2 / (2 * np.outer(s, s))
        variances.append(areas @ (first + second) @ areas + ((areas @ filled) * common) ** 2)
    weights, mean = floor.weights, floor.weights @ means
    sd = np.sqrt(weights @ (np.array(variances) + (np.array(means) - mean) ** 2))
    return float(mean), float(sd), np.array([means, np.sqrt(variances), weights])


@pytest.mark.parametrize(
    ("finish", "common"), [(0.050, MM), (-0.012, 0.0), (-0.0145, MM), (-0.020, 0.0)]
)
def test_a_volume_is_that_of_clipped_normals(finish: float, common: float) -> None:
    found = volume_with_interval(FLOOR, ROOM, finish, common_sd_m=common)
    mean, sd, (means, sds, weights) = volume_as_documented(FLOOR, finish, common)
    # Surfaces of less than a fiftieth of the best one's weight are left out, and the reply says so.
    assert found.mean_m3 == pytest.approx(mean, rel=5e-3)
    assert found.sd_m3 == pytest.approx(sd, rel=2e-2)
    assert found.area_m2 == pytest.approx(24)

    def below(volume: float) -> float:
        return float(weights @ norm.cdf((volume - means) / sds))

    if found.low_m3:  # no volume is less than nothing
        assert below(found.low_m3) == pytest.approx(0.025, abs=0.003)
    else:
        assert below(0.0) > 0.025
    assert below(found.high_m3) == pytest.approx(0.975, abs=0.003)
    assert found.chance_enough(mean) == pytest.approx(below(mean), abs=0.01)


def test_chances_of_a_volume_end_at_nothing() -> None:
    found = volume_with_interval(FLOOR, ROOM, -0.020)
    assert found.chance_enough(-1e-9) == 0
    assert found.chance_enough(0.0) >= 0
    assert isinstance(found, Volume)
    assert found.quantile(1e-6) == pytest.approx(0, abs=0.05 * found.sd_m3 + 1e-6)


# --- cells ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("points", "about"),
    [(1, 400), (100, 400), (101, 800), (200, 800), (201, 1500), (1000, 1500)],
)
def test_cells_are_four_a_point_in_steps_and_never_too_many(points: int, about: int) -> None:
    # Of 6 by 4 m; nearly square, so that rows and columns are rounded up.
    cells = cells_for(ROOM, points)
    assert about <= len(cells.areas_m2) <= 1.12 * about
    assert cells.areas_m2 == pytest.approx(np.full(len(cells.areas_m2), np.prod(cells.spacing_m)))
    assert max(cells.spacing_m) < 1.1 * min(cells.spacing_m)


def test_cells_lie_in_even_rows_along_the_first_wall() -> None:
    cells = about_so_many(ROOM, 24)
    assert sorted(map(tuple, cells.centres_m.round(6).tolist())) == [
        (x + 0.5, y + 0.5) for x in range(6) for y in range(4)
    ]
    assert cells.centroids_m == pytest.approx(cells.centres_m)
    assert cells.spacing_m == pytest.approx((1, 1))
    for centre, row, column in zip(cells.centres_m, cells.row, cells.column, strict=True):
        assert centre == pytest.approx([column + 0.5, row + 0.5])


# --- mixtures -------------------------------------------------------------------------------------

MIXED = Mixture(
    np.array([0.5, 0.3, 0.2]),
    np.array([[0.0, 1.0], [2.0, -1.0], [-3.0, 4.0]]),
    np.array([[1.0, 0.5], [0.3, 2.0], [2.0, 1.0]]),
)


def test_a_mixture_is_the_weighted_sum_of_its_parts() -> None:
    for column in range(2):
        weights, means, sds = MIXED.weights, MIXED.means[:, column], MIXED.sds[:, column]
        mean = weights @ means
        assert MIXED.mean[column] == pytest.approx(mean)
        assert MIXED.sd[column] == pytest.approx(np.sqrt(weights @ (sds**2 + means**2) - mean**2))
        for value in (-4.0, 0.0, 0.7, 5.0):
            at = np.full(2, value)
            assert MIXED.chance_below(at)[column] == pytest.approx(
                weights @ norm.cdf(value, means, sds), rel=1e-12
            )
            assert MIXED.density(at)[column] == pytest.approx(
                weights @ norm.pdf(value, means, sds), rel=1e-12
            )
        for chance in (0.001, 0.025, 0.5, 0.975):
            exact = brentq(
                lambda v, w=weights, m=means, s=sds, p=chance: w @ norm.cdf(v, m, s) - p, -20, 20
            )
            assert MIXED.quantile(chance)[column] == pytest.approx(exact, abs=1e-10)
    noisy = MIXED.with_noise(0.7)
    assert noisy.sds == pytest.approx(np.sqrt(MIXED.sds**2 + 0.49))
    assert noisy.means is MIXED.means


def test_what_is_certain_lies_below_above_or_half_at_itself() -> None:
    sure = Mixture(np.array([1.0]), np.array([[2.0]]), np.array([[0.0]]))
    chances = [float(sure.chance_below(np.array([value]))[0]) for value in (1.999, 2.0, 2.001)]
    assert chances == [0.0, 0.5, 1.0]


# --- readings against their neighbours ------------------------------------------------------------


def test_a_reading_errs_by_its_instrument_and_its_rounding() -> None:
    # Exact arithmetic: a uniform error of one millimetre, and a standard deviation of another.
    assert pytest.approx(1e-3 / 12**0.5) == ROUNDING_SD_M
    assert pytest.approx((1e-6 + 1e-6 / 12) ** 0.5) == NOISE_SD_M


def parts_at(place: list[float]) -> tuple[FloatArray, FloatArray, FloatArray]:
    expected, _ = expected_reading(FLOOR, place)
    return expected.weights, expected.means[:, 0], expected.sds[:, 0]


@pytest.mark.parametrize("said_mm", [[-50, -15], [-18, -80], [15, -15, -5], [-15.2]])
def test_alternatives_are_weighed_by_bayes_rule(said_mm: list[float]) -> None:
    # Of a hundred readings two say what no neighbour knew, half of those within 15 mm.
    weights, means, sds = parts_at(NEW)
    said = np.array(said_mm) * MM
    ear = np.arange(1.0, len(said) + 1)
    usual = np.array([weights @ norm.pdf(one, means, sds) for one in said])
    surprise = cauchy.pdf(said, weights @ means, 0.015)
    posterior = ear * (0.98 * usual + 0.02 * surprise)
    found = weigh_alternatives(FLOOR, NEW, said, ear)
    assert found.probabilities == pytest.approx(posterior / posterior.sum(), rel=1e-9)
    assert found.order.tolist() == np.argsort(-posterior).tolist()
    assert found.expected_m == pytest.approx(weights @ means)


def test_a_look_is_that_of_the_mixture_s_tails() -> None:
    weights, means, sds = parts_at(NEW)

    def below(value: float) -> float:
        return float(weights @ norm.cdf(value, means, sds))

    for reading in (-0.030, -0.016, -0.014, 0.002):
        look = look_at(FLOOR, NEW, reading)
        assert below(look.low_m) == pytest.approx(0.0005, rel=1e-6)
        assert below(look.high_m) == pytest.approx(0.9995, rel=1e-6)
        tail = min(below(reading), 1 - below(reading))
        assert look.chance == pytest.approx(2 * tail, rel=1e-6)
        assert look.others == 12
        assert look.misheard is None


@pytest.mark.parametrize("count", [1, 3])
def test_one_reading_in_five_is_taken_to_be_misheard_where_it_may_be(count: int) -> None:
    instead = [-15 * MM, -14 * MM, -80 * MM][:count]
    said = -22 * MM
    look = look_at(FLOOR, NEW, said, mishearings_m=instead)
    priors = np.array([0.8, *np.full(count, 0.2 / count)])
    expected = weigh_alternatives(FLOOR, NEW, [said, *instead], priors)
    assert there(look.misheard).probabilities == pytest.approx(expected.probabilities, rel=1e-9)


@pytest.mark.parametrize("side", [-1, 1])
def test_three_steps_of_the_display_are_never_asked_about(side: int) -> None:
    weights, means, _ = parts_at(NEW)
    mean = float(weights @ means)
    for steps, suspect in ((2.999, False), (3.001, True)):
        reading = mean + side * steps * 10 * MM
        assert look_at(FLOOR, NEW, reading, resolution_m=10 * MM).suspect is suspect


def test_one_other_is_enough_to_ask() -> None:
    floor = fit_surface(POINTS[:1], READINGS[:1], size_m=5)
    assert look_at(floor, [2.0, 1.0], 0.200).suspect


@pytest.mark.parametrize(("away_mm", "others"), [(0, 11), (19.9, 11), (20.1, 12)])
def test_readings_within_two_centimetres_are_at_the_place_itself(
    away_mm: float, others: int
) -> None:
    place = POINTS[5] + [0.6 * away_mm * MM, -0.8 * away_mm * MM]
    assert expected_reading(FLOOR, place)[1] == others


# --- high spots -----------------------------------------------------------------------------------


@pytest.mark.parametrize("tolerance_m", [None, 0.0, 2 * MM])
def test_a_place_is_short_as_the_mixture_has_it(tolerance_m: float | None) -> None:
    finish, least = -0.010, 0.003
    named = {} if tolerance_m is None else {"tolerance_m": tolerance_m}
    spots = hidden_high_spots(FLOOR, ROOM, finish, least, **named)
    heights = FLOOR.predict(spots.places_m)
    # A depth short by less than a millimetre counts as deep enough, unless said otherwise.
    too_high = finish - least + (MM if tolerance_m is None else tolerance_m)
    chances = heights.weights @ norm.sf(too_high, heights.means, heights.sds)
    assert spots.chances == pytest.approx(chances, abs=1e-12)
    worst = int(chances.argmax())
    assert spots.worst_m == pytest.approx(spots.places_m[worst])
    assert spots.worst_chance == pytest.approx(chances[worst])
    assert spots.worst_depth_m == pytest.approx(finish - heights.mean[worst])
    assert spots.worst_sd_m == pytest.approx(heights.sd[worst])
    assert max(chances) <= spots.chance <= min(1.0, chances.sum())


def test_places_beside_a_reading_that_is_short_itself_are_known() -> None:
    # Exactly the least depth is not short; a hundredth of a millimetre less is.
    for short_m, known in ((0.0, False), (0.01 * MM, True)):
        heights = np.full(12, -0.010)
        heights[5] = -0.003 + short_m
        floor = fit_surface(POINTS, heights)
        places = hidden_high_spots(floor, ROOM, 0.0, 0.003).places_m
        away = np.hypot(*(places[:, None] - POINTS).transpose(2, 0, 1))
        assert (5 not in away.argmin(axis=1)) is known
