"""What the rows of ``grammar/phrases/overview.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "tally <zone>": (
        "amount bag/material ~zone ~take ~need ~go ~for ~in",
        "tally ~zone ~for",
        "what/amount take/need/come_to ~zone ~does",
        "how look/looking/doing ~zone",
    ),
    "tally": (
        "tally ~show ~floor ~all ~amount ~where",
        "main numbers",
        "how overall doing",
        "tally ~give ~like ~how",
        "where that leave",
        "numbers look",
        "how everything/things/numbers look/looking/stand",
        "big_picture/full_picture/whole_picture",
        "what come_to ~all",
        "current_state",
        "up_to_speed/fill_me_in",
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
        "wrong anything/what/any ~should",
        "anything wrong ~up ~with",
        "anything worried",
        "should worried",
        "look_out ~for",
        "careful_about what",
    ),
    "cautions": (
        "safety material/again/what/mixing/stuff/rules/need/show ~tell ~again",
        "careful material/powder/dust",
        "safety what/do/how/any/tell ~dust ~you ~stuff",
        "dust what/careful/watch/about",
        "gloves/mask/goggles need/do/should",
        "bad_for you/me",
        "stay_safe",
    ),
    "map": (
        "map ~show ~floor ~thick ~up",
        "show floor thick",
        "what floor like",
        "look floor/from_above",
        "see from_above",
        "show/draw floor",
        "map show/draw/see/look/have/get/want",
        "sketch it",
        "floor looks_like",
    ),
    "map of slab": ("map before ~floor",),
}
