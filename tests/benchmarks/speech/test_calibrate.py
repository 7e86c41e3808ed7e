"""Thresholds are fitted to all that was weighed, not only to what was handed on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.ears.beam_search import Beam, DecodedSentence
from assistant.ears.entries import Entries
from assistant.ears.judging import SHOWN, SpeechManner, judge_sentences
from assistant.ears.thresholds import ScoreTemperature, Thresholds, load_limits
from grammar.spoken import Spoken
from tests.benchmarks.speech.calibrate import Case, Weighed, chosen, compared
from tests.benchmarks.speech.corpus import CLEAN, Clip
from tests.benchmarks.speech.sentences import Said
from tests.benchmarks.speech.voices import TALKERS

LIMITS = load_limits().quiet


def case(text: str, *scores: float, others: int = 12, doubled: float | None = None) -> Case:
    """A reading heard rightly, with so many others as near to it as these scores say."""
    entries = Entries(Beam(), Spoken(open_unit=True).meanings)
    names = "alfa charlie delta echo foxtrot golf hotel india juliett kilo lima mike".split()
    said = [text, *(f"{name} one level" for name in names[:others])]
    given = [*scores, *[scores[-1]] * (len(said) - len(scores))]
    for at, (words, score) in enumerate(zip(said, given, strict=True)):
        sentence = DecodedSentence((300 + at,), score, 0.0, 0.0)
        entries.add([sentence], lambda _, words=words: words)  # type: ignore[misc]
    spoken = SpeechManner(2.0, 60.0, "words", open_unit=True)
    free = DecodedSentence((1,), scores[0], 0.0, 0.0)
    ranked = entries.ranked(len(said))
    if doubled is not None:
        ranked[0].phones = {"doubled_apart": doubled}
    heard = judge_sentences(ranked, free, text, Beam(), spoken, LIMITS)
    clip = Clip(Said(text, "reading", "", "words"), TALKERS["tune"][0], CLEAN, "tune")
    return Case(clip, heard)


BRAVO = "bravo three minus twelve millimetres"


def test_the_probability_is_the_one_that_the_engine_gave() -> None:
    crowd = case(BRAVO, -1.0, -3.0)
    assert len(crowd.heard.alternatives) == SHOWN
    assert len(crowd.heard.scores) == 13
    # Twelve at two nats: of those handed on alone it would be four in five.
    assert crowd.heard.confidence < 0.6
    measures = Weighed([crowd], LIMITS)._told[id(crowd)]
    assert measures.probability == pytest.approx(crowd.heard.confidence)


def test_how_far_a_figure_said_twice_must_be_off_is_chosen() -> None:
    start = replace(LIMITS, temperature=ScoreTemperature(0.0, 0.0), doubled_apart=99.0)
    found = [case(BRAVO, -1.0, -30.0, others=2, doubled=20.0)] * 20
    weighed = Weighed(found, start)
    assert weighed.tier(found[0], start) == "ask"
    assert chosen(weighed, start).doubled_apart <= 20.0


def test_new_limits_are_judged_on_what_they_were_not_fitted_to(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    found = [case(BRAVO, -1.0, -30.0, others=2, doubled=float(at)) for at in range(20)]
    fitted_to: list[list[Case]] = []

    def fitted(some: list[Case], start: Thresholds) -> Thresholds:
        # As good as can be for these, and only for these.
        fitted_to.append(some)
        return replace(start, doubled_apart=99.0 if len(fitted_to) == 1 else 0.0)

    monkeypatch.setattr("tests.benchmarks.speech.calibrate.fitted", fitted)
    now, new = compared(found, replace(LIMITS, doubled_apart=0.0)).splitlines()
    assert fitted_to == [found[0::2], found[1::2]]
    assert "asked 0.0 %" in now
    assert "asked 50.0 %" in new
