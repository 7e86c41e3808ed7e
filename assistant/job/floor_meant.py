"""Which floor a command speaks of: the slab that was surveyed, or the one that lies open.

Until the pour is finished they are the same. From then on what is read, tied, checked or asked
about readings is of the finished floor; what was worked out of the slab (tally, order, cut list,
warnings) stays the slab's.
"""

from __future__ import annotations

from assistant.job import Job, being_read
from grammar.commands import Command
from grammar.commands.doors import AskDoors, MeasureDoor, MeasureOutside, PlaceDoor
from grammar.commands.finish import FixHeight, Grind, SetFall
from grammar.commands.overview import AskMap, AskMissing
from grammar.commands.readings import (
    AskNextPoint,
    AskReadings,
    CorrectReading,
    MarkStep,
    ScratchPoint,
    TakeReading,
    TakeReadings,
)
from grammar.commands.room import AddPoint
from grammar.commands.set_ups import (
    AskSurveyCheck,
    CheckBenchmark,
    CheckZero,
    MoveReference,
    NewSetUp,
    PlaceBenchmark,
    SetInstrumentOffset,
    SetInstrumentRange,
    SetInstrumentRepeatability,
    SetInstrumentResolution,
    TheyHold,
    TieOnBenchmark,
    TieOnPoint,
)

_CHANGES: frozenset[type[Command]] = frozenset((
    TakeReading, TakeReadings, CorrectReading, ScratchPoint, AddPoint,
    MeasureDoor, MeasureOutside, PlaceDoor,
    NewSetUp, MoveReference, TheyHold, PlaceBenchmark, TieOnBenchmark, TieOnPoint,
    CheckZero, CheckBenchmark, SetInstrumentRange, SetInstrumentResolution,
    SetInstrumentRepeatability, SetInstrumentOffset, MarkStep,
    FixHeight, SetFall, Grind,
))  # fmt: skip
"""What is said of the floor that lies open."""

ASKED_OF_EITHER: frozenset[type[Command]] = frozenset(
    (AskReadings, AskMap, AskMissing, AskDoors, AskSurveyCheck, AskNextPoint)
)
"""What can be asked of either floor; the reply says which it speaks of."""

OF_WHAT_LIES_OPEN = _CHANGES | ASKED_OF_EITHER


def floor_meant(job: Job, command: Command) -> Job:
    """The job as it shows the floor that a command speaks of."""
    if type(command) not in OF_WHAT_LIES_OPEN or getattr(command, "of", None) == "slab":
        return job
    return being_read(job)
