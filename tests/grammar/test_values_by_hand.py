"""Values of lines, and the ways to say them: each number written out."""

from __future__ import annotations

from datetime import time
from decimal import Decimal

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.commands import IN_PARTS, Measure, Reading
from grammar.errors import Impossible, Unsayable
from grammar.numbers import in_words
from grammar.slots import SLOTS
from grammar.slots.measure import short_measure, short_pair, spoken_measure
from grammar.slots.number import SpokenNumbers
from grammar.slots.reading import short_several
from grammar.slots.run import short_pairs, short_run
from grammar.slots.slot import Manner
from grammar.spoken import Spoken
from grammar.values_said import values_said
from grammar.words import split_words

NOT = None
"""Unsayable."""


def voice(manner: Manner, *, written: bool) -> SpokenNumbers:
    return SpokenNumbers(Spoken(manner), written)


def test_the_ways_to_say_a_whole_number() -> None:
    plain, figures = voice("words", written=False), voice("words", written=True)
    digits = voice("digits", written=True)
    for number, said, with_figures, by_digits in (
        (1, "(one)", "(one | 1)", "(one | 1)"),
        (9, "(nine)", "(nine | 9)", "(nine | 9)"),
        (10, "(ten)", "(ten | 1 +0)", "(one zero | 1 +0 | 1 0)"),
        (19, "(nineteen)", "(nineteen | 1 +9)", "(one nine | 1 +9 | 1 9)"),
        (20, "(twenty)", "(twenty | 2 +0)", "(two zero | 2 +0 | 2 0)"),
        (21, "(twenty one)", "(twenty one | 2 +1 | twenty +- +one)", "(two one | 2 +1 | 2 1)"),
        (99, "(ninety nine)", "(ninety nine | 9 +9 | ninety +- +nine)",
         "(nine nine | 9 +9 | 9 9)"),
        (100, "((one | a) hundred)", "((one | a) hundred | 1 +0 +0)",
         "(one zero zero | 1 +0 +0 | 1 0 0)"),
        (101, "((one | a) hundred [and] one)", "((one | a) hundred [and] one | 1 +0 +1)",
         "(one zero one | 1 +0 +1 | 1 0 1)"),
        (199, "((one | a) hundred [and] ninety nine)",
         "((one | a) hundred [and] ninety nine | 1 +9 +9)", "(one nine nine | 1 +9 +9 | 1 9 9)"),
        (200, "(two hundred)", "(two hundred | 2 +0 +0)", "(two zero zero | 2 +0 +0 | 2 0 0)"),
        (3405, "(three thousand four hundred [and] five)",
         "(three thousand four hundred [and] five | 3 +4 +0 +5)",
         "(three four zero five | 3 +4 +0 +5 | 3 4 0 5)"),
    ):  # fmt: skip
        assert plain.whole(number, 10_000) == said
        assert figures.whole(number, 10_000) == with_figures
        assert digits.whole(number, 10_000) == by_digits
    assert plain.whole(99) == "(ninety nine)"
    for number in (0, 100, -1):
        with pytest.raises(Unsayable):
            plain.whole(number)


def test_the_ways_to_say_a_decimal() -> None:
    plain, figures = voice("words", written=False), voice("digits", written=True)
    for number, places, said, with_figures in (
        ("2.5", 1, "(two point five)", "(two point five | 2 +. +5)"),
        ("0.5", 1, "(zero point five)", "(zero point five | 0 +. +5)"),
        ("99.5", 1, "(ninety nine point five)", "(nine nine point five | 9 +9 +. +5)"),
        ("1.25", 2, "(one point two five)", "(one point two five | 1 +. +2 +5)"),
        ("7", 1, "(seven)", "(seven | 7)"),
        ("100.5", 1, NOT, NOT), ("2.55", 1, NOT, NOT), ("2.555", 2, NOT, NOT),
    ):  # fmt: skip
        for way, wanted in ((plain, said), (figures, with_figures)):
            if wanted is NOT:
                with pytest.raises(Unsayable):
                    way.number(Decimal(number), places=places)
            else:
                assert way.number(Decimal(number), places=places) == wanted


def test_the_ways_to_say_parts_of_an_inch() -> None:
    plain, figures = voice("words", written=False), voice("words", written=True)
    for number, said, with_figures in (
        ("0.5", "((one | a) half)", "((one | a) half | 1 +/ +2)"),
        ("0.125", "((one | an) eighth)", "((one | an) eighth | 1 +/ +8)"),
        ("0.75", "(three quarters)", "(three quarters | 3 +/ +4)"),
        ("0.9375", "(fifteen sixteenths)", "(fifteen sixteenths | 1 +5 +/ +1 +6)"),
        ("1.5", "((one) and (one | a) half)", "((one | 1) and (one | a) half | 1 1 +/ +2)"),
        ("12.0625", "((twelve) and (one | a) sixteenth)",
         "((twelve | 1 +2) and (one | a) sixteenth | 1 +2 1 +/ +1 +6)"),
        ("3", "(three)", "(three | 3)"),
    ):  # fmt: skip
        assert plain.fraction(Decimal(number)) == said
        assert figures.fraction(Decimal(number)) == with_figures
    for finer in ("0.03125", "1.015625"):
        with pytest.raises(Unsayable):
            plain.fraction(Decimal(finer))


def test_numbers_in_words_at_every_change() -> None:
    for number, words in (
        (0, "zero"), (9, "nine"), (10, "ten"), (19, "nineteen"), (20, "twenty"),
        (21, "twenty one"), (99, "ninety nine"), (100, "one hundred"),
        (101, "one hundred and one"), (120, "one hundred and twenty"),
        (999, "nine hundred and ninety nine"), (1000, "one thousand"),
        (1001, "one thousand and one"), (1099, "one thousand and ninety nine"),
        (1100, "one thousand one hundred"), (9999, "nine thousand nine hundred and ninety nine"),
    ):  # fmt: skip
        assert in_words(number) == words


def test_several_readings_keep_parts_of_an_inch() -> None:
    def readings(*sizes: str, unit: str | None) -> tuple[Reading, ...]:
        return tuple(Reading(Decimal(size), unit) for size in sizes)

    for said, short in (
        (readings("0.375", "1", unit=IN_PARTS), "+3/8 1"),
        (readings("-0.375", "-1", unit=IN_PARTS), "-3/8 1"),
        (readings("-17", "-18", unit="mm"), "-17 18 mm"),
        (readings("-17", "-18", unit=None), "-17 18"),
        (readings("1.5", "2", unit="in"), "+1.5 2 in"),
    ):
        assert short_several(said) == short
    level, low = Reading(Decimal(0), "mm"), Reading(Decimal(-8), None)
    assert short_run((low, level)) == "-8 +0 mm"
    assert short_pairs((("A1", "B1"), (low, level))) == "A1 -8, B1 +0 mm"


def test_lengths_in_feet_and_inches_keep_both() -> None:
    feet = Measure(Decimal(162), "ft-in")
    assert short_measure(Measure(Decimal("-161.5"), "ft-in")) == "-13 ft 5 1/2 in"
    assert short_pair((feet, feet)) == "13 ft 6 in by 13 ft 6 in"
    inches = Measure(Decimal("1.5"), "in")
    assert short_pair((inches, inches)) == "1 1/2 by 1 1/2 in"
    assert spoken_measure(Decimal(12), "ft-in") == "one foot zero inches"
    assert spoken_measure(Decimal("1.5"), "in") == "one and one half inches"
    assert spoken_measure(Decimal(0), "mm") == "zero millimetres"


def test_the_last_number_that_is_taken_and_the_first_that_is_not() -> None:
    twenty = " ".join(["-8"] * 20)
    twelve = ", ".join(f"A{row} -8" for row in range(1, 13))
    for said, short in (
        ("B3 -1/64 in", "B3 -1/64 in"), ("B3 -1 1/2 in", "B3 -1 1/2 in"),
        ("B3 -1/128 in", NOT), ("B3 -1/3 in", NOT), ("B3 -1 2/2 in", NOT), ("B3 -1 3/2 in", NOT),
        ("B3 -1.5 1/2 in", NOT), ("B3 one and a half inches low", "B3 -1 1/2 in"),
        ("B3 minus an inch and a half", "B3 -1 1/2 in"),
        ("bags left 1", "bags left 1"), ("bags left 9999", "bags left 9999"),
        ("bags left 10000", NOT), ("bags left 2.5", NOT),
        ("B3 -123456789012 mm", "B3 -123456789012 mm"), ("B3 -1234567890123 mm", NOT),
        ("door 99 at B1", "door 99 at B1"), ("door 100 at B1", NOT),
        (twenty, twenty), (f"{twenty} -8", NOT), (twelve, twelve), (f"{twelve}, A13 -8", NOT),
        ("B3 -8/8", "B3 -1"), ("B3 -16/8", "B3 -2"), ("B3 -3/8", "B3 -3/8"),
    ):  # fmt: skip
        if short is NOT:
            with pytest.raises(Misunderstood):
                understand(said)
        else:
            assert [short_form(meant) for meant in understand(said)] == [short], said


def test_times_of_day() -> None:
    clock = SLOTS["clock_time"].build
    for said, half, meant in (
        ("12", None, time(12)), (time(12, 5), "am", time(0, 5)), (time(12, 5), "pm", time(12, 5)),
        (time(1), "am", time(1)), (time(1), "pm", time(13)), (time(11, 59), "pm", time(23, 59)),
        (time(13), "pm", NOT), (time(0), "am", NOT), (time(13, 5), None, time(13, 5)),
    ):  # fmt: skip
        if meant is NOT:
            with pytest.raises(Impossible):
                clock(said, half)
        else:
            assert clock(said, half) == meant, (said, half)


@pytest.mark.parametrize(
    ("line", "values", "rest"),
    [
        ("6 by metres", ["number 6"], "by metres"),
        ("6 metres by metres", ["length 6 metres"], "by metres"),
        ("6 by 4 feet 3 inches", ["pair 6 by 4 feet 3 inches"], ""),
        ("4 feet 3 metres", ["length 4 feet", "length 3 metres"], ""),
        ("4 feet metres", ["length 4 feet"], "metres"),
        ("one and a half inches", ["length one and a half inches"], ""),
        ("one and three quarters", ["number one and three quarters"], ""),
        ("one and 3/4 inches", ["length one and 3/4 inches"], ""),
        ("one and four", ["number one", "number four"], "and"),
        ("a half inch", ["length a half inch"], ""),
        ("an eighth low", ["reading an eighth low"], ""),
        ("half a metre", ["number half"], "a metre"),
        ("1 2 3", ["number 1", "number 2", "number 3"], ""),
        ("one two three", ["alien one two three"], ""),
        ("one two", ["number one two"], ""),
        ("b 99 minus 4", ["point b 99", "reading minus 4"], ""),
        ("b 100 minus 4", ["number 100", "reading minus 4"], "b"),
        ("column c", ["column c"], "column"),
        ("minus", [], "minus"),
        ("level minus", [], "level minus"),
        ("18 per cents", ["number 18"], "per cents"),
    ],
)
def test_values_at_the_edges_of_lines(line: str, values: list[str], rest: str) -> None:
    found, beside = values_said(split_words(line))
    assert [f"{each.sort} {each.text}" for each in found] == values
    assert " ".join(word.text for word in beside) == rest
