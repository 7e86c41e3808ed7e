"""What is made of the sentences that a search found: which command, and how far it is trusted."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from assistant.ears.beam_search import Beam, DecodedSentence
from assistant.ears.confusable import has_confusable
from assistant.ears.entries import Entries, Hypothesis
from assistant.ears.evidence import EvidenceWeights, evidence_of, fit_of, slowness
from assistant.ears.judging import (
    Measures,
    SpeechManner,
    judge_sentences,
    probabilities_of,
    tier_of,
)
from assistant.ears.thresholds import Limits, ScoreTemperature, Thresholds, load_limits
from grammar import understand
from grammar.spoken import Spoken

NO_WEIGHT = EvidenceWeights(**dict.fromkeys((field.name for field in fields(EvidenceWeights)), 0.0))
LIMITS = Thresholds(
    sure_probability=0.9,
    confusable_probability=0.98,
    confusable_apart=2.0,
    close_apart=20.0,
    ending_apart=2.0,
    doubled_apart=0.0,
    sure_fit=1.0,
    short_fit=3.0,
    word_fit=2.0,
    written_fit=0.5,
    sure_whole=-1.0,
    ask_fit=-2.0,
    every_word=-6.0,
    sure_word=-4.2,
    sure_gap=-11.0,
    temperature=ScoreTemperature(0.0, 0.0),
    fit=replace(NO_WEIGHT, gap=1.0, slow=-1.0),
    whole=replace(NO_WEIGHT, parting=-2.0),
)
BREADTH = Beam()
QUIET = SpeechManner(1.0, 60.0, "words")


def sentence(gap: float, number: int = 300) -> DecodedSentence:
    return DecodedSentence((number,), gap, 0.0, 0.0)


def entries_of(*said: tuple[str, float]) -> Entries:
    entries = Entries(BREADTH, Spoken().meanings)
    texts: dict[tuple[int, ...], str] = {(300 + at,): text for at, (text, _) in enumerate(said)}
    entries.add([sentence(s, 300 + at) for at, (_, s) in enumerate(said)], texts.__getitem__)
    return entries


def test_spellings_count_together_for_one_command() -> None:
    ranked = entries_of(
        ("minus fifty millimetres", -1.0),
        ("minus fifteen millimetres", -1.2),
        ("Minus 15 millimeters.", -1.2),
    ).ranked(2)
    assert [entry.words for entry in ranked] == [
        "minus fifteen millimetres", "minus fifty millimetres",
    ]  # fmt: skip
    assert ranked[0].score == pytest.approx(-1.2 + np.log(2))


def test_commands_said_in_other_words_come_together() -> None:
    ranked = entries_of(("pour neat", -1.0), ("no aggregate", -1.0), ("tally", -2.0)).ranked(3)
    assert len(ranked) == 2


def test_sentences_without_a_meaning_are_left_out() -> None:
    ranked = entries_of(("minus minus", -0.1), ("tally", -2.0)).ranked(1)
    assert [entry.words for entry in ranked] == ["tally"]


def test_nothing_in_the_grammar_is_to_be_said_again() -> None:
    heard = judge_sentences([], sentence(-1.0), "pass me that", BREADTH, QUIET, LIMITS)
    assert (heard.tier, heard.text, heard.command) == ("again", "pass me that", None)


@pytest.mark.parametrize(
    ("words", "probability", "fit", "tier_named"),
    [
        ("point bravo three level", 0.95, 1.5, "sure"),
        ("point bravo three level", 0.95, 0.5, "ask"),
        ("point bravo three level", 0.85, 5.0, "ask"),
        ("point bravo three level", 1.0, -2.5, "again"),
        # Fifteen sounds like another, sixty one does not.
        ("bravo three minus fifteen millimetres", 0.95, 1.5, "ask"),
        ("Bravo 3 minus 15 millimeters.", 0.99, 1.5, "sure"),
        ("bravo three minus sixty one millimetres", 0.95, 1.5, "sure"),
        # Short, and it would change the job.
        ("take that back", 1.0, 1.5, "ask"),
        ("take that back", 1.0, 3.5, "sure"),
        ("minus sixty one millimetres", 1.0, 3.5, "sure"),
        ("bravo three level", 1.0, 1.5, "ask"),
        ("bravo three level", 1.0, 3.5, "sure"),
        # Two words that change nothing, and one.
        ("high spots", 1.0, 1.5, "sure"),
        ("tally", 1.0, 1.5, "ask"),
        ("tally", 1.0, 2.5, "sure"),
    ],
)
def test_tiers(words: str, probability: float, fit: float, tier_named: str) -> None:
    assert tier(words, probability, fit) == tier_named


def tier(
    words: str, probability: float, fit: float, whole: float = 0.0, written: bool = False
) -> str:
    evidence = {"written": float(written), "confusable": float(has_confusable(words, "words"))}
    measures = Measures(probability, fit, whole)
    return tier_of(understand(words)[0], words, measures, evidence, LIMITS)


def test_what_may_have_broken_off_is_asked_about() -> None:
    assert tier("bravo three minus sixty one millimetres", 1.0, 9.0, whole=-0.9) == "sure"
    assert tier("bravo three minus sixty one millimetres", 1.0, 9.0, whole=-1.1) == "ask"
    # However well it fits, and whatever the model would have written.
    assert tier("tally", 1.0, 9.0, whole=-1.1, written=True) == "ask"


@pytest.mark.parametrize(("worst", "tier_named"), [(-4.1, "sure"), (-5.9, "ask"), (-6.1, "again")])
def test_a_word_that_nobody_said_is_neither_taken_nor_asked_about(
    worst: float, tier_named: str
) -> None:
    words = "bravo one minus sixty one millimetres"
    evidence = {"written": 0.0, "confusable": 0.0, "worst_word": worst}
    measures = Measures(1.0, 9.0, 9.0)
    assert tier_of(understand(words)[0], words, measures, evidence, LIMITS) == tier_named


@pytest.mark.parametrize(
    ("more", "tier_named"),
    [
        ({}, "sure"),
        ({"worst_word": -4.1, "gap": -10.9}, "sure"),
        ({"worst_word": -4.3}, "ask"),
        ({"gap": -11.1}, "ask"),
    ],
)
def test_a_word_that_hardly_fits_is_not_taken(more: dict[str, float], tier_named: str) -> None:
    words = "door four outside minus sixty one millimetres"
    evidence = {"written": 0.0, "confusable": 0.0, **more}
    measures = Measures(1.0, 9.0, 9.0)
    assert tier_of(understand(words)[0], words, measures, evidence, LIMITS) == tier_named


def test_limits_lie_between_those_in_quiet_and_in_noise() -> None:
    loud = replace(LIMITS, sure_probability=0.97, whole=replace(LIMITS.whole, gap=3.0))
    limits = Limits(LIMITS, loud)
    assert limits.at(60.0) == limits.at(30.0) == LIMITS
    assert limits.at(15.0) == limits.at(-3.0) == loud
    between = limits.at(20.0)
    assert between.sure_probability == pytest.approx(0.97 - 0.07 / 3)
    assert between.whole.gap == pytest.approx(2.0)
    assert between.fit == LIMITS.fit


def test_what_the_model_writes_by_itself_needs_to_fit_less() -> None:
    assert tier("tally", 1.0, 0.6, written=True) == "sure"
    assert tier("tally", 1.0, 0.4, written=True) == "ask"
    # How likely it is against others is another matter.
    assert tier("tally", 0.5, 5.0, written=True) == "ask"


def test_an_ending_that_was_not_said_fits_worse() -> None:
    limits = replace(LIMITS.fit, ending=-0.5)
    free = sentence(-0.5)
    for behind, fit in (((9.0, 0.0, 1.0, 0.0), -1.0), ((0.0, 0.0, 6.0, 0.0), -3.5)):
        best = replace(sentence(-1.0), behind=behind)
        evidence = evidence_of(Hypothesis("tally", best, -1.0), free, "tally", BREADTH, 0.3)
        assert fit_of(evidence, limits) == pytest.approx(fit)


def test_what_took_too_long_to_say_fits_worse() -> None:
    entry = Hypothesis("tally", sentence(-1.0), -1.0)
    free = sentence(-0.5)
    quick, slow = (
        fit_of(evidence_of(entry, free, "tally", BREADTH, seconds), LIMITS.fit)
        for seconds in (0.3, 2.5)
    )
    assert quick == pytest.approx(-0.5)
    assert slow < quick - 1
    assert slowness("18", 1.0) < slowness("map", 1.0)


def test_habit_is_taken_off_the_ratio_but_not_off_the_gap() -> None:
    entry = Hypothesis("tally", DecodedSentence((300,), -3.0, -8.0, 0.0), -1.0)
    free = DecodedSentence((301,), -1.0, -2.0, 0.0)
    evidence = evidence_of(entry, free, "tally", Beam(prior=0.5), 0.3)
    assert evidence["gap"] == pytest.approx(-2.0)
    assert evidence["ratio"] == pytest.approx(-2.0 + 0.5 * 6.0)


@pytest.mark.parametrize(
    ("free_words", "whole"),
    [
        ("Echo one minus twelve millimeters.", True),
        ("Go one my nose 12 millimetres", True),
        ("Echo 1 minus 12 milli.", False),
        ("Echo one minus twelve.", False),
    ],
)
def test_the_free_sentence_tells_what_broke_off(free_words: str, whole: bool) -> None:
    entry = Hypothesis("echo one minus twelve millimetres", sentence(-1.0), -1.0)
    evidence = evidence_of(entry, sentence(-0.5), free_words, BREADTH, 2.0)
    assert (fit_of(evidence, LIMITS.whole) > LIMITS.sure_whole) == whole


def test_a_teen_at_the_very_end_needs_its_own_lead() -> None:
    """Nothing follows in which the last sound could be heard: "minus fifteen", "minus fifty"."""
    reading = understand("b3 -15 mm")[0]
    measures, evidence = Measures(0.99, 5.0, 5.0), {"written": 0.0, "confusable": 1.0}
    said = "bravo three minus fifteen"
    near, far = {**evidence, "ending_apart": 1.0}, {**evidence, "ending_apart": 3.0}
    assert tier_of(reading, said, measures, near, LIMITS) == "ask"
    assert tier_of(reading, said, measures, far, LIMITS) == "sure"
    assert load_limits().loud.ending_apart > load_limits().loud.confusable_apart


def test_a_word_that_hardly_fits_asks_about_a_change_but_not_about_a_question() -> None:
    measures, evidence = Measures(0.99, 5.0, 5.0), {"written": 0.0, "confusable": 0.0}
    hardly = {**evidence, "worst_word": LIMITS.sure_word - 0.1}
    assert tier_of(understand("hose on")[0], "hose on floor", measures, hardly, LIMITS) == "ask"
    question = understand("how many bags")[0]
    assert tier_of(question, "how many bags", measures, hardly, LIMITS) == "sure"


def test_the_limits_that_come_with_the_program() -> None:
    limits = load_limits()
    for some in (limits.quiet, limits.loud):
        assert min(some.sure_probability, some.confusable_probability) > 0.5
        assert max(some.sure_probability, some.confusable_probability) < 1
        # A confusable number may need less, as the second model must put it first besides.
        assert 0 <= some.confusable_apart < some.close_apart
        assert some.ask_fit < some.sure_fit <= some.word_fit <= some.short_fit
        for fit in (some.fit, some.whole):
            assert fit.slow <= 0
            assert max(fit.parting, fit.hurried, fit.ending) < 0 < min(fit.gap, fit.worst_word)
    assert limits.quiet.sure_probability < limits.loud.sure_probability


def test_the_more_doubt_the_less_sure() -> None:
    warmer = ScoreTemperature(-0.5, 0.5)
    clean, noisy = (
        probabilities_of([0.0, -2.0], {"doubt": doubt}, warmer)[0] for doubt in (0.1, 1.2)
    )
    assert 0.5 < noisy < clean < 1
