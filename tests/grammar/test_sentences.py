"""Random sentences: the same for the same seed, and with every part of a phrase in some of them."""

from __future__ import annotations

from random import Random

from grammar.commands.readings import MarkStep, TakeReading
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence
from grammar.words import FILLERS


def test_a_seed_gives_one_sentence() -> None:
    for phrase in PHRASES:
        assert random_sentence(phrase, Random(5)) == random_sentence(phrase, Random(5))


def test_what_may_be_left_out_is_there_in_some_and_not_in_others() -> None:
    phrase = next(p for p in PHRASES if p.command is TakeReading and "[point]" in p.template)
    said = [random_sentence(phrase, Random(seed)).text.lower().split() for seed in range(60)]
    with_point = sum("point" in words[:2] for words in said)
    assert 5 < with_point < 55


def test_case_and_fillers_are_mixed_in() -> None:
    phrase = next(p for p in PHRASES if p.command is MarkStep)
    said = [random_sentence(phrase, Random(seed)).text for seed in range(80)]
    assert any(FILLERS & set(text.lower().split()) for text in said)
    assert any("STEP" in text for text in said)
    assert any("  " in text for text in said)
