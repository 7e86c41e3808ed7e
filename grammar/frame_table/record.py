"""What the rows of ``grammar/phrases/record.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "what was [at | point | read at] <point>": (
        "reading ~what ~show ~for ~you",
        "what come/came ~in",
        "what got/get/say/said/read/put",
    ),
    "last reading": (
        "last reading ~you ~hear ~gave ~show",
        "last hear/heard/gave/give ~you",
    ),
    "last <count:whole> readings": ("last reading ~show ~gave ~which",),
    "changes": (
        "change show/what/which/list ~job ~made",
        "change today",
    ),
    "last <count:whole> changes": ("last change ~show",),
    "record": (
        "record everything/where/all/phone/is ~lose",
        "lose phone/power/battery dies/die",
    ),
}
