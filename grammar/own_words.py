"""What people say in several words for the phrases' own: "goes off" is the working time."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from grammar.words import WORD, Word

SAID_FOR: dict[str, str] = {
    "bags": "sack count",
    "area": "square (metres?|meters?|feet|foot|metreage|footage)|floor space|sq m|sq ft",
    "depth": "build up|builds up|make up",
    "how deep": "(what|which) (depth|thickness|build ?up)|how much (build up|stuff|material|filler)"
    " goes|how thick (we going|is it going)",
    "mean depth": "(on average|taking all|overall) thick(ness)?|typically (how )?(thick|deep)",
    "water a bag": "water (goes )?(in|into|to|for|per|with) (one|each|every|single|per)"
    "( single)? (bag|sack)|how wet|(bag|sack) how much water|how (sloppy|runny|thin|stiff)",
    "how much water": "water (demand|requirement|total|needed|altogether)|total water|"
    "how much h2o|how many (litres|liters|gallons|quarts) of water",
    "working time": "go(es|ing)? off|(stays?|stay) (runny|wet|workable|usable|open|liquid|live)|"
    "start(s|ing)? to (set|go|stiffen|gel|cure)|before it (sets|goes|gels|stiffens|cures|hardens)|"
    "till it (sets|goes|gels|stiffens|hardens)|set(s|ting)? up on (me|us)|work with it|"
    "play with it|be placed|(useable|usable) (time|life)",
    "time left": "(left|longer|till|until) .*(mix|bucket|batch|barrel)\\b.*|"
    "(mix|bucket|batch|barrel) .*(left|longer|yet|remaining|no good)",
    "traffic time": "(walk|tread|step|stand|get|go|be) (back )?on (it|there|floor|top|her)|"
    "walked on|foot (on it|traffic)|boots on|on foot",
    "covering time": "(tiles?|lino|vinyl|carpet|wood|laminate|boards?|floor ?covering|flooring|"
    "covering|parquet) (to )?(go|goes|going|be|get|gets) (on|down|laid|fitted)|"
    "(tilers?|fitters?|floor layers?|carpet fitters?) .*(start|commence|in|on it|begin|near it)|"
    "(lay|put|stick|fit) (tiles?|lino|vinyl|carpet|wood|laminate|flooring|covering|anything)|"
    "be (covered|tiled|carpeted)|(tile|tiling|cover|covering) (it|over|on)",
    "high spots": "st(icks?|icking|ands?|anding|uck) (up|proud|out)|poke(s|ing)? (up|out)|"
    "too high|proud (spots?|bits?|areas?|places?)",
    "low spots": "(goes|dips|drops|sinks|sagging|sits) (down|low|away)|too low|need(s)? most fill|"
    "greatest fill",
    "points left": "(points|readings|shots|spots|measurements) (have|has|are|still|yet) .*(left|"
    "taken|to go|to do|yet|remain|measured|read|done)|(still|yet) to (be )?(shoot|shot|measured?|"
    "taken|done)|(points|readings|spots|shots) .*(haven't|not) (done|shot|read|measured)",
    "lifts": "in one (go|hit|lift|pour|pass|layer)|(one|two) (hits?|goes|layers?|passes|pours?) or "
    "(one|two|more)|all (at once|in one)|more than one (layer|lift|go|pass|pour|hit)|"
    "one hit|in (goes|stages|layers|two)",
    "cut list": "(pins?|pegs?|dowels?) (lengths?|heights?|sizes?|schedule|list)|"
    "(lengths?|heights?|sizes?) (of|for) (all )?(pins?|pegs?|dowels?)|(cut|trim|snip|saw) "
    "(all )?(pins|pegs|dowels)",
    "cut for": "(cut|trim|trimmed|snip|saw) (the )?(pin|peg|dowel) (at|for|on)|(pin|peg|dowel) (at|"
    "for|on)",
    "warnings": "(out of|outside|past|over|beyond) (its |any )?(limits?|range|spec|tolerance)|"
    "(look|looking) out for|keep an eye on|red flags?|bothers? me|need(s)? (my|our) attention",
    "what is missing": "(still|yet) (need|want|short|owe|outstanding|got to)|short of|"
    "have (i|we) (missed|forgotten|left out|forgot)|what else do you (need|want|still need)|"
    "not (told|given) you",
    "ready to pour": "(go|green) (light|ahead)|good to go|(start|begin) (pouring|putting it down|"
    "laying it|placing)|stop(s|ping)? (me|us) (from )?(pouring)?|clearance|allowed to pour|"
    "(hold|holding) (me|us) (up|back)|prevent(s|ing)? (me|us) from pouring",
    "is slab dry": "(concrete|slab|screed|floor) (has )?(finished )?(drying|dried|cured|dry)"
    "( out)?|"
    "moisture .*come down|dry (enough|yet|out)",
    "dew point": "(slab|floor|concrete) .*(sweat|condense|fog|mist)\\w*|(sweat|condensation|"
    "condensing|condense)",
    "grinding options": "(worth|pay|pays|save by|gain by) (grinding|sanding|grind)|(grind|sand|"
    "sanding|grinding) (some |any |a few )?(of )?(lumps|humps|high spots|bumps|bits|down)|"
    "grinder (earn|worth|pay)|take (lumps|humps|high spots|tops|bumps) (off|down)",
    "hidden high spots": "(lump|hump|bump|high spot)s? (in ?between|between|not|haven't|hidden|"
    "missed|that we|i've not).*|(missed|hidden|undetected|unseen) (lump|hump|bump|high spot)s?",
    "where next": "(one|another|extra) more (shot|reading|point|measurement|place|spot).*|"
    "(extra|another|additional) (shot|reading|point|measurement)",
    "enough": "(stop|finish|knock off|quit) (shooting|reading|measuring|taking)|enough (points|"
    "readings|shots|places|measurements|spots)|(need|do|take) (any )?more (points|readings|shots)",
    "survey check": "(readings|shots|measurements|survey|numbers|figures|levels) (be )?(any )?"
    "(good|gud|ok|okay|right|reliable|trusted|trustworthy|relied upon|funny|off|sound|accurate)|"
    "trust (my|our|these|readings|numbers|survey|shots)|relied (on|upon)|(measure|measured) it "
    "(right|properly)",
    "best finish": "(cheapest|best|smartest|least material|fewest bags|save(s)? (me |us )?bags).*"
    "(height|level|finish|top|set it)|(height|level|finish) .*(cheapest|best|fewest|least)|"
    "set it to save|material (consumption )?to (a )?minimum",
    "what is finish": "finish (set|at|now|sitting|currently|height)|where('s| is| have we got) "
    "(the )?"
    "(top|finish)|(top|finish) (is |be |currently )?(set|sitting)",
    "how much will it cost": "(come to|damage|set (me|us) back|total spend|cost) (in )?(money|cash|"
    "altogether|all in|total)|(damage|spend|outlay|bill|money)|how much money",
    "where do bags go": "(put|stack|stage|leave|stand|drop) (the )?(bags|sacks|pallets?)",
    "order": "(buy|order|purchase|ring through|procure|ask (the )?(shop|merchant) for|get in|"
    "bring in|pick up from (the )?(shop|merchant))",
    "clocks": "(what|anything) (have |you |you've |is )*(got )?(ticking|running|counting)|"
    "(timers?|clocks?) (are |is )?(currently )?(running|active|going|on)",
    "what time is it": "what o'clock|clock (say|says|saying)|time of day|current time|right time",
    "doors": "(doors?|doorways?|thresholds?|door frames?|frames|jambs) (look|looking|compare|come"
    "|coming|doing|sit|sitting)( out)?|frames? out of (true|level|plumb)|out of true",
    "cautions": "(safety|danger)\\w* (stuff|bit|bits|talk|notes|words|rules|warnings|info)",
    "changes": "been (altered|amended|edited|changed)|(altered|amended|edited|amendments|edits|"
    "alterations)",
    "record": "(safe|kept|saved|lost) (if|when) .*|(is|are) (it|everything|all) (kept|safe)",
    "obstacles": "(fixed|standing|registered) (items|things|objects)|in (the )?way",
    "weight": "(structural |floor )?load(ing)?|how heavy|(weigh|weighs|weight)",
    "products": "(what|which) (bags?|sorts?|kinds?|types?|cards?|products?|materials?) .*(choose|"
    "carry|have|hold|held|stock|know|pick|got)",
    "help": "(commands|things|words|sort of things) (can|may|could|do) (i|we|you) "
    "(say|ask|use|know)",
    "site": "(temps?|temperatures?) and (damp|humidity|moisture|dampness)|(climate|site|air|room) "
    "(figures|conditions|numbers|data|values)|environmental \\w+",
}
"""
Words of a phrase -> what is said for them, as patterns over a line's words.

Of a line that nobody listed, and that asks, what they match is put into the phrases' own words
before it is weighed. A value is never part of what they match.
"""


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple(
        (re.compile(rf"(?<!\S)(?:{pattern})(?!\S)"), words) for words, pattern in SAID_FOR.items()
    )


def in_own_words(words: Sequence[Word]) -> list[Word]:
    """
    A line with what it says in other words put into the phrases' own, where it does so once.

    >>> from grammar.words import split_words
    >>> [word.text for word in in_own_words(split_words("when does the mix go off"))]
    ['when', 'does', 'mix', 'working', 'time']
    """
    line = " ".join(word.text for word in words)
    for pattern, own in _patterns():
        found = pattern.search(line)
        if found is None:
            continue
        first = len(line[: found.start()].split())
        last = first + len(found.group().split())
        if any(word.kind != WORD for word in words[first:last]):
            continue
        start = words[first]
        put = [replace(start, text=text) for text in own.split()]
        words = [*words[:first], *put, *words[last:]]
        line = " ".join(word.text for word in words)
    return list(words)
