"""What was said is decided once: what is weighed is what is carried out."""

from __future__ import annotations

import pytest

from assistant import answers, decide
from assistant.answers.parts import Moment
from assistant.conversation.conversation import Conversation
from assistant.decide import Decision, World
from assistant.job import Job
from assistant.listening.listening import Listening
from assistant.reply.replies import Reply
from grammar import short_form
from grammar.commands import Command
from grammar.commands.readings import TakeReading
from grammar.commands.talk import WhatIf
from tests.speech.stand_in_hearing import heard


@pytest.fixture
def decided(monkeypatch: pytest.MonkeyPatch) -> list[Command]:
    """Each reading that is decided, as often as it is."""
    found: list[Command] = []
    decider = decide.DECIDERS[TakeReading]

    def counted(job: Job, command: Command, world: World) -> Decision:
        found.append(command)
        return decider(job, command, world)

    monkeypatch.setitem(decide.DECIDERS, TakeReading, counted)
    return found


def forms(decided: list[Command]) -> list[str]:
    return [short_form(command) for command in decided]


def test_a_heard_reading(talk: Conversation, decided: list[Command]) -> None:
    taken = Listening(talk).take(heard("B3 -18 mm", tier="sure"))
    assert taken.turn is not None
    assert taken.turn.recorded == ("reading-taken",)
    assert forms(decided) == ["B3 -18 mm"]


def test_a_heard_reading_with_a_rival(talk: Conversation, decided: list[Command]) -> None:
    assert Listening(talk).take(heard("B3 -15 mm", "B3 -50 mm", tier="sure")).tier == "sure"
    assert forms(decided) == ["B3 -15 mm"]


def test_one_that_the_job_lacks_and_its_rival(talk: Conversation, decided: list[Command]) -> None:
    taken = Listening(talk).take(heard("B13 -15 mm", "B3 -15 mm", tier="sure"))
    assert taken.tier == "ask"
    assert talk.pending is not None
    assert short_form(talk.pending.command) == "B3 -15 mm"
    assert forms(decided) == ["B13 -15 mm", "B3 -15 mm"]


def test_a_typed_reading(talk: Conversation, decided: list[Command]) -> None:
    talk.hear("B3 -18")
    assert forms(decided) == ["B3 -18 mm"]


def test_what_if(
    talk: Conversation, decided: list[Command], monkeypatch: pytest.MonkeyPatch
) -> None:
    answered: list[Command] = []
    answerer = answers.ANSWERS[WhatIf]

    def counted(moment: Moment, command: Command) -> Reply:
        answered.append(command)
        return answerer(moment, command)

    monkeypatch.setitem(answers.ANSWERS, WhatIf, counted)
    turn = talk.hear("what if B3 -18")
    assert turn.reply.data["after"]["points"] == turn.reply.data["before"]["points"] + 1
    assert forms(decided) == ["B3 -18 mm"]
    assert len(answered) == 1


def test_a_heard_reading_that_answers_the_question(
    talk: Conversation, decided: list[Command]
) -> None:
    talk.hear("B3 18")
    decided.clear()
    assert Listening(talk).take(heard("B3 -18 mm", tier="sure")).tier == "sure"
    assert talk.pending is None
    assert forms(decided) == ["B3 -18 mm"]
