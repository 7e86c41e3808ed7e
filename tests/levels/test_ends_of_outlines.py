"""What is no room any more, and what lies on a wall: both sides of a billionth of a metre.

No tape shows it: what is nearer than that is rounding. Exact arithmetic.
"""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.levels.outline import check_outline, contains, in_frame, rectangle

NANO = 1e-9
LENGTHS = [0.1, 1.0, 30.0]


@pytest.mark.parametrize("length", LENGTHS)
@pytest.mark.parametrize(("sine", "turns"), [(0.5 * NANO, False), (2 * NANO, True), (0.1, True)])
@pytest.mark.parametrize("side", [-1, 1])
def test_a_wall_turns_off_by_more_than_rounding(
    length: float, sine: float, turns: bool, side: int
) -> None:
    vertices = rectangle(3, 2)
    first, second = [2.0, 0.0], [length, side * sine * length]
    if turns:
        assert in_frame(vertices, first, second)[1] == pytest.approx([3, 0])
        assert in_frame(vertices, first, second)[2] == pytest.approx([3, side * 2])
    else:
        with pytest.raises(SurveyError, match="in line with the first"):
            in_frame(vertices, first, second)


@pytest.mark.parametrize(("side_m", "room"), [(0.5 * NANO, False), (0.1, True)])
def test_a_wall_has_a_length(side_m: float, room: bool) -> None:
    outline = [[0, 0], [2, 0], [2, 2], [side_m, 2], [0, 2]]
    if room:
        check_outline(np.array(outline))
    else:
        with pytest.raises(SurveyError):
            check_outline(np.array(outline))


@pytest.mark.parametrize("length", [1.0, 30.0])
@pytest.mark.parametrize(("width_m", "room"), [(1.2 * NANO, False), (4 * NANO, True)])
def test_a_room_has_an_area(length: float, width_m: float, room: bool) -> None:
    # A billionth of a metre along all of its walls is none.
    outline = np.array([[0, 0], [length, 0], [length, width_m], [0, width_m]])
    if room:
        check_outline(outline)
    else:
        with pytest.raises(SurveyError):
            check_outline(outline)


@pytest.mark.parametrize("length", LENGTHS)
@pytest.mark.parametrize("angle", [0.0, 0.7])
@pytest.mark.parametrize(("out_m", "inside"), [(0, True), (0.5 * NANO, True), (3 * NANO, False)])
def test_on_a_wall_is_on_the_floor(length: float, angle: float, out_m: float, inside: bool) -> None:
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    places = np.array([[length / 3, -out_m], [length + out_m, 0.3], [-out_m, 0.4]])
    found = contains(rectangle(length, 1) @ turn, places @ turn)
    assert found.tolist() == [inside] * 3


@pytest.mark.parametrize(("away_m", "inside"), [(0.5 * NANO, True), (3 * NANO, False)])
def test_on_a_corner_is_on_the_floor(away_m: float, inside: bool) -> None:
    places = np.array([[2 + away_m, 1 + 0.1 * away_m], [-away_m, -0.1 * away_m]])
    assert contains(rectangle(2, 1), places).tolist() == [inside] * 2


@pytest.mark.parametrize("length", LENGTHS)
@pytest.mark.parametrize("back", [0.5, 1.5])
def test_a_wall_that_runs_back_over_the_one_before_is_no_wall(length: float, back: float) -> None:
    spike = np.array([[0, 0], [1, 0], [1 - back, 0], [1 - back, 1], [-1, 1], [-1, 0]]) * length
    with pytest.raises(SurveyError, match="crosses itself"):
        check_outline(spike)
    check_outline(np.array([[0, 0], [1, 0], [1, 0.5], [0.5, 1], [-1, 1]]) * length)
