"""Lines that were taken for something else than was meant: what comes of each now."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.conversation.conversation import Conversation
from assistant.reply.replies import Turn
from assistant.terminal.screen import reply_lines
from grammar import PHRASES, short_form, understand
from grammar.offered import offered_for

Say = Callable[..., Turn]


# --- clocks start by what is said of the thing itself, and by nothing else -------------------

OFFERED = [
    ("poured", "pour finished"), ("all poured", "pour finished"), ("it's poured", "pour finished"),
    ("we've poured", "pour finished"), ("I'm done pouring", "pour finished"),
    ("pouring done", "pour finished"), ("finished with the pour", "pour finished"),
    ("primed", "primer on"), ("we've primed the floor", "primer on"),
    ("first coat on", "primer on"), ("the floor is primed", "primer on"),
    ("mixing", "water in"), ("we're mixing now", "water in"), ("started mixing", "water in"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "meant"), OFFERED)
def test_what_is_told_in_passing_is_offered_and_starts_nothing(
    talk: Conversation, say: Say, line: str, meant: str
) -> None:
    before = len(talk.job.history)
    turn = say(line)
    assert not turn.recorded
    assert turn.reply.headline == f"Did you mean: {meant}?"
    assert len(talk.job.history) == before
    assert say("yes").recorded


@pytest.mark.parametrize(
    "line",
    ["we poured the slab in May", "they poured it last week", "poured yesterday",
     "we're mixing by hand today", "is he mixing", "never mixing that again",
     "the first coat on the wall was blue", "have you primed it"],
)  # fmt: skip
def test_talk_of_it_offers_no_clock(talk: Conversation, say: Say, line: str) -> None:
    before = len(talk.job.history)
    assert not say(line).recorded
    assert talk.pending is None
    assert len(talk.job.history) == before


@pytest.mark.parametrize(
    ("line", "meant"),
    [("pour is finished", "pour finished"), ("done pouring", "pour finished"),
     ("primer is on the floor", "primer on"), ("second coat of primer on", "primer on"),
     ("the water's in", "water in"), ("next mix in", "water in"), ("hose is down", "hose on")],
)  # fmt: skip
def test_what_is_said_of_the_thing_itself_starts_its_clock(line: str, meant: str) -> None:
    (command,) = understand(line)
    assert short_form(command) == meant


def test_what_is_offered_is_never_taken() -> None:
    count = 0
    for phrase in PHRASES:
        for template in phrase.offered:
            count += 1
            assert "<" not in template
    assert count > 10
    assert offered_for("tally") is None


# --- said of doors ----------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["door 1 is level", "door 2 level", "door 1 is dead flat"])
def test_a_level_door_is_asked_about(talk: Conversation, say: Say, line: str) -> None:
    say("door 1 left -4 mm right -4 mm", "door 1 outside -4 mm")
    finish, turn = talk.job.finish_said, say(line)
    assert not turn.ok
    assert "left and right, or the floor outside?" in turn.reply.headline
    assert talk.pending is None
    assert talk.job.finish_said == finish


def test_a_floor_outside_that_is_not_tied_yet_is_read_back(say: Say) -> None:
    reply = say("A1 -8 mm", "new set up", "door 1 outside plus 30 mm").reply
    assert reply.headline == "Door 1: its step is not known until set-up 2 is tied."
    assert reply.details == ("Outside 30 mm above.",)
    assert reply.say == "Door one: read, not tied yet."


@pytest.mark.parametrize(
    "lines",
    [("door 2 left -4 mm right -9 mm outside +40 mm",),
     ("door 2 left -4 mm right -9 mm outside +40 mm", "door 2 outside +50 mm")],
)  # fmt: skip
def test_a_stop_at_a_door_is_taken_in_at_a_glance(say: Say, lines: tuple[str, ...]) -> None:
    reply = say(*lines).reply
    assert {w.severity for w in reply.warnings} == {"stop", "caution"}
    shown = [str(line) for line in reply_lines(reply, 60)]
    assert len(shown) <= 8, shown
    assert any("STOP" in line for line in shown)
    assert any("1 caution besides: warnings." in line for line in shown)


# --- help, and the rest ------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["help me", "help me please", "help with this", "help here"])
def test_help_alone_however_it_is_asked_for(say: Say, line: str) -> None:
    assert say(line).reply.headline == say("help").reply.headline


@pytest.mark.parametrize(
    ("line", "topic"),
    [("help with doors", "doors"), ("help me with the doors", "doors"),
     ("help about clocks", "clocks"), ("help on the finish", "finish"),
     ("help me understand readings", "readings")],
)  # fmt: skip
def test_small_words_are_no_topic(say: Say, line: str, topic: str) -> None:
    reply = say(line).reply
    assert reply.headline.endswith(f"to say about {topic}.")
    assert reply.data == say(f"help {topic}").reply.data


def test_help_about_a_point_lists_what_names_one(say: Say) -> None:
    reply = say("help B3").reply
    assert reply.headline.endswith("things to say about B3.")
    templates = [each["template"] for each in reply.data["phrases"]]
    assert "strike [point] <point>" in templates
    assert all("point" in template for template in templates)


def test_a_pour_that_stopped_is_not_taken_for_a_question(say: Say) -> None:
    turn = say("pour stopped")
    assert not turn.ok
    assert turn.reply.headline.startswith("The pour has not begun")


def test_us_is_as_polite_as_me(say: Say) -> None:
    say("A1 -8 mm", "B1 -12 mm")
    for line in ("give us the deepest", "show us the deepest", "can you tell us the deepest"):
        assert say(line).reply.headline.startswith("Deepest at B1"), line


def test_a_unit_of_another_kind_offers_the_way_on(talk: Conversation, say: Say) -> None:
    turn = say("B3 -18 degrees")
    assert not turn.ok
    assert "“degrees” is an angle" in turn.reply.headline
    assert "Without that word: B3 -18." in turn.reply.headline
    assert not talk.job.readings
    assert "Without" not in say("room 12 by 8 kilos").reply.headline


def test_a_zone_by_its_own_name_alone_is_known_on_a_job_that_has_it(say: Say) -> None:
    """A yard is a unit elsewhere, and a salon any word."""
    say("room 12 by 8 metres", "grid 2 metres")
    assert "no unit" in say("tally yard").reply.headline
    say("zone salon columns A to B", "zone yard columns C to D")
    for name in ("yard", "salon"):
        assert say(f"tally {name}").reply.headline.startswith(f"Taken as tally zone {name}.")
        asked = say(f"finish in {name} 6 mm above zero")
        assert asked.reply.headline == f"Did you mean: finish in zone {name} +6 mm?"
        assert say("yes").recorded
    assert "no zone" in say("tally zone garden").reply.headline.lower()
