"""Yes, no, another value instead, and a point without one: as people say them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.reply.replies import Turn
from grammar import understand
from grammar.commands.talk import CancelThat, Confirm

Say = Callable[..., Turn]


@pytest.mark.parametrize(
    "line",
    ["yes", "yeah", "yep", "aye", "ok", "Okay, thanks", "that's right", "correct", "go ahead"],
)
def test_a_yes(line: str) -> None:
    assert understand(line) == (Confirm(),)


@pytest.mark.parametrize("line", ["no", "nope", "nah", "wrong", "no thanks", "that's wrong"])
def test_a_no(line: str) -> None:
    assert understand(line) == (CancelThat(),)


@pytest.mark.parametrize("line", ["ok", "yes", "no", "right", "wrong"])
def test_an_answer_to_nothing_records_nothing(say: Say, line: str) -> None:
    turn = say("B3 -9", line)
    assert turn.recorded == ()
    assert "No question is waiting" in turn.reply.headline


@pytest.mark.parametrize(
    ("line", "height"),
    [
        ("no, minus 10", "10 mm below"),
        ("I meant minus 10", "10 mm below"),
        ("sorry, I meant 10 above", "10 mm above"),
        ("not 9, 10", "10 mm below"),
        ("no, not 9 but 10", "10 mm below"),
        ("not 9 but plus 10", "10 mm above"),
        ("correction, minus 10", "10 mm below"),
        ("no it should be minus 10", "10 mm below"),
    ],
)
def test_another_value_puts_the_last_reading_right(say: Say, line: str, height: str) -> None:
    turn = say("B3 -9", line)
    assert turn.recorded == ("reading-corrected",)
    assert f"B3 {height}" in turn.reply.headline


def test_one_without_a_side_is_asked_about(say: Say) -> None:
    asked = say("B3 -9", "no, 10")
    assert asked.recorded == ()
    assert asked.reply.ask == "B3, 10 mm: below or above?"
    assert say("below").recorded == ("reading-corrected",)


def test_the_last_reading_is_asked_about_where_something_else_was_said_since(say: Say) -> None:
    turn = say("B3 -9", "waste 7 percent", "no, minus 10")
    assert turn.recorded == ()
    assert turn.reply.ask == "Did you mean: correct B3 -10?"
    assert say("yes").recorded == ("reading-corrected",)


def test_what_it_was_not_has_to_be_what_it_was(say: Say) -> None:
    turn = say("B3 -9", "not 12, 10")
    assert turn.recorded == ()
    assert not turn.ok
    assert "B3, 9 mm below" in turn.reply.headline


def test_without_a_reading_there_is_none_to_put_right(say: Say) -> None:
    turn = say("no, minus 10")
    assert (turn.ok, turn.recorded) == (False, ())


def test_an_undone_reading_is_not_the_last(say: Say) -> None:
    turn = say("A1 -8", "B3 -9", "undo", "no, minus 10")
    assert "reading-corrected" not in turn.recorded
    assert turn.reply.ask in (None, "Did you mean: correct A1 -10?")


def test_a_question_about_a_reading_takes_another_value(say: Say) -> None:
    asked = say("B3 -910").reply.ask
    assert asked is not None
    turn = say("no, minus 10")
    assert turn.recorded == ("reading-taken",)
    assert "B3 10 mm below" in turn.reply.headline
    assert turn.reply.ask is None


def test_it_keeps_the_side_that_was_asked_about(say: Say) -> None:
    turn = say("B3 -910", "not 910, 91")
    assert "B3 91 mm below" in turn.reply.headline


def test_a_question_about_something_else_is_no_reading(say: Say) -> None:
    asked = say("B3 -9", "raise finish 1/4").reply.ask
    turn = say("no, minus 10")
    assert turn.recorded == ()
    assert turn.reply.ask == asked


def test_a_point_alone_asks_how_high_and_the_next_value_is_for_it(say: Say) -> None:
    asked = say("A1 -8", "C3")
    assert asked.reply.ask == "How many millimetres at C3?"
    assert len(asked.reply.say.split()) <= 8
    turn = say("minus 18")
    assert turn.recorded == ("reading-taken",)
    assert turn.reply.headline.startswith("C3 18 mm below")


def test_a_point_alone_is_forgotten_on_anything_else(say: Say) -> None:
    turn = say("A1 -8", "C3", "waste 7 percent")
    assert turn.reply.ask is None
    assert "lapsed" not in turn.reply.say
    assert say("minus 18").reply.headline.startswith("B1 18 mm below")


def test_a_point_with_a_question_mark_asks(say: Say) -> None:
    turn = say("A1 -8", "A1?")
    assert turn.ok
    assert turn.canonical == "what was A1"
    assert turn.reply.ask is None
