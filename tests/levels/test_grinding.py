"""High points ground off one after the other: what each saves, and what is ground.

Floors here are made up, the expected answers exact arithmetic or found by another way; nothing
is taken from a publication.
"""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.levels.best_finish import best_level, door_constraint
from assistant.levels.grinding import grinding_options
from assistant.levels.outline import rectangle
from assistant.levels.surface import mesh_over
from tests.levels.wished import met

MM = 0.001


def test_grinding_the_high_points_one_after_the_other() -> None:
    heights = np.array([0, 4, 9, -3]) * MM
    options = grinding_options(heights, [2, 2, 1, 3], 3 * MM)
    told = [
        (round(one.finish_m / MM, 6), [(g.point, round(g.height_m / MM, 6)) for g in one.grinds])
        for one in options
    ]
    # The last stops at 10 mm of grinding, not at the lowest point.
    assert told == [
        (12, []),
        (7, [(2, 5)]),
        (3, [(2, 9), (1, 4)]),
        (2, [(2, 10), (1, 5), (0, 1)]),
    ]
    # Exact arithmetic: 12 mm less the floor on 8 m2; after the first, 7 less (0, 4, 4, -3).
    assert options[0].volume_m3 == pytest.approx((12 * 8 - (0 + 8 + 9 - 9)) * MM)
    assert options[1].volume_m3 == pytest.approx((7 * 8 - (0 + 8 + 4 - 9)) * MM)
    assert options[1].saved_m3 == pytest.approx(options[0].volume_m3 - options[1].volume_m3)
    assert options[1].ground_m2 == pytest.approx(1)
    assert options[2].deepest_m / MM == pytest.approx(9)


def test_grinding_is_what_the_survey_says_after_it() -> None:
    rng = np.random.default_rng(13)
    heights, weights = np.round(rng.normal(0, 4, 20)) * MM, rng.uniform(1, 2, 20)
    options = grinding_options(heights, weights, 3 * MM, most_grind_m=0.008)
    for one in options:
        ground = heights.copy()
        for grind in one.grinds:
            ground[grind.point] -= grind.height_m
        again = met(best_level(ground, weights, 3 * MM))
        assert again.height_m == pytest.approx(one.finish_m, abs=1e-12)
        assert again.volume_m3 == pytest.approx(one.volume_m3, abs=1e-12)
        assert one.deepest_m <= 0.008 + 1e-12
    saved = [one.saved_m3 for one in options]
    assert saved == sorted(saved)
    assert len(saved) > 3


def test_a_door_ends_what_grinding_can_save() -> None:
    options = grinding_options(
        np.array([0, 4, 9, -3]) * MM, [1] * 4, 3 * MM, [door_constraint(15 * MM, 5 * MM)]
    )
    assert [round(one.finish_m / MM, 6) for one in options] == [12, 10]
    high_door = grinding_options([0, 0.004], [1, 1], 3 * MM, [door_constraint(30 * MM, 5 * MM)])
    assert [(one.grinds, round(one.finish_m / MM, 6)) for one in high_door] == [((), 25)]


def test_area_to_grind_from_the_floor_between_the_points() -> None:
    # A pyramid of 6 mm in the middle of 4 m by 4 m: ground off by 3 mm, half as wide.
    places = [[0, 0], [4, 0], [4, 4], [0, 4], [2, 2]]
    mesh = mesh_over(places, rectangle(4, 4))
    heights = np.array([0, 0, 0, 0, 6]) * MM
    options = grinding_options(heights, mesh.area_weights, 3 * MM, mesh=mesh, most_grind_m=3 * MM)
    assert options[-1].ground_m2 == pytest.approx(4)
    assert options[-1].ground_m3 == pytest.approx(4 * 3 * MM / 3)
    assert options[0].ground_m2 == 0


def test_level_floor_has_nothing_to_grind() -> None:
    (only,) = grinding_options([0.0, 0.0], [1, 1], 3 * MM)
    assert only.grinds == ()
    assert only.saved_m3 == 0
    assert only.deepest_m == 0


def test_no_more_options_than_asked() -> None:
    heights = np.arange(12) * 0.5 * MM
    assert len(grinding_options(heights, np.ones(12), 3 * MM, most_options=4)) == 5
    with pytest.raises(SurveyError, match="no point to grind"):
        grinding_options([], [], 3 * MM)


def test_eight_options_are_told_beside_no_grinding_unless_asked_for_fewer() -> None:
    steps = np.arange(12) * MM / 2
    assert len(grinding_options(steps, [1] * 12, 3 * MM)) == 9
    assert len(grinding_options(steps, [1] * 12, 3 * MM, most_options=3)) == 4


@pytest.mark.parametrize(("most", "taken"), [(0, [0]), (1, [0, 10]), (2, [0, 10])])
def test_what_a_grinder_takes_at_the_most_is_an_option_as_long_as_there_is_room_for_one(
    most: int, taken: list[int]
) -> None:
    """One point stands 20 mm higher: no other stands too high before 10 mm are off."""
    options = grinding_options([0, 20 * MM], [1, 1], 3 * MM, most_options=most)
    assert [one.deepest_m / MM for one in options] == pytest.approx(taken)
