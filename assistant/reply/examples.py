"""Examples of what could be said, each in metric and in feet and inches."""

from __future__ import annotations

from grammar.example import Example

ROOM = Example("room 12 by 8 metres", "room 40 by 26 feet")
GRID = Example("grid 2 metres", "grid 6 feet")
WALL_EAST = Example("wall east 4.2 metres", "wall east 14 feet")
WALL_NORTH = Example("wall north 3 metres", "wall north 10 feet")
STARTING = Example("starting 0.5 metres", "starting 2 feet")
LINE = Example("line 1 from A1 to A6 every 300 millimetres", "line 1 from A1 to A6 every 12 inches")
GAP = Example("gap 3 millimetres under 2 metres at C2", "gap 1/8 in under 10 feet at C2")
COVERING = Example("covering 8 millimetres", "covering 5/16 in")
CLEARANCE = Example("door 1 clearance 9 millimetres", "door 1 clearance 3/8 in")
FRONT = Example("front at 4.5 metres", "front at 15 feet")
AIR = Example("air 21 degrees", "air 70 degrees Fahrenheit")
SLAB = Example("slab 17 degrees", "slab 62 degrees Fahrenheit")
AIR_AND_HUMIDITY = Example(
    "air 21 degrees, then humidity 55 percent",
    "air 70 degrees Fahrenheit, then humidity 55 percent",
)
LEG_AND_REST = Example(
    "leg rising 0.5 metres at 25 degrees and rest at 20 degrees",
    "leg rising 2 feet at 77 degrees Fahrenheit and rest at 68 degrees Fahrenheit",
)


def reading_of(point: str) -> Example:
    """A reading at a point: ``B3 minus 18``."""
    return Example(f"{point} minus 18", f"{point} minus 3/4")


def correction_of(point: str) -> Example:
    """A reading put right: ``correct B3 to minus 16``."""
    return Example(f"correct {point} to minus 16", f"correct {point} to minus 5/8")


def place_of(point: str) -> Example:
    """A point and where it lies."""
    return Example(f"point {point} at 3.2 by 4.5 metres", f"point {point} at 10 by 15 feet")


def height_of_benchmark(number: int) -> Example:
    """A benchmark and its height."""
    return Example(
        f"benchmark {number} at 40 millimetres above zero",
        f"benchmark {number} at 1 1/2 inches above zero",
    )


def tie_on_benchmark(number: int) -> Example:
    """A set-up tied on a benchmark."""
    return Example(f"tie on benchmark {number} minus 3", f"tie on benchmark {number} minus 1/8")


def tie_on_point(point: str) -> Example:
    """A set-up tied on a point that was read before."""
    return Example(f"tie on {point} minus 22", f"tie on {point} minus 7/8")


def jambs_of(door: int) -> Example:
    """A door's heights at both jambs."""
    return Example(
        f"door {door} left minus 4 right minus 9", f"door {door} left minus 1/8 right minus 3/8"
    )


def outside_of(door: int) -> Example:
    """The floor on the other side of a door."""
    return Example(f"door {door} outside plus 2", f"door {door} outside plus 1/8")
