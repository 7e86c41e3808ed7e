"""Events about the record itself: an undo, a redo, and a clock that was found to be behind."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from grammar.frozen import frozen


@frozen
class UtteranceTakenBack(Event):
    """
    All that one utterance recorded no longer counts.

    Where an undo is itself taken back, which nobody says any more but which older records hold,
    what it had taken back counts again.
    """

    NAME: ClassVar[str] = "utterance-scratched"
    utterance: int

    def in_words(self) -> str:
        return "an undo"


@frozen
class ClockFoundBehind(Event):
    """The clock was found to be behind what it read when the last thing was recorded."""

    NAME: ClassVar[str] = "clock-found-behind"
    seconds: int

    def in_words(self) -> str:
        return "the clock that was behind"


@frozen
class UtteranceBroughtBack(Event):
    """All that one utterance recorded counts again."""

    NAME: ClassVar[str] = "utterance-brought-back"
    utterance: int

    def in_words(self) -> str:
        return "a redo"
