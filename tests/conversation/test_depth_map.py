"""The floor from above, as a field person sees it at the terminal."""

from __future__ import annotations

import pytest

from assistant.replies import FloorMap, MapSpot
from assistant.terminal.depth_map import depth_text, draw

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
