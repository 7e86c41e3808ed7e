"""The guide and its steps."""

from __future__ import annotations

from grammar.commands.kinds import Ask, Change
from grammar.frozen import frozen


@frozen
class StartGuide(Change):
    """Be led through the job, from where it stands."""


@frozen
class FinishStep(Change):
    """This step is done; on to the next."""


@frozen
class StepBack(Change):
    """Go back to the step before."""


@frozen
class SkipStep(Change):
    """Leave this step undone and go on, for a reason that is recorded."""

    reason: str


@frozen
class AskWhereAmI(Ask):
    """The step that is open."""


@frozen
class AskWhy(Ask):
    """Why the open step matters."""


@frozen
class AskMore(Ask):
    """What to do in the open step, in detail."""
