"""What a finish was set from, what it costs to be wrong about it, and what a set-up hangs on."""

from __future__ import annotations

import json
from decimal import Decimal
from fractions import Fraction

import pytest

from assistant.events.finish import FinishSetAtDoor
from assistant.floor.cost import Cost, cost_of_bags
from assistant.floor.finish_source import highest_point, outside_mm, source_moved_mm
from assistant.floor.survey_warnings import survey_warnings
from assistant.floor.ties import (
    how_to_tie,
    how_to_tie_spoken,
    sound_benchmarks,
    sound_points,
    ways_to_tie,
)
from assistant.record.event_rows import Row, event_of
from tests.job.conftest import Site

FLOOR = ("room 6 by 4 metres", "grid 2 metres")
READ = ("A1 -8", "B1 -12", "C1 -20")


# --- where a finish came from -------------------------------------------------------------------


def test_the_highest_point_is_the_one_least_below() -> None:
    assert highest_point(Site(*FLOOR).job) is None
    assert highest_point(Site(*FLOOR, *READ).job) == ("A1", Fraction(-8))
    assert highest_point(Site(*FLOOR, *READ, "A2 +3").job) == ("A2", Fraction(3))


@pytest.mark.parametrize(
    ("finish", "then", "moved_mm"),
    [
        ("finish 3 mm over the highest", (), 0),
        ("finish 3 mm over the highest", ("A2 -5",), 3),
        ("finish 3 mm over the highest", ("A2 -9",), 0),
        ("finish 3 mm over the highest", ("correct A1 to -10",), -2),
        ("finish at the highest", ("A2 -5",), 3),
        ("finish plus 4", ("A2 -5",), 0),  # set from nothing that can move
    ],
)
def test_what_a_finish_was_set_from_lies_higher_by_now(
    finish: str, then: tuple[str, ...], moved_mm: int
) -> None:
    floor = Site(*FLOOR, *READ, finish, *then)
    assert source_moved_mm(floor.job) == moved_mm


# --- what bags cost -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "bags", "words", "data"),
    [
        ("bag costs 24 euros", 10, "240 euros", 240.0),
        ("bag costs 18.50", 3, "55.50", 55.5),
        ("bag costs 18.50", 2, "37", 37.0),
        ("bag costs 0.05 euros", 1, "0.05 euros", 0.05),
        ("bag costs 24 euros", 0, "0 euros", 0.0),
    ],
)
def test_bags_cost_so_many_times_one(said: str, bags: int, words: str, data: float) -> None:
    cost = cost_of_bags(Site(said).job, bags)
    assert cost is not None
    assert cost.in_words() == words
    assert cost.as_data()["value"] == data


def test_without_a_price_there_is_no_cost() -> None:
    assert cost_of_bags(Site(*FLOOR).job, 10) is None
    assert Cost(Decimal("1.005"), "").in_words() in ("1.00", "1.01")  # cents at most


# --- what a set-up is tied on ---------------------------------------------------------------------

MOVED = (*FLOOR, *READ, "new set up")


def test_the_last_sound_point_is_the_best_to_tie_on() -> None:
    job = Site(*MOVED).job
    assert sound_points(job) == ("A1", "B1", "C1")
    assert sound_points(job, 0) == ()  # of itself there is none
    assert sound_benchmarks(job) == ()
    assert how_to_tie(job).startswith("Join it to the others: tie on C1")
    assert how_to_tie_spoken(job) == "Tie on charlie one."


def test_one_that_was_odd_and_confirmed_comes_before_those_that_were_not() -> None:
    even = tuple(f"{c}{r} -15" for r in (1, 2) for c in "ABC")
    floor = Site("room 12 by 8 metres", "grid 2 metres", *even, "D1 -15", "D2 -60", "new set up")
    assert sound_points(floor.job)[0] == "D2"
    assert sound_points(floor.job)[-1] == "D1"


def test_a_benchmark_is_better_than_a_point() -> None:
    given = Site("benchmark 2 at plus 40 mm", "benchmark 1 at plus 30 mm", *MOVED).job
    assert set(sound_benchmarks(given)) == {1, 2}
    assert ways_to_tie(given).startswith("tie on benchmark")
    assert "or tie on C1" in ways_to_tie(given)
    assert how_to_tie_spoken(given).startswith("Tie on benchmark")


def test_with_nothing_read_a_mark_is_asked_for() -> None:
    job = Site(*FLOOR, "new set up").job
    assert how_to_tie(job).startswith("Nothing was read yet to tie it on. A mark of known height")
    assert "benchmark 1 at level, then tie on benchmark 1" in how_to_tie(job)
    assert how_to_tie_spoken(job) == "Tie it."


# --- warnings of the survey -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "ids"),
    [
        ((), []),
        (READ, []),
        ((*READ, "check zero level"), []),
        ((*READ, "check zero +3"), []),
        ((*READ, "check zero +4"), ["zero-moved", "doubtful"]),
        ((*READ, "check zero -4"), ["zero-moved", "doubtful"]),
        (("A1 -8 9 15",), ["restless:A1"]),
        (("A1 -8 9 10",), []),
        ((*READ, "new set up"), []),  # nothing hangs on it yet
        ((*READ, "new set up", "C2 -8"), ["untied:2"]),
        ((*READ, "new set up", "tie on A1 -20"), []),
    ],
)
def test_what_a_survey_is_warned_about(lines: tuple[str, ...], ids: list[str]) -> None:
    found = survey_warnings(Site(*FLOOR, *lines).job)
    assert [warning.id for warning in found] == ids


@pytest.mark.parametrize(
    ("points", "words"),
    [
        (("C2 -8",), "Nothing ties set-up 2 to the others; C2 has no height till then."),
        (("C2 -8", "B2 -8"), "Nothing ties set-up 2 to the others; C2 and B2 have no height"),
    ],
)
def test_points_without_a_height_are_named(points: tuple[str, ...], words: str) -> None:
    (warning,) = survey_warnings(Site(*FLOOR, *READ, "new set up", *points).job)
    assert warning.message.startswith(words)


@pytest.mark.parametrize("door_mm", [5, -3])
def test_a_finish_at_a_door_moves_with_the_floor_outside(door_mm: int) -> None:
    floor = Site(*FLOOR, *READ, f"door 1 outside {door_mm:+d}", "finish at door 1")
    assert outside_mm(floor.job, 1) == door_mm
    assert outside_mm(floor.job, 2) is None
    assert source_moved_mm(floor.job) == 0
    floor.told(f"door 1 outside {door_mm + 2:+d}")
    assert source_moved_mm(floor.job) == 2


def test_a_finish_at_a_door_leaves_room_for_its_covering() -> None:
    """8 mm under the floor outside, 3 mm above the zero: exact arithmetic."""
    read = (*FLOOR, *READ, "door 1 left -1 right -1 outside +3")
    assert "covering 8 millimetres" in Site(*read).refused("finish at door 1 with covering")
    floor = Site(*read, "covering 8 mm")
    told = floor.told("finish at door 1")
    assert "With its covering on it stands 8 mm higher; level with it on: " in " ".join(
        told.details
    )
    for line in (
        "finish at door 1 with covering",
        "finish at the door with the covering",
        "covering flush with door 1",
        "finish flush with the floor outside door 1 allowing for the covering",
    ):
        floor = Site(*read, "covering 8 mm")
        told = floor.told(line)
        assert floor.job.finish_mm == -5, line
        assert "once its covering of 8 mm is on" in " ".join(told.details)
    assert floor.data["finish"]["decided"]["covering_mm"] == 8.0
    assert source_moved_mm(floor.job) == 0
    assert source_moved_mm(Site(*read, "covering 8 mm", line, "door 1 outside +5").job) == 2


def test_a_finish_at_a_door_that_an_older_program_recorded_is_level_with_it() -> None:
    facts = {"door": 1, "height": {"number": "3", "unit": "mm"}}
    event = event_of(Row("finish-set-at-door", 1, json.dumps(facts)))
    assert isinstance(event, FinishSetAtDoor)
    assert (event.door, event.covering) == (1, None)


def test_what_is_not_known_any_more_has_not_moved() -> None:
    at_door = Site(*FLOOR, *READ, "door 1 outside +5", "finish at door 1", "new set up")
    at_door.told("door 1 outside +9")  # from a set-up that nothing ties
    assert outside_mm(at_door.job, 1) is None
    assert source_moved_mm(at_door.job) == 0
    over = Site(*FLOOR, "A1 -8", "finish at the highest", "strike A1")
    assert highest_point(over.job) is None
    assert source_moved_mm(over.job) == 0
