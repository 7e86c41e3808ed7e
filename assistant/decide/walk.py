"""The way from point to point, and several readings in one breath."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.decide.parts import Decider, Decision, World, height_said, lacks_side
from assistant.decide.questions import Question, YesOrNo
from assistant.decide.readings import check_line, check_point, check_read, take_reading
from assistant.decide.suspect import unless_suspect
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.readings import ReadingTaken
from assistant.events.walk import PointSkipped, WalkMoved, WalkTurned
from assistant.floor.places import places_of
from assistant.floor.steps import cell_of, column_number, line_members
from assistant.floor.walk import next_point
from assistant.job import Job, apply
from assistant.reply import wording
from assistant.reply.examples import GRID, place_of, reading_of
from grammar.commands import Change, Command, Measure, Reading
from grammar.commands.readings import TakeReading
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


def take_points(job: Job, command: TakePoints, _world: World) -> Decision:
    return _taken(job, command, command.points, command.readings)


def take_line(job: Job, command: TakeLine, _world: World) -> Decision:
    points = points_of_line(job, command)
    decision = _taken(job, command, points, command.readings)
    if decision.ask is None and _walks_against(job, command.line, points):
        # Said on the way back, the values would all be on the wrong points.
        names = wording.join_names([*points], most=4)
        first, last = points[0], points[-1]
        question = YesOrNo(
            f"In this order: {names}? The walk stands at the other end. Confirm, or go on one by "
            f"one from {next_point(job)}.",
            f"From {wording.spoken_name(first)} to {wording.spoken_name(last)}? Confirm, or "
            "cancel that.",
            command,
        )
        return Decision(decision.events, question)
    return decision


def points_of_line(job: Job, command: TakeLine) -> tuple[str, ...]:
    """The first points of a row or column, one for each reading, from A or from 1 on."""
    letters, number = cell_of(command.line)
    if letters and number:
        raise Refusal(
            f"{command.line} is a point: row 2, or column B.",
            spoken=f"{wording.spoken_name(command.line)} is a point, no row.",
        )
    check_line(job, command.line)
    every = line_in_order(job, command.line)
    count = len(command.readings)
    if count > len(every):
        what = "Column" if letters else "Row"
        raise Refusal(
            f"{what} {command.line} has {wording.counted(len(every), 'point')}, "
            f"{every[0]} to {every[-1]}; {count} readings were said.",
            spoken=f"{what} {command.line} has {wording.spoken_count(len(every), 'point')}.",
        )
    return tuple(every[:count])


def line_in_order(job: Job, line: str) -> list[str]:
    """The points of a row or column, from A or from 1 on."""
    return sorted(
        line_members(job.layout, line),
        key=lambda name: (column_number(cell_of(name)[0]), int(cell_of(name)[1])),
    )


def _walks_against(job: Job, line: str, points: Sequence[str]) -> bool:
    """Whether the walk is about to go through these points the other way round."""
    here, names = next_point(job), places_of(job.layout).row
    backwards = names[points[0]] > names[points[-1]]
    return backwards and here in line_members(job.layout, line)


def take_run(job: Job, command: TakeRun, _world: World) -> Decision:
    return _taken(job, command, points_of_run(job, command), command.readings)


def points_of_run(job: Job, command: TakeRun) -> tuple[str, ...]:
    """The next points of the walk, one for each reading."""
    points: list[str] = []
    seen = job
    for reading in command.readings:
        point = next_point(seen)
        if point is None or point in points:
            left = wording.counted(len(points), "point")
            raise Refusal(
                f"{len(command.readings)} readings, and {left} left on the walk; name the points: "
                "A1 minus 8, B1 minus 9.",
                spoken=f"Only {wording.spoken_count(len(points), 'point')} left. Name the points.",
            )
        points.append(point)
        seen = apply(seen, ReadingTaken(point, height_said(reading)))
    return tuple(points)


def _taken(
    job: Job, command: Command, points: Sequence[str], readings: Sequence[Reading]
) -> Decision:
    """All of the readings, or a question about those that do not fit; never some of them."""
    if len(set(points)) < len(points):
        twice = next(point for point in points if list(points).count(point) > 1)
        raise Refusal(
            f"{twice} is named twice. Several values of one point: {twice} -17, 18, 19.",
            spoken=f"{wording.spoken_name(twice)} is named twice.",
        )
    events: list[Event] = []
    doubts: list[Question] = []
    seen = job
    for point, reading in zip(points, readings, strict=True):
        check_point(job, point)
        if lacks_side(reading):
            raise Refusal(
                f"{point} lacks its side: A1 minus 8, B1 minus 9. Nothing was taken.",
                spoken=f"{wording.spoken_name(point)}, below or above? Nothing taken.",
            )
        one = TakeReading(point, reading)
        decision = unless_suspect(seen, one, one, ReadingTaken(point, height_said(reading)))
        doubts += [decision.ask] if decision.ask is not None else []
        events += decision.events
        seen = apply(seen, *decision.events)
    return Decision(tuple(events), _question(command, doubts) if doubts else None)


def _question(command: Command, doubts: Sequence[Question]) -> YesOrNo:
    """Asks about all of them at once, for the readings that do not fit the floor."""
    odd = [doubt.command for doubt in doubts if isinstance(doubt.command, TakeReading)]
    names = [one.point or "" for one in odd]
    told = [
        f"{one.point} {wording.said_height(Measure(one.reading.number, one.reading.unit))}"
        for one in odd
    ]
    does = "does" if len(odd) == 1 else "do"
    return YesOrNo(
        f"{wording.join_names(told)} {does} not fit the floor around. Confirm to take all as said, "
        "or say them again; nothing is recorded yet.",
        f"{wording.join_names([wording.spoken_name(name) for name in names])} {does} not fit. "
        "Confirm all, or say them again.",
        command,
        {"suspect": [doubt.data.get("suspect") for doubt in doubts]},
    )


# --- where the walk goes --------------------------------------------------------------------


def same_reading(job: Job, command: TakeSame) -> TakeReading:
    """The reading that is meant; a refusal where there is none to repeat, or no next point."""
    like = command.like or job.last_point
    if like is None:
        raise Refusal(
            "Nothing has been read yet that could be the same: ",
            reading_of("B3"),
            ".",
            spoken="Nothing has been read yet.",
        )
    check_read(job, like)
    said = job.readings[like].said
    return TakeReading(command.point, Reading(said.number, said.unit))


def take_same(job: Job, command: TakeSame, world: World) -> Decision:
    reading = same_reading(job, command)
    return take_reading(job, reading, world)


def skip_point(job: Job, command: SkipPoint, _world: World) -> Decision:
    point = _known(job, command.point or next_point(job))
    if point in job.readings:
        raise Refusal(
            f"{point} has a reading. If it should not count: strike {point}.",
            spoken=f"{wording.spoken_name(point)} has a reading.",
        )
    return Decision((PointSkipped(point, command.reason or ""),))


def go_to(job: Job, command: GoTo, _world: World) -> Decision:
    return Decision((WalkMoved(_known(job, command.point)),))


def _known(job: Job, point: str | None) -> str:
    """A point that has a place."""
    if point is None:
        raise Refusal("There are no points yet. Set a grid: ", GRID, ".", spoken="No points yet.")
    check_point(job, point)
    if point not in places_of(job.layout).row:
        raise Refusal(
            f"{point} has no place yet: ",
            place_of(point),
            ".",
            spoken=f"{wording.spoken_name(point)} has no place yet.",
        )
    return point


def go_to_next_line(job: Job, _command: GoToNextLine, _world: World) -> Decision:
    here, lines = next_point(job), job.layout.walk_along
    if here is None:
        if job.readings:
            raise Refusal("Every point has a reading.")
        raise Refusal("There are no points yet. Set a grid: ", GRID, ".", spoken="No points yet.")
    part = 1 if lines == "rows" else 0
    mine = cell_of(here)[part]
    names = places_of(job.layout).names
    after = names[places_of(job.layout).row[here] :]
    for name in after:
        if cell_of(name)[part] != mine and name not in job.readings:
            return Decision((WalkMoved(name),))
    raise Refusal(
        f"{here} is in the last of the {lines} that has points to read.",
        spoken=f"That was the last of the {lines}.",
    )


def walk_along(_job: Job, command: WalkAlong, _world: World) -> Decision:
    return Decision((WalkTurned(command.lines),))


DECIDERS: dict[type[Change], Decider] = {
    TakePoints: take_points,
    TakeLine: take_line,
    TakeRun: take_run,
    TakeSame: take_same,
    SkipPoint: skip_point,
    GoTo: go_to,
    GoToNextLine: go_to_next_line,
    WalkAlong: walk_along,
}
