"""Two ways to say one command are grouped together; two different numbers never are."""

from __future__ import annotations

import pytest

from grammar.figures import in_figures, numbers_in


@pytest.mark.parametrize(
    ("said", "figures"),
    [
        ("minus a hundred and five", "minus 105"),
        ("minus one zero five", "minus 105"),
        ("minus three thousand six hundred and fifty", "minus 3650"),
        ("minus 1 0 5", "minus 105"),
        ("plus half", "plus half"),
        ("plus a half inches", "plus 1/2 inches"),
        ("plus one and a half inches", "plus 1 1/2 inches"),
        ("minus two point five", "minus 2.5"),
        ("point bravo three level", "bravo 3 level"),
        ("raise finish by three", "raise finish 3"),
        ("correct bravo three to minus two", "correct bravo 3 minus 2"),
        ("room twelve metres by eight metres", "room 12 by 8 metres"),
    ],
)
def test_a_sentence_in_figures(said: str, figures: str) -> None:
    assert in_figures(said) == figures


def test_ways_to_say_one_number_are_one() -> None:
    ways = ("one hundred and twenty five", "a hundred twenty five", "one two five", "1 2 5", "125")
    assert {in_figures(f"minus {way} inches") for way in ways} == {"minus 125 inches"}


def test_numbers_are_found_with_their_place() -> None:
    words = "bravo twenty one minus four point five inches".split()
    found = numbers_in(words)
    assert found == [(1, 3, "21"), (4, 7, "4.5")]
    assert numbers_in(["minus", "inches"]) == []
    assert numbers_in([]) == []


@pytest.mark.parametrize(
    ("said", "figures"),
    [
        # each part of an inch by the number below its line
        ("plus a quarter inches", "plus 1/4 inches"),
        ("plus three quarters inches", "plus 3/4 inches"),
        ("plus an eighth inches", "plus 1/8 inches"),
        ("plus seven eighths inches", "plus 7/8 inches"),
        ("plus a sixteenth inches", "plus 1/16 inches"),
        ("plus fifteen sixteenths inches", "plus 15/16 inches"),
        ("plus twelve and three eighths inches", "plus 12 3/8 inches"),
        # hundreds and thousands, said with and without their one
        ("minus hundred", "minus 100"),
        ("minus a hundred", "minus 100"),
        ("minus thousand", "minus 1000"),
        ("minus one thousand and one", "minus 1001"),
        ("minus two thousand", "minus 2000"),
        ("minus two hundred", "minus 200"),
        ("minus twelve hundred and twenty", "minus 1220"),
        ("minus ninety nine", "minus 99"),
        ("minus 2 hundred and 5", "minus 205"),
        ("minus zero", "minus 0"),
        ("minus ten", "minus 10"),
        ("minus zero point five", "minus 0.5"),
        ("minus twelve point zero five", "minus 12.05"),
        # what belongs to no number stays a word
        ("point", "point"),
        ("point five", "point 5"),
        ("a", "a"),
        ("a b", "a b"),
        ("and", ""),
        ("one and two", "1 2"),
        ("hundred and", "100"),
        # idle words go only where they are idle
        ("finish at five", "finish 5"),
        ("finish by five", "finish 5"),
        ("point kilo one at three by four metres", "kilo 1 at 3 by 4 metres"),
        ("correct to minus two", "correct minus 2"),
        ("correct to plus two", "correct plus 2"),
        ("correct to level", "correct level"),
        ("correct to five", "correct to 5"),
        ("order at risk five", "order risk 5"),
        # a unit said twice is said once
        ("room twelve feet by eight feet", "room 12 by 8 feet"),
        ("room nine millimetres by eight millimetres", "room 9 by 8 millimetres"),
        ("room twelve feet by eight feet six inches", "room 12 feet by 8 feet 6 inches"),
        ("room twelve metres by eight feet", "room 12 metres by 8 feet"),
    ],
)
def test_each_kind_of_number_and_idle_word(said: str, figures: str) -> None:
    assert in_figures(said) == figures


def test_a_number_ends_where_the_next_word_is_none() -> None:
    assert numbers_in("a half".split()) == [(0, 1, "1")]
    assert numbers_in("three point".split()) == [(0, 1, "3")]
    assert numbers_in("three point five point".split()) == [(0, 3, "3.5")]
    assert numbers_in("twenty and five".split()) == [(0, 1, "20"), (2, 3, "5")]
    assert numbers_in("2 3/8".split()) == [(0, 1, "2")]
