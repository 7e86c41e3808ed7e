"""Random values reach from the least to the most that is taken, each as often as it should.

Whoever fuzzes with them relies on that: a value that no sample has is one that nothing tries.
"""

from __future__ import annotations

from decimal import Decimal
from random import Random
from string import ascii_uppercase
from typing import Any

import pytest

from grammar.commands import IN_PARTS
from grammar.commands.readings import MarkStep, TakeReading
from grammar.commands.set_ups import AskSurveyCheck
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence
from grammar.slots import SLOTS
from grammar.words import FILLERS

SEEDS = range(300)


class Extreme(Random):
    """Of a range it draws the last value, or the first; all else by chance."""

    def __init__(self, seed: int, *, last: bool) -> None:
        super().__init__(seed)
        self._last = last

    def randrange(self, start: int, stop: int | None = None, step: int = 1) -> int:
        values = range(start) if stop is None else range(start, stop, step)
        return values[-1 if self._last else 0]


class Chances(Random):
    """Chances are these, one after the other, then the last again and again; all else by chance."""

    def __init__(self, seed: int, *chances: float) -> None:
        super().__init__(seed)
        self._chances = list(reversed(chances))

    def random(self) -> float:
        return self._chances.pop() if len(self._chances) > 1 else self._chances[0]

    def getrandbits(self, k: int, /) -> int:  # what is drawn from a range is not by chances
        return super().getrandbits(k)


def _drawn(slot: str, *, last: bool) -> list[tuple[str, Any]]:
    return [SLOTS[slot].sample(Extreme(seed, last=last)) for seed in SEEDS]


def _leaning(slot: str, *chances: float) -> list[Any]:
    return [SLOTS[slot].sample(Chances(seed, *chances))[1] for seed in SEEDS]


@pytest.mark.parametrize(
    ("last", "numbers"),
    [
        # typed whole and with tenths, in words, digit by digit, with a decimal in words
        (False, "1 0.1 10 0.5 0.25 0.125 0.0625 1.5 1.25 1.125 1.0625 2.5 2.25 2.125 2.0625"
                " 7.5 7.25 7.125 7.0625"),
        (True, "999 29.9 19 99 9999 99.9 0.5 0.75 0.875 0.9375 1.5 1.75 1.875 1.9375"
               " 2.5 2.75 2.875 2.9375 7.5 7.75 7.875 7.9375"),
    ],
)  # fmt: skip
def test_numbers_reach_both_ends_of_each_way_to_say_them(last: bool, numbers: str) -> None:
    drawn = [SLOTS["number"].sample(Extreme(seed, last=last)) for seed in range(3000)]
    assert {value for _, value in drawn} == set(map(Decimal, numbers.split()))


@pytest.mark.parametrize(
    ("slot", "least", "most"),
    [("whole", 1, 99), ("percent", 1, 100)],
)
def test_counts_and_percents_reach_both_ends(slot: str, least: int, most: int) -> None:
    assert {value for _, value in _drawn(slot, last=False)} == {least}
    assert {value for _, value in _drawn(slot, last=True)} == {most}


def test_temperatures_reach_both_ends() -> None:
    assert {value.number for _, value in _drawn("temperature", last=False)} == {-30}
    assert {value.number for _, value in _drawn("temperature", last=True)} == {119}
    assert {value.scale for _, value in _drawn("temperature", last=True)} == {None, "C", "F"}
    # Nothing below zero is no temperature below zero, and is said without a minus.
    with_zero = [SLOTS["temperature"].sample(_At(seed, 0)) for seed in range(20)]
    assert not any("minus" in said for said, _ in with_zero)


class _At(Random):
    """Of a range it draws one value."""

    def __init__(self, seed: int, value: int) -> None:
        super().__init__(seed)
        self._value = value

    def randrange(self, start: int, stop: int | None = None, step: int = 1) -> int:  # noqa: ARG002
        return self._value


@pytest.mark.parametrize(
    ("slot", "last", "rows"),
    [
        ("point", False, {"1"}),
        ("point", True, {"99"}),
        ("line", False, {"", "1"}),
        ("line", True, {"", "29"}),
    ],
)
def test_points_and_lines_reach_the_last_row(slot: str, last: bool, rows: set[str]) -> None:
    assert {name.lstrip(ascii_uppercase) for _, name in _drawn(slot, last=last)} == rows


def test_points_have_every_letter() -> None:
    assert {name[0] for _, name in _drawn("point", last=True)} == set(ascii_uppercase)


def test_feet_and_inches_reach_both_ends() -> None:
    for last, feet_inches in ((False, 12), (True, 39 * 12 + 11)):
        drawn = [v for _, v in _drawn("length", last=last) if v.unit == "ft-in"]
        assert {value.number for value in drawn} == {feet_inches}


def test_several_readings_are_two_to_four_of_1_to_59() -> None:
    for last, count, size in ((False, 2, 1), (True, 4, 59)):
        for _, readings in _drawn("several", last=last):
            assert len(readings) == count
            assert {abs(reading.number) for reading in readings} == {size}
    sides = {reading.number for _, readings in _drawn("several", last=True) for reading in readings}
    assert sides == {-59, 59}


@pytest.mark.parametrize(("chance", "feet"), [(0.14, True), (0.15, False)])
def test_a_seventh_of_lengths_is_in_feet_and_inches(chance: float, feet: bool) -> None:
    assert {value.unit == "ft-in" for value in _leaning("length", chance)} == {feet}


def test_most_sizes_have_a_unit_some_are_parts_and_some_are_bare() -> None:
    assert None not in {value.unit for value in _leaning("loose", 0.69)}
    assert {value.unit for value in _leaning("loose", 0.7)} == {None}
    # Drawn one after the other: is there a unit, and if not, are they parts?
    parts = {value.unit for value in _leaning("loose", 0.7, 0.19)}
    bare = {value.unit for value in _leaning("loose", 0.7, 0.2)}
    assert (parts, bare) == ({IN_PARTS}, {None})


@pytest.mark.parametrize(("chance", "shared"), [(0.59, True), (0.6, False)])
def test_of_most_pairs_the_unit_is_said_once(chance: float, shared: bool) -> None:
    said = [SLOTS["pair"].sample(Chances(seed, chance)) for seed in SEEDS]
    once = [pair[0].unit == pair[1].unit and not _has_unit(text) for text, pair in said]
    assert set(once) == {shared}


def _has_unit(text: str) -> bool:
    first = text.replace(" x ", " by ").partition(" by ")[0]
    units = ("mm", "cm", "m", "in", "ft", "'", '"', "metre", "meter", "inch", "foot", "feet", "mil",
             "mils", "mill")  # fmt: skip
    return first.split()[-1].endswith(units) or first.endswith(("metres", "meters", "inches"))


def test_a_tenth_of_readings_is_level() -> None:
    assert {value.number for value in _leaning("reading", 0.09)} == {0}
    assert 0 not in {value.number for value in _leaning("reading", 0.1)}


def test_a_tenth_of_the_others_has_no_side() -> None:
    # The chances: is it level, has it a unit, is it in feet and inches, has it no side?
    without = [value.side_said for value in _leaning("reading", 0.5, 0.5, 0.1, 0.09)]
    assert set(without) == {False}
    assert {value.side_said for value in _leaning("reading", 0.5, 0.5, 0.1, 0.1)} == {True}


@pytest.mark.parametrize(("chance", "letters"), [(0.14, 2), (0.15, 1)])
def test_a_seventh_of_points_has_two_letters(chance: float, letters: int) -> None:
    names = _leaning("point", chance)
    assert {sum(sign.isalpha() for sign in name) for name in names} == {letters}


@pytest.mark.parametrize(("chance", "swapped"), [(0.29, True), (0.3, False)])
def test_digits_are_now_and_then_said_as_on_the_radio(chance: float, swapped: bool) -> None:
    radio = {"niner", "tree", "fower", "fife", "oh"}
    said = [SLOTS["number"].sample(Chances(seed, chance))[0] for seed in SEEDS]
    assert any(radio & set(text.split()) for text in said) is swapped


# --- whole sentences ------------------------------------------------------------------------


def _step() -> Phrase:
    return next(phrase for phrase in PHRASES if phrase.command is MarkStep)


@pytest.mark.parametrize(("chance", "roughened"), [(0.19, True), (0.2, False)])
def test_a_fifth_of_sentences_has_a_filler_and_a_fifth_words_in_capitals(
    chance: float, roughened: bool
) -> None:
    for seed in range(40):
        text = random_sentence(_step(), Chances(seed, chance)).text
        assert bool(FILLERS & set(text.lower().split())) is roughened
        assert ("STEP" in text.split()) is roughened


@pytest.mark.parametrize(("chance", "left_out"), [(0.49, True), (0.5, False)])
def test_half_of_what_may_be_left_out_is(chance: float, left_out: bool) -> None:
    phrase = Phrase("[point] <point> <reading>", TakeReading, "", (), "")
    for seed in range(40):
        text = random_sentence(phrase, Chances(seed, chance, 0.9)).text
        assert text.lower().startswith("point") is not left_out


def test_half_of_the_words_are_in_capitals_where_some_are() -> None:
    # A filler? Capitals? And then for each word.
    def shouted(chance: float) -> list[bool]:
        text = random_sentence(_without_choice(), Chances(1, 0.9, 0.1, chance)).text
        return [word.isupper() for word in text.split()]

    assert all(shouted(0.49))
    assert not any(shouted(0.5))


def _without_choice() -> Phrase:
    return Phrase("survey check", AskSurveyCheck, "", (), "")


def test_fillers_stand_anywhere_but_after_because() -> None:
    phrase = next(phrase for phrase in PHRASES if phrase.template.startswith("accept weight"))
    places = set()
    for seed in range(200):
        words = random_sentence(phrase, Chances(seed, 0.19)).text.lower().split()
        places.add(next(at for at, word in enumerate(words) if word in FILLERS))
    assert places == {0, 1, 2}  # "accept weight because …"
    alone = set()
    for seed in range(200):
        words = random_sentence(_without_choice(), Chances(seed, 0.19)).text.lower().split()
        alone.add(next(at for at, word in enumerate(words) if word in FILLERS))
    assert alone == {0, 1, 2}


def test_names_have_two_words_of_any_order() -> None:
    names = {value for _, value in _drawn("name", last=False)}
    assert {len(name.split()) for name in names} == {2}
    assert len(names) > 20
