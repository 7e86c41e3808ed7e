"""The words and units that sound alike, listed once for every module that needs them.

A module chooses the kinds it needs and how much of a sentence it looks at, but keeps no list
of its own.
"""

from __future__ import annotations

from string import ascii_uppercase
from typing import Literal

from grammar.numbers import DIGITS, TEENS, TENS, in_words

ConfusableKind = Literal["sign", "teen", "tens", "digit", "accent"]

PAIRS: dict[ConfusableKind, tuple[tuple[str, str], ...]] = {
    "sign": (("minus", "plus"),),
    "teen": tuple((in_words(10 + ones), in_words(10 * ones)) for ones in range(3, 10)),
    "tens": tuple((in_words(ones), in_words(10 * ones)) for ones in range(6, 10)),
    "digit": (("five", "nine"),),
    "accent": (("thirteen", "fourteen"), ("thirty", "forty")),
}
"""Words that are taken for one another, by what they are.

sign
    Plus and minus: a short word each, and what follows is the same.
teen
    Fifteen and fifty: one unstressed syllable apart.
tens
    Eight and eighty: one more syllable, which is easily swallowed.
digit
    Five and nine, which radio operators say "fife" and "niner" for.
accent
    "Tirty" and "torty", where the vowels of thirty and forty are one.
"""

UNITS: dict[str, tuple[str, ...]] = {
    "mm": ("cm", "in"), "cm": ("mm", "in"), "in": ("mm", "cm"),
    "m": ("ft", "mm"), "ft": ("m", "in"),
}  # fmt: skip
"""A unit -> the units it is heard as, or said in place of."""

LETTERS = ascii_uppercase
"""Column letters: their spoken names were made to differ, so in noise all are equally likely."""

LETTERS_WRITTEN = {
    "ay": "a", "eh": "a", "hey": "a", "be": "b", "bee": "b", "see": "c", "sea": "c", "cee": "c",
    "dee": "d", "ee": "e", "ef": "f", "eff": "f", "gee": "g", "jee": "g", "aitch": "h", "jay": "j",
    "kay": "k", "el": "l", "ell": "l", "em": "m", "en": "n", "pee": "p", "pea": "p", "cue": "q",
    "queue": "q", "ess": "s", "tea": "t", "tee": "t", "vee": "v", "ex": "x", "zed": "z",
    "zee": "z",
}  # fmt: skip
"""How dictation writes the name of a letter -> the letter."""

PLAIN_WORDS_FOR = {
    "eye": "i", "oh": "o", "owe": "o", "are": "r", "you": "u", "why": "y", "eight": "a", "8": "a",
}  # fmt: skip
"""The same, where what is written is likely enough meant as it stands."""

NUMBERS_WRITTEN = {
    "won": "one", "to": "two", "too": "two", "free": "three", "for": "four", "fore": "four",
    "sicks": "six", "ate": "eight", "nein": "nine",
}  # fmt: skip
"""How dictation writes a number -> the number."""

LINE_WRITTEN = frozenset(("lion",))
"""How dictation writes "line" before a number."""

RUN_TOGETHER = {
    "before": ("b", "four"), "befour": ("b", "four"), "seafood": ("c", "four"),
    "atone": ("a", "one"),
}  # fmt: skip
"""A letter and a number that dictation writes as one word."""

_VALUES = DIGITS | TEENS | TENS


def either_way(kind: ConfusableKind) -> dict[str, str]:
    """
    Word -> the word it is mistaken for, and back, for one kind.

    >>> either_way("sign")
    {'minus': 'plus', 'plus': 'minus'}
    """
    return dict(pair for one, other in PAIRS[kind] for pair in ((one, other), (other, one)))


def numbers_alike(kind: ConfusableKind) -> dict[int, int]:
    """
    The same for the numbers of a kind, by value; words that are no numbers are left out.

    >>> numbers_alike("digit"), numbers_alike("teen")[50]
    ({5: 9, 9: 5}, 15)
    """
    return {
        _VALUES[word]: _VALUES[other]
        for word, other in either_way(kind).items()
        if word in _VALUES and other in _VALUES
    }
