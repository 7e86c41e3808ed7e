"""What is missing in words that are nearly a reading: its letter, row, sign, number or unit.

Looks at what a recogniser wrote freely. Where it wrote "bravo three minus" and nothing more, the
nearest reading has a number that nobody said.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal

from grammar import Misunderstood, understand
from grammar.commands import IN_PARTS, Command
from grammar.commands.readings import CorrectReading, TakeReading
from grammar.figures import in_figures
from grammar.slots.point import ALPHABET
from grammar.spoken import plain_words

Part = Literal["letter", "row", "sign", "number"]

_LETTER = f"(?:{'|'.join(ALPHABET)})"
_NUMBER = r"[0-9][0-9./]*(?: [0-9]+/[0-9]+)?"
_UNIT = "(?:millimetres|centimetres|inches)"
_SIDE = "(?:above|below|high|low)"
_FORMS: tuple[tuple[Part, str], ...] = (
    ("number", rf"{_LETTER} {_NUMBER} (?:plus|minus)(?: {_UNIT})?"),
    ("letter", rf"{_NUMBER} (?:plus|minus) {_NUMBER}(?: {_UNIT})?"),
    ("sign", rf"(?:(?!plus|minus)[a-z]+ ){{0,2}}{_NUMBER} {_UNIT}(?: {_SIDE})?"),
)
_NO_ROW = re.compile(rf"(?:point )?{_LETTER} (?:plus|minus)\b")


def missing_part(text: str) -> Part | None:
    """
    The part of a reading that is not in some words; None where they are no such thing.

    >>> missing_part("Bravo 3, minus."), missing_part("bravo three minus millimeters")
    ('number', 'number')
    >>> missing_part("Bravo minus 18 millimeters."), missing_part("Three minus eighteen.")
    ('row', 'letter')
    >>> missing_part("Bravo 3, eighteen millimeters below."), missing_part("six inches of snow")
    ('sign', None)
    >>> missing_part("bravo three minus eighteen millimetres") is None
    True
    >>> missing_part("Bravo to minus eighteen.") is None
    True
    """
    # As it was written: in figures, the "to" that a "two" was taken for is left out.
    if _NO_ROW.match(" ".join(plain_words(text))):
        return "row"
    said = in_figures(text)
    return next((part for part, form in _FORMS if re.fullmatch(form, said)), None)


def with_a_unit(text: str, unit: str) -> TakeReading | CorrectReading | None:
    """
    The reading that was meant by words that lack only the unit; None where that is not so.

    A fraction is one of an inch.

    >>> with_a_unit("Bravo 3 minus 2", "in").reading
    Reading(number=Decimal('-2'), unit='in', side_said=True)
    >>> with_a_unit("bravo three minus two inches", "in") is None
    True
    """
    try:
        command = understand(text)[0]
    except (Misunderstood, IndexError):
        return None
    if not isinstance(command, TakeReading | CorrectReading):
        return None
    reading = command.reading
    if reading.unit not in (None, IN_PARTS) or not reading.number:
        return None
    unit = "in" if reading.unit == IN_PARTS else unit
    return replace(command, reading=replace(reading, unit=unit))


def nobody_said(likeliest: Command, free_words: str, *, open_unit: bool) -> bool:
    """
    Whether a reading has a row or number that what was written freely lacks, or another one.

    Another one is held against it only where a unit was to be said and was not: then the nearest
    reading that has one is made of what else there was. Where no unit is needed, a number without
    one is a reading like any other, unless it was in parts of an inch.
    """
    if not isinstance(likeliest, TakeReading | CorrectReading):
        return False
    if missing_part(free_words) in ("row", "number"):
        return True
    meant = with_a_unit(free_words, "mm" if open_unit else "in")
    if meant is None:
        return False
    if open_unit and meant.reading.unit == "mm":
        return False
    return meant.reading.number != likeliest.reading.number
