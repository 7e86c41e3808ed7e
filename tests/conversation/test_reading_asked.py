"""Lines that look like a reading, and may be none."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.conversation.conversation import Conversation
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
