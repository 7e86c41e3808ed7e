"""What a check of the guide is given, and what it gives."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from assistant.job import Job
from grammar.frozen import frozen


@frozen
class CheckContext:
    """What a check is given."""

    job: Job
    now: datetime
    step: str
    """The step's id."""
    word: bool = False
    """Whether the installer is just saying that it is done."""

    @property
    def told_done(self) -> bool:
        """Whether the installer says or has said that it is done."""
        return self.word or self.job.guide.done.get(self.step, False)


@frozen
class Check:
    """The outcome of a check."""

    met: bool
    message: str
    """What is there, or what is missing and what to do next."""
    spoken: str = ""
    """The message to say, where it has signs or names of points."""

    @property
    def say(self) -> str:
        """The message as it is said aloud."""
        return self.spoken or self.message


CheckFunction = Callable[[CheckContext], Check]
