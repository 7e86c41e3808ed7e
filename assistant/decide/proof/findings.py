"""The start of the second survey; gaps and defects found on a floor."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World, length_of
from assistant.decide.questions import YesOrNo
from assistant.decide.readings import check_point
from assistant.errors import Refusal
from assistant.events.proof import DefectFound, FindingDropped, GapMeasured
from assistant.events.readings import FinishedFloorBegun
from assistant.job import Job, is_poured_over
from assistant.job.surveys import second_survey_is_open
from assistant.reply import wording
from assistant.reply.examples import GAP
from assistant.units.lengths import exact_mm
from grammar.commands import Change
from grammar.commands.proof import DropFinding, FindDefect, MeasureGap, Verify

LONGEST_EDGE_MM = 10_000
"""No straightedge is longer."""


def verify(job: Job, command: Verify, _world: World) -> Decision:
    if second_survey_is_open(job):
        return Decision()
    begun = (FinishedFloorBegun(),)
    if is_poured_over(job):  # it stands still, or an older record has its clock alone
        return Decision(begun)
    if job.pour.started is not None:
        raise Refusal(
            "The pour is going on. “pour finished” ends it, and begins the survey of the finished "
            "floor by itself.",
            spoken="The pour is going on. Say pour finished when it is.",
        )
    question = YesOrNo(
        "No pour is on record. Confirm that the floor is poured: what is read from now on is of "
        "the finished floor, and the slab's survey is closed. “pour finished” also starts its "
        "clocks.",
        "No pour is on record. Confirm that the floor is poured, or cancel that.",
        command,
    )
    return Decision(begun, question)


def measure_gap(job: Job, command: MeasureGap, _world: World) -> Decision:
    check_point(job, command.point)
    gap = exact_mm(command.gap)
    if gap < 0:
        raise Refusal("A gap is nothing or more, never minus.")
    under = length_of(command.under, "A straightedge")
    if exact_mm(under) > LONGEST_EDGE_MM:
        raise Refusal(
            f"No straightedge is {wording.as_said(under)} long.",
            spoken="No straightedge is that long.",
        )
    if gap > exact_mm(under) / 10:
        raise Refusal(
            f"A gap of {wording.as_said(command.gap)} under {wording.as_said(under)} is more "
            "than a tenth of the straightedge: ",
            GAP,
            ".",
            spoken="That gap is too large for that straightedge.",
        )
    return Decision((GapMeasured(command.gap, under, command.point),))


def find_defect(job: Job, command: FindDefect, _world: World) -> Decision:
    check_point(job, command.point)
    there = [each for each in job.proof.defects
             if (each.kind, each.point) == (command.kind, command.point)]  # fmt: skip
    if there:
        raise Refusal(
            f"{command.kind.capitalize()} at {command.point} is on record, as "
            f"{command.kind} {there[0].number}.",
            spoken="That is on record already.",
        )
    return Decision((DefectFound(command.kind, command.point),))


def drop_finding(job: Job, command: DropFinding, _world: World) -> Decision:
    numbers = job.proof.numbers(command.kind)
    if command.number not in numbers:
        named = [str(each) for each in sorted(numbers)]
        there = f" There are {wording.join_names(named)}." if named else ""
        raise Refusal(
            f"There is no {command.kind} {command.number}.{there}",
            spoken=f"There is no {command.kind} {wording.spoken_number(command.number)}.",
        )
    return Decision((FindingDropped(command.kind, command.number),))


DECIDERS: dict[type[Change], Decider] = {
    Verify: verify,
    MeasureGap: measure_gap,
    FindDefect: find_defect,
    DropFinding: drop_finding,
}
