"""Phrases: the way from point to point, and readings given along it."""

from __future__ import annotations

from grammar.commands.walk import (
    GoTo,
    GoToNextLine,
    SkipPoint,
    TakeLine,
    TakePoints,
    TakeRun,
    TakeSame,
    WalkAlong,
)
from grammar.phrase import Aloud, Phrase

_TOPIC = "readings"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "<points,readings:points_and_readings>",
        TakePoints,
        "several points in one breath",
        ("A1 minus 8, B1 minus 9", "A1 -8, B1 -9, C1 level"),
        _TOPIC,
        speakable=False,
    ),
    Phrase(
        "(row | column) <line> <readings:run>",
        TakeLine,
        "readings along a row or a column, from its first point on",
        ("row 2 minus 8 minus 9 minus 10", "column C -8 -9"),
        _TOPIC,
        speakable=False,
    ),
    Phrase(
        "<readings:run>",
        TakeRun,
        "readings of the next points of the walk",
        ("minus 8 minus 9 minus 10",),
        _TOPIC,
        speakable=False,
    ),
    Phrase(
        "same",
        TakeSame,
        "the next point reads what the last one read",
        ("same",),
        _TOPIC,
        speakable=False,
        ways=("same again", "same here", "ditto", "same as (last [one] | before)"),
    ),
    Phrase(
        "<point> same [as [point] <like:point>]",
        TakeSame,
        "a point reads what the last one, or another, read",
        ("A2 same", "A2 same as B1"),
        _TOPIC,
        speakable=False,
        ways=(
            "point <point> same [as [point] <like:point>]",
            "<point> ditto",
            "(same | ditto) (for | at | on) [point] <point>",
            "<point> exactly (like | same as) [point] <like:point>",
            "<point> (equals | is same as | reads same as | is like | reads like) [point] "
            "<like:point>",
        ),
    ),
    Phrase(
        "same as [point] <like:point>",
        TakeSame,
        "the next point reads what another read",
        ("same as B1",),
        _TOPIC,
        speakable=False,
    ),
    Phrase(
        "skip this (one | point | spot) [because <reason:sentence>]",
        SkipPoint,
        "the next point cannot be read",
        ("skip this one", "skip this point because a pallet stands there"),
        _TOPIC,
        speakable=False,
        ways=(
            "(leave | miss | pass) (this | that) (one | point | spot) [out] "
            "[because <reason:sentence>]",
            "(skip | leave out | miss out) (next one | next point | that one)",
            "[i | we] (can't | cannot) (reach | read | get at | get to | measure | do) (this | "
            "that) (one | point | spot) [because <reason:sentence>]",
            "(this | that) (one | point | spot) is (blocked | covered | unreadable | "
            "inaccessible | not reachable)",
        ),
    ),
    Phrase(
        "skip [point] <point> [because <reason:sentence>]",
        SkipPoint,
        "it cannot be read: no more missing, no pin, and the surface bridges it",
        ("skip A2 because a pallet stands there", "skip A2"),
        _TOPIC,
        spoken="skip point <point>",
        ways=(
            "skip [point] <point> (can't reach it | cannot reach it | can't get at it)",
            "[point] <point> is covered",
            "(leave | miss) [out] [point] <point> [out] [because <reason:sentence>]",
            "(can't | cannot) (reach | read | get at | get to) [point] <point>"
            " [because <reason:sentence>]",
            "[point] <point> (can't reach | cannot reach | blocked | is blocked | unreadable"
            " | not reachable | no access | inaccessible)",
            "(i | we) (can't | cannot) (reach | read | measure | get at | get to) [point] <point>",
            "(no access | no access to | no way to reach | no way to get to | no getting at | "
            "can't do | pass over)"
            " [point] <point>",
            "no reading (at | for) [point] <point> [because <reason:sentence>]",
        ),
    ),
    Phrase(
        "go to [point] <point>",
        GoTo,
        "the next value without a point is for this one",
        ("go to C2", "from C2"),
        _TOPIC,
        ways=(
            "(from | start at | start from | continue from | continue at | carry on from | go on at"
            " | jump to | move to | back to | skip to) [point] <point>",
            "next is [point] <point>",
            "next [point] <point>",
            "(i'm | i am | now | standing | carry on | go on | continue) (at | with | by) "
            "[point] <point>",
            "now [point] <point>",
            "[point] <point> next",
            "(take | bring) me (to | back to | over to) [point] <point>",
            "(do | read | shoot | measure) [point] <point> (next | now)",
            "(i'm | i am | now) (on | over at | standing at | stood at) [point] <point>",
        ),
    ),
    Phrase(
        "next row",
        GoToNextLine,
        "the walk goes on in the next row; in the next column where it goes along columns",
        ("next row",),
        _TOPIC,
        ways=(Aloud("next column"), "(next line | new row | new column | skip rest of [this] row)"),
    ),
    Phrase(
        "along rows",
        WalkAlong,
        "the walk goes to and fro along the rows",
        ("along rows",),
        _TOPIC,
        ways=("(go | walk | read) [along | down | by] rows", "row by row"),
        fixed=(("lines", "rows"),),
    ),
    Phrase(
        "along columns",
        WalkAlong,
        "the walk goes to and fro along the columns",
        ("along columns",),
        _TOPIC,
        ways=("(go | walk | read) [along | down | by] columns", "column by column"),
        fixed=(("lines", "columns"),),
    ),
)
