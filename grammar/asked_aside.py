"""
What a question says beside what it asks for: a row of the floor, a unit, a limit, a place by words.

"What have you got for row A" is answered with all readings, "average depth in inches" with the
average depth: the answer holds what was asked for. Where a place is named by what stands there,
"by the window", the point is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_LINE = re.compile(
    r"\ (?:for|in|of|from|on|along|all\ of|across)?\ ?(?:row|column|line)\ (?:[a-z]{1,2}|\w+)$"
)
_OF_READINGS = re.compile(r"\b(?:got|have|read|reads?\ back|back|down)$")
_UNIT = re.compile(
    r"\ in\ (?:inches|millimetres|mm|mil|cm|centimetres|metres|feet|square\ (?:feet|metres)|litres"
    r"|gallons|quarts|kilos|kg|pounds|tonnes|percent|euros|dollars|pounds|money|bags\ of\ money)$"
)
_THESE = re.compile(
    r"\ (?:at|in|with|for)\ (?:this|these|that|today|today's|current)\ ?(?:temperatures?|heat"
    r"|cold|weather"
    r"|conditions?)?$"
    r"|\ (?:with|including|and|incl|plus)\ (?:the\ )?waste(?:\ (?:in|included|on|on\ top))?$"
    r"|\ (?:in|for)\ (?:this|my|our|whole|entire)\ (?:room|job|floor|house|place)$"
    r"|\ to\ (?:be\ (?:safe|sure)|know)$"
)
_ZONE = re.compile(r"\ (?:in|for|of)\ (?:zone\ \w+|\w+\ (?:zone|part|bit|area))\b")
_OF_POINTS = re.compile(r"\b(?:left|missing|read|readings|points|done|outstanding|to\ go)\b")
_BEYOND = re.compile(
    r"^(?:is\ there\ |are\ there\ |have\ we\ |do\ we\ have\ )?(?:any|anything|anywhere|any\ points?"
    r"|any\ places?|any\ spots?|anyplace|which\ points?|which\ ones?|what|where|where\ is\ it"
    r"|what\ is"
    r"|what\ points?|how\ many\ points?|does\ anything\ go)(?:\ (?:are|is|goes|go|be|come|comes))?"
    r"\ (?P<side>under|below|less\ than|thinner\ than|shallower\ than|over|above|more\ than"
    r"|deeper\ than|thicker\ than|past|beyond)\ [\w.]+(?:\ [a-z]+)*$"
)
_WATER_FOR = re.compile(r"\b(?:water|litres)\b.*\b(?:for|in|to|with|into)\ [\w. ]+\ bags?$")


def without_what_is_beside(line: str) -> Iterator[str]:
    """
    A question without what it says beside what it asks for, or as it is asked of the whole floor.

    >>> list(without_what_is_beside("what have you got for row a"))
    ['show readings']
    >>> list(without_what_is_beside("average depth in inches"))
    ['average depth']
    >>> list(without_what_is_beside("any points over 15 deep"))
    ['deepest']
    """
    if found := _BEYOND.match(line):
        thin = found["side"].split()[0] in ("under", "below", "less", "thinner", "shallower")
        yield "thinnest" if thin else "deepest"
        return
    if _WATER_FOR.search(line):
        yield "water a bag"
        return
    if line.startswith(("readings in", "units", "work in", "switch")):
        return  # the unit is what is said
    less = line
    for pattern in (_UNIT, _THESE):
        less = pattern.sub("", less)
    if less != line and less:
        yield less
    if _LINE.search(less):
        of_all = _LINE.sub("", less)
        if of_all:
            yield "show readings" if _OF_READINGS.search(of_all) else of_all
    if _ZONE.search(less) and _OF_POINTS.search(less):
        yield _ZONE.sub("", less)


_PLACES = (
    r"(?:window|windows|corner|wall|stairs|staircase|sink|fireplace|hearth|radiator|middle|centre|center"
    r"|end|back|front|entrance|patio|step|toilet|bath|shower|cupboard|fridge|cooker|boiler|pillar|alcove"
    r"|bay|hall|hallway|landing|porch|skirting|edge|side|left|right|door|doorway|threshold|drain|column)"
)
_PLACE = re.compile(
    rf"\ (?:by|near|at|in|next\ to|beside|under|below|behind|over\ by|along|against|to|over\ in"
    rf"|around|round"
    rf"|in\ front\ of|opposite|close\ to|over)\ (?:that\ |my\ |this\ |far\ |left\ |right\ "
    rf"|back\ |front\ |other\ "
    rf"|near\ |north\ |south\ |east\ |west\ |window\ |kitchen\ )*{_PLACES}(?:\ (?:wall|side|end"
    rf"|there))?\b"
)
_THERE = re.compile(r"\ (?:over\ |right\ |just\ )?(?:there|here)$")
_ABOUT_A_POINT = re.compile(
    r"^(?:and\ |so\ )?(?:what|how|is|delete|remove|strike|skip|leave|go|move|jump|bin|drop"
    r"|change|correct"
    r"|mark|put|there|crack|cracks|drain|slope|gradient|fall|difference|depth|cut|pin|reading|thickness"
    r"|where|read|show|tell|was)\b"
)
_OF_A_POINT = re.compile(
    r"\b(?:was|is|reading|deep|deepth|depth|thick|one|spot|point|crack|cracks?|cracked|drain|slope|gradient|fall"
    r"|difference|cut|pin|low|high|skip|go|move|jump|delete|remove|strike|okay|ok|right|good|wrong|off)\b"
)


def names_a_place(line: str) -> bool:
    """
    Whether a line is about a point that it names by what stands there.

    >>> [names_a_place(line) for line in ("what was one by window", "skip one under stairs")]
    [True, True]
    >>> names_a_place("how deep at b3"), names_a_place("he is by the window")
    (False, False)
    """
    if not (_PLACE.search(line) or _THERE.search(line)):
        return False
    return bool(_ABOUT_A_POINT.search(line) and _OF_A_POINT.search(line))
