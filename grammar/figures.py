"""A spoken sentence in figures: the same command said in two ways comes out the same.

Quick, and good enough to group sentences; what a group means is for the parser.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.numbers import DIGITS, TEENS, TENS, ZEROS
from grammar.slots.point import ALPHABET
from grammar.spoken import plain_words

_SMALL = {**DIGITS, **ZEROS}
_LARGE = {**TEENS, **TENS, "hundred": 100, "thousand": 1000}
_VALUES = _SMALL | _LARGE
PARTS = {
    "half": 2, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "sixteenth": 16,
    "sixteenths": 16,
}  # fmt: skip
_UNIT_TWICE = re.compile(r" (metres|feet|millimetres) by ([0-9.]+ \1)(?! [0-9])")
_LETTERS = frozenset(ALPHABET)
_AFTER = {"finish": ("at", "by")}
_BEFORE = {"minus": ("to",), "plus": ("to",), "level": ("to",), "risk": ("at",)}


def in_figures(text: str) -> str:
    """
    A sentence of the spoken language with its numbers in figures and idle words left out.

    >>> in_figures("Point bravo three minus a hundred and five millimeters.")
    'bravo 3 minus 105 millimetres'
    >>> in_figures("correct golf two five to plus two and three eighths inches")
    'correct golf 25 plus 2 3/8 inches'
    """
    words = [*plain_words(text), ""]
    said: list[str] = []
    at = 0
    while at < len(words) - 1:
        run = _number_run(words, at)
        if run:
            said.append(_value(words[at : at + run]))
            at += run
            if words[at] in PARTS:
                said[-1] += f"/{PARTS[words[at]]}"
                at += 1
        elif _idle(words, at):
            at += 1
        else:
            said.append(words[at])
            at += 1
    # "Two metres by three metres" is "two by three metres".
    return _UNIT_TWICE.sub(r" by \2", " ".join(said))


def numbers_in(words: Sequence[str]) -> list[tuple[int, int, str]]:
    """
    The numbers among plain words: first word, word after the last, and the number in figures.

    >>> numbers_in("bravo three minus a hundred and five millimetres".split())
    [(1, 2, '3'), (3, 7, '105')]
    """
    padded = [*words, ""]
    found, at = [], 0
    while at < len(words):
        if run := _number_run(padded, at):
            found.append((at, at + run, _value(padded[at : at + run])))
        at += max(run, 1)
    return found


def _idle(words: list[str], at: int) -> bool:
    word, following = words[at], words[at + 1]
    if word == "and" or (word == "point" and following in _LETTERS):
        return True
    before = words[at - 1] if at else ""
    return word in _AFTER.get(before, ()) or word in _BEFORE.get(following, ())


def _number_run(words: list[str], at: int) -> int:
    """How many words from here are one number."""
    end = at
    while end < len(words) - 1:
        word, following = words[end], words[end + 1]
        one = word in ("a", "an") and following in (*PARTS, "hundred")
        decimal = word == "point" and end > at and _is_number(following)
        joined = word == "and" and end > at and words[end - 1] in ("hundred", "thousand")
        if not (_is_number(word) or one or decimal or joined):
            break
        end += 1
    return end - at


def _is_number(word: str) -> bool:
    return word in _VALUES or (word[:1].isdigit() and "/" not in word)


def _value(words: list[str]) -> str:
    """
    The figures of one number.

    >>> _value(["three", "thousand", "six", "hundred", "and", "fifty"]), _value(["one", "0", "5"])
    ('3650', '105')
    """
    if "point" in words:
        cut = words.index("point")
        return f"{_value(words[:cut])}.{_value(words[cut + 1 :])}"
    if not any(word in _LARGE for word in words):
        return "".join(str(_SMALL.get(w, 1 if w in ("a", "an") else w)) for w in words)
    thousands = hundreds = 0
    for word in words:
        if word == "thousand":
            thousands, hundreds = 1000 * (hundreds or 1), 0
        elif word == "hundred":
            hundreds = 100 * (hundreds or 1)
        elif word in _VALUES:
            hundreds += _VALUES[word]
        elif word.isdigit():
            hundreds += int(word)
        else:
            hundreds += int(word in ("a", "an"))
    return str(thousands + hundreds)
