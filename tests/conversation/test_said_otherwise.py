"""Lines as a phone writes them, or as somebody says them who says more than one thing."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.record.journal import Journal
from assistant.reply.replies import Turn

Say = Callable[..., Turn]

FLOOR = ("room 12 by 8 metres", "product example standard", "grid 2 metres", "B3 -18", "C3 -17")


@pytest.fixture
def floor(say: Say) -> Say:
    for line in FLOOR:
        assert say(line).ok
    return say


@pytest.mark.parametrize(
    ("line", "events"),
    [
        ("a two minus seventeen full stop b two minus eighteen full stop", 2),
        ("see two is minus seventeen and dee two is minus eighteen", 2),
        ("C2 minus double one", 1),
        ("point C two is under by 16", 1),
    ],
)
def test_readings_written_as_they_sounded_are_taken(floor: Say, line: str, events: int) -> None:
    assert floor(line).recorded == ("reading-taken",) * events


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("take B3 out, somebody kicked the staff", "strike B3"),
        ("see three delete that", "strike C3"),
        ("the clips are in now, strike B3", "strike B3"),
    ],
)
def test_what_is_said_beside_a_change_is_let_go(
    floor: Say, journal: Journal, line: str, offered: str
) -> None:
    before = journal.last_utterance()
    turn = floor(line)
    assert turn.reply.ask == f"Did you mean: {offered}?"
    assert journal.last_utterance() == before


@pytest.mark.parametrize(
    "line",
    [
        "same here, I couldn't sleep either",  # holds no value
        "take B3 out, no don't",  # denied
        "take B3 out, then 15",  # a value would go unheard
        "put the humidity at 74 so it passes",  # made up
    ],
)
def test_nothing_is_offered_of_what_may_be_no_order(floor: Say, line: str) -> None:
    turn = floor(line)
    assert turn.recorded == ()
    assert turn.reply.ask is None


def test_of_two_changes_in_a_line_it_is_asked_which_is_first(floor: Say) -> None:
    turn = floor("crew of 5, mixers 2")
    assert turn.recorded == ()
    assert turn.reply.headline == "One at a time, please. Which first: crew 5 or mixers 2?"


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("ring came out 145", "Flow 145: in which unit?"),
        ("gap 3 under 2 metres at C2", "Gap 3 under 2 metres at C2: in which unit?"),
        ("gap 3 mm under 2 at C2", "Gap 3 mm under 2 at C2: in which unit?"),
        ("hold it to SR1", "A limit is chosen by its name. Say spec, then the name."),
        (
            "does the floor meet DIN row 3",
            "A limit is chosen by its name. Say spec, then the name.",
        ),
        ("is it within SR2", "A limit is chosen by its name. Say spec, then the name."),
        ("door rules", "Which country's? Say: door rules usa, or door rules uk."),
        ("back on the datum, a mil out", "Check zero 1 mil: below or above?"),
        ("put a joint in", "Where is the joint: from which point to which?"),
        ("the far corner is fourteen low", "Which point is that?"),
        ("A2 eight or nine", "Which value is it, and below or above?"),
    ],
)
def test_what_is_missing_is_asked_for(floor: Say, line: str, asked: str) -> None:
    turn = floor(line)
    assert turn.recorded == ()
    assert asked in turn.reply.headline


def test_a_word_that_is_explained_is_looked_up(floor: Say) -> None:
    assert floor("what are pins for").canonical == "help pins"
