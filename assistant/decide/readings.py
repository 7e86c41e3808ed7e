"""Readings at points, and putting them right."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant import wording
from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.suspect import unless_suspect
from assistant.errors import Refusal
from assistant.events import (
    InstrumentRangeSet,
    ReadingCorrected,
    ReadingScratched,
    ReadingTaken,
    ReadingUnitChosen,
)
from assistant.floor import grid_of, places_of
from assistant.job import Job
from assistant.trust.steps import cell_of, column_number
from grammar.commands import (
    Change,
    CorrectReading,
    ScratchPoint,
    SetInstrumentRange,
    SetReadingUnit,
    TakeReading,
)

if TYPE_CHECKING:
    from assistant.levels.grid import Grid


def check_point(job: Job, point: str) -> None:
    """Refuse a point that has no place, once any point has one."""
    places = places_of(job.layout)
    if not places.names or point in places.row:
        return
    grid = grid_of(job.layout)
    there = (
        grid_in_words(grid)
        if grid is not None
        else f"The points are {wording.listed(places.names)}"
    )
    raise Refusal(
        f"There is no point {point}. {there}. "
        f"To add it, say where it is: point {point} at 3.2 by 4.5 metres."
    )


def grid_in_words(grid: Grid) -> str:
    """
    How far the grid goes.

    Where the floor leaves some of its places out, the last point is in the last row, but
    perhaps not in the last column, so columns and rows are told.
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
    """Refuse a point without a reading."""
    if point in job.readings:
        return
    if not job.readings:
        raise Refusal(f"{point} has no reading; none has been taken yet.")
    raise Refusal(
        f"{point} has no reading. Read so far: {wording.listed(tuple(sorted_names(job)))}."
    )


def check_tied(job: Job, point: str) -> None:
    """Refuse a point that was read from a set-up which nothing ties to the others."""
    from assistant.floor import depths_of

    if point in depths_of(job) or point not in job.readings:
        return
    raise Refusal(
        f"{point} has no depth yet: nothing ties set-up {job.readings[point].set_up + 1} to the "
        "others. Tie it: tie on benchmark 1 minus 3, or tie on a point read before."
    )


def sorted_names(job: Job) -> list[str]:
    """Read points in walking order."""
    from assistant.floor import depths_of

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


def scratch_point(job: Job, command: ScratchPoint, _world: World) -> Decision:
    check_read(job, command.point)
    return Decision((ReadingScratched(command.point),))


def set_reading_unit(_job: Job, command: SetReadingUnit, _world: World) -> Decision:
    if command.unit not in ("mm", "in"):
        raise Refusal("Readings can be in millimetres or in inches.")
    return Decision((ReadingUnitChosen(command.unit),))


def set_instrument_range(_job: Job, command: SetInstrumentRange, _world: World) -> Decision:
    return Decision((InstrumentRangeSet(length_of(command.reach, "The instrument's range")),))


DECIDERS: dict[type[Change], Decider] = {
    TakeReading: take_reading,
    CorrectReading: correct_reading,
    ScratchPoint: scratch_point,
    SetReadingUnit: set_reading_unit,
    SetInstrumentRange: set_instrument_range,
}
