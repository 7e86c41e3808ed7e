"""Going on, back, and past steps of the guide."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World, reason_said
from assistant.errors import Refusal
from assistant.events.guide import (
    GuideStarted,
    StepFinished,
    StepQuestioned,
    StepReopened,
    StepSkipped,
)
from assistant.guide.steps import GuideStep, steps
from assistant.guide.walk import check_of, open_step, step_before, way_after, way_from_start
from assistant.job import Job, apply
from grammar.commands import Change
from grammar.commands.guide import FinishStep, SkipStep, StartGuide, StepBack


def start_guide(job: Job, _command: StartGuide, world: World) -> Decision:
    return Decision((GuideStarted(way_from_start(job, world.now).id),))


def finish_step(job: Job, _command: FinishStep, world: World) -> Decision:
    step = step_at(job)
    met = check_of(step, job, world.now, word=True).met
    if not met and job.guide.questioned != step.id:
        # Passing it has to be confirmed, so that nobody passes a step without having heard
        # what is lacking.
        return Decision((StepQuestioned(step.id),))
    done = apply(job, StepFinished(step.id, met, None))
    return Decision((StepFinished(step.id, met, way_after(step, done, world.now).id),))


def skip_step(job: Job, command: SkipStep, world: World) -> Decision:
    step, reason = step_at(job), reason_said(command.reason)
    if reason is None:
        raise Refusal(
            "Say why, so that it stands in the record: skip because, and the reason.",
            spoken="Say why: skip because, and the reason.",
        )
    return Decision((StepSkipped(step.id, reason, way_after(step, job, world.now).id),))


def step_back(job: Job, _command: StepBack, _world: World) -> Decision:
    check_started(job)
    step = open_step(job)
    if step is None:
        return Decision((StepReopened(steps()[-1].id),))
    earlier = step_before(step)
    if earlier is None:
        raise Refusal("This is the first step; next step goes on.")
    return Decision((StepReopened(earlier.id),))


def check_started(job: Job) -> None:
    """Refuse where the guide was never started."""
    if not job.guide.started:
        raise Refusal(
            "The guide is not on. To be led through the job, say: guide.",
            spoken="The guide is not on. Say: guide.",
        )


def step_at(job: Job) -> GuideStep:
    """The open step, or a refusal where there is none."""
    check_started(job)
    step = open_step(job)
    if step is None:
        raise Refusal(
            "All steps are through. Step back goes to the last; guide looks again.",
            spoken="All steps are through.",
        )
    return step


DECIDERS: dict[type[Change], Decider] = {
    StartGuide: start_guide,
    FinishStep: finish_step,
    SkipStep: skip_step,
    StepBack: step_back,
}
