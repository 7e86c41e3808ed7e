"""What the rows of ``grammar/phrases/readings.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "correct [point] <point> [to] <reading>": ("correct ~reading ~want",),
    "strike [point] <point>": ("strike ~reading",),
    "readings in <unit:reading_unit>": (
        "units inch/mm",
        "units",
        "unit",
    ),
    "readings": (
        "show/amount reading ~left",
        "reading ~measure so_far",
        "everything measure/reading",
        "full/whole/all reading",
    ),
    "readings of slab": (
        "reading/measure before",
        "numbers before",
        "reading slab before",
    ),
    "next point": (
        "where next ~measure ~point",
        "next point ~measure ~which",
        "where measure",
        "staff where/next",
        "which next point/measure",
    ),
    "hold": (
        "same number/spot/point/reading",
        "again same",
    ),
}
