"""A bare number, and the numbers that other values are made of."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from grammar import numbers
from grammar.errors import Impossible, Unsayable
from grammar.numbers import DIGITS, TEENS, TENS, ZEROS, as_fraction, in_words, plain_number
from grammar.slots.slot import Manner, Slot, SpokenForm, ValueKind, alternatives_of

if TYPE_CHECKING:
    from random import Random

    from grammar.spoken import Spoken

_ROLES: dict[str, dict[str, Any]] = {
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

_RULES = """
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
"""The rules; ``r_…`` are the roles above, ``NUMERAL`` and ``FRACTION`` what was typed."""

_LONGEST = 12


def typed_number(said: str) -> Decimal:
    """A number in figures. Raises Impossible where it is longer than any number on a floor."""
    if len(said) > _LONGEST:
        raise Impossible(f"{said[:20]} is longer than any number on a floor")
    return Decimal(said)


def _number(value: Any) -> Decimal:
    number = Decimal(value)
    typed_number(
        plain_number(number)
    )  # A whole number with a 64th can be longer than one that is typed back.
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
    return typed_number(whole) + part


def _counted(top: int, bottom: int) -> Decimal:
    # "twenty five eighths" is twenty and five eighths: parts said in words are less than one.
    if not 0 < top < bottom:
        raise Impossible("a fraction in words is less than one: three eighths")
    return _fraction(top, bottom)


def _article_or_part(*said: Any) -> Decimal:
    last = said[-1]
    return last if isinstance(last, Decimal) else _fraction(1, int(last))


def _mixed(whole: Any, *rest: Any) -> Decimal:
    number = typed_number(whole) if isinstance(whole, str) else Decimal(whole)
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


_BUILDERS: dict[str, Callable[..., Any]] = {
    "plain_number": _number,
    "parts": _number,
    "n_typed": typed_number,
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

# --- said aloud -----------------------------------------------------------------

_DIGIT_WORDS = [in_words(number) for number in range(1, 10)]
_SPOKEN_PIECES = {
    "digit": alternatives_of(_DIGIT_WORDS),
    "any_digit": alternatives_of(["zero", *_DIGIT_WORDS]),
    "teen": alternatives_of(TEENS),
    "tens": alternatives_of(word for word in TENS if word != "fourty"),
    "tenths": "(<worded_hundred> | zero) point <digit>",
}
_SPOKEN_NUMBERS: dict[Manner, dict[str, str]] = {
    "words": {
        "under_twelve": "(<digit> | ten | eleven)",
        "under_hundred": "(<digit> | <teen> | <tens> [<digit>])",
        "hundred": "one hundred",
        "under_thousand": "(<under_hundred> | (<digit> | a) hundred [[and] <worded_rest>])",
        "under_ten_thousand": "(<under_thousand>"
        " | <digit> thousand [<digit> hundred] [[and] <worded_rest>])",
    },
    "digits": {
        "under_twelve": "(<digit> | one zero | one one)",
        "under_hundred": "<digit> [<any_digit>]",
        "hundred": "one zero zero",
        "under_thousand": "<digit> [<any_digit> [<any_digit>]]",
        "under_ten_thousand": "<digit> [<any_digit> [<any_digit> [<any_digit>]]]",
    },
}

FIGURE = "(1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9)"
NEXT_FIGURE = "(+0 | +1 | +2 | +3 | +4 | +5 | +6 | +7 | +8 | +9)"
_APART = "(0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9)"
_TIED = "(+one | +two | +three | +four | +five | +six | +seven | +eight | +nine)"

_FIGURES = {
    "under_twelve": f"{FIGURE} | 1 (+0 | +1)",
    "under_hundred": f"{FIGURE} [{NEXT_FIGURE}]",
    "hundred": "1 +0 +0",
    "under_thousand": f"{FIGURE} [{NEXT_FIGURE} [{NEXT_FIGURE}]]",
    "under_ten_thousand": f"{FIGURE} [{NEXT_FIGURE} [{NEXT_FIGURE} [{NEXT_FIGURE}]]]",
    "tenths": f"({FIGURE} [{NEXT_FIGURE}] | 0) +. {NEXT_FIGURE}",
}
_FIGURES_APART = {
    "under_twelve": "1 (0 | 1)",
    "under_hundred": f"{FIGURE} {_APART}",
    "hundred": "1 0 0",
    "under_thousand": f"{FIGURE} {_APART} [{_APART}]",
}

_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth"}


class SpokenNumbers:
    """Numbers to templates of the ways to say them, under the settings of a spoken language."""

    def __init__(self, spoken: Spoken, written: bool) -> None:
        self.spoken = spoken
        self.manner: Manner = spoken.manner
        self.written = written
        """Whether they may also be figures."""

    def whole(self, number: int, below: int = 100) -> str:
        """A whole number from one, in words of the manner or in figures."""
        if not 1 <= number < below:
            raise Unsayable
        ways = [_digits(str(number)) if self.manner == "digits" else _worded(number)]
        if self.written:
            ways.append(_joined(str(number)))
            if number < 100 and number % 10 and number > 20 and self.manner == "words":
                tens, ones = in_words(number).split()
                ways.append(f"{tens} +- +{ones}")
            if number > 9 and self.manner == "digits":
                ways.append(" ".join(str(number)))
        return f"({' | '.join(ways)})"

    def number(self, number: Decimal, below: int = 100, places: int = 1) -> str:
        """A number that may have decimals."""
        whole, _, decimals = plain_number(number).partition(".")
        if not decimals:
            return self.whole(int(whole), below)
        if len(decimals) > places or not 0 <= int(whole) < 100:
            raise Unsayable
        before = "zero" if int(whole) == 0 else self.whole(int(whole)).strip("()").split(" | ")[0]
        ways = [f"{before} point {_digits(decimals)}"]
        if self.written:
            ways.append(" ".join((_joined(str(int(whole))), "+.", *(f"+{d}" for d in decimals))))
        return f"({' | '.join(ways)})"

    def fraction(self, number: Decimal) -> str:
        """Inches: a whole number, a part, or both."""
        parts = as_fraction(number)
        if parts is None:
            return self.whole(int(number))
        whole, top, bottom = parts
        if bottom not in _PARTS:
            raise Unsayable
        name = _PARTS[bottom]
        article = "an" if name == "eighth" else "a"
        part = f"(one | {article}) {name}" if top == 1 else f"{in_words(top)} {name}s"
        if not whole:
            figures = f" | {_joined(str(top))} +/ {_tied(str(bottom))}" if self.written else ""
            return f"({part}{figures})"
        figures = f" | {_joined(str(whole))} {_joined(str(top))} +/ {_tied(str(bottom))}"
        return f"({self.whole(whole)} and {part}{figures if self.written else ''})"


def _digits(figures: str) -> str:
    return " ".join("zero" if sign == "0" else in_words(int(sign)) for sign in figures)


def _worded(number: int) -> str:
    """
    The words of a number, with what people leave out.

    >>> _worded(105)
    '(one | a) hundred [and] five'
    """
    words = in_words(number).replace(" and ", " [and] ")
    if 100 <= number < 200:
        words = words.replace("one hundred", "(one | a) hundred", 1)
    return words


def _joined(figures: str) -> str:
    return " ".join([figures[0], *(f"+{sign}" for sign in figures[1:])])


def _tied(figures: str) -> str:
    return " ".join(f"+{sign}" for sign in figures)


# --- samples --------------------------------------------------------------------


def sample_number(random: Random) -> tuple[str, Decimal]:
    return random.choice((*_WAYS, sample_parts))(random)


def _sample_typed(random: Random) -> tuple[str, Decimal]:
    said = random.choice((str(random.randrange(1, 1000)), f"{random.randrange(1, 300) / 10:.1f}"))
    return said, Decimal(said)


def _sample_worded(random: Random) -> tuple[str, Decimal]:
    number = random.randrange(1, random.choice((20, 100, 10_000)))
    return numbers.in_words(number), Decimal(number)


def _sample_spelled(random: Random) -> tuple[str, Decimal]:
    number = Decimal(random.randrange(10, 10_000))
    swaps = {"nine": "niner", "three": "tree", "four": "fower", "five": "fife", "zero": "oh"}
    words = [
        swaps[word] if word in swaps and random.random() < 0.3 else word
        for word in numbers.spelled_digits(number).split()
    ]
    return " ".join(words), number


def _sample_decimal(random: Random) -> tuple[str, Decimal]:
    whole, tenth = random.randrange(100), random.randrange(1, 10)
    return f"{numbers.in_words(whole)} point {numbers.in_words(tenth)}", Decimal(f"{whole}.{tenth}")


def sample_parts(random: Random) -> tuple[str, Decimal]:
    bottom = random.choice((2, 4, 8, 16))
    top = random.randrange(1, bottom, 2)
    whole = random.choice((0, 0, 1, 2, 7))
    value = whole + Decimal(top) / bottom
    typed = f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"
    return random.choice((typed, numbers.spoken_fraction(whole, top, bottom))), value


_WAYS = (_sample_typed, _sample_typed, _sample_worded, _sample_spelled, _sample_decimal)


def sample_plain(random: Random) -> tuple[str, Decimal]:
    """A number without a fraction."""
    return random.choice(_WAYS)(random)


KIND = ValueKind(
    slots=(
        Slot(
            name="number",
            rule="plain_number | parts",
            build=_number,
            short=plain_number,
            sample=sample_number,
            aloud=SpokenForm(heard="(<under_hundred> | <tenths>)", say=SpokenNumbers.number),
        ),
    ),
    roles=_ROLES,
    rules=_RULES,
    builders=_BUILDERS,
    unbroken=("plain_number", "parts"),
    expected=dict.fromkeys(
        ("n_typed", "n_fraction_typed", "r_digit", "r_zero", "r_teen", "r_tens"), "a number"
    ),
    spoken_pieces=_SPOKEN_PIECES,
    spoken_numbers=_SPOKEN_NUMBERS,
    figures=_FIGURES,
    apart=_FIGURES_APART,
    tied={"under_hundred": f"<tens> +- {_TIED}"},
    spellings={"nine": ("niner",)},
)
