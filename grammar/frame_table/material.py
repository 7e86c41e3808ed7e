"""What the rows of ``grammar/phrases/material.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "order <zone>": ("order ~amount ~bag ~zone ~what ~may",),
    "order <zone> risk <risk:percent>": ("order risk ~amount ~bag ~zone ~what ~may",),
    "products": (
        "card min/max/minimum/maximum/thickness/limits/least/most ~what",
        "card what/says",
        "material/bag choose/pick/carry/library/hold/stock/know ~which ~may ~you",
        "material which/what/list/know/have",
        "material choose",
        "cards which/what/list/have",
        "powders which/what/list",
        "material which/what using/use/down/on ~we",
        "about card/product/material",
        "tell card/product",
    ),
    "product <name>": (
        "using ~bag ~material ~here",
        "bag ~using",
        "material",
        "pouring",
        "using",
        "bag",
        "laying ~we ~it",
        "on",
    ),
    "waste <percent>": (
        "waste ~allow ~put ~said",
        "sticks",
        "waste ~allow ~put",
        "lost/loss ~gets ~allow ~figure",
    ),
    "no waste": ("none waste ~allow ~leave_out",),
    "aggregate <percent>": (
        "stones ~put ~mix",
        "stones ~put ~mix ~add",
    ),
    "(pour neat | no aggregate)": (
        "none stones ~material ~mix",
        "straight powder",
        "none stones",
        "no stones",
        "stones out/away",
    ),
    (
        "(bag costs | bags cost | bag price | price a bag) (<amount:number> [<currency>] | "
        "<currency> <amount:number>)"
    ): (
        "bag money ~perbag",
        "perbag ~money ~merchant ~off",
        "budgeted perbag",
    ),
    "weight": (
        (
            "weight amount/floor/everything/add/what/joists/material/bag ~amount ~floor ~pour "
            "~add ~structural ~material ~joists ~bag ~everything"
        ),
        "weight what/how/amount/total ~floor",
        "how_heavy",
        "weight floor",
        "kilos/pounds amount ~floor ~add",
        "load floor ~what",
        "weigh it/this/all/that",
        "what_weight/how_much_weight ~material ~coming ~all",
    ),
    "order [[at] risk <risk:percent>]": (
        "order amount/bag/best/what ~risk ~may ~safe",
        "amount bag order",
        "amount bag risk",
        "order risk",
        "bag order",
        "amount bag order ~may",
        "what_quantity order",
        "how_many order",
    ),
}
