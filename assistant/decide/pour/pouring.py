"""While it is poured: start, batches, fronts, stops."""

from __future__ import annotations

from datetime import timedelta

from assistant.decide.parts import Decider, Decision, World, length_of, reason_said
from assistant.decide.pour.hole import WentDownAHole
from assistant.decide.pour.mixing import check_water
from assistant.decide.pour.planning import MOST_IN_A_BATCH
from assistant.decide.questions import Question, YesOrNo
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.pour import (
    BagsLeftCounted,
    BatchPoured,
    BatchSet,
    EdgeStripTold,
    FloorSpiked,
    FrontReached,
    HoleTold,
    JointsCarried,
    LeftOverExplained,
    PourResumed,
    PourStarted,
    PourStopped,
    PumpSet,
    StripPoured,
)
from assistant.events.site import ClockEnded
from assistant.floor.pour.parts import bay_of_front, front_m, parts_of, plan_known
from assistant.floor.pour.plan import PourPlan, plan_of
from assistant.floor.pour.progress import progress_of
from assistant.job import Job, is_poured
from assistant.reply import wording
from assistant.reply.examples import FRONT
from assistant.reply.mix_water import litres_said
from assistant.site.before_pour import against_pour, joints_of
from assistant.units.lengths import metres
from grammar.commands import Change, Command
from grammar.commands.pour import (
    CarryJoints,
    CountBagsLeft,
    FinishStrip,
    GoOnPouring,
    PourBatch,
    ReachFront,
    StartPour,
    StopPour,
    TellEdgeStrip,
    TellHole,
    TellLeftOver,
    TellSpiked,
)

SAME_BATCH = timedelta(seconds=15)
"""A second batch reported so soon may be the first, heard twice. Our own choice, no source."""


def start_pour(job: Job, command: StartPour, world: World) -> Decision:
    """Begins where nothing stands against it, or somebody says why all the same."""
    _check_not_poured(job)
    if job.pour.batches:
        raise Refusal("The pour has begun: batch, ", FRONT, ", pour finished.",
                      spoken="The pour has begun.")  # fmt: skip
    against = tuple(reason.message for reason in against_pour(job, world.now))
    words = reason_said(command.reason)
    if against and words is None:
        return Decision()  # the answer says what stands against it
    return Decision((PourStarted(against, words if against else None),))


def pour_batch(job: Job, command: PourBatch, world: World) -> Decision:
    _check_not_poured(job)
    bags = command.bags or _usual_batch(job)
    if bags > MOST_IN_A_BATCH:
        raise Refusal(
            f"A batch has at most {MOST_IN_A_BATCH} bags, not {bags}: batch 2 bags.",
            spoken="That batch is too large.",
        )
    water = litres_said(command.water, command.quarts, command.gallons)
    if water is not None:
        check_water(water, job.reading_unit)
    poured = BatchPoured(bags, water)
    last = job.pour.batches[-1] if job.pour.batches else None
    since = world.now - last.time if last else SAME_BATCH
    return Decision((poured,), _another(command, since) if since < SAME_BATCH else None)


def _another(command: Command, since: timedelta) -> Question:
    seconds = max(round(since.total_seconds()), 0)
    return YesOrNo(
        f"Another batch, {wording.counted(seconds, 'second')} after the last? Confirm, or cancel "
        "that.",
        "Another batch, so soon? Confirm, or cancel that.",
        command,
    )


def _usual_batch(job: Job) -> int:
    pump, batch = job.setting(PumpSet), job.setting(BatchSet)
    if pump is not None and pump.bags_per_hour is not None:
        return 1
    if batch is None and job.pour.batches:
        return job.pour.batches[-1].bags  # as many as the last one
    if batch is None:
        raise Refusal(
            "How many bags were in it? Batch 2 bags; or once for all, batches of 2 bags.",
            spoken="How many bags? Say batch, and how many.",
        )
    return batch.bags


def reach_front(job: Job, command: ReachFront, _world: World) -> Decision:
    _check_pouring(job)
    if command.distance is not None:
        length_of(command.distance, "The way to the front")
    reached = FrontReached(command.distance, command.column, command.row)
    at = front_m(job, reached)
    plan = plan_known(job)
    if plan is None:
        _check_past_the_last(job, at)
    else:
        length = plan.whole.to_m - plan.whole.from_m
        if at > length + 0.05:
            raise Refusal(
                f"The floor is {wording.distance(length, job.reading_unit)} long that way, so the "
                f"front is not at {wording.distance(at, job.reading_unit)}.",
                spoken="The floor is not that long.",
            )
        _check_further(job, plan, reached)
        return Decision((reached,), _too_soon(job, plan, reached, command))
    return Decision((reached,))


def finish_strip(job: Job, command: FinishStrip, _world: World) -> Decision:
    _check_pouring(job)
    plan = plan_of(job)
    if not 1 <= command.strip <= len(plan.strips):
        count = wording.counted(len(plan.strips), "strip")
        raise Refusal(f"The plan has {count}, not {command.strip}. Without a plan: ",
                      FRONT, ".", spoken="There is no such strip.")  # fmt: skip
    done = plan.strips[command.strip - 1]
    told = [each.at for each in job.pour.fronts]
    if any(isinstance(at, StripPoured) and at.strip >= command.strip for at in told):
        raise Refusal(f"Strip {command.strip} is done on record already.",
                      spoken="That strip is done already.")  # fmt: skip
    poured = StripPoured(command.strip, done.to_m)
    _check_further(job, plan, poured)
    return Decision((poured,), _too_soon(job, plan, poured, command))


TOO_SOON = 0.4
"""A front that so small a part of the bags planned up to it has reached is asked about: a strip
heard wrongly, or batches that nobody reported. Our own choice, no source."""


def _too_soon(
    job: Job, plan: PourPlan, reached: FrontReached | StripPoured, command: Command
) -> Question | None:
    """Asks of a front far beyond where the bags since the last one can have come."""
    parts = parts_of(job, plan)
    at_m, before = front_m(job, reached), sum(part.planned_bags for part in parts)
    bay = bay_of_front(plan, reached, at_m, before)
    planned = 0.0 if bay is None else plan.bags_to(bay, at_m) - before
    used = job.pour.bags_used - sum(part.used_bags for part in parts)
    least = 2 * max((batch.bags for batch in job.pour.batches), default=1)
    if used >= TOO_SOON * planned or planned - used < least:
        return None
    where = wording.distance(round(at_m, 2), job.reading_unit)
    return YesOrNo(
        f"{wording.counted(used, 'bag')} since the last front, of "
        f"{wording.figure(planned, 1)} planned up to {where}: is it there already? Confirm, or "
        "cancel that.",
        "With so few bags, is it there already? Confirm, or cancel that.",
        command,
    )


def _check_past_the_last(job: Job, at_m: float) -> None:
    """Without a plan, refuse a front that is no farther than one already reported in metres."""
    told = [metres(each.at.distance) for each in job.pour.fronts
            if isinstance(each.at, FrontReached) and each.at.distance is not None]  # fmt: skip
    if told and at_m <= max(told) + 1e-6:
        raise Refusal(
            f"The front was at {wording.distance(max(told), job.reading_unit)} already. "
            "If that was a slip: take that back.",
            spoken="The front was there already.",
        )


def _check_further(job: Job, plan: PourPlan, reached: FrontReached | StripPoured) -> None:
    """Refuse a front that lies no farther than the last one."""
    parts = parts_of(job, plan)
    at_m = front_m(job, reached)
    planned = sum(part.planned_bags for part in parts)
    bay = bay_of_front(plan, reached, at_m, planned)
    if parts and (bay is None or plan.bags_to(bay, at_m) <= planned + 1e-6):
        raise Refusal(
            f"The front was at {wording.distance(parts[-1].to_m, job.reading_unit)} already. "
            "If that was a slip: take that back.",
            spoken="The front was there already.",
        )


def count_bags_left(job: Job, command: CountBagsLeft, _world: World) -> Decision:
    _check_not_poured(job)
    return Decision((BagsLeftCounted(command.bags),))


def tell_spiked(job: Job, _command: TellSpiked, _world: World) -> Decision:
    _check_pouring(job)
    return Decision((FloorSpiked(),))


def tell_hole(job: Job, command: TellHole, _world: World) -> Decision:
    if not job.pour.fronts:
        raise Refusal(
            "No front is on record yet, so nothing shows what was lost: ",
            FRONT,
            ".",
            spoken="No front is on record yet.",
        )
    return Decision((HoleTold(command.lost),))


def stop_pour(job: Job, command: StopPour, _world: World) -> Decision:
    _check_pouring(job)
    if job.pour.stopped is not None:
        raise Refusal("The pour stands still already: pour on, or pour finished.",
                      spoken="The pour stands still already.")  # fmt: skip
    mixing = any(each.clock == "mix" and each.ended is None for each in job.site.clocks)
    ended: tuple[Event, ...] = (ClockEnded("mix"),) if mixing else ()
    return Decision((PourStopped(reason_said(command.reason)), *ended))


def go_on_pouring(job: Job, _command: GoOnPouring, _world: World) -> Decision:
    _check_not_poured(job)
    if job.pour.stopped is None:
        raise Refusal("The pour does not stand still; stop pour stops it.",
                      spoken="The pour does not stand still.")  # fmt: skip
    return Decision((PourResumed(),))


def tell_edge_strip(job: Job, _command: TellEdgeStrip, _world: World) -> Decision:
    _check_not_poured(job)
    return Decision((EdgeStripTold(),))


def carry_joints(job: Job, _command: CarryJoints, _world: World) -> Decision:
    _check_not_poured(job)
    numbers = joints_of(job)
    if not numbers:
        raise Refusal("No joint is told: joint A2 to F2.", spoken="No joint is told.")
    return Decision((JointsCarried(numbers),))


def tell_left_over(job: Job, command: TellLeftOver, _world: World) -> Decision:
    if not job.pour.batches:
        raise Refusal("Nothing is poured yet, so nothing is left over.",
                      spoken="Nothing is poured yet.")  # fmt: skip
    words = reason_said(command.reason)
    assert words is not None  # the phrase has one
    return Decision((LeftOverExplained(words),))


def _check_not_poured(job: Job) -> None:
    if is_poured(job):
        raise Refusal(
            "The pour is finished on record. If it is not: take that back. Another floor or lift "
            "is a job of its own.",
            spoken="The pour is finished on record.",
        )


def _check_pouring(job: Job) -> None:
    _check_not_poured(job)
    if job.pour.started is None:
        raise Refusal("The pour has not begun: start pour, or batch 2 bags.",
                      spoken="The pour has not begun.")  # fmt: skip


def asks_after_front(job: Job) -> Question | None:
    """What is asked once a front or strip is on record: did it go down a hole?"""
    if not job.pour.fronts:
        return None
    progress = progress_of(job)
    if not progress.asks:
        return None
    last = progress.parts[-1]
    over = wording.figure(last.used_bags - last.planned_bags, 1)
    return WentDownAHole(
        f"That part took {over} bags more than planned. Did it go down a hole? "
        "Say hole, or no hole.",
        "Did it go down a hole? Say hole, or no hole.",
        TellHole(lost=True),
    )


DECIDERS: dict[type[Change], Decider] = {
    StartPour: start_pour,
    PourBatch: pour_batch,
    ReachFront: reach_front,
    FinishStrip: finish_strip,
    CountBagsLeft: count_bags_left,
    TellSpiked: tell_spiked,
    TellHole: tell_hole,
    StopPour: stop_pour,
    GoOnPouring: go_on_pouring,
    TellEdgeStrip: tell_edge_strip,
    CarryJoints: carry_joints,
    TellLeftOver: tell_left_over,
}
