"""What is said, what waits, and what is on disk when the answer comes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from fractions import Fraction

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.taking import LONGEST
from assistant.decide import World
from assistant.errors import JournalError, Refusal
from assistant.events.kinds import Event
from assistant.floor.depths import depths_of
from assistant.job import EMPTY
from assistant.record.journal import Journal
from assistant.record.left_open import LeftOpen
from assistant.record.sent_lines import Sender
from assistant.reply.replies import Turn
from grammar import understand

Say = Callable[..., Turn]


def depth_mm(talk: Conversation, point: str) -> Fraction | None:
    return depths_of(talk.job).get(point)


# --- a reading with a side ------------------------------------------------------


def test_a_reading_is_on_record_and_read_back(
    say: Say, talk: Conversation, journal: Journal
) -> None:
    turn = say("bravo three, eighteen low")
    assert turn.ok
    assert (turn.command, turn.canonical) == ("TakeReading", "B3 -18 mm")
    assert turn.recorded == ("reading-taken",)
    assert depth_mm(talk, "B3") == 18
    assert list(journal.utterances())[-1][1] == "bravo three, eighteen low"


def test_the_short_form_means_the_same(say: Say) -> None:
    turn = say("bravo three minus one and five eighths inches")
    assert turn.canonical == "B3 -1 5/8 in"
    assert say(turn.canonical).canonical == turn.canonical


def test_a_bare_reading_goes_to_the_next_point(say: Say) -> None:
    assert say("minus 18").canonical == "A1 -18 mm"
    assert say("minus 17").canonical == "B1 -17 mm"


# --- below or above? ---------------------------------------------------------------


@pytest.mark.parametrize(
    ("side", "depth"), [("below", 18), ("minus", 18), ("low", 18), ("above", -18), ("plus", -18)]
)
def test_without_a_side_it_is_asked_and_the_next_words_answer(
    say: Say, talk: Conversation, side: str, depth: int
) -> None:
    asked = say("B3 18")
    assert asked.ok
    assert asked.recorded == ()
    assert asked.reply.ask is not None
    assert "below or above?" in asked.reply.ask
    assert talk.job.readings == {}
    answered = say(side)
    assert answered.command == "ChooseSide"
    assert answered.canonical in ("below", "above")
    assert answered.recorded == ("reading-taken",)
    assert answered.reply.ask is None
    assert depth_mm(talk, "B3") == depth


def test_the_record_keeps_both_what_was_asked_about_and_the_answer(
    say: Say, journal: Journal
) -> None:
    say("B3 18", "below")
    assert list(journal.utterances())[-1][1] == "B3 18\nbelow"


def test_the_same_size_with_a_side_is_the_answer(say: Say, talk: Conversation) -> None:
    """ "B3 18" - "below or above?" - "minus 18" must not go to the next point."""
    turn = say("B3 18", "minus 18")
    assert (turn.command, turn.canonical) == ("TakeReading", "B3 -18 mm")
    assert set(talk.job.readings) == {"B3"}


def test_another_size_with_a_side_is_no_answer_and_no_reading(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "minus 7")
    assert not turn.ok
    assert talk.job.readings == {}
    assert turn.reply.headline.startswith("Which point is that for? B3 is still open")
    assert say("below").recorded == ("reading-taken",)
    assert depth_mm(talk, "B3") == 18


def test_an_equal_value_by_chance_is_no_answer_to_a_value_alone(
    say: Say, talk: Conversation
) -> None:
    """18: below or above? -18: of this point, or of the next one?"""
    turn = say("A1 -17", "18", "-18")
    assert not turn.ok
    assert set(talk.job.readings) == {"A1"}


def test_the_whole_reading_again_is_the_answer(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "B3 18 below")
    assert depth_mm(talk, "B3") == 18
    assert not any("lapsed" in line for line in turn.reply.details)


def test_cancelled_is_left_as_it_was(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "cancel that")
    assert turn.ok
    assert turn.reply.headline == "B3: left as it was, nothing recorded."
    assert talk.pending is None
    assert talk.job.readings == {}


def test_yes_is_no_side(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "confirm")
    assert not turn.ok
    assert turn.reply.ask is not None
    assert "below or above?" in turn.reply.ask
    assert talk.pending is not None
    say("below")
    assert depth_mm(talk, "B3") == 18


def test_a_question_about_the_job_leaves_it_waiting(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "tally")
    assert turn.ok
    assert turn.command == "AskTally"
    assert turn.reply.ask is not None
    assert "below or above?" in turn.reply.ask
    say("above")
    assert depth_mm(talk, "B3") == -18


def test_noise_leaves_it_waiting(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "what was that bang")
    assert not turn.ok
    assert turn.reply.ask is not None
    assert "below or above?" in turn.reply.ask
    say("below")
    assert depth_mm(talk, "B3") == 18


def test_what_is_refused_leaves_it_waiting(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "strike C3")
    assert not turn.ok
    assert talk.pending is not None


def test_another_change_lets_it_lapse(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "C3 -4")
    assert set(talk.job.readings) == {"C3"}
    assert talk.pending is None
    assert turn.reply.details[-1] == ("(the question about B3 lapsed, nothing recorded for it)")
    assert not say("below").ok


def test_another_question_takes_its_place(say: Say, talk: Conversation) -> None:
    turn = say("B3 18", "C3 4")
    assert turn.reply.ask is not None
    assert turn.reply.ask.startswith("C3")
    assert any("question about B3 lapsed" in line for line in turn.reply.details)
    say("below")
    assert set(talk.job.readings) == {"C3"}


def test_a_correction_without_a_side_is_asked_about_too(say: Say, talk: Conversation) -> None:
    say("B3 -18", "correct B3 to 16", "below")
    assert depth_mm(talk, "B3") == 16


def test_what_if_without_a_side_is_asked_about_and_records_nothing(
    say: Say, talk: Conversation
) -> None:
    say("B3 -18")
    asked = say("what if C3 25")
    assert asked.reply.ask is not None
    answered = say("below")
    assert answered.ok
    assert answered.reply.data["before"]["points"] == 1
    assert answered.reply.data["after"]["points"] == 2
    assert set(talk.job.readings) == {"B3"}
    assert talk.pending is None


@pytest.mark.parametrize("line", ["below", "confirm", "cancel that"])
def test_an_answer_without_a_question(say: Say, line: str) -> None:
    turn = say(line)
    assert not turn.ok
    assert "waiting for an answer" in turn.reply.headline


# --- confirm, or cancel --------------------------------------------------------------


@pytest.fixture
def open_walls(journal: Journal, world: World) -> Conversation:
    """Three walls of four: they end 4 m from where they began."""
    conversation = Conversation(journal, world)
    for wall in ("east 6", "north 4", "west 6"):
        assert conversation.hear(f"wall {wall} metres").ok
    return conversation


def test_confirm_does_as_asked(open_walls: Conversation) -> None:
    asked = open_walls.hear("close room")
    assert asked.ok
    assert asked.recorded == ()
    assert asked.reply.ask is not None
    done = open_walls.hear("confirm")
    assert (done.command, done.canonical) == ("Confirm", "confirm")
    assert done.recorded == ("room-closed",)
    assert open_walls.pending is None


def test_cancel_leaves_it(open_walls: Conversation) -> None:
    open_walls.hear("close room")
    before = open_walls.job
    assert open_walls.hear("cancel that").recorded == ()
    assert open_walls.job == before
    assert not open_walls.hear("confirm").ok


def test_below_is_no_yes(open_walls: Conversation) -> None:
    open_walls.hear("close room")
    turn = open_walls.hear("below")
    assert not turn.ok
    assert open_walls.pending is not None


# --- said one way, meant another -------------------------------------------------------


def test_only_the_meaning_that_the_floor_can_take_counts(say: Say) -> None:
    """There is no B31 here: thirty-one eight is B3, eighteen or nothing."""
    meanings = understand("bravo two one eight below")
    assert len(meanings) > 1, "the example must be ambiguous"
    turn = say("bravo two one eight below")
    assert turn.ok
    assert turn.canonical == "B2 -18 mm"


@pytest.fixture
def long_room(journal: Journal, world: World) -> Conversation:
    """Two columns of 40 rows, so that B30 and B31 are both there."""
    conversation = Conversation(journal, world)
    for line in ("room 4 by 80 metres", "grid 2 metres"):
        assert conversation.hear(line).ok
    return conversation


@pytest.mark.parametrize("meant", ["B30 -18", "B31 -8"])
def test_two_meanings_are_asked_about_and_neither_is_recorded(
    long_room: Conversation, meant: str
) -> None:
    turn = long_room.hear("bravo thirty one eight below")
    assert turn.ok
    assert turn.recorded == ()
    assert turn.canonical is None
    assert turn.reply.ask is not None
    assert "“B31 -8 mm”" in turn.reply.ask or "“B31 -8”" in turn.reply.ask
    assert "B30 -18" in turn.reply.ask
    assert long_room.job.readings == {}
    assert not long_room.hear("confirm").ok
    answered = long_room.hear(meant)
    assert answered.recorded == ("reading-taken",)
    assert not any("lapsed" in line for line in answered.reply.details)
    assert set(long_room.job.readings) == {meant.split()[0]}


# --- say again, and lines that say nothing ------------------------------------------------


def test_say_again(say: Say) -> None:
    first = say("B3 -18")
    again = say("say again")
    assert again.ok
    assert again.recorded == ()
    assert again.reply.headline == first.reply.headline
    assert say("say again").reply.headline == first.reply.headline


def test_say_again_asks_again(say: Say) -> None:
    turn = say("B3 18", "tally", "say again")
    assert turn.reply.ask is not None
    assert "below or above?" in turn.reply.headline


def test_say_again_at_the_start(journal: Journal, world: World) -> None:
    assert Conversation(journal, world).hear("say again").ok


@pytest.mark.parametrize("line", ["", "   ", "um", "..."])
def test_nothing_said_does_nothing(say: Say, line: str, journal: Journal) -> None:
    count = journal.last_utterance()
    assert say(line).recorded == ()
    assert journal.last_utterance() == count


def test_where_it_stopped_making_sense(say: Say) -> None:
    turn = say("B3 banana 18")
    assert not turn.ok
    assert (turn.command, turn.canonical, turn.recorded) == (None, None, ())
    assert "banana" in turn.reply.headline
    miss = turn.reply.data["misunderstood"]
    assert set(miss) == {"position", "found", "accepted", "nearest"}
    assert (miss["position"], miss["found"]) == (3, "banana")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("B3 minus 18 degrees", "“degrees” is an angle, not a length"),
        ("B3 -18 kg", "“kg” is a mass, not a length"),
        ("room 12 by 8 litres", "“litres” is a volume, not a length"),
        ("room 12 by 8 furlongs", "“furlongs” is no unit for this"),
    ],
)
def test_a_unit_of_the_wrong_kind(say: Say, line: str, told: str) -> None:
    turn = say(line)
    assert not turn.ok
    assert told in turn.reply.headline
    assert "mm, cm, m, in or ft" in turn.reply.headline


def test_what_the_job_cannot_take_says_why(say: Say, talk: Conversation) -> None:
    turn = say("Z9 -18")
    assert not turn.ok
    assert (turn.command, turn.canonical) == ("TakeReading", "Z9 -18 mm")
    assert "Z9" in turn.reply.headline
    assert talk.job.readings == {}


@pytest.mark.parametrize(
    "line",
    [
        "x" * 100_000,
        "B3 -18 " * 20_000,
        "\x00",
        "B3\x00-18",
        "\x1b[31mB3 -18\x1b[0m",
        "\ud83d B3",
        "\udcff\udcfe",
        "B3 -" + "9" * 500,
        "B3 -" + "0" * 900,
        "(((((((((((",
        "١٨",
        "B3 -1e999999",
        "what if " * 100,
    ],
)
def test_odd_lines_raise_nothing(say: Say, line: str) -> None:
    turn = say(line)
    assert turn.text.encode("utf-8")
    assert len(turn.reply.headline) < 700


def test_a_pasted_file_is_not_parsed(say: Say) -> None:
    turn = say("B3 -18 " * LONGEST)
    assert not turn.ok
    assert "One thing a line" in turn.reply.headline


# --- the record ------------------------------------------------------------------------------


class Failing:
    """A journal whose disk is full."""

    def __init__(self, kept: Journal) -> None:
        self.kept = kept
        self.path = kept.path
        self.full = False

    def append(
        self,
        said: str,
        events: Sequence[Event],
        time: datetime | None = None,
        *,
        sender: Sender | None = None,
    ) -> int:
        if self.full:
            raise JournalError("the disk is full")
        return self.kept.append(said, events, time, sender=sender)

    def utterances(self) -> Iterable[tuple[int, str, Sequence[Event], datetime, str]]:
        return self.kept.utterances()

    def news(self) -> tuple[()]:
        return ()

    def keep_open(self, left: LeftOpen | None) -> None:
        if self.full:
            raise JournalError("the disk is full")
        self.kept.keep_open(left)

    def left_open(self) -> None:
        return None


def test_a_full_disk_is_told_and_the_job_stays(journal: Journal, world: World) -> None:
    record = Failing(journal)
    conversation = Conversation(record, world)
    conversation.hear("room 8 by 6 metres")
    before = conversation.job
    record.full = True
    turn = conversation.hear("grid 2 metres")
    assert not turn.ok
    assert turn.recorded == ()
    assert "Nothing was recorded" in turn.reply.headline
    assert conversation.job == before
    record.full = False
    assert conversation.hear("grid 2 metres").recorded == ("grid-set",)


def test_a_full_disk_leaves_the_question_waiting(journal: Journal, world: World) -> None:
    record = Failing(journal)
    conversation = Conversation(record, world)
    conversation.hear("B3 18")
    record.full = True
    assert not conversation.hear("below").ok
    assert conversation.pending is not None
    record.full = False
    assert conversation.hear("below").recorded == ("reading-taken",)


def test_a_refused_answer_leaves_the_question_waiting(
    journal: Journal, world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    conversation = Conversation(journal, world)
    asked = conversation.hear("B3 18").reply.ask

    def refuse(*_: object, **__: object) -> None:
        raise Refusal("Not that way.")

    with monkeypatch.context() as patch:
        patch.setattr("assistant.conversation.carrying_out.weigh_meaning", refuse)
        turn = conversation.hear("above")
        assert (turn.ok, turn.recorded) == (False, ())
        assert turn.reply.headline == "Not that way."
        assert turn.reply.ask == asked
    assert conversation.hear("below").recorded == ("reading-taken",)


def test_stopped_between_disk_and_answer_it_is_read_back(
    talk: Conversation, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl-C just after the reading went to disk."""

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr("assistant.conversation.job_on_record.record", stopped)
        with pytest.raises(KeyboardInterrupt):
            talk.hear("B3 -18")
    talk.hear("tally")
    assert depth_mm(talk, "B3") == 18


def test_a_fault_of_the_program_is_told_and_loses_nothing(
    journal: Journal, world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    noted: list[Exception] = []

    def note(fault: Exception) -> str:
        noted.append(fault)
        return "faults.log"

    def broken(*_: object) -> None:
        raise ZeroDivisionError("division by zero")

    conversation = Conversation(journal, world, on_fault=note)
    with monkeypatch.context() as patch:
        patch.setattr("assistant.conversation.carrying_out.answer", broken)
        turn = conversation.hear("B3 -18")
    assert not turn.ok
    assert turn.recorded == ("reading-taken",)
    assert "is on disk" in turn.reply.headline
    assert "faults.log" in turn.reply.details[0]
    assert isinstance(noted[0], ZeroDivisionError)
    assert conversation.hear("strike B3").ok


def test_starting_again_goes_on_where_it_stopped(say: Say, journal: Journal, world: World) -> None:
    say("B3 -18", "C3 -4", "take that back")
    again = Conversation(journal, world)
    assert set(again.job.readings) == {"B3"}
    assert again.job != EMPTY
    assert again.hear("redo").ok
    assert set(again.job.readings) == {"B3", "C3"}
