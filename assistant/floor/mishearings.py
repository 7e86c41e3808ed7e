"""Readings that may have been meant where another was heard or typed.

Only the figures are considered here; :func:`assistant.levels.outliers.weigh_alternatives`
compares them with the floor.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

from grammar.commands import Reading
from grammar.confusable import numbers_alike

CONFUSABLE_NUMBERS = {Decimal(one): Decimal(other) for one, other in numbers_alike("teen").items()}
ALIKE = {str(one): str(other) for one, other in numbers_alike("digit").items()}
LEADING = "12345"
"""Tens of usual readings; few floors are further from their zero."""


def alternatives(heard: Reading) -> tuple[Reading, ...]:
    """
    Readings that are often taken for this one, without the reading itself.

    >>> said = alternatives(Reading(Decimal(-50), "mm"))
    >>> [str(reading.number) for reading in said][:3]
    ['-15', '50', '-90']
    """
    size = abs(heard.number)
    sign = -1 if heard.number < 0 else 1
    found = [sign * other for other in _sizes(size, heard.unit)]
    if not size:
        found += [-other for other in found]  # level has no side
    # The likeliest first: the confusable, then the other side.
    first = [sign * CONFUSABLE_NUMBERS[size]] if size in CONFUSABLE_NUMBERS else []
    numbers = dict.fromkeys([*first, -heard.number, *found])
    return tuple(replace(heard, number=n) for n in numbers if n != heard.number and n)


def _sizes(size: Decimal, unit: str | None) -> Iterator[Decimal]:
    if size in CONFUSABLE_NUMBERS:
        yield CONFUSABLE_NUMBERS[size]
    if size != size.to_integral_value():
        yield Decimal(str(size).replace(".", ""))  # the point was not meant
        return
    digits = str(int(size))
    if len(digits) > 1 and unit != "mm":
        yield size / 10  # or it was not heard; nobody reads tenths of a millimetre
    for place, digit in enumerate(digits):
        if digit in ALIKE:
            yield Decimal(digits[:place] + ALIKE[digit] + digits[place + 1 :])
    for more in _more_or_fewer(digits):
        yield Decimal(more)


def _more_or_fewer(digits: str) -> Iterator[str]:
    """Values with a digit added or lost; of lost ones only those that make usual readings.

    More alternatives make each less likely, so fewer slips are asked about; with fewer of them
    more true readings are. ``tests/benchmarks/mishearings.py`` measures it.
    """
    if len(digits) > 1:
        for place in range(len(digits)):
            yield digits[:place] + digits[place + 1 :]
        for digit in "123":
            yield digit + digits
        return
    for digit in LEADING:
        yield digit + digits
    for digit in "0123456789" if digits in "0123" else "05":
        yield digits + digit
