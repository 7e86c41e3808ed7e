"""Lines that look like a reading, and may be none."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.reply.replies import Turn

Say = Callable[..., Turn]


@pytest.mark.parametrize("line", ["B3 9 under?", "B3 minus 9 ?", "minus 9?", "A2 -8, B2 -9?"])
def test_a_reading_with_a_question_mark_is_offered(say: Say, talk: Conversation, line: str) -> None:
    turn = say("A1 -8", line)
    assert turn.recorded == ()
    assert (turn.reply.ask or "").startswith("Did you mean: ")
    before = len(talk.job.readings)
    assert say("yes").recorded
    assert len(talk.job.readings) > before


def test_at_a_question_it_is_still_an_answer(say: Say) -> None:
    assert say("A1 -8", "B1 18").reply.ask
    assert say("B1 -18?").recorded == ("reading-taken",)


@pytest.mark.parametrize(
    "line",
    ["B3 goes to minus 9", "get B3 to minus 9", "mins 10"],
)
def test_what_is_wanted_or_lasts_is_no_reading(say: Say, talk: Conversation, line: str) -> None:
    before = talk.job
    turn = say("A1 -8", line)
    assert turn.recorded == ()
    assert set(talk.job.readings) - set(before.readings) <= {"A1"}


# --- a figure of the floor without a unit ----------------------------------------------------


@pytest.mark.parametrize("line", ["floor is minus 9", "slab minus 9", "floor is at minus 9"])
def test_a_figure_of_the_floor_may_be_warmth_or_a_height(
    say: Say, talk: Conversation, line: str
) -> None:
    turn = say("A1 -8", line)
    assert turn.recorded == ()
    assert turn.reply.headline == (
        "That can mean “slab -9 degrees” or “B1 -9 mm”. Which? Say the one you mean."
    )
    assert say("B1 -9 mm").recorded == ("reading-taken",)
    assert talk.job.readings["B1"].mm == -9


def test_the_named_point_of_such_a_figure_is_the_one_asked_about(say: Say) -> None:
    asked = say("A1 -8", "slab minus 9 at B3").reply.ask
    assert asked is not None
    assert "“slab -9 degrees at B3” or “B3 -9 mm”" in asked


@pytest.mark.parametrize("line", ["slab -9 degrees", "slab is at 17", "floor temp 18"])
def test_what_is_said_of_warmth_alone_is_taken(say: Say, line: str) -> None:
    assert say("A1 -8", line).recorded == ("slab-temperature-taken",)


def test_a_floor_at_so_much_may_be_high_or_warm(say: Say) -> None:
    assert "“slab 9 degrees” or “B1 9 mm”" in (say("A1 -8", "floor at 9").reply.ask or "")


def test_a_slab_in_fahrenheit_is_no_height(say: Say) -> None:
    turn = say("A1 -8", "slab 63")
    assert "If it was Fahrenheit, say so" in turn.reply.headline
    assert turn.recorded == ()


def test_frost_is_not_taken_for_want_of_a_point(journal: Journal, world: World) -> None:
    """No grid yet, so that the figure could be no reading; a slab of 17 still is what it seems."""
    talk = Conversation(journal, world)
    turn = talk.hear("floor is minus 9")
    assert (turn.recorded, turn.reply.ask) == ((), "Did you mean: slab -9 degrees?")
    assert talk.hear("slab 17").recorded == ("slab-temperature-taken",)


@pytest.mark.parametrize("line", ["the zero here", "this is the zero", "that's my zero"])
def test_the_zero_itself_is_no_reading(say: Say, talk: Conversation, line: str) -> None:
    turn = say("A1 -8", line)
    assert turn.recorded == ()
    assert list(talk.job.readings) == ["A1"]


# --- what may be a reading, or be done to the floor ------------------------------------------


@pytest.mark.parametrize("line", ["3 mm up", "3 up", "up 3"])
def test_up_without_a_point_may_be_a_reading_or_the_finish(say: Say, line: str) -> None:
    turn = say("A1 -8", line)
    assert turn.recorded == ()
    assert "B1 +3 mm" in turn.reply.headline
    assert "raise finish 3 mm" in turn.reply.headline


def test_to_take_off_may_be_no_grinding(say: Say) -> None:
    turn = say("B3 -13", "take 9 off B3")
    assert (turn.recorded, turn.reply.ask) == ((), "Did you mean: grind B3 9?")


@pytest.mark.parametrize("line", ["the C3 figure was rubbish", "C3 was rubbish", "C3's duff"])
def test_a_reading_called_names_is_offered_to_be_struck(say: Say, line: str) -> None:
    turn = say("C3 -13", line)
    assert (turn.recorded, turn.reply.ask) == ((), "Did you mean: strike C3?")
    assert say("yes").recorded == ("reading-scratched",)


def test_a_finish_is_knocked_up_as_it_is_knocked_down(say: Say) -> None:
    headline = say("A1 -8", "finish at zero", "knock the finish up two mil").reply.headline
    assert headline.startswith("Finish 2 mm above the zero.")


@pytest.mark.parametrize("line", ["A1 isn't -9", "A1 was never minus 9", "A1 not 9 low"])
def test_what_a_point_is_not_is_not_offered_as_its_reading(say: Say, line: str) -> None:
    turn = say("A1 -8", line)
    assert (turn.ok, turn.recorded, turn.reply.ask) == (False, (), None)
    assert "What is it, then?" in turn.reply.headline
