"""
What a phone's keyboard writes of what it hears: "be three minus 18", "see two", "before -12".

A letter's name and a number beside it may be a point. This is looked for only in a line that
makes no sense as it stands; which words sound alike is in :mod:`grammar.confusable`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from grammar.confusable import (
    LETTERS_WRITTEN,
    NUMBERS_WRITTEN,
    PLAIN_WORDS_FOR,
    RUN_TOGETHER,
)
from grammar.frozen import frozen
from grammar.numbers import DIGITS, TEENS, TENS
from grammar.slots import ROLES
from grammar.slots.point import LETTERS
from grammar.words import NUMERAL, Word, join_words

_MOST_WORDS = 12
"""Longer lines are talk."""
_UNITS_TOO = frozenset("cfmx")
"""Letters that are units or signs, too: with a number in words they make a point only together."""
_MOST_LINES = 8
"""Lines tried; each costs a parse."""


@frozen
class Dictated:
    """A line as it may have been said."""

    line: str
    is_sure: bool
    """Whether only names of letters were written as words, each with its number beside it."""


def dictated(words: Sequence[Word]) -> list[Dictated]:
    """
    The lines that may have been said, the likeliest first; none where nothing sounds alike.

    >>> from grammar.words import split_words
    >>> dictated(split_words("be three minus 18 mm"))
    [Dictated(line='b three minus 18 mm', is_sure=True)]
    >>> dictated(split_words("before minus 12")), dictated(split_words("tally"))
    ([Dictated(line='b four minus 12', is_sure=False)], [])
    """
    if len(words) > _MOST_WORDS:
        return []
    ways = _ways(tuple(words), 0, after=None)
    lines = (Dictated(join_words(said), is_sure) for said, is_sure, changed in ways if changed)
    return list(islice(lines, _MOST_LINES))


def _ways(
    words: tuple[Word, ...], at: int, after: str | None
) -> Iterator[tuple[list[str], bool, bool]]:
    """Every way to hear the rest of a line: its words, whether it is sure, whether it differs."""
    if at == len(words):
        yield [], True, False
        return
    for said, taken, sure, changed in _here(words, at, after):
        for rest, rest_sure, rest_changed in _ways(words, at + taken, said[-1]):
            yield [*said, *rest], sure and rest_sure, changed or rest_changed


def _here(
    words: tuple[Word, ...], at: int, after: str | None
) -> Iterator[tuple[list[str], int, bool, bool]]:
    """What may have been said here: words, how many were written, whether sure, whether other."""
    word = words[at]
    text = f", {word.text}" if word.after_pause else word.text
    row = _row(words, at + 1)
    if row is not None:
        letter = LETTERS_WRITTEN.get(word.text)
        plain = PLAIN_WORDS_FOR.get(word.text)
        own = word.text if word.text in LETTERS else None
        if letter in _UNITS_TOO:
            yield [f"{letter}{_figures(row)}"], 2, True, True
        elif letter:
            yield [letter, row], 2, True, True
        elif plain:
            yield [plain, row], 2, False, True
        elif own and row != words[at + 1].text:
            yield [own, row], 2, True, True
        elif own and len(words) == 2 and row in DIGITS:
            # "A one", and nothing else: a point, where "a" is an article in a line.
            yield [f"{own}{DIGITS[row]}"], 2, False, True
    if word.text in RUN_TOGETHER:
        yield [*RUN_TOGETHER[word.text]], 1, False, True
    elif word.kind == NUMERAL and len(word.text) in (2, 3) and word.text.startswith("8") and not at:
        # "A three" is written 83.
        yield ["a", word.text[1:]], 1, False, True
    elif word.text in NUMBERS_WRITTEN and after in ROLES["sign"]:
        yield [NUMBERS_WRITTEN[word.text]], 1, False, True
    yield [text], 1, True, False


def _figures(row: str) -> str:
    return str({**DIGITS, **TEENS, **TENS}.get(row, row))


def _row(words: tuple[Word, ...], at: int) -> str | None:
    """The number of a row, as a word of it or what sounds so; None for another word."""
    if at >= len(words) or words[at].after_pause:
        return None
    text = words[at].text
    if words[at].kind == NUMERAL:
        return text if text.isdigit() and len(text) < 3 else None
    if text in DIGITS or text in TEENS or text in TENS:
        return text
    return NUMBERS_WRITTEN.get(text)
