"""Phrases: what proves a floor."""

from __future__ import annotations

from grammar.commands.proof import (
    AskDefects,
    AskLine,
    AskLines,
    CorrectLineValue,
    DropFinding,
    EndLine,
    FindDefect,
    GoOnWithLine,
    MeasureGap,
    StartLine,
    TakeLineValues,
    Verify,
)
from grammar.phrase import Phrase

_PROOF = "proving the floor"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "verify",
        Verify,
        "the second survey: what is read from now on is of the finished floor",
        ("verify",),
        _PROOF,
        speakable=False,
        ways=(
            "verify [this | finished | poured] floor",
            "(begin | start | open) (second | finished floor's) survey",
            "(prove | check) finished floor",
            "second survey",
        ),
        about="after the pour cured proof",
    ),
    Phrase(
        "line <line:whole> from [point] <start:point> to [point] <end:point>"
        " [every <spacing:length>]",
        StartLine,
        "heights along a line; values without a point are for it until it ends",
        (
            "line 1 from A1 to A6 every 300 millimetres",
            "line 2 from A1 to D1",
            "line 3 from B1 to B4 every 1 ft",
        ),
        _PROOF,
        speakable=False,
        ways=(
            "(start | begin | new) line <line:whole> (from | at) [point] <start:point> to [point]"
            " <end:point> [(every | each | at) <spacing:length>]",
            "line <line:whole> [point] <start:point> to [point] <end:point>"
            " [(every | each | at) <spacing:length>]",
        ),
    ),
    Phrase(
        "line <line:whole> from <along,across:pair> to <to_along,to_across:pair>"
        " [every <spacing:length>]",
        StartLine,
        "the same between places, from the corner along both sides",
        ("line 1 from 0.5 by 1 metres to 6.5 by 1 metres every 300 mm",),
        _PROOF,
        speakable=False,
        ways=(
            "(start | begin | new) line <line:whole> (from | at) <along,across:pair> to"
            " <to_along,to_across:pair> [(every | each | at) <spacing:length>]",
        ),
    ),
    Phrase(
        "line <line:whole> every <spacing:length>",
        StartLine,
        "a line whose place nobody needs to know",
        ("line 1 every 300 mm",),
        _PROOF,
        speakable=False,
        ways=("(start | begin | new) line <line:whole> (every | each | at) <spacing:length>",),
    ),
    Phrase(
        "values <readings:line_values>",
        TakeLineValues,
        "heights of the line that is being read, on from the last one; the values alone will do",
        ("values 0, -1, -1, +2", "values minus 1"),
        _PROOF,
        speakable=False,
    ),
    Phrase(
        "<readings:nought>",
        TakeLineValues,
        "a level value of the line that is being read",
        ("0",),
        _PROOF,
        speakable=False,
    ),
    Phrase(
        "line <line:whole> values <readings:line_values>",
        TakeLineValues,
        "heights of this line, on from its last one",
        ("line 1 values 0, -1, -1, +2", "line 2 values minus 1 minus 2"),
        _PROOF,
        speakable=False,
    ),
    Phrase(
        "line <line:whole> point <number:whole> is <reading>",
        CorrectLineValue,
        "put one value of a line right",
        ("line 1 point 4 is minus 2", "line 1 point 4 is 2 below"),
        _PROOF,
        speakable=False,
        ways=(
            "(correct | change | make) line <line:whole> (point | value) <number:whole>"
            " [to | is] <reading>",
            "line <line:whole> (point | value | number) <number:whole> (is | should be | was | to)"
            " <reading>",
        ),
    ),
    Phrase(
        "value <number:whole> is <reading>",
        CorrectLineValue,
        "the same of the line that is being read",
        ("value 4 is minus 2",),
        _PROOF,
        speakable=False,
        ways=("(correct | change | make) value <number:whole> [to | is] <reading>",),
    ),
    Phrase(
        "end line <line:whole>",
        EndLine,
        "all of it is read; values without a point are for points again",
        ("end line 1",),
        _PROOF,
        speakable=False,
        ways=(
            "line <line:whole> (ended | done | finished | complete | is done | is finished)",
            "(finish | close) line <line:whole>",
            "end of line <line:whole>",
        ),
    ),
    Phrase(
        "end line",
        EndLine,
        "the same of the line that is being read",
        ("end line",),
        _PROOF,
        speakable=False,
        ways=(
            "line (ended | done | finished | complete | is done | is finished)",
            "end of line",
            "(finish | close) line",
        ),
    ),
    Phrase(
        "go on with line <line:whole>",
        GoOnWithLine,
        "values without a point are for this line again",
        ("go on with line 1",),
        _PROOF,
        speakable=False,
        ways=(
            "(go | carry) on with line <line:whole>",
            "(continue | back to | resume | reopen) [with] line <line:whole>",
        ),
    ),
    Phrase(
        "line <line:whole>",
        AskLine,
        "a line with all its values",
        ("line 1",),
        _PROOF,
        speakable=False,
        ways=(
            "(show | read back | list | how is | what about) line <line:whole>",
            "values of line <line:whole>",
        ),
    ),
    Phrase(
        "lines",
        AskLines,
        "all lines, and how far each is read",
        ("lines",),
        _PROOF,
        speakable=False,
        ways=("(show | list | what about) [all] lines", "all lines"),
    ),
    Phrase(
        "gap <gap:length> under <under:length> at [point] <point>",
        MeasureGap,
        "the largest gap under a straightedge laid by hand",
        ("gap 3 millimetres under 2 metres at C2", "gap 1/8 in under 10 ft at C2"),
        _PROOF,
        speakable=False,
        ways=(
            "gap [of] <gap:length> (under | below) [a | straightedge | edge] [of] <under:length>"
            " [straightedge | edge] (at | on | near | by) [point] <point>",
            "<gap:length> gap (under | below) [a] <under:length> [straightedge | edge] (at | on |"
            " near | by) [point] <point>",
            "gap (at | on) [point] <point> <gap:length> under [a] <under:length> [straightedge |"
            " edge]",
        ),
    ),
    Phrase(
        "hollow at [point] <point>",
        FindDefect,
        "it sounds hollow there",
        ("hollow at C3",),
        _PROOF,
        speakable=False,
        fixed=(("kind", "hollow"),),
        ways=(
            "[it] (sounds | is) hollow (at | on | near | by) [point] <point>",
            "[point] <point> (sounds hollow | is hollow | hollow)",
            "hollow [spot | sound | place] (at | on | near | by) [point] <point>",
        ),
    ),
    Phrase(
        "pinholes at [point] <point>",
        FindDefect,
        "small holes in the surface there",
        ("pinholes at D1",),
        _PROOF,
        speakable=False,
        fixed=(("kind", "pinholes"),),
        ways=(
            "(pinholes | pinhole | pin holes) (at | on | near | by | around) [point] <point>",
            "[point] <point> has pinholes",
        ),
    ),
    Phrase(
        "drop line <number:whole>",
        DropFinding,
        "the line and its values count no more",
        ("drop line 1",),
        _PROOF,
        speakable=False,
        fixed=(("kind", "line"),),
        ways=("(remove | delete | forget | strike | bin | scrub) line <number:whole>",),
    ),
    Phrase(
        "drop gap <number:whole>",
        DropFinding,
        "the gap counts no more",
        ("drop gap 1",),
        _PROOF,
        speakable=False,
        fixed=(("kind", "gap"),),
        ways=("(remove | delete | forget | strike | bin | scrub) gap <number:whole>",),
    ),
    Phrase(
        "drop hollow <number:whole>",
        DropFinding,
        "it is not there, or seen to",
        ("drop hollow 1",),
        _PROOF,
        speakable=False,
        fixed=(("kind", "hollow"),),
        ways=("(remove | delete | forget | strike) hollow <number:whole>",),
    ),
    Phrase(
        "drop pinholes <number:whole>",
        DropFinding,
        "they are not there, or seen to",
        ("drop pinholes 1",),
        _PROOF,
        speakable=False,
        fixed=(("kind", "pinholes"),),
        ways=("(remove | delete | forget | strike) pinholes <number:whole>",),
    ),
    Phrase(
        "defects",
        AskDefects,
        "gaps, hollows, pinholes and cracks on record",
        ("defects",),
        _PROOF,
        speakable=False,
        ways=(
            "(list | show) [all] (defects | gaps | hollows | pinholes | findings)",
            "(gaps | hollows | pinholes | findings | snags)",
            "(any | are there [any]) (defects | gaps | hollows | pinholes)",
        ),
        about="snags faults",
    ),
)
