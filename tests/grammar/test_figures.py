"""One command said in two ways is one heap; two numbers never are."""

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
