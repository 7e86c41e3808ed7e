"""A line's values as they are once it is in pieces, as it stands and as it may have been heard."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from grammar.pieced_values import values_in, with_level, with_zone
from grammar.pieces import Piece, is_unclear, pieces_of
from grammar.values_said import Said
from grammar.words import Word

_NOT_PIECED = ("name", "substrate", "zone", "reason", "opener")
"""Values that keep their own words."""


def readings_of(words: Sequence[Word]) -> Iterator[Sequence[Piece]]:
    """A line in pieces as it stands, and as it may have been heard."""
    for heard in (False, True):
        pieces = pieces_of(tuple(words), heard)
        if not is_unclear(pieces):
            yield pieces


def only_sounds_so(words: Sequence[Word]) -> bool:
    """Whether a number is only whole as it may have been heard: "seventy ate percent"."""
    as_it_stands = {
        piece.words[0].start: piece for piece in pieces_of(tuple(words)) if piece.kind == "number"
    }
    return any(
        piece.kind == "number" and len(piece.words) > len(as_it_stands[piece.words[0].start].words)
        for piece in pieces_of(tuple(words), heard=True)
        if piece.words[0].start in as_it_stands
    )


def in_pieces(values: Sequence[Said], pieces: Sequence[Piece]) -> list[Said] | None:
    """The values of a line in pieces, with those that no piece is; None where they clash."""
    kept = [value for value in values if value.sort in _NOT_PIECED]
    held = {(word.start, word.end) for value in kept for word in value.words}
    rest = [piece for piece in pieces if not any((w.start, w.end) in held for w in piece.words)]
    found = values_in(rest)
    return [*kept, *found] if found is not None else None


def with_more(
    slots: Collection[str], pieces: Sequence[Piece], values: list[Said]
) -> list[list[Said]]:
    """The values of a line, and those with what only a row that lacks it would take for one."""
    found = [values]
    if {"zone", "named_zone"} & set(slots) and (zoned := with_zone(pieces, values)) is not None:
        found.append(zoned)
    if "reading" in slots and (level := with_level(pieces, values)) is not None:
        found.append(level)
    return found
