"""Parts of the floor with a name, and what is poured in each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    side_question,
)
from assistant.decide.room import room_words
from assistant.decide.suspect import DATUM, unless_far_off
from assistant.errors import CardError, Refusal
from assistant.events.zones import ZoneAdded, ZoneDropped, ZoneFinishSet, ZoneProductChosen
from assistant.floor.geometry import area_to_pour, has_outline, zone_areas
from assistant.floor.obstacles import NO_FLOOR_M2
from assistant.floor.places import place_of_point, places_of, whole_grid_of, zone_of_points
from assistant.floor.steps import cell_of, column_letters, column_number
from assistant.floor.zone_shapes import are_in, half_planes, zone_of_area
from assistant.job import Job
from assistant.job.zones import REST
from assistant.products.cards import find_card
from assistant.reply import wording
from assistant.reply.examples import GRID, ROOM
from assistant.units.measures import measured_m
from grammar.commands import Change, Measure
from grammar.commands.material import ChooseProduct
from grammar.commands.zones import AddZone, DropZone, SetZoneFinish, SetZoneProduct

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

_EXAMPLE = "zone kitchen A1 to C3"


def add_zone(job: Job, command: AddZone, _world: World) -> Decision:
    name = command.name
    if name == REST:
        raise Refusal(
            "The rest is all that is in no zone. Give the zone another name.",
            spoken="The rest is what is in no zone.",
        )
    if name in job.layout.zones:
        raise Refusal(
            f"There is a zone {name} already: {job.layout.zones[name].said}. "
            f"For another one, drop it first: drop {_named(name)}.",
            spoken=f"{wording.spoken_zone(name)} is there already.",
        )
    if not has_outline(job.layout):
        raise Refusal("The room first: ", ROOM, ".", spoken="The room first.")
    zone = _across_line(job, command) if command.kind in _SIDES else _by_grid(job, command)
    _check_place(job, zone)
    return Decision((zone,))


_SIDES = ("left", "right", "above", "below")
_ACROSS = {
    "left": "above or below", "right": "above or below",
    "above": "left or right", "below": "left or right",
}  # fmt: skip


def _named(name: str) -> str:
    """The name as it stands in a line: with ``zone`` before it."""
    return name if name.startswith("zone ") else f"zone {name}"


def _across_line(job: Job, command: AddZone) -> ZoneAdded:
    first, last, side = str(command.first), str(command.last), command.kind
    if first == last:
        raise Refusal(
            f"A line takes two points: zone {command.name} {side} of A1 to A3.",
            spoken="A line takes two points.",
        )
    line = (*_place(job, first), *_place(job, last))
    of = "of " if side in ("left", "right") else ""
    zone = ZoneAdded(command.name, f"{side} {of}{first} to {last}", (), (), line, side)
    if not half_planes(zone):
        raise Refusal(
            f"As a plan shows it, nothing of the floor is {side} of the line {first} to {last}. "
            f"Say {_ACROSS[side]}.",
            spoken=f"Nothing is {side} of that line.",
        )
    return zone


def _place(job: Job, point: str) -> tuple[Measure, Measure]:
    at = place_of_point(job.layout, point)
    if at is None:
        raise Refusal(
            f"{point} has no place yet: set the grid, or say where it lies.",
            spoken=f"{wording.spoken_name(point)} has no place yet.",
        )
    x_m, y_m = at
    return measured_m(x_m), measured_m(y_m)


# --- by columns and rows -------------------------------------------------------------------


def _by_grid(job: Job, command: AddZone) -> ZoneAdded:
    grid = whole_grid_of(job.layout)
    if grid is None:
        raise Refusal(
            "Zones run half way between columns and rows, so the grid comes first: ",
            GRID,
            ".",
            spoken="The grid first.",
        )
    last = command.first if command.last is None else command.last
    columns: tuple[str, ...] = ()
    rows: tuple[str, ...] = ()
    if command.kind == "points":
        cells = [cell_of(str(point)) for point in (command.first, last)]
        columns, rows = (tuple(cell[axis] for cell in cells) for axis in (0, 1))
    elif command.kind == "columns":
        columns = str(command.first), str(last)
    else:
        rows = str(command.first), str(last)
    at_x: dict[int, float] = {}
    at_y: dict[int, float] = {}
    for name, (x_m, y_m) in zip(grid.names, grid.xy_m.tolist(), strict=True):
        letters, row = cell_of(name)
        at_x[column_number(letters)], at_y[int(row)] = x_m, y_m
    along = _half_way(at_x, [column_number(letters) for letters in columns], "column")
    across = _half_way(at_y, [int(row) for row in rows], "row")
    return ZoneAdded(
        command.name, _said(command.kind, command.first, last), along, across, (), None
    )


def _said(kind: str, first: str | int, last: str | int) -> str:
    if kind == "points":
        return f"{first} to {last}"
    return f"{kind[:-1]} {first}" if first == last else f"{kind} {first} to {last}"


def _half_way(
    at_m: dict[int, float], said: list[int], what: str
) -> tuple[Measure | None, Measure | None]:
    """Half way from the outer lines to the next; None for the wall, where there is no next."""
    if not said:
        return None, None
    for number in said:
        if number not in at_m:
            names = [column_letters(n) if what == "column" else str(n) for n in sorted(at_m)]
            name = column_letters(number) if what == "column" else str(number)
            raise Refusal(
                f"There is no {what} {name}; the grid has {what}s {names[0]} to {names[-1]}.",
                spoken=f"There is no such {what}.",
            )
    first, last = min(said), max(said)
    before = max((n for n in at_m if n < first), default=None)
    after = min((n for n in at_m if n > last), default=None)
    return (
        None if before is None else measured_m((at_m[before] + at_m[first]) / 2),
        None if after is None else measured_m((at_m[last] + at_m[after]) / 2),
    )


# --- where it may lie ------------------------------------------------------------------------


def _check_place(job: Job, zone: ZoneAdded) -> None:
    floor = area_to_pour(job.layout)
    assert floor is not None  # there is an outline
    area = zone_of_area(floor, zone)
    if area.area <= NO_FLOOR_M2:
        raise Refusal(
            f"{zone.said} is outside {room_words(job)}.", spoken="That is outside the room."
        )
    _check_overlap(job, area)
    if floor.area - area.area <= NO_FLOOR_M2:
        raise Refusal(
            "That is the whole room, so it needs no zone: what is said of no zone is of the room.",
            spoken="That is the whole room.",
        )
    places = places_of(job.layout)
    taken = zone_of_points(job.layout)
    inside = are_in(zone, places.xy_m) & places.inside
    free = [name for name, is_in in zip(places.names, inside.tolist(), strict=True) if is_in]
    if not [name for name in free if name not in taken]:
        raise Refusal(
            f"No point lies in {zone.said}, so nothing would be known of it. A zone takes one "
            f"point at least: {_EXAMPLE}.",
            spoken="No point lies in that.",
        )


def _check_overlap(job: Job, area: Polygon | MultiPolygon) -> None:
    for name, its_area in zone_areas(job.layout).items():
        common = 0.0 if name == REST else its_area.intersection(area).area
        if common > NO_FLOOR_M2:
            unit = job.reading_unit
            raise Refusal(
                f"That would overlap {name} ({job.layout.zones[name].said}) by "
                f"{wording.area(common, unit)}; no floor is in two zones. Say it without that, or "
                f"drop {_named(name)} first.",
                spoken=f"That would overlap {wording.spoken_zone(name)}.",
            )


_OF_A_PART = ("room", "area", "half", "side", "end", "part")


# --- what is poured there ---------------------------------------------------------------------


def known_zone(job: Job, name: str) -> str:
    """The name of a zone, or of the rest; a Refusal where there is none of it."""
    zones = job.layout.zones
    if name in zones or (name == REST and zones):
        return name
    # "The kitchen half" of somebody who has a kitchen.
    first, _, last = name.partition(" ")
    if first in zones and last in _OF_A_PART:
        return first
    if not zones:
        raise Refusal(
            f"There is no zone yet, so no {name}: {_EXAMPLE}.", spoken="There is no zone yet."
        )
    raise Refusal(
        f"There is no zone {name}; there is {wording.join_names((*zones, 'the rest'))}.",
        spoken=f"There is no zone {wording.spoken_zone(name)}.",
    )


def _own_zone(job: Job, name: str, instead: str) -> str:
    if known_zone(job, name) == REST:
        raise Refusal(
            f"What is in no zone has the room's: {instead}.", spoken="The rest has the room's."
        )
    return name


def drop_zone(job: Job, command: DropZone, _world: World) -> Decision:
    name = known_zone(job, command.name)
    if name == REST:
        raise Refusal(
            "The rest is what is in no zone; it cannot be dropped.",
            spoken="The rest cannot be dropped.",
        )
    return Decision((ZoneDropped(name),))


def set_zone_finish(job: Job, command: SetZoneFinish, _world: World) -> Decision:
    name = _own_zone(job, command.zone, "finish +4 mm")
    what = f"Finish in {name}"
    if lacks_side(command.height):
        return side_question(command, what, command.height)
    event = ZoneFinishSet(name, height_said(command.height))
    return unless_far_off(job, command, event, (what, command.height), set_up=DATUM)


def set_zone_product(job: Job, command: SetZoneProduct, world: World) -> Decision:
    name = _own_zone(job, command.zone, "product NAME")
    try:
        card = find_card(command.name, world.cards)
    except CardError as fault:
        raise Refusal(str(fault), spoken="No one product has that name.") from fault
    return Decision((ZoneProductChosen(name, card.as_dict()),))


def of_its_zone(job: Job, command: ChooseProduct) -> Change:
    """
    The command for a zone's product where it says so: "in kitchen example standard".

    After "product" all words are a name's, so only the job knows which of them are a zone's.
    """
    for zone in sorted((*job.layout.zones, REST), key=len, reverse=True):
        for said in (f"in {zone} ", f"in zone {zone} "):
            if job.layout.zones and command.name.startswith(said):
                return SetZoneProduct(zone, command.name.removeprefix(said))
    return command


DECIDERS: dict[type[Change], Decider] = {
    AddZone: add_zone,
    DropZone: drop_zone,
    SetZoneFinish: set_zone_finish,
    SetZoneProduct: set_zone_product,
}
