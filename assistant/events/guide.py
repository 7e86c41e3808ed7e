"""The guide's steps."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from grammar.frozen import frozen


@frozen
class GuideStarted(Event):
    """The guide leads from this step on; also when it goes on after a pause."""

    NAME: ClassVar[str] = "guide-started"
    opens: str | None

    def in_words(self) -> str:
        return "the start of the guide"


@frozen
class StepQuestioned(Event):
    """The step was said to be done while its check was not met, and the reply said that."""

    NAME: ClassVar[str] = "step-questioned"
    step: str

    def in_words(self) -> str:
        return f"done, at the step {self.step}"


@frozen
class StepFinished(Event):
    """The step is done: its check was met, or it was passed knowingly."""

    NAME: ClassVar[str] = "step-finished"
    step: str
    met: bool
    opens: str | None

    def in_words(self) -> str:
        return f"done, at the step {self.step}"


@frozen
class StepSkipped(Event):
    """The step was skipped, for a reason."""

    NAME: ClassVar[str] = "step-skipped"
    step: str
    reason: str
    opens: str | None

    def in_words(self) -> str:
        return f"skipping the step {self.step}"


@frozen
class StepReopened(Event):
    """The guide went back to an earlier step."""

    NAME: ClassVar[str] = "step-reopened"
    opens: str

    def in_words(self) -> str:
        return "the step back"
