"""Words of grammar and of telling: what they say of a line, and not what it is about."""

from __future__ import annotations

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
