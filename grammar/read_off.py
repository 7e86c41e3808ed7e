"""
Readings in full among the words with which somebody reads them off: "at D1 I've got nine under".

Only words that change nothing of what was read may stand beside a point and its height; where
anything else was said, nothing is taken. What was said wrong and put right in one breath, "B3, no
sorry D3", counts as it was put right.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from grammar.commands import Command
from grammar.commands.readings import TakeReading
from grammar.commands.walk import TakePoints
from grammar.contractions import in_full
from grammar.match import meanings_of
from grammar.slots import ROLES
from grammar.small_words import ASKING
from grammar.values_said import Said, values_said
from grammar.words import Word, join_words, split_words, without_courtesies

_BESIDE = frozenset(
    """
    at on here there now then next and is are am be i we it this that one spot point
    have has got get gets getting make makes find finding read reads reading sit sits sitting sat
    come comes came coming out show shows showing measure measures measured measuring give gives
    giving gave turn turns turned stand stands standing stood dead bang
    call log enter book record add for reading's shot my says saying say display staff rod laser
    write type punch save stick put jot mark me down as against with by to level exactly see goes se
    e
    s
    """.split()
)
"""What may stand beside: words of reading off, and of no wish, doubt, denial or third person."""

_TO_WRITE = frozenset("write put jot mark take punch log note come comes came coming".split())
"""Words after which "down" and "up" are no side: written down, came up."""
_COME = ("come", "comes", "came", "coming", "punch")
_ANCHORS = frozenset("here next reading this call spot".split())
"""One of these says that a value alone is read off at the point where somebody stands."""
_AS_LEVEL = re.compile(
    r"\b(?:(?:dead|bang|spot|right|exactly|smack)\ )?(?:level|flush|on|even)\ "
    r"(?:(?:with|to|at|on)\ )?(?:zero|nought|nil)$"
    r"|\b(?:dead|bang|spot|smack)\ on\ zero\b",
    re.VERBOSE,
)
_ORDERED = re.compile(
    r"\b(?:can|could|would|will) (?:you |we )?(?=(?:put|write|log|enter|record|mark|stick|jot|type"
    r"|save|add|book|call|give|make|punch)\b)"
)
_FROM_ZERO = re.compile(
    r"\b(down|low|below|under|up|above|over|high|lower|higher|proud) (?:from|off|of|than) zero$"
)
_MOVED = re.compile(r"\b(?:put|make|take|stick)\b.*\b(?:lower|higher)\b")
"""Something is to be moved, or a reading is: that is asked."""
_TO_BECOME = re.compile(r"^get\b.*\bto\b|\bgoes\ to\b", re.VERBOSE)
"""What a point is to come to, and not what it is."""
_NOUGHT = frozenset(("zero", "nought", "nil"))
_IS_THE_ZERO = re.compile(
    r"^the\ (?:zero|level)\b|\b(?:zero|level|laser)\ (?:is|sits|stands)\b",
    re.VERBOSE,
)
"""The zero itself, or the instrument, is spoken of, and not a height of nothing."""


def read_off(words: Sequence[Word]) -> tuple[Command, ...]:
    """
    The readings that a line holds among words of reading off; empty for any other line.

    >>> from grammar.language import short_form
    >>> from grammar.words import split_words
    >>> [short_form(each) for each in read_off(split_words("at D1 I've got nine under"))]
    ['D1 -9']
    >>> [short_form(each) for each in read_off(split_words("B3, no sorry D3, minus 18"))]
    ['D3 -18']
    >>> read_off(split_words("D1 should have been nine under"))
    ()
    """
    words = [words, *without_courtesies(list(words))][-1] if words else words
    if not words or words[0].text in ASKING:
        return ()
    full = list(in_full(words) or words)
    words = _rewritten(full)
    line = " ".join(word.text for word in words)
    if _written_sideways(words) or _MOVED.search(line) or _TO_BECOME.search(line):
        return ()
    otherwise = words is not full
    if (repaired := put_right_at_once(words)) is not None:
        words, otherwise = repaired, True
    values, rest = values_said(words)
    values = [value for value in values if value.text != "one"]  # "this one" counts nothing
    if any(_may_be_inches(value, words) for value in values):
        return ()
    said = " ".join(word.text for word in full)
    if _IS_THE_ZERO.search(said) and all(
        value.sort == "point" or value.text in (*_NOUGHT, "level") for value in values
    ):
        return ()
    texts = [word.text for word in rest]
    # "Over at B3" is no side; any other "over" may be one, said twice.
    if texts[:2] == ["over", "at"]:
        del texts[0]
    if "in" in texts and texts[texts.index("in") - 1] in _COME:
        texts.remove("in")  # any other "in" is a unit
    if any(text not in _BESIDE for text in texts):
        return ()
    if not (texts or otherwise or _reversed_in_one_breath(values)):
        return ()
    line = _line_of(values, texts)
    found = meanings_of(split_words(line)) if line else ()
    return found if all(isinstance(each, (TakeReading, TakePoints)) for each in found) else ()


def _line_of(values: Sequence[Said], beside: Sequence[str]) -> str:
    """The readings as a line of points, each with its height; empty where they are no pairs."""
    if len(values) < 2 and not (values and values[0].sort == "point"):
        if not _ANCHORS & set(beside):
            return ""
        if not values:
            return "level" if "level" in beside else ""
        said = values[0]
        return said.text if said.sort == "reading" else "level" if said.text in _NOUGHT else ""
    pairs = _paired(values)
    return ", ".join(f"{point.text} {height.text}" for point, height in pairs) if pairs else ""


def _reversed_in_one_breath(values: Sequence[Said]) -> bool:
    """Whether a height and then its point are all that was said: "minus 19 bravo five"."""
    return [value.sort for value in values] == ["reading", "point"] and not any(
        word.after_pause for word in values[1].words
    )


def _may_be_inches(value: Said, words: Sequence[Word]) -> bool:
    """Whether an "in" after a height stands before a point, and may be no unit: "3 in A5"."""
    if value.sort != "reading" or value.words[-1].text != "in":
        return False
    at = next(at for at, word in enumerate(words) if word is value.words[-1]) + 1
    after, _ = values_said(words[at:])
    return bool(after) and after[0].sort == "point" and after[0].words[0] is words[at]


def _rewritten(words: list[Word]) -> list[Word]:
    """The words with "dead on zero" as level, and without whom an order is given to."""
    line = join_words(word.text for word in words)
    plain = _FROM_ZERO.sub(r"\1", _AS_LEVEL.sub("level", _ORDERED.sub("", line)))
    return split_words(plain) if plain != line else words


def _written_sideways(words: Sequence[Word]) -> bool:
    """Whether a "down" or "up" may be no side: "write down 15", "came up 9"."""
    return any(
        word.text in ("down", "up") and before.text in _TO_WRITE and not _is_signed(after)
        for before, word, after in zip(words, words[1:], [*words[2:], words[-1]], strict=False)
    )


def _is_signed(word: Word) -> bool:
    return word.text in ("minus", "plus", "-", "+", "negative", "positive", "as", "at", "for")


_BESIDE_DENIED = frozenset(
    "sorry no is was should be it reads read i said say meant mean not but and wants has to "
    "actually have been that reading at for s point".split()
)


def corrected(words: Sequence[Word]) -> tuple[Command, ...]:
    """
    The correction of a point of which it is said, too, what it is not; empty for any other line.

    >>> from grammar.language import short_form
    >>> from grammar.words import split_words
    >>> for line in ("sorry A4 was minus 9 not minus 19", "B1 is not minus 9 but minus 12"):
    ...     print([short_form(each) for each in corrected(split_words(line))])
    ['correct A4 -9']
    ['correct B1 -12']
    """
    full = list(in_full(words) or words)
    values, rest = values_said(full)
    texts = [word.text for word in rest]
    sorts = sorted(value.sort for value in values)
    if "not" not in texts or any(text not in _BESIDE_DENIED for text in texts):
        return ()
    if len(values) != 3 or sorts[0] not in ("number", "length", "point") or "point" not in sorts:
        return ()
    point = next(value for value in values if value.sort == "point")
    heights = [value for value in values if value is not point]
    at = {id(word): place for place, word in enumerate(full)}
    not_at = max(place for place, word in enumerate(full) if word.text == "not")
    denied = next((one for one in heights if at[id(one.words[0])] == not_at + 1), None)
    said = [one for one in heights if one is not denied]
    if denied is None or len(said) != 1 or said[0].sort != "reading":
        return ()
    return meanings_of(split_words(f"correct {point.text} {said[0].text}"))


_PUTS_RIGHT = frozenset(
    "no sorry wait i mean meant scratch correction rather or actually oops whoops nope make "
    "hang hold on scrap is it tell a lie lets say".split()
)
_CLEARLY = frozenset("no sorry wait mean meant correction rather oops whoops nope scratch".split())


def put_right_at_once(words: Sequence[Word]) -> list[Word] | None:
    """
    The words without a point or a height that was put right in the same breath; None without one.

    >>> from grammar.words import split_words
    >>> line = split_words("minus 18, no wait minus 19, at c2")
    >>> [word.text for word in put_right_at_once(line)]
    ['minus', '19', 'at', 'c2']
    """
    values, _ = values_said(words)
    places = {id(word): at for at, word in enumerate(words)}
    for wrong, right in pairwise(values):
        if wrong.sort != right.sort or wrong.sort not in ("point", "reading"):
            continue
        start, end = places[id(wrong.words[0])], places[id(right.words[0])]
        between = {word.text for word in words[places[id(wrong.words[-1])] + 1 : end]}
        if between and between <= _PUTS_RIGHT and between & _CLEARLY:
            return [*words[:start], *words[end:]]
    return None


def _is_height(value: Said, *also: str) -> bool:
    return value.sort in ("reading", *also) or value.text in _NOUGHT


def _may_lead(height: Said, values: Sequence[Said]) -> bool:
    """Whether a height may go before its point: of several only where its sign does."""
    return len(values) == 2 or height.words[0].text in ROLES["sign"]


def _paired(values: Sequence[Said]) -> list[tuple[Said, Said]] | None:
    """Each point with its height, whichever was said first; None where they are no pairs."""
    if not values or len(values) % 2:
        return None
    pairs = []
    for one, other in zip(values[::2], values[1::2], strict=True):
        if one.sort == "point" and _is_height(other, "level"):
            pairs.append((one, other))
        elif other.sort == "point" and _is_height(one) and _may_lead(one, values):
            pairs.append((other, one))
        else:
            return None
    heights_first = {values[at].sort != "point" for at in range(0, len(values), 2)}
    return pairs if len(heights_first) == 1 else None
