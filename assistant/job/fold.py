"""From what was recorded to the job that it adds up to; an undo is part of the record."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime

from assistant.events.kinds import Event
from assistant.job.clock_readings import in_order
from assistant.job.draft import Draft
from assistant.job.effects import take_all
from assistant.job.history import about_the_record, in_force
from assistant.job.state import EMPTY, Job, Utterance
from assistant.reply.times import UNTIMED

Told = (
    tuple[int, str, Sequence[Event]]
    | tuple[int, str, Sequence[Event], datetime]
    | tuple[int, str, Sequence[Event], datetime, str]
)
"""Number, words, events, time and device of an utterance, as the journal gives them."""


def fold(utterances: Iterable[Told]) -> Job:
    """
    The job that a whole record adds up to.

    Parameters
    ----------
    utterances : iterable of (number, said, events, time, device)
        In the order they were recorded, as the journal gives them; without times all
        of it happened at once.
    """
    return _fold_history(tuple(_utterance(*told) for told in utterances))


def record(
    job: Job,
    number: int,
    said: str,
    events: Sequence[Event],
    time: datetime = UNTIMED,
    device: str = "",
) -> Job:
    """The job after one more utterance; an undo or a redo among its events takes effect."""
    history = (*job.history, _utterance(number, said, events, time, device))
    put_back = job.clock_put_back or (job.last_time is not None and time < job.last_time)
    if put_back or any(about_the_record(event) for event in events):
        return _fold_history(history)
    draft = Draft(job)
    take_all(draft, events, time)
    return draft.finished(history)


def apply(job: Job, *events: Event, time: datetime = UNTIMED) -> Job:
    """The job as it would be were these recorded; its history stays as it is."""
    time = max(time, job.last_time or time)
    return replace(record(job, next_number(job), "", events, time), history=job.history)


def next_number(job: Job) -> int:
    """The number the next utterance would have, were it recorded now."""
    return job.history[-1].number + 1 if job.history else 1


def _fold_history(history: tuple[Utterance, ...]) -> Job:
    """Each utterance at its time, for which the clock readings of undone ones are used as well."""
    readings = [utterance.time for utterance in history]
    times = in_order(readings)
    at = dict(zip((utterance.number for utterance in history), times, strict=True))
    draft = Draft(EMPTY)
    for utterance in in_force(history):
        take_all(draft, utterance.events, at[utterance.number])
    return replace(draft.finished(history), clock_put_back=times != readings)


def _utterance(
    number: int, said: str, events: Sequence[Event], time: datetime = UNTIMED, device: str = ""
) -> Utterance:
    return Utterance(number, said, tuple(events), time, device)
