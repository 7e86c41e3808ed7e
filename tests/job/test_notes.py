"""Remarks in the installer's own words: kept as said, never taken for anything else."""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.lines import utterance_in
from assistant.record.journal import Journal
from assistant.reply.speaking_time import PIECE_S, speaking_seconds
from assistant.terminal.screen import reply_lines
from grammar import short_form, understand
from grammar.commands.notes import TakeNote
from tests.job.conftest import WORLD, Site

FLOOR = ("room 8 by 6 metres", "grid 2 metres", "A1 -18", "B2 -17")

SAID = [
    ("note at B2 crack along the wall", "B2", "crack along the wall"),
    ("Note at bravo two: is it wet?", "B2", "is it wet?"),
    ("note on point b2, 3/8 in wide!", "B2", "3/8 in wide!"),
    ("note: the Client wants OAK, not tiles...", None, "the Client wants OAK, not tiles..."),
    ("note so the drain is ok, well, just", None, "so the drain is ok, well, just"),
    ("could you note the slab is wet please", None, "the slab is wet please"),
    ("make a note the slab is wet", None, "the slab is wet"),
    ("remark crack at B2", None, "crack at B2"),
    ("note undo", None, "undo"),
    ("note B3 -18", None, "B3 -18"),
    ("note room 12 by 8", None, "room 12 by 8"),
    ("note at 10 am the mixer came", None, "at 10 am the mixer came"),
    ("note 2,5 mm over there", None, "2,5 mm over there"),
    ("note because of the rain", None, "because of the rain"),
    ("note what if product fine?", None, "what if product fine?"),
    ("note \u2764 caf\u00e9 \u6c34 \u200f\u05d0", None, "\u2764 caf\u00e9 \u6c34 \u200f\u05d0"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "point", "words"), SAID, ids=[line for line, *_ in SAID])
def test_a_note_is_kept_as_it_was_said(line: str, point: str | None, words: str) -> None:
    assert understand(line) == (TakeNote(words, point),)
    assert understand(short_form(TakeNote(words, point))) == (TakeNote(words, point),)


@pytest.mark.parametrize(("line", "point", "words"), SAID, ids=[line for line, *_ in SAID])
def test_it_changes_nothing_else(
    line: str, point: str | None, words: str, site: type[Site]
) -> None:
    floor = site(*FLOOR)
    before = floor.job
    floor.told(line)
    (note,) = floor.job.notes
    assert (note.words, note.point) == (words, point)
    assert floor.job.readings == before.readings
    assert floor.job.settings == before.settings
    floor.told("undo")
    assert floor.job == before


def test_words_that_could_be_a_reading_are_said_to_be_none(site: type[Site]) -> None:
    floor = site(*FLOOR)
    assert floor.told("note B3 -18").details == ("Kept as words alone; it changes nothing else.",)
    assert not floor.told("note wet").details


def test_a_note_stands_with_its_points(site: type[Site]) -> None:
    floor = site(*FLOOR, "note at B2 crack", "note pallet on A1 and B2", "note client was here")
    told = floor.told("readings")
    (table,) = told.tables
    assert table.columns[-1] == "Notes"
    assert {row[0]: row[-1] for row in table.rows} == {
        "A1": "pallet on A1 and B2", "B2": "crack; pallet on A1 and B2"
    }  # fmt: skip
    assert floor.told("notes").headline == "3 notes."
    assert [each["words"] for each in floor.told("notes at A1").data["notes"]] == [
        "pallet on A1 and B2"
    ]
    assert floor.told("notes about C3").headline.startswith("No notes about C3 yet")


def test_without_notes_there_is_no_column_for_them(site: type[Site]) -> None:
    (table,) = site(*FLOOR, "note client was here").told("readings").tables
    assert "Notes" not in table.columns


def test_a_note_with_nothing_in_it_or_nowhere_is_refused(site: type[Site]) -> None:
    assert "There is no point Z9" in site(*FLOOR).refused("note at Z9 crack")
    talk = Conversation(Journal.open(None), WORLD)
    for line in ("note", "note at B2", "note ...", "delete the note"):
        assert talk.hear(line).recorded == (), line
    assert "Say what to note" in talk.hear("note").reply.headline
    assert "taken back with undo" in talk.hear("delete last note").reply.headline
    assert "a note says something" in talk.hear("note at B2").reply.headline


def test_a_question_waits_on_while_something_is_noted() -> None:
    talk = Conversation(Journal.open(None), WORLD)
    for line in ("room 8 by 6 metres", "grid 2 metres", "B2 18"):
        talk.hear(line)
    asked = talk.pending
    assert asked is not None
    noted = talk.hear("note at B2 a pipe is in the way")
    assert noted.recorded == ("note-taken",)
    assert "lapsed" not in " ".join(noted.reply.details)
    assert talk.pending is asked
    assert talk.hear("below").recorded == ("reading-taken",)
    assert float(talk.job.readings["B2"].mm) == -18


def test_control_signs_reach_no_terminal() -> None:
    talk = Conversation(Journal.open(None), WORLD)
    reply = talk.hear("note \x1b[2Jred \x07bell\nnext line").reply
    assert talk.job.notes[0].words == "\x1b[2Jred \x07bell next line"
    shown = "\n".join(str(line) for line in reply_lines(talk.hear("notes").reply, 60))
    assert "\\x1b[2Jred \\x07bell next line" in shown
    assert "\x1b" not in "".join(str(line) for line in reply_lines(reply, 60))


def test_many_long_notes_are_said_in_pieces() -> None:
    talk = Conversation(Journal.open(None), WORLD)
    for number in range(40):
        talk.hear(f"note number {number}: " + "the slab is wet along the north wall " * 5)
    turn = talk.hear("notes")
    assert len(talk.job.notes) == 40
    assert speaking_seconds(turn.reply.say) <= PIECE_S
    assert len(turn.reply.details) == 40


def test_a_number_sign_is_no_comment_in_a_note() -> None:
    assert utterance_in("note bag # 4711") == "note bag # 4711"
    assert utterance_in("@09:30 note bag # 4711") == "@09:30 note bag # 4711"
    assert utterance_in("B3 -18 # at the post") == "B3 -18"
    assert utterance_in("notes # all") == "notes"


def test_notes_come_back_from_the_record(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        talk = Conversation(journal, WORLD)
        talk.hear("note at B2 crack \x00 3/8")
        kept = talk.job.notes
    with Journal.open(path) as journal:
        assert Conversation(journal, WORLD).job.notes == kept
