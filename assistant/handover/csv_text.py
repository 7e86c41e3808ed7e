"""Tables as CSV for spreadsheets: marked as UTF-8, lines ended as theirs, and nothing that runs."""

from __future__ import annotations

import csv
import io
import re
from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from assistant.handover.tables import Cell, Rows, in_utc
from assistant.reply.visible import visible

_RUNS = ("=", "+", "-", "@", "\t", "\r")
"""A text that begins so is worked out by a spreadsheet, or hides that it does."""
_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?([eE][+-]?\d+)?")


def csv_bytes(table: Rows) -> bytes:
    """
    A table as CSV (RFC 4180), with a byte order mark.

    Numbers are written as they are, a minus among them; a text that a spreadsheet would take for
    a formula gets an apostrophe before it.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(table.columns)
    writer.writerows([cell_text(cell) for cell in row] for row in table.rows)
    return text.getvalue().encode("utf-8-sig")


def cell_text(cell: Cell) -> str:
    """
    A value as a cell has it.

    >>> cell_text("=1+1"), cell_text(-18), cell_text(None), cell_text(True)
    ("'=1+1", '-18', '', 'yes')
    """
    match cell:
        case None:
            return ""
        case bool():
            return "yes" if cell else "no"
        case str():
            return inert(cell)
        case datetime():
            return in_utc(cell)
        case _:
            return number_text(cell)


def inert(text: str) -> str:
    """
    A text that no spreadsheet works out.

    >>> inert("-18 at B3"), inert("crack along the wall"), inert(" =1")
    ("'-18 at B3", 'crack along the wall', "' =1")
    """
    shown = visible(text)
    return f"'{shown}" if shown.lstrip().startswith(_RUNS) or text.startswith(_RUNS) else shown


def as_read(text: str) -> str:
    """
    A text cell as it was before it was made inert.

    >>> as_read("'=1+1"), as_read("crack")
    ('=1+1', 'crack')
    """
    bare = text.removeprefix("'")
    return bare if bare != text and bare.lstrip().startswith(_RUNS) else text


def number_text(number: int | float | Decimal | Fraction) -> str:
    """
    A number that reads back the same: exact where it has an end, else to a float's last digit.

    >>> number_text(Fraction(127, 80)), number_text(Fraction(1, 3)), number_text(Decimal("-18.0"))
    ('1.5875', '0.3333333333333333', '-18.0')
    """
    if isinstance(number, Fraction):
        places = _places(number.denominator)
        if places is None:
            return repr(float(number))
        scaled = abs(number.numerator) * 10**places // number.denominator
        digits = str(scaled).rjust(places + 1, "0")
        shown = f"{digits[:-places]}.{digits[-places:]}" if places else digits
        return f"-{shown}" if number < 0 else shown
    if isinstance(number, Decimal):
        return f"{number:f}"
    return repr(number + 0.0) if isinstance(number, float) else str(number)


def _places(denominator: int) -> int | None:
    """Decimals of a fraction; None where they have no end, or none that anybody would read."""
    twos = fives = 0
    while denominator % 2 == 0:
        denominator, twos = denominator // 2, twos + 1
    while denominator % 5 == 0:
        denominator, fives = denominator // 5, fives + 1
    places = max(twos, fives)
    return places if denominator == 1 and places <= 20 else None


def number_of(text: str) -> Fraction | None:
    """
    A cell's number, exactly; None where it has none.

    >>> number_of("-1.5875"), number_of("")
    (Fraction(-127, 80), None)
    """
    return Fraction(text) if _NUMBER.fullmatch(text) else None
