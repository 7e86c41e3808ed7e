"""Heights at doors, and where the doors are."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World, height_said, lacks_side
from assistant.decide.readings import check_point
from assistant.errors import Refusal
from assistant.events import DoorMeasured, DoorPlaced, OutsideMeasured
from assistant.job import Job
from grammar.commands import Change, MeasureDoor, MeasureOutside, PlaceDoor, Reading


def _check_sides(door: int, example: str, *readings: Reading) -> None:
    # Up to three readings in one breath: asking for each side in turn would take
    # longer than saying the line again.
    if any(lacks_side(reading) for reading in readings):
        raise Refusal(f"Each reading at door {door} needs minus or plus: {example}.")


def measure_door(_job: Job, command: MeasureDoor, _world: World) -> Decision:
    outside = () if command.outside is None else (command.outside,)
    example = f"door {command.door} left minus 4 right minus 9"
    if outside:
        example += " outside plus 2"
    _check_sides(command.door, example, command.left, command.right, *outside)
    event = DoorMeasured(
        command.door,
        height_said(command.left),
        height_said(command.right),
        None if command.outside is None else height_said(command.outside),
    )
    return Decision((event,))


def measure_outside(_job: Job, command: MeasureOutside, _world: World) -> Decision:
    _check_sides(command.door, f"door {command.door} outside plus 2", command.outside)
    return Decision((OutsideMeasured(command.door, height_said(command.outside)),))


def place_door(job: Job, command: PlaceDoor, _world: World) -> Decision:
    check_point(job, command.point)
    return Decision((DoorPlaced(command.door, command.point),))


DECIDERS: dict[type[Change], Decider] = {
    MeasureDoor: measure_door,
    MeasureOutside: measure_outside,
    PlaceDoor: place_door,
}
