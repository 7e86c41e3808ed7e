"""
Words that mean the same, for a line that no phrase takes; one table, to be read and added to.

It widens nothing that the phrase table takes: it only says what an unlisted line is about.
"""

from __future__ import annotations

KINDRED: dict[str, str] = {
    "bags": "sack sacks powder bagged tubs units",
    "left": "still remaining remain outstanding unshot haven't",
    "points": "spots shots locations stations dots places",
    "litres": "liters volume ltrs ltr l",
    "primer": "primed priming undercoat coat sealer prime coats bonding sbr",
    "mix": (
        "mixed mixing stir stirring batch bucket paddle whisk whisking stirred beat blend "
        "blended churn gauge"
    ),
    "mixing": (
        "mix stir stirring mixer paddle paddling whisk whisking stirred mixed beat "
        "beating churn blend blending"
    ),
    "depth": "deep thick thickness build buildup build-up fill filling thik deapth thikness",
    "deep": "depth thick thickness build buildup fill filling",
    "mean": "average typical avg averaged",
    "deepest": "lowest thickest maximum max greatest biggest worst bottom heaviest fattest",
    "thinnest": "highest shallowest minimum min least skinniest tightest slimmest leanest",
    "high": (
        "hump bump hill ridge humps bumps lump lumps proud peak peaks mound crown belly swell"
    ),
    "low": (
        "hollow dip dent sunk hollows dips bellies belly puddle puddles birdbath sag sags "
        "sink sinks bowl hole deep"
    ),
    "area": "size big large square metreage footage surface sqm m2 yardage",
    "volume": "cubic cube cubes capacity",
    "missing": (
        "lacking lack outstanding forgotten unread omitted short incomplete gaps forgot "
        "overlooked skipped"
    ),
    "finished": "done ended complete completed over",
    "readings": (
        "measurements measured shots heights values hights levels numbers measurement "
        "measures spot figures data"
    ),
    "reading": "measurement shot height value number level",
    "weight": "weigh heavy load kilos tonnes carry weighs loads loading tons heaviness mass joists",
    "cost": "price expensive dear budget money pay spend spending damage quid cash outlay bill set",
    "costs": "price",
    "time": "when long hours minutes o'clock clock",
    "traffic": "walk tread walkable boots foot feet walking stand access",
    "covering": (
        "tile tiler tiling cover carpet parquet covers tilers vinyl lino laminate flooring "
        "lay laying wood boards"
    ),
    "cut": "cutting pin pins trim trimmed snip saw peg pegs",
    "map": "plan drawing draw picture sketch diagram layout image chart view",
    "tally": (
        "summary totals sum overview status headline headlines figures recap "
        "tot snapshot lowdown gist progress digest brief"
    ),
    "warnings": (
        "wrong problem issue trouble alarm worry concern problems issues worried concerns "
        "fretting bother alert attention dodgy"
    ),
    "strike": (
        "delete remove erase wipe rub bin discard scrap disregard lose ditch scratch chuck "
        "kill bust disregarded void"
    ),
    "correct": "change amend adjust alter fix revise edit rectify update swap wrong",
    "raise": "lift higher thicker increase bump nudge bring",
    "lower": "reduce decrease thinner drop shave sink bring",
    "best": (
        "ideal optimum optimal cheapest recommend recommended suggest suggested economic "
        "economical economy cheap smartest"
    ),
    "order": "buy purchase procure procurement ordering bought",
    "door": "doorway doorways doors threshold entrance",
    "product": "material compound bag brand type",
    "waste": "wastage loss waist losses lost spill spills spillage sticks allowance",
    "grind": "grinding ground sand sanding sanded shave plane planing abrade grinder",
    "grinding": "grind sand sanding grinder planing abrading",
    "lifts": "layers layer lift passes hits pours stages coats",
    "drying": "dry dried cure cured curing",
    "dry": "dried cured cure dryed drying moisture damp",
    "moisture": "damp moist wet wetness",
    "clocks": "timers timer clock ticking running countdown stopwatch",
    "humidity": "humid rh",
    "air": "temperature temp room ambient",
    "hidden": "unseen missed hiding undetected unnoticed undiscovered lurking buried",
    "step": "ledge lip lips drop trip",
    "steps": "ledges lips drops",
    "grid": "spacing apart spaced centres centers",
    "enough": "sufficient short suffice plenty adequate satisfied dense density",
    "help": "assistance explain examples commands command vocabulary",
    "difference": "different compare compared fall drop",
    "slope": "gradient steep steepness incline falling slant tilt pitch",
    "note": "remark comment jot memo",
    "changes": "changed amendments altered edits edited amended modifications alterations modified",
    "record": "log recorded saved save stored backup file kept",
    "reference": "laser tripod instrument level staff kit",
    "moved": "bumped knocked kicked shifted slipped fell booted nudged disturbed tripped toppled",
    "working": "pot workable open usable runny flow flows live goes",
    "ratio": "proportion dosage dose rate",
    "room": "measures measure",
    "point": "spot location shot",
    "liters": "litres",
    "water": "watter h2o liquid wet",
    "powder": "stuff compound",
    "thickness": "depth build buildup deep",
    "thick": "deep depth build buildup",
    "average": "mean typical avg",
    "highest": "tallest proudest topmost uppermost",
    "lowest": "deepest bottom",
    "humps": "bumps lumps peaks mounds",
    "heavy": "weighty",
    "walk": "tread step stand foot feet",
    "tile": "tiles tiler tilers",
    "pins": "pegs pin peg dowels markers gauge",
    "pin": "peg dowel marker",
    "list": "schedule sheet lengths",
    "summary": "overview recap brief digest rundown",
    "cautions": ("safety danger dangers hazard hazards dust ppe precautions safe gloves mask"),
    "finish": "top",
    "doors": "doorways thresholds frames jambs door openings frame",
    "jambs": "frames frame jamb lining linings",
    "products": "cards materials brands compounds types library",
    "aggregate": "stone stones shingle pebbles pea gravel chippings grit",
    "layers": "lifts passes hits goes",
    "timers": "timer countdown",
    "climate": "temps temperatures weather conditions",
    "site": "conditions climate temps temperatures",
    "dew": "condensation condense sweat sweating",
    "fall": "slope drain run",
    "notes": "remarks comments jottings memos",
    "saved": "kept stored safe backed",
    "next": "following after then upcoming",
    "last": "latest newest recent previous",
    "plan": "sequence programme program schedule",
    "strips": "bays bay strip",
    "ready": "clear clearance cleared permitted allowed green",
    "stopping": "preventing holding blocking delaying hindering",
    "survey": "measuring readings shots measurements",
    "check": "trust reliable relied accurate rely quality sound",
    "obstacles": "pillars objects items columns",
    "hold": "same unchanged",
    "staging": "stage stack stacked placed stand",
    "guide": "steps procedure process lead walk newbie new",
    "why": "reason purpose point",
    "more": "detail details explain elaborate further fully",
    "plane": "sloping sloped flat tilted slanting",
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
    fine bits start begin people someone length gone quantity lot fetch roughly exactly left far
    first
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
    stop stopped couldn't shouldn't haven't hasn't hadn't never without neither nor no-one nobody
    nothing ignore unless instead except
    """.split()
)
"""A line that holds one of these may mean the opposite of what its words are about."""

TOLD = frozenset(
    """
    yesterday tomorrow ago last earlier said says saying told tells tell thought thinks think
    believe guess reckon heard remember he she they him her his them their wife boss's brother
    had was were been used would've should've could've suppose hope wish maybe perhaps probably
    morning monday tuesday wednesday thursday friday saturday sunday week month year guy guys bloke
    lads client customer neighbour lose lost
    because cause since while until although though
    """.split()
)
"""Words of somebody telling something, rather than asking or ordering it."""

MAY_BE_ASKED = frozenset(
    "was were had been last he they she them her think thinks reckon believe guess perhaps maybe "
    "probably used year week tomorrow morning because".split()
)
"""Those of them that a question may hold, too."""

ASKING = frozenset(
    """
    what what's which who whose when where where's why how how's is are am do does did can could
    will would should shall may any have has was were
    """.split()
)
"""A line that begins with one of these asks; it orders nothing."""
