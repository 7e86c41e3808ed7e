"""Things on the floor, for a map of its points."""

from __future__ import annotations

from assistant.floor.late_numpy import np
from assistant.floor.obstacles import place_m, shape_of
from assistant.floor.places import Places, places_of
from assistant.floor.places_in_words import AT_THE_POINT_M
from assistant.floor.things_in_words import kind_of, name_words, size_words, where_words
from assistant.job import Layout
from assistant.job.things import JointOrCrack, Obstacle, Thing
from assistant.reply import wording
from assistant.reply.replies import MapSpot, MapThing
from assistant.units.lengths import metres


def things_on_map(layout: Layout) -> tuple[MapThing, ...]:
    """All of them that have a place; without those that are not in the room any more."""
    places = places_of(layout)
    found = [_on_map(places, thing) for thing in layout.things.every]
    return tuple(thing for thing in found if thing is not None)


def covered_spots(layout: Layout) -> tuple[MapSpot, ...]:
    """Points that are not to be read, as something stands there."""
    covered = places_of(layout).covered
    return tuple(MapSpot(name, x, y, None) for name, (x, y) in covered.items())


def _on_map(places: Places, thing: Thing) -> MapThing | None:
    told = f"{name_words(thing)} {where_words(thing)}"
    if isinstance(thing, Obstacle):
        told += f", {size_words(thing)}"
        points = _covered_by(places, thing) if thing.is_off_the_area else _over(places, thing)
        at_m: tuple[tuple[float, float], ...] = (place_m(thing),)
        if thing.plugged:
            told += ", plugged"
    elif isinstance(thing, JointOrCrack):
        numbers = [metres(each) for each in thing.places]
        at_m = tuple((numbers[row], numbers[row + 1]) for row in range(0, len(numbers), 2))
        points = _passed(places, at_m)
        if thing.repaired:
            told += ", repaired"
    else:
        at = places.at_m.get(thing.point)
        if at is None:
            return None
        told += f", {wording.said_height(thing.height)}"
        at_m, points = (at,), (thing.point,)
    stands = isinstance(thing, Obstacle) and thing.is_off_the_area
    return MapThing(kind_of(thing), told, at_m, points, stands)


def _covered_by(places: Places, obstacle: Obstacle) -> tuple[str, ...]:
    import shapely

    shape = shape_of(obstacle)
    return tuple(name for name, at in places.covered.items() if shape.covers(shapely.Point(at)))


def _over(places: Places, obstacle: Obstacle) -> tuple[str, ...]:
    """Points over an opening, which are read beside it."""
    import shapely

    shape = shape_of(obstacle)
    return tuple(name for name, at in places.at_m.items() if shape.covers(shapely.Point(at)))


def _passed(places: Places, at_m: tuple[tuple[float, float], ...]) -> tuple[str, ...]:
    """Points that a line runs through, or a place is at."""
    if not places.at_m:
        return ()
    start, along = np.array(at_m[0]), np.array(at_m[-1]) - np.array(at_m[0])
    to_point = places.xy_m - start
    length = float(along @ along)
    share = np.clip(to_point @ along / length, 0, 1) if length else np.zeros(len(to_point))
    away = np.hypot(*(to_point - share[:, None] * along).T)
    return tuple(places.names[row] for row in np.flatnonzero(away <= AT_THE_POINT_M).tolist())
