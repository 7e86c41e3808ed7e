"""A note said aloud: begun and ended by words, in as many breaths as it takes."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.ears.hearing import Heard
from assistant.ears.script import heard_text
from assistant.listening.listening import Listening
from assistant.listening.spoken_note import LONGEST, SpokenNote
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.reply.replies import Turn
from assistant.reply.speaking_time import PIECE_S, speaking_seconds
from grammar.spoken import Spoken


class Site:
    """A floor that is spoken to."""

    def __init__(self) -> None:
        world = World(cards_in(shipped_folder()))
        self.talk = Conversation(Journal.open(None), world)
        self.talk.hear("room 8 by 6 metres")
        self.talk.hear("grid 2 metres")
        self.listening = Listening(self.talk)

    def say(self, *lines: str | Heard, whole: bool = True) -> Turn:
        turns = []
        for line in lines:
            heard = heard_text(line) if isinstance(line, str) else line
            turn = self.listening.take(heard, whole=whole).turn
            assert turn is not None
            turns.append(turn)
        return turns[-1]

    @property
    def notes(self) -> list[tuple[str | None, str]]:
        return [(note.point, note.words) for note in self.talk.job.notes]


def test_a_note_has_several_breaths_and_is_read_back() -> None:
    site = Site()
    site.say("write this down at bravo two", "Crack along the wall,", "two millimetres wide")
    assert site.notes == []
    turn = site.say("end of note")
    assert site.notes == [("B2", "Crack along the wall, two millimetres wide")]
    assert turn.recorded == ("note-taken",)
    assert turn.reply.say == "Noted. Crack along the wall, two millimetres wide."
    site.say("take that back")
    assert site.notes == []


def test_what_would_be_a_command_is_a_part_of_the_note() -> None:
    site = Site()
    site.say("write this down", "bravo three minus eighteen millimetres", "tally", "end of note")
    assert site.notes == [(None, "bravo three minus eighteen millimetres tally")]
    assert not site.talk.job.readings
    site.say("bravo three minus eighteen millimetres")
    assert "B3" in site.talk.job.readings


def test_its_end_may_be_said_in_the_same_breath() -> None:
    site = Site()
    site.say("write this down", "The slab is wet. End of note.")
    assert site.notes == [(None, "The slab is wet.")]


def test_nothing_is_kept_of_a_note_that_is_dropped_or_empty() -> None:
    site = Site()
    site.say("write this down", "never mind this", "drop note")
    assert not site.say("write this down", "end of note").ok
    assert site.notes == []
    assert "No note is being said" in site.say("end of note").reply.headline


def test_a_part_that_may_be_missing_is_marked() -> None:
    site = Site()
    site.say("write this down", "the slab")
    site.say("wet near the door", whole=False)
    assert site.say("end of note").ok
    assert site.notes == [(None, "the slab … wet near the door")]


def test_a_question_waits_till_the_note_is_said() -> None:
    site = Site()
    site.talk.hear("B3 18")
    site.say("write this down", "a pipe is in the way", "end of note")
    assert site.talk.pending is not None
    assert site.say("minus eighteen millimetres").recorded == ("reading-taken",)


def test_ears_that_know_no_other_words_say_so() -> None:
    site = Site()
    turn = site.say(replace(heard_text("write this down"), free=None))
    assert not turn.ok
    assert "Type the note" in turn.reply.headline
    assert site.say("tally").ok


def test_a_note_without_an_end_ends_where_a_line_does() -> None:
    site = Site()
    site.say("write this down")
    for _ in range(LONGEST // 30 + 2):
        turn = site.say("the slab is wet along the wall")
        if turn.recorded:
            break
    assert len(site.notes) == 1
    assert not site.listening.note.is_open
    assert speaking_seconds(turn.reply.say) <= PIECE_S


@pytest.mark.parametrize("said", ["write this down", "write this down at bravo three",
                                  "end of note", "drop note"])  # fmt: skip
def test_its_words_may_be_said(said: str) -> None:
    assert Spoken().automaton.accepts(said.split())


def test_no_note_is_open_at_first() -> None:
    def never(_: str) -> Turn:
        raise AssertionError("nothing was said")

    note = SpokenNote(never)
    assert note.take(heard_text("tally"), whole=True) is None
    assert not note.is_open
