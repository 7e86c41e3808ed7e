"""F-numbers by the E1155 formula. Sources stand beside the values."""

from __future__ import annotations

import math

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.flatness.f_numbers import (
    Constants,
    Spread,
    f_number,
    line_f,
    noise_of,
    own_interval,
    pooled_spread,
    spacing_counts,
)
from assistant.flatness.line_rules import least_z_readings, shortfalls

INCHES = Constants(4.57, 12.5)
"""From memory; the licensed text governs."""
MILLIMETRES = Constants(116.078, 317.5)
"""The same, converted."""

# A US national laboratory's E1155M record of a concrete test pad, 5 May 2003: heights in mm,
# every 300 mm, and the q's that it prints (read in copies of the record).
RECORD = (
    "418.617 419.938 421.894 423.748 425.221 424.739 423.799 424.307 425.425 424.688 423.164 "
    "422.758 420.472 416.738",
    "418.592 421.081 422.072 421.513 420.040 421.132 420.675 421.640 421.894 421.538 421.183 "
    "421.894 419.684 420.040 417.982",
    "418.338 419.659 419.227 419.227 418.668 418.186 418.973 419.379 420.141 419.532 418.643 "
    "418.719 416.763 414.782",
)
PRINTED_Q = (
    "0.635 -0.102 -0.381 -1.956 -0.457 1.448 0.610 -1.854 -0.787 1.118 -1.880 -1.448",
    "-1.499 -1.549 -0.914 2.565 -1.549 1.422 -0.711 -0.610 0.000 1.067 -2.921 2.565 -2.413",
    "-1.753 0.432 -0.559 0.076 1.270 -0.381 0.356 -1.372 -0.279 0.965 -2.032 -0.025",
)


def _numbers(text: str) -> list[float]:
    return [float(each) for each in text.split()]


def test_the_laboratory_record_gives_the_printed_curvatures() -> None:
    for heights, printed in zip(RECORD, PRINTED_Q, strict=True):
        q = line_f(_numbers(heights), MILLIMETRES).q.values_mm
        assert q == pytest.approx(_numbers(printed), abs=0.0011)


def test_its_f_numbers_with_constants_from_memory() -> None:
    """Exact arithmetic on the record, not the record's own answer, which no copy has."""
    lines = [line_f(_numbers(heights), MILLIMETRES) for heights in RECORD]
    assert [line.ff for line in lines] == pytest.approx([28.841, 20.444, 34.630], abs=6e-4)
    assert [line.fl for line in lines] == pytest.approx([20.210, 45.980, 39.545], abs=6e-4)
    assert [line.z.values_mm.size for line in lines] == [4, 5, 4]
    # With the deviation over n instead of n - 1 line 0 would have 29.983.
    assert lines[0].q.sd_mm == pytest.approx(1.2012, abs=6e-5)


def test_a_line_worked_by_hand_in_inches() -> None:
    """Exact arithmetic."""
    heights = "0 .05 .08 .10 .06 .02 0 -.03 -.02 .01 .05 .09 .12 .10 .07 .06"
    line = line_f(_numbers(heights), INCHES)
    assert line.ff == pytest.approx(53.409, abs=6e-4)
    assert line.fl == pytest.approx(138.889, abs=6e-4)


def test_planes_and_parabolas() -> None:
    """Exact arithmetic, inches: a tilt of 0.01 a foot, and h = 0.001 i²."""
    level, tilt = line_f([3.0] * 12, INCHES), line_f(0.01 * np.arange(20), INCHES)
    assert (level.ff, level.fl) == (math.inf, math.inf)
    assert tilt.ff == math.inf
    assert tilt.fl == pytest.approx(125)
    assert line_f(0.001 * np.arange(20.0) ** 2, INCHES).ff == pytest.approx(2285)


@pytest.mark.parametrize(
    ("amplitude", "wave", "flatness"), [(1 / 16, 8, 58.84), (1 / 8, 10, 45.12)]
)
def test_sines(amplitude: float, wave: float, flatness: float) -> None:
    """q has a root mean square of (4a/√2) sin²(π/λ): exact arithmetic, inches and feet."""
    heights = amplitude * np.sin(2 * np.pi * np.arange(wave * 400 + 2) / wave)
    assert line_f(heights, INCHES).ff == pytest.approx(flatness, abs=0.02)


def test_twice_the_heights_halve_both_exactly_and_a_plane_changes_only_levelness() -> None:
    heights = np.array(_numbers(RECORD[0]))
    line, twice = line_f(heights, MILLIMETRES), line_f(2 * heights, MILLIMETRES)
    assert (twice.ff, twice.fl) == (line.ff / 2, line.fl / 2)
    tilted = line_f(heights + 5 * np.arange(len(heights)), MILLIMETRES)
    assert tilted.ff == pytest.approx(line.ff)
    assert tilted.fl != pytest.approx(line.fl, rel=0.1)


def test_values_are_pooled_before_the_one_f_number() -> None:
    lines = [line_f(_numbers(heights), MILLIMETRES) for heights in RECORD]
    whole = pooled_spread([line.q for line in lines])
    section = f_number(MILLIMETRES.flatness_mm, whole.bottom_mm)
    # Exact arithmetic: deviation of all 37 values, and neither mean of the three F's.
    values = np.array([float(q) for row in PRINTED_Q for q in row.split()])
    by_hand = MILLIMETRES.flatness_mm / (3 * values.std(ddof=1) + abs(values.mean()))
    assert section == pytest.approx(by_hand, rel=1e-3)
    assert abs(section - np.mean([line.ff for line in lines])) > 1


def test_two_lines_down_one_slope_from_opposite_ends_are_not_level() -> None:
    down, up = (line_f(tilt * np.arange(14), MILLIMETRES).z for tilt in (-2.0, 2.0))
    assert f_number(MILLIMETRES.levelness_mm, pooled_spread([down, up]).bottom_mm) < 10


def test_what_no_f_number_can_be_made_of() -> None:
    with pytest.raises(SurveyError, match="needs 12 readings for an F-number; this one has 8"):
        line_f([0.0] * 8, MILLIMETRES)
    with pytest.raises(SurveyError, match="row 3"):
        line_f([0.0, 1.0, math.nan, *[0.0] * 12], MILLIMETRES)
    with pytest.raises(SurveyError, match="no line"):
        pooled_spread([])


@pytest.mark.parametrize(
    ("spacing", "counts"),
    [
        (0.3, True),
        (0.3048, True),
        (0.305, True),
        (0.31, True),
        (0.29, False),
        (0.6, False),
        (2.0, False),
    ],
)
def test_only_one_spacing_carries_an_f_number(spacing: float, counts: bool) -> None:
    assert spacing_counts(spacing) is counts


def test_our_own_interval_holds_the_number_and_narrows_with_lines() -> None:
    random = np.random.default_rng(3)
    every = [Spread(random.normal(0, 1, 18)) for _ in range(40)]
    few, many = (own_interval(every[:count], 116.0) for count in (3, 40))
    assert few[0] < many[0] < 116 / 3 < many[1] < few[1]
    assert own_interval([Spread(np.zeros(12))], 116.0) == (math.inf, math.inf)


def test_errors_of_readings_bound_what_a_flat_floor_can_show() -> None:
    """A q of readings good to s spreads by s√6, a z by s√2 (exact): FF 15.8 and FL 74.8 at 1 mm."""
    q, z = noise_of(1.0)
    assert (116.078 / (3 * q), 317.5 / (3 * z)) == pytest.approx((15.80, 74.83), abs=0.01)
    # Nothing but whole millimetres, all alike: no more than the errors say, and no bound upwards.
    low, high = own_interval([Spread(np.zeros(12))], 116.078, noise_mm=q)
    assert 5 < low < 15.8
    assert high == math.inf
    # Errors as large as the spread: the flatter end is open; a third of it moves it a little.
    spread = [Spread(np.random.default_rng(3).normal(0, 3, 60))]
    plain = own_interval(spread, 116.078)
    assert own_interval(spread, 116.078, noise_mm=spread[0].sd_mm)[1] > 3 * plain[1]
    some = own_interval(spread, 116.078, noise_mm=spread[0].sd_mm / 3)
    assert some[0] == plain[0]
    assert plain[1] < some[1] < 1.15 * plain[1]


def test_how_many_z_readings_a_section_wants() -> None:
    """From memory: 2√A to 1,600 ft², then A/30, with a step there."""
    foot = 0.3048**2
    wanted = [least_z_readings(area * foot) for area in (400, 600, 1599.9, 1600, 3000)]
    assert wanted == [40, 49, 80, 54, 100]


ROOM = [[0, 0], [12, 0], [12, 9], [0, 9]]


def _missing(lines: object, z_count: int = 200, area: float = 108.0) -> list[str]:
    return [each.id for each in shortfalls(np.array(lines), z_count, area, ROOM)]


def test_line_rules() -> None:
    """E1155/E1155M, front pages: 600 mm from edges, parallel lines 1.2 m apart."""
    good = [[[1, 1], [11, 1]], [[1, 3], [11, 3]], [[1, 1], [1, 8]]]
    assert _missing(good) == []
    assert _missing(good, z_count=5) == ["count"]
    assert _missing(good, area=20.0) == ["area"]
    assert _missing([[[0.3, 1], [11, 1]]]) == ["edge"]
    assert _missing([[[1, 1], [11, 1]], [[2, 1.9], [9, 1.9]]]) == ["apart"]
    # One after the other is no two lines beside each other.
    assert _missing([[[1, 1], [5, 1]], [[6, 1], [11, 1]]]) == []
    assert _missing([[[0.7, 0.7], [11.3, 8.3]]]) == ["corners"]
    assert _missing([[[11.3, 0.7], [0.7, 8.3]]]) == ["corners"]
    # Beside a wall, as near to it and as long as the rules let.
    assert _missing([[[0.7, 0.7], [11.3, 0.7]], [[0.7, 2.5], [0.7, 8.3]]]) == []


def test_a_narrow_section_wants_lines_on_the_slant() -> None:
    corridor = np.array([[0, 0], [20, 0], [20, 5], [0, 5]])
    along, slant = [[1, 2.5], [19, 2.5]], [[5, 0.7], [8.6, 4.3]]
    assert [each.id for each in shortfalls(np.array([along]), 200, 100, corridor)] == ["slant"]
    assert shortfalls(np.array([slant]), 200, 100, corridor) == ()
