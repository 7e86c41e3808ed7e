"""The floor from above, as data for whoever draws it."""

from __future__ import annotations

from fractions import Fraction

from assistant.answers.flatness.scan_map import scan_drawn, scan_map
from assistant.answers.parts import Answerer, Moment
from assistant.floor import warnings as checks
from assistant.floor.depths import depths_of
from assistant.floor.geometry import outline_of
from assistant.floor.heights import survey_of
from assistant.floor.places import places_of
from assistant.floor.things_on_map import covered_spots, things_on_map
from assistant.floor.zones import card_at
from assistant.job import Job
from assistant.limits.own_limits import NONE
from assistant.reply import wording
from assistant.reply.examples import ROOM
from assistant.reply.replies import FloorMap, MapSpot, Reply
from grammar.commands import Command
from grammar.commands.overview import AskMap


def map_drawn(moment: Moment, _command: AskMap) -> Reply:
    scanned = scan_map(moment.job)
    if scanned is not None and not moment.job.readings:
        return scan_drawn(scanned)
    floor = floor_map(moment.job)
    if not floor.outline and not floor.spots:
        return Reply(
            f"Nothing to draw yet. The room first: {ROOM.in_unit(moment.unit)}.",
            "Nothing to draw yet.",
            data={"map": None},
        )
    read = sum(spot.depth_mm is not None for spot in floor.spots)
    told = f"{read} of {wording.counted(len(floor.spots), 'point')} read"
    of = wording.spoken_count(len(floor.spots), "point")
    spoken = [f"{wording.spoken_number(read)} of {of} read"]
    if doubtful := sum(bool(spot.doubt) for spot in floor.spots):
        told += f", {doubtful} in doubt"
        spoken.append(f"{wording.spoken_number(doubtful)} in doubt")
    data = {
        "outline_m": [list(corner) for corner in floor.outline],
        "spots": [
            {
                "point": s.point,
                "x_m": s.x_m,
                "y_m": s.y_m,
                "depth_mm": s.depth_mm,
                "flag": s.flag,
                "doubt": s.doubt or None,
                "set_up": s.set_up,
            }
            for s in floor.spots
        ],
        "doors": [{"id": door, "x_m": x, "y_m": y} for door, x, y in floor.doors],
        "covered": [{"point": s.point, "x_m": s.x_m, "y_m": s.y_m} for s in floor.covered],
        "things": [
            {
                "kind": thing.kind,
                "told": thing.told,
                "at_m": [list(place) for place in thing.at_m],
                "points": list(thing.points),
                "stands": thing.stands,
            }
            for thing in floor.things
        ],
    }
    named = {"mm": "millimetres", "in": "inches"}[moment.unit]
    what = "Depths" if moment.job.slab is None else "Heights below the finish"
    more = () if scanned is None else ("There is a scan of it too: scan draws it.",)
    return Reply(f"{what} in {named}, {told}.", tuple(spoken), more, map=floor, data={"map": data})


def floor_map(job: Job) -> FloorMap:
    """The floor from above."""
    outline, places, depths = outline_of(job.layout), places_of(job.layout), depths_of(job)
    spots = tuple(_spot(job, point, at_m, depths.get(point)) for point, at_m in places.at_m.items())
    doors = tuple(
        (number, *places.xy(door.point))
        for number, door in sorted(job.doors.items())
        if door.point in places.row and door.point is not None
    )
    corners = () if outline is None else tuple((x, y) for x, y in outline.tolist())
    shows = "Depth" if job.slab is None else "Below the finish"
    things, covered = things_on_map(job.layout), covered_spots(job.layout)
    return FloorMap(corners, spots, job.reading_unit, doors, shows, things, covered)


def _spot(job: Job, point: str, at: tuple[float, float], depth: Fraction | None) -> MapSpot:
    doubt = survey_of(job).doubtful.get(point, "")
    set_up = job.readings[point].set_up + 1 if point in job.readings else None
    if depth is None:
        return MapSpot(point, *at, None, doubt=doubt, set_up=set_up)
    card, own = (card_at(job, point), job.own_limits) if job.slab is None else (None, NONE)
    flag = checks.over_depth(card, depth, Fraction(job.aggregate_percent), own)
    return MapSpot(point, *at, float(depth), flag, doubt, set_up)


ANSWERS: dict[type[Command], Answerer] = {
    AskMap: map_drawn,
}
