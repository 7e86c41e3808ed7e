"""Numbers as they are said and written, to Decimal, and back to words.

Fractions are those of a rule: halves to sixty-fourths. Each of them is a
finite decimal, so nothing said is ever rounded.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from grammar.errors import Impossible

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

ROLES: dict[str, dict[str, Any]] = {
    "digit": DIGITS,
    "zero": ZEROS,
    "teen": TEENS,
    "tens": TENS,
    "hundred": {"hundred": 100},
    "thousand": {"thousand": 1000, "tousand": 1000},
    "decimal_point": dict.fromkeys(("point", "decimal", "dot"), "."),
    "and": {"and": None},
    "article": {"a": 1, "an": 1},
    "half": {"half": 2, "halves": 2},
    "quarter": dict.fromkeys(("quarter", "quarters", "fourth", "fourths"), 4),
    "eighth": {"eighth": 8, "eighths": 8},
    "sixteenth": {"sixteenth": 16, "sixteenths": 16},
    "second": {"second": 2, "seconds": 2},
}
"""What each number word may stand for, by the part it plays."""

RULES = """
number: plain_number | parts
plain_number: n_typed | n_words | n_decimal
parts: n_mixed_typed | n_fraction_typed | n_fraction | n_mixed
n_typed: NUMERAL
n_fraction_typed: FRACTION
n_mixed_typed: NUMERAL [r_and] FRACTION
n_words: _whole
_whole: r_digit | r_zero | n_below | n_spelled | n_hundreds | n_thousands
n_any_digit: r_digit | r_zero
n_spelled: n_any_digit n_any_digit | n_any_digit n_any_digit n_any_digit
    | n_any_digit n_any_digit n_any_digit n_any_digit
n_below: r_teen | r_tens | r_tens r_digit
n_under_hundred: r_digit | n_below
n_hundred_count: r_digit | r_article | n_below
n_hundreds: n_hundred_count r_hundred | n_hundred_count r_hundred [r_and] n_under_hundred
n_thousand_count: r_digit | r_article | r_teen | n_spelled
n_thousands: n_thousand_count r_thousand
    | n_thousand_count r_thousand n_hundreds
    | n_thousand_count r_thousand [r_and] n_under_hundred
n_decimal: _whole r_decimal_point n_decimals | r_decimal_point n_decimals
n_decimals: n_any_digit | n_any_digit n_any_digit | n_any_digit n_any_digit n_any_digit
n_fraction: r_half | r_article r_half | r_quarter | r_article r_quarter | n_counted
n_counted: n_numerator n_parts
n_numerator: r_digit | r_article | n_below
n_parts: r_half | r_quarter | r_eighth | r_sixteenth | n_thirty_seconds | n_sixty_fourths
n_thirty_seconds: r_tens r_second
n_sixty_fourths: r_tens r_quarter
n_mixed: _whole r_and n_fraction | _whole n_counted | NUMERAL r_and n_fraction
"""
"""The lark rules; ``r_…`` are the roles above, ``NUMERAL`` and ``FRACTION`` what was typed."""

_LONGEST = 12


def typed(said: str) -> Decimal:
    """A number in figures. Raises Impossible where it is longer than any number on a floor."""
    if len(said) > _LONGEST:
        raise Impossible(f"{said[:20]} is longer than any number on a floor")
    return Decimal(said)


def _number(value: Any) -> Decimal:
    number = Decimal(value)
    typed(plain(number))  # A whole number with a 64th can be longer than one that is typed back.
    return number


def _typed_fraction(said: str) -> Decimal:
    top, bottom = (int(part) for part in said.split("/"))
    return _fraction(top, bottom)


def _fraction(top: int, bottom: int) -> Decimal:
    if bottom not in (2, 4, 8, 16, 32, 64):
        raise Impossible("fractions go in halves, quarters, eighths, sixteenths, 32nds or 64ths")
    return Decimal(top) / Decimal(bottom)


def _mixed_typed(whole: str, *rest: Any) -> Decimal:
    part = _typed_fraction(rest[-1])
    if "." in whole or part >= 1:
        raise Impossible("a mixed number is a whole number and a part of one: 1 1/2")
    return typed(whole) + part


def _counted(top: int, bottom: int) -> Decimal:
    # "twenty five eighths" is twenty and five eighths: parts said in words are less than one.
    if not 0 < top < bottom:
        raise Impossible("a fraction in words is less than one: three eighths")
    return _fraction(top, bottom)


def _article_or_part(*said: Any) -> Decimal:
    last = said[-1]
    return last if isinstance(last, Decimal) else _fraction(1, int(last))


def _mixed(whole: Any, *rest: Any) -> Decimal:
    number = typed(whole) if isinstance(whole, str) else Decimal(whole)
    if number != number.to_integral_value():
        raise Impossible("a mixed number is a whole number and a part of one: one and a half")
    part: Decimal = rest[-1]
    return number + part


def _decimal(*said: Any) -> Decimal:
    whole = said[0] if len(said) == 3 else 0
    return Decimal(f"{whole}.{said[-1]}")


def _tens_of(wanted: int, bottom: int) -> Callable[..., int]:
    def parts(tens: int, _ordinal: Any) -> int:
        if tens != wanted:
            raise Impossible("such parts of an inch are thirty-seconds or sixty-fourths")
        return bottom

    return parts


BUILDERS: dict[str, Callable[..., Any]] = {
    "number": _number,
    "plain_number": _number,
    "parts": _number,
    "n_typed": typed,
    "n_fraction_typed": _typed_fraction,
    "n_mixed_typed": _mixed_typed,
    "n_words": lambda value: value,
    "n_any_digit": lambda value: value,
    "n_spelled": lambda *digits: int("".join(map(str, digits))),
    "n_below": lambda *parts: sum(parts),
    "n_under_hundred": lambda value: value,
    "n_hundred_count": lambda value: value,
    "n_hundreds": lambda count, _hundred, *rest: count * 100 + (rest[-1] if rest else 0),
    "n_thousand_count": lambda value: value,
    "n_thousands": lambda count, _thousand, *rest: count * 1000 + (rest[-1] if rest else 0),
    "n_decimal": _decimal,
    "n_decimals": lambda *digits: "".join(map(str, digits)),
    "n_fraction": _article_or_part,
    "n_counted": _counted,
    "n_numerator": lambda value: value,
    "n_parts": lambda value: value,
    "n_thirty_seconds": _tens_of(30, 32),
    "n_sixty_fourths": _tens_of(60, 64),
    "n_mixed": _mixed,
}

# --- and back to words --------------------------------------------------------

_SMALL = "zero one two three four five six seven eight nine".split()
_PART_NAMES = {
    2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty second", 64: "sixty fourth",
}  # fmt: skip


def plain(number: Decimal) -> str:
    """
    A number in figures, as short as it goes without an exponent.

    >>> plain(Decimal("18.0")), plain(Decimal("1E+2"))
    ('18.0', '100')
    """
    return format(number, "f")


def spelled(number: Decimal) -> str:
    """
    A number digit by digit, the way it is read back.

    >>> spelled(Decimal("105")), spelled(Decimal("2.5"))
    ('one zero five', 'two point five')
    """
    return " ".join("point" if sign == "." else _SMALL[int(sign)] for sign in plain(abs(number)))


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
