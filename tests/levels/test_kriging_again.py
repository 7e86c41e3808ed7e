"""A surface fitted again after readings were added, struck or put right, as if fitted anew."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.levels.kriged.reuse import inverses_from
from assistant.levels.kriging import fit_surface, of_part, with_reading, without_points
from tests.levels.lumpy_floors import MM, PLACES, lumpy, scattered


@pytest.mark.parametrize("count", [2, 3, 5, 12, 40])
def test_leaving_a_reading_out_as_if_it_had_never_been(count: int) -> None:
    points = scattered(count)
    floor = fit_surface(points, lumpy(points))
    for row in (0, count - 1):
        bare = without_points(floor, [row])
        expected = bare.predict_reading(points[[row]])
        found = floor.predict_without(row)
        if count > 5:  # With fewer, a slope that all readings determine is no longer determined.
            assert found.mean == pytest.approx(expected.mean, abs=1e-9)
            assert found.sd == pytest.approx(expected.sd, rel=1e-6)
            assert found.weights == pytest.approx(expected.weights, abs=1e-6)
        assert np.isfinite(found.mean).all()
        assert (found.sd > MM).all()


def test_one_reading_more_as_if_fitted_anew() -> None:
    points, heights = scattered(60), lumpy(scattered(60))
    before = fit_surface(points[:59], heights[:59])
    added = fit_surface(points, heights, like=before)
    anew = fit_surface(points, heights)
    assert added.pairs is before.pairs
    assert added.predict(PLACES).mean == pytest.approx(anew.predict(PLACES).mean, abs=1e-9)
    assert added.predict(PLACES).sd == pytest.approx(anew.predict(PLACES).sd, rel=1e-7)
    by_hand = with_reading(before, points[59], heights[59])
    assert by_hand.predict(PLACES).mean == pytest.approx(anew.predict(PLACES).mean, abs=1e-9)


def test_a_whole_survey_reading_by_reading_as_if_fitted_once() -> None:
    points, heights = scattered(50), lumpy(scattered(50))
    floor = fit_surface(points[:1], heights[:1], size_m=7.2)
    for count in range(2, 51):
        floor = fit_surface(points[:count], heights[:count], like=floor, size_m=7.2)
    anew = fit_surface(points, heights, size_m=7.2)
    assert floor.predict(PLACES).mean == pytest.approx(anew.predict(PLACES).mean, abs=1e-9)
    assert floor.weights == pytest.approx(anew.weights, abs=1e-7)


@pytest.mark.parametrize("count", [1, 2, 12, 13])
def test_all_readings_put_right_as_if_fitted_anew(count: int) -> None:
    # With 12 gone and fresh in all they are worked in one by one, with more all at once.
    points, heights = scattered(count), lumpy(scattered(count))
    moved = points + 0.3
    floor = fit_surface(points, heights, size_m=7.2)
    again = of_part(floor, moved, heights, np.full(count, MM))
    worked_in = inverses_from(floor.inverses, floor.readings, again.readings, floor.pairs)
    for one, other in zip(worked_in, again.inverses, strict=True):
        assert one.matrix == pytest.approx(other.matrix, rel=1e-6, abs=1e-6 * other.matrix.max())
        assert one.log_det == pytest.approx(other.log_det, abs=1e-8)


@pytest.mark.parametrize("gone", [[3], [0, 30, 57], [58, 59]])
def test_readings_struck_out_as_if_fitted_anew(gone: list[int]) -> None:
    points, heights = scattered(60), lumpy(scattered(60))
    kept = np.delete(np.arange(60), gone)
    anew = fit_surface(points[kept], heights[kept], size_m=7.2)
    struck = fit_surface(
        points[kept], heights[kept], size_m=7.2, like=fit_surface(points, heights, size_m=7.2)
    )
    assert struck.predict(PLACES).mean == pytest.approx(anew.predict(PLACES).mean, abs=1e-9)
    assert struck.predict(PLACES).sd == pytest.approx(anew.predict(PLACES).sd, rel=1e-7)


def test_a_reading_put_right_is_not_remembered() -> None:
    points, heights = scattered(40), lumpy(scattered(40))
    wrong = heights.copy()
    wrong[39] += 0.035
    anew = fit_surface(points, heights)
    righted = fit_surface(points, heights, like=fit_surface(points, wrong))
    assert righted.predict(PLACES).mean == pytest.approx(anew.predict(PLACES).mean, abs=1e-9)
