"""Readings that may have been meant where another was heard or typed.

Only the figures are considered here; :func:`assistant.levels.outliers.weigh_alternatives`
compares them with the floor.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

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


def swapped(typed: Reading) -> tuple[Reading, ...]:
    """
    The readings of which two neighbouring figures may have been typed in the wrong order.

    They are no :func:`alternatives`: nobody hears them, so they make no reading more doubtful, and
    are only thought of once it is in doubt.

    >>> [str(reading.number) for reading in swapped(Reading(Decimal("-61"), "mm"))]
    ['-16']
    >>> [str(reading.number) for reading in swapped(Reading(Decimal("12.5"), "mm"))]
    ['21.5', '15.2']
    """
    digits = str(abs(typed.number))
    places = [place for place, sign in enumerate(digits) if sign != "."]
    found = []
    for one, other in pairwise(places):
        turned = list(digits)
        turned[one], turned[other] = digits[other], digits[one]
        found.append(Decimal("".join(turned)) * (-1 if typed.number < 0 else 1))
    return tuple(
        replace(typed, number=n) for n in dict.fromkeys(found) if n not in (0, typed.number)
    )


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
