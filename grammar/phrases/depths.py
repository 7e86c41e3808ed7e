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
    ),
    Phrase(
        "how deep at <first,second:pair>",
        AskDepthAtPlace,
        "pour depth anywhere, measured from the corner",
        ("how deep at 3.2 by 4 metres",),
        _QUESTIONS,
    ),
    Phrase("cut list", AskCutList, "what to cut every pin to", ("cut list",), _QUESTIONS),
    Phrase(
        "cut for [point] <point>",
        AskCut,
        "what to cut one pin to",
        ("cut for B3",),
        _QUESTIONS,
    ),
    Phrase(
        "high spots",
        AskHighSpots,
        "where the floor leaves least depth",
        ("high spots",),
        _QUESTIONS,
    ),
    Phrase("low spots", AskLowSpots, "where the pour is deepest", ("low spots",), _QUESTIONS),
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
    ),
    Phrase("enough", AskEnough, "whether more points still pay", ("enough",), _SURE),
)
