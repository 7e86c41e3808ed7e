"""
A line in pieces: its points, its numbers in figures with their signs and units, and its words.

This is how a line is looked at whose values, as they stand, fill no row: "half a metre" is 0.5 m,
"the second line" line 2, and, where that is asked for, "be four" is B4 as a phone may have
written it. What it is about is not for here.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from grammar.confusable import LETTERS_WRITTEN, NUMBERS_WRITTEN, RUN_TOGETHER
from grammar.frozen import frozen
from grammar.numbers import DIGITS, TENS, ZEROS, plain_number
from grammar.numbers_said import (
    BY,
    COUNT,
    LENGTHS,
    LINES,
    NAMES_A_NUMBER,
    ONE,
    SIGNS,
    UNITS,
    NumbersSaid,
    figure,
)
from grammar.slots import ROLES
from grammar.slots.point import ALPHABET, LETTERS
from grammar.values_said import is_another_unit
from grammar.words import LABEL, NUMERAL, WORD, Word

PieceKind = Literal["point", "number", "word"]


@frozen
class Piece:
    """A point, a number, or a word."""

    kind: PieceKind
    text: str
    words: tuple[Word, ...]
    sign: str = ""
    """Of a number: ``-``, ``+``, or none."""
    unit: str = ""
    """Of a number, in one spelling: ``mm``, ``litres``, ``%``."""

    @property
    def shown(self) -> str:
        """As it stands in a line of pieces."""
        if self.kind == "point":
            return self.text.upper()
        return f"{self.sign}{self.text} {self.unit}".rstrip()

    @property
    def after_pause(self) -> bool:
        """Whether a stop stands before it."""
        return self.words[0].after_pause


_ORDINALS = {
    "first": "1", "second": "2", "third": "3", "fourth": "4", "fifth": "5", "sixth": "6",
    "seventh": "7", "eighth": "8", "ninth": "9", "tenth": "10", "1st": "1",
}  # fmt: skip
_NUMBERED = frozenset(
    "line value point door doorway strip crack column row opening zone benchmark reading".split()
)
_UNIT_LETTERS = frozenset("xmcfl")
_HARD = frozenset(("to", "too", "for", "fore"))
"""What is written of a number and is far more often meant as it stands."""
_CANNOT_BE = frozenset(
    "to should will would can could must may might ought i it let not want wants going has have "
    "is are we they you and needs need".split()
)
"""Before "be" and "see" these make a verb of it, where no sure number follows."""
_PER = frozenset(("per", "a", "an", "every", "each", "to"))
_AFTER_INCHES = BY | frozenset(
    "at and or under over below above low high down up lower higher proud to from on wide long "
    "thick deep across square round of is reads it's for with minus plus - + gap step".split()
)
"""What may follow "in" where that is a unit; "3 in order" has none."""


def line_of(pieces: Sequence[Piece]) -> str:
    """
    Pieces as one line, a stop as a comma by itself.

    >>> from grammar.words import split_words
    >>> line_of(pieces_of(tuple(split_words("Half a metre at b three, minus twenty one"))))
    '0.5 m at B3 , -21'
    """
    return " ".join(
        f", {piece.shown}" if piece.after_pause and at else piece.shown
        for at, piece in enumerate(pieces)
    )


@lru_cache(maxsize=16)
def pieces_of(words: tuple[Word, ...], heard: bool = False) -> tuple[Piece, ...]:
    """
    A line in pieces.

    Parameters
    ----------
    words : tuple of Word
    heard : bool, optional
        Whether what sounds like a letter or a number may be one: "see two", "minus ate".
    """
    return tuple(_Cut(words, heard).all())


class _Cut(NumbersSaid):
    """A walk through a line, word by word."""

    def __init__(self, words: tuple[Word, ...], heard: bool) -> None:
        super().__init__(words, heard)
        self.done: list[Piece] = []

    def all(self) -> list[Piece]:
        at = 0
        while at < len(self.words):
            at = self._next(at)
        return self.done

    def _add(self, kind: PieceKind, text: str, start: int, end: int, **more: str) -> int:
        self.done.append(Piece(kind, text, self.words[start:end], **more))
        return end

    def _next(self, at: int) -> int:
        """Take one piece; where the next begins."""
        for take in (self._ordinal, self._of_label, self._point, self._letter, self._number):
            if (end := take(at)) is not None:
                return end
        return self._add("word", self._text(at), at, at + 1)

    def _ordinal(self, at: int) -> int | None:
        """ "The second line", "7th value": the number after its word."""
        text, end = self._text(at), at + 1
        number = _ORDINALS.get(text)
        if self._kind(at) == NUMERAL and self._text(at + 1) in ("st", "nd", "rd", "th"):
            number, end = text, at + 2
        if number is None or self._text(end) not in _NUMBERED:
            return None
        self._add("word", self._text(end), end, end + 1)
        self.done.append(Piece("number", number, self.words[at:end]))
        return end + 1

    def _of_label(self, at: int) -> int | None:
        """What is written together: a point, a benchmark, or a size after another."""
        if self._kind(at) != LABEL:
            return None
        text = self._text(at)
        letters = text.rstrip("0123456789")
        number = text[len(letters) :]
        if letters == "bm":
            self._add("word", "benchmark", at, at + 1)
            return self._add("number", number, at, at + 1)
        if letters == "x" and self.done and self.done[-1].kind == "number":
            self._add("word", "by", at, at + 1)
            return self._add("number", number, at, at + 1)
        return self._add("point", text, at, at + 1)

    def _point(self, at: int) -> int | None:
        """A letter and a number beside it."""
        text, row = self._text(at), at + 1
        after_number = bool(self.done) and self.done[-1].kind == "number"
        if self._kind(at) != WORD or (after_number and text in _UNIT_LETTERS):
            return None
        if self.heard and text in RUN_TOGETHER and self._text(row) in SIGNS:
            of_two, its_row = RUN_TOGETHER[text]
            return self._add("point", f"{of_two}{figure(its_row)}", at, row)
        letter, written = self._letter_of(at)
        if not letter or row >= len(self.words) or self.words[row].after_pause:
            return None
        number, end = self._row(row, sure=not written)
        if number is None or (self._text(end) in UNITS and self._text(end) not in ("in", "'", '"')):
            return None
        if written and not self._may_be_written(at, row):
            return None
        named = text in ALPHABET or text not in _UNIT_LETTERS or self._kind(row) == NUMERAL
        return self._add("point", f"{letter}{number}", at, end) if named or written else None

    def _letter_of(self, at: int) -> tuple[str, bool]:
        """The letter that a word names, and whether it only sounds like its name."""
        text = self._text(at)
        letter = LETTERS.get(text, "").lower() if text not in ("a", "i") else ""
        if self.heard and not letter and self._text(at - 1) not in LINES:
            letter = "a" if text == "a" else LETTERS_WRITTEN.get(text, "")
            return letter, bool(letter)
        return letter, False

    def _may_be_written(self, at: int, row: int) -> bool:
        """Whether a written letter and what follows may be a point where they stand."""
        before, text = self._text(at - 1), self._text(at)
        places = ("at", "to", "from", "above", "below", "of", "on", "between", "than", "and", "")
        if text == "a":
            return before in places
        if self._text(row) in _HARD:
            return before not in _CANNOT_BE or (before == "to" and len(self.done) > 1)
        return not (text in ("be", "see") and before in _CANNOT_BE - {"to", "and", "is"})

    def _row(self, at: int, *, sure: bool) -> tuple[str | None, int]:
        """A point's number that begins here, and where it ends."""
        text = self._text(at)
        if self._kind(at) == NUMERAL:
            fits = text.isdigit() and 0 < int(text) < 100 and len(text) < 3
            return (text, at + 1) if fits else (None, at)
        if text in TENS and self._text(at + 1) in DIGITS and not self.words[at + 1].after_pause:
            return str(TENS[text] + DIGITS[self._text(at + 1)]), at + 2
        if text in COUNT and text not in ZEROS and (text != "too" or not sure):
            return str(COUNT[text]), at + 1
        if self.heard and text in NUMBERS_WRITTEN:
            return figure(NUMBERS_WRITTEN[text]), at + 1
        return None, at

    def _letter(self, at: int) -> int | None:
        """A column's letter as it may have been written: "column see"."""
        letter = LETTERS_WRITTEN.get(self._text(at))
        before = self._text(at - 1)
        if not self.heard or letter is None:
            return None
        so_far = {word.text for word in self.words[:at]}
        pair = before in ("between", "and", "to") and so_far & {"between", "columns", "cols"}
        return self._add("word", letter, at, at + 1) if before in LINES or pair else None

    def _number(self, at: int) -> int | None:
        """A number with its sign and its unit."""
        first, sign = at, SIGNS.get(self._text(at), "")
        if sign:
            first = at + 1
        figures, end = self._figures(first)
        if figures is None:
            return None
        unit, end = self._unit(figures, end)
        if unit in LENGTHS and (part := self._and_a_part(figures, end)):
            figures, end = part
        if unit in ("ft", "m") and (more := self._rest_of_a_length(figures, unit, end)):
            figures, unit, end = more
        if unit == "ml":
            figures, unit = plain_number(Decimal(figures) / 1000), "litres"
        if "/" in figures and unit and unit not in ("in", "ft"):
            figures = _decimal(figures) or figures
        if unit == "lb":
            end = self._past_per_thousand(end)
        if self._text(end) in ("'",) and self._text(end + 1) == "s" and not unit:
            end += 2  # "door 2's"
        return self._add("number", figures, at, end, sign=sign, unit=unit)

    def _unit(self, figures: str, at: int) -> tuple[str, int]:
        """The unit after a number, and where it ends."""
        if "/" in figures or figures.startswith("0."):
            # "Half a metre", "three eighths of an inch"; a line in plain words says "1 inch".
            more = at + (self._text(at) == "of")
            more += self._text(more) in ONE
            if more > at and self._text(more) in UNITS:
                at = more
        text = self._text(at)
        if text == "per" and self._text(at + 1) == "cent":
            return "%", at + 2
        if text not in UNITS or self.words[at].after_pause:
            another = is_another_unit(text) and text != "am" and not self.words[at].after_pause
            return (text, at + 1) if another else ("", at)
        if text == "'" and self._text(at + 1) == "s":
            return "", at
        if text == "l" and self._text(at + 1) in SIGNS:
            return "", at  # the left jamb
        following = self._text(at + 1)
        goes_on = bool(following) and not self.words[at + 1].after_pause
        a_rate = following in _PER and self._text(at + 2) in UNITS
        if text == "in" and goes_on and following not in _AFTER_INCHES and not a_rate:
            return "", at
        if (
            UNITS[text] == "degrees"
            and text != "celsius"
            and following in ("c", "celsius", "f", "fahrenheit")
        ):
            return ("degrees fahrenheit" if following[0] == "f" else "degrees"), at + 2
        if text in ("c", "m", "f") and self._kind(at + 1) == NUMERAL:
            return "", at
        return UNITS[text], at + 1

    def _rest_of_a_length(self, figures: str, unit: str, at: int) -> tuple[str, str, int] | None:
        """ "Six foot six", "two metres forty": what the part beside a length adds to it."""
        if at >= len(self.words) or self.words[at].after_pause or not figures.isdigit():
            return None
        more, end = self._figures(at, plain=True)
        if more is None or self._text(end) in ("percent", "degrees", "%"):
            return None
        inches = self._text(end) in ROLES["inch"]
        if unit == "ft" and (inches or self._text(end) not in UNITS):
            return (f"{figures} ft {more}", "in", end + inches) if "." not in more else None
        is_part = unit == "m" and more.isdigit() and len(more) == 2
        if is_part and self._text(end) not in UNITS:
            return f"{figures}.{more}", "m", end
        return None

    def _and_a_part(self, figures: str, at: int) -> tuple[str, int] | None:
        """ "A metre and a quarter": the part beside one."""
        if self._text(at) != "and" or not figures.isdigit():
            return None
        part, end = self._part(at + 1, at + 1)
        return (f"{figures} {part}", end) if part and self._text(end) not in UNITS else None

    def _past_per_thousand(self, at: int) -> int:
        """Past the area and the day that a rate of moisture is for."""
        line = " ".join(word.text for word in self.words[at:])
        found = _PER_THOUSAND.match(line)
        return at + len(found.group().split()) if found else at


_PER_THOUSAND = re.compile(
    r"(?:per|over|in|for|a|to)( (1000|thousand))?( (square|sq))?( (ft|feet|foot))?"
    r"( (per|over|in|a|each|every))*( (day|24 hours|hours))?(?= |$)"
)


def _decimal(figures: str) -> str | None:
    """A fraction as a decimal, where that is exact."""
    whole, _, part = figures.rpartition(" ")
    top, _, bottom = part.partition("/")
    value = Decimal(whole or 0) + Decimal(top) / Decimal(bottom)
    return (
        plain_number(value)
        if value * int(bottom) == Decimal(whole or 0) * int(bottom) + int(top)
        else None
    )


_SOUNDS_LIKE = frozenset(("won", "to", "too", "for", "fore", "ate", "free", "tree", "sicks"))
_LONG_UNITS = frozenset(
    word for word in UNITS if len(word) > 1 and word not in ("in", "pound", "pounds")
)


def is_unclear(pieces: Sequence[Piece]) -> bool:
    """
    Whether a number must stand where none is: after a sign, before a unit, or after "row".

    >>> from grammar.words import split_words
    >>> line = tuple(split_words("minus ate minus nine"))
    >>> is_unclear(pieces_of(line)), is_unclear(pieces_of(line, heard=True))
    (True, False)
    """
    for at, piece in enumerate(pieces):
        before = pieces[at - 1] if at else None
        if piece.kind == "number" and before is not None and not piece.after_pause:
            begins = piece.words[0].text in ("point", "decimal")
            if before.text == "one" or (begins and before.text in _SOUNDS_LIKE):
                return True
        if piece.kind != "word":
            continue
        if piece.text in SIGNS or piece.text == "teen":
            return True
        if piece.text == "point" and before is not None and before.kind == "point":
            return True  # "A1 point 8" is less than one
        if before is None or before.kind != "word":
            continue
        if piece.text in _LONG_UNITS and before.text in _SOUNDS_LIKE | {"point"}:
            return True
        if piece.text in _SOUNDS_LIKE - {"to"} and before.text in NAMES_A_NUMBER - {
            "number",
            "value",
        }:
            return True
        if piece.text in BY | {"buy"} and before.text in _SOUNDS_LIKE:
            return True
    return False


def replaced(piece: Piece, text: str) -> Word:
    """The first word of a piece, with other text: a value in one word."""
    return replace(piece.words[0], text=text)
