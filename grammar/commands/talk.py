"""The conversation itself: undo and redo, answers to questions, what if."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.commands.kinds import Answer, Ask, Change


@dataclass(frozen=True, slots=True)
class ScratchThat(Change):
    """Undo the last utterance that changed the job; said again, the one before it."""

    steps: int | None = None
    """How many of them; None for one."""


@dataclass(frozen=True, slots=True)
class BringBack(Change):
    """Redo what was undone last."""

    steps: int | None = None
    """How many of them; None for one."""


@dataclass(frozen=True, slots=True)
class ChooseSide(Answer):
    """Below or above, where a reading was given without."""

    side: str
    """``below`` or ``above``."""


@dataclass(frozen=True, slots=True)
class ChooseUnit(Answer):
    """Inches or millimetres, where a fraction was given without a unit."""

    unit: str
    """``mm`` or ``in``."""


@dataclass(frozen=True, slots=True)
class Confirm(Answer):
    """Do it as asked."""


@dataclass(frozen=True, slots=True)
class CancelThat(Answer):
    """Do not do it; nothing is recorded."""


@dataclass(frozen=True, slots=True)
class SayAgain(Ask):
    """The last reply once more, or the question that waits."""


@dataclass(frozen=True, slots=True)
class StopListening(Ask):
    """Ignore speech until "start listening"; what is typed still counts."""


@dataclass(frozen=True, slots=True)
class StartListening(Ask):
    """Take all that is heard, with no key to press for each utterance."""


@dataclass(frozen=True, slots=True)
class WhatIf(Ask):
    """What a change would do to the tally, without doing it."""

    change: Change


@dataclass(frozen=True, slots=True)
class AskPhrases(Ask):
    """What can be said."""
