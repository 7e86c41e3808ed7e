"""Fit the built-in engine's thresholds anew, on the half of the benchmark that is for that.

``python -m tests.benchmarks.speech.calibrate [--limit 300] [--noise clean mixer:10 …]``
prints a new ``assistant/ears/thresholds.toml``, with the figures that justify it. Read what
it prints before putting it there: the thresholds themselves are a choice, and are looked
for only among a few round values.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from scipy.optimize import minimize

from assistant.ears.builtin import BuiltinEngine
from assistant.ears.endpoint import SileroDetector
from assistant.ears.hearing import Alternative, Heard
from assistant.ears.judging import (
    Fit,
    Temperature,
    Thresholds,
    fit_of,
    load_thresholds,
    probabilities_of,
    tier_of,
)
from tests.benchmarks.speech.corpus import Clip, clips, setting_named
from tests.benchmarks.speech.run import hear
from tests.benchmarks.speech.sentences import spoken_language

NOISES = ("clean", "mixer:10")
"""Babble is left out: the detector cuts it into many utterances that hold other people."""
MOST_WRONG, MOST_TALK = 0.01, 0.005
"""Parts that may be wrong and taken as sure: of commands in any noise, and of talk."""
_SURE = (0.85, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99)
_TWIN = (0.0, 0.95, 0.98, 0.99, 0.995)
_FITS = (0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0)
_WEIGHTS = ("ratio", "gap", "words", "slow")


@dataclass(frozen=True, slots=True)
class Case:
    """One clip and what was heard of it."""

    clip: Clip
    heard: Heard

    @property
    def truth(self) -> str | None:
        """The command that was said; None for talk."""
        return self.clip.said.truth

    @property
    def first(self) -> Alternative:
        """The likeliest alternative."""
        return self.heard.alternatives[0]

    @property
    def right(self) -> bool:
        """Whether the likeliest is what was said."""
        return self.truth is not None and self.first.canonical == self.truth

    @property
    def offered(self) -> bool:
        """Whether what was said is among the first two."""
        return self.truth in [one.canonical for one in self.heard.alternatives[:2]]


def cases(engine: BuiltinEngine, wanted: Sequence[Clip]) -> list[Case]:
    """All clips heard; those of which nothing at all was heard are left out."""
    detector, found = SileroDetector(), []
    for at, clip in enumerate(wanted, 1):
        answers = [one.heard for one in hear(engine, clip.sound(), detector)]
        found += [Case(clip, heard) for heard in answers if heard.evidence]
        if at % 100 == 0:
            print(f"{at} of {len(wanted)}", file=sys.stderr)
    return found


def temperature_for(found: Iterable[Case]) -> Temperature:
    """The temperature under which the truth is likeliest, where it was among the alternatives."""
    known = [
        (case, next(n for n, a in enumerate(case.heard.alternatives) if a.canonical == case.truth))
        for case in found
        if case.truth in [one.canonical for one in case.heard.alternatives]
    ]

    def loss(values: np.ndarray) -> float:
        total = 0.0
        for case, at in known:
            scores = [one.score for one in case.heard.alternatives]
            chances = probabilities_of(scores, case.heard.evidence, Temperature(*values))
            total -= float(np.log(max(chances[at], 1e-4)))
        return total / len(known)

    return Temperature(*map(float, minimize(loss, [-0.5, 0.5], method="Nelder-Mead").x))


def weights_for(found: Iterable[Case]) -> Fit:
    """The weights that best tell right commands from talk, both counting alike (logistic)."""
    found = list(found)
    said = [case.heard.evidence for case in found if case.right]
    talk = [case.heard.evidence for case in found if case.truth is None]
    rows = np.array([[one[name] for name in _WEIGHTS] for one in (*said, *talk)])
    sign = np.array([1.0] * len(said) + [-1.0] * len(talk))
    share = np.where(sign > 0, 0.5 / len(said), 0.5 / len(talk))
    middle, spread = rows.mean(axis=0), rows.std(axis=0)

    def loss(values: np.ndarray) -> float:
        logits = values[0] + (rows - middle) / spread @ values[1:]
        kept_small = 1e-4 * (values[1:] ** 2).sum()
        return float((share * np.logaddexp(0, -sign * logits)).sum() + kept_small)

    values = minimize(loss, np.zeros(len(_WEIGHTS) + 1)).x
    weights = values[1:] / spread
    return Fit(float(values[0] - weights @ middle), *map(float, weights))


def chances(case: Case, limits: Thresholds) -> float:
    """Probability of the likeliest alternative under these thresholds."""
    scores = [one.score for one in case.heard.alternatives]
    return float(probabilities_of(scores, case.heard.evidence, limits.temperature)[0])


def tier(case: Case, limits: Thresholds) -> str:
    """What would be done under these thresholds."""
    assert case.first.command is not None
    fit = fit_of(case.heard.evidence, limits.fit)
    return tier_of(case.first.command, case.first.words, chances(case, limits), fit, limits)


def figures(found: Sequence[Case], limits: Thresholds) -> dict[str, float]:
    """What some clips come to, as parts."""
    said = [case for case in found if case.truth is not None]
    talk = [case for case in found if case.truth is None]
    tiers = {id(case): tier(case, limits) for case in found}
    sure = [case for case in said if tiers[id(case)] == "sure"]
    asked = [case for case in said if tiers[id(case)] == "ask"]
    good = sum(case.right for case in sure) + sum(case.offered for case in asked)
    taken = sum(tiers[id(case)] == "sure" for case in talk)
    return {
        "right": good / max(1, len(said)),
        "wrong": sum(not case.right for case in sure) / max(1, len(said)),
        "asked": len(asked) / max(1, len(said)),
        "talk": taken / max(1, len(talk)),
    }


def chosen(found: Sequence[Case], start: Thresholds) -> Thresholds:
    """The round values that ask least among those that keep both limits on what is wrong."""
    best, least = start, float("inf")
    noises = {case.clip.setting.name for case in found}
    for probability, twin, fit in product(_SURE, _TWIN, _FITS):
        limits = replace(
            start,
            sure_probability=probability,
            twin_probability=max(twin, probability),
            sure_fit=fit,
            short_fit=fit + 2.0,
        )
        parts = [
            figures([case for case in found if case.clip.setting.name == noise], limits)
            for noise in noises
        ]
        over = sum(
            max(0.0, p["wrong"] - MOST_WRONG) + max(0.0, p["talk"] - MOST_TALK) for p in parts
        )
        cost = 20 * over + sum(part["asked"] for part in parts)
        if cost < least:
            best, least = limits, cost
    return best


def as_toml(limits: Thresholds, found: Sequence[Case]) -> str:
    """The file, with what it was fitted on."""
    lines = ["# Fitted by python -m tests.benchmarks.speech.calibrate, on synthetic voices:"]
    for noise in dict.fromkeys(case.clip.setting.name for case in found):
        some = [case for case in found if case.clip.setting.name == noise]
        part = {name: f"{100 * value:.1f} %" for name, value in figures(some, limits).items()}
        lines.append(
            f"# {noise}, {len(some)} clips: right in the end {part['right']}, wrong and sure "
            f"{part['wrong']}, asked {part['asked']}, talk taken {part['talk']}"
        )
    lines.append("[builtin]")
    names = ("sure_probability", "twin_probability", "sure_fit", "short_fit", "ask_fit")
    lines += [f"{name} = {getattr(limits, name)}" for name in names]
    lines += ["", "[builtin.temperature]"]
    lines += [f"{name} = {getattr(limits.temperature, name):.3f}" for name in ("base", "doubt")]
    lines += ["", "[builtin.fit]"]
    lines += [f"{name} = {getattr(limits.fit, name):.3f}" for name in ("constant", *_WEIGHTS)]
    return "\n".join(lines)


def main(arguments: list[str] | None = None) -> int:
    """Hear the clips, fit, and print the file."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.calibrate")
    parser.add_argument("--limit", type=int, help="so many sentences only")
    parser.add_argument("--manner", choices=("words", "digits"), default="words")
    parser.add_argument("--noise", nargs="*", default=NOISES, metavar="KIND:DB")
    told = parser.parse_args(arguments)
    settings = [setting_named(name) for name in told.noise]
    engine = BuiltinEngine(spoken_language(told.manner))
    found = cases(engine, clips("tune", settings, told.manner, told.limit))
    start = replace(load_thresholds(), temperature=temperature_for(found), fit=weights_for(found))
    print(as_toml(chosen(found, start), found))
    return 0


if __name__ == "__main__":
    sys.exit(main())
