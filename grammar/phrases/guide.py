"""Phrases: the guide and its steps."""

from __future__ import annotations

from grammar.commands.guide import (
    AskMore,
    AskWhereAmI,
    AskWhy,
    FinishStep,
    SkipStep,
    StartGuide,
    StepBack,
)
from grammar.phrase import Phrase

_GUIDE = "the guide"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "guide",
        StartGuide,
        "be led through the job from where it stands",
        ("guide",),
        _GUIDE,
        ways=(
            "(guide me | walk me through [it] | lead me | what do (i | we) do [now | "
            "first] | how do (i | we) start | where do (i | we) start | how does this work "
            "| start guide | show me how it's done)",
        ),
    ),
    Phrase(
        "(next step | done)",
        FinishStep,
        "this step is done; on to the next",
        ("next step", "done"),
        _GUIDE,
        spoken="next step",
    ),
    Phrase(
        "step back",
        StepBack,
        "to the step before",
        ("step back",),
        _GUIDE,
        ways=("(previous step | last step | back a step | back one step)",),
    ),
    Phrase(
        "skip because <reason:sentence>",
        SkipStep,
        "on without doing it; the reason is recorded",
        ("skip because the client has tested the slab last week",),
        _GUIDE,
        speakable=False,
    ),
    Phrase(
        "skip step not needed",
        SkipStep,
        "on without doing it: not needed",
        ("skip step not needed",),
        _GUIDE,
        fixed=(("reason", "not needed"),),
    ),
    Phrase(
        "skip step done before",
        SkipStep,
        "on without doing it: done before",
        ("skip step done before",),
        _GUIDE,
        fixed=(("reason", "done before"),),
    ),
    Phrase(
        "skip step told to",
        SkipStep,
        "on without doing it: told to",
        ("skip step told to",),
        _GUIDE,
        fixed=(("reason", "told to"),),
    ),
    Phrase(
        "where am I",
        AskWhereAmI,
        "the step that is open",
        ("where am I",),
        _GUIDE,
        ways=("(which step | what step | what step am i on | which step am i on)",),
    ),
    Phrase(
        "why",
        AskWhy,
        "why the open step matters",
        ("why",),
        _GUIDE,
        ways=("(explain | what for | how come)",),
    ),
    Phrase(
        "more",
        AskMore,
        "what to do in it, in detail",
        ("more",),
        _GUIDE,
        ways=("(more detail | more details | details | go on)",),
    ),
)
