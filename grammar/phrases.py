"""THE grammar: every phrase, what it asks for, how it is explained, and examples.

This table is the only place where the language is defined. The typed parser,
completion, "what can I say", the printed reference, the random sentences of
the tests and the recogniser's word list all come from it. Of several ways to
say a thing the first in a template is its short typed form.
"""

from __future__ import annotations

from grammar import commands as c
from grammar.phrase import Phrase
from grammar.phrases_site import SITE_PHRASES
from grammar.phrases_trust import TRUST_PHRASES

_ROOM = "the room and its points"
_SETTINGS = "product and settings"
_FINISH = "the finish"
_READINGS = "readings"
_DOORS = "doors"
_QUESTIONS = "questions"
_TALK = "the conversation"

PHRASES: tuple[Phrase, ...] = (
    # --- readings ---------------------------------------------------------
    Phrase(
        "[point] <point> [is | reads] <reading>",
        c.TakeReading,
        "the floor's height at a point, against the zero",
        (
            "B3 -18",
            "b3 -18mm",
            "point bravo three minus eighteen millimetres",
            "point B3 18 below",
            "B3 3/8 in low",
            'B3 -1 1/2"',
            "bravo three plus one and five eighths inches",
            "B3 level",
            "AA3 plus 2.5 mm",
        ),
        _READINGS,
        spoken="[point] <point> <reading>",
    ),
    Phrase(
        "<reading:signed_reading>",
        c.TakeReading,
        "the height at the next point, along the rows to and fro",
        ("minus 18", "-18 mm", "eighteen millimetres below", "+3", "level"),
        _READINGS,
    ),
    Phrase(
        "correct [point] <point> [to] <reading>",
        c.CorrectReading,
        "put a reading right; the first one stays in the record",
        ("correct B3 to minus 16", "correct B3 -16 mm"),
        _READINGS,
    ),
    Phrase(
        "scratch [point] <point>",
        c.ScratchPoint,
        "the reading at a point no longer counts",
        ("scratch B3", "scratch point bravo three"),
        _READINGS,
    ),
    Phrase(
        "(scratch that | undo [that])",
        c.ScratchThat,
        "undo the last thing recorded; said again, the one before it",
        ("scratch that", "undo"),
        _READINGS,
        spoken="scratch that",
    ),
    Phrase(
        "undo [last] <steps:whole>",
        c.ScratchThat,
        "undo so many things, the last first",
        ("undo 3", "undo the last three"),
        _READINGS,
        speakable=False,
    ),
    Phrase(
        "(redo [that] | bring that back)",
        c.BringBack,
        "redo what was undone last; something new said ends it",
        ("redo", "bring that back"),
        _READINGS,
        spoken="bring that back",
    ),
    Phrase(
        "redo [last] <steps:whole>",
        c.BringBack,
        "redo so many things",
        ("redo 2",),
        _READINGS,
        speakable=False,
    ),
    Phrase(
        "<side>",
        c.ChooseSide,
        'answers "below or above?"',
        ("below", "above", "minus", "low"),
        _TALK,
        speakable=False,
    ),
    Phrase(
        "[yes | no] [in] <unit:reading_unit>",
        c.ChooseUnit,
        'answers "3/8 of an inch?"',
        ("inches", "millimetres", "yes inches", "no millimetres"),
        _TALK,
        speakable=False,
    ),
    # --- the room -----------------------------------------------------------
    Phrase(
        "room <first,second:pair>",
        c.SetRoom,
        "a rectangular room: the lettered side, then the numbered side",
        ("room 12 by 8 metres", "room 12 x 8 m", "room 13 ft 6 in by 10 ft"),
        _ROOM,
    ),
    Phrase(
        "wall <direction> <length>",
        c.AddWall,
        "an outline wall by wall, walked round from a corner",
        ("wall east 4.2 metres", "wall north west 1.5 m", "wall south 13' 6\""),
        _ROOM,
    ),
    Phrase(
        "close room",
        c.CloseRoom,
        "the walls are all told; a misclosure is said",
        ("close room",),
        _ROOM,
    ),
    Phrase(
        "grid <first:length> [starting [at | from] <starting:length>]",
        c.SetGrid,
        "points at even spacing; centred, or starting so far from the corner",
        ("grid 2 metres", "grid 2 metres starting 0.5 metres", "grid 6 ft"),
        _ROOM,
        spoken="grid <first:length> [starting <starting:length>]",
    ),
    Phrase(
        "grid <first,second:pair> [starting [at | from] <starting:length>]",
        c.SetGrid,
        "the same with another spacing along the second side",
        ("grid 2 by 1.5 metres", "grid 2 by 1.5 metres starting 0.5 m"),
        _ROOM,
        spoken="grid <first,second:pair> [starting <starting:length>]",
    ),
    Phrase(
        "point <point> at <first,second:pair>",
        c.AddPoint,
        "a point off the grid, measured from the corner along both sides",
        ("point K1 at 3.2 by 4.5 metres",),
        _ROOM,
    ),
    # --- product and settings ---------------------------------------------
    Phrase(
        "product <name>",
        c.ChooseProduct,
        "the bag in your hand, by the name on its card",
        ("product example standard",),
        _SETTINGS,
    ),
    Phrase("products", c.ListProducts, "the product cards at hand", ("products",), _SETTINGS),
    Phrase(
        "waste <percent>",
        c.SetWaste,
        "what is lost in buckets and hoses, on top of the volume",
        ("waste 7 percent", "waste 7%", "waste seven per cent"),
        _SETTINGS,
    ),
    Phrase(
        "aggregate <percent>",
        c.ExtendWithAggregate,
        "aggregate in the mix, by mass of the powder",
        ("aggregate 50 percent",),
        _SETTINGS,
    ),
    Phrase(
        "(pour neat | no aggregate)",
        c.PourNeat,
        "no aggregate in the mix",
        ("pour neat", "no aggregate"),
        _SETTINGS,
    ),
    Phrase(
        "readings in <unit:reading_unit>",
        c.SetReadingUnit,
        "what a reading without a unit is in, and what pins are cut in",
        ("readings in inches", "readings in millimetres"),
        _SETTINGS,
    ),
    Phrase(
        "instrument range <reach:length>",
        c.SetInstrumentRange,
        "how far from its zero the instrument reads",
        ("instrument range 500 millimetres",),
        _SETTINGS,
    ),
    # --- the finish -----------------------------------------------------------
    Phrase(
        "finish [at] <height:reading>",
        c.SetFinish,
        "height of the finished floor against the zero",
        ("finish 4 millimetres above zero", "finish +4 mm", "finish at zero"),
        _FINISH,
    ),
    Phrase(
        "raise finish [by] <by:loose>",
        c.RaiseFinish,
        "finish higher by so much",
        ("raise finish 3 millimetres", "raise the finish by 1/8 in"),
        _FINISH,
    ),
    Phrase(
        "lower finish [by] <by:loose>",
        c.LowerFinish,
        "finish lower by so much",
        ("lower finish 2 millimetres",),
        _FINISH,
    ),
    # --- doors ----------------------------------------------------------------
    Phrase(
        "door <door:whole> left <left:reading> right <right:reading> [outside <outside:reading>]",
        c.MeasureDoor,
        "heights at both jambs, and of the floor outside",
        (
            "door 1 left minus 4 right minus 9",
            "door 1 left minus 4 right minus 9 outside plus 2",
        ),
        _DOORS,
    ),
    Phrase(
        "door <door:whole> outside <outside:reading>",
        c.MeasureOutside,
        "height of the floor outside a door",
        ("door 1 outside plus 2",),
        _DOORS,
    ),
    Phrase(
        "door <door:whole> at [point] <point>",
        c.PlaceDoor,
        "the point a door is nearest to",
        ("door 1 at B1", "door one at bravo one"),
        _DOORS,
    ),
    Phrase("doors", c.AskDoors, "all doors: out of level, and steps", ("doors",), _DOORS),
    Phrase(
        "doors of slab",
        c.AskDoors,
        "as they were before the pour",
        ("doors of the slab",),
        _DOORS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    # --- questions ------------------------------------------------------------
    Phrase("tally", c.AskTally, "points, depths, volume and bags", ("tally",), _QUESTIONS),
    Phrase(
        "how deep (at | is) [point] <point>",
        c.AskDepthAtPoint,
        "pour depth at a point",
        ("how deep at B3",),
        _QUESTIONS,
        spoken="how deep at [point] <point>",
    ),
    Phrase(
        "how deep at <first,second:pair>",
        c.AskDepthAtPlace,
        "pour depth anywhere, measured from the corner",
        ("how deep at 3.2 by 4 metres",),
        _QUESTIONS,
    ),
    Phrase("cut list", c.AskCutList, "what to cut every pin to", ("cut list",), _QUESTIONS),
    Phrase(
        "cut for [point] <point>",
        c.AskCut,
        "what to cut one pin to",
        ("cut for B3",),
        _QUESTIONS,
    ),
    Phrase(
        "high spots",
        c.AskHighSpots,
        "where the floor leaves least depth",
        ("high spots",),
        _QUESTIONS,
    ),
    Phrase("low spots", c.AskLowSpots, "where the pour is deepest", ("low spots",), _QUESTIONS),
    Phrase("readings", c.AskReadings, "all readings as they were said", ("readings",), _QUESTIONS),
    Phrase(
        "readings of slab",
        c.AskReadings,
        "those taken before the pour",
        ("readings of the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase(
        "next point",
        c.AskNextPoint,
        "the point that a bare reading goes to",
        ("next point",),
        _QUESTIONS,
    ),
    Phrase(
        "(what is | what's) missing",
        c.AskMissing,
        "what the job still lacks",
        ("what is missing", "what's missing"),
        _QUESTIONS,
    ),
    Phrase(
        "(what is | what's) missing (on | of) slab",
        c.AskMissing,
        "what the survey before the pour lacks",
        ("what is missing on the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase(
        "warnings",
        c.AskWarnings,
        "all that is past a limit or needs a look",
        ("warnings",),
        _QUESTIONS,
    ),
    Phrase("map", c.AskMap, "the floor from above, with depths", ("map",), _QUESTIONS),
    Phrase(
        "map of slab",
        c.AskMap,
        "the same as it was before the pour",
        ("map of the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase("weight", c.AskWeight, "what the pour weighs on the floor", ("weight",), _QUESTIONS),
    Phrase(
        "what if <change>",
        c.WhatIf,
        "what a change would do; nothing is recorded",
        (
            "what if raise finish 3 millimetres",
            "what if product example standard",
            "what if B3 minus 25",
            "what if scratch C4",
            "what if waste 10 percent",
        ),
        _QUESTIONS,
    ),
    # --- the conversation -------------------------------------------------------
    Phrase("confirm", c.Confirm, "yes to the question that waits", ("confirm",), _TALK),
    Phrase("cancel that", c.CancelThat, "no to the question that waits", ("cancel that",), _TALK),
    Phrase(
        "say again",
        c.SayAgain,
        "the last reply, or the question that waits",
        ("say again",),
        _TALK,
    ),
    Phrase(
        "start listening",
        c.StartListening,
        "ears open: take all that is said, without a key for each",
        ("start listening",),
        _TALK,
    ),
    Phrase(
        "stop listening",
        c.StopListening,
        "ears closed to all but “start listening”; the key and typing still count",
        ("stop listening",),
        _TALK,
    ),
    Phrase(
        "(what can I say | help)",
        c.AskPhrases,
        "this list",
        ("what can I say", "help"),
        _TALK,
        spoken="what can I say",
    ),
    *TRUST_PHRASES,
    *SITE_PHRASES,
)
