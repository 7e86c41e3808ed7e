"""A thing on the floor with its size and its place, as people say them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.frozen import frozen
from grammar.numbers_said import LENGTHS
from grammar.phrase import Phrase
from grammar.pieced_values import pair_text
from grammar.pieces import Piece
from grammar.slots import ROLES

KINDS = {
    **ROLES["obstacle"],
    **dict.fromkeys(("pier", "col", "pilaster"), "column"),
    **dict.fromkeys(
        ("unit", "units", "wardrobe", "press", "almirah", "bench", "plinth", "hearth"),
        "cabinet",
    ),
    "manhole": "hole",
}
"""What is said for a thing -> the kind of it, as the table has it."""
_BY = frozenset(("by", "x", "times", "buy", "on"))
_PLACED = frozenset("at @ centred centered middle centre center corner place from stands".split())
_CORNER = frozenset(("corner", "corner's", "corners"))
_ROUND = frozenset(("round", "circular", "diameter", "dia"))
_SQUARE = frozenset(("square", "sq", "squared"))
_FEWEST_MILLIMETRES = 60
"""Numbers from this on are of millimetres rather than metres, as far as is asked."""
_MOST_METRES, _MOST_FEET = 20, 60
"""A number beside one in metres or feet is of the same unit up to this."""


@frozen
class Lacks:
    """What is missing, as a question."""

    question: str


@frozen
class _Pair:
    at: int
    first: Piece
    second: Piece

    @property
    def units(self) -> set[str]:
        return {self.first.unit, self.second.unit} - {""}

    @property
    def text(self) -> str:
        return f"{self.first.text} by {self.second.text}"


def obstacle(phrase: Phrase, pieces: list[Piece]) -> dict[str, str] | Lacks | None:
    """The gaps of a row about a thing on the floor."""
    kind = _kind(pieces)
    words = {piece.text for piece in pieces if piece.kind == "word"}
    if kind is None:
        return None
    fixed = dict(phrase.fixed)
    by_corner = bool(_CORNER & words)
    if by_corner is not (fixed.get("placed") == "corner"):
        return None
    pieces = _without_ones(pieces, by_corner)
    one_side = "first" in phrase.fields and "second" not in phrase.fields
    if one_side:
        is_square = fixed.get("shape") == "square"
        if not (_SQUARE if is_square else _ROUND) & words:
            return None
        return _of_one_side(phrase, kind, pieces)
    if (_SQUARE | _ROUND) & words:
        return None
    return _of_two_sides(phrase, kind, pieces)


def _kind(pieces: Sequence[Piece]) -> str | None:
    """What a thing is; None where that is not one of a kind."""
    said = [piece.text for piece in pieces if piece.kind == "word" and piece.text in KINDS]
    found = [KINDS[text] for text in said]
    if "shaft" in said:
        return "shaft"  # of a lift, or of pipes
    if found[:2] == ["cabinet", "cabinet"]:
        found = found[:1]
    return found[0] if len(set(found)) == 1 else None


def _without_ones(pieces: list[Piece], by_corner: bool) -> list[Piece]:
    """The pieces without "one pillar", and without A1 where a corner is towards it."""
    kept = []
    for at, piece in enumerate(pieces):
        after = pieces[at + 1].text if at + 1 < len(pieces) else ""
        if piece.kind == "number" and piece.text == "1" and after in KINDS:
            continue
        if by_corner and piece.kind == "point" and piece.text == "a1":
            continue
        kept.append(piece)
    return kept


def _pairs(pieces: Sequence[Piece]) -> list[_Pair]:
    """Each two sizes, one by the other; after a place's word a comma does."""
    found = []
    at = 0
    while at < len(pieces) - 1:
        first, second = pieces[at], pieces[at + 1]
        third = pieces[at + 2] if at + 2 < len(pieces) else second
        if first.kind == third.kind == "number" and second.text in _BY:
            found.append(_Pair(at, first, third))
            at += 3
            continue
        placed = at and pieces[at - 1].text in _PLACED
        if first.kind == second.kind == "number" and second.after_pause and placed:
            found.append(_Pair(at, first, second))
            at += 2
            continue
        at += 1
    return found


def _is_place(pair: _Pair, pieces: Sequence[Piece]) -> bool:
    """Whether a place's word stands shortly before."""
    return any(piece.text in _PLACED for piece in pieces[max(pair.at - 3, 0) : pair.at])


def _counted(pieces: Sequence[Piece]) -> tuple[int, int]:
    return (
        sum(piece.kind == "number" for piece in pieces),
        sum(piece.kind == "point" for piece in pieces),
    )


def _of_two_sides(phrase: Phrase, kind: str, pieces: list[Piece]) -> dict[str, str] | Lacks | None:
    pairs = _pairs(pieces)
    numbers, points = _counted(pieces)
    if any(piece.sign for piece in pieces):
        return None
    at_point = "point" in phrase.fields
    if numbers != 2 * len(pairs) or points != at_point:
        return None
    sized = "first" in phrase.fields
    if len(pairs) != sized + (not at_point):
        return None
    if at_point:
        point = next(piece.shown for piece in pieces if piece.kind == "point")
        if not sized:
            return {"kind": kind, "point": point}
        size = _with_unit(pairs[0], set())
        return (
            {"kind": kind, "first": size, "second": size, "point": point}
            if size
            else _no_unit(f"{kind} {pairs[0].text}")
        )
    if not sized:
        place = _with_unit(pairs[0], set())
        return {"kind": kind, "along": place, "across": place} if place else None
    first, second = pairs
    if _is_place(first, pieces) and not _is_place(second, pieces):
        first, second = second, first
    size = _with_unit(first, second.units)
    place = _with_unit(second, first.units)
    if place is not None and size is None:
        return _no_unit(f"{kind} {first.text}")
    if size is None or place is None:
        return _no_unit(f"{kind} {first.text} at {second.text}")
    return {"kind": kind, "first": size, "second": size, "along": place, "across": place}


def _of_one_side(phrase: Phrase, kind: str, pieces: list[Piece]) -> dict[str, str] | Lacks | None:
    """A round or a square thing: one size, and a pair or a point for its place."""
    at_point = "point" in phrase.fields
    pairs = _pairs(pieces)
    numbers, points = _counted(pieces)
    if numbers != 1 + 2 * (not at_point) or points != at_point or len(pairs) != (not at_point):
        return None
    of_pair = {id(each) for pair in pairs for each in (pair.first, pair.second)}
    side = next(piece for piece in pieces if piece.kind == "number" and id(piece) not in of_pair)
    units = pairs[0].units if pairs else set()
    size = _one_with_unit(side, units)
    if at_point:
        point = next(piece.shown for piece in pieces if piece.kind == "point")
        texts = {"point": point}
    else:
        place = _with_unit(pairs[0], {side.unit} - {""})
        if place is None or size is None:
            return _no_unit(f"{kind} {side.shown} at {pairs[0].text}")
        texts = {"along": place, "across": place}
    return {"kind": kind, "first": size, **texts} if size else _no_unit(f"{kind} {side.text}")


def _no_unit(line: str) -> Lacks:
    largest = max(float(each) for each in re.findall(r"\d+(?:\.\d+)?", line))
    unit = "millimetres" if largest >= _FEWEST_MILLIMETRES else "metres"
    return Lacks(f"{line[0].upper()}{line[1:]}: in which unit, {unit}?")


def _with_unit(pair: _Pair, others: set[str]) -> str | None:
    """A pair with its unit, or the other pair's where that may be it; None without one."""
    if any(unit not in LENGTHS for unit in pair.units):
        return None
    if pair.units:
        return pair_text(pair.first, pair.second)
    units = {unit for unit in others if _may_be(unit, pair.first, pair.second)}
    return pair_text(pair.first, pair.second, units.pop()) if len(units) == 1 else None


def _one_with_unit(piece: Piece, others: set[str]) -> str | None:
    if piece.unit:
        return piece.shown if piece.unit in LENGTHS else None
    units = {unit for unit in others if _may_be(unit, piece)}
    return f"{piece.text} {units.pop()}" if len(units) == 1 else None


def _may_be(unit: str, *pieces: Piece) -> bool:
    """Whether numbers may be of a unit that was said of others: metres and feet, if not many."""
    most = {"m": _MOST_METRES, "ft": _MOST_FEET}.get(unit)
    sizes = [float(piece.text) for piece in pieces if piece.text.replace(".", "").isdigit()]
    return most is not None and len(sizes) == len(pieces) and max(sizes) <= most
