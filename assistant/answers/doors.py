"""Answers about doors: out of level across, and the step to the floor outside."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.finish.source import source_since
from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.errors import Refusal
from assistant.events.finish import FinishFeathered, FinishSetAtDoor
from assistant.floor.warnings import DoorSizes, door_matters, door_sizes
from assistant.job import Door, being_read
from assistant.reply import wording
from assistant.reply.examples import jambs_of, outside_of
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.doors import (
    AskDoor,
    AskDoors,
    LimitDoorwayStep,
    MeasureClearance,
    MeasureDoor,
    MeasureOutside,
    PlaceDoor,
    SetCovering,
    SetDoorRules,
)


def door_told(moment: Moment, command: MeasureDoor | MeasureOutside) -> Reply:
    """How the door lies, first across, then to the floor outside."""
    door = moment.job.doors[command.door]
    sizes = door_sizes(moment.job, door)
    parts, spoken = _parts(sizes, moment.unit), _spoken_parts(sizes, moment.unit)
    name = wording.spoken_number(command.door)
    reply = Reply(
        f"Door {command.door}: {', '.join(parts) or _untied(door)}.",
        f"Door {name}: {', '.join(spoken) or 'read, not tied yet'}.",
        (*_read_back(door), *_finish_kept(moment, door)),
        asides=(
            *_replaced(moment, command.door),
            *_lacking(door, moment.unit),
        ),
        data={"door": door_data(door, sizes)},
        in_a_glance=True,
    )
    return with_matters(moment, reply, door_matters(moment.job, command.door))


def door_data(door: Door, sizes: DoorSizes) -> dict[str, Any]:
    """One door for programs; millimetres."""
    return {
        "id": door.number,
        "across_mm": None if sizes.across_mm is None else float(sizes.across_mm),
        "low_side": sizes.low_side,
        "step_mm": None if sizes.step_mm is None else float(sizes.step_mm),
        "step_direction": {"higher": "up", "lower": "down", None: None}[sizes.outside_is],
        "at": door.point,
        **({} if sizes.clear_mm is None else {"clear_mm": float(sizes.clear_mm)}),
    }


def _across(sizes: DoorSizes, unit: str, out: str = " out of level") -> str:
    """How level it is from jamb to jamb; ``out`` is left off in a column of that name."""
    if sizes.across_mm is None:
        return ""
    if sizes.low_side is None:
        return "level across"
    return f"{wording.length(sizes.across_mm, unit)}{out}, {sizes.low_side} low"


def _spoken_across(sizes: DoorSizes, unit: str) -> str:
    if sizes.across_mm is None:
        return ""
    if sizes.low_side is None:
        return "level across"
    return f"{wording.spoken_length(sizes.across_mm, unit)} out, {sizes.low_side} low"


def _step(sizes: DoorSizes, unit: str) -> str:
    if sizes.step_mm is None:
        return ""
    if sizes.outside_is is None:
        return "flush with the floor outside"
    way = "up" if sizes.outside_is == "higher" else "down"
    return f"step of {wording.length(sizes.step_mm, unit)} {way} to the floor outside"


def _spoken_step(sizes: DoorSizes, unit: str) -> str:
    if sizes.step_mm is None:
        return ""
    if sizes.outside_is is None:
        return "flush outside"
    way = "up" if sizes.outside_is == "higher" else "down"
    return f"step {way} {wording.spoken_length(sizes.step_mm, unit)}"


def _parts(sizes: DoorSizes, unit: str) -> list[str]:
    """All that is known of it, to read."""
    told = (_across(sizes, unit), _step(sizes, unit), _leaf(sizes, unit))
    return [text for text in told if text]


def _spoken_parts(sizes: DoorSizes, unit: str) -> list[str]:
    """The same to say; what the leaf clears, only where it was asked for."""
    return [text for text in (_spoken_across(sizes, unit), _spoken_step(sizes, unit)) if text]


def _leaf(sizes: DoorSizes, unit: str) -> str:
    if sizes.clear_mm is None:
        return ""
    if sizes.clear_mm < 0:
        return f"the leaf binds by {wording.length(-sizes.clear_mm, unit)}"
    return f"the leaf clears by {wording.length(sizes.clear_mm, unit)}"


def clearance_told(moment: Moment, command: MeasureClearance) -> Reply:
    """What was measured, and what is left of it under the leaf in the end."""
    job, unit = moment.job, moment.unit
    door = job.doors[command.door]
    sizes = door_sizes(job, door)
    number, said = wording.spoken_number(command.door), wording.as_said(command.clearance)
    details = []
    if sizes.clear_mm is None:
        details.append(
            f"What the pour leaves of it shows once the jambs are read: "
            f"{jambs_of(door.number).in_unit(unit)}."
        )
    left = f"; {_leaf(sizes, unit)} in the end" if sizes.clear_mm is not None else ""
    if job.covering_mm:
        details.append(f"The covering of {wording.length(job.covering_mm, unit)} is taken off.")
    elif sizes.clear_mm is not None:
        details.append("No covering was told, so none is taken off.")
    reply = Reply(
        f"Door {command.door} clears {said}{left}.",
        f"Door {number} clears {wording.spoken_said(command.clearance)}.",
        tuple(details),
        data={"door": door_data(door, sizes)},
    )
    return with_matters(moment, reply, door_matters(job, command.door))


def covering_set(moment: Moment, command: SetCovering) -> Reply:
    job = moment.job
    if command.thickness is None:
        told = "No covering: the floor is walked on as it is poured.", "No covering."
    else:
        shown = wording.as_said(command.thickness)
        told = (
            f"Covering {shown}; steps and leaves at doors are worked out with it on.",
            f"Covering {wording.spoken_said(command.thickness)}.",
        )
    reply = Reply(*told, data={"covering_mm": float(job.covering_mm)})
    return _with_doors_that_lie_open(moment, reply)


def _with_doors_that_lie_open(moment: Moment, reply: Reply) -> Reply:
    """The answer to a setting of the whole job, with what it means for the doors as they are."""
    before, after = being_read(moment.before), being_read(moment.after)
    shown = replace(moment, before=before, after=after)
    return with_matters(shown, reply, door_matters(after))


def rules_set(moment: Moment, _command: SetDoorRules) -> Reply:
    job, unit = moment.job, moment.unit
    rules = job.door_rules
    reply = Reply(
        f"Doorways by {rules.title}: up to {wording.length(rules.plain_mm, unit)} as it is, "
        f"{wording.length(rules.most_mm, unit)} at most.",
        f"Doors by {rules.title}.",
        (
            "They are for the floor as it is walked on, coverings and all; local rules decide.",
            f"Source: {rules.source_between}.",
        ),
        data={"door_rules": {"id": rules.id, "plain_mm": float(rules.plain_mm),
                             "most_mm": float(rules.most_mm)}},
    )  # fmt: skip
    return _with_doors_that_lie_open(moment, reply)


def _untied(door: Door) -> str:
    """Nothing is known yet of a floor outside that was read from a set-up without a tie."""
    set_up = None if door.outside is None else door.outside.set_up + 1
    return f"its step is not known until set-up {set_up} is tied"


def _read_back(door: Door) -> list[str]:
    told = [
        f"{name} {wording.said_height(height.said)}"
        for name, height in (
            ("left", door.left), ("right", door.right), ("outside", door.outside)
        )
        if height is not None
    ]  # fmt: skip
    return [wording.sentence(", ".join(told))]


def _replaced(moment: Moment, number: int) -> list[str]:
    before, after = moment.before.doors.get(number), moment.after.doors[number]
    if before is None:
        return []
    pairs = [("left", before.left, after.left), ("right", before.right, after.right),
             ("outside", before.outside, after.outside)]  # fmt: skip
    was = [
        f"{name} {wording.said_height(old.said)}" for name, old, new in pairs if old and old != new
    ]
    return [f"Replaces {', '.join(was)}; both stay in the record."] if was else []


def _finish_kept(moment: Moment, door: Door) -> list[str]:
    """A finish set from this door does not move when it is read anew, and that is said."""
    source = moment.after.finish_from
    if not isinstance(source, FinishSetAtDoor | FinishFeathered) or source.door != door.number:
        return []
    return source_since(moment.after)


def _lacking(door: Door, unit: str) -> list[str]:
    lacking = []
    if door.left is None:
        jambs = jambs_of(door.number).in_unit(unit)
        lacking.append(f"The jambs are still to be read: {jambs}.")
    if door.outside is None:
        outside = outside_of(door.number).in_unit(unit)
        lacking.append(f"The floor outside is still to be read: {outside}.")
    return lacking


def door_placed(moment: Moment, command: PlaceDoor) -> Reply:
    door = moment.job.doors[command.door]
    was = moment.before.doors.get(command.door)
    moved = was is not None and was.point not in (None, command.point)
    number = wording.spoken_number(command.door)
    reply = Reply(
        f"Door {command.door} is at {command.point}.",
        f"Door {number} at {wording.spoken_name(command.point)}.",
        (f"It was at {was.point} before.",) if was is not None and moved else (),
        data={"door": door_data(door, door_sizes(moment.job, door))},
    )
    return with_matters(moment, reply)


def step_limited(moment: Moment, _command: LimitDoorwayStep) -> Reply:
    most = moment.job.step_limit_mm
    if most is None:
        told = "No limit for the step of a doorway", "No doorway step limit"
    else:
        told = (
            f"Doorways may step {wording.length(most, moment.unit)} at most",
            f"Doorway step limit {wording.spoken_length(most, moment.unit)}",
        )
    reply = Reply(
        f"{told[0]}.",
        f"{told[1]}.",
        ("It is for the floor as it is walked on, coverings and all; local rules decide.",),
        data={"step_limit_mm": None if most is None else float(most)},
    )
    return with_matters(moment, reply, door_matters(moment.job))


def one_door(moment: Moment, command: AskDoor) -> Reply:
    """What is known of one door, and what stands against it."""
    job, unit = moment.job, moment.unit
    door = job.doors.get(command.door)
    if door is None:
        raise Refusal(
            f"Door {command.door} has not been measured: ",
            jambs_of(command.door).in_unit(unit),
            ".",
            spoken=f"Door {wording.spoken_number(command.door)} has not been measured.",
        )
    sizes = door_sizes(job, door)
    parts, spoken = _parts(sizes, unit), _spoken_parts(sizes, unit)
    step = None if sizes.step_mm is None else float(sizes.step_mm)
    name = wording.spoken_number(command.door)
    return Reply(
        f"Door {command.door}: {', '.join(parts) or 'not read'}.",
        f"Door {name}: {', '.join(spoken) or 'not read'}.",
        tuple(_lacking(door, unit)),
        warnings=door_matters(job, command.door),
        data={
            "answer": {"id": "doorway-step", "value": step, "unit": "mm"},
            "door": door_data(door, sizes),
        },
    )


def doors_listed(moment: Moment, _command: AskDoors) -> Reply:
    job, unit = moment.job, moment.unit
    doors = [job.doors[number] for number in sorted(job.doors)]
    if not doors:
        return Reply(
            "No door has been measured yet.",
            details=(f"Say the height at both jambs: {jambs_of(1).in_unit(unit)}.",),
            data={"doors": []},
        )
    sizes = [door_sizes(job, door) for door in doors]
    warnings = door_matters(job)
    to_see = len({w.id.partition(":")[2] for w in warnings})
    headline = wording.counted(len(doors), "door")
    spoken = wording.spoken_count(len(doors), "door")
    rows = tuple(_row(door, size, unit) for door, size in zip(doors, sizes, strict=True))
    return Reply(
        f"{headline}, {to_see} with something to see to." if to_see else f"{headline} measured.",
        f"{spoken}, {wording.spoken_number(to_see)} to see to." if to_see else
        f"{spoken} measured.",
        tables=(Table("Doors", ("Door", "At", "Across", "Step outside"), rows),),
        warnings=warnings,
        data={"doors": [door_data(d, s) for d, s in zip(doors, sizes, strict=True)]},
    )  # fmt: skip


def _row(door: Door, sizes: DoorSizes, unit: str) -> tuple[str, ...]:
    across = _across(sizes, unit, "") or "not read"
    step = "not read"
    if sizes.step_mm is not None:
        way = {"higher": " up", "lower": " down", None: ""}[sizes.outside_is]
        step = f"{wording.length(sizes.step_mm, unit)}{way}"
    return str(door.number), door.point or "-", across, step


ANSWERS: dict[type[Command], Answerer] = {
    MeasureDoor: door_told,
    MeasureOutside: door_told,
    PlaceDoor: door_placed,
    LimitDoorwayStep: step_limited,
    MeasureClearance: clearance_told,
    SetCovering: covering_set,
    SetDoorRules: rules_set,
    AskDoor: one_door,
    AskDoors: doors_listed,
}
