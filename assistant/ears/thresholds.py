"""The thresholds of the tiers, in quiet and in noise; the numbers are in thresholds.toml."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from importlib import resources
from typing import Any

import numpy as np

from assistant.ears.evidence import EvidenceWeights

QUIET_DB, LOUD_DB = 30.0, 15.0
"""How far speech is above its own pauses, dB, in quiet and in loud places."""


@dataclass(frozen=True, slots=True)
class ScoreTemperature:
    """The divisor of scores before they become probabilities: exp(base + doubt × …)."""

    base: float
    doubt: float
    """For how unsure the free sentence was, nats a piece: in noise, scores say less."""


@dataclass(frozen=True, slots=True)
class Thresholds:
    """The thresholds between the tiers."""

    sure_probability: float
    """Least probability. Higher asks more often."""
    confusable_probability: float
    """The same for a confusable number: fifteen and fifty, thirty-eight and three eighths."""
    confusable_apart: float
    """How far, nats, the second model must put it ahead of its confusables, however sure the first
    is; below zero, it may be behind. Higher asks more often."""
    close_apart: float
    """The same where a vowel follows: "fifteen at" and "fifty at" differ by one n."""
    ending_apart: float
    """The same where nothing follows: "minus fifteen" and "minus fifty" in a job that leaves the
    unit out."""
    doubled_apart: float
    """The same, digit by digit, of the number with a figure once more or once less."""
    sure_fit: float
    """Least fit. Higher asks more often, and lets less talk through."""
    short_fit: float
    """The same for a change of up to three words, as which noise and cut-off speech are easily
    heard."""
    word_fit: float
    """The same for a single word that changes nothing."""
    written_fit: float
    """The same where the free sentence is this very command."""
    sure_whole: float
    """Least logit of having been said to its end; higher asks more often."""
    ask_fit: float
    """Fit below which nothing is offered. Higher says "say again" more often."""
    every_word: float
    """Least fit of its worst word, nats a frame, zero or less; below it nothing is offered, so that
    no question is asked about a word that nobody said."""
    sure_word: float
    """How well the worst of its words must fit for it to be sure, nats a frame, zero or less."""
    sure_gap: float
    """How far, nats a word, it may be behind the free sentence and be sure, zero or less."""
    temperature: ScoreTemperature
    fit: EvidenceWeights
    """Weights for a command against talk."""
    whole: EvidenceWeights
    """Weights for a whole command against one without its beginning or end."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Thresholds in quiet and in noise, with every number interpolated between them."""

    quiet: Thresholds
    loud: Thresholds

    def at(self, above_db: float) -> Thresholds:
        """The thresholds for speech this far above its own pauses, dB."""
        part = float(np.interp(above_db, (LOUD_DB, QUIET_DB), (0.0, 1.0)))
        mixed: Thresholds = _mixed(self.loud, self.quiet, part)
        return mixed


def _mixed(loud: Any, quiet: Any, part: float) -> Any:
    if isinstance(loud, float):
        return loud + (quiet - loud) * part
    names = [field.name for field in fields(loud)]
    return type(loud)(*(_mixed(getattr(loud, n), getattr(quiet, n), part) for n in names))


def load_limits() -> Limits:
    """The thresholds that come with the program."""
    text = resources.files("assistant.ears").joinpath("thresholds.toml").read_text("utf-8")
    told = tomllib.loads(text)["builtin"]
    return Limits(thresholds_of(told["quiet"]), thresholds_of(told["loud"]))


def thresholds_of(values: Mapping[str, Any]) -> Thresholds:
    """Thresholds from a table of the file."""
    kinds = {"temperature": ScoreTemperature, "fit": EvidenceWeights, "whole": EvidenceWeights}
    made: dict[str, Any] = {name: kind(**_floats(values[name])) for name, kind in kinds.items()}
    made |= _floats({name: value for name, value in values.items() if name not in kinds})
    return Thresholds(**made)


def _floats(values: Mapping[str, Any]) -> dict[str, float]:
    return {name: float(value) for name, value in values.items()}
