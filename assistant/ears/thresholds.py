"""Where the tiers begin, in quiet and in noise; the numbers are in thresholds.toml."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from importlib import resources
from typing import Any

import numpy as np

from assistant.ears.evidence import EvidenceWeights

QUIET_DB, LOUD_DB = 30.0, 15.0
"""How far speech stands above its own pauses where it is quiet, and where it is loud."""


@dataclass(frozen=True, slots=True)
class ScoreTemperature:
    """What scores are divided by before they are made probabilities: exp(base + doubt × …)."""

    base: float
    doubt: float
    """Of how unsure the free sentence was, a nat a piece: in noise, scores tell less."""


@dataclass(frozen=True, slots=True)
class Thresholds:
    """Where the tiers begin."""

    sure_probability: float
    """Higher asks more often."""
    twin_probability: float
    """The same for a number with a twin: fifteen and fifty, thirty-eight and three eighths."""
    twin_apart: float
    """How far, nats, the second model must put it before its twins, however sure the first is;
    below zero, how far behind. Higher asks more often."""
    close_apart: float
    """The same where a vowel follows: "fifteen at" and "fifty at" are told apart by one n."""
    sure_fit: float
    """Higher asks more often, and lets less talk through."""
    short_fit: float
    """The same for a command of up to three words that changes the job: into those, noise and
    cut-off speech collapse."""
    word_fit: float
    """The same for a single word that changes nothing."""
    written_fit: float
    """The same where the model, had it been free, would have written just this command."""
    sure_whole: float
    """How surely it must have been said to its end; higher asks more often."""
    ask_fit: float
    """Below it nothing is offered. Higher says "say again" more often."""
    every_word: float
    """How well even the worst of its words must fit what was heard, nats a frame, zero or less;
    below it nothing is offered: a word that nobody said does not become a question."""
    temperature: ScoreTemperature
    fit: EvidenceWeights
    """A command against talk."""
    whole: EvidenceWeights
    """A command against the beginning or the end of one."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Thresholds in quiet and in noise; in between every number by proportion."""

    quiet: Thresholds
    loud: Thresholds

    def at(self, above_db: float) -> Thresholds:
        """Those that hold where speech stands so far above its own pauses."""
        part = float(np.interp(above_db, (LOUD_DB, QUIET_DB), (0.0, 1.0)))
        mixed: Thresholds = _mixed(self.loud, self.quiet, part)
        return mixed


def _mixed(loud: Any, quiet: Any, part: float) -> Any:
    if isinstance(loud, float):
        return loud + (quiet - loud) * part
    names = [field.name for field in fields(loud)]
    return type(loud)(*(_mixed(getattr(loud, n), getattr(quiet, n), part) for n in names))


def load_limits() -> Limits:
    """The limits that come with the program."""
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
