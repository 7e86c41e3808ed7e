"""Numbers from words and figures to Decimal, and back to words.

Fractions are the ones on a rule, halves to sixty-fourths. Each is a finite
decimal, so nothing said is ever rounded.
"""

from __future__ import annotations

from decimal import Decimal

DIGITS = {
    "one": 1, "wun": 1, "two": 2, "too": 2, "three": 3, "tree": 3, "four": 4, "fower": 4,
    "five": 5, "fife": 5, "six": 6, "seven": 7, "eight": 8, "ait": 8, "nine": 9, "niner": 9,
}  # fmt: skip
ZEROS = dict.fromkeys(("zero", "oh", "nought", "naught", "nil"), 0)
TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
    "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60,
    "seventy": 70, "eighty": 80, "ninety": 90,
}  # fmt: skip

_SMALL = "zero one two three four five six seven eight nine".split()
_PART_NAMES = {
    2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty second", 64: "sixty fourth",
}  # fmt: skip


def plain_number(number: Decimal) -> str:
    """
    A number in figures, as short as it goes without an exponent.

    >>> plain_number(Decimal("18.0")), plain_number(Decimal("1E+2"))
    ('18.0', '100')
    """
    return format(number, "f")


def spelled_digits(number: Decimal) -> str:
    """
    A number digit by digit, the way it is read back.

    >>> spelled_digits(Decimal("105")), spelled_digits(Decimal("2.5"))
    ('one zero five', 'two point five')
    """
    return " ".join(
        "point" if sign == "." else _SMALL[int(sign)] for sign in plain_number(abs(number))
    )


def as_fraction(number: Decimal) -> tuple[int, int, int] | None:
    """
    Whole, top and bottom of a number with a rule's fraction, or None.

    >>> as_fraction(Decimal("1.625"))
    (1, 5, 8)
    """
    size = abs(number)
    whole = int(size)
    part = size - whole
    for bottom in _PART_NAMES:
        top = part * bottom
        if part and top == int(top):
            return whole, int(top), bottom
    return None


def spoken_fraction(whole: int, top: int, bottom: int) -> str:
    """
    A mixed number in words.

    >>> spoken_fraction(1, 5, 8), spoken_fraction(0, 1, 2), spoken_fraction(2, 1, 2)
    ('one and five eighths', 'one half', 'two and one half')
    """
    name = _PART_NAMES[bottom] + ("s" if top > 1 else "")
    part = f"{in_words(top)} {name}"
    return f"{in_words(whole)} and {part}" if whole else part


def in_words(whole: int) -> str:
    """
    A whole number below ten thousand in words.

    >>> in_words(105), in_words(3400)
    ('one hundred and five', 'three thousand four hundred')
    """
    if whole < 10:
        return _SMALL[whole]
    if whole < 20:
        return next(word for word, value in TEENS.items() if value == whole)
    if whole < 100:
        tens = next(word for word, value in TENS.items() if value == whole - whole % 10)
        return tens if whole % 10 == 0 else f"{tens} {_SMALL[whole % 10]}"
    size, name = (1000, "thousand") if whole >= 1000 else (100, "hundred")
    head = f"{in_words(whole // size)} {name}"
    rest = whole % size
    if not rest:
        return head
    return f"{head} {in_words(rest)}" if rest >= 100 else f"{head} and {in_words(rest)}"
