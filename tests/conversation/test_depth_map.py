"""The floor from above, as a field person sees it at the terminal."""

from __future__ import annotations

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.reply.replies import FloorMap, MapSpot
from assistant.terminal.depth_map import draw
from assistant.terminal.map_marks import depth_text
from assistant.terminal.map_walls import Walls, is_within, walls_of

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def spots(columns: int, rows: int, depth_mm: float | None = 18.0) -> tuple[MapSpot, ...]:
    return tuple(
        MapSpot(f"{LETTERS[c]}{r + 1}", 0.5 + 2.0 * c, 0.5 + 1.5 * r, depth_mm)
        for r in range(rows)
        for c in range(columns)
    )


def as_text(floor: FloorMap, width: int = 60) -> str:
    """The map as it looks without colours."""
    lines = ("".join(piece.text for piece in line).rstrip() for line in draw(floor, width))
    return "\n".join(lines)


def test_a_small_room_as_it_looks() -> None:
    floor = FloorMap(
        ((0, 0), (6, 0), (6, 4), (0, 4)),
        (
            MapSpot("A1", 1, 1, 18),
            MapSpot("B1", 3, 1, -2.5, "high"),
            MapSpot("A2", 1, 3, None),
            MapSpot("B2", 3, 3, 40, "deep"),
            MapSpot("A3", 1, 3.5, 2, "shallow"),
            MapSpot("K1", 3.2, 2.5, 12),
        ),
        "mm",
        ((1, 3, 0),),
    )
    assert as_text(floor, 60).splitlines() == [
        "Depth in mm, floor seen from above",
        "3 |    2<",
        "2 |    .    40>",
        "1 |   18  -2.5^",
        "  +------------",
        "       A     B",
        "",
        "^ floor stands above the finish",
        "< less than the product's minimum",
        "> more than the product's maximum",
        ". not read yet",
        "A1 is at the bottom left: letters go along the first side,",
        "numbers up the second. Floor 6 m by 4 m over all. Points 2 m",
        "apart.",
        "Off the grid: K1 at 3.2 m by 2.5 m, 12 mm",
        "Doors: door 1 at B1",
    ]


def test_an_l_shaped_room_is_blank_where_there_is_no_floor() -> None:
    kept = tuple(spot for spot in spots(3, 2) if spot.point != "C2")
    lines = as_text(FloorMap((), kept, "mm")).splitlines()
    assert lines[1] == "2 | 18  18"
    assert lines[2] == "1 | 18  18  18"


def in_the_room(outline: tuple[tuple[float, float], ...], unit: str = "mm") -> FloorMap:
    """Points a metre apart, half a metre from the walls of a room of up to 9 by 4 metres."""
    return FloorMap(
        outline,
        tuple(
            MapSpot(f"{LETTERS[c]}{r + 1}", c + 0.5, r + 0.5, 10.0 + c + r)
            for r in range(4)
            for c in range(9)
            if is_within(outline, c + 0.5, r + 0.5)
        ),
        unit,
    )


def test_an_l_shaped_room_has_its_walls() -> None:
    room = ((0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4))
    assert as_text(in_the_room(room)).splitlines()[1:10] == [
        "  +--------+",
        "4 | 13  14 |",
        "3 | 12  13 |",
        "  |        +-------+",
        "2 | 11  12  13  14 |",
        "1 | 10  11  12  13 |",
        "  +----------------+",
        "     A   B   C   D",
        "",
    ]


def test_a_room_round_a_yard_has_walls_on_both_sides() -> None:
    room = ((0, 0), (5, 0), (5, 3), (4, 3), (4, 1), (1, 1), (1, 3), (0, 3))
    assert as_text(in_the_room(room)).splitlines()[1:8] == [
        "  +----+           +---+",
        "3 | 12 |           |16 |",
        "2 | 11 |           |15 |",
        "  |    +-----------+   |",
        "1 | 10  11  12  13  14 |",
        "  +--------------------+",
        "     A   B   C   D   E",
    ]


def test_a_post_in_the_room_is_walled_in() -> None:
    """A crossing that is no floor, in the middle of others."""
    walls = walls_of(((0, 0), (3, 0), (3, 3), (0, 3)), (0.5, 1.5, 2.5), (0.5, 1.5, 2.5), set())
    assert not walls.bend
    floor = tuple(tuple((column, row) != (1, 1) for column in range(3)) for row in range(3))
    post = Walls(floor)
    assert post.bend
    assert post.line_above(1, range(3), 4) == "|    +---+   |"
    assert post.line_above(0, range(3), 4) == "|    +---+   |"


def test_a_rectangle_needs_no_walls() -> None:
    lines = as_text(in_the_room(((0, 0), (3, 0), (3, 2), (0, 2)))).splitlines()
    assert lines[1:4] == ["2 | 11  12  13", "1 | 10  11  12", "  +------------"]


@pytest.mark.parametrize("width", [60, 80])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_nine_columns_are_one_piece(width: int, unit: str) -> None:
    """Of an L with all its walls, and depths that are long to write."""
    room = ((0, 0), (9, 0), (9, 2), (5, 2), (5, 4), (0, 4))
    floor = in_the_room(room, unit)
    wide = tuple(
        MapSpot(s.point, s.x_m, s.y_m, 1.9375 * 25.4 if unit == "in" else 33.5, "deep")
        for s in floor.spots
    )
    text = as_text(FloorMap(room, wide, unit), width)
    assert "Columns" not in text
    assert max(len(line) for line in text.splitlines()) <= width
    if unit == "in":
        assert "4 |    1>    1>    1>    1>    1>|" in text
        assert "  | 15/16 15/16 15/16 15/16 15/16|" in text
        assert "Whole inches stand over their fractions." in text


def test_inches_over_their_fractions() -> None:
    """Exact arithmetic: 1 in is 25.4 mm."""
    depths = {"A": 0.0, "B": 12.7, "C": 25.4, "D": 34.925, "E": -3.175, "F": -28.575, "G": None}
    shown = tuple(
        MapSpot(f"{letter}1", n, 0, depth, "high" if depth and depth < 0 else "")
        for n, (letter, depth) in enumerate(depths.items())
    )
    lines = as_text(FloorMap((), shown, "in"), 45).splitlines()
    assert lines[1].split() == ["1", "|", "0", "1", "1", "^", "-1^", "."]
    assert lines[2].split() == ["|", "1/2", "3/8", "-1/8", "1/8"]


@pytest.mark.parametrize("width", [60, 80])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_wide_floor_goes_into_panels_and_no_line_is_too_long(width: int, unit: str) -> None:
    text = as_text(FloorMap((), spots(26, 3, 33.34), unit), width)
    assert max(len(line) for line in text.splitlines()) <= width
    assert "Columns A to " in text
    drawn = [word for line in text.splitlines() if "|" not in line for word in line.split()]
    assert [letter for letter in drawn if letter in LETTERS and len(letter) == 1][-1] == "Z"


def test_every_column_is_drawn_once() -> None:
    text = as_text(FloorMap((), spots(26, 1), "mm"), 60)
    named = [line.split() for line in text.splitlines() if line.startswith("     A") or "Z" in line]
    assert named[0][0] == "A"
    assert named[-1][-1] == "Z"
    assert text.count("18") == 26


def test_a_point_placed_by_hand_does_not_bend_a_column() -> None:
    """Its name is like a grid point's, its place is not."""
    floor = FloorMap((), (*spots(2, 2), MapSpot("B9", 1.1, 1.2, 7.0)), "mm")
    text = as_text(floor)
    assert "9 |" not in text
    assert "Off the grid: B9 at 1.1 m by 1.2 m, 7 mm" in text


def test_feet_where_depths_are_in_inches() -> None:
    """Exact arithmetic: 1 ft is 0.3048 m; the rounding of places makes no spacing uneven."""
    floor = FloorMap(
        ((0, 0), (9.144, 0), (9.144, 6.096), (0, 6.096)),
        tuple(MapSpot(f"{LETTERS[c]}1", 0.4572 + 0.9144 * c, 0.3048, 17.4625) for c in range(10)),
        "in",
    )
    text = " ".join(as_text(floor).split())
    assert "Floor 30 ft by 20 ft over all. Points 3 ft apart." in text


def test_nothing_yet() -> None:
    assert as_text(FloorMap((), (), "mm")).splitlines()[-1] == "No points yet."


def test_shades_go_from_shallow_to_deep_and_flags_are_marked() -> None:
    floor = FloorMap(
        (), (MapSpot("A1", 0, 0, 5), MapSpot("B1", 1, 0, 10), MapSpot("C1", 2, 0, 15, "deep")), "mm"
    )
    pieces = [piece for line in draw(floor) for piece in line if piece.shade is not None]
    assert [piece.shade for piece in pieces] == [0.0, 0.5, 1.0]
    assert [piece.flagged for piece in pieces] == [False, False, True]


@pytest.mark.parametrize(
    ("depth_mm", "unit", "shown"),
    [
        (18, "mm", "18"),
        (17.5, "mm", "17.5"),
        (-0.01, "mm", "0"),
        (-2.5, "mm", "-2.5"),
        (25.4, "in", "1"),
        (34.925, "in", "1 3/8"),
        (-3.175, "in", "-1/8"),
        (0.0, "in", "0"),
        (17.4625, "in", "11/16"),
    ],
)
def test_a_depth_without_its_unit(depth_mm: float, unit: str, shown: str) -> None:
    """Exact arithmetic: 1 in is 25.4 mm."""
    assert depth_text(depth_mm, unit) == shown


THINGS = (
    "room 12 by 8 metres",
    "grid 2 metres",
    "row 1 -18 -17 -16 -15 -14 -13",
    "column 0.4 by 0.4 m at E3",
    "square column 0.4 m at 4 by 5 m",
    "square column 0.4 m at 6 by 6 m",
    "square column 0.4 m at 1.9 by 0.4 m",
    "opening 0.2 by 0.2 m at F2",
    "drain at B2 -20",
    "joint along column C",
    "crack D1 to D3",
)


@pytest.mark.parametrize("width", [80, 60])
def test_what_stands_on_the_floor_is_drawn_where_it_is(world: World, width: int) -> None:
    """A column on a point, on a row, between rows, under the first row; lines through points."""
    talk = Conversation(Journal.open(None), world)
    for line in THINGS:
        assert talk.hear(line).ok, line
    drawn = talk.hear("map").reply.map
    assert drawn is not None
    lines = as_text(drawn, width).splitlines()
    assert lines[1:9] == [
        "4 |   .    .   =.    .    .    .",
        "                  #",
        "3 |   .    . # =.   ~.    #    .",
        "2 |   .   v.   =.   ~.    .   o.",
        "1 |  18   17  =16  ~15   14   13",
        "        #",
        "  +------------------------------",
        "      A    B    C    D    E    F",
    ]
    notes = " ".join(lines[9:])
    for note in (
        "# column 1 at E3, 0.4 by 0.4 m; column 2 at 4 by 5 m, 0.4 by 0.4 m",
        "o opening 1 at F2, 0.2 by 0.2 m",
        "v drain 1 at B2, 20 mm below",
        "= joint 1 C1 to C4",
        "~ crack 1 D1 to D3",
    ):
        assert note in notes


def test_many_columns_of_points_in_panels_keep_what_stands_between(world: World) -> None:
    talk = Conversation(Journal.open(None), world)
    for line in ("room 40 by 4 metres", "grid 2 metres", "square column 0.2 m at 30 by 2 m"):
        assert talk.hear(line).ok, line
    drawn = talk.hear("map").reply.map
    assert drawn is not None
    assert sum(line.strip() == "#" for line in as_text(drawn, 60).splitlines()) == 1


def test_in_inches_a_covered_point_shows_it_too(world: World) -> None:
    talk = Conversation(Journal.open(None), world)
    for line in ("readings in inches", "room 40 by 26 feet", "grid 6 feet",
                 "square column 16 in at B2"):  # fmt: skip
        assert talk.hear(line).ok, line
    drawn = talk.hear("map").reply.map
    assert drawn is not None
    row = next(line for line in as_text(drawn, 60).splitlines() if line.startswith("2 |"))
    assert row.split()[3] == "#"
    assert "# column 1 at B2, 16 by 16 in" in as_text(drawn, 60)
