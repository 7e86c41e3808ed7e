"""Where the guide stands; part of the job, built up from the events."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace

from assistant.events.guide import (
    GuideStarted,
    StepFinished,
    StepQuestioned,
    StepReopened,
    StepSkipped,
)
from assistant.events.kinds import Event
from grammar.frozen import frozen


@frozen
class GuideState:
    """The steps by their ids; which steps there are, and their order, is not part of the job."""

    started: bool = False
    open: str | None = None
    """The step that is open; None before the start and after the end."""
    done: Mapping[str, bool] = field(default_factory=dict)
    """Steps gone through: True where their check was met, False where passed knowingly."""
    skipped: Mapping[str, str] = field(default_factory=dict)
    """Steps left out, with the reason that was given."""
    questioned: str | None = None
    """The step whose check was said once to be unmet: the next "done" passes it knowingly."""


def after_event(state: GuideState, event: Event) -> GuideState:
    """The guide after one of its events."""
    if isinstance(event, GuideStarted):
        return replace(state, started=True, open=event.opens, questioned=None)
    if isinstance(event, StepQuestioned):
        return replace(state, questioned=event.step)
    if isinstance(event, StepReopened):
        return replace(state, open=event.opens, questioned=None)
    if isinstance(event, StepFinished):
        done = {**state.done, event.step: event.met}
        skipped = {step: why for step, why in state.skipped.items() if step != event.step}
        return replace(state, open=event.opens, done=done, skipped=skipped, questioned=None)
    assert isinstance(event, StepSkipped)
    skipped = {**state.skipped, event.step: event.reason}
    done = {step: met for step, met in state.done.items() if step != event.step}
    return replace(state, open=event.opens, done=done, skipped=skipped, questioned=None)


GUIDE_EVENTS: tuple[type[Event], ...] = (
    GuideStarted,
    StepFinished,
    StepQuestioned,
    StepReopened,
    StepSkipped,
)
