"""Readings at points, corrections, and real steps in the floor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.decide.parts import Decider, Decision, World, height_said, lacks_side, side_question
from assistant.decide.suspect import unless_suspect
from assistant.errors import Refusal
from assistant.events.readings import (
    ReadingCorrected,
    ReadingsTaken,
    ReadingStruck,
    ReadingTaken,
    ReadingUnitChosen,
    StepMarked,
    median,
)
from assistant.floor.places import grid_of, over_point, places_of
from assistant.floor.steps import cell_of, column_number, line_members
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import GRID, place_of, tie_on_benchmark
from grammar.commands import Change, Reading
from grammar.commands.readings import (
    CorrectReading,
    MarkStep,
    SetReadingUnit,
    StrikePoint,
    TakeReading,
    TakeReadings,
)

if TYPE_CHECKING:
    from assistant.levels.grid import Grid


def check_point(job: Job, point: str) -> None:
    """Refuse a point without a place, once any point has one."""
    places = places_of(job.layout)
    if not places.names or point in places.row:
        return
    over = over_point(job.layout, point)
    if over is not None:
        name = f"{over.kind} {over.number}"
        raise Refusal(
            f"{point} is under {name}, so there is nothing to read or pour. "
            f"If that is wrong: drop {name}.",
            spoken=f"{wording.spoken_name(point)} is under {over.kind} "
            f"{wording.spoken_number(over.number)}.",
        )
    grid = grid_of(job.layout)
    there = (
        grid_in_words(grid)
        if grid is not None
        else f"The points are {wording.join_names(places.names)}"
    )
    raise Refusal(
        f"There is no point {point}. {there}. To add it, say where it is: ",
        place_of(point),
        ".",
        spoken=f"There is no point {wording.spoken_name(point)}.",
    )


def grid_in_words(grid: Grid) -> str:
    """
    How far the grid extends.

    Where some of its places are off the floor, the last point is in the last row but perhaps
    not in the last column, so columns and rows are given.
    """
    cells = [cell_of(name) for name in grid.names]
    columns = sorted({letters for letters, _ in cells}, key=column_number)
    rows = sorted({number for _, number in cells}, key=int)
    if len(cells) == len(columns) * len(rows):
        return f"The grid runs {grid.names[0]} to {grid.names[-1]}"
    return (
        f"The grid's columns run {columns[0]} to {columns[-1]} and its rows {rows[0]} to "
        f"{rows[-1]}, where there is floor"
    )


def check_read(job: Job, point: str) -> None:
    """Refuse a point without a reading, on the floor that lies open."""
    if point in job.readings:
        return
    if job.slab is not None and point in job.slab.readings:
        raise Refusal(
            f"{point} has no reading of the finished floor yet. That of the slab stays as it is: "
            "readings of the slab.",
            spoken=f"{wording.spoken_name(point)} has no reading of the finished floor.",
        )
    if not job.readings:
        raise Refusal(
            f"{point} has no reading; none has been taken yet.",
            spoken=f"{wording.spoken_name(point)} has no reading.",
        )
    raise Refusal(
        f"{point} has no reading. Read so far: {wording.join_names(tuple(sorted_names(job)))}.",
        spoken=f"{wording.spoken_name(point)} has no reading.",
    )


def check_tied(job: Job, point: str) -> None:
    """Refuse a point that was read from a set-up without a tie to the others."""
    from assistant.floor.depths import depths_of

    if point in depths_of(job) or point not in job.readings:
        return
    raise Refusal(
        f"{point} has no depth yet: nothing ties set-up {job.readings[point].set_up + 1} to the "
        "others. Tie it: ",
        tie_on_benchmark(1),
        ", or tie on a point read before.",
        spoken=f"{wording.spoken_name(point)} has no depth: its set-up is not tied.",
    )


def sorted_names(job: Job) -> list[str]:
    """Read points in walking order."""
    from assistant.floor.depths import depths_of

    return list(depths_of(job))


def take_reading(job: Job, command: TakeReading, _world: World) -> Decision:
    point = command.point or ""
    check_point(job, point)
    if lacks_side(command.reading):
        return side_question(command, point, command.reading)
    taken = ReadingTaken(point, height_said(command.reading))
    return unless_suspect(job, command, command, taken)


def correct_reading(job: Job, command: CorrectReading, _world: World) -> Decision:
    check_read(job, command.point)
    if lacks_side(command.reading):
        return side_question(command, command.point, command.reading)
    corrected = ReadingCorrected(command.point, height_said(command.reading))
    return unless_suspect(job, command, command, corrected)


def strike_point(job: Job, command: StrikePoint, _world: World) -> Decision:
    check_read(job, command.point)
    return Decision((ReadingStruck(command.point),))


def set_reading_unit(_job: Job, command: SetReadingUnit, _world: World) -> Decision:
    if command.unit not in ("mm", "in"):
        raise Refusal("Readings can be in millimetres or in inches.")
    return Decision((ReadingUnitChosen(command.unit),))


def take_readings(job: Job, command: TakeReadings, _world: World) -> Decision:
    check_point(job, command.point)
    values = tuple(height_said(reading) for reading in command.readings)
    middle = median(values)
    counting = TakeReading(command.point, Reading(middle.number, middle.unit))
    return unless_suspect(job, command, counting, ReadingsTaken(command.point, values))


def mark_step(job: Job, command: MarkStep, _world: World) -> Decision:
    first, second = cell_of(command.first), cell_of(command.second)
    if [bool(part) for part in first] != [bool(part) for part in second]:
        raise Refusal(
            "A step lies between two columns, two rows or two points: step between B and C, "
            "step between 2 and 3, or step between B3 and B4.",
            spoken="A step lies between two columns, rows or points.",
        )
    if command.first == command.second:
        raise Refusal(
            f"A step lies between two things, not between {command.first} and itself.",
            spoken="A step lies between two things.",
        )
    for name in (command.first, command.second):
        check_line(job, name)
    if not all(first) and _apart(first, second) != 1:
        raise Refusal(
            f"{command.first} and {command.second} are not next to each other; "
            "name the two that the step lies between.",
            spoken="Those are not next to each other.",
        )
    return Decision((StepMarked(command.first, command.second),))


def check_line(job: Job, name: str) -> None:
    """Refuse a column, row or point that does not exist, and name those that do."""
    if line_members(job.layout, name):
        return
    if all(cell_of(name)):
        check_point(job, name)
        raise Refusal(
            f"{name} has no place yet. Say where it is: ",
            place_of(name),
            ".",
            spoken=f"{wording.spoken_name(name)} has no place yet.",
        )
    grid = grid_of(job.layout)
    if grid is None:
        raise Refusal(
            "There are no columns and rows yet. Set a grid: ",
            GRID,
            ".",
            spoken="There is no grid yet.",
        )
    what = "column" if cell_of(name)[0] else "row"
    raise Refusal(
        f"There is no {what} {name}. {grid_in_words(grid)}.",
        spoken=f"There is no {what} {name}.",
    )


def _apart(first: tuple[str, str], second: tuple[str, str]) -> int:
    if first[0]:
        return abs(column_number(first[0]) - column_number(second[0]))
    return abs(int(first[1]) - int(second[1]))


DECIDERS: dict[type[Change], Decider] = {
    TakeReading: take_reading,
    CorrectReading: correct_reading,
    StrikePoint: strike_point,
    SetReadingUnit: set_reading_unit,
    TakeReadings: take_readings,
    MarkStep: mark_step,
}
