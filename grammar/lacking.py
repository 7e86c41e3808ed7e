"""More lines that lack a thing, by the kind of what they lack, and what is asked of each."""

from __future__ import annotations

_POINT = r"[a-z]{1,2} ?\d{1,2}"
_LETTER = r"(?:[b-z]|ay|be|bee|see|sea|dee|ee|eff|gee|aitch|jay)"
_NO_POINT = (
    rf"(?!.*\b(?:[a-z]{{1,2}}\d{{1,2}}|{_LETTER} (?:\d{{1,2}}|one|two|to|too|three|four|for|five"
    r"|six|seven|eight|ate|nine|ten))\b)"
)
_NUMBER = (
    r"(?:\d[\d./]*|nought|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen"
    r"|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty)"
)
_UNSIGNED = r"(?!.*(?:-|\+|minus|plus|\bbelow\b|\babove\b|\blow\b|\bhigh\b|\blevel\b))"
_SIDE = r"(?:low|high|down|up|under|over|below|above|proud|deep|minus|plus|-|\+)"
_PLACE = (
    r"(?:corners?|corner's|door|doorway|window|wall|middle|centre|center|lift|stairs?|drain|pillar"
    r"|post|end|over there|far side|left side|right side|other side)"
)
_LEAD = (
    r"(?:(?:there is|there's|theres|i have|we have|i've|we've|got|found|a|an|another|some|bit of"
    r"|put|mark|add|draw|it|sounds|is|in) )*"
)
_DEFECT = (
    r"(?:drummy|hollow|pinholes?|pin holes?|crack|cracks|cracked|cracking|hairline|blisters?"
    r"|bubbles|soft spot|dusty)"
)
_THING = (
    r"(?:column|pillar|post|pier|hole|cabinet|shaft|cupboard|pipe|opening|hatch|stanchion|riser"
    r"|island|chimney|hearth|manhole)"
)
_WHAT_IS_DONE = r"(?:set up|put in|put|build|place|need|want|make|add|run|stick|stick in|do)"

LACKING: tuple[tuple[str, str, str], ...] = (
    (
        rf"^{_POINT} (?:(?:again|no|sorry|it|is|its|it's|was|reads|should be) )*{_NUMBER}"
        rf" (?:and )?not {_NUMBER}$",
        "Below or above? Say the value with its side.",
        "D2 again its 12 not 10",
    ),
    (
        rf"^(?:(?:and|one|after|next|this|that|it|here|that's|is|one's|ones|make|change|put|set|stick"
        rf"|call|i|we|got|get|have|to|at|as|in|down|be|should) )+{_NUMBER}(?: mm| mil| mils)?$",
        "Below or above? Say the value with its side.",
        "and the one after that's 13",
    ),
    (
        rf"^(?:.* )?{_POINT} (?:is |was |reads )?{_NUMBER} (?:mm |mil )?or {_NUMBER}\b",
        "Which value is it, and below or above?",
        "A2 eight or nine",
    ),
    (
        r"\b(?:on|off|from) (?:level )?(?:staff|rod|grade rod|stick)$",
        "That is a staff's figure. Which value is it below or above zero?",
        "C2 is 1.432 on the staff",
    ),
    (
        rf"\b(?:half ?way|midway|middle|between|in between)\b.*\b{_POINT} and {_POINT}\b",
        "Which point is it? Say where it lies, or the nearest one.",
        "halfway between C2 and C3 it's 16 low",
    ),
    (
        rf"^{_NO_POINT}(?!what|where|how|which|is|are|why|when|does|do|can|set up).*\b{_PLACE}\b.*"
        rf"\b{_NUMBER} (?:mm |mil |mils )?{_SIDE}$",
        "Which point is that? Say its letter and number with the value.",
        "the far corner is fourteen low",
    ),
    (
        r"^(?:(?:how|what|what's|whats|is|deep|thick|high|low|it|does|go|will|be|depth|thickness"
        r"|reading|height|pour) ){2,}(?:at|by|near|beside|next to|in front of|around|under)"
        rf" {_NO_POINT}(?!zone )(?!door \w+$)"
        r"(?:[a-z']+ ){0,2}[a-z']+$",
        "Which point is that? Say its letter and number.",
        "what's the depth by the window",
    ),
    (
        rf"^(?:{_POINT} and {_POINT} (?:got |are |were |have been )?(?:swapped|mixed up|crossed"
        rf"|switched|the wrong way|wrong way|other way)|(?:swap|switch) {_POINT} and {_POINT})\b",
        "Which value belongs to which point? Say each point with its own.",
        "D2 and D3 got swapped over",
    ),
    (
        r"\b(?:gave|said|put|told|typed|called|entered)\b.*\b(?:when i meant|but i meant|but meant"
        r"|instead of|meant it for|should have been for)\b",
        "Which point, and with which value? Strike the one, then say the other.",
        "I gave you C1 when I meant C3",
    ),
    (
        r"^(?:move|put|shift|swap|stick|change) (?:that|this|it|last)(?: one| reading| value)? "
        r"(?:to|on|onto|in|into|over to) (?:next|other|another|one)\b",
        "Which point is it for? Strike the last, and say the value with its point.",
        "move that one to the next box",
    ),
    (
        r"^(?:go |get |take me )?back to (?:one|ones|point|points|spot|spots) (?:i|we|you)\b",
        "Which point? Say go to, and its letter and number.",
        "back to the one I missed",
    ),
    (
        r"^(?:skip|leave|leave out|miss|miss out|forget) (?:whole |all |entire |rest )?(?:of )?"
        r"(?:row|column|line) \w+\b",
        "Which points? Each is left out by itself: skip, and its letter and number.",
        "skip the whole of column F",
    ),
    (
        r"^(?:strike|delete|scrub|bin|get rid|lose|wipe|scrap|remove|clear|dump) (?:of )?(?:lot|all"
        r"|whole|everything|entire)?(?: of| in| on)*(?: row| column) \w+\b",
        "Which points? Each is struck by itself: strike, and its letter and number.",
        "get rid of the lot in row 1",
    ),
    (
        rf"{_POINT} [-+] (?:\d+ ?[ol]|[ol] ?\d*)$",
        "Is that a letter in the number? Say the value again.",
        "b5 -1o",
    ),
    (
        r"^(?:what|how) about (?:other|next) (?:side|end|one|room|half|way|bit)$",
        "Which point or zone is that?",
        "what about the other side",
    ),
    (
        r"^(?:is|are|does) (?:that|this|it|those|they|everything) (?:look )?(?:alright|all right|ok"
        r"|okay|right|good|fine|any good|acceptable)$",
        "Which is meant: survey check, warnings or ready to pour?",
        "is that alright",
    ),
    (
        r"\b(?:like |look |looking )?compared?(?: with what| to what)?$",
        "Which two? Say poured against planned, or difference and two points.",
        "what's it like compared",
    ),
    (
        r"^how much (?:is |is it |is that )?(?:for|per|a|each) (?:one |1 |each |single )?bag$",
        "Which is meant: the water for a bag, or what it costs?",
        "how much is for one bag",
    ),
    (
        r"\b(?:gets?|needs?|has|wants?|takes?|use|using|with) (?:a |an |some )?(?:different|another"
        r"|other|new) (?:product|bag|material|stuff|card|powder|compound)$",
        "Which product? Say it by its name.",
        "the kitchen gets a different product",
    ),
    (
        r"^(?:damp|moisture|humidity|hygro\w*|pin|carbide|rh|concrete) (?:meter|metre|box|probe"
        r"|test|reading|sensor|gauge)\b[^\d]*$(?<!percent)",
        "Which value, and by which test: slab humidity, moisture emission, pH?",
        "damp meter beeped",
    ),
    (
        r"\bpump\b.*\b(?:litres?|liters?|l|cubes?) (?:a|an|per) (?:minute|min|hour)$|"
        r"^pump is (?:coming|here|on its way|booked)\b",
        "How many bags an hour does the pump place?",
        "pump does forty litres a minute",
    ),
    (
        rf"^(?:i |we |can you |let's )?{_WHAT_IS_DONE} (?:a |an |another |in )?"
        r"(?:dam|shutter|stop end|bulkhead)(?: in| up| there| somewhere)?$"
        r"|^dam (?:at|by|across|in|near|on) (?:door|doorway|opening|far|other)\b.*",
        "Where is the dam: at which row or column?",
        "set up a dam",
    ),
    (
        rf"^(?:i |we |can you )?{_WHAT_IS_DONE} (?:a |an |another |in )?(?:\w+ )?joint"
        r"(?: in| there| across| somewhere)*$|^(?:\w+ )?joint (?:across|along|at|near|by)"
        rf" {_NO_POINT}.*$",
        "Where is the joint: from which point to which?",
        "put a joint in",
    ),
    (
        rf"^{_LEAD}{_NO_POINT}{_DEFECT}\b(?!.*(?:repaired|filled|structural|still|drop|how|what)).*$",
        "At which point is it? Say its letter and number.",
        "drummy patch, about a foot wide",
    ),
    (
        r"^gap\b(?!.* at \w+ ?\d+$).*\b(?:edge|straightedge|level|bar)$",
        "Gap at which point, and under what length?",
        "gap of four under the straight edge",
    ),
    (
        rf"^(?:mind |watch )?{_LEAD}{_THING} (?:in|by|near|at|on|next to|against|beside) [^\d]*$",
        "Where is it, and how big?",
        "there's a pillar in the middle",
    ),
    (
        rf"^{_LEAD}(?:floor )?(?:drain|gully|gulley|outlet)\b{_UNSIGNED} .*$",
        "At which point is it, and at which height?",
        "floor drain somewhere near C5",
    ),
    (
        r"^(?:there is |there's |theres |add |we have )?(?:a |an )?(?:another|new|second|third|one"
        r" more|extra) door(?:way)?\b[^\d]*$",
        "Which number has it, and how high are its jambs?",
        "another door on the far wall",
    ),
    (
        r"^(?:left|right)(?: hand)?(?: jamb| side| jamb's)\b(?!.*\bdoor \w+).*\d",
        "Which door? Say its number, and both jambs, left and right.",
        "left jamb is minus 7",
    ),
    (
        r"^(?:open|load|get|fetch|show)(?: me)? (?:one|job|floor|that one) (?:from|we|i|of)\b",
        "Which job? “jobs” lists them.",
        "open the one from last week",
    ),
    (
        r"^(?:start |begin |make |create |open )?(?:a |another )?new (?:job|room|floor|project)\b",
        "Which is meant: another job, or this room's size put right?",
        "start a new job, 4 by 5",
    ),
    (
        r"^(?:close|finish|wrap|sign) (?:this|that|it)(?: one| job)? ?(?:off|down|out|up)\b",
        "Which is meant: put job away, or quit?",
        "close this one off",
    ),
    (
        r"^(?:whoa|woah|stop|hold on|hang on|wait)\b.*\b(?:batch|mix|pour)\b",
        "Which is meant: stop pour, or take the last batch back?",
        "whoa stop that batch has gone lumpy",
    ),
)
"""Pattern over the words, what is asked, and a line that it is asked of."""
