"""
A line as it would be written with care: chat spelling, oaths and tags aside, "neg 9" as minus 9.

Nothing that could be a value or a name is touched: only words that stand for one other word, and
those with which people fill, curse and nod. What a line means is looked for in this only where it
makes no sense as it stands.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from grammar.contractions import in_full
from grammar.numbers import DIGITS, TEENS, TENS, ZEROS
from grammar.slots import ROLES
from grammar.words import (
    FRACTION,
    LABEL,
    NUMERAL,
    OWN_WORDS_AFTER,
    OWN_WORDS_AFTER_FIRST,
    WORD,
    Word,
    join_words,
    split_words,
)

_WRITTEN: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("wat", "wot", "wht", "waht", "whut"), ("what",)),
    **dict.fromkeys(("wats", "wots", "whts", "whast"), ("what", "is")),
    **dict.fromkeys(("wich", "witch", "whcih", "whch"), ("which",)),
    **dict.fromkeys(("hw", "hwo", "hou"), ("how",)),
    **dict.fromkeys(("wher", "were's", "whers", "weres"), ("where", "is")),
    "theres": ("there", "is"), "heres": ("here", "is"), "whos": ("who", "is"),
    "whens": ("when", "is"), "whys": ("why", "is"), "theyre": ("they", "are"),
    "youre": ("you", "are"), "hes": ("he", "is"), "shes": ("she", "is"),
    "youve": ("you", "have"), "theyve": ("they", "have"), "whatve": ("what", "have"),
    "lemme": ("let", "me"), "gimme": ("give", "me"), "gonna": ("going", "to"),
    "wanna": ("want", "to"), "gotta": ("have", "to"), "dunno": ("don't", "know"),
    "em": ("them",), "u": ("you",), "ur": ("your",), "da": (),
    "coz": ("because",), "cuz": ("because",), "tho": (), "abt": ("about",), "w/o": ("without",),
    "didnt": ("didn't",), "dont": ("don't",), "cant": ("can't",), "wont": ("won't",),
    "isnt": ("isn't",), "arent": ("aren't",), "wasnt": ("wasn't",), "havent": ("haven't",),
    "hasnt": ("hasn't",), "couldnt": ("couldn't",), "shouldnt": ("shouldn't",),
    "wouldnt": ("wouldn't",), "doesnt": ("doesn't",), "havnt": ("haven't",),
    **dict.fromkeys(("charly", "charley", "charlee"), ("charlie",)), "ecko": ("echo",),
    "delter": ("delta",), "foxtrott": ("foxtrot",), "brovo": ("bravo",),
    "recieved": ("received",), "teh": (), "hte": (), "incl": ("including",), "inc": ("including",),
    "diff": ("difference",), "avg": ("average",), "ave": ("average",), "approx": ("about",),
    "temprature": ("temperature",), "humidty": ("humidity",), "qty": ("quantity",),
    "h20": ("water",),
    "mtr": ("metre",), "mtrs": ("metres",), "meter": ("metre",), "meters": ("metres",),
    "millimeter": ("millimetre",), "millimeters": ("millimetres",),
    "xactly": ("exactly",), "agane": ("again",), "pleas": (), "pleez": (), "plz": (), "pls": (),
    "thx": (), "tnx": (), "thanx": (),
}  # fmt: skip
"""Words as they are typed with wet gloves, or by who writes as it sounds -> as in a book."""

_MINUS = frozenset(
    "minu minuss mnius mius minis mins minnus miuns minos neg negitive negativ min's".split()
)
_PLUS = frozenset("plsu pluss plu pos positve".split())
_POINT = frozenset(("comma", "coma"))
"""How a decimal is said where it is written with a comma."""
_NUMBER_WORDS = frozenset((*DIGITS, *TEENS, *TENS, *ZEROS, "a", "half", "quarter", "an"))
_SPOKEN = frozenset((*DIGITS, *TEENS, *TENS, *ZEROS))

_NODS = r"""
    oh | ah | ooh | ooo | aah | oi | yo | hey | hi | hello | morning | listen | look | damn
  | damnit | dammit | blimey | crikey | christ | jesus | god | ffs | gosh | heck | wow | ouch
  | argh | ugh | phew
  | shit | crap | bugger | bloody\ hell | flipping\ (?:heck|hell) | (?:holy|oh)\ (?:shit|crap|cow)
  | for\ (?:fuck|fucks|god|gods|christ|heaven|pete|goodness)(?:'s|\ is)?\ sakes?
  | for\ the\ love\ of\ god | oh\ my\ god | my\ god | jesus\ christ | fucking\ hell | come\ on
  | (?:you\ )? (?:stupid|daft|bloody|dumb)\ (?:thing|machine|computer|phone) | bloody
  | love | pal | mate | matey | buddy | boss | chief | gaffer | man | dude | bro | darling | dear
  | lad | lads | guys | my\ friend | sir | folks | hon | honey
  | thank\ you (?:\ (?:very\ much|so\ much))? | many\ thanks | thanks\ a\ lot | if\ you\ please
"""
_BEFORE = re.compile(
    rf"""(?: (?: {_NODS}
  | alright | all\ right | right\ so | so\ then | now\ then | right\ then | yo | quick\ one
  | quickly | quick | real\ quick | question | one\ question | sorry\ (?:love|mate|pal|boss)
  | say\ (?=how|what|where|which|when) | reckon (?=\ how|\ what|\ where) | tell\ me\ again
  | and (?=\ (?:how|what|where|which|when)\b) | but (?=\ (?:how|what|where|which|when)\b)
    ) (?:\ |$) )+""",
    re.VERBOSE,
)
_AFTER = re.compile(
    rf"""(?: (?:^|\ ) (?: {_NODS} | cheers | ta | alright | all\ right
  | got\ (?:it|that) | you\ got\ (?:it|that) | did\ you\ get\ (?:it|that) | have\ you\ got\ that
  | full\ stop | period | innit | eh | yeah | init | ok | okay | you\ know | i\ guess
  | when\ you\ (?:can|get\ a\ (?:sec|second|minute|chance))
    ) )+$""",
    re.VERBOSE,
)
"""What fills, curses, calls somebody or nods, at the beginning of a line and at its end."""


def in_plain_words(words: Sequence[Word]) -> list[Word] | None:
    """
    The words as they would be written with care; None where that is as they stand.

    >>> from grammar.words import split_words
    >>> def plain(line): return " ".join(word.text for word in in_plain_words(split_words(line)))
    >>> plain("oh for fuck's sake it's neg 26 on d8 thx mate")
    'it is minus 26 on d8'
    >>> plain("wats the avg")
    'what is average'
    """
    if any(word.text in OWN_WORDS_AFTER or word.text in OWN_WORDS_AFTER_FIRST for word in words):
        return None
    spelled = [each for at in range(len(words)) for each in _spelled(words, at)]
    full = _counted(in_full(spelled) or spelled)
    line = " ".join(word.text for word in full)
    opening, ending = _BEFORE.match(line), _AFTER.search(line)
    first = len(opening.group().split()) if opening else 0
    last = len(full) - (len(ending.group().split()) if ending else 0)
    plain = _said_as(full[first:last] if first < last else full)
    if [word.text for word in plain] == [word.text for word in words]:
        return None
    return plain or None


_A_POINT = (
    r"(?:[a-z]{1,2} ?\d{1,2}|(?:[b-hj-z]|alpha|bravo|charlie|delta|echo|foxtrot|golf|hotel"
    r"|juliett|kilo"
    r"|lima|mike) (?:one|two|three|four|five|six|seven|eight|nine|ten|\d{1,2}))"
)
_SAID_AS = (
    (
        r"^(?:i |we |have )?(?:checked |check |checking |back on |back at )?zero (?:is |it is "
        r"|still |it |all "
        r"|reads |checks |check |has |was |out )*(?:ok|okay|level|same|unchanged|spot on"
        r"|perfect|bang on|good"
        r"|all good|fine|hasn't moved|not moved|didn't move|dead on|as it was|holding)$",
        "check zero good",
    ),
    (
        r"^(?:i |we |have )?(?:check|checked|checking|back on|back at|back to) zero (?:and |it "
        r"|is |now |reads "
        r"|at |says |has |got |gone |shows )*(?=minus|plus|-|\+|\d|one|two|three|four|five|six"
        r"|half)",
        "check zero ",
    ),
    (
        r"^(?:the )?next (?:two|three|four|five|six|\d) (?:are|is|ones are|points are) (?=minus"
        r"|plus|-|\+)",
        "",
    ),
    (
        rf"^(?P<do>skip|leave|leave out|miss|miss out|(?:i |we )?(?:can't|cannot) (?:get to|get "
        rf"at|reach|read|do"
        rf"|measure|shoot)) (?P<at>{_A_POINT}) (?!because|as\b|alone|be\b|out\b|for\b|until"
        rf"|till|in\b|where|to\b"
        r"|on\b|at\b|it\b)(?P<why>\w+ \w+ \w+.*|(?:there|it|the|a|is|has|someone|somebody) .+)$",
        r"skip \g<at> because \g<why>",
    ),
    (rf"^(?:oops|whoops) (?={_A_POINT} )", "sorry "),
    (rf"^(?:yep|yes|yeah|hang on|hold on|wait|right) (?={_A_POINT} \w)", ""),
    (r"^(?:water) (?:went|has gone|gone|is gone) in$", "water in"),
    (
        r"^(?:that is |we |we have |i have )?(?:pour finished|finished pour|finished pouring"
        r"|pour complete)$",
        "pour finished",
    ),
    (
        rf"^(?:tell|give) me (?:about )?(?:point )?(?P<at>{_A_POINT})(?: again)?$",
        r"what was \g<at>",
    ),
    (r"^(?:talk|go) (?=(?:slower|faster|quicker|louder|softer|quieter)\b)", "speak "),
    (r"^talk again$", "speak again"),
    (r"^add note ", "note "),
    (r"^copy (?:this )?job for ", "copy job to "),
    (r"^(?:this )?job name is ", "rename job to "),
    (r"^zero (?:ok|okay)$|^check zero(?: ok| okay)$", "check zero good"),
    (
        r"^(?:no )?(?:that is |that was |this is )?wrong (?:take|rub|scrap|get) (?:it|that) "
        r"(?:off|out|back)$",
        "undo that",
    ),
    (r"^(?:i |we )?want inches$|^inches (?:from now on|for this job)$", "readings in inches"),
    (
        r"^(?:i |we )?want (?:mm|millimetres|metric)$|^(?:mm|millimetres) from now on$",
        "readings in millimetres",
    ),
    (r"^make finished floor (?=level|zero|minus|plus|\d)", "finish "),
    (r"^finish zero$", "finish level"),
    (
        r"^the client is called |^client is called |^client's called |^customer is called ",
        "client ",
    ),
    (r"\bwere (?=\w+ing\b)", "we are "),
    (
        r"^bag is (?=[a-z]+ [a-z]+)(?!.*(?:pound|quid|euro|dollar|cost|kilo|kg|hundred|ty\b"
        r"|teen\b))",
        "product ",
    ),
)
"""Ways to say a thing that is said in one way -> that way."""


def _said_as(words: list[Word]) -> list[Word]:
    """The words in the way in which they are listed, where that is another."""
    line = join_words(word.text for word in words)
    said = line
    for pattern, plain in _SAID_AS:
        said = re.sub(pattern, plain, said)
    return _priced(split_words(said) if said != line else words)


_MONEY = frozenset("pound pounds quid euro euros dollar dollars buck bucks".split())


def _priced(words: list[Word]) -> list[Word]:
    """ "Nineteen pound fifty" as nineteen point five zero pound."""
    for at in range(1, len(words) - 1):
        before, money, after = words[at - 1 : at + 2]
        if money.text not in _MONEY:
            continue
        if before.kind == NUMERAL and after.kind == NUMERAL and len(after.text) == 2:
            whole = replace(before, text=f"{before.text}.{after.text}")
            return [*words[: at - 1], whole, money, *words[at + 2 :]]
        if before.text in _SPOKEN and after.text in TENS:
            digits = [DIGIT_WORDS[int(digit)] for digit in str(TENS[after.text])]
            said = [replace(after, text=text) for text in ("point", *digits)]
            words = [*words[:at], *said, money, *words[at + 2 :]]
            return split_words(join_words(word.text for word in words))
    return words


DIGIT_WORDS = {value: word for word, value in (*ZEROS.items(), *DIGITS.items())}
DIGIT_WORDS[0] = "zero"


def _spelled(words: Sequence[Word], at: int) -> list[Word]:
    """A word as it is spelled, in as many words."""
    word = words[at]
    before = words[at - 1] if at else None
    if word.text in _AREAS and before is not None and before.text in _BEFORE_AN_AREA:
        first, second = _AREAS[word.text]
        return [replace(word, kind=WORD, text=text) for text in (first, second)]
    if word.kind != WORD:
        return [word]
    if word.text == "'" and before is not None and before.kind == LABEL:
        return []  # "D6's down nine"
    if word.text == "s" and at > 1 and words[at - 1].text == "'" and words[at - 2].kind == LABEL:
        return [replace(word, text="is")]
    after = words[at + 1] if at + 1 < len(words) else None
    if word.text == "ow" and after is not None and after.text in _HOW:
        return [replace(word, text="how")]
    if after is not None and (after.kind in (NUMERAL, FRACTION) or after.text in _NUMBER_WORDS):
        # "Mins 10" alone may be ten minutes.
        alone = before is None and word.text in ("mins", "min's")
        if word.text in _MINUS and _may_have_a_sign(before) and not alone:
            return [replace(word, text="minus")]
        if word.text in _PLUS and _may_have_a_sign(before):
            return [replace(word, text="plus")]
        if word.text in _POINT and before is not None and {before.text, after.text} <= _SPOKEN:
            return [replace(word, text="point")]
    if word.text in _WRITTEN:
        written = _WRITTEN[word.text]
        return [
            replace(word, text=text, after_pause=word.after_pause and not place)
            for place, text in enumerate(written)
        ]
    if word.text.endswith("in") and f"{word.text}g" in _GOING:
        return [replace(word, text=f"{word.text}g")]
    return [word]


_AREAS = {"m2": ("square", "metres"), "m3": ("cubic", "metres")}
_BEFORE_AN_AREA = frozenset("many in per of total".split())
_HOW = frozenset("many much deep long big far thick high low wet".split())
_GOING = frozenset(
    "talking looking going doing getting putting pouring mixing using needing working measuring "
    "reading missing standing raising lowering lifting dropping starting finishing covering "
    "something anything nothing everything running coming making taking".split()
)


_ONE = frozenset("a an every each".split())
_UNITS = frozenset((*ROLES["metric_unit"], *ROLES["inch"], *ROLES["foot"])) - {"m", "in", '"', "'"}


def _counted(words: list[Word]) -> list[Word]:
    """ "A mil" as 1 mil, "every metre" as every 1 metre, "a metre and a half" as 1.5 metre."""
    out: list[Word] = []
    at = 0
    while at < len(words):
        texts = [word.text for word in words[at : at + 5]]
        if len(texts) > 1 and texts[0] in _ONE and texts[1] in _UNITS:
            halved = texts[2:5] == ["and", "a", "half"]
            if texts[0] in ("every", "each"):
                out.append(words[at])
            number = "1.5" if halved else "1"
            out += [replace(words[at], kind=NUMERAL, text=number), words[at + 1]]
            at += 5 if halved else 2
        else:
            out.append(words[at])
            at += 1
    return out


def _may_have_a_sign(before: Word | None) -> bool:
    """Whether a sign may stand after a word: not after a number, which it would count."""
    if before is None or before.kind == LABEL:
        return True
    if before.kind == NUMERAL:
        return True  # "b 6 mins 10"
    return before.kind == WORD
