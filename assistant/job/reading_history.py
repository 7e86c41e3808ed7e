"""What was read at a point, put right and struck, as the record has it of one of the two floors."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from assistant.events.kinds import Event
from assistant.events.readings import (
    FinishedFloorBegun,
    ReadingCorrected,
    ReadingsTaken,
    ReadingStruck,
    ReadingTaken,
    median,
)
from assistant.events.set_ups import SetUpStarted
from assistant.job.history import in_force
from assistant.job.state import Job
from grammar.commands import Measure
from grammar.frozen import frozen

READ, PUT_RIGHT, STRUCK = "read", "put right", "struck"


@frozen
class ReadingOnRecord:
    """One thing that became of a point's reading."""

    point: str
    what: str
    """``read``, ``put right`` or ``struck``."""
    said: Measure | None
    """The height; None where the reading was struck."""
    time: datetime
    """When, as the clock read."""
    set_up: int
    """The set-up in force, counted from 0."""


def readings_on_record(job: Job) -> tuple[ReadingOnRecord, ...]:
    """
    All that became of readings, oldest first, of the floor that a job shows.

    What was undone is left out; it never counted for more than a moment.
    """
    of_finished = job.slab is not None
    found: list[ReadingOnRecord] = []
    set_up, on_finished = 0, False
    for utterance in in_force(job.history):
        for event in utterance.events:
            if isinstance(event, FinishedFloorBegun):
                on_finished, set_up = True, 0
            elif isinstance(event, SetUpStarted):
                set_up += 1
            elif on_finished == of_finished:
                found += (
                    ReadingOnRecord(point, what, said, utterance.time, set_up)
                    for point, what, said in _told_by(event)
                )
    return tuple(found)


def _told_by(event: Event) -> Iterator[tuple[str, str, Measure | None]]:
    match event:
        case ReadingTaken():
            yield event.point, READ, event.reading
        case ReadingsTaken():
            yield event.point, READ, median(event.readings)
        case ReadingCorrected():
            yield event.point, PUT_RIGHT, event.reading
        case ReadingStruck():
            yield event.point, STRUCK, None
