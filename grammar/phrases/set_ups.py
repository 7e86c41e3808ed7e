"""Phrases: the instrument, its set-ups, ties and checks, and the check of the whole survey."""

from __future__ import annotations

from grammar.commands.set_ups import (
    AskSurveyCheck,
    CheckBenchmark,
    CheckZero,
    MoveReference,
    NewSetUp,
    PlaceBenchmark,
    SetInstrumentOffset,
    SetInstrumentRange,
    SetInstrumentRepeatability,
    SetInstrumentResolution,
    TheyHold,
    TieOnBenchmark,
    TieOnPoint,
)
from grammar.phrase import Phrase

_SETTINGS = "product and settings"
_TRUST = "set-ups, ties and checks"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "instrument range <reach:length>",
        SetInstrumentRange,
        "how far from its zero the instrument reads",
        ("instrument range 500 millimetres",),
        _SETTINGS,
    ),
    Phrase(
        "new set up",
        NewSetUp,
        "the instrument stands anew; tie it on something known",
        ("new set up",),
        _TRUST,
        ways=(
            "(i am | we are) (set up | setting up) again",
            "setting up (again | anew | somewhere else)",
            "set up (again | anew)",
            "(moved | moving) to (new | next | another) (setup | set up | spot | position)",
            "(new | next | second | third | another) (setup | set up | station | position)",
            "[i | we | i have | we have] moved (instrument | level | laser | tripod)",
            "(set up | setup) again",
            "moved instrument",
        ),
    ),
    Phrase(
        "benchmark <benchmark:whole> at <height:reading>",
        PlaceBenchmark,
        "a mark of known height against the first zero",
        ("benchmark 1 at 40 millimetres above zero", "benchmark 1 at +40 mm"),
        _TRUST,
        ways=(
            "bench mark <benchmark:whole> (at | is) <height:reading>",
            "benchmark <benchmark:whole> is <height:reading>",
        ),
    ),
    Phrase(
        "tie on benchmark <benchmark:whole> <reading>",
        TieOnBenchmark,
        "joins this set-up to a benchmark",
        ("tie on benchmark 1 minus 3",),
        _TRUST,
    ),
    Phrase(
        "tie on [point] <point> <reading>",
        TieOnPoint,
        "joins this set-up to a point read from another",
        ("tie on C4 minus 22",),
        _TRUST,
    ),
    Phrase(
        "check zero <reading>",
        CheckZero,
        "what the instrument reads at its zero now",
        ("check zero plus 1", "check zero level"),
        _TRUST,
        ways=(
            "(zero is at | checked zero it is | zero it is) <reading>",
            "zero (check | checked) <reading>",
            "zero (reads | is | shows | now | check) <reading>",
            "(back on zero | zero again) <reading>",
        ),
    ),
    Phrase(
        "check zero [is | still] <reading:unmoved>",
        CheckZero,
        "it reads level at its zero now",
        ("check zero good",),
        _TRUST,
        speakable=False,
        ways=("zero [is | still | is still | check | checks] <reading:unmoved>",),
    ),
    Phrase(
        "check benchmark <benchmark:whole> <reading>",
        CheckBenchmark,
        "what the instrument reads at a benchmark now",
        ("check benchmark 1 minus 2",),
        _TRUST,
    ),
    Phrase(
        "reference moved",
        MoveReference,
        "readings since the last good check are in doubt until read again, or borne out",
        ("reference moved",),
        _TRUST,
        ways=(
            "(laser | level | tripod | instrument | reference | hose | zero) (moved | has "
            "moved | got moved | was moved | got knocked | was knocked | shifted | has "
            "shifted | slipped)",
            "(i | we | somebody | someone) (bumped | knocked | kicked | moved | hit) "
            "(laser | level | tripod | instrument | it)",
            "(bumped | knocked | kicked) (laser | level | tripod | instrument)",
        ),
    ),
    Phrase(
        "(they [all] [still] (hold | stand) | readings [still] (hold | stand) | "
        "(rest | others) (hold | holds | stand | stands))",
        TheyHold,
        "some in doubt were read again and are as before: the others that this bears out count",
        ("they hold", "the readings hold", "the rest holds"),
        _TRUST,
        spoken="(they hold | readings hold)",
    ),
    Phrase(
        "instrument resolution <step:length>",
        SetInstrumentResolution,
        "the smallest difference it shows",
        ("instrument resolution 1 millimetre",),
        _TRUST,
    ),
    Phrase(
        "instrument repeatability <spread:length>",
        SetInstrumentRepeatability,
        "how far repeated readings spread, as a standard deviation",
        ("instrument repeatability 1 millimetre",),
        _TRUST,
    ),
    Phrase(
        "instrument offset <offset:reading>",
        SetInstrumentOffset,
        "what it is known to read at its zero",
        ("instrument offset plus 2 millimetres",),
        _TRUST,
    ),
    Phrase(
        "survey check",
        AskSurveyCheck,
        "trust it, look at these, or do it again, and why",
        ("survey check",),
        _TRUST,
        ways=(
            "(check survey | is survey [any] good | can (i | we) trust it | do readings "
            "agree | check readings | is anything off)",
            "(can (i | we) trust | are) readings [ok | good | any good]",
        ),
    ),
    Phrase(
        "survey check of slab",
        AskSurveyCheck,
        "the same of the survey before the pour",
        ("survey check of the slab",),
        _TRUST,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
)
