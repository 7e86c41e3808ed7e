"""A value that no floor has, where nothing was read yet, talked over before it counts."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from assistant.__main__ import main
from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.reply.replies import Turn

Say = Callable[..., Turn]


@pytest.fixture
def doubted(say: Say) -> Turn:
    """A1 is next: eighteen, with two digits too many."""
    return say("A1 -1800")


def test_nothing_is_recorded_till_it_is_settled(doubted: Turn, talk: Conversation) -> None:
    assert (doubted.ok, doubted.recorded) == (True, ())
    assert doubted.reply.ask is not None
    assert doubted.reply.ask.startswith("A1 1800 mm below? A floor to be poured lies within 400")
    assert talk.job.readings == {}


@pytest.mark.parametrize("word", ["confirm", "A1 -1800", "A1 1800", "below"])
@pytest.mark.usefixtures("doubted")
def test_said_again_or_confirmed_it_is_kept(say: Say, talk: Conversation, word: str) -> None:
    turn = say(word)
    assert turn.recorded == ("reading-taken", "reading-accepted")
    assert "Kept as read; it will not be asked about again." in turn.reply.details
    assert talk.job.readings["A1"].mm == -1800


@pytest.mark.parametrize("other", ["A1 -18", "alpha one minus eighteen"])
@pytest.mark.usefixtures("doubted")
def test_another_value_is_taken_instead(say: Say, talk: Conversation, other: str) -> None:
    assert say(other).recorded == ("reading-taken",)
    assert talk.job.readings["A1"].mm == -18
    assert talk.pending is None


@pytest.mark.usefixtures("doubted")
def test_cancelled_it_is_left_unread(say: Say, talk: Conversation) -> None:
    assert say("cancel that").recorded == ()
    assert talk.job.readings == {}
    assert say("next point").reply.data["next"] == "A1"


def test_after_its_side_was_asked(say: Say, talk: Conversation) -> None:
    assert say("A1 1800").reply.ask == "A1, 1800 mm: below or above?"
    asked = say("below").reply.ask
    assert asked is not None
    assert asked.startswith("A1 1800 mm below? A floor")
    assert say("confirm").recorded
    assert talk.job.readings["A1"].mm == -1800


def test_a_door_is_confirmed_or_left(say: Say, talk: Conversation) -> None:
    assert say("door 1 left -4 right -1800", "cancel that").recorded == ()
    assert talk.job.doors == {}
    assert say("door 1 left -4 right -1800", "confirm").recorded == ("door-measured",)


def test_a_grid_that_leaves_out_a_reading(world: World, journal: Journal) -> None:
    talk = Conversation(journal, world)
    for line in ("Z83 -18", "room 6 by 4 metres", "grid 1 metre"):
        turn = talk.hear(line)
    assert turn.recorded == ()
    assert talk.hear("confirm").recorded == ("grid-set",)


def test_played_lines_answer_it_like_other_questions(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = tmp_path / "lines.txt"
    lines.write_text("A1 -1800\nconfirm\nB1 +1800\nB1 -18\nC1 +1800 # nobody answers\nD1 -17\n")
    assert main(["run", "--json", str(lines)]) == 1, "C1 was asked about and left"
    told = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [line["recorded"] for line in told] == [
        [],
        ["reading-taken", "reading-accepted"],
        [],
        ["reading-taken"],
        [],
        ["reading-taken"],
    ]
    assert [line["lapsed"] for line in told] == [None] * 5 + ["C1"]
    assert told[0]["data"]["suspect"]["farthest_mm"] == 400
