"""What the rows of ``grammar/phrases/zones.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "zones": ("zone show/list/which/what/have ~all ~floor",),
    "<name:named_zone> <first:point> to <last:point>": (
        (
            "is/goes/runs/call/make/from/zone/name/covers ~is ~zone ~from ~goes ~runs ~make "
            "~call ~room ~area ~called"
        ),
    ),
    "<name:named_zone> rows <first:whole> to <last:whole>": (
        "rowword ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "<name:named_zone> row <first:whole>": (
        "rowword ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "<name:named_zone> columns <first:column> to <last:column>": (
        "columnword ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "<name:named_zone> column <first:column>": (
        "columnword ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "<name:named_zone> left of <first:point> to <last:point>": (
        "left ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "<name:named_zone> right of <first:point> to <last:point>": (
        "right ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "<name:named_zone> above <first:point> to <last:point>": (
        "above ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "<name:named_zone> below <first:point> to <last:point>": (
        "below ~is ~zone ~from ~goes ~runs ~make ~call ~set ~part ~area ~called ~room",
    ),
    "drop <name:named_zone>": (
        "strike ~zone",
        "no zone",
        "no_longer zone",
    ),
    "finish in <zone> <height:reading>": ("finish ~zone ~set ~want ~make ~put ~in ~is",),
    "in <zone> product <name>": (
        "using ~material ~zone ~in",
        "material/bag ~zone ~in",
    ),
    "what if stop at column <column>": (
        "amount bag columnword ~up_to ~far ~get ~as_far",
        "stop/only columnword ~pour ~at ~suppose ~amount",
        "pour up_to/as_far columnword",
    ),
    "what if stop at row <row:whole>": (
        "amount bag rowword ~up_to ~far ~get ~as_far",
        "stop/only rowword ~pour ~at ~suppose ~amount",
        "pour up_to/as_far rowword",
    ),
    "what if stop half way": ("stop/only/pour half_way/halfway/part_way/half ~pour ~floor ~of",),
}
