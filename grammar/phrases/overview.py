"""Phrases: the whole job at a glance: tally, what is missing, warnings, map."""

from __future__ import annotations

from grammar.commands.overview import AskCautions, AskMap, AskMissing, AskTally, AskWarnings
from grammar.phrase import Phrase

_QUESTIONS = "questions"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "tally",
        AskTally,
        "points, depths, volume and bags",
        ("tally",),
        _QUESTIONS,
        ways=(
            "(quick | short) summary",
            "where are we at",
            "sum it up",
            "give (numbers | figures)",
            "(summary | sum up | status | totals | total | overview | how are we doing | "
            "where are we | where do we stand | give totals | how much in all | numbers)",
        ),
    ),
    Phrase(
        "(what is | what's) missing",
        AskMissing,
        "what the job still lacks",
        ("what is missing", "what's missing"),
        _QUESTIONS,
        ways=(
            "what else (do you need | is needed | do (i | we) need)",
            "what is [still] (to do | left to do | outstanding)",
            "(is that all | am i done | am i finished | are we done | what's left | what "
            "is left | anything missing | what do you still need | what do (i | we) still "
            "need | missing points | missing)",
            "(what | which) (points | readings) are (missing | left)",
            "anything left",
        ),
    ),
    Phrase(
        "(what is | what's) missing (on | of) slab",
        AskMissing,
        "what the survey before the pour lacks",
        ("what is missing on the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase(
        "warnings",
        AskWarnings,
        "all that is past a limit or needs a look",
        ("warnings",),
        _QUESTIONS,
        ways=(
            "anything (i | we) should (worry about | know | look at)",
            "(what | anything) to (worry about | watch)",
            "(problems | any problems | any warnings | anything wrong | what's wrong | "
            "what is wrong | list warnings | show warnings | alerts | is anything wrong | "
            "trouble)",
        ),
    ),
    Phrase(
        "cautions",
        AskCautions,
        "the usual safety words in full; others give each of them once a day",
        ("cautions", "safety words"),
        _QUESTIONS,
        ways=("safety (words | notes | cautions)",),
        about="safety dust mask gloves lifting asbestos burns electricity",
    ),
    Phrase(
        "map",
        AskMap,
        "the floor from above, with depths",
        ("map",),
        _QUESTIONS,
        ways=(
            "(draw | show | print) [me] (map | floor | plan)",
            "(floor plan | plan view | drawing)",
        ),
    ),
    Phrase(
        "map of slab",
        AskMap,
        "the same as it was before the pour",
        ("map of the slab",),
        _QUESTIONS,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
)
