"""
How likely each row of the phrase table is meant by some words, whatever values were said.

A word weighs the more, the fewer rows it belongs to. Kindred words count for one another.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from math import log
from operator import itemgetter

from grammar.commands import Change, Filing
from grammar.frozen import frozen
from grammar.kindred import IDLE, KINDRED, SLIGHT, THINGS
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.template import Literal, Node, OneOf, SlotNode, walk_template

_KIN = 0.95
"""What a kindred word counts for, of 1."""
_SLIGHTLY = 0.15
"""What a word counts for that says little."""
_UNKNOWN = 0.2
"""What a word counts for that no row knows, in a line that is looked at loosely."""
_BY_HINT = 0.7
"""What a word that a row is about counts for, of all that would have to be said of it."""
_LEAST = 0.45
"""Rows that are less likely (0 to 1) are not looked at."""


@frozen
class Weighed:
    """A way to say a row, and how likely it is meant."""

    phrase: Phrase
    nodes: tuple[Node, ...]
    likely: float
    words: frozenset[str]
    """All words of the way."""
    is_telling: bool
    """Whether a word of it was said that tells it from other rows."""
    is_about_a_thing: bool
    """Whether at least a thing of it was named."""


@frozen
class _Way:
    """A way to say a row as what it is about."""

    phrase: Phrase
    nodes: tuple[Node, ...]
    words: frozenset[str]
    parts: tuple[tuple[frozenset[str], ...], ...]
    """What has to be said of it, each in one of several ways to say it."""
    about: frozenset[str]
    """All that it may be known by."""
    hints: frozenset[str]
    """Those of them that are in no way to say it."""


_OWN = frozenset(("finished", "working"))
"""Words that are about something else than their stem."""


def stem(word: str) -> str:
    """
    A word without the endings that do not change what it is about.

    >>> stem("bags"), stem("primer's"), stem("pouring"), stem("glass")
    ('bag', 'primer', 'pour', 'glass')
    """
    word = word.removesuffix("'s")
    if word in _OWN:
        return word
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-1]
    if len(word) > 6 and word.endswith("ing"):
        word = word[:-3]
    elif len(word) > 5 and word.endswith("ed"):
        word = word[:-2]
    return word


@cache
def senses(word: str) -> frozenset[str]:
    """
    The stems of the phrases' own words that a word may be said for.

    >>> sorted(senses("sacks"))
    ['bag', 'sack']
    """
    mine = stem(word)
    said_for = {
        stem(head)
        for head, kin in KINDRED.items()
        if word in kin.split() or mine in {stem(each) for each in kin.split()}
    }
    return frozenset((mine, *said_for))


def weigh_rows(said: Sequence[str], *, asks: bool = False, loosely: bool = False) -> list[Weighed]:
    """
    Each row that is about what was said, in its likeliest way, the likeliest row first.

    ``asks`` of a line that asks: a thing beside what it is about says little there. ``loosely``:
    so does a word that no row knows.
    """
    content = list(dict.fromkeys(word for word in said if word not in IDLE and word.isalpha()))
    if not content:
        return []
    best: dict[int, Weighed] = {}
    for number in sorted(_rows_with(content)):
        for way in _ways()[number]:
            likely = _likely(way, content, asks, loosely)
            if likely >= _LEAST and (number not in best or likely > best[number].likely):
                best[number] = _weighed(way, likely, content)
    return sorted(best.values(), key=lambda row: -row.likely)


def _weighed(way: _Way, likely: float, content: Sequence[str]) -> Weighed:
    known = [word for word in content if _counts(word, way.about)]
    telling = any(not _is_in(word, SLIGHT | THINGS) for word in known)
    thing = any(_is_in(word, THINGS) for word in known)
    return Weighed(way.phrase, way.nodes, likely, way.words, telling, thing)


def _likely(way: _Way, content: Sequence[str], asks: bool, loosely: bool) -> float:
    """How much of what was said it is about, and how much of it was said."""
    asks = asks and not issubclass(way.phrase.command, (Change, Filing))
    said = meant = 0.0
    for word in content:
        counts = _counts(word, way.about)
        said += _weight(word) if counts else _weight_beside(word, asks, loosely)
        meant += _weight(word) * counts
    needed = got = 0.0
    for part in way.parts:
        weight, share = max((_said_of(one, content) for one in part), key=itemgetter(1))
        needed += weight
        got += weight * share
    if not needed:
        return 0.0
    of_line, of_way = meant / said, got / needed
    if any(_counts(word, way.hints) for word in content if not _is_in(word, SLIGHT)):
        of_way = max(of_way, _BY_HINT)
    return of_line * (0.25 + 0.75 * of_way)


def _is_in(word: str, words: frozenset[str]) -> bool:
    return word in words or stem(word) in words


def _said_of(words: frozenset[str], content: Sequence[str]) -> tuple[float, float]:
    """What some words weigh, and the share of it that was said."""
    weight = sum(_weight(word) for word in words)
    said = sum(_weight(word) * max(_counts(each, (word,)) for each in content) for word in words)
    return weight, said / weight if weight else 1.0


def _counts(word: str, words: Iterable[str]) -> float:
    """What a word that was said counts for, beside a phrase's own words."""
    stems = {stem(other) for other in words}
    if stem(word) in stems:
        return 1.0
    return _KIN if senses(word) & stems else 0.0


def says_much(word: str) -> bool:
    """Whether a word tells rows of the table from others."""
    return word not in IDLE and not _is_in(word, SLIGHT | THINGS) and bool(_rows_with([word]))


@cache
def _weight(word: str) -> float:
    if word in IDLE:
        return 0.0
    return log((len(PHRASES) + 1) / max(len(_rows_with([word])), 1))


@cache
def _weight_beside(word: str, asks: bool, loosely: bool) -> float:
    """What a word weighs that a way does not have."""
    if loosely and not _rows_with([word]):
        return _weight(word) * _UNKNOWN
    slight = _is_in(word, SLIGHT) or (asks and _is_in(word, THINGS))
    return _weight(word) * (_SLIGHTLY if slight else 1.0)


def _rows_with(words: Sequence[str]) -> frozenset[int]:
    found: set[int] = set()
    for word in words:
        for sense in senses(word):
            found |= _index().get(sense, set())
    return frozenset(found)


@cache
def _index() -> dict[str, set[int]]:
    index: dict[str, set[int]] = {}
    for number, ways in enumerate(_ways()):
        for way in ways:
            for word in way.about:
                index.setdefault(stem(word), set()).add(number)
    return index


@cache
def _ways() -> tuple[tuple[_Way, ...], ...]:
    """The ways of each row."""
    return tuple(tuple(_way(phrase, nodes) for nodes in phrase.every_way) for phrase in PHRASES)


def _way(phrase: Phrase, nodes: tuple[Node, ...]) -> _Way:
    words = frozenset(
        leaf.word.lower() for leaf in walk_template(nodes) if isinstance(leaf, Literal)
    )
    hints = frozenset(phrase.about.split())
    about = frozenset(word for word in words if word not in IDLE) | hints
    return _Way(phrase, nodes, words, tuple(_parts(nodes)), about, hints)


def _parts(nodes: tuple[Node, ...]) -> Iterable[tuple[frozenset[str], ...]]:
    for node in nodes:
        if isinstance(node, Literal) and node.word.lower() not in IDLE:
            yield (frozenset((node.word.lower(),)),)
        elif isinstance(node, OneOf) and not node.optional:
            ways = tuple(frozenset(_content(way)) for way in node.ways)
            if all(ways):
                yield ways


def _content(nodes: tuple[Node, ...]) -> Iterable[str]:
    for leaf in walk_template(nodes):
        if not isinstance(leaf, SlotNode) and leaf.word.lower() not in IDLE:
            yield leaf.word.lower()
