"""Which step is open, which comes next, and which are done ahead or undone."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from assistant.guide.checks import CHECKS
from assistant.guide.looks import Check, CheckContext
from assistant.guide.steps import GuideStep, step_of, steps
from assistant.job import Job
from grammar.frozen import frozen


def check_of(step: GuideStep, job: Job, now: datetime, *, word: bool = False) -> Check:
    """The outcome of a step's check; `word`: the installer is just saying that it is done."""
    return CHECKS[step.check](CheckContext(job, now, step.id, word))


@frozen
class NextStep:
    """The step to go on with."""

    opens: GuideStep | None
    """None where all steps are done."""
    ahead: tuple[GuideStep, ...] = ()
    """Steps passed over, as their work is done already."""

    @property
    def id(self) -> str | None:
        """The id of the step that opens."""
        return self.opens.id if self.opens else None


def way_from_start(job: Job, now: datetime) -> NextStep:
    """From the start: the first step that is neither met nor passed on purpose."""
    return _way(steps(), job, now)


def way_after(step: GuideStep, job: Job, now: datetime) -> NextStep:
    """The way on after a step."""
    return _way(steps()[step.number :], job, now)


def _way(coming: Iterable[GuideStep], job: Job, now: datetime) -> NextStep:
    ahead: list[GuideStep] = []
    for step in coming:
        if not (passed_knowingly(step, job) or check_of(step, job, now).met):
            return NextStep(step, tuple(ahead))
        if step.id not in job.guide.done and step.id not in job.guide.skipped:
            ahead.append(step)
    return NextStep(None, tuple(ahead))


def passed_knowingly(step: GuideStep, job: Job) -> bool:
    """Whether a step was skipped, or passed while its check was not met."""
    return step.id in job.guide.skipped or job.guide.done.get(step.id) is False


def open_step(job: Job) -> GuideStep | None:
    """The step that is open."""
    return step_of(job.guide.open) if job.guide.open else None


def step_before(step: GuideStep) -> GuideStep | None:
    """The step before; None before the first."""
    return steps()[step.number - 2] if step.number > 1 else None


def steps_undone(job: Job, now: datetime) -> tuple[tuple[GuideStep, Check], ...]:
    """Steps that were met when they were passed and no longer are."""
    seen = (
        (step, check_of(step, job, now)) for step in steps() if job.guide.done.get(step.id) is True
    )
    return tuple((step, check) for step, check in seen if not check.met)
