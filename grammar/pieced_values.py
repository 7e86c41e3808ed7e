"""The values of a line in pieces, as they may fill the gaps of a row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal, InvalidOperation

from grammar.numbers import plain_number
from grammar.numbers_said import LENGTHS, UNITS
from grammar.pieces import Piece, replaced
from grammar.slots import ROLES
from grammar.slots.zone import ROOMS
from grammar.values_said import Said, ValueSort

_BY = frozenset(("by", "x", "times", "buy"))
MOVES = frozenset("go come take bring move knock raise lower drop lift push grind".split())
"""Beside these "up 4 mm" is no height, but how far."""
_PER = frozenset(("a", "per", "the", "each", "in", "to", "/"))
_AFTER_THE_SIDE = frozenset(("zero", "datum", "nought", "0"))
_LINES = frozenset(("column", "columns", "col", "cols", "row", "rows"))
_BEFORE_A_COLUMN = _LINES | {"at", "line", "marked"}
_FALLS = {("mm", "m"): Decimal(10), ("cm", "m"): Decimal(1)}
"""A height and a length that it falls over -> how many of the one are a hundredth of the other."""


_SORTS: dict[str, ValueSort] = {
    "%": "percent", "degrees": "degrees", "degrees fahrenheit": "degrees",
    **dict.fromkeys(LENGTHS, "length"),
    **dict.fromkeys(("litres", "quarts", "gallons", "lb", "minutes", "mins", "min"), "counted"),
    "": "number",
}  # fmt: skip


def values_in(pieces: Sequence[Piece]) -> list[Said] | None:
    """
    The values among some pieces; None where one is of a unit that nothing takes.

    >>> from grammar.pieces import pieces_of
    >>> from grammar.words import split_words
    >>> line = tuple(split_words("let it drop 1 in 80 to b4, half an inch low at a1"))
    >>> [(each.sort, each.text) for each in values_in(pieces_of(line))]
    [('percent', '1.25'), ('point', 'B4'), ('reading', '1/2 in low'), ('point', 'A1')]
    """
    found: list[Said] = []
    moves = any(piece.text in MOVES for piece in pieces)
    at = 0
    while at < len(pieces):
        if pieces[at].kind == "number" and pieces[at].unit not in _SORTS:
            return None
        said, taken = _value(pieces, at, moves=moves)
        if said is not None:
            found.append(said)
        at += taken
        if said is not None and said.sort == "number" and _goes_on(pieces, at):
            return None
    return found


def _goes_on(pieces: Sequence[Piece], at: int) -> bool:
    """Whether what stands here may be more of the number before it: two may be one."""
    if at >= len(pieces) or pieces[at - 1].unit:
        return False
    piece = pieces[at]
    return piece.kind == "number" and not piece.after_pause and not piece.sign


def _said(sort: ValueSort, piece: Piece, text: str) -> Said:
    return Said(sort, (replaced(piece, text),))


def _value(pieces: Sequence[Piece], at: int, *, moves: bool) -> tuple[Said | None, int]:
    """The value that begins here, and how many pieces it is."""
    piece = pieces[at]
    if piece.kind == "point":
        return _said("point", piece, piece.text.upper()), 1
    if piece.kind == "word":
        before = _LINES if piece.text in ("a", "i") else _BEFORE_A_COLUMN
        if len(piece.text) == 1 and piece.text.isalpha() and _is_word(pieces, at - 1, before):
            return _said("column", piece, piece.text), 1
        if piece.text in ("north", "east", "south", "west"):
            return _said("direction", piece, piece.text), 1
        if piece.text in ROLES["one_word_floor"]:
            return None, 1
        return None, 1
    for way in (_ratio, _pair, _fall):
        if (found := way(pieces, at)) is not None:
            return found
    return _one(pieces, at, moves=moves)


def _one(pieces: Sequence[Piece], at: int, *, moves: bool) -> tuple[Said | None, int]:
    """A single number."""
    piece = pieces[at]
    shown = piece.shown
    if piece.sign:
        sort: ValueSort = "reading" if piece.unit in ("", *LENGTHS) else "alien"
        return _said(sort, piece, shown), 1
    side = pieces[at + 1] if at + 1 < len(pieces) else None
    if side and side.kind == "word" and side.text in ROLES["side"] and not side.after_pause:
        after = pieces[at + 2] if at + 2 < len(pieces) else None
        free = after is None or after.kind == "word" or after.text == "0" or after.after_pause
        may_move = moves and side.text in ("up", "down")
        if free and not may_move and piece.unit in ("", *LENGTHS):
            ends = after is not None and after.text in _AFTER_THE_SIDE
            return _said("reading", piece, f"{shown} {side.text}"), 3 if ends else 2
    if piece.text == "0" and not piece.unit:
        return None, 1
    sort = _SORTS[piece.unit]
    if sort == "length" and UNITS.get(piece.words[-1].text) == piece.unit:
        return _said(sort, piece, f"{piece.text} {piece.words[-1].text}"), 1  # as it was said
    if sort in ("number", "counted") and piece.unit:
        return Said(sort, (replaced(piece, piece.text), *piece.words[-1:])), 1
    return _said(sort, piece, shown), 1


_AT_ZERO = frozenset("is at reads was be to still comes gave says sits back again on".split())


def with_level(pieces: Sequence[Piece], values: Sequence[Said]) -> list[Said] | None:
    """The values with a zero that is read off among them; None where there is none."""
    if any(value.sort == "reading" for value in values):
        return None
    zeros = [at for at, piece in enumerate(pieces) if piece.kind == "number" and piece.shown == "0"]
    if len(zeros) != 1 or not _is_word(pieces, zeros[0] - 1, _AT_ZERO):
        return None
    return [*values, _said("level", pieces[zeros[0]], "level")]


_NO_ZONE = frozenset(
    "the a an this that it my our each every one no new zone and or as separate own extra another "
    "whole different of in is to for called named rows columns".split()
)
_PUT_RIGHT = frozenset(("mean", "meant", "sorry"))


def with_zone(pieces: Sequence[Piece], values: Sequence[Said]) -> list[Said] | None:
    """The values with a part of the floor that is named by "zone"; None where none is."""
    if any(value.sort == "zone" for value in values):
        return None
    if any(piece.text in _PUT_RIGHT for piece in pieces):
        return None
    named = [
        pieces[name]
        for at, piece in enumerate(pieces)
        if piece.kind == "word" and piece.text == "zone"
        for name in (at + 1, at - 1)
        if (0 if name > at else 1) <= name < len(pieces) and pieces[name].kind == "word"
        if pieces[name].text not in _NO_ZONE and pieces[name].text.isalpha()
    ]
    rooms = [piece for piece in pieces if piece.kind == "word" and piece.text in ROOMS]
    found = named[:1] or (rooms if len(rooms) == 1 else [])
    return [_said("zone", found[0], found[0].text), *values] if found else None


def _ratio(pieces: Sequence[Piece], at: int) -> tuple[Said, int] | None:
    """ "1 in 80" as a share."""
    if pieces[at].text != "1" or pieces[at].unit or pieces[at].sign:
        return None
    if not _is_word(pieces, at + 1, {"in", "of"}) or not _is_bare(pieces, at + 2):
        return None
    share = Decimal(100) / Decimal(pieces[at + 2].text)
    if share != round(share, 4):
        return None  # "1 in 60" is no share that can be written out
    return _said("percent", pieces[at], plain_number(share.normalize())), 3


def _fall(pieces: Sequence[Piece], at: int) -> tuple[Said, int] | None:
    """ "10 mm a metre" as a share."""
    per = at + 1
    while _is_word(pieces, per, _PER | {"every"}):
        per += 1
    if per == at + 1 or per >= len(pieces) or pieces[at].sign:
        return None
    over = pieces[per]
    unit = over.unit if over.kind == "number" and over.text == "1" else None
    if over.kind == "word":
        unit = {"m": "m", "metre": "m", "meter": "m"}.get(over.text)
    one = _FALLS.get((pieces[at].unit, unit or ""))
    if one is None or "/" in pieces[at].text:
        return None
    share = Decimal(pieces[at].text) / one
    return _said("percent", pieces[at], plain_number(share)), per + 1 - at


def _pair(pieces: Sequence[Piece], at: int) -> tuple[Said, int] | None:
    """Two sizes, one by the other, with a unit at least once."""
    if not _is_word(pieces, at + 1, _BY) or at + 2 >= len(pieces):
        return None
    first, second = pieces[at], pieces[at + 2]
    units = {each.unit for each in (first, second)} - {""}
    if second.kind != "number" or first.sign or second.sign or not units <= set(LENGTHS):
        return None
    if not units:
        return _said("loose_pair", first, f"{first.text} by {second.text}"), 3
    return _said("pair", first, pair_text(first, second)), 3


def pair_text(first: Piece, second: Piece, unit: str = "") -> str:
    """Two sizes as they are said, the unit of either for both."""
    return (
        f"{first.text} {first.unit or second.unit or unit} by "
        f"{second.text} {second.unit or first.unit or unit}"
    )


def in_millimetres(piece: Piece) -> Decimal | None:
    """A length, to be compared; None for what is none."""
    each = {"mm": "1", "cm": "10", "m": "1000", "in": "25.4", "ft": "304.8"}.get(piece.unit)
    if each is None or " ft " in piece.text:
        return None
    try:
        return sum((_number(part) for part in piece.text.split()), Decimal(0)) * Decimal(each)
    except InvalidOperation:
        return None


def _number(text: str) -> Decimal:
    top, _, bottom = text.partition("/")
    return Decimal(top) / Decimal(bottom or 1)


def _is_word(pieces: Sequence[Piece], at: int, texts: set[str] | frozenset[str]) -> bool:
    return 0 <= at < len(pieces) and pieces[at].kind == "word" and pieces[at].text in texts


def _is_bare(pieces: Sequence[Piece], at: int) -> bool:
    """Whether a whole number of nothing stands here, above one."""
    if at >= len(pieces) or pieces[at].kind != "number":
        return False
    piece = pieces[at]
    return piece.text.isdigit() and int(piece.text) > 1 and not piece.unit and not piece.sign


def numbers_of(pieces: Sequence[Piece]) -> Iterator[Piece]:
    """Those pieces that are numbers."""
    return (piece for piece in pieces if piece.kind == "number")
