"""Answers about the finished height."""

from __future__ import annotations

from assistant.answers.finish.source import source_told
from assistant.answers.parts import Answerer, Moment, depth_range, spoken_depth, with_matters
from assistant.events.finish import FinishSet, FinishSetAtDoor
from assistant.floor.finish_source import finish_data
from assistant.floor.tally import tally_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Change, Command
from grammar.commands.finish import (
    FeatherTo,
    FinishAtDoor,
    FinishOverHighest,
    LowerFinish,
    RaiseFinish,
    SetFinish,
)


def finish_told(moment: Moment, _command: Change) -> Reply:
    job, unit = moment.job, moment.unit
    stands = wording.height(job.finish_mm, unit)
    headline = f"Finish {stands}."
    spoken = f"Finish {wording.spoken_worked_height(job.finish_mm, unit)}."
    depths = tally_of(job).depths
    if depths is not None:
        headline += f" {depth_range(depths, unit)}"
        spoken += f" Depth {spoken_depth(depths.least, unit)} to {spoken_depth(depths.most, unit)}."
    moved = job.finish_mm - moment.before.finish_mm
    by_something = job.finish_from is not None and not isinstance(job.finish_from, FinishSet)
    details = [wording.sentence(source_told(job))] if by_something else []
    details += _covering_told(job)
    if moved:
        way = "higher" if moved > 0 else "lower"
        details.append(f"{wording.length(abs(moved), unit)} {way} than before.")
    else:
        details.append("The same as before.")
    for zone, pour in job.zones.pours.items():
        if pour.finish_mm is not None:
            details.append(f"{zone.capitalize()} stays {wording.height(pour.finish_mm, unit)}.")
    data = {"finish": {**finish_data(job), "moved_mm": float(moved)}}
    return with_matters(moment, Reply(headline, spoken, tuple(details), data=data))


def _covering_told(job: Job) -> list[str]:
    """A finish level with the floor outside has no room left for what is laid on it."""
    source = job.finish_from
    if not isinstance(source, FinishSetAtDoor) or source.covering or not job.covering_mm:
        return []
    thick = wording.length(job.covering_mm, job.reading_unit)
    return [
        f"With its covering on it stands {thick} higher; level with it on: finish at door "
        f"{source.door} with covering."
    ]


ANSWERS: dict[type[Command], Answerer] = {
    FinishAtDoor: finish_told,
    FeatherTo: finish_told,
    FinishOverHighest: finish_told,
    SetFinish: finish_told,
    RaiseFinish: finish_told,
    LowerFinish: finish_told,
}
