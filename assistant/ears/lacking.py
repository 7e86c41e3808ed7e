"""Finds the part missing in words that are nearly a reading: letter, row, sign, number or unit.

It looks at what a recogniser wrote without the grammar. Where that is "bravo three minus" and
nothing more, the nearest reading has a number that nobody said.
"""

from __future__ import annotations

import re
from dataclasses import fields, replace
from typing import Literal

from grammar import Misunderstood, understand
from grammar.commands import IN_PARTS, Command, Reading
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
    ("sign", rf"(?:point )?{_LETTER} {_NUMBER}(?: {_NUMBER})? {_SIDE}"),
)
_NO_ROW = re.compile(rf"(?:point )?{_LETTER} (?:plus|minus)\b")


def missing_part(text: str) -> Part | None:
    """
    The missing part of a reading; None where the words are not nearly one.

    >>> missing_part("Bravo 3, minus."), missing_part("bravo three minus millimeters")
    ('number', 'number')
    >>> missing_part("Bravo minus 18 millimeters."), missing_part("Three minus eighteen.")
    ('row', 'letter')
    >>> missing_part("Bravo 3, eighteen millimeters below."), missing_part("six inches of snow")
    ('sign', None)
    >>> missing_part("alpha three eleven below"), missing_part("it was six below")
    ('sign', None)
    >>> missing_part("bravo three minus eighteen millimetres") is None
    True
    >>> missing_part("Bravo to minus eighteen.") is None
    True
    """
    # In words as written: figures leave out a "to" that may have been a "two".
    if _NO_ROW.match(" ".join(plain_words(text))):
        return "row"
    said = in_figures(text)
    return next((part for part, form in _FORMS if re.fullmatch(form, said)), None)


def with_a_unit(text: str, unit: str) -> TakeReading | CorrectReading | None:
    """
    The reading meant by words that lack only the unit; None where they are nothing such.

    A fraction is of an inch.

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


def lacks_unit(command: Command) -> bool:
    """
    Whether a reading in it has no unit, as where a unit is missed: not to be taken or offered.

    >>> from grammar.spoken import Spoken
    >>> jobs = [Spoken().readings_in(unit) for unit in ("in", "mm")]
    >>> [lacks_unit(spoken.meanings("bravo three minus two")[0]) for spoken in jobs]
    [True, False]
    >>> [lacks_unit(spoken.meanings("bravo three level")[0]) for spoken in jobs]
    [False, False]
    """
    values = [getattr(command, field.name) for field in fields(command)]
    return any(
        (isinstance(value, Reading) and value.unit is None and value.number != 0)
        or (isinstance(value, Command) and lacks_unit(value))
        for value in values
    )


def nobody_said(likeliest: Command, free_words: str, *, open_unit: bool) -> bool:
    """
    Whether a reading's row or number is missing, or different, in the unconstrained words.

    A different one counts only where a unit had to be said and was not: the nearest reading with a
    unit is then made of the other words. Where no unit is needed, a number without one is a reading
    like any other, unless it is a fraction of an inch.
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
