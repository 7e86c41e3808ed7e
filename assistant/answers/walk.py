"""Answers about the walk from point to point."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.answers.readings import next_words, read_back, replaced_words
from assistant.events.readings import ReadingTaken
from assistant.events.walk import PointSkipped, WalkMoved
from assistant.floor import warnings
from assistant.floor.depths import depths_of
from assistant.floor.places import places_of
from assistant.floor.walk import next_point, points_missing
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.walk import (
    GoTo,
    GoToNextLine,
    SkipPoint,
    TakeLine,
    TakePoints,
    TakeRun,
    TakeSame,
    WalkAlong,
)


def points_read_back(moment: Moment, _command: TakePoints | TakeLine | TakeRun) -> Reply:
    """Every point with its value, as taken."""
    job = moment.job
    points = [event.point for event in moment.events if isinstance(event, ReadingTaken)]
    depths = depths_of(job)
    shown = [f"{point} {wording.said_height(job.readings[point].said)}" for point in points]
    spoken = [
        f"{wording.spoken_name(point)}, {wording.spoken_height(job.readings[point].said)}."
        for point in points
    ]
    replaced = [
        f"{point}: {told}"
        for point in points
        if (told := " ".join(replaced_words(moment, point)).strip())
    ]
    details = [*replaced, *_next_words(moment)]
    data = {
        "readings": [
            {
                "point": point,
                "reading_mm": float(job.readings[point].mm),
                "depth_mm": float(depths[point]) if point in depths else None,
            }
            for point in points
        ],
        "next": next_point(job),
    }
    own = [
        warning
        for point in points
        for warning in warnings.warnings_about(warnings.warnings_but_weight(job), point)
    ]
    count = wording.counted(len(points), "point")
    reply = Reply(
        f"{count}: {wording.join_names(shown, most=12)}.",
        tuple(spoken),
        tuple(details),
        data=data,
    )
    return with_matters(moment, reply, own)


def same_taken(moment: Moment, _command: TakeSame) -> Reply:
    point = next(event.point for event in moment.events if isinstance(event, ReadingTaken))
    return read_back(moment, point)


def point_skipped(moment: Moment, _command: SkipPoint) -> Reply:
    skipped = next(event for event in moment.events if isinstance(event, PointSkipped))
    point, why = skipped.point, skipped.reason
    quoted = f", as said: “{why}”" if why else ""
    details = [
        "No pin there; the surface bridges it from the points around.",
        *([] if why else [f"To keep the reason on record: skip {point} because ..."]),
        *_next_words(moment),
    ]
    return with_matters(
        moment,
        Reply(
            f"{point} skipped{quoted}.",
            f"{wording.spoken_name(point)} skipped.{_spoken_next(moment)}",
            tuple(details),
            data={
                "skipped": {"point": point, "reason": why or None},
                "next": next_point(moment.job),
            },
        ),
    )


def went_to(moment: Moment, _command: GoTo | GoToNextLine) -> Reply:
    job = moment.job
    point = next(event.point for event in moment.events if isinstance(event, WalkMoved))
    left = [name for name in points_missing(job) if name != point]
    details = []
    if point in job.readings:
        said = wording.said_height(job.readings[point].said)
        details.append(f"It was read before, {said}; a value now takes its place.")
    if left:
        details.append(f"{wording.counted(len(left), 'other point')} to read.")
    return Reply(
        f"Next: {point}.",
        f"Next, {wording.spoken_name(point)}.",
        tuple(details),
        data={"next": point},
    )


def walk_turned(moment: Moment, command: WalkAlong) -> Reply:
    names = places_of(moment.job.layout).names
    details = []
    if names:
        details.append(f"To and fro: {wording.join_names(names, most=8)}.")
    return Reply(
        f"Walking along {command.lines}.",
        f"Along {command.lines}.{_spoken_next(moment)}",
        (*details, *_next_words(moment)),
        data={"along": command.lines, "next": next_point(moment.job)},
    )


def _next_words(moment: Moment) -> list[str]:
    following = next_point(moment.job)
    if following is not None:
        return [next_words(moment.job, following)]
    return ["All points are read."] if moment.job.readings else []


def _spoken_next(moment: Moment) -> str:
    following = next_point(moment.job)
    return "" if following is None else f" Next, {wording.spoken_name(following)}."


ANSWERS: dict[type[Command], Answerer] = {
    TakePoints: points_read_back,
    TakeLine: points_read_back,
    TakeRun: points_read_back,
    TakeSame: same_taken,
    SkipPoint: point_skipped,
    GoTo: went_to,
    GoToNextLine: went_to,
    WalkAlong: walk_turned,
}
