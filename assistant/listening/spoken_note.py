"""A note said aloud in as many breaths as it takes: from “write this down” to “end of note”."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from assistant.ears.hearing import Heard
from assistant.reply import wording
from assistant.reply.replies import Reply, Turn
from grammar.commands import Command
from grammar.commands.notes import BeginNote, DropNote, EndNote
from grammar.spoken import plain_words

Hear = Callable[[str], Turn]
"""Takes a typed line to the conversation."""

_END = ("end", "of", "note")
_MISSING = "…"
"""Stands where a part of what was said may be missing."""
LONGEST = 900
"""Characters of a note; a line may have a few more."""
READ_BACK = 150
"""Characters read back aloud, some ten seconds; the screen has all of it."""


class SpokenNote:
    """
    Gathers what is said as it sounds, and has it kept as one note.

    Parameters
    ----------
    hear : callable
        Takes the finished note, as it would be typed.
    """

    def __init__(self, hear: Hear) -> None:
        self._hear = hear
        self._pieces: list[str] = []
        self._point: str | None = None
        self.is_open = False
        """Whether what is heard belongs to a note."""

    @property
    def words(self) -> str:
        """What was said of it so far."""
        return " ".join(self._pieces)

    def take(self, heard: Heard, *, whole: bool) -> Turn | None:
        """
        The turn for an utterance that begins, continues or ends a note; None for any other.

        Parameters
        ----------
        heard : Heard
        whole : bool
            False where its first or last words may be missing.
        """
        command = heard.command if heard.tier in ("sure", "ask") and whole else None
        if not self.is_open:
            return self._begin(heard, command) if isinstance(command, BeginNote) else None
        if isinstance(command, DropNote):
            return self._dropped(heard)
        said = " ".join((heard.free or "").split())
        ended = isinstance(command, EndNote)
        if not ended and _ends(said):
            ended, said = True, _without_end(said)
        elif ended:
            said = ""
        if said:
            self._pieces.append(said if whole else f"{_MISSING} {said}")
        return self._finish(heard) if ended else self._goes_on(heard)

    def _begin(self, heard: Heard, command: BeginNote) -> Turn:
        at = "" if command.point is None else f" at {command.point}"
        if heard.free is None:
            reply = Reply(
                f"These ears know no words but ours. Type the note: note{at} WORDS",
                "Type the note.",
            )
            return _turn(heard, False, command, reply)
        self.is_open, self._point, self._pieces = True, command.point, []
        reply = Reply(f"Note{at}: say it. “End of note” keeps it, “drop note” does not.", "Say it.")
        return _turn(heard, True, command, reply)

    def _goes_on(self, heard: Heard) -> Turn:
        if len(self.words) > LONGEST:
            return self._finish(heard)
        reply = Reply(
            f"Note so far: “{self.words}”",
            "Go on, or end of note.",
            ("“End of note” keeps it, “drop note” does not.",),
            data={"note_so_far": self.words},
        )
        return _turn(heard, True, None, reply)

    def _finish(self, heard: Heard) -> Turn:
        words, point = self.words, self._point
        self.is_open, self._pieces = False, []
        if not words:
            return _turn(heard, False, EndNote(), Reply("Nothing was said; no note is kept."))
        turn = self._hear(f"note at {point} {words}" if point else f"note {words}")
        # Ears write what they heard: it is read back, so that an undo comes in time.
        return _with_read_back(turn, words) if turn.ok else turn

    def _dropped(self, heard: Heard) -> Turn:
        self.is_open, self._pieces = False, []
        return _turn(heard, True, DropNote(), Reply("Note dropped; nothing is kept of it."))


def _turn(heard: Heard, ok: bool, command: Command | None, reply: Reply) -> Turn:
    name = type(command).__name__ if command is not None else None
    return Turn(heard.text, ok, name, None, (), reply)


def _with_read_back(turn: Turn, words: str) -> Turn:
    lines = ("Noted.", wording.sentence(wording.clipped(words, READ_BACK)))
    return replace(turn, reply=replace(turn.reply, spoken=lines))


def _ends(said: str) -> bool:
    return _last_words(said) == _END


def _last_words(said: str) -> Sequence[str]:
    return tuple(plain_words(said)[-len(_END) :])


def _without_end(said: str) -> str:
    return " ".join(said.split()[: -len(_END)])
