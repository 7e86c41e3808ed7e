"""From scored sentences to what was heard, and how far it may be trusted.

Three measures answer three questions. Which command is it? The probability among all that were
scored; in noise more of it is needed. Is it a command at all? The fit: how far it is behind the
free sentence, which the model writes without the grammar, how likely its ending is, and whether
it took as long as its words usually do. Was it said to its end? The same evidence, weighted
against commands that broke off instead of against talk.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from assistant.ears.beam_search import Beam, DecodedSentence
from assistant.ears.confusable import has_confusable
from assistant.ears.entries import Hypothesis
from assistant.ears.evidence import evidence_of, fit_of, says_the_same
from assistant.ears.hearing import Alternative, Heard, Tier
from assistant.ears.lacking import lacks_unit, nobody_said
from assistant.ears.thresholds import ScoreTemperature, Thresholds
from grammar import short_form
from grammar.commands import Change, Command
from grammar.spoken import Manner

SHOWN = 3
"""Alternatives in the result; the others only count in the probabilities."""


def judge_sentences(
    entries: list[Hypothesis],
    free: DecodedSentence,
    free_words: str,
    breadth: Beam,
    spoken: SpeechManner,
    limits: Thresholds,
) -> Heard:
    """What was heard; ``free`` is the sentence that the model writes without the grammar."""
    if not entries:
        nothing = Alternative(free_words, None, None, 1.0, free.log_probability)
        return Heard(free_words, (nothing,), "again", speech_s=spoken.seconds, free=free_words)
    first = entries[0]
    evidence = {
        **evidence_of(first, free, free_words, breadth, spoken.seconds),
        "written": float(says_the_same(free_words, first.words)),
        "confusable": float(has_confusable(first.words, spoken.manner)),
    }
    scores = tuple(entry.score for entry in entries)
    probabilities = probabilities_of(scores, evidence, limits.temperature)
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
    if tier != "again" and (without := _without_unit(entries, probabilities)):
        tier, text = "again", without
    elif not lacks_unit(command):
        alternatives = tuple(
            one for one in alternatives if one.command and not lacks_unit(one.command)
        )
    return Heard(text, alternatives, tier, command, fit=measures.fit, evidence=evidence,
                 scores=scores, free=free_words, speech_s=spoken.seconds)  # fmt: skip


def _without_unit(entries: list[Hypothesis], probabilities: np.ndarray) -> str:
    """
    The likeliest reading that lacks its unit, where one that does is likelier than any that does
    not; "" where it is not so. To ask which of those with a unit it was would be to make one up.
    """
    lacking, nearest, whole = 0.0, "", 0.0
    for entry, part in zip(entries, probabilities, strict=True):
        if not entry.commands:
            continue
        if lacks_unit(entry.commands[0]):
            lacking, nearest = lacking + float(part), nearest or entry.words
        else:
            whole = max(whole, float(part))
    return nearest if lacking > whole else ""


@dataclass(frozen=True, slots=True)
class SpeechManner:
    """How an utterance was spoken."""

    seconds: float
    """Length without the quiet before and after."""
    above_db: float
    """How far it is above its own pauses, dB."""
    manner: Manner
    """How numbers are said."""
    open_unit: bool = False
    """Whether a reading without a unit is one in millimetres."""


@dataclass(frozen=True, slots=True)
class Measures:
    """The three measures of an utterance."""

    probability: float
    """Probability of this command among all that were scored."""
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
    """How far a command may be trusted; ``limits`` are those for its noise."""
    if measures.fit < limits.ask_fit or evidence.get("worst_word", 0.0) < limits.every_word:
        return "again"
    fitting = _fit_needed(command, len(words.split()), limits)
    if evidence["written"]:
        fitting = min(fitting, limits.written_fit)
    likely = measures.probability >= limits.sure_probability
    if evidence["confusable"]:
        likely = measures.probability >= limits.confusable_probability
        likely = likely and evidence.get("apart", np.inf) >= limits.confusable_apart
        likely = likely and evidence.get("close_apart", np.inf) >= limits.close_apart
        likely = likely and evidence.get("ending_apart", np.inf) >= limits.ending_apart
    likely = likely and evidence.get("doubled_apart", np.inf) >= limits.doubled_apart
    fits = measures.fit >= fitting and measures.whole >= limits.sure_whole
    near = evidence.get("worst_word", 0.0) >= limits.sure_word
    near = near and evidence.get("gap", 0.0) >= limits.sure_gap
    # What only asks changes nothing: heard wrongly it costs a few seconds, as to be asked does.
    near = near or not isinstance(command, Change)
    return "sure" if likely and fits and near else "ask"


def _fit_needed(command: Command, words: int, limits: Thresholds) -> float:
    if isinstance(command, Change):
        return limits.short_fit if words <= _SHORT_CHANGE else limits.sure_fit
    return limits.word_fit if words == 1 else limits.sure_fit


_SHORT_CHANGE = 3
"""Most words of a change that counts as short."""


def probabilities_of(
    scores: Sequence[float], evidence: Mapping[str, float], temperature: ScoreTemperature
) -> np.ndarray:
    """Scores, highest first, as probabilities."""
    doubt = min(evidence["doubt"], _MOST_DOUBT)
    divided = np.array(scores) / np.exp(temperature.base + temperature.doubt * doubt)
    weights = np.exp(divided - divided.max())
    return np.asarray(weights / weights.sum())


_MOST_DOUBT = 1.5
"""Most nats a piece; past that the free sentence is invented."""
