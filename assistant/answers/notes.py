"""Answers about remarks: kept, and listed."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.events.notes import NoteTaken
from assistant.job.notes import RecordedNote, notes_by_point
from assistant.reply import wording
from assistant.reply.replies import Reply
from assistant.reply.times import shown_time
from grammar import Misunderstood, understand
from grammar.commands import Change, Command
from grammar.commands.notes import AskNotes, BeginNote, DropNote, EndNote, TakeNote

NOTE = "note at B2 crack along the wall"


def note_taken(moment: Moment, _command: TakeNote) -> Reply:
    taken = next(event for event in moment.events if isinstance(event, NoteTaken))
    note = RecordedNote(taken.words, taken.point, moment.world.now)
    at = "" if taken.point is None else f" at {taken.point}"
    spoken_at = "" if taken.point is None else f" at {wording.spoken_name(taken.point)}"
    details = ("Kept as words alone; it changes nothing else.",) if _orders(taken.words) else ()
    return Reply(
        f"Noted{at}: “{taken.words}”",
        f"Noted{spoken_at}.",
        details,
        data={"note": note_data(note)},
    )


def _orders(words: str) -> bool:
    """Whether a remark would be a reading, or another change, were it said by itself."""
    try:
        return any(isinstance(meant, Change) for meant in understand(words))
    except Misunderstood:
        return False


def note_data(note: RecordedNote) -> dict[str, Any]:
    """For programs."""
    return {"point": note.point, "words": note.words, "time": note.time.isoformat()}


def note_line(moment: Moment, note: RecordedNote) -> str:
    """A remark to read, with its time and point."""
    at = f"at {note.point} " if note.point is not None else ""
    time = shown_time(note.time, moment.world.now, moment.world.zone)
    return f"{time} {at}“{note.words}”"


def notes_listed(moment: Moment, command: AskNotes) -> Reply:
    point, notes = command.point, moment.job.notes
    if point is not None:
        notes = notes_by_point(notes).get(point, ())
    about = "" if point is None else f" about {point}"
    data = {"notes": [note_data(note) for note in notes]}
    if not notes:
        where = "" if point is None else f" about {wording.spoken_name(point)}"
        return Reply(f"No notes{about} yet. One is made so: {NOTE}", f"No notes{where}.", data=data)
    return Reply(
        f"{wording.counted(len(notes), 'note')}{about}.",
        f"{wording.spoken_count(len(notes), 'note')}.",
        tuple(note_line(moment, note) for note in notes),
        at_length=(
            wording.sentence(wording.spoken_count(len(notes), "note")),
            *(_spoken_note(note) for note in notes),
        ),
        data=data,
    )


def _spoken_note(note: RecordedNote) -> str:
    at = f"{wording.spoken_name(note.point)}, " if note.point is not None else ""
    return wording.sentence(f"{at}{note.words}")


def no_ears(_moment: Moment, command: BeginNote | EndNote | DropNote) -> Reply:
    """A note in several breaths is for ears; what listens answers this itself."""
    if isinstance(command, BeginNote):
        at = "" if command.point is None else f" at {command.point}"
        return Reply(f"Typed, a note is one line: note{at} WORDS", "Type the note in one line.")
    return Reply("No note is being said.")


ANSWERS: dict[type[Command], Answerer] = {
    TakeNote: note_taken,
    AskNotes: notes_listed,
    BeginNote: no_ears,
    EndNote: no_ears,
    DropNote: no_ears,
}
