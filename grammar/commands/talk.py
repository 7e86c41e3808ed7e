"""The conversation itself: undo and redo, answers to questions, what if."""

from __future__ import annotations

from grammar.commands.kinds import Answer, Ask, Change, Measure, Reading
from grammar.frozen import frozen


@frozen
class TakeBack(Change):
    """Undo the last utterance that changed the job; said again, the one before it."""

    steps: int | None = None
    """How many of them; None for one."""


@frozen
class BringBack(Change):
    """Redo what was undone last."""

    steps: int | None = None
    """How many of them; None for one."""


@frozen
class ChooseSide(Answer):
    """Below or above, where a reading was given without."""

    side: str
    """``below`` or ``above``."""


@frozen
class ChooseUnit(Answer):
    """Inches or millimetres, where a fraction was given without a unit."""

    unit: str
    """``mm`` or ``in``."""


@frozen
class Confirm(Answer):
    """Do it as asked."""


@frozen
class CancelThat(Answer):
    """Do not do it; nothing is recorded."""


@frozen
class SayInstead(Answer):
    """Another value in the place of the one that was said last, or that is asked about."""

    reading: Reading
    """Without a side where none was said."""
    was: Measure | None = None
    """The size that it was not, where that was said."""


@frozen
class SayAgain(Ask):
    """The last reply once more, or the question that waits."""


@frozen
class SetEarsClosed(Ask):
    """Ignore what is said but "ears open"; what is typed still counts."""


@frozen
class SetEarsOpen(Ask):
    """Take all that is heard, with no key to press for each utterance."""


@frozen
class WhatIf(Ask):
    """What one change, or several together, would do to the tally, without doing it."""

    change: Change
    also: tuple[Change, ...] | None = None
    """What is supposed with it, in the order said; None for nothing more."""

    @property
    def changes(self) -> tuple[Change, ...]:
        """All that is supposed."""
        return (self.change, *(self.also or ()))


@frozen
class AdjustVoice(Ask):
    """Replies aloud are to be shorter, longer, slower, faster, softer, louder, or not at all."""

    word: str
    """The word itself: ``shorter``, or ``quiet`` and ``speak``."""


@frozen
class AskPhrases(Ask):
    """What can be said."""

    about: str | None = None
    """A topic, or a word of what is looked for; None for all of it."""
