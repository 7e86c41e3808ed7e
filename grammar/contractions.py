"""Words drawn together, said in full: "the primer's on" is "the primer is on"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from grammar.words import WORD, Word

_ENDS = {"'s": "is", "'re": "are", "'ve": "have", "'m": "am", "'ll": "will"}
_WRITTEN = {
    "whats": ("what", "is"), "wheres": ("where", "is"), "hows": ("how", "is"),
    "whens": ("when", "is"), "thats": ("that", "is"), "its": ("it", "is"), "im": ("i", "am"),
    "ive": ("i", "have"), "weve": ("we", "have"),
}  # fmt: skip
"""As they are typed with wet gloves."""


def in_full(words: Sequence[Word]) -> list[Word] | None:
    """
    The words with each that is drawn together in two; None where none is.

    >>> from grammar.words import split_words
    >>> [word.text for word in in_full(split_words("where's it deepest"))]
    ['where', 'is', 'it', 'deepest']
    """
    full = [each for word in words for each in _parts(word)]
    return full if len(full) > len(words) else None


def _parts(word: Word) -> tuple[Word, ...]:
    if word.kind != WORD:
        return (word,)
    text = word.text.replace("’", "'")
    if text in _WRITTEN:
        first, second = _WRITTEN[text]
        return (replace(word, text=first), replace(word, text=second, after_pause=False))
    for end, second in _ENDS.items():
        base = text.removesuffix(end)
        if base and base != text:
            return (replace(word, text=base), replace(word, text=second, after_pause=False))
    return (word,)
