"""A line left unfinished and the one after it: both together, or a question; never a slide."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.reply.replies import Turn

Say = Callable[..., Turn]


@pytest.fixture
def empty(journal: Journal, world: World) -> Say:
    """Say some lines to a job without a room."""
    talk = Conversation(journal, world)

    def said(*lines: str) -> Turn:
        return [talk.hear(line) for line in lines][-1]

    return said


def test_the_value_of_a_correction_said_after_it_goes_to_no_other_point(
    say: Say, talk: Conversation
) -> None:
    turn = say("A1 -8", "B1 -9", "correct B1", "-16")
    assert turn.recorded == ()
    assert turn.reply.ask is not None
    assert "“correct B1 -16 mm” or “C1 -16 mm”" in turn.reply.ask
    # typed ahead, the next one is no answer either
    assert say("-15").recorded == ()
    assert set(talk.job.readings) == {"A1", "B1"}
    say("correct B1 -16")
    assert talk.job.readings["B1"].mm == -16
    assert "C1" not in talk.job.readings


def test_where_there_is_no_next_point_it_can_only_be_the_correction(
    empty: Say,
) -> None:
    turn = empty("Q7 -8", "correct Q7", "-16")
    assert turn.recorded == ("reading-corrected",)
    assert turn.canonical == "correct Q7 -16 mm"


def test_a_unit_that_was_asked_for_may_be_all_that_is_said(empty: Say) -> None:
    turn = empty("the room is 5.2 by 3.8", "metres")
    assert turn.recorded == ("room-measured",)
    assert turn.canonical == "room 5.2 by 3.8 m"


@pytest.mark.parametrize(
    ("lines", "canonical"),
    [
        (("strike", "A1"), "strike A1"),
        (("note", "it smells of damp here"), "note it smells of damp here"),
        (("column 0.4 by 0.4", "metres at 3 by 2 metres"), "column 0.4 by 0.4 m at 3 by 2 m"),
    ],
)
def test_what_was_missing_said_alone_finishes_the_line(
    say: Say, talk: Conversation, lines: tuple[str, ...], canonical: str
) -> None:
    turn = say("A1 -8", *lines)
    assert turn.ok
    assert turn.recorded
    assert turn.canonical == turn.taken_as == canonical
    assert talk.job.history[-1].said == "\n".join(lines)


def test_a_what_if_that_was_broken_off_stays_a_question(say: Say, talk: Conversation) -> None:
    before = talk.job
    turn = say("what if", "raise finish 3 mm")
    assert turn.canonical == "what if raise finish 3 mm"
    assert talk.job.finish_mm == before.finish_mm == 0


@pytest.mark.parametrize("between", ["tally", "A2 -9", "hello there"])
def test_only_the_very_next_line_finishes_it(say: Say, talk: Conversation, between: str) -> None:
    say("A1 -8", "correct A1", between)
    turn = say("-7")
    assert turn.recorded == ("reading-taken",)
    assert talk.job.readings["A1"].mm == -8


def test_a_whole_sentence_after_it_is_just_that(say: Say, talk: Conversation) -> None:
    turn = say("A1 -8", "note", "raise finish 3 mm")
    assert turn.canonical == "raise finish 3 mm"
    assert talk.job.finish_mm == 3


def test_after_mere_talk_a_value_is_the_next_point_s(say: Say) -> None:
    turn = say("A1 -8", "well hello", "-9")
    assert turn.canonical == "B1 -9 mm"


def test_the_same_begun_again_is_no_end_of_it(say: Say) -> None:
    turn = say("A1 -8", "note", "note at B2")
    assert turn.recorded == ()
    assert say("note at B2 crack along the wall").canonical == "note at B2 crack along the wall"


@pytest.mark.parametrize("line", ["delete last note", "crack along the wall"])
def test_half_a_command_ends_no_line_before_it(say: Say, line: str) -> None:
    """Said after "note" it may be the note, or what came to mind instead."""
    turn = say("A1 -8", "note", line)
    assert not turn.ok
    assert turn.recorded == ()
