"""Text split into words, each with its place in what was said.

Case, spaces, commas and fillers do not matter. A comma between two
figures is kept as a mark that no phrase takes, so that a decimal comma is
refused: "2,5" is never read as 25, nor as the two readings 2 and 5.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import replace

from grammar.frozen import frozen

_HESITATIONS = frozenset("um uh er erm hm hmm the just".split())
_THANKS = frozenset(("please", "thanks"))
ALONE = frozenset(("ok", "okay"))
"""Fillers that are an answer where nothing else is said."""
FILLERS = _HESITATIONS | _THANKS | ALONE | {"so", "well"}
"""Fillers, left out everywhere. None of them may be a word of a phrase of several words."""
OWN_WORDS_AFTER = frozenset(("because",))
"""Words after which all is kept, fillers too: a reason that somebody gives."""
OWN_WORDS_AFTER_FIRST = frozenset(
    ("note", "remark", "comment", "memo", "client", "customer", "address")
)
"""The same, where a line begins with them."""

NO_NAME_WITH = {"spec": "under"}
"""Words that open a name, unless this word stands anywhere after them."""

_OPENINGS = re.compile(
    r"""(?: (?:
      hey | hi | hello | oi | right | alright | all\ right | now | then | right\ then | now\ then
    | mate | boss | actually
    | and (?! \ (?: an? | half | quarter | three | [0-9]) (?:\ |$) )
    | (?: can | could | would | will ) \ you (?:\ (?: kindly | quickly | go\ ahead\ and ) )?
    | (?: can | could | may ) \ (?: i | we ) \ (?: have | get | see | hear )
    | (?: i'd | i \ would | we'd ) \ like \ (?: to \ (?: know | see | hear ) | to )
    | i \ (?: want | wanna | need ) \ (?: to \ (?: know | see | hear ) | to | you \ to )
    | (?: do | would ) \ you \ know | any \ idea | quick \ question
    | (?: tell | give | show ) \ (?: me | us )
    | let \ (?: me | us ) \ (?: know | see | have | hear )
    | let's | let \ us | go \ ahead \ and | you \ can
    | (?: make | take | add | leave ) \ an? (?= \ (?: note | remark | comment | memo ) \b )
    ) (?:\ |$) )+""",
    re.VERBOSE,
)
"""Courtesies with which a line may begin; whatever they open is understood without them."""
_ENDINGS = re.compile(
    r"""(?: (?:^|\ ) (?:
      mate | boss | now | right\ now | then | cheers | ta | for\ me | for\ us | thank\ you | eh
    | if \ you \ (?: can | could | would | don't\ mind ) | (?: will | would | could | can ) \ you
    | do \ you \ know
    ) )+$""",
    re.VERBOSE,
)
"""And with which it may end."""

NUMERAL, FRACTION, LABEL, WORD = "numeral", "fraction", "label", "word"
END = "end"
"""Kind of the mark after the last word, which no phrase takes."""

_VULGAR = "½¼¾⅛⅜⅝⅞"
_SCAN = re.compile(
    r"""
      (?P<fraction> [0-9]{1,4} \s* [/⁄] \s* [0-9]{1,4} (?![0-9.]) | ["""
    + _VULGAR
    + r"""] )
    | (?P<numeral>  [0-9]+ \. [0-9]+ | (?<![0-9.]) (?<![0-9]\s) \. [0-9]+ | [0-9]+ )
    | (?P<label>    (?<![0-9.]) [a-z]{1,2} [0-9]{1,2} (?! [0-9a-z] | \.[0-9] ) )
    | (?P<word>     [^\W\d_]+ (?: ['’] [^\W\d_]+ )* )
    | (?P<inches>   ["″”“] | ''  | ′′ | ’’ )
    | (?P<feet>     ['′’‘] )
    | (?P<percent>  % )
    | (?P<degree>   ° )
    | (?P<joined>   (?<=[0-9]) (?: , (?=[0-9]) | \.+ \s* (?=[0-9]) ) )
    | (?P<minus>    [-−–‐‑] )
    | (?P<plus>     \+ )
    | (?P<times>    [×] )
    | (?P<skip>     (?: [\s,;:!?=] | \. (?![0-9]) )+ )
    | (?P<other>    . )
    """,
    re.VERBOSE | re.IGNORECASE | re.DOTALL,
)
_AS_WORD = {
    "inches": '"',
    "feet": "'",
    "percent": "%",
    "degree": "degrees",
    "minus": "-",
    "plus": "+",
    "times": "x",
}

MOST_WORDS = 40
"""Most words of one utterance; longer ones are not spoken to us."""


OTHER = "other"
"""The kind of what is no word."""


@frozen
class Word:
    """One word, number or mark."""

    kind: str
    """``numeral``, ``fraction``, ``label`` (B3 written together), ``word`` or ``other``."""
    text: str
    """Lower case."""
    start: int
    end: int
    """Where it stands in the text as said."""
    after_pause: bool = False
    """Whether a comma or another stop stands before it; no number goes on across one."""
    said: str = ""
    """It as it was said, with all that was said between the word before and it."""


def split_words(text: str) -> list[Word]:
    """
    The words of a text, fillers left out.

    >>> [word.text for word in split_words("Um, B3 -1 1/2\\"")]
    ['b3', '-', '1', '1/2', '"']
    """
    words, _fillers = _cut(text)
    return words


def filler_alone(text: str) -> list[Word]:
    """
    The one filler that is an answer, of a text of nothing but fillers; empty for any other.

    >>> [word.text for word in filler_alone("Ok, thanks.")]
    ['ok']
    >>> filler_alone("ok so"), filler_alone("ok tally")
    ([], [])
    """
    words, fillers = _cut(text)
    said = [word for word in fillers if word.text not in _HESITATIONS]
    if words or not said or said[0].text not in ALONE:
        return []
    return said[:1] if all(word.text in _THANKS for word in said[1:]) else []


def without_courtesies(words: list[Word]) -> Iterator[list[Word]]:
    """
    Words without what is only polite at their start, at their end, and at both.

    Where nothing else is left it is no courtesy: "right" may be an answer. What is asked for
    must make sense with them first, for they may be words of a phrase, or of somebody's own.

    >>> polite = split_words("Could you please tell me the tally, mate?")
    >>> [" ".join(word.text for word in less) for less in without_courtesies(polite)]
    ['tally mate', 'could you tell me tally', 'tally']
    """
    line = " ".join(word.text for word in words)
    opening, ending = _OPENINGS.match(line), _ENDINGS.search(line)
    first = len(opening.group().split()) if opening else 0
    last = len(words) - (len(ending.group().split()) if ending else 0)
    for start, end in dict.fromkeys(((first, len(words)), (0, last), (first, last))):
        if 0 < end - start < len(words):
            yield words[start:end]


def _are_courtesies(words: list[Word], opener: Word) -> bool:
    """Whether nothing but courtesies stands before a word."""
    line = "".join(f"{word.text} " for word in words).removesuffix("what if ")
    found = _OPENINGS.match(f"{line}{opener.text}")
    return not line or (found is not None and found.end() == len(line))


def _cut(text: str) -> tuple[list[Word], list[Word]]:
    """The words, and the fillers that were left out."""
    words: list[Word] = []
    fillers: list[Word] = []
    own_words = pause = False
    after = 0
    for found in _SCAN.finditer(text):
        kind = found.lastgroup or "other"
        if kind == "skip" or (kind == "joined" and _ends_a_sentence(found.group(), words)):
            pause = pause or not found.group().isspace()
            continue
        word = _word(kind, found)
        if words and _names_column(words[-1], found.group(), text[found.end() :]):
            # In capitals after "column" AM is a column's name, and neither a time nor a word.
            for at in (0, 1):
                start = found.start() + at
                letter = found.group()[at].lower()
                words.append(Word(WORD, letter, start, start + 1, said=text[after : start + 1]))
                after = start + 1
            pause = False
            continue
        if kind == "minus" and _joins(text, found, words):
            continue
        if word.kind == WORD and word.text in FILLERS and not own_words:
            fillers.append(word)
            after = found.end()
            continue
        opens = word.text in OWN_WORDS_AFTER_FIRST and _are_courtesies(words, word)
        own_words = own_words or opens or word.text in OWN_WORDS_AFTER
        words.append(replace(word, after_pause=pause, said=text[after : found.end()]))
        pause, after = False, found.end()
        if len(words) > MOST_WORDS and not own_words:
            if text[found.end() :].strip(" \t\n.,;:!?"):
                # No word of the language, or a row of readings would be taken without its end.
                words[-1] = replace(words[-1], kind=OTHER)
            break
    if own_words and words:
        # What stands after the last word is somebody's own, too.
        words[-1] = replace(words[-1], said=words[-1].said + text[words[-1].end :])
    return words, fillers


def _names_column(before: Word, text: str, following: str) -> bool:
    """Whether these are a column's two letters, in a line that is not in capitals as a whole."""
    if text == "BY" and following.split()[:1] == ["column"]:
        return False  # one column after the other
    pair = len(text) == 2 and text.isascii() and text.isalpha() and text.isupper()
    return pair and before.text == "column" and not before.said.strip().isupper()


def _ends_a_sentence(stop: str, words: list[Word]) -> bool:
    """
    Whether a stop and a blank part two figures; in a value they may be a phone's decimal point.

    >>> [word.text for word in split_words("A1 -12. 5")]
    ['a1', '-', '12', '.', '5']
    >>> [word.text for word in split_words("A1. 5")]
    ['a1', '5']
    """
    if not stop[-1].isspace():
        return False
    before = words[-2:]
    return len(before) < 2 or before[1].kind != NUMERAL or before[0].text not in _SIGNED


_SIGNED = frozenset(("-", "+", "minus", "plus"))


def join_words(texts: Iterable[str]) -> str:
    """
    The texts of some words as a line that would be split into the same words.

    >>> join_words(["2", ",", "5"]), join_words(["one", ", two"])
    ('2,5', 'one , two')
    """
    line = ""
    for text in texts:
        # A comma that touches figures on both sides makes "2,5" be refused.
        line = f"{line.rstrip()}," if text == "," else f"{line}{text} "
    return line.rstrip(" ")


def _word(kind: str, found: re.Match[str]) -> Word:
    said = found.group().lower()
    if kind == "fraction":
        said = _fraction(said)
    elif kind in _AS_WORD:
        kind, said = WORD, _AS_WORD[kind]
    elif kind == "joined":
        said = said.strip()
    elif kind == "word":
        said = said.replace("’", "'")
    return Word(kind, said, found.start(), found.end())


def _fraction(said: str) -> str:
    if said in _VULGAR:
        said = unicodedata.normalize("NFKC", said)
    return re.sub(r"\s", "", said.replace("⁄", "/"))


def _joins(text: str, dash: re.Match[str], words: list[Word]) -> bool:
    """Whether a dash only ties two words: twenty-five, x-ray, 1-1/2."""
    before, after = text[: dash.start()][-1:], text[dash.end() :]
    if before.isalpha() and after[:1].isalpha():
        # "b-eighteen" would be a letter and a minus; only words of two letters or more are tied.
        tied = words[-1].text if words and words[-1].end == dash.start() else "well"
        return len(tied) > 1 or (tied == "x" and after[:3].lower() == "ray")
    if words and words[-1].kind == NUMERAL and words[-1].end == dash.start():
        following = _SCAN.match(after)
        return following is not None and following.lastgroup == "fraction"
    return False
