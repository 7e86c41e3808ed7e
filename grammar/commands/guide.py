"""The guide and its steps."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.commands.kinds import Ask, Change


@dataclass(frozen=True, slots=True)
class StartGuide(Change):
    """Be led through the job, from where it stands."""


@dataclass(frozen=True, slots=True)
class FinishStep(Change):
    """This step is done; on to the next."""


@dataclass(frozen=True, slots=True)
class StepBack(Change):
    """Go back to the step before."""


@dataclass(frozen=True, slots=True)
class SkipStep(Change):
    """Leave this step undone and go on, for a reason that is recorded."""

    reason: str


@dataclass(frozen=True, slots=True)
class AskWhereAmI(Ask):
    """The step that is open."""


@dataclass(frozen=True, slots=True)
class AskWhy(Ask):
    """Why the open step matters."""


@dataclass(frozen=True, slots=True)
class AskMore(Ask):
    """What to do in the open step, in detail."""
