"""The job as tables of plain values, for files that hold rows."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from decimal import Decimal
from fractions import Fraction

from assistant.answers.depths.cuts import cut_for
from assistant.errors import Refusal, SurveyError
from assistant.floor.depths import depths_of, finish_mm_of, zone_of_point
from assistant.floor.heights import heights_of, survey_of
from assistant.floor.places import places_of
from assistant.floor.pour.plan import plan_of
from assistant.job import Job
from assistant.job.history import in_force
from assistant.job.reading_history import readings_on_record
from assistant.job.surveys import FINISHED, SLAB, finished_floor
from assistant.units.lengths import exact_mm
from grammar.frozen import frozen

Cell = str | int | float | Decimal | Fraction | bool | datetime | None


@frozen
class Rows:
    """A table: names of its columns, and rows of values."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def surveys_of(job: Job) -> dict[str, Job]:
    """The floors of a job by their names: the slab, and the finished floor once there is one."""
    after = finished_floor(job)
    return {SLAB: job} if after is None else {SLAB: job, FINISHED: after}


def points(job: Job) -> Rows:
    """Every point that has a place or a reading, of both floors, in walking order."""
    columns = (
        "point", "floor", "x_m", "y_m", "height_mm", "finish_mm", "depth_mm", "zone", "in_doubt",
    )  # fmt: skip
    return Rows(columns, tuple(_points(job)))


def _points(job: Job) -> Iterator[tuple[Cell, ...]]:
    for name, floor in surveys_of(job).items():
        places, heights, depths = places_of(floor.layout), heights_of(floor), depths_of(floor)
        doubtful = survey_of(floor).doubtful
        unplaced = [point for point in floor.readings if point not in places.row]
        for point in (*places.names, *unplaced):
            x, y = places.at_m.get(point, (None, None))
            zone = zone_of_point(floor, point)
            yield (
                point, name, x, y, heights.get(point), finish_mm_of(floor, zone),
                depths.get(point), zone if floor.layout.zones else None, point in doubtful,
            )  # fmt: skip


def readings(job: Job) -> Rows:
    """All that was read, put right and struck, as it was said, oldest first."""
    columns = (
        "time_utc", "floor", "point", "what", "reading", "unit", "reading_mm", "set_up", "counts",
    )  # fmt: skip
    rows: list[tuple[Cell, ...]] = []
    for name, floor in surveys_of(job).items():
        found = readings_on_record(floor)
        last = {each.point: row for row, each in enumerate(found)}
        for row, each in enumerate(found):
            said = each.said
            counts = last[each.point] == row and each.point in floor.readings
            rows.append(
                (
                    each.time, name, each.point, each.what,
                    None if said is None else said.number,
                    None if said is None else said.unit or floor.reading_unit,
                    None if said is None else exact_mm(said),
                    each.set_up + 1, counts,
                )
            )  # fmt: skip
    return Rows(columns, tuple(rows))


def cuts(job: Job) -> Rows:
    """What to cut every pin to, in walking order."""
    unit = job.reading_unit
    found = [cut_for(point, depth, unit) for point, depth in depths_of(job).items()]
    columns = ("point", "depth_mm", "cut", "remark")
    return Rows(columns, tuple((c.point, c.depth_mm, c.text, c.remark or None) for c in found))


def strips(job: Job) -> Rows:
    """The strips of the pour, where it can be planned; else no rows."""
    columns = (
        "strip", "bay", "from_m", "to_m", "bags", "batches", "starts_min", "takes_min", "edge_lost",
    )  # fmt: skip
    try:
        plan = plan_of(job)
    except (Refusal, SurveyError):
        return Rows(columns, ())
    return Rows(
        columns,
        tuple(
            (
                each.number, each.bay, _rounded(each.from_m), _rounded(each.to_m), each.bags,
                each.batches, _rounded(each.start_min), _rounded(each.strip.minutes),
                each.edge_lost,
            )
            for each in plan.strips
        ),
    )  # fmt: skip


def pour(job: Job) -> Rows:
    """What was poured: batches, fronts and stops, in the order of their times."""
    state = job.pour
    rows: list[tuple[datetime, tuple[Cell, ...]]] = []
    used = 0
    for batch in state.batches:
        used += batch.bags
        rows.append((batch.time, (batch.time, "batch", batch.bags, used, batch.water_l, None)))
    for front in state.fronts:
        rows.append(
            (front.time, (front.time, front.at.in_words(), None, front.bags_used, None, None))
        )
    for pause in state.pauses:
        rows.append((pause.since, (pause.since, "stopped", None, None, None, pause.reason)))
        if pause.until is not None:
            rows.append((pause.until, (pause.until, "went on", None, None, None, None)))
    rows.sort(key=lambda row: row[0])
    columns = ("time_utc", "what", "bags", "bags_used", "water_l", "words")
    return Rows(columns, tuple(row for _, row in rows))


def log(job: Job) -> Rows:
    """All that was recorded, undone things too, oldest first."""
    counting = {each.number for each in in_force(job.history)}
    columns = ("number", "time_utc", "said", "recorded", "undone", "device")
    return Rows(
        columns,
        tuple(
            (
                each.number,
                each.time,
                " / ".join(each.said.splitlines()),
                "; ".join(event.in_words() for event in each.events),
                each.number not in counting,
                each.device or None,
            )
            for each in job.history
        ),
    )


def _rounded(number: float) -> float:
    return round(number, 6)


TABLES: dict[str, Callable[[Job], Rows]] = {
    "points": points,
    "readings": readings,
    "cuts": cuts,
    "strips": strips,
    "pour": pour,
    "log": log,
}
"""By the names of their files."""


def in_utc(time: datetime) -> str:
    """
    A time as files have it.

    >>> in_utc(datetime(2026, 5, 4, 9, 30, tzinfo=UTC))
    '2026-05-04T09:30:00Z'
    """
    return time.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
