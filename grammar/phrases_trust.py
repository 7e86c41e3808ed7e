"""Phrases about the survey's trust and the best finish; part of the table in ``phrases.py``."""

from __future__ import annotations

from grammar import commands as c
from grammar.phrase import Phrase

_TRUST = "set-ups, ties and checks"
_SURE = "how sure, and where next"
_FINISH = "the best finish"

TRUST_PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "[point] <point> <readings:several>",
        c.TakeReadings,
        "a display that jumps: all values are kept, the median counts",
        ("B3 minus 17, 18, 19", "B3 -17 18 19 mm"),
        _TRUST,
        speakable=False,
    ),
    Phrase("hold", c.Hold, "the last value once more", ("hold",), _TRUST, speakable=False),
    Phrase(
        "new set up",
        c.NewSetUp,
        "the instrument stands anew; tie it on something known",
        ("new set up",),
        _TRUST,
    ),
    Phrase(
        "benchmark <benchmark:whole> at <height:reading>",
        c.PlaceBenchmark,
        "a mark of known height against the first zero",
        ("benchmark 1 at 40 millimetres above zero", "benchmark 1 at +40 mm"),
        _TRUST,
    ),
    Phrase(
        "tie on benchmark <benchmark:whole> <reading>",
        c.TieOnBenchmark,
        "joins this set-up to a benchmark",
        ("tie on benchmark 1 minus 3",),
        _TRUST,
    ),
    Phrase(
        "tie on [point] <point> <reading>",
        c.TieOnPoint,
        "joins this set-up to a point read from another",
        ("tie on C4 minus 22",),
        _TRUST,
    ),
    Phrase(
        "check zero <reading>",
        c.CheckZero,
        "what the instrument reads at its zero now",
        ("check zero plus 1", "check zero level"),
        _TRUST,
    ),
    Phrase(
        "check benchmark <benchmark:whole> <reading>",
        c.CheckBenchmark,
        "what the instrument reads at a benchmark now",
        ("check benchmark 1 minus 2",),
        _TRUST,
    ),
    Phrase(
        "reference moved",
        c.ReferenceMoved,
        "readings since the last good check are in doubt until read again, or borne out",
        ("reference moved",),
        _TRUST,
    ),
    Phrase(
        "(they [all] [still] (hold | stand) | readings [still] (hold | stand) | "
        "(rest | others) (hold | holds | stand | stands))",
        c.TheyHold,
        "some in doubt were read again and are as before: the others that this bears out count",
        ("they hold", "the readings hold", "the rest holds"),
        _TRUST,
        spoken="(they hold | readings hold)",
    ),
    Phrase(
        "instrument resolution <step:length>",
        c.SetInstrumentResolution,
        "the smallest difference it shows",
        ("instrument resolution 1 millimetre",),
        _TRUST,
    ),
    Phrase(
        "instrument repeatability <spread:length>",
        c.SetInstrumentRepeatability,
        "how far repeated readings spread, as a standard deviation",
        ("instrument repeatability 1 millimetre",),
        _TRUST,
    ),
    Phrase(
        "instrument offset <offset:reading>",
        c.SetInstrumentOffset,
        "what it is known to read at its zero",
        ("instrument offset plus 2 millimetres",),
        _TRUST,
    ),
    Phrase(
        "step between <first:line> and <second:line>",
        c.MarkStep,
        "the floor really steps there: columns, rows or points",
        ("step between B and C", "step between 2 and 3", "step between B3 and B4"),
        _TRUST,
        speakable=False,
    ),
    Phrase(
        "survey check",
        c.AskSurveyCheck,
        "trust it, look at these, or do it again, and why",
        ("survey check",),
        _TRUST,
    ),
    Phrase(
        "survey check of slab",
        c.AskSurveyCheck,
        "the same of the survey before the pour",
        ("survey check of the slab",),
        _TRUST,
        speakable=False,
        fixed=(("of", "slab"),),
    ),
    Phrase(
        "order [[at] risk <risk:percent>]",
        c.AskOrder,
        "bags for a risk of running short; 1 in 20 where none is said",
        ("order", "order risk 10 percent"),
        _SURE,
    ),
    Phrase(
        "hidden high spots",
        c.AskHiddenHighSpots,
        "the chance of a high spot between the points, and where",
        ("hidden high spots",),
        _SURE,
    ),
    Phrase(
        "where next",
        c.AskWhereNext,
        "the reading that tells most",
        ("where next",),
        _SURE,
    ),
    Phrase("enough", c.AskEnough, "whether more points still pay", ("enough",), _SURE),
    Phrase(
        "best finish",
        c.AskBestFinish,
        "the level finish that takes least material",
        ("best finish",),
        _FINISH,
    ),
    Phrase(
        "best plane [within <slope:percent>]",
        c.AskBestPlane,
        "the same, flat but not level, within a slope",
        ("best plane", "best plane within 0.5 percent"),
        _FINISH,
    ),
    Phrase(
        "fall <percent> towards [point] <point>",
        c.SetFall,
        "the floor is to fall towards a point",
        ("fall 1 percent towards A1",),
        _FINISH,
    ),
    Phrase(
        "fix [point] <point> at <height:reading>",
        c.FixHeight,
        "the finish must meet this height there",
        ("fix C1 at plus 2",),
        _FINISH,
    ),
    Phrase(
        "grind [point] <point> [by] <by:loose>",
        c.Grind,
        "a high spot is to be ground down by so much",
        ("grind C1 by 4 millimetres",),
        _FINISH,
        spoken="grind [point] <point> by <by:loose>",
    ),
    Phrase(
        "grinding options",
        c.AskGrindingOptions,
        "bags saved against height ground",
        ("grinding options",),
        _FINISH,
    ),
    Phrase(
        "lifts",
        c.AskLifts,
        "the lifts or the mix that deep places take",
        ("lifts",),
        _FINISH,
    ),
)
