"""What the rows of ``grammar/phrases/room.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "room <first,second:pair>": (
        "roomword size",
        "roomword",
        "size",
        "room",
        "times",
    ),
    "wall <direction> <length>": (
        "wall",
        "runs/goes/heads",
    ),
    "close room": (
        "close ~wall",
        "back begin/start/began ~outline ~wall ~close",
        "wall everything/every ~back",
    ),
    "grid <first:length> [starting [at | from] <starting:length>]": (
        "point at",
        "spacing change/make/set",
        "grid ~point ~every",
        "point every/apart ~measure",
        "pin apart/every",
        "distance point ~between",
        "grid",
        "point apart/every/distance ~put",
        "spacing",
    ),
    "grid <first,second:pair> [starting [at | from] <starting:length>]": ("grid ~point",),
    "point <point> at <first,second:pair>": (
        "extra point/pin",
        "point along",
    ),
}
