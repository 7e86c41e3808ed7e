"""What the rows of ``grammar/phrases/doors.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    ("door <door:whole> left <left:reading> right <right:reading> [outside <outside:reading>]"): (
        "door leftside rightside ~outside ~like",
        "leftside rightside",
    ),
    "door <door:whole> outside <outside:reading>": (
        "door outside ~floor",
        "outside ~floor",
    ),
    "door <door:whole> at [point] <point>": ("door closest/at/by ~point",),
    "how is door <door:whole>": (
        "door like/show/stepword ~step ~what ~much",
        "door step",
    ),
    "doors": (
        "door like/compare/show/true/out/ok/alright ~wrong ~each ~stepword",
        "out_of_true door",
        "door like each",
        "door stepword",
    ),
    "doors of slab": ("door before ~like ~condition",),
    "doorway step limit <most:length>": (
        "door/stepword steplimit ~stepword ~door",
        "door step",
    ),
    "no doorway step limit": ("none stepword/door steplimit",),
    "usual doorway step limit": ("usual stepword/door ~steplimit ~door",),
}
