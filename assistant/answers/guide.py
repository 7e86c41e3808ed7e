"""Answers of the guide: the open step, why it matters, more; and a note when it is met."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.decide.guide import check_started, step_at
from assistant.events.guide import (
    StepQuestioned,
)
from assistant.guide.looks import Check
from assistant.guide.steps import GuideStep, steps
from assistant.guide.walk import check_of, open_step, steps_undone, way_after, way_from_start
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Change, Command
from grammar.commands.guide import (
    AskMore,
    AskWhereAmI,
    AskWhy,
    FinishStep,
    SkipStep,
    StartGuide,
    StepBack,
)


def guide_started(moment: Moment, _command: StartGuide) -> Reply:
    """The guide begins at the step that the job has reached."""
    ahead = way_from_start(moment.before, moment.world.now).ahead
    return _opened(moment, _done_already(ahead))


def step_finished(moment: Moment, _command: FinishStep) -> Reply:
    event = moment.events[-1]
    step = step_at(moment.before)
    if isinstance(event, StepQuestioned):
        return _not_met(moment, step)
    ahead = way_after(step, moment.before, moment.world.now).ahead
    lead = [] if getattr(event, "met", True) else [f"Passed knowingly: {step.title.lower()}."]
    return _opened(moment, [*lead, *_done_already(ahead)])


def _not_met(moment: Moment, step: GuideStep) -> Reply:
    check = check_of(step, moment.job, moment.world.now, word=True)
    return Reply(
        f"Step {step.number}, {step.title.lower()}, is not done: {check.message}",
        f"Not done. {check.say}",
        ("To go on all the same, next step once more; or skip because, with the reason.",),
        data=_data(step, check),
    )


def step_skipped(moment: Moment, command: SkipStep) -> Reply:
    step = step_at(moment.before)
    lead = f"Skipped, and on record: {step.title.lower()}, because {command.reason}."
    ahead = way_after(step, moment.before, moment.world.now).ahead
    return _opened(moment, [lead, *_done_already(ahead)])


def step_back(moment: Moment, _command: StepBack) -> Reply:
    return _opened(moment, [])


def where_told(moment: Moment, _command: AskWhereAmI) -> Reply:
    """The open step once more, without its safety words, which were given when it opened."""
    check_started(moment.job)
    return replace(_opened(moment, []), cautions=())


def _opened(moment: Moment, lead: Sequence[str]) -> Reply:
    """The open step: what to do, how far it is met, and the cautions for it."""
    job, now = moment.job, moment.world.now
    step = open_step(job)
    if step is None:
        return _all_through(moment, lead)
    check = check_of(step, job, now)
    cautions = step.cautions(job.card.bag_kg if job.card else None)
    spoken = f"Step {wording.spoken_number(step.number)}. {step.say}"
    if cautions:
        spoken += f" Mind {wording.join_names([c.id.replace('-', ' ') for c in cautions])}."
    return Reply(
        f"Step {step.number} of {step.of}, {step.title.lower()}: {step.say}",
        spoken,
        (*lead, f"{'Met' if check.met else 'Now'}: {check.message}", *_undone(moment, step)),
        cautions=cautions,
        data=_data(step, check),
    )


def _all_through(moment: Moment, lead: Sequence[str]) -> Reply:
    guide, count = moment.job.guide, len(steps())
    left_out = len(guide.skipped) + sum(not met for met in guide.done.values())
    told = "All steps are through" + (f", {left_out} of them left out or not met" * bool(left_out))
    return Reply(
        f"{told}.",
        details=(*lead, *_undone(moment, None)),
        data={"step": {"id": None, "number": None, "of": count, "met": not left_out}},
    )


def _undone(moment: Moment, besides: GuideStep | None) -> list[str]:
    """Steps that later work, or time, has undone."""
    return [
        f"Not met any more: {step.title.lower()}. {check.message}"
        for step, check in steps_undone(moment.job, moment.world.now)
        if step != besides
    ]


def _done_already(ahead: Sequence[GuideStep]) -> list[str]:
    if not ahead:
        return []
    return [f"Done already: {wording.join_names([step.title.lower() for step in ahead], most=9)}."]


def why_told(moment: Moment, _command: AskWhy) -> Reply:
    step = step_at(moment.job)
    return Reply(step.why, data=_step_data(moment, step))


def more_told(moment: Moment, _command: AskMore) -> Reply:
    """All about the step with its safety words, also aloud, as it was asked for."""
    job, step = moment.job, step_at(moment.job)
    cautions = step.cautions(job.card.bag_kg if job.card else None)
    return Reply(
        f"{step.title}, in detail.",
        details=step.more,
        cautions=cautions,
        data=_step_data(moment, step),
        at_length=step.more,
    )


def _step_data(moment: Moment, step: GuideStep) -> dict[str, Any]:
    return _data(step, check_of(step, moment.job, moment.world.now))


def _data(step: GuideStep, check: Check) -> dict[str, Any]:
    told = {"id": step.id, "number": step.number, "of": step.of, "met": check.met}
    return {"step": told}


# --- beside other answers -----------------------------------------------------------------


def with_step_met(moment: Moment, command: Command, reply: Reply) -> Reply:
    """The answer to a change, with a note where it has met the open step."""
    step = open_step(moment.after)
    if step is None or not isinstance(command, Change) or type(command) in ANSWERS:
        return reply
    now = moment.world.now
    check = check_of(step, moment.after, now)
    if not check.met or check_of(step, moment.before, now).met:
        return reply
    return reply.adding(
        f"Step {step.number}, {step.title.lower()}: {check.message} Next step goes on.",
        spoken=f"Step {wording.spoken_number(step.number)} is met.",
    )


ANSWERS: dict[type[Command], Answerer] = {
    StartGuide: guide_started,
    FinishStep: step_finished,
    SkipStep: step_skipped,
    StepBack: step_back,
    AskWhereAmI: where_told,
    AskWhy: why_told,
    AskMore: more_told,
}
