"""
A question said in full inside a longer line: "so how many bags am I looking at, all in all".

What stands around it may hold no value and no word that denies or tells, so that nothing which
was said is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from grammar.commands import Ask, Command
from grammar.errors import Impossible
from grammar.frames import evokes
from grammar.language import terminals
from grammar.match import NoParse, meanings_of, parse
from grammar.phrases import PHRASES
from grammar.small_words import DENIALS, IDLE, SLIGHT, THINGS, TOLD
from grammar.template import Literal, OneOf, SlotNode
from grammar.words import WORD, Word

_SHORTER = 5
"""Words by which what fits is shortened, until it is whole."""
_MOST_BESIDE = 6
"""Words that may stand around it; raising it costs parses, too, in a line of many questions."""
_ASK_OTHER = frozenset("how why where".split())
"""Beside a question these ask another one: "where should I take more shots"."""
_HARMLESS = IDLE | SLIGHT | THINGS


def question_within(words: Sequence[Word]) -> Command | None:
    """
    The longest question that a line holds word for word; None where none is, or there are two.

    >>> from grammar.words import split_words
    >>> question_within(split_words("so how many bags am I looking at all in all"))
    AskFigure(figure='bags')
    >>> question_within(split_words("how many bags did he say"))
    """
    found: dict[int, tuple[Command, ...]] = {}
    for start, word in enumerate(words):
        if word.text not in _openers():
            continue
        end = _fits(words[start:]) + start
        for stop in range(end, max(end - _SHORTER, start + 1), -1):
            if not _is_harmless([*words[:start], *words[stop:]]):
                continue
            if commands := meanings_of(words[start:stop]):
                found.setdefault(stop - start, commands)
                break
    if not found:
        return None
    commands = found[max(found)]
    # One word says too little of a line to stand for all of it.
    if len(commands) != 1 or not isinstance(commands[0], Ask) or max(found) < 2:
        return None
    return commands[0]


def _is_harmless(beside: Sequence[Word]) -> bool:
    return len(beside) <= _MOST_BESIDE and all(
        word.kind == WORD
        and word.text not in DENIALS | TOLD | _ASK_OTHER
        and (word.text in _HARMLESS or not _is_about_something(word.text))
        for word in beside
    )


def _is_about_something(word: str) -> bool:
    return word in terminals() or evokes(word)


def _fits(words: Sequence[Word]) -> int:
    """How many words from the first on are the beginning of a phrase, or all of one."""
    try:
        parse(list(words))
    except NoParse as stop:
        return stop.at
    except Impossible:
        return 0
    return len(words)


@cache
def _openers() -> frozenset[str]:
    """Words with which a question begins, in any of its ways."""
    return frozenset(
        word
        for phrase in PHRASES
        if issubclass(phrase.command, Ask)
        for nodes in phrase.every_way
        for word in _first_words(nodes)
    )


def _first_words(nodes: Sequence[Literal | SlotNode | OneOf]) -> set[str]:
    found: set[str] = set()
    for node in nodes:
        if isinstance(node, Literal):
            return {*found, node.word.lower()}
        if isinstance(node, SlotNode):
            return found
        for way in node.ways:
            found |= _first_words(way)
        if not node.optional:
            return found
    return found
