"""
The values in a line that no phrase takes: points, heights, lengths, numbers, as they were said.

Each is kept as its own words, which are put into a phrase as they stand: what they mean is for
the parser. Nothing is made up here, and nothing that was said is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Literal

from grammar.figures import numbers_in
from grammar.frozen import frozen
from grammar.numbers import DIGITS
from grammar.slots import ROLES
from grammar.slots.point import ALPHABET, LETTERS
from grammar.words import FRACTION, LABEL, NUMERAL, WORD, Word, join_words

ValueSort = Literal[
    "point", "reading", "level", "length", "pair", "percent", "degrees", "number", "name",
    "substrate", "direction", "column", "alien", "counted", "zone", "reason", "opener",
    "loose_pair",
]  # fmt: skip
"""
What a piece of a line is; ``alien`` is a number of something that no length is, ``counted`` one
of minutes or litres, which only a row about these takes, and a ``loose_pair`` two sizes of no unit.
"""

TAKES: dict[str, tuple[ValueSort, ...]] = {
    "point": ("point",),
    "line": ("point", "column", "number"),
    "reading": ("reading", "level"),
    "signed_reading": ("reading",),
    "length": ("length",),
    "loose": ("length", "number"),
    "pair": ("pair",),
    "number": ("number", "counted"),
    "whole": ("number",),
    "column": ("column",),
    "grid_line": ("column", "number"),
    "named_zone": ("zone",),
    "zone": ("zone",),
    "count": ("number",),
    "sentence": ("reason",),
    "percent": ("percent", "number"),
    "temperature": ("degrees", "number"),
    "name": ("name",),
    "substrate": ("substrate",),
    "direction": ("direction",),
}
"""A slot -> what may fill it. A slot that is not here is never filled by a guess."""

_LONGEST_NUMBER = 10
"""Words in one number."""
_NO_LETTER = frozenset(("a", "i"))
"""Letters that are words of their own; beside a number they name a column only where joined."""
_UNIT_LETTERS = frozenset("xmcf")
"""Letters that are units or signs, too; before a number in words they are no column."""
_PARTS = re.compile(r"half|halves|quarters?|eighths?|sixteenths?|fourths?")
_ALIEN = re.compile(
    r"(milli|centi)?(lit(re|er)|gram(me)?)s?|(kilo|deci|micro|nano|deca|hecto|mega)\w+|kg|kilos?|"
    r"tonnes?|tons?|pounds?|lbs?|gallons?|quarts?|pints?|yards?|yd|km|ml|l|euros?|dollars?|quid|"
    r"bucks?|hours?|minutes?|mins?|seconds?|days?|weeks?|months?|years?|o'clock|am|pm|sr"
)
"""Units of what no length, share or temperature is measured in."""
_UNITS = frozenset((*ROLES["metric_unit"], *ROLES["inch"], *ROLES["foot"]))
_COLUMN = frozenset(("column", "row", "columns", "rows"))


def is_another_unit(word: str) -> bool:
    """Whether a word is a unit, rightly spelt, of what is no length: litres are not metres."""
    return bool(_ALIEN.fullmatch(word))


@frozen
class Said:
    """A value in a line."""

    sort: ValueSort
    words: tuple[Word, ...]

    @property
    def text(self) -> str:
        """Its own words, as a line."""
        if self.sort == "reason":
            return self.words[0].text
        if self.sort == "zone":
            return f"zone {self.words[0].text}"
        if self.sort == "counted":
            return join_words(word.text for word in self.words[:-1])
        return join_words(word.text for word in self.words)


def values_said(words: Sequence[Word], names: Sequence[str] = ()) -> tuple[list[Said], list[Word]]:
    """
    The values of a line, in order, and the words beside them.

    ``names`` are product names that may be among the words.

    >>> from grammar.words import split_words
    >>> values, rest = values_said(split_words("make b three minus 16 mm"))
    >>> [(each.sort, each.text) for each in values], [word.text for word in rest]
    ([('point', 'b three'), ('reading', 'minus 16 mm')], ['make'])
    """
    scan = _Scan(words, [name.lower().split() for name in names])
    values, rest = [], []
    while scan.at < len(words):
        said = scan.value()
        if said is None:
            rest.append(words[scan.at])
            scan.at += 1
        else:
            values.append(said)
    return values, rest


class _Scan:
    """A walk through a line, word by word."""

    def __init__(self, words: Sequence[Word], names: list[list[str]]) -> None:
        self._words = words
        self._names = names
        self._texts = [word.text if word.kind in (WORD, NUMERAL) else "" for word in words]
        self.at = 0
        self._after_point = False

    def value(self) -> Said | None:
        """The value that begins here, which is then passed; None where none does."""
        start = self.at
        for sort, end in self._here(start):
            if end > start:
                self.at = end
                self._after_point = sort == "point"
                return Said(sort, tuple(self._words[start:end]))
        if self._texts[start] not in ("is", "reads", "was", "dead", "bang", "spot"):
            self._after_point = False
        return None

    def _here(self, at: int) -> Iterator[tuple[ValueSort, int]]:
        yield "name", self._name(at)
        yield "point", self._point(at)
        if self._text(at) in ROLES["level"] and self._after_point:
            yield "level", at + 1
        yield from self._number(at)
        if self._text(at) in ROLES["one_word_floor"]:
            yield "substrate", at + 1
        if self._text(at) in ("north", "east", "south", "west"):
            yield "direction", at + 1
        if self._text(at - 1) in _COLUMN and self._text(at) in LETTERS:
            yield "column", at + 1

    def _text(self, at: int) -> str:
        return self._words[at].text if 0 <= at < len(self._words) else ""

    def _kind(self, at: int) -> str:
        return self._words[at].kind if 0 <= at < len(self._words) else ""

    def _number_end(self, at: int) -> int:
        """Where a number in words or figures ends that begins here; here, where none does."""
        run = numbers_in(self._texts[at : at + _LONGEST_NUMBER])
        return at + run[0][1] if run and run[0][0] == 0 else at

    def _name(self, at: int) -> int:
        for name in self._names:
            if name and [self._text(at + i) for i in range(len(name))] == name:
                return at + len(name)
        return at

    def _point(self, at: int) -> int:
        """The end of a point's name."""
        if self._kind(at) == LABEL:
            return at + 1
        letter = self._text(at)
        if letter not in LETTERS or letter in _NO_LETTER or self._kind(at) != WORD:
            return at
        row = at + 1
        if self._kind(row) == NUMERAL and self._text(row).isdigit() and len(self._text(row)) < 3:
            return row + 1
        end = self._number_end(row)
        named = letter in ALPHABET or letter not in _UNIT_LETTERS or self._text(at - 1) == "point"
        if self._kind(row) != WORD or end == row or not named:
            return at
        # "b three minus 4" is B3, and so is "b three twenty": a row has two words at most.
        return min(end, row + (2 if self._text(row) in ROLES["tens"] else 1))

    def _number(self, at: int) -> Iterator[tuple[ValueSort, int]]:
        """What begins with a number, a sign or a side here."""
        first = at
        sided = False
        if self._text(at) in ROLES["sign"] or self._text(at) in ROLES["side"]:
            if self._size(at + 1) == at + 1:
                return
            first, sided = at + 1, True
        end = self._size(first)
        if end == first:
            return
        if not sided and self._text(at - 1) in ROLES["decimal_point"]:
            yield "alien", end  # "Point 8" is less than one.
        if self._text(end) in ROLES["percent_mark"]:
            yield "alien" if sided else "percent", end + 1
        if (self._text(end), self._text(end + 1)) == ("per", "cent"):
            yield "alien" if sided else "percent", end + 2
        if self._text(end) in ROLES["degree"]:
            more = self._text(end + 1) in ("celsius", "fahrenheit", "c", "f")
            yield "degrees", end + 1 + more
        one_asks = self._text(end) == "am" and self._text(end + 1) in (
            "i",
            "we",
        )  # "which one am I"
        if _ALIEN.fullmatch(self._text(end)) and not one_asks:
            yield "alien", end + 1
        unit_end = self._with_unit(end)
        if not sided and self._text(unit_end) in ROLES["by"]:
            other = self._size(unit_end + 1)
            pair_end = self._with_unit(other)
            if other > unit_end + 1 and pair_end > other:
                yield "pair", pair_end
        if sided:
            yield "reading", self._past_zero(unit_end)
        if self._text(unit_end) in ROLES["side"]:
            yield "reading", self._past_zero(unit_end + 1)
        counting = end - first > 2 and all(self._text(at) in DIGITS for at in range(first, end))
        yield "length" if unit_end > end else "alien" if counting else "number", unit_end

    def _past_zero(self, at: int) -> int:
        return at + 1 if self._text(at) == "zero" else at

    def _with_unit(self, at: int) -> int:
        """Where the unit after a number ends; feet go on with inches."""
        if self._text(at) not in _UNITS or self._words[at].after_pause:
            return at
        if self._text(at) in ROLES["foot"]:
            inches = self._size(at + 1)
            if inches > at + 1 and self._text(inches) in ROLES["inch"]:
                return inches + 1
        return at + 1

    def _size(self, at: int) -> int:
        """Where a number ends that may be in parts: 18, eighteen, 1 1/2, one and a half."""
        end = at
        if self._kind(at) == NUMERAL:
            end = at + 1
        elif self._kind(at) == FRACTION:
            return at + 1
        elif self._kind(at) == WORD:
            end = self._number_end(at)
            if end == at and self._text(at) in ("a", "an", "one", "half"):
                part = at if self._text(at) == "half" else at + 1
                return part + 1 if _PARTS.fullmatch(self._text(part)) else at
        if end == at:
            return at
        if _PARTS.fullmatch(self._text(end)):
            return end + 1
        if self._kind(end) == FRACTION:
            return end + 1
        if self._text(end) == "and":
            more = end + 1 + (self._text(end + 1) in ("a", "an", "one", "three"))
            if _PARTS.fullmatch(self._text(more)) or self._kind(end + 1) == FRACTION:
                return (more if _PARTS.fullmatch(self._text(more)) else end + 1) + 1
        return end
