"""What the rows of ``grammar/phrases/site.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "floor is <substrate>": ("underfoot timber/concretefloor/screed/tiled ~everything",),
    "air <temperature> [at [point] <point>]": (
        "air temperature ~wall",
        "air reading/says/got",
        "temperature here",
    ),
    "slab <temperature> [at [point] <point>]": (
        "slab temperature",
        "slab reading/says/got",
        "thermometer floor",
    ),
    "humidity <percent> [at [point] <point>]": (
        "humid ~air",
        "damp air",
        "air humid",
    ),
    "slab humidity <percent> [at [point] <point>]": (
        "slab humid",
        "hole ~humid ~slab ~floor ~down",
        "slab moisture",
    ),
    "moisture emission <rate:number> [at [point] <point>]": ("emission ~moisture ~test ~result",),
    "ph <value:number> [at [point] <point>]": ("ph ~slab ~paper ~strip",),
    "site": (
        "climate show/what/record/which ~air ~floor ~noted",
        "temperatures damp/humidity",
        "climate figures/conditions ~air",
        "climate reading",
        "air like",
    ),
    "dew point": (
        "dew ~slab ~may ~close ~on",
        "damp air floor wet/settle",
    ),
    "drying time <thickness:length>": ("howlong dry ~slab ~amount",),
    "is slab dry": (
        "dry slab ~enough ~may",
        "dried ~enough",
        "slab moisture come_down/ok/sufficiently",
        "dry enough",
    ),
    "ready to pour": (
        "pour ready ~may ~reason ~today ~anything",
        "ready pour",
        "green_light",
        "may pour",
    ),
    "hose on [floor]": ("hose down_now ~floor",),
    "primer on [floor]": (
        "primer down_now ~floor ~done",
        "primer done",
    ),
    "water in": (
        "bag/mix/bucket mixed ~first",
        "water bag added/first",
    ),
    "pour finished": (
        "pour done ~floor ~last !start",
        "last bucket/bag/mix done/down/poured",
        "that's_us down",
    ),
    "clocks": (
        "clocks ~what ~show ~active ~running",
        "primer getting_on",
    ),
    "accept weight because <words:sentence>": ("acceptance weight/load",),
    "accept jambs because <words:sentence>": ("acceptance frames/jambs/door",),
    "accept range because <words:sentence>": ("acceptance range",),
    "accept zero because <words:sentence>": ("acceptance zero",),
    "accept readings because <words:sentence>": ("acceptance readings/survey/old",),
    "accept moisture because <words:sentence>": ("acceptance moisture/damp",),
    "accept adhesive because <words:sentence>": ("acceptance adhesive/glue",),
}
