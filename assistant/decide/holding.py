"""Readings in doubt that others, read again, bear out."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.decide.parts import Decider, Decision, World
from assistant.errors import Refusal
from assistant.events import ReadingsBorneOut
from assistant.job import Job
from assistant.trust.holding import Held, holding_of
from assistant.trust.holding_words import compared, why_not
from assistant.trust.survey import survey_of
from assistant.trust.ties import how_to_tie
from grammar.commands import Change, TheyHold


def they_hold(job: Job, _command: TheyHold, _world: World) -> Decision:
    found = [held for held in holding_of(job) if held.in_doubt]
    cleared = tuple(point for held in found for point in held.cleared)
    if cleared:
        return Decision((ReadingsBorneOut(cleared),))
    raise Refusal(" ".join(_reasons(job, found)))


def _reasons(job: Job, found: list[Held]) -> Iterator[str]:
    if not survey_of(job).doubtful:
        yield "No reading is in doubt, so there is nothing to clear."
        return
    for held in found:
        yield f"{compared(job, held)} {why_not(held)}".strip()
    if not found:
        yield "No reading is in doubt by itself; what it hangs on is."
    if job.survey.set_up not in survey_of(job).sound.set_ups:
        yield how_to_tie(job)


DECIDERS: dict[type[Change], Decider] = {TheyHold: they_hold}
