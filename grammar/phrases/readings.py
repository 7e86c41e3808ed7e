"""Phrases: heights read at points, put right, struck out and listed."""

from __future__ import annotations

from grammar.commands.readings import (
    AskNextPoint,
    AskReadings,
    CorrectReading,
    Hold,
    MarkStep,
    SetReadingUnit,
    StrikePoint,
    TakeReading,
    TakeReadings,
)
from grammar.phrase import Phrase

_READINGS = "readings"
_SETTINGS = "product and settings"
_QUESTIONS = "questions"
_TRUST = "set-ups, ties and checks"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "[point] <point> [is | reads] <reading>",
        TakeReading,
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
        ways=(
            "<reading:signed_reading> (at | on | for) [point] <point>",
            "[point] <point> (got | shows | gives | says | measures) <reading>",
            "(i | we) (get | got | have | read | make it) <reading:signed_reading> (at | "
            "on | for) [point] <point>",
            "[reading] at [point] <point> [it | i get | we get | it is | is] <reading>",
            "put <reading:signed_reading> (in for | down for | at | on | for | against) "
            "[point] <point>",
            "put [point] <point> (at | down as) <reading>",
            "[point] <point> [is] at <reading>",
        ),
    ),
    Phrase(
        "<reading:signed_reading>",
        TakeReading,
        "the height at the next point, along the rows to and fro",
        ("minus 18", "-18 mm", "eighteen millimetres below", "+3", "level"),
        _READINGS,
        ways=(
            "<reading:signed_reading> here",
            "(i | we) (get | got | make it) <reading:signed_reading>",
            "(it | this one | next one | display) (reads | shows | says) <reading:signed_reading>",
            "(this one | this one's | next one) [is] <reading:signed_reading>",
            "here (it's | it is | i get | i have) <reading:signed_reading>",
        ),
    ),
    Phrase(
        "correct [point] <point> [to] <reading>",
        CorrectReading,
        "put a reading right; the first one stays in the record",
        ("correct B3 to minus 16", "correct B3 -16 mm"),
        _READINGS,
        ways=(
            "[point] <point> (make it | make that) <reading>",
            "(sorry | no) [point] <point> (is | was | should be) <reading>",
            "(change | make | set | fix up | amend | update | replace | overwrite) "
            "[that | reading at] [point] <point> [to | as | with | by] <reading>",
            "redo [point] <point> (to | as | at | with) <reading>",
            "[point] <point> (is wrong | was wrong | misread | reread) [it's | it is] <reading>",
            "[point] <point> (actually | correction) [is] <reading>",
            "[point] <point> (it's | it is | is | was) actually <reading>",
            "put <reading:signed_reading> instead [at | for] [point] <point>",
            "[point] <point> (wants to be | has to be | needs to be | must be | is supposed to "
            "be | was supposed to be | was meant to be) <reading>",
            "[point] <point> (should be | should read | should have said | should have read | "
            "should have been | is now | now | "
            "ought to be) <reading>",
        ),
    ),
    Phrase(
        "strike [point] <point>",
        StrikePoint,
        "the reading at a point no longer counts",
        ("strike B3", "strike point bravo three"),
        _READINGS,
        ways=(
            "(scrub | wipe | bin | rub out | get rid of | kill | lose | dump) [point] <point>",
            "(throw | chuck | get | rub) [point] <point> (out | away)",
            "[point] <point> is wrong (delete it | strike it | take it out)",
            "(take out | take off | leave out) [point] <point>",
            "get [point] <point> out of (there | it)",
            "[point] <point> out",
            "[point] <point> is (no good | rubbish | wrong | bad | nonsense | a mistake) (delete | "
            "remove | strike | scrap | bin | drop | lose) it",
            "take [point] <point> (out | off)",
            "[point] <point> (should go | doesn't count | does not count)",
            "(strike | delete | remove | forget | drop | clear | cancel | erase) "
            "[reading at | reading for] [point] <point>",
        ),
    ),
    Phrase(
        "readings in <unit:reading_unit>",
        SetReadingUnit,
        "what a reading without a unit is in, and what pins are cut in",
        ("readings in inches", "readings in millimetres"),
        _SETTINGS,
        ways=(
            "(switch | change | set) it to <unit:reading_unit>",
            "(everything | readings) [is | are] in <unit:reading_unit>",
            "(use | switch to | work in | change to | go to | units are | units in) "
            "<unit:reading_unit>",
        ),
    ),
    Phrase(
        "[units] <unit:unit_system>",
        SetReadingUnit,
        "the same, by what the unit belongs to",
        ("metric", "imperial"),
        _SETTINGS,
        speakable=False,
        ways=("(use | switch to | work in | go | change to | in) <unit:unit_system> [units]",),
    ),
    Phrase(
        "readings",
        AskReadings,
        "all readings as they were said",
        ("readings",),
        _QUESTIONS,
        ways=(
            "what have (i | we) (read | got | measured)",
            "what (i | we) have (read | got | measured)",
            "(list | show | read back | read out) [all] (readings | points)",
            "(list | show) points",
            "all readings",
            "read back",
        ),
    ),
    Phrase(
        "readings of slab",
        AskReadings,
        "those taken before the pour",
        ("readings of the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase(
        "next point",
        AskNextPoint,
        "the point that a bare reading goes to",
        ("next point",),
        _QUESTIONS,
        ways=(
            "(which | what) one is next",
            "where (to | do (i | we) go) from here",
            "(what is | what's | which is | where is | where's) next [point | one]",
            "where now",
            "(where | what) (to | am I at | do (i | we) go) [next]",
            "which point [is next | am I at | are we at]",
            "next (one | reading)",
        ),
    ),
    Phrase(
        "[point] <point> <readings:several>",
        TakeReadings,
        "a display that jumps: all values are kept, the median counts",
        ("B3 minus 17, 18, 19", "B3 -17 18 19 mm"),
        _TRUST,
        speakable=False,
    ),
    Phrase(
        "hold",
        Hold,
        "the last value once more",
        ("hold",),
        _TRUST,
        speakable=False,
        ways=("(once more | same value | as before | no change)",),
    ),
    Phrase(
        "step between <first:line> and <second:line>",
        MarkStep,
        "the floor really steps there: columns, rows or points",
        ("step between B and C", "step between 2 and 3", "step between B3 and B4"),
        _TRUST,
        speakable=False,
    ),
)
