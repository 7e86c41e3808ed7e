"""What the rows of ``grammar/phrases/overview.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "tally": (
        "tally ~show ~floor ~all ~amount ~where",
        "main numbers",
        "how overall doing",
    ),
    "(what is | what's) missing": (
        "missing ~you ~left ~need ~what",
        "what left you need",
        "what else need",
        "what not told/given/shot",
        "left survey/done ~what",
    ),
    "(what is | what's) missing (on | of) slab": (
        "missing before ~measure ~survey",
        "forgot before",
    ),
    "warnings": (
        "wrong ~floor ~may ~what ~show !door !readings !survey",
        "outside limits",
    ),
    "cautions": (
        "safety material/again/what/mixing/stuff/rules/need/show ~tell ~again",
        "careful material/powder/dust",
    ),
    "map": (
        "map ~show ~floor ~thick ~up",
        "show floor thick",
    ),
    "map of slab": ("map before ~floor",),
}
