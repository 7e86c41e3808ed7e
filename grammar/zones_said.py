"""A part of the floor with its name, as people say them: "call columns E to G the shop"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from grammar.pieces import Piece, line_of
from grammar.sizes_said import Lacks
from grammar.slots.zone import ROOMS

_SIDES = {
    "left": r"left(?: hand)?(?: side)?",
    "right": r"right(?: hand)?(?: side)?",
    "above": r"(?:above|over|beyond|upper side|north)",
    "below": r"(?:below|under|beneath|underneath|lower side)",
}
_POINTS = r"(?P<first>[A-Z]{1,2}\d\d?)(?: , )? ?(?:to|-|and|through)? ?(?P<last>[A-Z]{1,2}\d\d?)"
_TO = r"(?:up )?(?:to|and|through|until|till|-)"
_LETTERS = rf"(?P<first>[a-z])(?: {_TO} (?:column )?(?P<last>[a-z]))?"
_NUMBERS = rf"(?P<first>\d\d?)(?: {_TO} (?:row )?(?P<last>\d\d?)| -(?P<till>\d\d?))?"
_REGIONS = {
    "points": rf"\b(?:from )?{_POINTS}\b",
    "rows": rf"\brows? (?:from )?{_NUMBERS}\b",
    "columns": rf"\b(?:columns?|cols?) (?:from )?{_LETTERS}(?![\w'])",
}
_BESIDE = frozenset(
    """
    a an the is are be it its it's that this these them what whats all everything every every
    from of on in into to too for as by between and then with up at let us i we you i'd i'll
    call called calling name named naming zone zones make makes made making set put have has want
    would like should could can please mark part area bit side half floor space whole region piece
    line lines plan drawing lies lying lie runs run there here so well add create define new one
    box boxed rectangle square corner through go goes stretch section known being gets get give
    mind treat take block down over own its his number place points point
    """.split()
)
_NAMED = re.compile(
    r"\b(?:zone(?: (?:called|named))?|call(?:ed)?(?: (?:it|that|this|them|zone))*"
    r"|named?(?: (?:it|that|this|them))*)(?: the| a)? (?P<name>[a-z]+(?: [a-z]+)?(?: \d\d?)?)"
)
_NUMBERED = re.compile(r"\bzone (?P<number>\d\d?)\b")


def zone(
    kind: object, fields: Iterable[str], pieces: Sequence[Piece]
) -> dict[str, str] | Lacks | None:
    """
    A zone's name and where it lies; None where one of them is not clear.

    >>> from grammar.pieces import pieces_of
    >>> from grammar.words import split_words
    >>> line = pieces_of(tuple(split_words("the office is all of rows 7 to 9")))
    >>> zone("rows", ("name", "first", "last"), line)
    {'first': '7', 'last': '9', 'name': 'zone office'}
    """
    line = line_of(pieces)
    if (side := next((each for each in _SIDES if each == kind), "")) != "":
        found = _beside(line, side)
    elif any(re.search(rf"\b{words}\b", line) for words in _SIDES.values()) and kind == "points":
        return None
    else:
        found = next(re.finditer(_REGIONS.get(str(kind), r"(?!)"), line), None)
    if found is None:
        return None
    texts = {"first": found["first"]}
    last = found["last"] or (found.groupdict().get("till"))
    if ("last" in fields) is not (last is not None):
        return None
    if last is not None:
        texts["last"] = last
    rest = f"{line[: found.start()]} , {line[found.end() :]}"
    if re.search(r"\b(?:rows?|columns?|cols?|[A-Z]{1,2}\d\d?)\b", rest):
        return None  # more of it than was understood
    name = _name(rest)
    return {**texts, "name": name} if name else None


def _beside(line: str, side: str) -> re.Match[str] | None:
    """Two points, and on which side of them; none where two sides are named."""
    named = [each for each, words in _SIDES.items() if re.search(rf"\b{words}\b", line)]
    if named != [side]:
        return None
    return re.search(
        rf"\b{_SIDES[side]}(?: from| of)?(?: a| the)*(?: slanting| straight)?(?: line)?"
        rf"(?: from| through)? {_POINTS}\b",
        line,
    ) or re.search(rf"\bline {_POINTS}\b", line)


def _name(rest: str) -> str | None:
    """The one name among what is said beside; None where there is none, or more."""
    number = _NUMBERED.search(rest)
    if number is not None:
        beside = rest[: number.start()] + rest[number.end() :]
        return None if re.search(r"\d", beside) else f"zone {number['number']}"
    said = _NAMED.search(rest)
    if said is not None and " of" not in said["name"]:
        words = [word for word in said["name"].split() if word not in _BESIDE]
        if words and said["name"].split()[0] == words[0] and not _digits_beside(rest, said["name"]):
            return f"zone {' '.join(words[:2])}"
    if re.search(r"\d", rest):
        return None
    groups = [
        [word for word in part.split() if word not in _BESIDE] for part in re.split(r"[,:]", rest)
    ]
    words = [word for group in groups for word in group if re.fullmatch(r"[a-z]{2,}", word)]
    rooms = [word for word in words if word in ROOMS]
    if len(words) in (1, 2) and all(word in f" {rest} " for word in words):
        return f"zone {' '.join(words)}" if f" {' '.join(words)} " in f" {rest} " else None
    return f"zone {rooms[0]}" if len(rooms) == 1 and len(words) < 4 else None


def _digits_beside(rest: str, name: str) -> bool:
    return re.search(r"\d", rest.replace(name, "", 1)) is not None
