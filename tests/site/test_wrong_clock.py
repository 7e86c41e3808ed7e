"""A clock that was wrong for a while, and what runs by it."""

from __future__ import annotations

from datetime import timedelta

import pytest

from assistant.job import fold, to_undo
from tests.site.conftest import Morning
from tests.there import there

STANDARD = "product example standard"


def _left(floor: Morning) -> list[float]:
    floor.say("clocks")
    return [clock["left_min"] for clock in floor.data["clocks"]]


def test_one_entry_with_a_wrong_date_does_not_stop_what_is_started_after_it(
    morning: type[Morning],
) -> None:
    floor = morning(STANDARD)
    floor.later(days=365).say("A1 -18")
    floor.later(days=-365).say("water in")
    assert _left(floor) == [20]
    floor.later(minutes=15)
    assert "5 minutes of working time left" in there(floor.talk.rung()).headline
    assert _left(floor) == [5]
    assert _left(floor.later(minutes=10)) == [0]


def test_how_far_the_clock_is_behind_is_told_once_and_on_record(morning: type[Morning]) -> None:
    floor = morning(STANDARD).later(days=365)
    floor.say("A1 -18")
    reply = floor.later(days=-365, minutes=5).say("tally").reply
    told = [line for line in reply.details if "clock" in line]
    assert told[0].startswith("The clock is 364 days behind what it read when the last thing was")
    assert "The clock is three hundred and sixty four days behind the record." in reply.say
    assert reply.data["clock_behind_s"] == 365 * 86400 - 300
    assert "clock-found-behind" in floor.turn.recorded
    floor.reopen()
    assert "clock_behind_s" not in floor.say("tally").reply.data
    assert "clock_behind_s" not in floor.later(minutes=3).say("B1 -17").reply.data


@pytest.mark.parametrize("said_since", [(), ("water in",)])
def test_it_is_told_to_whoever_opens_the_job_again(
    morning: type[Morning], said_since: tuple[str, ...]
) -> None:
    """The prompt asks for what clocks have to say before any line is typed."""
    floor = morning(STANDARD).later(days=365)
    floor.say("A1 -18", *said_since)
    floor.later(days=-365).reopen()
    reply = there(floor.talk.rung())
    assert any(line.startswith("The clock is 365 days behind") for line in reply.details)
    assert reply.data["clock_behind_s"] == 365 * 86400
    assert "clock_behind_s" not in floor.say("tally").reply.data


def test_it_is_told_alone_where_nothing_else_is_to_be_said(morning: type[Morning]) -> None:
    floor = morning(STANDARD).later(hours=3)
    floor.say("A1 -18")
    reply = there(floor.later(hours=-3).talk.rung())
    assert reply.headline.startswith("The clock is 3 hours behind")
    assert floor.talk.rung() is None


def test_what_ran_when_it_was_put_back_is_counted_from_then_on(morning: type[Morning]) -> None:
    """Started by the wrong clock: when, nobody knows, but before this at the latest."""
    floor = morning(STANDARD).later(days=9)
    floor.say("water in")
    floor.later(days=-9, minutes=4)
    assert _left(floor) == [20]
    assert _left(floor.later(minutes=6)) == [14]
    floor.reopen()
    assert _left(floor.later(minutes=2)) == [12]


def test_what_ran_before_it_was_wrong_goes_on(morning: type[Morning]) -> None:
    floor = morning(STANDARD, "water in").later(days=9)
    floor.say("A1 -18")
    assert _left(floor) == [0]
    assert _left(floor.later(days=-9, minutes=6)) == [14]


def test_a_flat_battery(morning: type[Morning]) -> None:
    """The clock falls years back, and is set right half an hour later."""
    floor = morning(STANDARD, "primer on floor").later(minutes=10)
    floor.say("A1 -18")
    floor.later(days=-9000).say("B1 -17")
    assert _left(floor) == [90]  # how long before, nobody knows; nothing is taken off for it
    floor.later(minutes=5).say("water in")
    assert _left(floor) == [85, 20]
    floor.later(days=9000, minutes=15).say("B2 -16")
    assert _left(floor) == [60, 5]


def test_a_clock_that_is_set_right_by_a_minute_is_not_told_of(morning: type[Morning]) -> None:
    floor = morning(STANDARD, "water in").later(minutes=5)
    floor.say("A1 -18")
    reply = floor.later(minutes=-1).say("B1 -17").reply
    assert "clock_behind_s" not in reply.data
    times = [each.time for each in floor.job.history]
    assert times == sorted(times)


def test_an_undo_goes_past_what_was_found_of_the_clock(morning: type[Morning]) -> None:
    floor = morning("A1 -18").later(days=2)
    floor.say("B1 -17")
    floor.later(days=-2).say("tally", "undo")
    assert floor.turn.reply.headline == "Undone: B1 -17."
    assert [each.said for each in to_undo(floor.job.history)] == ["A1 -18"]
    assert floor.say("redo").reply.headline == "Brought back: B1 -17."


def test_an_undone_entry_with_a_wrong_date_stops_nothing_either(morning: type[Morning]) -> None:
    floor = morning(STANDARD).later(days=9)
    floor.say("A1 -18", "undo")
    floor.later(days=-9).say("water in")
    assert _left(floor.later(minutes=7)) == [13]


def test_the_record_gives_the_same_job_again(morning: type[Morning]) -> None:
    floor = morning(STANDARD, "water in").later(days=9)
    floor.say("hose on floor", "A1 -18")
    floor.later(days=-9, minutes=3).say("primer on floor", "B1 -18", "undo", "redo")
    assert fold(floor.journal.utterances()) == floor.job
    starts = [each.time for each in floor.job.site.clocks]
    assert max(starts) - min(starts) == timedelta(minutes=3)
