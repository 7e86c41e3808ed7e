"""Which floor a command speaks of: the slab that was surveyed, or the one that lies open.

Until the pour is finished they are the same. From then on what is read, tied, checked or asked
about readings is of the finished floor; what was worked out of the slab (tally, order, cut list,
warnings) stays the slab's.
"""

from __future__ import annotations

from assistant.job import Job, being_read
from grammar import commands as c

_CHANGES: frozenset[type[c.Command]] = frozenset((
    c.TakeReading, c.TakeReadings, c.CorrectReading, c.ScratchPoint, c.AddPoint,
    c.MeasureDoor, c.MeasureOutside, c.PlaceDoor,
    c.NewSetUp, c.ReferenceMoved, c.TheyHold, c.PlaceBenchmark, c.TieOnBenchmark, c.TieOnPoint,
    c.CheckZero, c.CheckBenchmark, c.SetInstrumentRange, c.SetInstrumentResolution,
    c.SetInstrumentRepeatability, c.SetInstrumentOffset, c.MarkStep,
    c.FixHeight, c.SetFall, c.Grind,
))  # fmt: skip
"""What is said of the floor that lies open."""

ASKED_OF_EITHER: frozenset[type[c.Command]] = frozenset(
    (c.AskReadings, c.AskMap, c.AskMissing, c.AskDoors, c.AskSurveyCheck, c.AskNextPoint)
)
"""What can be asked of either floor; the reply says which it speaks of."""

OF_WHAT_LIES_OPEN = _CHANGES | ASKED_OF_EITHER


def floor_meant(job: Job, command: c.Command) -> Job:
    """The job as it shows the floor that a command speaks of."""
    if type(command) not in OF_WHAT_LIES_OPEN or getattr(command, "of", None) == "slab":
        return job
    return being_read(job)
