"""Where one more reading tells most, and when no more are worth it."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.levels.kriged.covariance import drift_of
from assistant.levels.kriged.likelihood import LikelihoodData, Pairs
from assistant.levels.kriged.reuse import inverses_anew
from assistant.levels.kriged.surface import KrigedSurface
from assistant.levels.kriged.volume import volume_with_interval
from assistant.levels.kriging import fit_surface, with_reading
from assistant.levels.next_reading import NextReadings, where_next
from assistant.levels.outline import contains, rectangle

MM = 0.001
ROOM = rectangle(6, 4)
POINTS = np.array([[1, 1], [2, 3], [3, 1], [2, 2], [1, 3], [3, 3]], dtype=float)
CANDIDATES = np.array([[1.5, 2], [5, 1], [5, 3], [3.5, 2], [5.5, 2]])
HEIGHTS = np.array([2, 0, 4, 3, 1, 2]) * MM


def fixed(
    reach: float = 1.7, sill: float = 4 * MM, noise: float = MM, texture: float = 0.0
) -> KrigedSurface:
    drift = drift_of(POINTS, np.zeros((0, 2, 2)))
    readings = LikelihoodData(POINTS, HEIGHTS, np.full(6, noise), drift, 7.2, texture)
    pairs = Pairs(np.array([reach]), np.array([sill]), np.zeros(1))
    return KrigedSurface(readings, pairs, readings, inverses_anew(readings, pairs))


@pytest.mark.parametrize("texture", [0.0, 0.5])
def test_what_a_reading_brings_is_what_it_brings(texture: float) -> None:
    # With one range and sill the variance after a reading does not depend on what it says.
    floor = fixed(texture=texture)
    for row, place in enumerate(CANDIDATES):
        said = where_next(floor, ROOM, 0.100, CANDIDATES[[row]], noise_sd_m=MM)
        after = volume_with_interval(with_reading(floor, place, 0.003, MM), ROOM, 0.100)
        assert said.sds_m3[0] == pytest.approx(after.sd_m3, rel=1e-6)
    assert said.sd_before_m3 == pytest.approx(volume_with_interval(floor, ROOM, 0.100).sd_m3)


def test_the_best_is_chosen_and_then_the_best_after_it() -> None:
    floor = fixed()
    found = where_next(floor, ROOM, 0.100, CANDIDATES, count=2, noise_sd_m=MM)

    def best(floor: KrigedSurface, places: FloatArray) -> tuple[int, float]:
        sds = [
            volume_with_interval(with_reading(floor, place, 0.0, MM), ROOM, 0.100).sd_m3
            for place in places
        ]
        return int(np.argmin(sds)), min(sds)

    first, sd = best(floor, CANDIDATES)
    second, later = best(with_reading(floor, CANDIDATES[first], 0.0, MM), CANDIDATES)
    assert found.rows.tolist() == [first, second]
    assert found.sds_m3 == pytest.approx([sd, later], rel=1e-6)
    assert found.shrinks == pytest.approx(1 - found.sds_m3 / found.sd_before_m3)


def test_with_several_surfaces_it_begins_from_the_volume_s_own_certainty() -> None:
    """Their weights, variances and means make one mixture, for the volume as for what is next."""
    floor = fit_surface(POINTS, HEIGHTS, size_m=7.2)
    assert len(floor.weights) > 1
    found = where_next(floor, ROOM, 0.100, CANDIDATES, noise_sd_m=MM)
    volume = volume_with_interval(floor, ROOM, 0.100)
    assert found.sd_before_m3 == pytest.approx(volume.sd_m3, rel=1e-3)


def test_the_unread_end_comes_first() -> None:
    found = where_next(fit_surface(POINTS, HEIGHTS, size_m=7.2), ROOM, 0.020)
    assert found.places_m[0, 0] > 4
    assert found.pays


def test_places_come_from_the_floor_when_none_are_given() -> None:
    corner_cut = np.array([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]])
    found = where_next(fit_surface(POINTS, HEIGHTS), corner_cut, 0.020, count=6)
    assert contains(corner_cut, found.places_m).all()
    assert len(set(found.rows.tolist())) == 6
    assert (np.diff(found.sds_m3) < 0).all()


def test_doors_can_be_preferred() -> None:
    floor = fixed()
    plain = where_next(floor, ROOM, 0.100, CANDIDATES)
    other = (int(plain.rows[0]) + 1) % len(CANDIDATES)
    preference = np.ones(len(CANDIDATES))
    preference[other] = 1000
    preferred = where_next(floor, ROOM, 0.100, CANDIDATES, preference=preference)
    assert preferred.rows[0] == other
    assert preferred.shrinks[0] < plain.shrinks[0]


def test_enough_is_enough() -> None:
    x, y = np.meshgrid(np.arange(0.25, 6, 0.5), np.arange(0.25, 4, 0.5))
    points = np.column_stack([x.ravel(), y.ravel()])
    heights = (3 * np.sin(points[:, 0])).round() * MM
    found = where_next(fit_surface(points, heights), ROOM, 0.020, count=3)
    assert not found.pays
    assert (found.shrinks > 0).all()


def test_no_more_than_there_are() -> None:
    found = where_next(fixed(), ROOM, 0.100, CANDIDATES[:2], count=5)
    assert sorted(found.rows.tolist()) == [0, 1]
    assert where_next(fixed(), ROOM, 0.100, np.zeros((0, 2))).rows.size == 0
    assert not where_next(fixed(), ROOM, 0.100, np.zeros((0, 2))).pays


def test_a_finish_far_below_leaves_nothing_to_learn() -> None:
    found = where_next(fixed(), ROOM, -1.0, CANDIDATES)
    assert found.sd_before_m3 == pytest.approx(0, abs=1e-9)
    assert not found.pays


def test_none_is_no_number_of_readings() -> None:
    with pytest.raises(SurveyError, match="At least one"):
        where_next(fixed(), ROOM, 0.1, count=0)


@pytest.mark.parametrize(
    ("after", "pays"), [(0.901, False), (0.899, True), (0.5, True), (1.0, False)]
)
def test_a_walk_pays_that_narrows_the_interval_by_a_tenth(after: float, pays: bool) -> None:
    some = NextReadings(np.arange(2), np.zeros((2, 2)), 2.0, np.array([1.9, 2 * after]))
    assert some.pays is pays
    assert some.shrinks == pytest.approx([0.05, 1 - after])
    none = NextReadings(np.arange(1), np.zeros((1, 2)), 0.0, np.zeros(1))
    assert not none.pays
    assert none.shrinks.tolist() == [0]


def test_on_a_floor_a_thousand_times_as_even_the_same_reading_is_best() -> None:
    """What is known of a place is little or much beside what was unknown of it at first."""
    plain = where_next(fixed(), ROOM, 0.100, CANDIDATES, count=3, noise_sd_m=MM)
    even = where_next(
        fixed(sill=4e-3 * MM, noise=1e-3 * MM), ROOM, 0.1, CANDIDATES, count=3, noise_sd_m=1e-3 * MM
    )
    assert even.rows.tolist() == plain.rows.tolist()
    assert even.shrinks == pytest.approx(plain.shrinks, rel=1e-3)
