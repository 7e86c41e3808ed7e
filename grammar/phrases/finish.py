"""Phrases: the finished height: set, or found as the one that suits the floor best."""

from __future__ import annotations

from grammar.commands.finish import (
    AskBestFinish,
    AskBestPlane,
    AskGrindingOptions,
    AskLifts,
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
    ),
    Phrase(
        "raise finish [by] <by:loose>",
        RaiseFinish,
        "finish higher by so much",
        ("raise finish 3 millimetres", "raise the finish by 1/8 in"),
        _FINISH,
    ),
    Phrase(
        "lower finish [by] <by:loose>",
        LowerFinish,
        "finish lower by so much",
        ("lower finish 2 millimetres",),
        _FINISH,
    ),
    Phrase(
        "best finish",
        AskBestFinish,
        "the level finish that takes least material",
        ("best finish",),
        _BEST,
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
    ),
    Phrase(
        "grinding options",
        AskGrindingOptions,
        "bags saved against height ground",
        ("grinding options",),
        _BEST,
    ),
    Phrase(
        "lifts",
        AskLifts,
        "the lifts or the mix that deep places take",
        ("lifts",),
        _BEST,
    ),
)
