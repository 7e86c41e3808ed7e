"""The finished height against the zero: set, raised, or fixed at points."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.readings import check_point, check_read
from assistant.decide.suspect import DATUM, unless_far_off
from assistant.errors import Refusal
from assistant.events.finish import (
    FallSet,
    FinishFeathered,
    FinishMoved,
    FinishSet,
    FinishSetAtDoor,
    FinishSetOverHighest,
    HeightFixed,
    LeastDepthSet,
    MostDepthSet,
    PointGround,
)
from assistant.floor.finish_source import doorway_mm, highest_point, outside_mm
from assistant.job import Job
from assistant.limits.own_limits import least_allowed
from assistant.reply import wording
from assistant.reply.examples import COVERING, jambs_of, outside_of, reading_of
from assistant.units.lengths import exact_mm
from assistant.units.measures import measure_of
from grammar.commands import Change, Measure, Reading
from grammar.commands.finish import (
    FeatherTo,
    FinishAtDoor,
    FinishOverHighest,
    FixHeight,
    Grind,
    LowerFinish,
    OwnLimit,
    RaiseFinish,
    SetFall,
    SetFinish,
)


def set_finish(job: Job, command: SetFinish, _world: World) -> Decision:
    if lacks_side(command.height):
        return side_question(command, "Finish", command.height)
    event = FinishSet(height_said(command.height))
    return unless_far_off(job, command, event, ("Finish", command.height), set_up=DATUM)


def only_door(job: Job, said: int | None) -> int:
    """The door that was said, or the only one there is."""
    if said is not None:
        return said
    if len(job.doors) == 1:
        return next(iter(job.doors))
    if not job.doors:
        raise Refusal("No door is known yet: ", jambs_of(1), ".", spoken="No door is known yet.")
    numbers = sorted(job.doors)
    raise Refusal(
        f"Which door: {wording.join_names([str(number) for number in numbers], 6, last='or')}?",
        spoken="Which door?",
    )


def finish_at_door(job: Job, command: FinishAtDoor, _world: World) -> Decision:
    number = only_door(job, command.door)
    door = job.doors.get(number)
    if door is None or door.outside is None:
        raise Refusal(
            f"The floor outside door {number} is not read yet: ",
            outside_of(number),
            ".",
            spoken=f"The floor outside door {wording.spoken_number(number)} is not read yet.",
        )
    height = outside_mm(job, number)
    if height is None:
        raise Refusal(
            f"The floor outside door {number} was read from set-up {door.outside.set_up + 1}, "
            "which is not tied to the first yet.",
            spoken="That door's set-up is not tied yet.",
        )
    covering = None
    if command.covered:
        if not job.covering_mm:
            raise Refusal(
                "How thick the covering is has not been told: ",
                COVERING,
                ".",
                spoken="How thick is the covering?",
            )
        height -= job.covering_mm
        covering = measure_of(job.covering_mm, "mm")
    event = FinishSetAtDoor(number, measure_of(height, "mm"), covering)
    return unless_far_off(job, command, event, ("Finish", _read_in_mm(height)), set_up=DATUM)


def feather_to(job: Job, command: FeatherTo, _world: World) -> Decision:
    number = only_door(job, command.door)
    _check_may_run_out(job)
    height = doorway_mm(job, number)
    if height is None:
        door = job.doors.get(number)
        if door is None or door.left is None or door.right is None:
            raise Refusal(
                f"The floor in door {number} is not read yet: ",
                jambs_of(number),
                ".",
                spoken=f"The floor in door {wording.spoken_number(number)} is not read yet.",
            )
        raise Refusal(
            f"Door {number} was read from a set-up that is not tied to the first yet.",
            spoken="That door's set-up is not tied yet.",
        )
    event = FinishFeathered(number, measure_of(height, "mm"))
    return unless_far_off(job, command, event, ("Finish", _read_in_mm(height)), set_up=DATUM)


def _check_may_run_out(job: Job) -> None:
    """Only what may be poured to nothing is run out to nothing."""
    if job.card is None:
        raise Refusal(
            "The product first; its card says whether it may run out to nothing: product NAME.",
            spoken="The product first.",
        )
    least, is_own = least_allowed(job.own_limits, job.card)
    if not least:
        return
    shown = wording.length(least, job.reading_unit)
    if is_own:
        raise Refusal(
            f"Your own least depth is {shown}, so the pour may not run out to nothing: "
            "no least depth drops it.",
            spoken=f"Your own least depth is {wording.spoken_length(least, job.reading_unit)}.",
        )
    raise Refusal(
        f"{job.card.name} may not run out to nothing: its card's least depth is {shown}. "
        f"Finish level with the door's floor outside, or keep {shown} over its jambs.",
        spoken=f"The card's least depth is {wording.spoken_length(least, job.reading_unit)}.",
    )


def own_limit(job: Job, command: OwnLimit, _world: World) -> Decision:
    own, end = job.own_limits, command.end
    now = own.most_mm if end == "most" else own.least_mm
    event = MostDepthSet if end == "most" else LeastDepthSet
    if command.depth is None:
        if now is None:
            raise Refusal(
                f"No {end} depth of your own is set, so none is dropped.",
                spoken="None is set.",
            )
        return Decision((event(None),))
    depth = length_of(command.depth, f"The {end} depth")
    least = exact_mm(depth) if end == "least" else own.least_mm
    most = exact_mm(depth) if end == "most" else own.most_mm
    if least is not None and most is not None and least > most:
        other = "least" if end == "most" else "most"
        stands = wording.length(least if end == "most" else most, job.reading_unit)
        raise Refusal(
            f"Your own {other} depth is {stands}, so the {end} cannot be "
            f"{wording.as_said(depth)}: no {other} depth drops it.",
            spoken="The least depth would be over the most.",
        )
    return Decision((event(depth),))


def finish_over_highest(job: Job, command: FinishOverHighest, _world: World) -> Decision:
    highest = highest_point(job)
    if highest is None:
        raise Refusal(
            "No point is read yet, so none is the highest: ",
            reading_of("B3"),
            ".",
            spoken="No readings yet.",
        )
    point, height = highest
    over = command.over if command.over and command.over.number else None
    if over is not None:
        height += exact_mm(length_of(over, "The height over it"))
    event = FinishSetOverHighest(point, over, measure_of(height, "mm"))
    return unless_far_off(job, command, event, ("Finish", _read_in_mm(height)), set_up=DATUM)


def _read_in_mm(height: Fraction) -> Reading:
    return Reading(measure_of(height, "mm").number, "mm")


def raise_finish(_job: Job, command: RaiseFinish, _world: World) -> Decision:
    return Decision((FinishMoved(length_of(command.by, "The step up")),))


def lower_finish(_job: Job, command: LowerFinish, _world: World) -> Decision:
    by = length_of(command.by, "The step down")
    return Decision((FinishMoved(Measure(-by.number, by.unit)),))


MOST_FALL_PERCENT = Decimal(10)
"""Steepest fall: a self-levelling pour cannot be steeper, nor should a floor be. Common practice,
no source; only meant to catch a slip of the tongue."""


def fix_height(job: Job, command: FixHeight, _world: World) -> Decision:
    check_point(job, command.point)
    if lacks_side(command.height):
        return side_question(command, command.point, command.height)
    event = HeightFixed(command.point, height_said(command.height))
    return unless_far_off(
        job, command, event, (f"Finish at {command.point}", command.height), set_up=DATUM
    )


def set_fall(job: Job, command: SetFall, _world: World) -> Decision:
    if not 0 <= command.percent <= MOST_FALL_PERCENT:
        raise Refusal(
            f"A fall is from 0 to {wording.percent(MOST_FALL_PERCENT)}, not "
            f"{wording.percent(command.percent)}: fall 1 percent towards A1.",
            spoken="A fall is at most ten percent.",
        )
    check_point(job, command.point)
    return Decision((FallSet(command.percent, command.point),))


def grind(job: Job, command: Grind, _world: World) -> Decision:
    check_read(job, command.point)
    return Decision((PointGround(command.point, length_of(command.by, "What is ground off")),))


DECIDERS: dict[type[Change], Decider] = {
    FinishAtDoor: finish_at_door,
    FeatherTo: feather_to,
    OwnLimit: own_limit,
    FinishOverHighest: finish_over_highest,
    FixHeight: fix_height,
    SetFall: set_fall,
    Grind: grind,
    SetFinish: set_finish,
    RaiseFinish: raise_finish,
    LowerFinish: lower_finish,
}
