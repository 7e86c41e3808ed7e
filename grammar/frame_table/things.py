"""What the rows of ``grammar/phrases/things.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "crack [point] <start:point> to [point] <end:point>": ("crack ~floor ~slab ~across",),
    "crack at [point] <start:point>": ("crack ~floor ~slab ~found",),
    "crack <number:whole> repaired": ("crack repaired",),
    "crack repaired": ("crack repaired",),
    "opening <number:whole> plugged": ("opening plugged",),
    "opening plugged": ("opening plugged",),
    "drain at [point] <point> <height:reading>": ("drain",),
    "joint [point] <start:point> to [point] <end:point>": ("joint ~running",),
    "obstacles": (
        "thingword what/any/told/tell/noted/where/which/got/marked/down/have ~did ~again",
        "thingword list/show",
        "obstacle floor/show/in_the_way/told/registered ~floor ~show",
        "fixed item",
        "obstacle what/show/list/any/told",
        "in_the_way what/anything/got",
        "standing_on what ~floor",
        "stands floor what",
        "columns list/what",
        "standing_on floor what !you",
    ),
}
