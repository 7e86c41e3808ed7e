"""The day of the pour: who mixes, where it begins and ends."""

from __future__ import annotations

from decimal import Decimal

from assistant.decide.parts import Decider, Decision, World, length_of
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.pour import (
    BatchSet,
    BatchTimeSet,
    CrewSet,
    DamPlaced,
    DamsTakenUp,
    MixersSet,
    PourStartSet,
    PumpSet,
    StripWidthSet,
    WayOutSet,
)
from assistant.floor.pour.way import frame_direction, is_first_line, line_at_m
from assistant.job import Job
from assistant.reply import wording
from grammar.commands import Change
from grammar.commands.pour import (
    PlaceDam,
    SetBatch,
    SetBatchTime,
    SetCrew,
    SetMixers,
    SetPourStart,
    SetPump,
    SetStripWidth,
    SetWayOut,
    TakeUpDams,
)

MOST_PEOPLE, MOST_MIXERS, MOST_IN_A_BATCH, MOST_PUMPED = 20, 10, 20, 2000
LONGEST_BATCH_MIN = 60
"""More of any of them is a slip. Our own choice, no source."""


def set_crew(_job: Job, command: SetCrew, _world: World) -> Decision:
    if command.people > MOST_PEOPLE:
        raise Refusal(
            f"A crew is 1 to {MOST_PEOPLE} people, not {command.people}: crew 3.",
            spoken="That crew is too large.",
        )
    return Decision((CrewSet(command.people),))


def set_mixers(job: Job, command: SetMixers, _world: World) -> Decision:
    if command.mixers > MOST_MIXERS:
        raise Refusal(
            f"At most {MOST_MIXERS} mixers run side by side, not {command.mixers}: mixers 2.",
            spoken="That is too many mixers.",
        )
    return Decision((MixersSet(command.mixers), *_no_pump(job)))


def set_batch(job: Job, command: SetBatch, _world: World) -> Decision:
    if command.bags > MOST_IN_A_BATCH:
        raise Refusal(
            f"A batch has at most {MOST_IN_A_BATCH} bags, not {command.bags}: batches of 2 bags.",
            spoken="That batch is too large.",
        )
    return Decision((BatchSet(command.bags), *_no_pump(job)))


def set_batch_time(job: Job, command: SetBatchTime, _world: World) -> Decision:
    if not Decimal("0.5") <= command.minutes <= LONGEST_BATCH_MIN:
        raise Refusal(
            f"A batch takes from half a minute to {LONGEST_BATCH_MIN} minutes, "
            f"not {wording.figure(command.minutes, 2)}: minutes per batch 6.",
            spoken="A batch does not take that long.",
        )
    return Decision((BatchTimeSet(command.minutes), *_no_pump(job)))


def _no_pump(job: Job) -> tuple[Event, ...]:
    """Whoever tells of mixers after a pump has no pump."""
    pump = job.setting(PumpSet)
    return (PumpSet(None),) if pump is not None and pump.bags_per_hour is not None else ()


def set_pump(_job: Job, command: SetPump, _world: World) -> Decision:
    if not 1 <= command.bags <= MOST_PUMPED:
        raise Refusal(
            f"A pump places 1 to {MOST_PUMPED} bags an hour, not {command.bags}: "
            "pump 60 bags per hour.",
            spoken="No pump places that.",
        )
    return Decision((PumpSet(command.bags),))


def set_way_out(_job: Job, command: SetWayOut, _world: World) -> Decision:
    return Decision((WayOutSet(command.door),))


def set_pour_start(job: Job, command: SetPourStart, _world: World) -> Decision:
    if command.wall is not None:
        frame_direction(job, command.wall)
    else:
        is_first_line(job, command.column or str(command.row))
    return Decision((PourStartSet(command.wall, command.column, command.row),))


def set_strip_width(_job: Job, command: SetStripWidth, _world: World) -> Decision:
    return Decision((StripWidthSet(length_of(command.width, "A strip")),))


def place_dam(job: Job, command: PlaceDam, _world: World) -> Decision:
    if command.distance is not None:
        length_of(command.distance, "The way to a dam")
    else:
        line_at_m(job, command.column or str(command.row))
    return Decision((DamPlaced(command.column, command.row, command.distance),))


def take_up_dams(job: Job, _command: TakeUpDams, _world: World) -> Decision:
    if not job.pour.dams:
        raise Refusal("There are no dams to take up.")
    return Decision((DamsTakenUp(),))


DECIDERS: dict[type[Change], Decider] = {
    SetCrew: set_crew,
    SetMixers: set_mixers,
    SetBatch: set_batch,
    SetBatchTime: set_batch_time,
    SetPump: set_pump,
    SetWayOut: set_way_out,
    SetPourStart: set_pour_start,
    SetStripWidth: set_strip_width,
    PlaceDam: place_dam,
    TakeUpDams: take_up_dams,
}
