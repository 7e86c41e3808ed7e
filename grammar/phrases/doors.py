"""Phrases: heights at doors, and where the doors are."""

from __future__ import annotations

from grammar.commands.doors import (
    AskDoor,
    AskDoors,
    LimitDoorwayStep,
    MeasureClearance,
    MeasureDoor,
    MeasureOutside,
    PlaceDoor,
    SetCovering,
    SetDoorRules,
)
from grammar.phrase import Phrase

_DOORS = "doors"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "door <door:whole> left <left:reading> right <right:reading> [outside <outside:reading>]",
        MeasureDoor,
        "heights at both jambs, and of the floor outside",
        (
            "door 1 left minus 4 right minus 9",
            "door 1 left minus 4 right minus 9 outside plus 2",
        ),
        _DOORS,
        ways=(
            "left [jamb] <left:reading> right [jamb] <right:reading> [at | of | on] door "
            "<door:whole>",
            "door <door:whole> left [jamb | side | is] <left:reading> right [jamb | side | "
            "is] <right:reading> [outside <outside:reading>]",
            "door <door:whole> [is] <left:reading> left [jamb] [and] <right:reading> right [jamb]",
            "door <door:whole> <left:signed_reading> [and] <right:signed_reading>",
        ),
    ),
    Phrase(
        "door <door:whole> outside <outside:reading>",
        MeasureOutside,
        "height of the floor outside a door",
        ("door 1 outside plus 2",),
        _DOORS,
        ways=(
            "outside [of] door <door:whole> [is | at] <outside:reading>",
            "(next door floor | hallway | hall | corridor | floor outside | other side | "
            "next room) (at | of | by) door <door:whole> [is | at] <outside:reading>",
            "door <door:whole> (other side | hallway | next room | outside is) <outside:reading>",
        ),
    ),
    Phrase(
        "door <door:whole> at [point] <point>",
        PlaceDoor,
        "the point a door is nearest to",
        ("door 1 at B1", "door one at bravo one"),
        _DOORS,
    ),
    Phrase(
        "how is door <door:whole>",
        AskDoor,
        "one door: out of level across, and its step",
        ("how is door 1", "what is the step at door 1"),
        _DOORS,
        ways=(
            "[(what is | how big is)] step (at | outside | in | by) door <door:whole>",
            "(what about | how about | show | check) door <door:whole>",
            "(is | are) door <door:whole> (level | out | out of level | flush)",
            "what (is | did (i | we) (get | have)) (at | for) door <door:whole>",
            "door <door:whole> (step | jambs | report)",
        ),
    ),
    Phrase(
        "doors",
        AskDoors,
        "all doors: out of level, and steps",
        ("doors",),
        _DOORS,
        ways=(
            "(what is | how big is) step at door",
            "(steps | jambs) at doors",
            "(what is | how is) door (like | doing)",
            "(list | show | how are | what about | check) doors",
            "door (report | list)",
        ),
    ),
    Phrase(
        "doors of slab",
        AskDoors,
        "as they were before the pour",
        ("doors of the slab",),
        _DOORS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase(
        "doorway step limit <most:length>",
        LimitDoorwayStep,
        "the most that the rules of the place let a doorway step",
        ("doorway step limit 20 millimetres", "doorway step limit 3/4 in"),
        _DOORS,
        speakable=False,
        ways=(
            "(limit | maximum | max | most) (doorway step | step at doors | step) <most:length>",
        ),
    ),
    Phrase(
        "no doorway step limit",
        LimitDoorwayStep,
        "steps are reported, and none stands against the pour",
        ("no doorway step limit",),
        _DOORS,
        speakable=False,
    ),
    Phrase(
        "usual doorway step limit",
        LimitDoorwayStep,
        "half an inch again",
        ("usual doorway step limit",),
        _DOORS,
        speakable=False,
        fixed=(("usual", True),),
    ),
    Phrase(
        "door <door:whole> clearance <clearance:length>",
        MeasureClearance,
        "what its leaf clears the floor by, as it is now",
        ("door 1 clearance 9 millimetres", "door 1 clearance 3/8 in"),
        _DOORS,
        speakable=False,
        ways=(
            "door <door:whole> (clears [floor by] | undercut) <clearance:length>",
            "door <door:whole> (leaf | clearance) (is | clears) <clearance:length>",
            "(clearance | undercut | gap) (at | under | of) door <door:whole> [is]"
            " <clearance:length>",
        ),
    ),
    Phrase(
        "covering <thickness:length>",
        SetCovering,
        "what will be laid on the finished floor; steps and leaves at doors are worked out with it",
        ("covering 8 millimetres", "covering 3/8 in"),
        _DOORS,
        speakable=False,
        ways=(
            "[floor] (covering | finish floor) [is | of] <thickness:length> [thick]",
            "(tiles | planks | carpet | vinyl | parquet) [are | is] <thickness:length> [thick]",
        ),
    ),
    Phrase(
        "no covering",
        SetCovering,
        "the floor is walked on as it is poured",
        ("no covering",),
        _DOORS,
        speakable=False,
        ways=("without [a] covering", "covering none"),
    ),
    Phrase(
        "door rules usa",
        SetDoorRules,
        "steps by the 2010 ADA Standards, as until others are set",
        ("door rules usa",),
        _DOORS,
        speakable=False,
        fixed=(("country", "usa"),),
        ways=("(door | doorway) rules [of] (america | united states | usa)",),
    ),
    Phrase(
        "door rules uk",
        SetDoorRules,
        "steps by Approved Document M",
        ("door rules uk",),
        _DOORS,
        speakable=False,
        fixed=(("country", "uk"),),
        ways=("(door | doorway) rules [of] (britain | united kingdom | england | uk)",),
    ),
)
