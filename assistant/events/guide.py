"""The guide's steps."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from grammar.frozen import frozen


@frozen
class GuideStarted(Event):
    """Led from here; again after a pause."""

    NAME: ClassVar[str] = "guide-started"
    opens: str | None

    def in_words(self) -> str:
        return "the start of the guide"


@frozen
class StepQuestioned(Event):
    """Said to be done while its check was not met, and told so."""

    NAME: ClassVar[str] = "step-questioned"
    step: str

    def in_words(self) -> str:
        return f"done, at the step {self.step}"


@frozen
class StepFinished(Event):
    """Gone through: its check met, or passed knowingly."""

    NAME: ClassVar[str] = "step-finished"
    step: str
    met: bool
    opens: str | None

    def in_words(self) -> str:
        return f"done, at the step {self.step}"


@frozen
class StepSkipped(Event):
    """Left out, for a reason."""

    NAME: ClassVar[str] = "step-skipped"
    step: str
    reason: str
    opens: str | None

    def in_words(self) -> str:
        return f"skipping the step {self.step}"


@frozen
class StepReopened(Event):
    """Back to a step before."""

    NAME: ClassVar[str] = "step-reopened"
    opens: str

    def in_words(self) -> str:
        return "the step back"
