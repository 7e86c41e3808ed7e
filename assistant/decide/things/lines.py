"""Drains, and joints and cracks: lines between two places of the floor."""

from __future__ import annotations

from dataclasses import replace

from assistant.decide.parts import Decider, Decision, World, height_said, lacks_side, side_question
from assistant.decide.readings import check_line, check_point
from assistant.decide.suspect import DATUM, unless_far_off
from assistant.decide.things.obstacles import (
    check_not_poured,
    place_measured,
    said_thing,
    thing_name,
)
from assistant.decide.walk import line_in_order
from assistant.errors import Refusal
from assistant.events.things import (
    DrainPlaced,
    LineMarked,
)
from assistant.job import Job
from assistant.reply import wording
from grammar.commands import Change, Command, Measure
from grammar.commands.things import (
    AddCrack,
    AddDrain,
    AddJoint,
    AddJointAlong,
    AddJointBetween,
    PlugOpening,
    RepairCrack,
)


def add_drain(job: Job, command: AddDrain, _world: World) -> Decision:
    check_not_poured(job)
    check_point(job, command.point)
    if lacks_side(command.height):
        return side_question(command, f"Drain at {command.point}", command.height)
    things = job.layout.things
    known = next((drain for drain in things.drains if drain.point == command.point), None)
    number = things.next_number("drain") if known is None else known.number
    event = DrainPlaced(number, command.point, height_said(command.height))
    return unless_far_off(
        job, command, event, (f"Drain at {command.point}", command.height), set_up=DATUM
    )


def add_joint(job: Job, command: AddJoint, _world: World) -> Decision:
    return _line(job, "joint", command.start, command.end)


def with_known_things(job: Job, command: Command) -> Command:
    """The command with what is left out of it and can only be one thing."""
    lines = job.layout.things.lines
    if isinstance(command, RepairCrack) and command.number is None:
        open_cracks = [one.number for one in lines if one.kind == "crack" and not one.repaired]
        return replace(command, number=_the_one(job, "crack", open_cracks))
    if isinstance(command, PlugOpening) and command.number is None:
        obstacles = job.layout.things.obstacles
        unplugged = [one.number for one in obstacles if not (one.is_off_the_area or one.plugged)]
        return replace(command, number=_the_one(job, "opening", unplugged))
    if isinstance(command, AddJointAlong):
        check_line(job, command.line)
        points = line_in_order(job, command.line)
        return AddJoint(points[0], points[-1])
    return command


def _the_one(job: Job, kind: str, numbers: list[int]) -> int:
    """The only one left, or else the only one there is."""
    numbers = numbers or list(job.layout.things.numbers(kind))
    if len(numbers) == 1:
        return numbers[0]
    if not numbers:
        raise Refusal(f"There is no {kind} on record.", spoken=f"There is no {kind} on record.")
    names = wording.join_names([thing_name(kind, each) for each in sorted(numbers)], last="or")
    raise Refusal(f"Which {kind}: {names}?", spoken=f"Which {kind}?")


def joint_between(job: Job, command: AddJointBetween, _world: World) -> Decision:
    for line in (command.first_line, command.second_line):
        check_line(job, line)
    raise Refusal(
        "From which point to which point does the joint run? It is kept by its ends: joint, a "
        "point, to, and a point.",
        spoken="From which point to which point?",
    )


def add_crack(job: Job, command: AddCrack, _world: World) -> Decision:
    return _line(job, "crack", command.start, command.end)


def _line(job: Job, kind: str, start: str, end: str | None) -> Decision:
    if start == end:
        raise Refusal(
            f"A {kind} from {start} to {start} has no length; crack at {start} is one at a point.",
            spoken=f"A {kind} runs from one point to another.",
        )
    places: tuple[Measure, ...] = place_measured(job, start)
    if end is not None:
        places += place_measured(job, end)
    things = job.layout.things
    for line in things.lines:
        if (line.kind, _ends(line.places)) == (kind, _ends(places)):
            raise Refusal(
                f"That is {thing_name(kind, line.number)} already.",
                spoken=f"That is {said_thing(kind, line.number)} already.",
            )
    return Decision((LineMarked(kind, things.next_number(kind), start, end, places),))


def _ends(places: tuple[Measure, ...]) -> set[tuple[Measure, Measure]]:
    """Where a line ends, whichever end was given first; each end by both of its distances."""
    return set(zip(places[::2], places[1::2], strict=True))


def _resolved_before(job: Job, command: Change, world: World) -> Decision:
    """A joint along a line is a joint from its first point to its last."""
    joint = with_known_things(job, command)
    assert isinstance(joint, AddJoint)
    return add_joint(job, joint, world)


DECIDERS: dict[type[Change], Decider] = {
    AddDrain: add_drain,
    AddJoint: add_joint,
    AddCrack: add_crack,
    AddJointAlong: _resolved_before,
    AddJointBetween: joint_between,
}
