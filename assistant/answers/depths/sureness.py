"""Answers about how sure the floor is: hidden high spots, where to read next, enough readings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from assistant.answers.material.order import bags_between, sure_interval
from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.floor.geometry import area_m_of, has_outline
from assistant.floor.heights import reading_sd_mm
from assistant.floor.interval import (
    FEWEST_POINTS,
    finish_m_of,
    fit_of,
    left_out_words,
    no_interval,
    shared_of_reading,
)
from assistant.floor.late_numpy import np
from assistant.floor.obstacles import is_covered
from assistant.floor.order import interval_of
from assistant.floor.places import grid_of, places_of
from assistant.floor.places_in_words import door_places, place_words, point_at, spoken_place
from assistant.floor.walk import next_point, points_missing
from assistant.floor.zones import cards_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import GRID, ROOM
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.depths import AskEnough, AskHiddenHighSpots, AskWhereNext

if TYPE_CHECKING:
    from assistant.levels.area import AreaLike
    from assistant.levels.arrays import FloatArray
    from assistant.levels.kriged.high_spots import HighSpots
    from assistant.levels.kriged.surface import KrigedSurface
    from assistant.levels.next_reading import NextReadings

NEXT_READINGS = 3
"""Most places named: as many as can be remembered on the way."""


DOOR_COUNTS = 2.0
"""Weight of what a reading near a door would show, as steps are felt there first. Our own choice,
no source."""


MOST_SPOTS = 3


SPOTS_APART_M = 1.0
"""Places nearer to each other than this count as one high spot."""


def hidden_told(moment: Moment, _command: AskHiddenHighSpots) -> Reply:
    from assistant.levels.kriged.high_spots import hidden_high_spots

    job, unit = moment.job, moment.unit
    floor, area = _fit(job)
    least_mm = max((card.min_mm for card in cards_of(job)), default=0.0)
    spots = hidden_high_spots(floor, area, finish_m_of(job), float(least_mm) / 1000)
    leaves = wording.length(least_mm, unit) if least_mm else "nothing"
    chance = wording.figure(100 * spots.chance, 0)
    places = _worst_places(spots)
    data = {
        "hidden": {
            "chance": spots.chance,
            "min_depth_mm": float(least_mm),
            "places": [
                {
                    "x_m": float(spots.places_m[row][0]),
                    "y_m": float(spots.places_m[row][1]),
                    "point": point_at(job, *spots.places_m[row].tolist()),
                    "chance": float(spots.chances[row]),
                }
                for row in places
            ],
        }
    }
    if spots.worst_m is None or spots.chance < 0.005:
        return Reply(
            f"Hidden high spots: hardly. Between the points at least {leaves} is left.",
            "Hidden high spots, hardly.",
            data=data,
        )
    x_m, y_m = spots.worst_m.tolist()
    rows = tuple(
        (place_words(job, *spots.places_m[row].tolist()), _percent(spots.chances[row]))
        for row in places
    )
    return Reply(
        f"{chance} % chance of less than {leaves} somewhere between the points; "
        f"first of all {place_words(job, x_m, y_m)}.",
        (
            f"{wording.spoken_number(round(100 * spots.chance))} percent chance",
            f"look at {spoken_place(job, x_m, y_m)}",
        ),
        (
            f"There: about {wording.length(round(spots.worst_depth_m * 1000), unit)} deep, give "
            f"or take {wording.length(round(2000 * spots.worst_sd_m), unit)}.",
            "A bump a few hands wide can hide from any survey: run a straightedge over it.",
            *([left_out] if (left_out := left_out_words(job)) else []),
        ),
        (Table("Where to look", ("Place", "Chance"), rows),),
        data=data,
    )


def _worst_places(spots: HighSpots) -> list[int]:
    """Rows of the likeliest places, apart from each other."""
    chosen: list[int] = []
    for row in np.argsort(-spots.chances, kind="stable").tolist():
        if len(chosen) == MOST_SPOTS or spots.chances[row] < 0.005:
            break
        away = [np.hypot(*(spots.places_m[row] - spots.places_m[other])) for other in chosen]
        if min(away, default=np.inf) >= SPOTS_APART_M:
            chosen.append(row)
    return chosen


def _percent(chance: float) -> str:
    return f"{wording.figure(100 * chance, 0 if chance >= 0.01 else 1)} %"


def _fit(job: Job) -> tuple[KrigedSurface, AreaLike]:
    floor, area = fit_of(job), area_m_of(job.layout)
    if floor is None or area is None:
        raise no_interval(job)
    return floor, area


def next_told(moment: Moment, _command: AskWhereNext) -> Reply:
    job = moment.job
    if not has_outline(job.layout):
        raise Refusal("The room first: ", ROOM, ".", spoken="The room first.")
    if fit_of(job) is None:
        return _next_in_the_walk(job)
    found = best_next(job)
    places = [(float(x), float(y)) for x, y in found.places_m.tolist()]
    words = [place_words(job, x, y) for x, y in places]
    details = [f"Then {wording.join_names(words[1:])}."] if words[1:] else []
    details.append(_narrower(job, found))
    return Reply(
        f"Read next: {words[0]}.",
        f"Next, {spoken_place(job, *places[0])}.",
        tuple(details),
        data={"next": _next_data(job, places)},
    )


def _next_in_the_walk(job: Job) -> Reply:
    point = next_point(job)
    if point is None:
        raise Refusal(
            f"Where to read next takes {FEWEST_POINTS} points, or a grid: ",
            GRID,
            ".",
            spoken="That takes more points, or a grid.",
        )
    place = places_of(job.layout).xy(point)
    return Reply(
        f"Read next: {point}, the next in the walk.",
        f"Next, {wording.spoken_name(point)}.",
        (no_interval(job).worded(job.reading_unit),),
        data={"next": _next_data(job, [place])},
    )


def _next_data(job: Job, places: list[tuple[float, float]]) -> list[dict[str, Any]]:
    return [{"x_m": x, "y_m": y, "point": point_at(job, x, y)} for x, y in places]


def best_next(job: Job) -> NextReadings:
    """The readings that narrow the volume most: unread points, or anywhere once all are read."""
    from assistant.levels.next_reading import where_next

    floor, area = _fit(job)
    places = places_of(job.layout)
    unread = [
        places.row[name]
        for name in points_missing(job)
        if places.inside[places.row[name]] and name not in job.readings
    ]
    candidates = places.xy_m[unread] if unread else _anywhere(job, area)
    return where_next(
        floor,
        area,
        finish_m_of(job),
        candidates,
        count=NEXT_READINGS,
        noise_sd_m=reading_sd_mm(job) / 1000,
        shared_m=shared_of_reading(job),
        preference=_preference(job, floor, candidates),
    )


def _anywhere(job: Job, area: AreaLike) -> FloatArray:
    """Places all over the floor."""
    from assistant.levels.kriged.cells import about_so_many

    # The middle of what is left of a cell round a column may be in the column.
    middles = about_so_many(area, 250).centroids_m
    return middles[~is_covered(job.layout, middles)]


def _preference(job: Job, floor: KrigedSurface, candidates: FloatArray) -> FloatArray:
    """Weights of places: more near doors, and where the floor may be too high."""
    from assistant.levels.kriged.finish import finish_at

    factor = np.ones(len(candidates))
    grid = grid_of(job.layout)
    near = 1.0 if grid is None or job.layout.grid is None else 1.2 * _spacing_m(job)
    for place in door_places(job).values():
        factor[np.hypot(*(candidates - place).T) <= near] = DOOR_COUNTS
    least = float(max((card.min_mm for card in cards_of(job)), default=0)) / 1000
    too_high = finish_at(finish_m_of(job), candidates) - least
    chances: FloatArray = 1 - floor.predict(candidates).chance_below(too_high)
    return factor * (1 + chances)


def _spacing_m(job: Job) -> float:
    from assistant.units.lengths import metres

    assert job.layout.grid is not None
    return max(metres(job.layout.grid.first), metres(job.layout.grid.second))


def _narrower(job: Job, found: NextReadings) -> str:
    """How far the readings would narrow the interval, in bags where there is a product."""
    by = wording.figure(100 * float(found.shrinks[-1]), 0)
    readings = wording.counted(len(found.rows), "reading")
    return f"{readings} there would narrow the {_interval_words(job)} by about {by} %."


def _interval_words(job: Job) -> str:
    found = interval_of(job)
    if found is None or found.bags is None:
        return "volume"
    return f"{bags_between(found.bags)} bags"


def enough_told(moment: Moment, _command: AskEnough) -> Reply:
    job = moment.job
    sure, found = sure_interval(job), best_next(job)
    settled = sure.bags is not None and sure.bags[1] - sure.bags[0] <= 1
    enough = settled or not found.pays
    missing = points_missing(job)
    places = [(float(x), float(y)) for x, y in found.places_m.tolist()]
    details = [_narrower(job, found)]
    if missing and enough:
        details.append(
            f"{wording.counted(len(missing), 'point')} of the grid are not read; each wants a pin, "
            "and so a reading."
        )
    data = {
        "enough": enough,
        "narrower_percent": 100 * float(found.shrinks[-1]),
        "bags_interval": None if sure.bags is None else list(sure.bags),
        "next": _next_data(job, places),
    }
    if enough:
        return Reply(
            f"Enough for the order: {_interval_words(job)}.",
            "Enough for the order.",
            tuple(details),
            data=data,
        )
    where = place_words(job, *places[0])
    return Reply(
        f"Not yet: more readings pay. First {where}.",
        f"Not yet. Read {spoken_place(job, *places[0])}.",
        tuple(details),
        data=data,
    )


ANSWERS: dict[type[Command], Answerer] = {
    AskHiddenHighSpots: hidden_told,
    AskWhereNext: next_told,
    AskEnough: enough_told,
}
