"""Phrases: the room, its walls, its grid, and single points off the grid."""

from __future__ import annotations

from grammar.commands.room import AddPoint, AddWall, CloseRoom, SetGrid, SetRoom
from grammar.phrase import Phrase

_ROOM = "the room and its points"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "room <first,second:pair>",
        SetRoom,
        "a rectangular room: the lettered side, then the numbered side",
        ("room 12 by 8 metres", "room 12 x 8 m", "room 13 ft 6 in by 10 ft"),
        _ROOM,
        ways=(
            "[my | this] (room | floor) (is | measures | is about) <first,second:pair>",
            "(set | make) room [to] <first,second:pair>",
            "(room | floor) of <first,second:pair>",
            "floor <first,second:pair>",
        ),
    ),
    Phrase(
        "wall <direction> <length>",
        AddWall,
        "an outline wall by wall, walked round from a corner",
        ("wall east 4.2 metres", "wall north west 1.5 m", "wall south 13' 6\""),
        _ROOM,
    ),
    Phrase(
        "close room",
        CloseRoom,
        "all walls are given; a misclosure is said",
        ("close room",),
        _ROOM,
        ways=(
            "(room closed | room is closed | that's all walls | all walls done | walls "
            "done | back at start)",
        ),
    ),
    Phrase(
        "grid <first:length> [starting [at | from] <starting:length>]",
        SetGrid,
        "points at even spacing; centred, or starting so far from the corner",
        ("grid 2 metres", "grid 2 metres starting 0.5 metres", "grid 6 ft"),
        _ROOM,
        spoken="grid <first:length> [starting <starting:length>]",
        ways=(
            "(grid | spacing) [of | at | is] <first:length>",
            "(points | pins | a point | one point) (every | each) <first:length>",
            "every <first:length>",
            "(set | make) [a] grid [of | at | to] <first:length>",
        ),
    ),
    Phrase(
        "grid <first,second:pair> [starting [at | from] <starting:length>]",
        SetGrid,
        "the same with another spacing along the second side",
        ("grid 2 by 1.5 metres", "grid 2 by 1.5 metres starting 0.5 m"),
        _ROOM,
        spoken="grid <first,second:pair> [starting <starting:length>]",
    ),
    Phrase(
        "point <point> at <first,second:pair>",
        AddPoint,
        "a point off the grid, measured from the corner along both sides",
        ("point K1 at 3.2 by 4.5 metres",),
        _ROOM,
    ),
)
