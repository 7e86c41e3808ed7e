"""What may still be changed about the slab once it is poured over."""

from __future__ import annotations

from assistant.decide.parts import Decision
from assistant.decide.questions import YesOrNo
from assistant.errors import Refusal
from assistant.events.readings import FinishedFloorBegun, ReadingsTaken, ReadingTaken
from assistant.job import Job, is_poured, second_survey_is_open
from assistant.reply import wording
from assistant.reply.examples import place_of
from grammar import short_form
from grammar.commands import Command
from grammar.commands.finish import (
    FeatherTo,
    FinishAtDoor,
    FinishOverHighest,
    LowerFinish,
    OwnLimit,
    RaiseFinish,
    SetFinish,
)
from grammar.commands.material import ChooseProduct, ExtendWithAggregate, PourNeat, SetWaste
from grammar.commands.room import AddPoint, AddWall, CloseRoom, SetGrid, SetRoom
from grammar.commands.zones import DropZone, SetZoneFinish, SetZoneProduct

_LAID_OUT = (SetRoom, AddWall, CloseRoom, SetGrid)
_PLANNED = (ChooseProduct, SetWaste, ExtendWithAggregate, PourNeat, SetFinish, RaiseFinish,
            LowerFinish, FinishAtDoor, FinishOverHighest, FeatherTo, OwnLimit, SetZoneFinish,
            SetZoneProduct, DropZone)  # fmt: skip


def check_after_pour(job: Job, command: Command) -> None:
    """Refuse a change that would move points read on a slab that is now covered."""
    if not is_poured(job) or not job.readings:
        return
    if isinstance(command, _LAID_OUT):
        raise Refusal(
            "The pour is finished, and the finished floor is read at the slab's own points: room "
            "and grid stay. A point between them: ",
            place_of("K1"),
            ". Another floor is a job of its own.",
            spoken="The pour is finished: room and grid stay.",
        )
    if isinstance(command, AddPoint) and command.point in job.readings:
        raise Refusal(
            f"{command.point} was read on the slab and stays where it was. "
            "Give the new point a name of its own.",
            spoken=f"{wording.spoken_name(command.point)} stays where it was on the slab.",
        )


def with_what_is_poured(job: Job, command: Command, decision: Decision) -> Decision:
    """The decision, with a question first where it changes the plan of a poured floor, or the
    product of one that is being poured."""
    if isinstance(command, ChooseProduct) and decision.ask is None and not is_poured(job):
        return Decision(decision.events, _other_product(job, command))
    poured_by = job.card is not None or not isinstance(command, ChooseProduct)
    asks = isinstance(command, _PLANNED) and is_poured(job) and job.readings and poured_by
    if not asks or decision.ask is not None:
        return decision
    said = wording.sentence(short_form(command))
    question = YesOrNo(
        f"{said} The pour is finished: this changes what is on record of it (tally, order, cut "
        "list). Confirm, or cancel that. Another lift or floor is a job of its own.",
        "The pour is finished. This changes its tally and order. Confirm, or cancel that.",
        command,
    )
    return Decision(decision.events, question)


def _other_product(job: Job, command: ChooseProduct) -> YesOrNo | None:
    """Asks of another product for the whole floor once some of it is poured."""
    if not job.pour.batches or job.card is None or job.card.name.lower() == command.name.lower():
        return None
    bags = wording.counted(job.pour.bags_used, "bag")
    return YesOrNo(
        f"{bags} of {job.card.name} are poured: {command.name} would count for all of them, and "
        f"for the rest. Confirm, or cancel that. For one part: in zone 1 product {command.name}.",
        "The pour has begun. Another product for all of it? Confirm, or cancel that.",
        command,
    )


def with_second_survey(job: Job, decision: Decision) -> Decision:
    """The decision, preceded by the start of the second survey where that is not open yet."""
    if second_survey_is_open(job) or not decision.events:
        return decision
    return Decision((FinishedFloorBegun(), *decision.events), decision.ask)


BEYOND_FRONT_M = 0.3
"""A point farther beyond the front than this is asked about: by the bags it is known no better.
Our own choice, no source."""


def with_front_passed(job: Job, command: Command, decision: Decision) -> Decision:
    """The decision, with a question first where no floor is poured yet at a point that was read."""
    taken = (ReadingTaken, ReadingsTaken)
    read = [event.point for event in decision.events if isinstance(event, taken)]
    if decision.ask is not None or not read or job.pour.stopped is None or is_poured(job):
        return decision
    from assistant.floor.pour.front import beyond_front_m

    beyond = next((point for point in read if beyond_front_m(job, point) > BEYOND_FRONT_M), None)
    if beyond is None:
        return decision
    far = wording.distance(round(beyond_front_m(job, beyond), 1), job.reading_unit)
    question = YesOrNo(
        f"{beyond} lies {far} beyond the front: nothing is poured there yet. Confirm takes it for "
        "the poured floor's all the same; cancel that leaves it. For the slab's: pour on first.",
        f"{wording.spoken_name(beyond)} lies beyond the front. Confirm, or cancel that.",
        command,
    )
    return Decision(decision.events, question)
