"""A question among what people put around it, in other words, or with a thing missing."""

from __future__ import annotations

import re

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.asked_back import ASKED_BACK
from grammar.gist import gist


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("I was wondering what the mean depth is, do you know", "mean depth"),
        ("would you mind telling me how many bags", "how many bags"),
        ("could you confirm how much primer", "how much primer"),
        ("quick one, what's missing", "what is missing"),
        ("sorry, how deep at B3 do you think", "how deep at B3"),
        ("remind me where C2 is", "where is C2"),
    ],
)
def test_a_question_is_taken_without_what_is_put_around_it(line: str, meant: str) -> None:
    assert [short_form(each) for each in understand(line)] == [meant]


@pytest.mark.parametrize(
    "line",
    [
        "I was wondering B3 minus 9",
        "the boss wants to know raise finish 3 mm",
        "pour finished do you think",
        "remind me undo",
    ],
)
def test_nothing_goes_on_record_that_is_only_asked_about(line: str) -> None:
    with pytest.raises(Misunderstood):
        understand(line)


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("how long does it stay runny", "working time"),
        ("how many sacks is this going to need", "how many bags"),
    ],
)
def test_other_words_are_put_into_the_phrases_own(line: str, meant: str) -> None:
    try:
        found = understand(line)[0]
    except Misunderstood:
        guessed = gist(line)
        assert guessed is not None
        assert guessed.command is not None
        found = guessed.command
    assert short_form(found) == meant


@pytest.mark.parametrize("line", ["how high is the moon", "is the moon high"])
def test_one_word_of_ours_beside_one_of_another_matter_is_no_question(line: str) -> None:
    assert gist(line) is None


@pytest.mark.parametrize(("answer", "example"), [each[1:] for each in ASKED_BACK])
def test_what_lacks_a_thing_is_asked_back(answer: str, example: str) -> None:
    with pytest.raises(Misunderstood) as missed:
        understand(example)
    assert answer in missed.value.explain()
    # Nothing is named that was not said.
    assert not re.search(r"\d", answer)
    assert missed.value.nearest is None
