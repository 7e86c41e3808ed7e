"""Tokenises words into the pieces of the built-in model's vocabulary.

The pieces are those of a SentencePiece byte-pair model. A word must be split exactly
as in training, or the model hardly knows it: neighbours are merged again and again,
the merge that is earliest in the vocabulary first. The 256 pieces for single bytes
only stand in for signs without a piece, and are never merged.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from itertools import pairwise
from pathlib import Path

from assistant.errors import EarsError

_SPACE = "▁"
_FIRST_PIECE = 3 + 256
"""First ordinary piece, after unknown, start, end, and the pieces for bytes."""


def read_tokens(path: Path) -> list[str]:
    """
    The pieces in a tokenizer file, by number; those without text are empty.

    Each follows its length, in one byte, or in two from 128 on.
    Raises :class:`EarsError` for a file that is cut off.
    """
    data, at, pieces = path.read_bytes(), 0, []
    try:
        while at < len(data):
            size = data[at]
            at += 1
            if size >= 128:
                size = size - 128 + 128 * data[at]
                at += 1
            if at + size > len(data):
                raise IndexError
            pieces.append(data[at : at + size].decode("utf-8", "replace"))
            at += size
    except IndexError:
        raise EarsError(f"{path} is cut off: install moonshine-voice again.") from None
    return pieces


class Tokens:
    """Splits words into pieces, and joins pieces again."""

    def __init__(self, pieces: list[str]) -> None:
        self._pieces = pieces
        self._number = {piece: n for n, piece in enumerate(pieces) if n >= _FIRST_PIECE and piece}
        self.cut = cache(self._cut)

    def _cut(self, word: str, joined: bool = False) -> tuple[int, ...]:
        """
        The pieces of a word, with the space before it unless it is joined to the last one.

        Raises KeyError for a sign that has no piece; see :meth:`can_cut`.
        """
        parts = list(word if joined else _SPACE + word)
        while len(parts) > 1:
            merged = [
                (self._number[left + right], at)
                for at, (left, right) in enumerate(pairwise(parts))
                if left + right in self._number
            ]
            if not merged:
                break
            _, at = min(merged)
            parts[at : at + 2] = [parts[at] + parts[at + 1]]
        return tuple(self._number[part] for part in parts)

    def can_cut(self, word: str) -> bool:
        """Whether every sign of a word has a piece."""
        return all(sign in self._number for sign in word)

    def text(self, numbers: Iterable[int]) -> str:
        """The text of pieces."""
        said = "".join(self._pieces[n] for n in numbers if n >= _FIRST_PIECE)
        return said.replace(_SPACE, " ").strip()
