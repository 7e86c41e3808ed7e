"""Phrases: what stands on the floor, goes through it, or runs over it."""

from __future__ import annotations

from grammar.commands.things import (
    AddCrack,
    AddDrain,
    AddJoint,
    AddJointAlong,
    AddJointBetween,
    AddObstacle,
    AskObstacles,
    DropThing,
    PlugOpening,
    RepairCrack,
)
from grammar.phrase import Aloud, Phrase

_THINGS = "obstacles, drains and cracks"
_A = "[(there is | there's) [a | an] | a | an]"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "<kind:obstacle> <first,second:pair> at <along,across:pair>",
        AddObstacle,
        "a column, hole, cabinet or shaft by its middle, off the area; an opening is to be plugged",
        (
            "column 0.4 by 0.4 metres at 3 by 2 metres",
            "hole 0.5 by 0.3 m at 3 by 2 m",
            "cabinet 2 ft by 3 ft at 9 by 6 ft",
        ),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} <kind:obstacle> [of] <first,second:pair> at <along,across:pair>",
            f"{_A} <kind:obstacle> at <along,across:pair> [is | of | size] <first,second:pair>",
            f"{_A} <first,second:pair> <kind:obstacle> at <along,across:pair>",
            "[put | add] [a | an] <kind:obstacle> [of] <first,second:pair> at <along,across:pair>",
        ),
    ),
    Phrase(
        "<kind:obstacle> <first,second:pair> at [point] <point>",
        AddObstacle,
        "the same, its middle at a point",
        ("column 0.4 by 0.4 metres at B2", "opening 0.2 by 0.2 m at B2"),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} <kind:obstacle> [of] <first,second:pair> (at | on | over) [point] <point>",
            f"{_A} <kind:obstacle> (at | on) [point] <point> [is | of | size] <first,second:pair>",
            f"{_A} <first,second:pair> <kind:obstacle> (at | on | over) [point] <point>",
            "[put | add] [a | an] <kind:obstacle> [of] <first,second:pair> (at | on) [point]"
            " <point>",
        ),
    ),
    Phrase(
        "<kind:obstacle> <first,second:pair> corner at <along,across:pair>",
        AddObstacle,
        "the same by its corner nearest to A1",
        ("cabinet 2 by 0.6 metres corner at 3 by 0 metres",),
        _THINGS,
        speakable=False,
        fixed=(("placed", "corner"),),
        ways=(
            "<kind:obstacle> <first,second:pair> (with | its | with its | from) corner (at | from)"
            " <along,across:pair>",
            "<kind:obstacle> <first,second:pair> from <along,across:pair>",
        ),
    ),
    Phrase(
        "round <kind:obstacle> <first:length> at <along,across:pair>",
        AddObstacle,
        "a round one, so far across",
        ("round column 0.3 metres at 3 by 2 metres", "round hole 0.2 m at 3 by 2 m"),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} round <kind:obstacle> [of] <first:length> at <along,across:pair>",
            f"{_A} <kind:obstacle> [of] <first:length> (round | across | diameter |"
            " in diameter) at <along,across:pair>",
        ),
    ),
    Phrase(
        "round <kind:obstacle> <first:length> at [point] <point>",
        AddObstacle,
        "the same, its middle at a point",
        ("round column 0.3 metres at B2",),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} round <kind:obstacle> [of] <first:length> (at | on) [point] <point>",
            f"{_A} <kind:obstacle> [of] <first:length> (round | across | diameter |"
            " in diameter) (at | on) [point] <point>",
        ),
    ),
    Phrase(
        "square <kind:obstacle> <first:length> at <along,across:pair>",
        AddObstacle,
        "a square one",
        ("square column 0.4 metres at 3 by 2 metres",),
        _THINGS,
        speakable=False,
        fixed=(("shape", "square"),),
        ways=(f"{_A} <kind:obstacle> <first:length> square at <along,across:pair>",),
    ),
    Phrase(
        "square <kind:obstacle> <first:length> at [point] <point>",
        AddObstacle,
        "the same, its middle at a point",
        ("square column 0.4 metres at B2",),
        _THINGS,
        speakable=False,
        fixed=(("shape", "square"),),
        ways=(f"{_A} <kind:obstacle> <first:length> square (at | on) [point] <point>",),
    ),
    Phrase(
        "<kind:obstacle> at [point] <point>",
        AddObstacle,
        "its size is asked for",
        ("column at B2",),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} <kind:obstacle> (at | on | over) [point] <point>",
            "[point] <point> is (a | an) <kind:obstacle>",
        ),
    ),
    Phrase(
        "<kind:obstacle> at <along,across:pair>",
        AddObstacle,
        "its size is asked for",
        ("column at 3 by 2 metres",),
        _THINGS,
        speakable=False,
        ways=(f"{_A} <kind:obstacle> at <along,across:pair>",),
    ),
    Phrase(
        "opening <number:whole> plugged",
        PlugOpening,
        "nothing runs through it any more",
        ("opening 1 plugged",),
        _THINGS,
        ways=(
            "opening <number:whole> (is | has been) (plugged | closed | sealed | stopped)",
            "opening <number:whole> (closed | sealed | stopped)",
            "(plugged | closed | sealed | stopped) opening <number:whole>",
        ),
    ),
    Phrase(
        "opening plugged",
        PlugOpening,
        "the same where there is only one",
        ("opening plugged",),
        _THINGS,
        speakable=False,
        ways=(
            "opening (is | has been) (plugged | closed | sealed | stopped)",
            "opening (closed | sealed | stopped)",
            "(plugged | closed | sealed | stopped) opening",
        ),
    ),
    Phrase(
        "drain at [point] <point> <height:reading>",
        AddDrain,
        "a drain there; the finish must meet its height",
        ("drain at C3 minus 20", "drain at C3 20 below"),
        _THINGS,
        spoken="drain at point <point> <height:reading>",
        ways=(
            f"{_A} [floor] (drain | gully) (at | in | by) [point] <point> [is | at]"
            " <height:reading>",
            "[floor] (drain | gully) [point] <point> <height:reading>",
        ),
    ),
    Phrase(
        "joint [point] <start:point> to [point] <end:point>",
        AddJoint,
        "a joint of the slab, to be carried through the pour",
        ("joint A1 to A6",),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} [expansion | movement | construction | control | contraction] joint [runs |"
            " running] (from | between | along | at) [point] <start:point> (to | and) [point]"
            " <end:point>",
            "(expansion | movement | construction | control | contraction) joint [point]"
            " <start:point> to [point] <end:point>",
            "saw cut [from] [point] <start:point> to [point] <end:point>",
        ),
    ),
    Phrase(
        "joint along (column | row) <line:grid_line>",
        AddJointAlong,
        "a joint from its first point to its last",
        ("joint along column C", "joint along row 3"),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} [expansion | movement | construction | control | contraction] joint [runs |"
            " running] (along | down | on) [column | row] <line:grid_line>",
        ),
    ),
    Phrase(
        "joint between <first_line:grid_line> and <second_line:grid_line>",
        AddJointBetween,
        "its ends are asked for",
        ("joint between B and C",),
        _THINGS,
        speakable=False,
        ways=(
            f"{_A} [expansion | movement | construction | control | contraction] joint [runs |"
            " running] between [columns | column | rows | row] <first_line:grid_line> and [column |"
            " row] <second_line:grid_line>",
        ),
    ),
    Phrase(
        "crack at [point] <start:point>",
        AddCrack,
        "a crack in the slab, to be looked at",
        ("crack at B2",),
        _THINGS,
        spoken="crack at point <start:point>",
        ways=(
            f"{_A} [hairline] crack (at | in | by | near) [point] <start:point>",
            "(cracked | slab is cracked | it is cracked) (at | by | near) [point] <start:point>",
        ),
    ),
    Phrase(
        "crack [point] <start:point> to [point] <end:point>",
        AddCrack,
        "a crack from one point to another",
        ("crack B2 to C3",),
        _THINGS,
        spoken="crack <start:point> to <end:point>",
        ways=(
            f"{_A} [hairline] crack [runs | running | going] (from | between) [point]"
            " <start:point> (to | and) [point] <end:point>",
            "(cracked | slab is cracked) from [point] <start:point> to [point] <end:point>",
        ),
    ),
    Phrase(
        "crack <number:whole> repaired",
        RepairCrack,
        "it has been seen to",
        ("crack 1 repaired",),
        _THINGS,
        ways=(
            "crack <number:whole> (is | has been) (repaired | fixed | filled | stitched | sealed)",
            "crack <number:whole> (fixed | filled | stitched | sealed | done)",
            "(repaired | fixed | filled | stitched | sealed) crack <number:whole>",
        ),
    ),
    Phrase(
        "crack repaired",
        RepairCrack,
        "the same where there is only one",
        ("crack repaired",),
        _THINGS,
        speakable=False,
        ways=(
            "crack (is | has been) (repaired | fixed | filled | stitched | sealed)",
            "crack (fixed | filled | stitched | sealed | done)",
            "(repaired | fixed | filled | stitched | sealed) crack",
        ),
    ),
    Phrase(
        "drop <kind:thing> <number:whole>",
        DropThing,
        "it is not there",
        ("drop column 1", "drop crack 2"),
        _THINGS,
        speakable=False,
        ways=(
            "(remove | delete | forget | strike | take out | take away | get rid of)"
            " <kind:thing> <number:whole>",
            "(no | there is no | there's no) <kind:thing> <number:whole>",
            "<kind:thing> <number:whole> (is gone | gone | is not there | isn't there | is wrong)",
        ),
    ),
    Phrase(
        "obstacles",
        AskObstacles,
        "all of them, with their numbers, sizes and places",
        ("obstacles",),
        _THINGS,
        ways=(
            Aloud("what stands on floor"),
            "(list | show) [all] (obstacles | columns | holes | drains | cracks | joints |"
            " openings)",
            "(columns | holes | cabinets | shafts | openings | drains | joints | cracks)",
            "(what is | what's) (on floor | in way | on this floor)",
            "where are (obstacles | columns | holes | drains | cracks | joints | openings)",
            "(any | are there [any]) (obstacles | columns | holes | drains | cracks | joints |"
            " openings)",
            "how many (obstacles | columns | holes | drains | cracks | joints | openings)"
            " [are there]",
        ),
    ),
)
