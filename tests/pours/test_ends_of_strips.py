"""Where strips may be cut, how wide they may be, and both sides of each bound. Exact arithmetic."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.pours.evaporation import evaporation_kg_m2_h
from assistant.pours.material import (
    bags_needed,
    mass_per_m2,
    pallets,
    primer_litres,
    safe_ceil,
    water_litres,
)
from assistant.pours.placing import bags_per_min, learnt_minutes
from assistant.pours.strips import Pace, Strip, _allowed, _candidates, plan_strips, widest_m
from tests.pours.test_strips import level


def test_places_to_cut_are_whole_steps_away_from_the_ends() -> None:
    """None nearer than half a step to an end of its bay."""
    for near, far, first, last in (
        (0, 3, 0.05, 2.95), (1, 3, 1.05, 2.95), (1.02, 3.02, 1.05, 2.95), (1.03, 3.03, 1.1, 3.0),
        (1.03, 3.02, 1.1, 2.95),
    ):  # fmt: skip
        places = _candidates(near, far, 0.05)
        assert (places[0], places[-1]) == (near, far)
        assert (places[1], places[-2]) == pytest.approx((first, last)), (near, far)
        assert np.diff(places[1:-1]) == pytest.approx(0.05)
    assert _candidates(0, 0.05, 0.05).tolist() == [0, 0.05]


def test_of_a_long_bay_only_every_second_or_third_step_is_tried() -> None:
    """600 places at most: 30 m by steps of 5 cm, then by 10 cm up to 60 m."""
    for far, step in ((30.0, 0.05), (30.1, 0.1), (59.9, 0.1), (60.1, 0.15)):
        assert np.diff(_candidates(0, far, 0.05)[1:-1]) == pytest.approx(step), far
    # wherever the bay begins
    assert np.diff(_candidates(20, 40, 0.05)[1:-1]) == pytest.approx(0.05)


def pairs(places: list[float], least: float, most: float) -> list[tuple[float, float]]:
    allowed = _allowed(np.array(places, dtype=float), least, most)
    return [(places[a], places[b]) for a, b in np.argwhere(allowed).tolist()]


def test_which_strips_are_allowed() -> None:
    """As wide as the least or the most is allowed; the last may be narrower where none fits."""
    assert pairs([0, 1, 2, 3], 1, 2) == [(0, 1), (0, 2), (1, 2), (1, 3), (2, 3)]
    assert pairs([0, 1, 2, 4], 2, 2) == [(0, 2), (2, 4)]
    # steps of a tenth are not exact in floats
    assert (0.1, 0.3) in pairs([0, 0.1, 0.3, 0.4], 0.2, 0.2)
    # a billionth less or more is what floats leave
    assert pairs([0, 2 - 1e-9, 4], 2, 2 + 1e-9)[0] == (0, 2 - 1e-9)
    assert (0, 2 + 1e-9) in pairs([0, 2 + 1e-9, 4], 1, 2)
    assert (0, 2 + 1e-8) not in pairs([0, 2 + 1e-8, 4], 1, 2)
    # 5 m by strips of 2 m: the last is 1 m
    assert pairs([0, 1, 2, 3, 4, 5], 2, 2) == [(0, 2), (1, 3), (2, 4), (3, 5), (4, 5)]
    # a bay narrower than any strip is one
    assert pairs([0, 0.3], 0.5, 9) == [(0, 0.3)]
    # none is wider than the widest for that
    assert pairs([0, 1, 6, 7], 2, 3) == [(6, 7)]


def test_strips_where_no_whole_number_of_them_fits() -> None:
    widths = [s.to_m - s.from_m for s in plan_strips(
        level(0.003, length=5.0), Pace(1.0, 30), least_width_m=2.0, most_width_m=2.0)]  # fmt: skip
    assert widths == pytest.approx([2, 2, 1])


def test_dams_nearer_than_half_a_step_to_a_wall_are_passed_over() -> None:
    for dams, ends in (([0.02], [4]), ([0.03], [0.03, 4]), ([3.98], [4]), ([3.97], [3.97, 4]),
                       ([0.025], [4]), ([3.975], [4]),
                       ([2, 2, 1], [1, 2, 4]), ([-1, 9], [4])):  # fmt: skip
        strips = plan_strips(level(0.003, length=4.0), Pace(1.0, 60), dams_m=dams)
        assert [strip.to_m for strip in strips] == pytest.approx(ends), dams


def test_an_edge_is_lost_past_its_limit_and_not_at_it() -> None:
    for wait, limit, lost in ((10.0, 10.0, False), (10.0 + 1e-7, 10.0, True), (9.0, 10.0, False),
                              (10.0 * (1 + 1e-9), 10.0, False),
                              (None, 10.0, False), (15.0, 10.0, True)):  # fmt: skip
        assert Strip(0, 1, 1, 1, 1, 0, wait, limit).edge_lost is lost, wait


def test_an_edge_waits_for_the_longer_of_its_strips_and_for_a_batch() -> None:
    """Strips of 1 m and 3 m by a dam that is none: 80 and 240 L at 8 L a minute."""
    for batch, wait in ((0.0, 30.0), (12.0, 30.0), (31.0, 31.0)):
        strips = plan_strips(level(0.010, length=4.0), Pace(0.008, 30.0, batch_min=batch),
                             least_width_m=1.0, most_width_m=3.0)  # fmt: skip
        assert strips[0].minutes + strips[1].minutes == pytest.approx(40)
        longest = max(strips[0].minutes, strips[1].minutes, batch)
        assert strips[0].edge_wait_min == pytest.approx(longest)
        assert longest <= wait


def test_what_no_strips_are_made_of() -> None:
    floor = level(0.010)
    for pace, wide in (
        (Pace(0.01, 10, -1), {}), (Pace(0.01, float("inf")), {}),
        (Pace(0.01, 10), {"least_width_m": 0}), (Pace(0.01, 10), {"step_m": 0}),
        (Pace(0.01, 10), {"least_width_m": 2, "most_width_m": 1}),
        (Pace(0.01, 10), {"least_width_m": float("inf")}),
    ):  # fmt: skip
        with pytest.raises(SurveyError):
            plan_strips(floor, pace, **wide)
    for depth, front in ((0, 8), (0.01, 0)):
        with pytest.raises(SurveyError):
            widest_m(Pace(0.01, 10), depth, front)


# --- bags and batches ---------------------------------------------------------------------


def test_a_count_of_bags_forgives_a_part_in_a_billion() -> None:
    for count, bags in (
        (0, 0), (1e-10, 0), (2e-9, 1), (70 + 5e-8, 70), (70 + 8e-8, 71), (69.5, 70),
        (70 - 5e-8, 70), (0.5, 1), (69.0001, 70), (1.5e9 + 1, 1_500_000_001),
    ):  # fmt: skip
        assert safe_ceil(count) == bags, count
    with pytest.raises(SurveyError):
        safe_ceil(float("nan"))


def test_what_so_many_bags_take() -> None:
    assert bags_needed(1.0, 0, 0.015) == 67
    assert bags_needed(1.0, 10, 0.015) == 74
    assert water_litres(7, 4.0, 5.0) == (28, 35)
    assert water_litres(7, 5.0, 5.0) == (35, 35)
    assert primer_litres(96, 8, 2) == 24
    assert [pallets(bags, 40) for bags in (0, 1, 40, 41, 80)] == [0, 1, 1, 2, 2]
    assert [mass_per_m2(2000, depth) for depth in (0.01, 0, -0.01)] == [20, 0, 0]
    with pytest.raises(SurveyError):
        water_litres(7, 5.0, 4.9)


def test_a_pause_is_more_than_two_and_a_half_usual_gaps() -> None:
    """Minutes for a bag, with two bags in a batch; of two gaps the shorter is the usual one."""
    for at, minutes in (
        ([0, 4, 8, 18], 3.0), ([0, 4, 8, 18.1], 2.0), ([0, 4, 16], 2.0), ([0, 4, 14], 3.5),
        ([0, 4, 12, 20], 10 / 3), ([0, 2, 8, 14], 14 / 6),
        ([0, 0, 0], None), ([0, 4], None), ([0, 1, 1, 1, 9], None),
    ):  # fmt: skip
        found = learnt_minutes(at, [2] * len(at))
        assert found == (None if minutes is None else pytest.approx(minutes)), at
    assert learnt_minutes([0, 4, 8], [2, 0, 0]) is None  # batches of nothing
    for at, bags in (([0, 4, 8], [2, 2]), ([0, float("nan"), 8], [2, 2, 2]), ([0, 4, 3], [2] * 3)):
        with pytest.raises(SurveyError):
            learnt_minutes(at, bags)
    for mixers, in_one, each in ((0, 2, 6), (2, 0, 6), (2, 2, 0)):
        with pytest.raises(SurveyError):
            bags_per_min(mixers, in_one, each)


def test_ends_of_what_the_formula_for_evaporation_takes() -> None:
    """None at 100 % and one temperature; dry air takes 5 (T + 18)^2.5 (V + 4) 10⁻⁶."""
    assert evaporation_kg_m2_h(20, 20, 100, 5) == 0
    assert evaporation_kg_m2_h(20, 20, 0, 0) == pytest.approx(5 * 38**2.5 * 4e-6)
    assert evaporation_kg_m2_h(-17, -17, 0, 0) == pytest.approx(5 * 4e-6)
    for bad in ((-18, 20, 50, 0), (20, -18, 50, 0), (20, 20, 100.1, 0), (20, 20, -1, 0)):
        with pytest.raises(SurveyError):
            evaporation_kg_m2_h(*bad)
