"""Sentences with scores to what was heard, and how far it may be trusted.

Three questions, three measures. Which command is it? The probability, against all others that
were weighed; in noise more of it is needed. Is it one at all? The fit: how far it is behind
what the model would have written had it been free, how likely its ending is, and whether it
was spoken for as long as such words take. Was it said to its end? The same evidence, weighed
against commands that broke off instead of against talk.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from assistant.ears.beam_search import Beam, DecodedSentence
from assistant.ears.confusable import has_confusable
from assistant.ears.entries import Hypothesis
from assistant.ears.evidence import evidence_of, fit_of, says_the_same
from assistant.ears.hearing import Alternative, Heard, Tier
from assistant.ears.lacking import nobody_said
from assistant.ears.thresholds import ScoreTemperature, Thresholds
from grammar import short_form
from grammar.commands import Change, Command
from grammar.spoken import Manner

SHOWN = 3
"""Alternatives handed on; the rest only take part in the probabilities."""


def judged(
    entries: list[Hypothesis],
    free: DecodedSentence,
    free_words: str,
    breadth: Beam,
    spoken: SpeechManner,
    limits: Thresholds,
) -> Heard:
    """What was heard; ``free`` is what the model would have written had it been free."""
    if not entries:
        nothing = Alternative(free_words, None, None, 1.0, free.log_probability)
        return Heard(free_words, (nothing,), "again", speech_s=spoken.seconds)
    first = entries[0]
    evidence = {
        **evidence_of(first, free, free_words, breadth, spoken.seconds),
        "written": float(says_the_same(free_words, first.words)),
        "twin": float(has_confusable(first.words, spoken.manner)),
    }
    probabilities = probabilities_of([e.score for e in entries], evidence, limits.temperature)
    alternatives = tuple(
        Alternative(entry.words, command, short_form(command), float(probability), entry.score)
        for entry, probability in zip(entries[:SHOWN], probabilities, strict=False)
        for command in (entry.commands or ())[:1]
    )
    measures = Measures(
        float(probabilities[0]), fit_of(evidence, limits.fit), fit_of(evidence, limits.whole)
    )
    command = alternatives[0].command
    assert command is not None
    tier = tier_of(command, first.words, measures, evidence, limits)
    if tier == "ask" and nobody_said(command, free_words, open_unit=spoken.open_unit):
        tier = "again"
    text = first.words if tier != "again" else free_words
    return Heard(text, alternatives, tier, command, fit=measures.fit, evidence=evidence,
                 speech_s=spoken.seconds)  # fmt: skip


@dataclass(frozen=True, slots=True)
class SpeechManner:
    """How it was spoken."""

    seconds: float
    """The quiet before and after not counted."""
    above_db: float
    """How far it stands above its own pauses."""
    manner: Manner
    """How numbers are said."""
    open_unit: bool = False
    """Whether a reading may be said without its unit."""


@dataclass(frozen=True, slots=True)
class Measures:
    """What was made of the evidence."""

    probability: float
    """Of this command, against all others that were weighed."""
    fit: float
    """Logit of its being a command."""
    whole: float
    """Logit of its having been said to its end."""


def tier_of(
    command: Command,
    words: str,
    measures: Measures,
    evidence: Mapping[str, float],
    limits: Thresholds,
) -> Tier:
    """How far a command may be trusted; ``limits`` as they hold in this noise."""
    if measures.fit < limits.ask_fit or evidence.get("worst_word", 0.0) < limits.every_word:
        return "again"
    fitting = _fit_needed(command, len(words.split()), limits)
    if evidence["written"]:
        fitting = min(fitting, limits.written_fit)
    likely = measures.probability >= limits.sure_probability
    if evidence["twin"]:
        likely = measures.probability >= limits.twin_probability
        likely = likely and evidence.get("apart", np.inf) >= limits.twin_apart
        likely = likely and evidence.get("close_apart", np.inf) >= limits.close_apart
    fits = measures.fit >= fitting and measures.whole >= limits.sure_whole
    return "sure" if likely and fits else "ask"


def _fit_needed(command: Command, words: int, limits: Thresholds) -> float:
    if isinstance(command, Change):
        return limits.short_fit if words <= _SHORT_CHANGE else limits.sure_fit
    return limits.word_fit if words == 1 else limits.sure_fit


_SHORT_CHANGE = 3
"""Words of a command that changes the job."""


def probabilities_of(
    scores: list[float], evidence: Mapping[str, float], temperature: ScoreTemperature
) -> np.ndarray:
    """Scores, highest first, as probabilities."""
    doubt = min(evidence["doubt"], _MOST_DOUBT)
    divided = np.array(scores) / np.exp(temperature.base + temperature.doubt * doubt)
    weights = np.exp(divided - divided.max())
    return np.asarray(weights / weights.sum())


_MOST_DOUBT = 1.5
"""Nats a piece; past it the free sentence is made up."""
