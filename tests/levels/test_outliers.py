"""Readings looked at against their neighbours; minus is below the zero, as said."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.levels.kriged.surface import NOISE_SD_M
from assistant.levels.kriging import fit_surface, without_points
from assistant.levels.outliers import expected_reading, look_at, weigh_alternatives

MM = 0.001
# A floor about 15 mm low, rows to and fro.
POINTS = np.array([[x, y] for y in (0.5, 1.5, 2.5) for x in (0.5, 1.5, 2.5, 3.5)])
READINGS = np.array([-15, -14, -16, -17, -15, -13, -15, -18, -16, -14, -15, -16]) * MM
FLOOR = fit_surface(POINTS, READINGS)
NEW = [2.0, 3.5]


@pytest.mark.parametrize("said", [-12, -14, -15, -16, -18])
def test_an_ordinary_reading_passes(said: int) -> None:
    assert not look_at(FLOOR, NEW, said * MM).suspect


@pytest.mark.parametrize("said", [-50, 15, -1, -150, -30])
def test_an_odd_reading_is_asked_about(said: int) -> None:
    look = look_at(FLOOR, NEW, said * MM)
    assert look.suspect
    assert look.chance < 0.001
    assert look.expected_m == pytest.approx(-15 * MM, abs=2 * MM)
    assert look.low_m < look.expected_m < look.high_m


def test_outside_is_the_tail_of_one_in_a_thousand() -> None:
    look = look_at(FLOOR, NEW, 0.0)
    assert look_at(FLOOR, NEW, look.low_m).chance == pytest.approx(0.001, rel=1e-3)
    assert look_at(FLOOR, NEW, look.high_m).chance == pytest.approx(0.001, rel=1e-3)


def test_a_few_resolutions_are_never_worth_a_question() -> None:
    look = look_at(FLOOR, NEW, 0.0)
    off = look.high_m + 0.5 * MM
    assert look_at(FLOOR, NEW, off).suspect
    assert not look_at(FLOOR, NEW, off, resolution_m=10 * MM).suspect


@pytest.mark.parametrize(("count", "off"), [(1, -110), (2, -75), (3, -55), (5, -35)])
def test_the_first_few_readings_are_asked_about_only_where_no_floor_goes(
    count: int, off: int
) -> None:
    floor = fit_surface(POINTS[:count], READINGS[:count], size_m=5)
    look = look_at(floor, POINTS[count], off * MM)
    assert look.suspect
    assert look.others == count
    fit = [said for said in range(-20, -9) if not look_at(floor, POINTS[count], said * MM).suspect]
    assert fit == list(range(-20, -9))


def test_fewer_readings_leave_more_room() -> None:
    looks = [
        look_at(fit_surface(POINTS[:count], READINGS[:count], size_m=5), NEW, 0.0)
        for count in (1, 3, 5)
    ]
    widths = [look.high_m - look.low_m for look in looks]
    assert widths == sorted(widths, reverse=True)


def test_a_point_read_again_is_judged_by_the_others() -> None:
    wrong = READINGS.copy()
    wrong[5] = -50 * MM
    floor = fit_surface(POINTS, wrong)
    assert look_at(floor, POINTS[5], -0.050).suspect
    assert not look_at(floor, POINTS[5], -0.015).suspect
    assert look_at(floor, POINTS[5], -0.015).others == 11


def test_read_again_here_and_a_hand_away_come_to_the_same() -> None:
    at_it, others = expected_reading(FLOOR, POINTS[5])
    bare = without_points(FLOOR, [5]).predict_reading(POINTS[[5]], NOISE_SD_M)
    assert others == 11
    assert at_it.mean == pytest.approx(bare.mean, abs=1e-9)
    assert at_it.sd == pytest.approx(bare.sd, rel=1e-6)
    twice = fit_surface([*POINTS, POINTS[5]], [*READINGS, -0.050])
    assert expected_reading(twice, POINTS[5])[1] == 11


def test_a_step_that_was_told_does_not_nag() -> None:
    stepped = READINGS + np.where(POINTS[:, 0] > 3, 20 * MM, 0.0)
    line = [[3.0, 0.0], [3.0, 4.0]]
    before = fit_surface(POINTS[:9], stepped[:9], steps_m=[line])
    assert not look_at(before, [3.5, 2.5], 0.004).suspect
    assert look_at(before, [2.5, 2.5], 0.004).suspect


def test_likely_mishearings_tip_the_balance() -> None:
    # Just possible by the neighbours alone, but -15 with a digit dropped is likelier.
    edge = look_at(FLOOR, NEW, 0.0).high_m - 0.2 * MM
    assert not look_at(FLOOR, NEW, edge).suspect
    look = look_at(FLOOR, NEW, edge, mishearings_m=[-15 * MM])
    assert look.suspect
    assert look.misheard is not None
    assert look.misheard.order.tolist() == [1, 0]
    assert not look_at(FLOOR, NEW, -15 * MM, mishearings_m=[15 * MM, -50 * MM]).suspect


def test_what_the_ear_cannot_tell_the_floor_does() -> None:
    found = weigh_alternatives(FLOOR, NEW, [-50 * MM, -15 * MM, 15 * MM], [0.5, 0.4, 0.1])
    assert found.order.tolist() == [1, 0, 2]
    assert found.probabilities.sum() == pytest.approx(1)
    assert found.probabilities[1] > 0.9
    assert found.expected_m == pytest.approx(-15 * MM, abs=2 * MM)


def test_what_was_heard_clearly_stands_however_odd() -> None:
    found = weigh_alternatives(FLOOR, NEW, [-50 * MM, -15 * MM], [0.9999, 0.0001])
    assert found.order[0] == 0
    found = weigh_alternatives(FLOOR, NEW, [-2.0, -15 * MM], [1.0, 0.0])
    assert found.probabilities.tolist() == [1.0, 0.0]


def test_a_lone_alternative_is_certain() -> None:
    assert weigh_alternatives(FLOOR, NEW, [-50 * MM], [0.3]).probabilities.tolist() == [1.0]


def test_equal_alternatives_stay_equal() -> None:
    found = weigh_alternatives(FLOOR, NEW, [-15 * MM, -15 * MM], [1, 1])
    assert found.probabilities == pytest.approx([0.5, 0.5])


@pytest.mark.parametrize(
    ("candidates", "priors"),
    [([], []), ([-0.015], [-1]), ([-0.015, 0.0], [0, 0]), ([-0.015], [0.5, 0.5]), ([np.nan], [1])],
)
def test_alternatives_that_cannot_be_weighed(candidates: list[float], priors: list[float]) -> None:
    with pytest.raises(SurveyError):
        weigh_alternatives(FLOOR, NEW, candidates, priors)


def test_mishearings_are_asked_about_and_true_readings_are_not() -> None:
    # Floors of the supposed kind, read row by row; changes of more than five deviations.
    asked_true, asked_wrong = [], []
    for number in range(12):
        chance = np.random.default_rng(number)
        away = np.hypot(*(POINTS[:, None] - POINTS).transpose(2, 0, 1)) * np.sqrt(3) / 2
        covariance = (4 * MM) ** 2 * (1 + away) * np.exp(-away)
        root = np.linalg.cholesky(covariance + 1e-12 * np.eye(12))
        readings = -20 * MM + root @ chance.normal(size=12) + chance.normal(0, MM, 12)
        floor = None
        for row in range(12):
            if row >= 6 and floor is not None:
                asked_true.append(look_at(floor, POINTS[row], readings[row]).suspect)
                wrong = look_at(floor, POINTS[row], -readings[row])
                if abs(2 * readings[row]) > 5 * wrong.sd_m:
                    asked_wrong.append(wrong.suspect)
            floor = fit_surface(POINTS[: row + 1], readings[: row + 1], size_m=5, like=floor)
    assert np.mean(asked_true) <= 0.02
    assert len(asked_wrong) > 30
    assert np.mean(asked_wrong) > 0.9


@pytest.mark.parametrize("noise_m", [MM, 5 * MM])
def test_a_point_read_again_is_expected_by_the_others_alone_and_with_its_own_noise(
    noise_m: float,
) -> None:
    """The short way, which changes no matrix, is taken only where it comes to the same."""
    from assistant.levels.kriging import without_points
    from assistant.levels.outliers import expected_reading

    for row in (0, 5, 11):
        found, others = expected_reading(FLOOR, POINTS[row], noise_m)
        without = without_points(FLOOR, np.array([row]))
        right = without.predict_reading(POINTS[row : row + 1], noise_m)
        assert others == 11
        assert found.mean == pytest.approx(right.mean, abs=1e-9)
        assert found.sd == pytest.approx(right.sd, rel=1e-6)
