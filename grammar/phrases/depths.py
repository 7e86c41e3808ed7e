"""Phrases: depths at points and places, pins, high and low spots, and where to read next."""

from __future__ import annotations

from grammar.commands.depths import (
    AskCut,
    AskCutList,
    AskDepthAtPlace,
    AskDepthAtPoint,
    AskEnough,
    AskHiddenHighSpots,
    AskHighSpots,
    AskLowSpots,
    AskWhereNext,
)
from grammar.phrase import Phrase

_QUESTIONS = "questions"
_SURE = "how sure, and where next"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "how deep (at | is) [point] <point>",
        AskDepthAtPoint,
        "pour depth at a point",
        ("how deep at B3",),
        _QUESTIONS,
        spoken="how deep at [point] <point>",
        ways=(
            "(what is | how deep is) pour at [point] <point>",
            "pour (at | depth at) [point] <point>",
            "(depth | thickness) (at | of | for) [point] <point>",
            "(what is | what's) (depth | thickness) (at | of | for) [point] <point>",
            "how (deep | thick) [is it] (at | is) [point] <point>",
            "how (deep | thick) [point] <point>",
        ),
    ),
    Phrase(
        "how deep at <first,second:pair>",
        AskDepthAtPlace,
        "pour depth anywhere, measured from the corner",
        ("how deep at 3.2 by 4 metres",),
        _QUESTIONS,
    ),
    Phrase(
        "cut list",
        AskCutList,
        "what to cut every pin to",
        ("cut list",),
        _QUESTIONS,
        ways=(
            "(pins | pin list | list pins | cuts | all cuts | pin lengths | pin heights)",
            "(what do (i | we) | what to) cut pins to",
            "how long are pins",
            "read [me] (cuts | pins | cut list)",
        ),
    ),
    Phrase(
        "cut for [point] <point>",
        AskCut,
        "what to cut one pin to",
        ("cut for B3",),
        _QUESTIONS,
        ways=(
            "(pin | cut) (at | for) [point] <point>",
            "(what is | what's) (pin | cut) (at | for) [point] <point>",
            "how long is pin at [point] <point>",
        ),
    ),
    Phrase(
        "high spots",
        AskHighSpots,
        "where the floor leaves least depth",
        ("high spots",),
        _QUESTIONS,
        ways=(
            "where is it thinnest",
            "(any | show | list | where are | where's) (high | thin) (spots | points | "
            "bits | places)",
            "(humps | high points | too thin anywhere | is it too thin | thin spots)",
            "where is it (high | thin | too thin | thinnest | highest)",
        ),
    ),
    Phrase(
        "low spots",
        AskLowSpots,
        "where the pour is deepest",
        ("low spots",),
        _QUESTIONS,
        ways=(
            "where is it deepest",
            "(any | show | list | where are | where's) (low | deep) (spots | points | bits "
            "| places)",
            "(dips | low points | too deep anywhere | is it too (deep | thick) | deep spots)",
            "where is it (low | deep | too deep | deepest | lowest)",
        ),
    ),
    Phrase(
        "hidden high spots",
        AskHiddenHighSpots,
        "the chance of a high spot between the points, and where",
        ("hidden high spots",),
        _SURE,
    ),
    Phrase(
        "where next",
        AskWhereNext,
        "the reading that tells most",
        ("where next",),
        _SURE,
        ways=(
            "where should (i | we) (read | measure) [next]",
            "which point (helps | tells) most",
        ),
    ),
    Phrase(
        "enough",
        AskEnough,
        "whether more points still pay",
        ("enough",),
        _SURE,
        ways=(
            "(is that | do (i | we) have | are there | have (i | we) got) enough [points | "
            "readings]",
            "do (i | we) need more (points | readings)",
            "can (i | we) stop [reading | measuring] [now]",
        ),
    ),
)
