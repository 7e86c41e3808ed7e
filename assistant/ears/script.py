"""An engine that hears given lines: for tests, replays and demonstrations."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from assistant.ears.answers import NONE, Answers
from assistant.ears.hearing import NOTHING, Alternative, Heard
from assistant.sound.chunks import SAMPLE_RATE
from grammar import Misunderstood, short_form, understand
from grammar.commands import Command

if TYPE_CHECKING:
    import numpy as np


class ScriptEngine:
    """
    Hears the given lines, one for each utterance, whatever the sound.

    A line may be a finished :class:`Heard`. The meanings of a text become alternatives,
    and the first is sure; a text that is in no phrase has to be said again, an empty one
    is silence, and so is everything past the last line.
    """

    name = "script"

    def __init__(self, lines: Iterable[str | Heard]) -> None:
        self._lines = iter(lines)
        self._samples = 0
        self._answers = NONE

    def expect(self, answers: Mapping[str, Command]) -> None:
        """What else may be said from the next line on; see :func:`hearing.expect`."""
        self._answers = Answers(answers)

    def start(self) -> None:
        """Forget how much sound came in."""
        self._samples = 0

    def feed(self, chunk: np.ndarray) -> None:
        """Count the sound, as its length is reported."""
        self._samples += len(chunk)

    def maybe_end(self) -> None:
        """Nothing to do ahead."""

    def finish(self) -> Heard:
        """Hear the next line."""
        line = next(self._lines, "")
        if isinstance(line, Heard):
            return line
        return heard_text(line, self._samples / SAMPLE_RATE, self._answers)

    def info(self) -> Mapping[str, str]:
        """Nothing is loaded."""
        return {"engine": "a script of lines"}


def heard_text(text: str, speech_s: float = 0.0, answers: Answers = NONE) -> Heard:
    """
    A text as if it had been heard with certainty.

    >>> heard_text("bravo three minus one eight millimetres").canonical
    'B3 -18 mm'
    """
    try:
        commands = answers.meanings(text) or understand(text)
    except Misunderstood:
        nothing = Alternative(text, None, None, 1.0, 0.0)
        return Heard(text, (nothing,), "again", speech_s=speech_s, free=text)
    if not commands:
        return NOTHING
    alternatives = tuple(
        Alternative(text, command, short_form(command), float(number == 0), -float(number))
        for number, command in enumerate(commands)
    )
    return Heard(text, alternatives, "sure", commands[0], speech_s=speech_s, free=text)
