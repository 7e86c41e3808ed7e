"""
Numbers that sound like another: fifteen like fifty, eight like eighty, five like nine, and in some
accents thirty like forty.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from assistant.ears.thresholds import Thresholds
from grammar.confusable import numbers_alike
from grammar.figures import in_figures, numbers_in
from grammar.numbers import DIGITS, ZEROS
from grammar.spoken import Manner, plain_words


@dataclass(frozen=True, slots=True)
class Confusable:
    """A sentence with one number replaced by a confusable one."""

    words: str
    close: bool
    """Whether hardly any sound differs: the n of a fifteen runs into a vowel that follows, as in
    "fifteen at" and "fifty inches"."""
    doubled: bool = False
    """Whether it only has a figure once more or once less: "one one" and "one"."""
    ending: bool = False
    """Whether it is a pair like fifteen and fifty and nothing follows: no unit, in whose beginning
    a last n could be heard."""


def confusables_of(words: str, manner: Manner = "words") -> tuple[Confusable, ...]:
    """
    The confusables of a sentence, with one number changed; digit by digit, with one digit.

    >>> [one.words for one in confusables_of("golf fourteen minus seventeen millimetres")]
    ['golf 40 minus seventeen millimetres', 'golf 13 minus seventeen millimetres', \
'golf fourteen minus 70 millimetres']
    >>> [one.close for one in confusables_of("door seventeen at golf fifty")]
    [True, False, False]
    >>> [one.ending for one in confusables_of("golf two minus fifteen")]
    [True]
    >>> [one.words for one in confusables_of("golf one two minus eighty millimetres")]
    ['golf one two minus 18 millimetres', 'golf one two minus 8 millimetres']
    >>> fifty_nine = "golf one two minus five nine millimetres"
    >>> [one.words for one in confusables_of(fifty_nine, "digits")]
    ['golf one two minus 99 millimetres', 'golf one two minus 55 millimetres']
    >>> [one.words for one in confusables_of("golf two plus five sixteenths inches", "digits")]
    ['golf two plus 9 sixteenths inches']
    """
    plain = plain_words(words)
    found = []
    for start, end, value in numbers_in(plain):
        following = plain[end] if end < len(plain) else ""
        others = _others(value, plain[start:end], manner)
        if following in _PARTS:
            # Only sixteenths can be nine.
            others = others if value in _ALIKE_FIGURES and following == "sixteenths" else []
        runs_on = following != "and" and following[:1] in _VOWELS
        for number, teen in others:
            sentence = " ".join((*plain[:start], number, *plain[end:]))
            close = teen and runs_on and "." not in value
            found.append(Confusable(sentence, close, ending=teen and end == len(plain)))
    if manner == "digits":
        found += _parts_of_an_inch(plain)
    return (*found, *_sixteenths(plain))


def _others(value: str, said: list[str], manner: Manner) -> list[tuple[str, bool]]:
    """Confusable numbers of one in figures, and whether it is a pair like fifteen and fifty."""
    if manner == "digits":
        return [(other, False) for other in _five_or_nine(value)]
    if len(said) > 1 and set(said) <= _DIGITS:
        return []
    whole, point, decimals = value.partition(".")
    return [(f"{other}{point}{decimals}", teen) for other, teen in _alike(int(whole))]


def _five_or_nine(value: str) -> Iterator[str]:
    """
    The figures with one five changed to nine, or one nine to five.

    >>> list(_five_or_nine("159"))
    ['199', '155']
    """
    for at, figure in enumerate(value):
        if figure in _ALIKE_FIGURES:
            yield f"{value[:at]}{_ALIKE_FIGURES[figure]}{value[at + 1 :]}"


def _sixteenths(plain: list[str]) -> Iterator[Confusable]:
    """The same for five and nine sixteenths in figures."""
    for at, word in enumerate(plain):
        top, _, bottom = word.partition("/")
        if top in _ALIKE_FIGURES and bottom == "16":
            yield Confusable(" ".join((*plain[:at], *_five_or_nine(word), *plain[at + 1 :])), False)


def _parts_of_an_inch(plain: list[str]) -> Iterator[Confusable]:
    """
    The fraction that two digits without a unit may have been: "five eight", "five eighths".

    >>> [one.words for one in _parts_of_an_inch("golf one two minus five eight".split())]
    ['golf one two minus 5 eighths']
    """
    for start, end, value in numbers_in(plain):
        if end == len(plain) and value in _AS_DIGITS and plain[start - 1] in ("plus", "minus"):
            yield Confusable(" ".join((*plain[:start], value[0], _AS_DIGITS[value])), False)


def doubled_of(words: str, manner: Manner) -> tuple[Confusable, ...]:
    """
    What a sentence is with a figure once more or once less, where figures are said one by one.

    >>> [one.words for one in doubled_of("golf one two minus five five", "digits")]
    ['golf 112 minus five five', 'golf 122 minus five five', \
'golf one two minus 5', 'golf one two minus 555']
    >>> doubled_of("golf twelve minus fifty five", "words")
    ()
    """
    plain = plain_words(words) if manner == "digits" else []
    return tuple(
        Confusable(" ".join((*plain[:start], other, *plain[end:])), False, True)
        for start, end, value in numbers_in(plain)
        if end == len(plain) or plain[end] not in _PARTS
        for other in _once_more_or_less(value)
    )


def _once_more_or_less(value: str) -> Iterator[str]:
    for run in re.finditer(r"([0-9])\1*", value):
        before, figures, after = value[: run.start()], run.group(), value[run.end() :]
        if len(figures) > 1:
            yield before + figures[1:] + after
        yield before + figures + figures[0] + after


_AS_DIGITS = {
    "12": "half", "14": "quarter", "34": "quarters", "18": "eighth", "38": "eighths",
    "58": "eighths", "78": "eighths",
}  # fmt: skip
_DIGITS = frozenset(DIGITS | ZEROS)
_TEENS, _TENS, _FIGURES = numbers_alike("teen"), numbers_alike("tens"), numbers_alike("digit")
_ACCENTS = numbers_alike("accent")
"""See :func:`assistant.ears.phones.pronouncing.with_accents`."""
_ALIKE_FIGURES = {str(one): str(other) for one, other in _FIGURES.items()}
_PARTS = frozenset("half quarter quarters eighth eighths sixteenth sixteenths".split())
_VOWELS = frozenset("aeiou")


def _alike(number: int) -> Iterator[tuple[int, bool]]:
    """Confusable whole numbers, and whether each is a pair like fifteen and fifty."""
    hundreds, tail = number - number % 100, number % 100
    tens, ones = tail - tail % 10, tail % 10
    if tail in _TEENS:
        yield hundreds + _TEENS[tail], True
    if tail in _TENS:
        yield hundreds + _TENS[tail], False
    if not ones and tens // 10 in _FIGURES:
        yield hundreds + 10 * _FIGURES[tens // 10], False
    elif ones in _FIGURES and tens != 10:
        yield hundreds + tens + _FIGURES[ones], False
    if tail in _ACCENTS:
        yield hundreds + _ACCENTS[tail], False
    elif tens in _ACCENTS:
        yield hundreds + _ACCENTS[tens] + ones, False
    if number >= 13_000:
        yield from ((1000 * other + number % 1000, teen) for other, teen in _alike(number // 1000))


def lead_over_confusables(ahead: Mapping[Confusable, float]) -> dict[str, float]:
    """How far a sentence is ahead of its nearest confusable of each kind."""
    found: dict[str, float] = {}
    for other, nats in ahead.items():
        name = _measure_of(other)
        found[name] = min(found.get(name, np.inf), nats)
    return found


def too_near(ahead: Mapping[Confusable, float], limits: Thresholds) -> str:
    """The confusable that a sentence is least ahead of, where that is too little; else ""."""
    room = {other.words: nats - _needed(other, limits) for other, nats in ahead.items()}
    nearest = min(room, key=lambda words: room[words], default="")
    return nearest if nearest and room[nearest] < 0 else ""


def _needed(confusable: Confusable, limits: Thresholds) -> float:
    return {
        "doubled_apart": limits.doubled_apart, "close_apart": limits.close_apart,
        "ending_apart": limits.ending_apart, "apart": limits.confusable_apart,
    }[_measure_of(confusable)]  # fmt: skip


def _measure_of(confusable: Confusable) -> str:
    """The piece of evidence that a lead over it is."""
    if confusable.doubled:
        return "doubled_apart"
    if confusable.close:
        return "close_apart"
    return "ending_apart" if confusable.ending else "apart"


def has_confusable(words: str, manner: Manner) -> bool:
    """
    Whether a number has a confusable; digit by digit, as three eight and three eighths.

    >>> has_confusable("minus fifteen millimetres", "words")
    True
    >>> has_confusable("minus two inches", "words")
    False
    >>> has_confusable("minus thirty four millimetres", "words")
    True
    >>> has_confusable("plus three eighths inches", "digits")
    True
    >>> has_confusable("plus 3 8 inches", "digits")
    True
    """
    if confusables_of(words, manner):
        return True
    return manner == "digits" and _FRACTION_OR_NOT.search(in_figures(words)) is not None


_FRACTION_OR_NOT = re.compile(r"\b([1-9]/[0-9]+|1 ?2|[13] ?4|[1357] ?8) inches")
