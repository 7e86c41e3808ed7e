"""What the rows of ``grammar/phrases/depths.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "how deep (at | is) [point] <point>": (
        "thick ~amount ~material ~pour ~on ~expect ~want ~get",
        "amount on ~material ~pour",
        "amount goes/go/top",
        "amount/show/like there",
        "material there amount/how_much",
    ),
    "how deep at <first,second:pair>": (
        "thick ~amount ~material ~pour ~corner/along/across ~on",
        "amount takes/take ~corner/along",
        "amount there ~corner/along",
    ),
    "cut list": (
        "pin cut/amount/all/show/list/heights/what ~cut ~amount ~show ~every",
        "cut list/schedule/all",
    ),
    "cut for [point] <point>": (
        "pin ~cut ~amount ~high",
        "cut ~amount",
    ),
    "high spots": (
        "high ~where ~show ~floor ~too ~may",
        "where high",
        "areas high",
    ),
    "low spots": (
        "low ~where ~show ~floor ~too",
        "where low",
        "where down/dips",
        "areas/where most fill/material",
    ),
    "hidden high spots": (
        "hidden high ~point ~may ~risk",
        "high hidden",
        "hidden high risk",
        "between high ~risk",
        "high risk not",
        "hidden humps",
    ),
    "where next": (
        "where/best another measure ~best ~most",
        "best another measure/point ~where",
        "where best measure",
        "another most_good/teach/most_informative",
    ),
    "enough": (
        "enough measure ~point ~places",
        "stopnow measure",
        "may stopnow measure",
        "left need measure more",
        "need any_more measure",
    ),
}
