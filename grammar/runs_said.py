"""Heights that are said one after the other: a row of them, several of a point, those of a line."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.frozen import frozen
from grammar.numbers_said import LENGTHS
from grammar.pieces import Piece
from grammar.slots import ROLES

_LINES = frozenset(("column", "col", "row", "line"))
_SIDES = {word: "-" if value < 0 else "+" for word, value in ROLES["side"].items()}
_COUNTED = frozenset(
    "ones points values numbers times readings more heights spots together once few all of".split()
)
"""After a number these say that it counts what follows, and is none of it."""
_COUNTS_BEFORE = frozenset("next last these all take you of give for here's are".split())
_NAMED = frozenset(("line", "point", "value", "number", "no", "step", "door", "strip", "every"))
_LEAST_CARRIED = 2


@frozen
class Heights:
    """Heights with their signs, or what of them lacks one."""

    texts: tuple[str, ...] = ()
    unsigned: str = ""
    """What was said without a side, as it is to be asked about."""


def heights_in(pieces: Sequence[Piece]) -> Heights | None:
    """
    The heights of a line that holds nothing else; None where other numbers stand in it.

    A sign, or a side at the end, is that of all beside it that have none, where these are much
    alike: "minus 20, 21, 19" are all below. One of "plus 2, 1, 0, 3" is not carried: that is asked.

    Examples
    --------
    >>> from grammar.pieces import pieces_of
    >>> from grammar.words import split_words
    >>> for line in ("minus 20, 21, 19", "7, 9, 10 low", "minus 2, 0, plus 1", "minus 3, 1, 9"):
    ...     found = heights_in(pieces_of(tuple(split_words(line))))
    ...     print(*found.texts, found.unsigned or "all signed", sep=", ")
    -20, -21, -19, all signed
    -7, -9, -10, all signed
    -2, 0, +1, all signed
    1, 9
    """
    sizes: list[Piece] = []
    signs: list[str] = []
    for at, piece in enumerate(pieces):
        if piece.kind == "word":
            if piece.text in ROLES["level"]:
                sizes.append(piece)
                signs.append("0")
            continue
        if piece.kind == "point" or piece.unit not in ("", *LENGTHS):
            return None
        side = pieces[at + 1].text if at + 1 < len(pieces) else ""
        is_zero = piece.text == "0"
        signs.append("0" if is_zero else piece.sign or _SIDES.get(side, ""))
        if side == "all" and at + 2 < len(pieces):  # "8 8 9, all low"
            signs[-1] = signs[-1] or _SIDES.get(pieces[at + 2].text, "")
        sizes.append(piece)
    if not sizes:
        return None
    given = [sign for sign in signs if sign and sign != "0"]
    lacking = [at for at, sign in enumerate(signs) if not sign]
    if lacking:
        carried = _carried(signs, [float_of(size) for size in sizes])
        if carried is None:
            return Heights(unsigned=", ".join(sizes[at].text for at in lacking))
        signs = carried
    unit = _one_unit(sizes)
    if not given and not any(sign == "0" for sign in signs):
        return Heights(unsigned=", ".join(size.text for size in sizes))
    return Heights(
        tuple(
            "0" if sign == "0" else f"{sign}{size.text} {size.unit or unit}".rstrip()
            for sign, size in zip(signs, sizes, strict=True)
        )
    )


def _one_unit(sizes: Sequence[Piece]) -> str:
    """The unit of all, where one was said for the first or the last alone."""
    with_unit = [at for at, size in enumerate(sizes) if size.unit]
    return sizes[with_unit[0]].unit if with_unit in ([0], [len(sizes) - 1]) else ""


def _carried(signs: Sequence[str], sizes: Sequence[float]) -> list[str] | None:
    """The signs with the one that was said for all; None where it is not clear that it is."""
    given = [at for at, sign in enumerate(signs) if sign and sign != "0"]
    if len(given) != 1 or "0" in signs or given[0] not in (0, len(signs) - 1):
        return None
    if min(sizes) * _LEAST_CARRIED < max(sizes):
        return None
    return [signs[given[0]]] * len(signs)


def float_of(piece: Piece) -> float:
    """A size, to be compared."""
    total = 0.0
    for part in piece.text.replace(" ft ", " ").split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom or 1) if top.replace(".", "").isdigit() else 0.0
    return total


def without_counts(pieces: Sequence[Piece]) -> list[Piece]:
    """The pieces without a number that only says how many heights follow."""
    kept = []
    for at, piece in enumerate(pieces):
        after = pieces[at + 1] if at + 1 < len(pieces) else None
        before = pieces[at - 1] if at else None
        counts = (
            piece.kind == "number"
            and not piece.sign
            and not piece.unit
            and piece.text.isdigit()
            and piece.words[0].kind == "word"
            and after is not None
            and (
                after.text in _COUNTED
                or (before is not None and before.text in _COUNTS_BEFORE and after.kind != "number")
                or (before is not None and before.text in ("next", "all"))
                or after.text == "in"
            )
        )
        begins = before is not None and before.text == "point" and piece.words[0].text == "first"
        if not counts and not begins:
            kept.append(piece)
    return kept


def line_named(pieces: Sequence[Piece]) -> tuple[str, str, list[Piece]] | None:
    """The row, column or line that is named, its word before it, and the pieces beside it."""
    for at in range(len(pieces) - 1):
        word, name = pieces[at], pieces[at + 1]
        if word.kind != "word" or word.text not in _LINES:
            continue
        letter = name.kind == "word" and len(name.text) == 1 and name.text.isalpha()
        number = name.kind == "number" and not name.sign and name.text.isdigit()
        if letter or number:
            return word.text, name.text, [*pieces[:at], *pieces[at + 2 :]]
    return None
