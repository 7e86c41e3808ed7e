"""The spoken language as words and phrases, for a recogniser that takes lists of them."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from functools import cache

from grammar.frozen import frozen
from grammar.spoken import Spoken
from grammar.written import SPELLINGS

Words = tuple[str, ...]


@frozen
class FittedVocabulary:
    """The vocabulary in the spellings of a recogniser's own word list."""

    spelling: dict[str, str]
    """Our word -> the spelling of it that the recogniser knows."""
    missing: Words
    """Words it knows in no spelling: a sentence with one of them cannot be heard."""


def fit_vocabulary(spoken: Spoken, knows: Callable[[str], bool]) -> FittedVocabulary:
    """
    The words of the spoken language, each in a spelling that a recogniser knows.

    >>> fit = fit_vocabulary(Spoken(), lambda word: word not in ("alfa", "metres", "zulu"))
    >>> fit.spelling["alfa"], fit.spelling["metres"], fit.missing
    ('alpha', 'meters', ('zulu',))
    """
    spelling: dict[str, str] = {}
    missing: list[str] = []
    for word in vocabulary(spoken):
        known = next((way for way in (word, *SPELLINGS.get(word, ())) if knows(way)), None)
        if known is None:
            missing.append(word)
        else:
            spelling[word] = known
    return FittedVocabulary(spelling, tuple(missing))


def vocabulary(spoken: Spoken) -> Words:
    """Every word that may be said, in order of the alphabet."""
    return tuple(sorted({word for _, word, _ in spoken.automaton.everywhere()}))


def recogniser_phrases(spoken: Spoken, fit: FittedVocabulary) -> list[str]:
    """
    Sentences that hold every pair of words that may follow one another.

    A recogniser that learns from pairs of words learns the whole language from them.
    Sentences with a word it lacks are left out.
    """
    return [
        " ".join(fit.spelling[word] for word in words)
        for words in _pair_sentences(spoken)
        if all(word in fit.spelling for word in words)
    ]


@cache
def _pair_sentences(spoken: Spoken) -> tuple[Words, ...]:
    arcs = list(spoken.automaton.everywhere())
    onward: dict[int, list[tuple[str, int]]] = {}
    for state, word, following in arcs:
        onward.setdefault(state, []).append((word, following))
    openings = _openings(onward)
    endings = _endings(arcs, spoken.automaton.is_final)
    seen: set[tuple[str, str]] = set()
    sentences: dict[Words, None] = {}
    for state, word, following in arcs:
        for second, after in onward.get(following, [("", -1)]):
            if (word, second) in seen:
                continue
            ending = (second, *endings[after]) if second else ()
            sentence = (*openings[state], word, *ending)
            seen.update(_pairs(sentence))
            sentences[sentence] = None
        if spoken.automaton.is_final(following) and (word, "") not in seen:
            seen.add((word, ""))
            sentences[(*openings[state], word)] = None
    return tuple(sentences)


def _pairs(words: Words) -> Iterator[tuple[str, str]]:
    yield from zip(words, (*words[1:], ""), strict=True)


def _openings(onward: dict[int, list[tuple[str, int]]]) -> dict[int, Words]:
    """The shortest way to every state."""
    found: dict[int, Words] = {0: ()}
    waiting = deque([0])
    while waiting:
        state = waiting.popleft()
        for word, following in onward.get(state, []):
            if following not in found:
                found[following] = (*found[state], word)
                waiting.append(following)
    return found


def _endings(arcs: list[tuple[int, str, int]], is_final: Callable[[int], bool]) -> dict[int, Words]:
    """The shortest way to the end from every state."""
    before: dict[int, list[tuple[int, str]]] = {}
    for state, word, following in arcs:
        before.setdefault(following, []).append((state, word))
    finals = sorted({state for arc in arcs for state in (arc[0], arc[2]) if is_final(state)})
    found: dict[int, Words] = dict.fromkeys(finals, ())
    waiting = deque(finals)
    while waiting:
        state = waiting.popleft()
        for earlier, word in before.get(state, []):
            if earlier not in found:
                found[earlier] = (word, *found[state])
                waiting.append(earlier)
    return found
