"""What is said while nobody knows how fast a crew places what it mixes."""

from __future__ import annotations

from assistant.answers.parts import Moment
from assistant.floor.pour.placing import placing_lacks
from assistant.floor.pour.plan import PourPlan
from assistant.floor.walk import points_missing
from assistant.job import Job
from assistant.pours.placing import BY_HAND_M2_H, BY_PUMP_M2_H, learnt_minutes
from assistant.reply import wording
from assistant.reply.replies import Reply

PUBLISHED = "one independent trade article"


def no_pace(moment: Moment, plan: PourPlan) -> Reply:
    """What the plan would need, and the one published rate beside it."""
    lacks = placing_lacks(moment.job)
    mean_m = plan.whole.volume_m3 / plan.whole.area_m2
    a_metre = mean_m * plan.front_m / plan.bag_m3
    needs = a_metre / plan.edge_limit_min * 60
    unit = moment.unit
    hand, pump = (rate * mean_m / plan.bag_m3 for rate in (BY_HAND_M2_H, BY_PUMP_M2_H))
    metre = wording.distance(1.0, "mm") if unit != "in" else "3 ft 3 3/8 in"
    return Reply(
        "No plan yet: how fast you place it is not said.",
        "No plan yet. Say mixers, batches and minutes.",
        (
            f"Say {', '.join(lacks)}; or pump 60 bags per hour.",
            f"What it would need: a strip {metre} wide along the front of "
            f"{shown_at(moment, plan.front_m)} takes {wording.figure(a_metre, 1)} bags; to keep "
            f"its edge wet ({wording.figure(plan.edge_limit_min, 1)} min), "
            f"{wording.figure(needs, 0)} bags an hour.",
            f"For scale: {PUBLISHED} has three people mixing by hand place "
            f"{wording.area(BY_HAND_M2_H, unit)} an hour, and with a pump "
            f"{wording.area(BY_PUMP_M2_H, unit)}; at this mean depth that is "
            f"{wording.figure(hand, 0)} and {wording.figure(pump, 0)} bags an hour.",
            *_learnt(moment.job),
            *unread_points_note(moment.job),
        ),
        data={
            "strips": [],
            "edge_lost": [],
            "needs": {
                "bags_per_hour_for_a_metre": needs,
                "edge_limit_min": plan.edge_limit_min,
                "published_m2_per_hour": {"by_hand": BY_HAND_M2_H, "by_pump": BY_PUMP_M2_H},
                "lacks": list(lacks),
            },
        },
    )


def _learnt(job: Job) -> tuple[str, ...]:
    """What the batches so far have shown."""
    batches = job.pour.batches
    minutes = learnt_minutes(
        [(batch.time - batches[0].time).total_seconds() / 60 for batch in batches],
        [batch.bags for batch in batches],
    )
    if minutes is None:
        return ()
    rate = round(60 / minutes)
    return (f"Learnt from the batches so far: {rate} bags an hour; pump {rate} bags per hour "
            "plans with it.",)  # fmt: skip


def unread_points_note(job: Job) -> tuple[str, ...]:
    unread = points_missing(job)
    return (f"{wording.counted(len(unread), 'point')} not read yet.",) if unread else ()


def shown_at(moment: Moment, at_m: float) -> str:
    return wording.distance(at_m, moment.unit)


def rounded_m(unit: str, at_m: float, places: int = 2) -> float:
    """A place worked out, to so many decimals of a metre; of one, to the inch in inch jobs."""
    if unit == "in":
        return round(at_m / 0.0254) * 0.0254 if places == 1 else at_m
    return round(at_m, places)
