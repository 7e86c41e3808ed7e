"""What the rows of ``grammar/phrases/material.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "products": ("material/bag choose/pick/carry/library/hold/stock/know ~which ~may ~you",),
    "product <name>": (
        "using ~bag ~material ~here",
        "bag ~using",
        "material",
        "pouring",
    ),
    "waste <percent>": (
        "waste ~allow ~put ~said",
        "sticks",
    ),
    "aggregate <percent>": ("stones ~put ~mix",),
    "(pour neat | no aggregate)": (
        "none stones ~material ~mix",
        "straight powder",
    ),
    (
        "(bag costs | bags cost | bag price | price a bag) (<amount:number> [<currency>] "
        "| <currency> <amount:number>)"
    ): (
        "bag money ~perbag",
        "perbag ~money ~merchant ~off",
        "budgeted perbag",
    ),
    "weight": (
        "weight amount/floor/everything/add/what/joists/material/bag ~amount ~floor ~pour ~add "
        "~structural ~material ~joists ~bag ~everything",
    ),
    "order [[at] risk <risk:percent>]": (
        "order amount/bag/best/what ~risk ~may ~safe",
        "amount bag order",
    ),
}
