"""What stands on a floor, goes through it, or runs over it."""

from __future__ import annotations

from grammar.slots.slot import Slot, TypedOnly, ValueKind, one_of

_OBSTACLES = {
    "column": ("column", "pillar", "post", "stanchion"),
    "hole": ("hole", "pit"),
    "cabinet": ("cabinet", "cupboard", "counter", "island"),
    "shaft": ("shaft", "duct", "riser", "chimney", "pipe"),
    "opening": ("opening", "penetration"),
}
_LINES = {"drain": ("drain", "gully"), "joint": ("joint",), "crack": ("crack",)}
OBSTACLES = tuple(_OBSTACLES)
_WHY = "a thing has its sizes and its place, five numbers in one breath"


def _words(kinds: dict[str, tuple[str, ...]]) -> dict[str, str]:
    return {word: kind for kind, words in kinds.items() for word in words}


KIND = ValueKind(
    slots=(
        Slot(
            name="obstacle",
            rule="r_obstacle",
            build=lambda kind: kind,
            short=str,
            sample=one_of(_words(_OBSTACLES)),
            aloud=TypedOnly(why=_WHY),
        ),
        Slot(
            name="thing",
            rule="r_obstacle | r_line_thing",
            build=lambda kind: kind,
            short=str,
            sample=one_of(_words({**_OBSTACLES, **_LINES})),
            aloud=TypedOnly(why=_WHY),
        ),
    ),
    roles={"obstacle": _words(_OBSTACLES), "line_thing": _words(_LINES)},
    expected={
        "r_obstacle": "a thing on the floor (like column)",
        "r_line_thing": "a thing on the floor (like column)",
    },
    offered={"obstacle": OBSTACLES, "line_thing": tuple(_LINES)},
    never_unsaid=dict.fromkeys(("obstacle", "line_thing"), "thing"),
)
