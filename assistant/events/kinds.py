"""The base classes of all events, and of those whose value holds until another is set."""

from __future__ import annotations

from typing import ClassVar

from grammar.frozen import frozen


@frozen
class Event:
    """A fact about the job."""

    NAME: ClassVar[str] = ""
    VERSION: ClassVar[int] = 1

    def in_words(self) -> str:
        """What it recorded, in few words that can be said aloud: "the tie on C4"."""
        raise NotImplementedError(f"{type(self).__name__} has no words yet: give it in_words()")


@frozen
class Setting(Event):
    """
    What holds until it is set anew, or undone.

    The job keeps the last one of each kind (:meth:`assistant.job.Job.setting`); nothing else
    has to be written for it to be taken up.
    """
