"""The demo job said aloud: its typed lines become recordings, which are played to the recogniser.

A line without a spoken form (three decimals of a metre, a side left out on purpose) is typed, as
anybody would. So is one that was misheard: the demo knows what was meant.
"""

from __future__ import annotations

import csv
import threading
from collections.abc import Callable, Mapping
from pathlib import Path

import numpy as np

from assistant.conversation.conversation import Conversation
from assistant.decide import resolve
from assistant.errors import LeadsmanError, Refusal
from assistant.listening.hearing_files import FileEars, heard_line
from assistant.listening.listening import Listening
from assistant.listening.said_words import words_of
from assistant.reply.replies import Turn
from assistant.voice.players import WavFile
from assistant.voice.speaker import Speech, Voice
from grammar import Misunderstood, short_form, understand
from grammar.spoken import Spoken

INDEX = "lines.tsv"
"""The index in a folder of recordings: each file name and the line said in it."""
_PAUSE_S = 0.4
"""Silence before and after the words, as from a microphone."""


# --- recordings -----------------------------------------------------------------------------


class LineVoices:
    """
    A recording of each line that can be said, made when it is first asked for.

    Parameters
    ----------
    voice : Voice
    spoken : Spoken
    folder : Path
        Where they are kept.
    """

    def __init__(self, voice: Voice, spoken: Spoken, folder: Path) -> None:
        self._voice = voice
        self._spoken = spoken
        self._folder = folder
        self.made: dict[str, Path] = {}

    def __call__(self, line: str) -> Path | None:
        """The wav in which a line is said, or None where it is typed."""
        if line not in self.made:
            words = words_of(line, self._spoken)
            if words is None:
                return None
            path = self._folder / f"{len(self.made) + 1:03}.wav"
            _say_into(self._voice, words, path)
            self.made[line] = path
        return self.made[line]

    def write_index(self) -> None:
        """Which line is said in which file."""
        try:
            with (self._folder / INDEX).open("w", encoding="utf-8", newline="") as file:
                rows = csv.writer(file, delimiter="\t")
                rows.writerows((path.name, line) for line, path in self.made.items())
        except OSError as fault:
            raise LeadsmanError(f"{self._folder} cannot be written: {fault}.") from fault


def recorded_lines(folder: Path) -> Mapping[str, Path]:
    """The recordings of a folder by what is said in them. Raises :class:`LeadsmanError`."""
    try:
        with (folder / INDEX).open(encoding="utf-8", newline="") as file:
            rows = [row for row in csv.reader(file, delimiter="\t") if len(row) == 2]
    except (OSError, ValueError) as fault:
        raise LeadsmanError(
            f"{folder} has no list of recordings ({INDEX}): {fault}. "
            f"Make them: python -m demo.make_voice {folder}"
        ) from fault
    return {line: folder / name for name, line in rows}


def _say_into(voice: Voice, words: str, path: Path) -> None:
    file, never = WavFile(path), threading.Event()
    pieces = list(voice.speech(words))
    if not pieces:
        raise LeadsmanError(f"The voice made no sound of “{words}”.")
    pause = np.zeros(int(pieces[0].rate_hz * _PAUSE_S), np.float32)
    silence = Speech(pause, pieces[0].rate_hz)
    for piece in (silence, *pieces, silence):
        file.play(piece, never)


# --- played --------------------------------------------------------------------------------------


class SaidLines:
    """
    Takes typed lines, and has them said and heard instead of typed.

    Parameters
    ----------
    conversation, listening, ears
    wav_of : callable
        The recording of a line; None where it is to be typed.
    show : callable
        Called for each recording with how it was heard, and with a turn that others follow.
    """

    def __init__(
        self,
        conversation: Conversation,
        listening: Listening,
        ears: FileEars,
        wav_of: Callable[[str], Path | None],
        show: Callable[[str, Turn | None], None],
    ) -> None:
        self._conversation = conversation
        self._listening = listening
        self._ears = ears
        self._wav_of = wav_of
        self._show = show

    def hear(self, text: str) -> Turn:
        """Say the line; where it is misheard, correct it by typing."""
        path = self._wav_of(text)
        if path is None:
            self._show("typed", None)
            return self._conversation.hear(text)
        meant = self._meant(text)
        heard, whole, _ = self._ears.hear(path, unit=self._conversation.job.reading_unit)
        taken = self._listening.take(heard, whole=whole)
        told = f"heard {heard_line(taken.heard, taken.tier)}"
        turn = taken.turn
        if turn is None or taken.tier != "sure" or turn.canonical != meant:
            self._show(told, turn)
            if turn is not None and turn.recorded:
                self._show("not what was said", self._conversation.hear("undo"))
            self._show("typed", None)
            return self._conversation.hear(text)
        self._show(told, None)
        return turn

    def _meant(self, text: str) -> str | None:
        try:
            return short_form(resolve(self._conversation.job, understand(text)[0]))
        except (Refusal, Misunderstood):
            return None
