"""Number words by a table that is not the program's own: alone, together, and back to words."""

from __future__ import annotations

from decimal import Decimal

import pytest

from grammar import Misunderstood, understand
from grammar.commands import IN_PARTS, Reading
from grammar.commands.readings import TakeReading
from grammar.errors import Unsayable
from grammar.numbers import in_words
from grammar.slots.number import SpokenNumbers
from grammar.spoken import Spoken

# Plain English; the radio spellings are those of ICAO Annex 10, volume II.
WORDS = {
    "one": 1, "wun": 1, "two": 2, "too": 2, "three": 3, "tree": 3, "four": 4, "fower": 4,
    "five": 5, "fife": 5, "six": 6, "seven": 7, "eight": 8, "ait": 8, "nine": 9, "niner": 9,
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
    "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60,
    "seventy": 70, "eighty": 80, "ninety": 90,
    "twenty one": 21, "ninety nine": 99, "one hundred": 100, "a hundred": 100,
    "a hundred and one": 101, "a hundred one": 101, "one hundred ninety nine": 199,
    "nine hundred and ninety nine": 999, "twelve hundred": 1200,
    "twenty one hundred and five": 2105,
    "a thousand": 1000, "one tousand": 1000, "two thousand and five": 2005,
    "three thousand six hundred and fifty": 3650, "two thousand fifty": 2050,
    "fifteen thousand": 15000, "one two thousand": 12000,
    "one five": 15, "one zero five": 105, "one oh five": 105, "nine nine nine nine": 9999,
    "nought": 0, "naught": 0, "nil": 0,
    "two point five": "2.5", "two decimal five": "2.5", "two dot five": "2.5",
    "point five": "0.5", "zero point one two five": "0.125", "twelve point oh five": "12.05",
    "one hundred and five point two": "105.2",
}  # fmt: skip

PARTS = {
    "half": "1/2", "a half": "1/2", "one half": "1/2", "quarter": "1/4", "a quarter": "1/4",
    "three quarters": "3/4", "three fourths": "3/4", "one fourth": "1/4", "an eighth": "1/8",
    "one eighth": "1/8", "seven eighths": "7/8", "a sixteenth": "1/16",
    "fifteen sixteenths": "15/16",
    "one halves": "1/2", "one thirty second": "1/32", "thirty one thirty seconds": "31/32",
    "one sixty fourth": "1/64", "sixty three sixty fourths": "63/64",
    "one and a half": "3/2", "one and one half": "3/2", "12 and a half": "25/2",
    "twenty five eighths": "165/8", "one and five eighths": "13/8",
    "1 1/2": "3/2", "1 and 1/2": "3/2", "63/64": "63/64", "1/2": "1/2",
    "99999 63/64": "6399999/64",  # as long as a number may be
}  # fmt: skip


@pytest.mark.parametrize(("said", "number"), WORDS.items())
def test_a_number_word_is_its_number(said: str, number: int | str) -> None:
    size = Decimal(number)
    meant = TakeReading("B3", Reading(-size if size else size, "mm"))
    assert meant in understand(f"B3 minus {said} millimetres")


@pytest.mark.parametrize(("said", "part"), PARTS.items())
def test_parts_of_an_inch_are_their_share(said: str, part: str) -> None:
    top, bottom = map(Decimal, part.split("/"))
    assert TakeReading("B3", Reading(-top / bottom, "in")) in understand(f"B3 minus {said} inches")
    assert TakeReading("B3", Reading(-top / bottom, IN_PARTS)) in understand(f"B3 minus {said}")


@pytest.mark.parametrize("said", ["8/8", "16/8"])
def test_whole_parts_are_a_whole_number_like_any_other(said: str) -> None:
    whole = Decimal(said[:-2]) / 8
    assert understand(f"B3 -{said}") == (TakeReading("B3", Reading(-whole, None)),)


@pytest.mark.parametrize(
    ("said", "rule"),
    [
        ("eight eighths", "less than one"),
        ("nine eighths", "less than one"),
        ("1 8/8", "a part of one"),
        ("1.5 1/2", "a part of one"),
        ("1.5 and a half", "a part of one"),
        ("1/3", "halves"),
        ("1/128", "halves"),
        ("999999 63/64", "longer than any number"),
        ("twenty twenty seconds", None),
    ],
)
def test_parts_that_no_rule_has_are_refused(said: str, rule: str | None) -> None:
    with pytest.raises(Misunderstood) as refused:
        understand(f"B3 minus {said} inches")
    if rule is not None:
        assert rule in refused.value.explain()


# --- and back to words ----------------------------------------------------------------------

WORDY = SpokenNumbers(Spoken("words"), written=False)
WRITTEN = SpokenNumbers(Spoken("words"), written=True)
DIGITS = SpokenNumbers(Spoken("digits"), written=False)
DIGITS_WRITTEN = SpokenNumbers(Spoken("digits"), written=True)


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"), (9, "nine"), (10, "ten"), (19, "nineteen"), (20, "twenty"),
        (21, "twenty one"), (99, "ninety nine"), (100, "one hundred"),
        (101, "one hundred and one"), (110, "one hundred and ten"),
        (999, "nine hundred and ninety nine"),
        (1000, "one thousand"), (1001, "one thousand and one"),
        (1099, "one thousand and ninety nine"),
        (1100, "one thousand one hundred"), (9999, "nine thousand nine hundred and ninety nine"),
    ],
)  # fmt: skip
def test_a_number_in_plain_words(number: int, words: str) -> None:
    assert in_words(number) == words


@pytest.mark.parametrize(
    ("voice", "number", "ways"),
    [
        (WORDY, 1, "(one)"),
        (WORDY, 99, "(ninety nine)"),
        (WRITTEN, 9, "(nine | 9)"),
        (WRITTEN, 20, "(twenty | 2 +0)"),
        (WRITTEN, 21, "(twenty one | 2 +1 | twenty +- +one)"),
        (WRITTEN, 99, "(ninety nine | 9 +9 | ninety +- +nine)"),
        (WRITTEN, 19, "(nineteen | 1 +9)"),
        (DIGITS, 35, "(three five)"),
        (DIGITS_WRITTEN, 9, "(nine | 9)"),
        (DIGITS_WRITTEN, 10, "(one zero | 1 +0 | 1 0)"),
        (DIGITS_WRITTEN, 35, "(three five | 3 +5 | 3 5)"),
    ],
)
def test_a_whole_number_has_these_ways(voice: SpokenNumbers, number: int, ways: str) -> None:
    assert voice.whole(number) == ways


@pytest.mark.parametrize(
    ("number", "ways"),
    [
        (100, "((one | a) hundred | 1 +0 +0)"),
        (101, "((one | a) hundred [and] one | 1 +0 +1)"),
        (199, "((one | a) hundred [and] ninety nine | 1 +9 +9)"),
        (200, "(two hundred | 2 +0 +0)"),
        (999, "(nine hundred [and] ninety nine | 9 +9 +9)"),
    ],
)
def test_hundreds_have_these(number: int, ways: str) -> None:
    assert WRITTEN.whole(number, 1000) == ways


@pytest.mark.parametrize(("number", "below"), [(0, 100), (100, 100), (1000, 1000), (-1, 100)])
def test_what_is_out_of_range_cannot_be_said(number: int, below: int) -> None:
    with pytest.raises(Unsayable):
        WORDY.whole(number, below)


@pytest.mark.parametrize(
    ("voice", "number", "ways"),
    [
        (WORDY, "0.5", "(zero point five)"),
        (WORDY, "1.5", "(one point five)"),
        (WORDY, "99.9", "(ninety nine point nine)"),
        (WORDY, "18", "(eighteen)"),
        (WRITTEN, "0.5", "(zero point five | 0 +. +5)"),
        (WRITTEN, "12.5", "(twelve point five | 1 +2 +. +5)"),
        (DIGITS_WRITTEN, "12.5", "(one two point five | 1 +2 +. +5)"),
    ],
)
def test_a_decimal_has_these_ways(voice: SpokenNumbers, number: str, ways: str) -> None:
    assert voice.number(Decimal(number)) == ways


@pytest.mark.parametrize(
    ("number", "places", "sayable"),
    [("100.5", 1, False), ("1.25", 1, False), ("1.25", 2, True), ("1.125", 2, False)],
)
def test_decimals_are_said_below_a_hundred_and_to_so_many_places(
    number: str, places: int, sayable: bool
) -> None:
    if sayable:
        assert WORDY.number(Decimal(number), places=places) == "(one point two five)"
    else:
        with pytest.raises(Unsayable):
            WORDY.number(Decimal(number), places=places)


@pytest.mark.parametrize(
    ("voice", "number", "ways"),
    [
        (WORDY, "0.5", "((one | a) half)"),
        (WORDY, "0.25", "((one | a) quarter)"),
        (WORDY, "0.125", "((one | an) eighth)"),
        (WORDY, "0.0625", "((one | a) sixteenth)"),
        (WORDY, "0.375", "(three eighths)"),
        (WORDY, "1.5", "((one) and (one | a) half)"),
        (WORDY, "3", "(three)"),
        (WRITTEN, "0.375", "(three eighths | 3 +/ +8)"),
        (WRITTEN, "0.6875", "(eleven sixteenths | 1 +1 +/ +1 +6)"),
        (WRITTEN, "2.375", "((two | 2) and three eighths | 2 3 +/ +8)"),
    ],
)
def test_parts_have_these_ways(voice: SpokenNumbers, number: str, ways: str) -> None:
    assert voice.fraction(Decimal(number)) == ways


def test_thirty_seconds_are_for_typing() -> None:
    with pytest.raises(Unsayable):
        WORDY.fraction(Decimal(1) / 32)
