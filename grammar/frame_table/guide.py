"""What the rows of ``grammar/phrases/guide.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "guide": (
        "guide ~new ~may ~floor",
        "new guide",
        "bit_by_bit",
    ),
    "(next step | done)": (
        "nextstep stage/done/what/now",
        "had_that what/after",
        "stage done next/after",
        "finished told_me/what_you what_next/after/what",
        "stage next",
        "done next after",
    ),
    "step back": (
        "stage back ~show ~missed",
        "back stage again",
    ),
    "skip step not needed": (
        "stage not apply/needed/need",
        "stage doesn't_apply/not_apply/unnecessary",
    ),
    "skip step done before": (
        "stage done before/yesterday/already/previously/earlier",
        "already done/carried_out ~before",
    ),
    "skip step told to": ("stage told/instructed skip/omit/leave ~not",),
    "where am I": (
        "stage which/where/what ~are_we ~procedure ~on",
        "what doing moment/now",
        "supposed_to be_doing",
        "meant_to doing",
    ),
    "why": (
        "why stage ~do ~this",
        "why doing/this",
    ),
    "more": (
        "more stage ~you",
        "stage explain ~more",
    ),
    "skip because <reason:sentence>": ("skipstep ~stage",),
}
