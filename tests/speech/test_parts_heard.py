"""A fraction heard without its unit in a job kept in millimetres."""

from __future__ import annotations

import pytest

from assistant.conversation.conversation import Conversation
from assistant.ears.script import heard_text
from assistant.listening.listening import Listening
from tests.speech.stand_in_hearing import heard, readings, said


@pytest.mark.parametrize(
    ("answer", "mm"), [("confirm", -9.525), ("inches", -9.525), ("no millimetres", -0.375)]
)
def test_it_is_asked_about(
    listening: Listening, talk: Conversation, answer: str, mm: float
) -> None:
    taken = listening.take(heard_text("bravo three three eighths low"))
    assert (
        said(taken) == "Bravo three, is it three eighths of an inch? Confirm, or say millimetres."
    )
    assert readings(talk) == {}
    listening.take(heard_text(answer))
    assert float(readings(talk)["B3"]) == mm


def test_inches_still_tells_two_that_were_heard_apart(
    listening: Listening, talk: Conversation
) -> None:
    listening.take(heard("bravo three minus two inches", "bravo three minus two millimetres"))
    listening.take(heard_text("millimetres"))
    assert float(readings(talk)["B3"]) == -2
