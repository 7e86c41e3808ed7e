"""
Words that mean the same, for a line that no phrase takes; one table, to be read and added to.

It widens nothing that the phrase table takes: it only says what an unlisted line is about.
"""

from __future__ import annotations

KINDRED: dict[str, str] = {
    "bags": "sack sacks powder",
    "left": "still remaining remain outstanding",
    "points": "spots",
    "litres": "liters",
    "primer": "primed priming undercoat coat",
    "mix": "mixed mixing stir stirring batch bucket",
    "mixing": "mix stir stirring",
    "depth": "deep thick thickness",
    "deep": "depth thick thickness",
    "mean": "average typical",
    "deepest": "lowest thickest maximum max",
    "thinnest": "highest shallowest minimum min",
    "high": "hump bump hill ridge",
    "low": "hollow dip dent sunk",
    "area": "size big large square",
    "volume": "cubic",
    "missing": "lacking lack outstanding forgotten unread",
    "finished": "done ended complete completed",
    "readings": "measurements measured shots heights values",
    "reading": "measurement shot height value",
    "weight": "weigh heavy load kilos tonnes carry",
    "cost": "price expensive dear budget money pay spend",
    "costs": "price",
    "time": "when long hours minutes o'clock",
    "traffic": "walk tread",
    "covering": "tile tiler tiling cover carpet parquet",
    "cut": "cutting pin pins",
    "map": "plan drawing draw picture sketch",
    "tally": "summary totals sum overview status",
    "warnings": "wrong problem issue trouble alarm worry concern",
    "strike": "delete remove erase wipe rub bin discard",
    "correct": "change amend adjust alter fix",
    "raise": "lift higher thicker increase bump nudge",
    "lower": "reduce decrease thinner drop",
    "best": "ideal optimum optimal cheapest",
    "order": "buy purchase",
    "door": "doorway",
    "product": "material compound bag",
    "waste": "wastage loss waist",
    "grind": "grinding ground sand sanding",
    "grinding": "grind sand sanding",
    "lifts": "layers",
    "drying": "dry dried cure cured",
    "dry": "dried cured cure",
    "moisture": "damp moist wet",
    "clocks": "timers",
    "humidity": "humid rh",
    "air": "temperature temp",
    "hidden": "unseen missed hiding",
    "step": "ledge lip",
    "steps": "ledges lips",
    "grid": "spacing apart",
    "enough": "sufficient short",
    "help": "assistance explain examples",
    "difference": "different",
    "slope": "gradient steep steepness incline",
    "note": "remark comment",
    "changes": "changed",
    "record": "log recorded",
    "reference": "laser tripod instrument",
    "moved": "bumped knocked kicked shifted slipped fell",
    "working": "pot",
    "ratio": "proportion",
    "room": "measures measure",
}
"""
A word of phrases -> others that people say for it.

Only that way round: "higher" may mean "raise", but "raise" is not about which of two is higher.
"""

THINGS = frozenset("floor room job slab side back".split())
"""Words that say little in a question, and much where something is to be done."""

SLIGHT = frozenset(
    """
    point place spot bit thing stuff need want get take here there all now amount number put set
    make find calculate figure count display print pull go goes going do use using whole entire
    work screen please got new old turn keep bring list total overall see check
    bits start begin people someone length gone quantity lot fetch roughly exactly left far first
    """.split()
)
"""Words that say little of what a line is about."""

IDLE = frozenset(
    """
    a an the i i'm i've i'd i'll me my myself we we're we've us our you you're your it it's its
    he him his she her they them their this that these those there's here's
    am is are was were be been being do does did doing have has had having can could shall
    should will would may might must let's
    and or but so if then than as of at on in into to for from by with about around over
    what what's which who whose where where's why how how's much many
    not any some no yes ok okay please just only really actually maybe perhaps also ever
    up down over under out off again more most now onto through right well tell show give say see
    know look like want
    one's lot lots kind sort way today anyway per each every
    """.split()
)
"""Words of grammar, which tell one matter from another least of all."""

DENIALS = frozenset(
    """
    no not don't dont do'nt didn't doesn't won't wouldn't isn't aren't wasn't weren't can't cannot
    couldn't shouldn't haven't hasn't hadn't never without neither nor no-one nobody nothing stop
    ignore unless instead except
    """.split()
)
"""A line that holds one of these may mean the opposite of what its words are about."""

TOLD = frozenset(
    """
    yesterday tomorrow ago last earlier said says saying told tells tell thought thinks think
    believe guess reckon heard remember he she they him her his them their wife boss's brother
    had was were been used would've should've could've suppose hope wish maybe perhaps probably
    morning monday tuesday wednesday thursday friday saturday sunday week month year guy guys bloke
    lads client customer neighbour
    because cause since while until although though
    """.split()
)
"""Words of somebody telling something, rather than asking or ordering it."""

ASKING = frozenset(
    """
    what what's which who whose when where where's why how how's is are am do does did can could
    will would should shall may any have has was were
    """.split()
)
"""A line that begins with one of these asks; it orders nothing."""
