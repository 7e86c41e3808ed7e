"""A line with its slips of the finger mended: words that are in no phrase, near to one that is."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from rapidfuzz.distance import OSA

from grammar.concepts import CONCEPTS
from grammar.language import terminals
from grammar.slots import ROLES
from grammar.small_words import DENIALS, IDLE, SLIGHT, THINGS, TOLD
from grammar.values_said import is_another_unit
from grammar.words import FILLERS, WORD, Word

_SHORTEST = 3
_ORDINARY = frozenset(("later", "weather", "produce", "men"))
"""Words of every day that are one letter from a word of the language, and no slip of it."""
_LONG = 7
"""Letters of a word that may have two slips in it."""


def mend_slips(words: Sequence[Word]) -> list[str] | None:
    """
    The words with slips mended; None where there is none, or one that cannot be mended.

    >>> from grammar.words import split_words
    >>> mend_slips(split_words("wall nroth 4 m")), mend_slips(split_words("wall north 4 m"))
    (['wall', 'north', '4', 'm'], None)
    """
    texts = [word.text for word in words]
    slips = [at for at, word in enumerate(words) if word.kind == WORD and _is_slip(word.text)]
    for at in slips:
        mended = word_meant(texts[at])
        if mended is None:
            return None
        texts[at] = mended
    return (
        [f", {text}" if word.after_pause else text for text, word in zip(texts, words, strict=True)]
        if slips
        else None
    )


def _is_slip(text: str) -> bool:
    return text.isalpha() and text not in known_words()


@cache
def word_meant(said: str) -> str | None:
    """The one known word that another is a slip of; None where there is none, or there are two."""
    if len(said) < _SHORTEST or said in _ORDINARY or is_another_unit(said):
        return None
    found: dict[int, list[str]] = {}
    for word in terminals():
        if len(word) > 3 and word.isalpha():
            slips = OSA.distance(said, word, score_cutoff=2)
            if slips <= (2 if min(len(word), len(said)) >= _LONG else 1) and _alike(said, word):
                found.setdefault(slips, []).append(word)
    nearest = found[min(found)] if found else []
    return nearest[0] if len(nearest) == 1 or _are_one_value(nearest) else None


def _are_one_value(words: Sequence[str]) -> bool:
    """Whether several words stand for one thing: metres and meters."""
    return bool(words) and any(
        len({table.get(word, word) for word in words}) == 1 for table in ROLES.values()
    )


def _alike(said: str, word: str) -> bool:
    """Whether a slip of the finger gives one for the other: "later" is no slip of "water"."""
    if said[0] == word[0]:
        return len(said) != len(word) or len(word) > 4 or sorted(said) == sorted(word)
    return sorted(said) == sorted(word) or (len(said) > _SHORTEST and said in word)


@cache
def known_words() -> frozenset[str]:
    """Words that are no slips: of phrases, of what they are about, and of grammar."""
    kin = {
        part for words in CONCEPTS.values() for word in words.split() for part in word.split("_")
    }
    return frozenset((*terminals(), *kin, *IDLE, *SLIGHT, *THINGS, *DENIALS, *TOLD, *FILLERS))
