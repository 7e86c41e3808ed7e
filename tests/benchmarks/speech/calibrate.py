"""Fit the built-in engine's thresholds anew, on the half of the benchmark that is for that.

``python -m tests.benchmarks.speech.calibrate [--limit 300] [--noise clean mixer:10 …]``
prints the ``[builtin]`` tables of ``assistant/ears/thresholds.toml``, with the figures that
justify them. Read what it prints before putting it there: the thresholds themselves are a
choice, and are looked for only among a few round values. ``--keep FILE`` keeps what was heard
of each clip, ``--kept FILE …`` fits to that without hearing it again.
"""

from __future__ import annotations

import argparse
import pickle
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields, replace
from itertools import product
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from assistant.ears.builtin import BuiltinEngine
from assistant.ears.endpoint import SileroDetector
from assistant.ears.hearing import Alternative, Heard
from assistant.ears.judging import (
    Fit,
    Needed,
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
MOST_WRONG = (0.01, 0.005)
"""Part of commands that may be wrong and taken as sure, in noise and in quiet."""
MOST_TALK = 0.005
"""Part of talk that may be taken as sure."""
_QUIET = (0.75, 0.8, 0.85, 0.9, 0.93, 0.95)
_LOUD = (0.93, 0.95, 0.96, 0.97, 0.98, 0.985, 0.99)
_TWIN_QUIET = (0.0, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99, 0.995)
_TWIN_LOUD = (0.0, 0.98, 0.985, 0.99, 0.995, 0.998)
_FITS = (0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0)
_SHORTER = (1.0, 1.5, 2.0, 2.5, 3.0)
"""By how much more a short command must fit."""
_WEIGHTS = ("ratio", "gap", "words", "slow", "ending", "doubt")


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


class Weighed:
    """Clips with what does not change while thresholds are tried out."""

    def __init__(self, found: Sequence[Case], fitted: Thresholds) -> None:
        self.found = found
        self._told = {id(case): self._weigh(case, fitted) for case in found}

    @staticmethod
    def _weigh(case: Case, fitted: Thresholds) -> tuple[float, float]:
        scores = [one.score for one in case.heard.alternatives]
        chances = probabilities_of(scores, case.heard.evidence, fitted.temperature)
        return float(chances[0]), fit_of(case.heard.evidence, fitted.fit)

    def tier(self, case: Case, limits: Thresholds) -> str:
        """What would be done under these thresholds."""
        assert case.first.command is not None
        probability, fit = self._told[id(case)]
        evidence = case.heard.evidence
        return tier_of(case.first.command, case.first.words, probability, fit, evidence, limits)


def figures(weighed: Weighed, limits: Thresholds, noise: str | None = None) -> dict[str, float]:
    """What the clips in a noise, or all, come to, as parts."""
    found = [case for case in weighed.found if noise in (None, case.clip.setting.name)]
    said = [case for case in found if case.truth is not None]
    talk = [case for case in found if case.truth is None]
    tiers = {id(case): weighed.tier(case, limits) for case in found}
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
    """
    The round values that ask least among those that keep the limits on what is wrong.

    Quiet clips decide about quiet, and the others about noise, one after the other: fits,
    then what is needed, then for twins.
    """
    weighed = Weighed(found, start)
    noises = {case.clip.setting.name for case in found}

    def cost(limits: Thresholds) -> float:
        parts = [figures(weighed, limits, noise) for noise in noises]
        over = sum(
            max(0.0, part["wrong"] - MOST_WRONG[noise == "clean"])
            + max(0.0, part["talk"] - MOST_TALK)
            for noise, part in zip(noises, parts, strict=True)
        )
        return 20 * over + sum(part["asked"] for part in parts)

    best = replace(start, sure_probability=Needed(0.9, 0.98), twin_probability=Needed(0.98, 0.995))
    for _ in range(2):
        tried = [
            replace(best, sure_fit=fit, short_fit=fit + shorter)
            for fit, shorter in product(_FITS, _SHORTER)
        ]
        best = min(tried, key=cost)
        tried = [
            replace(best, sure_probability=Needed(*sure), twin_probability=Needed(*twin))
            for sure, twin in (
                ((quiet, best.sure_probability.loud),
                 (max(quiet, twin), best.twin_probability.loud))
                for quiet, twin in product(_QUIET, _TWIN_QUIET)
            )
        ]  # fmt: skip
        best = min(tried, key=cost)
        tried = [
            replace(best, sure_probability=Needed(*sure), twin_probability=Needed(*twin))
            for sure, twin in (
                ((best.sure_probability.quiet, loud),
                 (best.twin_probability.quiet, max(loud, twin)))
                for loud, twin in product(_LOUD, _TWIN_LOUD)
            )
        ]  # fmt: skip
        best = min(tried, key=cost)
    return best


def as_toml(limits: Thresholds, found: Sequence[Case]) -> str:
    """The file, with what it was fitted on."""
    lines = ["# Fitted by python -m tests.benchmarks.speech.calibrate, on synthetic voices:"]
    weighed = Weighed(found, limits)
    for noise in dict.fromkeys(case.clip.setting.name for case in found):
        count = sum(case.clip.setting.name == noise for case in found)
        told = figures(weighed, limits, noise)
        part = {name: f"{100 * value:.1f} %" for name, value in told.items()}
        lines.append(
            f"# {noise}, {count} clips: right in the end {part['right']}, wrong and sure "
            f"{part['wrong']}, asked {part['asked']}, talk taken {part['talk']}"
        )
    lines.append("[builtin]")
    names = [field.name for field in fields(Thresholds) if field.type == "float"]
    lines += [f"{name} = {getattr(limits, name)}" for name in names]
    for name in ("sure_probability", "twin_probability"):
        needed = getattr(limits, name)
        lines += ["", f"[builtin.{name}]", f"quiet = {needed.quiet}", f"loud = {needed.loud}"]
    lines += ["", "[builtin.temperature]"]
    lines += [f"{name} = {getattr(limits.temperature, name):.3f}" for name in ("base", "doubt")]
    lines += ["", "[builtin.fit]"]
    lines += [f"{name} = {getattr(limits.fit, name):.3f}" for name in ("constant", *_WEIGHTS)]
    return "\n".join(lines)


def main(arguments: list[str] | None = None) -> int:
    """Hear the clips, fit, and print the file."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.calibrate")
    parser.add_argument("--limit", type=int, help="so many commands only, half as much talk")
    parser.add_argument("--manner", choices=("words", "digits"), default="words")
    parser.add_argument("--noise", nargs="*", default=NOISES, metavar="KIND:DB")
    parser.add_argument("--keep", type=Path, metavar="FILE", help="keep what was heard here")
    parser.add_argument("--kept", type=Path, nargs="*", metavar="FILE", help="fit to these")
    told = parser.parse_args(arguments)
    if told.kept:
        found = [case for file in told.kept for case in pickle.loads(file.read_bytes())]
    else:
        settings = [setting_named(name) for name in told.noise]
        engine = BuiltinEngine(spoken_language(told.manner))
        found = cases(engine, clips("tune", settings, told.manner, told.limit))
    if told.keep:
        told.keep.write_bytes(pickle.dumps(found))
    start = replace(load_thresholds(), temperature=temperature_for(found), fit=weights_for(found))
    print(as_toml(chosen(found, start), found))
    return 0


if __name__ == "__main__":
    sys.exit(main())
