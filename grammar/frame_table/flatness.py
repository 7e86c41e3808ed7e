"""What the rows of ``grammar/phrases/flatness.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "flatness": (
        "how flat ~floor ~is",
        "f_numbers/ff/fl/f-numbers/f_number ~what ~floor ~amount",
        "flatness_numbers/flatness_figures/flatness ~what ~show ~floor",
        "how level floor ~is",
        "flat/level how ~floor ~pour",
    ),
    "straightedge [<length>]": (
        "gapword edgeword ~most ~under ~largest ~what ~biggest",
        "straightedge ~under ~lay ~put ~floor ~on ~what",
        "straight_edge ~under ~lay ~put ~floor ~on ~what",
        "most gapword ~under",
    ),
    "spec <gap:length> under <length>": (
        "limits ~under ~in ~hold ~set ~is ~over ~edgeword",
        "hold/within ~floor ~to ~under ~in ~over",
        "flat within/under ~edgeword ~must",
    ),
    "verdicts": (
        "in spec/tolerance",
        "are_we spec/tolerance/limits",
        "passes limits ~floor",
        "flat passes ~floor ~enough",
        "may/does/will/is floor pass/passes",
        "does pass ~it",
        "flat_enough/level_enough ~floor",
        "verdict/verdicts",
        "within tolerance/limits/spec",
        "out_of tolerance/spec",
    ),
    "specs": (
        "limits which/list/show/what/know ~may ~you ~have ~floor !pass !passes !door !step",
        "limits available",
    ),
    "drop specs": ("limits takeaway ~all",),
    "scan": ("scanword ~show ~map ~see ~like ~what ~points",),
    "drop scan": ("scanword takeaway",),
}
