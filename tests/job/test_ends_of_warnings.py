"""What is spoken of on a whole job, where, and in which order: both sides of each bound."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.floor.heights import survey_of
from assistant.floor.holding import Held, Pair
from assistant.floor.holding_words import comparison_words
from assistant.floor.places import SAME_PLACE_M, point_here
from assistant.floor.places_in_words import door_places, place_words, point_at, spoken_place
from assistant.floor.plausible_range import is_far_off
from assistant.floor.warnings import (
    SEVERITIES,
    all_warnings,
    cautions_met,
    cautions_of,
    depth_findings,
    door_matters,
    door_sizes,
    over_depth,
    to_grind,
    warning_subject,
    warnings_but_weight,
)
from tests.job.conftest import WORLD, Site

ROOM = ("room 6 by 4 metres", "grid 1 metre")


def _ids(floor: Site) -> set[str]:
    return {warning.id for warning in all_warnings(floor.job)}


# --- doors ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("left", "right", "across", "low_side"),
    [
        ("-4", "-9", 5, "right"), ("-9", "-4", 5, "left"), ("-4", "-4", 0, None),
        ("+2", "-2", 4, "right"),
    ],
)  # fmt: skip
def test_the_lower_jamb_is_named(left: str, right: str, across: int, low_side: str | None) -> None:
    floor = Site(*ROOM, f"door 1 left {left} right {right}")
    sizes = door_sizes(floor.job, floor.job.doors[1])
    assert sizes.across_mm == across
    assert sizes.low_side == low_side
    assert (sizes.step_mm, sizes.outside_is) == (None, None)


@pytest.mark.parametrize(
    ("outside", "step", "outside_is"),
    [("+3", 1, "lower"), ("+5", 1, "higher"), ("+4", 0, None), ("-2", 6, "lower")],
)
def test_the_step_is_from_the_finish(outside: str, step: int, outside_is: str | None) -> None:
    floor = Site(*ROOM, "finish plus 4", f"door 2 outside {outside}")
    sizes = door_sizes(floor.job, floor.job.doors[2])
    assert sizes.step_mm == step
    assert sizes.outside_is == outside_is
    assert (sizes.across_mm, sizes.low_side) == (None, None)


def test_a_door_s_matters_are_its_own() -> None:
    floor = Site(
        *ROOM, "door 1 left -4 right -9", "door 2 left level right -20", "door 2 outside +9"
    )
    assert {w.id for w in door_matters(floor.job)} == {
        "door-across:1",
        "door-across:2",
        "door-step:2",
    }
    assert {w.id for w in door_matters(floor.job, 1)} == {"door-across:1"}
    assert {w.id for w in door_matters(floor.job, 2)} == {"door-across:2", "door-step:2"}
    assert door_matters(floor.job, 3) == ()


# --- what is warned of --------------------------------------------------------------------------


def test_the_gravest_stands_first_and_within_it_the_walk_s_order() -> None:
    floor = Site(*ROOM, "product example standard", "A1 +4", "B1 -2", "C1 -40", "D1 -330")
    ranks = [SEVERITIES.index(warning.severity) for warning in all_warnings(floor.job)]
    assert ranks == sorted(ranks)
    assert set(ranks) == {0, 1, 2}
    stops = [w.id for w in all_warnings(floor.job) if w.severity == "stop"]
    assert stops[:3] == ["high-spot:A1", "under-minimum:B1", "over-maximum:D1"]
    assert {w.id for w in depth_findings(floor.job)} == {
        "high-spot:A1", "under-minimum:B1", "over-maximum:C1", "over-maximum:D1"
    }  # fmt: skip
    assert [warning_subject(w) for w in to_grind(floor.job)] == ["A1", "B1"]


@pytest.mark.parametrize(
    ("lines", "warned"),
    [
        (("room 6 by 4 metres", "product example standard", "grid 3 metres"), False),
        (("room 6 by 4 metres", "product example standard", "grid 3.1 metres"), True),
        (("room 6 by 4 metres", "grid 4 metres"), False),  # no card, no spacing wanted
        (("product example standard",), False),
    ],
)
def test_pins_too_far_apart_are_warned_of_where_there_are_any(
    lines: tuple[str, ...], warned: bool
) -> None:
    floor = Site(*lines)
    if floor.job.card is not None:
        assert floor.job.card.pin_spacing_m == 3
    assert ("pin-spacing" in _ids(floor)) is warned


def test_points_are_missing_once_one_is_read_and_until_all_are() -> None:
    floor = Site("room 2 by 1 metres", "grid 1 metre")
    assert "points-missing" not in _ids(floor)
    floor.told("A1 -10")
    assert "points-missing" in _ids(floor)
    floor.told("B1 -10")
    assert "points-missing" not in _ids(floor)


def test_the_mean_weight_is_the_one_thing_left_out_of_the_others() -> None:
    floor = Site(
        "room 2 by 1 metres", "grid 1 metre", "product example deep fill", "A1 -59", "B1 -59"
    )
    assert _ids(floor) == {"weight"}
    assert warnings_but_weight(floor.job) == ()


@pytest.mark.parametrize(
    ("depth", "mark"),
    [(-1, "high"), (Fraction(-1, 100), "high"), (0, "shallow"), (2, "shallow"), (3, ""),
     (30, ""), (31, "deep"), (61, "deep")],
)  # fmt: skip
def test_the_map_marks_what_the_product_does_not_take(depth: Fraction, mark: str) -> None:
    card = WORLD.cards["example standard"]  # 3 to 30 mm
    assert over_depth(card, Fraction(depth), Fraction(0)) == mark
    assert over_depth(None, Fraction(depth), Fraction(0)) == ("high" if depth < 0 else "")


def test_safety_words_come_with_the_work_and_once() -> None:
    before = Site(*ROOM, "A1 -10")
    assert cautions_of(before.job) == ()
    mixing = Site(*ROOM, "A1 -10", "product example standard")
    met = {caution.id for caution in cautions_met(before.job, mixing.job)}
    assert met
    grinding = Site(*ROOM, "A1 -10", "product example standard", "B1 +2")
    more = {caution.id for caution in cautions_met(mixing.job, grinding.job)}
    assert more
    assert not more & met
    assert {caution.id for caution in cautions_of(grinding.job)} == more | met
    assert cautions_met(grinding.job, grinding.job) == ()


# --- too far from the zero ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kept", "mm", "far"),
    [
        (None, 400, False), (None, 401, True), (None, -400, False), (None, -401, True),
        # next to another that is as far: the zero stands off the floor
        (-401, -801, False), (-401, -802, True), (-401, 401, True), (-1315, -1000, False),
        (401, 801, False), (401, 802, True),
        # but not next to one within it
        (-400, -401, True), (-400, -500, True),
    ],
)  # fmt: skip
def test_a_height_is_believed_within_400_mm_or_of_such_another(
    kept: int | None, mm: int, far: bool
) -> None:
    floor = Site(*ROOM, *(() if kept is None else (f"A1 {kept:+d}",)))
    assert is_far_off(floor.job, Fraction(mm), 0) is far


def test_another_zero_s_heights_and_ties_are_no_such_other() -> None:
    floor = Site(*ROOM, "A1 -1315", "new set up")
    assert is_far_off(floor.job, Fraction(-1300), 1)
    assert not is_far_off(floor.job, Fraction(-1300), 0)
    floor.told("tie on A1 -1290")
    assert not is_far_off(floor.job, Fraction(-1300), 1)
    finish = Site(*ROOM, "finish 1300 mm below zero", "new set up")
    assert not is_far_off(finish.job, Fraction(-1310), 0)
    assert is_far_off(finish.job, Fraction(-1310), 1)  # the finish is against the first zero


# --- places in words --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("x_m", "y_m", "point"),
    [
        (0.5, 0.5, "A1"), (0.549, 0.5, "A1"), (0.551, 0.5, None), (1.5, 0.451, "B1"),
        (1.5, 0.449, None),
    ],
)  # fmt: skip
def test_five_centimetres_from_a_point_is_the_point(
    x_m: float, y_m: float, point: str | None
) -> None:
    floor = Site(*ROOM)
    assert point_at(floor.job, x_m, y_m) == point
    if point is not None:
        assert place_words(floor.job, x_m, y_m) == point
    assert point_at(Site("room 6 by 4 metres").job, x_m, y_m) is None


def test_elsewhere_it_is_so_far_from_the_walls_or_from_the_nearest_door() -> None:
    floor = Site(*ROOM)
    assert (
        place_words(floor.job, 2.04, 3.06) == "2 m from the left wall, 3.1 m from the wall at row 1"
    )
    floor.told("door 1 at A1", "door 2 left level right level")
    # (2.04 - 0.5, 3.06 - 0.5): 2.99 m away
    assert place_words(floor.job, 2.04, 3.06) == "2 m from the left wall, 3 m from the door"
    floor.told("door 3 at F4")
    assert door_places(floor.job) == {1: (0.5, 0.5), 3: (5.5, 3.5)}
    # (5.5 - 2.04, 3.5 - 3.06): 3.49 m
    assert place_words(floor.job, 2.04, 3.06) == "2 m from the left wall, 3 m from door 1"
    assert place_words(floor.job, 4.04, 3.06) == "4 m from the left wall, 1.5 m from door 3"
    assert spoken_place(floor.job, 0.5, 0.5) == "alfa one"


@pytest.mark.parametrize(("away_m", "there"), [(0.0, "A1"), (0.0029, "A1"), (0.0031, None)])
def test_three_millimetres_from_a_point_is_its_place(away_m: float, there: str | None) -> None:
    assert SAME_PLACE_M == 0.003
    layout = Site(*ROOM).job.layout
    assert point_here(layout, 0.5 + away_m, 0.5) == there
    assert point_here(layout, 0.5, 0.5 - away_m) == there


# --- how sure it is, in words -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("chance", "told"),
    [
        (0.0094, "in fewer than 1 of 100 cases"),
        (0.0096, "in 1 of 100 cases"),
        (0.031, "in 3.1 of 100 cases"),
        (0.0944, "in 9.4 of 100 cases"),
        (0.0951, "in 10 of 100 cases"),
        (0.4, "in 40 of 100 cases"),
    ],
)
def test_a_chance_is_told_to_a_tenth_below_ten(chance: float, told: str) -> None:
    floor = Site(*ROOM, "A1 -18", "A1 -18")
    height = floor.job.readings["A1"]
    pair = Pair("A1", height, height, 0.0, ())
    held = Held(0, ("A1",), (pair,), (), 0.0, 1.5, 3.0, chance, "A1")
    assert told in comparison_words(floor.job, held)


# --- what is in doubt ---------------------------------------------------------------------------


def test_what_hangs_on_doubt_is_named_apart_from_what_is_in_doubt_itself() -> None:
    floor = Site("room 12 by 8 metres", "grid 2 metres", "A1 -18", "B1 -19", "reference moved",
                 "tie on B1 -30", "C1 -32", "D1 -33")  # fmt: skip
    found = survey_of(floor.job).doubtful
    assert {point for point, why in found.items() if why == "moved"} == {"A1", "B1"}
    assert {point for point, why in found.items() if why == "hangs"} == {"C1", "D1"}
    (warning,) = (warning for warning in all_warnings(floor.job) if warning.id == "doubtful")
    assert warning.message.startswith("A1 and B1: read while the zero may have moved.")
    assert "C1 and D1: set-up 2 is tied on what is in doubt itself." in warning.message


def test_a_zero_that_moved_stops_the_work_from_the_first_step_past_the_bound() -> None:
    def moved(mm: int) -> list[tuple[float, float]]:
        floor = Site(*ROOM, "A1 -10", f"check zero {mm:+d}")
        return [
            (w.value or 0, w.limit or 0) for w in all_warnings(floor.job) if w.id == "zero-moved"
        ]

    assert moved(3) == moved(-3) == []
    assert moved(4) == moved(-4) == [(4, 3)]
