"""Phrases: the finished height: set, or found as the one that suits the floor best."""

from __future__ import annotations

from grammar.commands.finish import (
    AskBestFinish,
    AskBestPlane,
    AskGrindingOptions,
    AskLifts,
    FinishAtDoor,
    FinishOverHighest,
    FixHeight,
    Grind,
    LowerFinish,
    RaiseFinish,
    SetFall,
    SetFinish,
)
from grammar.phrase import Phrase

_FINISH = "the finish"
_BEST = "the best finish"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "finish [at] <height:reading>",
        SetFinish,
        "height of the finished floor against the zero",
        ("finish 4 millimetres above zero", "finish +4 mm", "finish at zero"),
        _FINISH,
        ways=(
            "(set | make | put) finish [to | at | height | level] <height:reading>",
            "finish (is | to | height | of) <height:reading>",
        ),
    ),
    Phrase(
        "raise finish [by] <by:loose>",
        RaiseFinish,
        "finish higher by so much",
        ("raise finish 3 millimetres", "raise the finish by 1/8 in"),
        _FINISH,
        ways=(
            "(bring | take | put | push) finish (up | up by) <by:loose>",
            "(lift | up | bump) finish [by | up] <by:loose>",
            "(finish | it) up [by] <by:loose>",
            "(raise | lift) [it | floor] [by] <by:loose>",
            "(set | make | put | move | bring) finish <by:loose> (higher | up)",
            "finish <by:loose> (higher | up)",
            "(up | go up | bring it up | take it up | put it up | push it up) [by] <by:loose>",
            "(go | make it | take it) <by:loose> (higher | up | thicker | more)",
            "(add | put on) <by:loose> [to finish | more]",
            "<by:loose> higher",
            "finish (up | higher by) <by:loose>",
            "finish <by:loose> (higher | more)",
        ),
    ),
    Phrase(
        "lower finish [by] <by:loose>",
        LowerFinish,
        "finish lower by so much",
        ("lower finish 2 millimetres",),
        _FINISH,
        ways=(
            "(bring | take | put | knock | drop) finish (down | down by) <by:loose>",
            "(it | finish) down [by] <by:loose>",
            "(lower | drop) [it | floor | finish] [by] <by:loose>",
            "(set | make | put | move | bring) finish <by:loose> (lower | down)",
            "finish <by:loose> (lower | down)",
            "(down | go down | bring it down | take it down) [by] <by:loose>",
            "(go | make it | take it) <by:loose> (lower | down | thinner | less)",
            "take off <by:loose>",
            "take <by:loose> off [finish]",
            "<by:loose> lower",
            "finish (down | lower by) <by:loose>",
            "finish <by:loose> (lower | less)",
        ),
    ),
    Phrase(
        "finish level with door <door:whole>",
        FinishAtDoor,
        "finish level with the floor outside a door, as it was read",
        ("finish level with door 1",),
        _FINISH,
        ways=(
            "finish (flush | even | level) (with | to) [floor] [outside] [of | at] door "
            "<door:whole>",
            "finish (at | to) [floor] [outside] [of] door <door:whole>",
            "(level | flush | even) with [floor] outside [of | at] door <door:whole>",
            "(match | pour to | level with | flush with | finish matches) door <door:whole>",
        ),
    ),
    Phrase(
        "finish <over:loose> over highest",
        FinishOverHighest,
        "finish so much over the highest point read",
        ("finish 3 millimetres over the highest",),
        _FINISH,
        ways=(
            "(set | make | put) finish <over:loose> (over | above) highest [point | spot]",
            "finish <over:loose> (over | above) highest [point | spot]",
            "<over:loose> (over | above) highest [point | spot]",
        ),
    ),
    Phrase(
        "finish at highest",
        FinishOverHighest,
        "finish at the highest point read",
        ("finish at the highest",),
        _FINISH,
        ways=(
            "finish (at | to | level with | flush with) highest (point | spot)",
            "(set | make | put) finish (at | to) highest [point | spot]",
        ),
    ),
    Phrase(
        "best finish",
        AskBestFinish,
        "the level finish that takes least material",
        ("best finish",),
        _BEST,
        ways=(
            "where should (i | we) (set | put) finish",
            "what is (right | ideal) (finish | height)",
            "(what is | what's) best (finish | height | level)",
            "(suggest | recommend | find) [a] (finish | height | level)",
            "best (height | level)",
            "what (finish | height | level) should (i | we) (use | take | go for | pour to)",
            "cheapest finish",
        ),
    ),
    Phrase(
        "best plane [within <slope:percent>]",
        AskBestPlane,
        "the same, flat but not level, within a slope",
        ("best plane", "best plane within 0.5 percent"),
        _BEST,
    ),
    Phrase(
        "fall <percent> towards [point] <point>",
        SetFall,
        "the floor is to fall towards a point",
        ("fall 1 percent towards A1",),
        _BEST,
    ),
    Phrase(
        "fix [point] <point> at <height:reading>",
        FixHeight,
        "the finish must meet this height there",
        ("fix C1 at plus 2",),
        _BEST,
    ),
    Phrase(
        "grind [point] <point> [by] <by:loose>",
        Grind,
        "a high spot is to be ground down by so much",
        ("grind C1 by 4 millimetres",),
        _BEST,
        spoken="grind [point] <point> by <by:loose>",
        ways=(
            "grind <by:loose> off [point] <point>",
            "(take | knock) <by:loose> off [point] <point>",
            "(grind down | take down) [point] <point> [by] <by:loose>",
        ),
    ),
    Phrase(
        "grinding options",
        AskGrindingOptions,
        "bags saved against height ground",
        ("grinding options",),
        _BEST,
        ways=(
            "where (do (i | we) | should (i | we) | to) grind",
            "what (do (i | we) | should (i | we) | to) grind",
            "(should (i | we) | do (i | we) need to | is it worth) (grind | grinding) "
            "[anything | anywhere]",
        ),
    ),
    Phrase(
        "lifts",
        AskLifts,
        "the lifts or the mix that deep places take",
        ("lifts",),
        _BEST,
        ways=(
            "how many (lifts | layers | coats of leveller)",
            "(do (i | we) need | in) two (lifts | layers)",
        ),
    ),
)
