"""Heights at doors, and where the doors are."""

from __future__ import annotations

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.readings import check_point
from assistant.decide.suspect import unless_far_off
from assistant.errors import Refusal
from assistant.events.doors import (
    ClearanceMeasured,
    CoveringSet,
    DoorMeasured,
    DoorPlaced,
    DoorRulesSet,
    DoorwayStepLimited,
    OutsideMeasured,
)
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import CLEARANCE, COVERING
from assistant.units.lengths import exact_mm
from grammar.commands import Change, Reading
from grammar.commands.doors import (
    LimitDoorwayStep,
    MeasureClearance,
    MeasureDoor,
    MeasureOutside,
    PlaceDoor,
    SetCovering,
    SetDoorRules,
)


def _ask_side(command: MeasureDoor | MeasureOutside) -> Decision | None:
    """Ask about the first reading without a side; the next one is asked about after it."""
    for where in ("left", "right", "outside"):
        reading: Reading | None = getattr(command, where, None)
        if reading is not None and lacks_side(reading):
            return side_question(command, f"Door {command.door} {where}", reading)
    return None


def measure_door(job: Job, command: MeasureDoor, _world: World) -> Decision:
    if (asked := _ask_side(command)) is not None:
        return asked
    event = DoorMeasured(
        command.door,
        height_said(command.left),
        height_said(command.right),
        None if command.outside is None else height_said(command.outside),
    )
    door = f"Door {command.door}"
    return unless_far_off(
        job,
        command,
        event,
        (f"{door} left", command.left),
        (f"{door} right", command.right),
        (f"{door} outside", command.outside),
    )


def measure_outside(job: Job, command: MeasureOutside, _world: World) -> Decision:
    if (asked := _ask_side(command)) is not None:
        return asked
    event = OutsideMeasured(command.door, height_said(command.outside))
    what = f"Door {command.door} outside"
    return unless_far_off(job, command, event, (what, command.outside))


def place_door(job: Job, command: PlaceDoor, _world: World) -> Decision:
    check_point(job, command.point)
    return Decision((DoorPlaced(command.door, command.point),))


def limit_doorway_step(_job: Job, command: LimitDoorwayStep, _world: World) -> Decision:
    most = command.most and length_of(command.most, "The limit of a doorway's step")
    return Decision((DoorwayStepLimited(most, bool(command.usual)),))


LARGEST_CLEARANCE_MM = 200
"""Under any leaf; more is a slip of the unit."""
THICKEST_COVERING_MM = 100


def measure_clearance(job: Job, command: MeasureClearance, _world: World) -> Decision:
    if not 0 <= exact_mm(command.clearance) <= LARGEST_CLEARANCE_MM:
        most = wording.length(LARGEST_CLEARANCE_MM, job.reading_unit)
        raise Refusal(
            f"No leaf clears a floor by {wording.as_said(command.clearance)}; up to {most} is "
            "taken: ",
            CLEARANCE,
            ".",
            spoken="No leaf clears a floor by that much.",
        )
    return Decision((ClearanceMeasured(command.door, command.clearance),))


def set_covering(job: Job, command: SetCovering, _world: World) -> Decision:
    if command.thickness is None:
        return Decision((CoveringSet(None),))
    thick = length_of(command.thickness, "A covering")
    if exact_mm(thick) > THICKEST_COVERING_MM:
        most = wording.length(THICKEST_COVERING_MM, job.reading_unit)
        raise Refusal(
            f"No covering is {wording.as_said(thick)} thick; up to {most} is taken: ",
            COVERING,
            ".",
            spoken="No covering is that thick.",
        )
    return Decision((CoveringSet(thick),))


def set_door_rules(_job: Job, command: SetDoorRules, _world: World) -> Decision:
    # The limit that was set for a step is of the rules before.
    usual = DoorwayStepLimited(None, usual=True)
    return Decision((DoorRulesSet(command.country), usual))


DECIDERS: dict[type[Change], Decider] = {
    MeasureDoor: measure_door,
    MeasureOutside: measure_outside,
    PlaceDoor: place_door,
    LimitDoorwayStep: limit_doorway_step,
    MeasureClearance: measure_clearance,
    SetCovering: set_covering,
    SetDoorRules: set_door_rules,
}
