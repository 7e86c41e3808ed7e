"""
Readings in full among the words with which somebody reads them off: "at D1 I've got nine under".

Only words that change nothing of what was read may stand beside a point and its height; where
anything else was said, nothing is taken.
"""

from __future__ import annotations

from collections.abc import Sequence

from grammar.commands import Command
from grammar.commands.readings import TakeReading
from grammar.commands.walk import TakePoints
from grammar.contractions import in_full
from grammar.match import meanings_of
from grammar.small_words import ASKING
from grammar.values_said import Said, values_said
from grammar.words import Word, split_words

_BESIDE = frozenset(
    """
    at on here there now then next and is are am be i we it this that one spot point
    have has got get gets getting make makes find finding read reads reading sit sits sitting sat
    come comes came coming out show shows showing measure measures measured measuring give gives
    giving gave turn turns turned stand stands standing dead bang
    call log enter book record add for reading's shot
    """.split()
)
"""What may stand beside: words of reading off, and of no wish, doubt, denial or third person."""

_COME = ("come", "comes", "came", "coming")


def read_off(words: Sequence[Word]) -> tuple[Command, ...]:
    """
    The readings that a line holds among words of reading off; empty for any other line.

    >>> from grammar.language import short_form
    >>> from grammar.words import split_words
    >>> [short_form(each) for each in read_off(split_words("at D1 I've got nine under"))]
    ['D1 -9']
    >>> read_off(split_words("D1 should have been nine under"))
    ()
    """
    if not words or words[0].text in ASKING:
        return ()
    values, rest = values_said(in_full(words) or words)
    values = [value for value in values if value.text != "one"]  # "this one" counts nothing
    texts = [word.text for word in rest]
    # "Over at B3" is no side; any other "over" may be one, said twice.
    if texts[:2] == ["over", "at"]:
        del texts[0]
    if "in" in texts and texts[texts.index("in") - 1] in _COME:
        texts.remove("in")  # any other "in" is a unit
    if not texts or any(text not in _BESIDE for text in texts):
        return ()
    pairs = _paired(values)
    if pairs is None:
        return ()
    line = ", ".join(f"{point.text} {height.text}" for point, height in pairs)
    found = meanings_of(split_words(line))
    return found if all(isinstance(each, (TakeReading, TakePoints)) for each in found) else ()


def _paired(values: Sequence[Said]) -> list[tuple[Said, Said]] | None:
    """Each point with its height, whichever was said first; None where they are no pairs."""
    if not values or len(values) % 2:
        return None
    pairs = []
    for one, other in zip(values[::2], values[1::2], strict=True):
        if one.sort == "point" and other.sort in ("reading", "level"):
            pairs.append((one, other))
        elif one.sort == "reading" and other.sort == "point" and len(values) == 2:
            pairs.append((other, one))
        else:
            return None
    return pairs
