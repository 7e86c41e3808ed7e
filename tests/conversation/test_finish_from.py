"""A finish set from what cannot move: a door's floor outside, or the highest point read."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.meanings import weigh_meaning
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.reply.replies import Turn
from grammar import short_form, understand
from grammar.commands.finish import FinishAtDoor, FinishOverHighest

Say = Callable[..., Turn]
# Depth and height by exact arithmetic throughout.
READ = ("A1 -8 mm", "B1 -3 mm", "C1 -9 mm")


def headline(turn: Turn) -> str:
    assert turn.reply is not None
    return turn.reply.headline


def test_level_with_a_door(talk: Conversation, say: Say) -> None:
    say(*READ, "door 1 outside plus 2 mm")
    turn = say("finish level with door 1")
    assert turn.ok
    assert talk.job.finish_mm == 2
    assert "level with the floor outside door 1" in headline(say("what is the finish"))


def test_what_is_missing_is_named(talk: Conversation, say: Say) -> None:
    refused = say("door 1 left minus 4 mm right minus 4 mm", "finish level with door 1")
    assert not refused.ok
    assert "outside door 1 is not read yet" in headline(refused)
    refused = say("finish 3 mm over highest")
    assert not refused.ok
    assert "No point is read" in headline(refused)
    assert not talk.job.finish_said


def test_over_the_highest_point(talk: Conversation, say: Say) -> None:
    assert say(*READ, "finish 3 mm over highest").ok
    assert talk.job.finish_mm == 0
    assert "3 mm over the highest point, B1" in headline(say("what is the finish"))
    say("finish at the highest point")
    assert talk.job.finish_mm == -3
    say("raise finish 2 mm")
    assert talk.job.finish_mm == -1
    told = headline(say("what is the finish"))
    assert "at the highest point, B1, then 2 mm higher" in told
    say("finish +4 mm")
    assert "as it was said" in headline(say("what is the finish"))


def test_a_door_read_anew_does_not_move_it_and_says_so(talk: Conversation, say: Say) -> None:
    say("door 1 outside plus 2 mm", "finish level with door 1")
    turn = say("door 1 outside plus 5 mm")
    assert talk.job.finish_mm == 2
    assert turn.reply is not None
    assert any("3 mm higher now" in each for each in turn.reply.details)
    say("finish level with door 1")
    assert talk.job.finish_mm == 5
    say("undo")
    assert talk.job.finish_mm == 2


def test_another_set_up_counts_from_the_first_zero(talk: Conversation, say: Say) -> None:
    say(*READ, "new set up", "door 1 outside plus 12 mm")
    refused = say("finish level with door 1")
    assert not refused.ok
    assert "not tied" in headline(refused)
    say("tie on A1 plus 2 mm", "finish level with door 1")
    assert float(talk.job.finish_mm) == pytest.approx(2, abs=1e-4)


def test_inches_stay_exact(talk: Conversation, say: Say) -> None:
    say("readings in inches", "A1 -3/8", "finish 1/16 in over highest")
    assert talk.job.finish_mm * 160 == -5 * 254  # -5/16 in


@pytest.mark.parametrize(
    "line",
    ["finish flush with door 1", "finish at door 1", "match door 1",
     "level with outside of door 1", "pour to door 1",
     "finish level with the floor outside door 1"],
)  # fmt: skip
def test_ways_to_say_a_door(line: str) -> None:
    assert set(understand(line)) == {FinishAtDoor(1)}


@pytest.mark.parametrize(
    "line", ["finish 3 above the highest", "finish 3 over the highest point", "3 over the highest"]
)
def test_ways_to_say_the_highest(line: str) -> None:
    (command,) = understand(line)
    assert isinstance(command, FinishOverHighest)
    assert command.over is not None
    assert command.over.number == 3
    assert set(understand(short_form(command))) == {command}


def test_once_poured_it_is_asked_first(world: World) -> None:
    talk = Conversation(Journal.open(None), world)
    for line in ("room 8 by 6 metres", "grid 2 metres", *READ, "pour finished"):
        talk.hear(line)
    assert weigh_meaning(talk.job, world, FinishOverHighest()).decision.ask is not None
