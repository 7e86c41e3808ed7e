"""Fit the built-in engine's thresholds anew, on the half of the benchmark that is for that.

``python -m tests.benchmarks.speech.calibrate [--limit 300] [--noise clean mixer:10 …]``
prints the tables of ``assistant/ears/thresholds.toml``, with the figures that
justify them. Read what it prints before putting it there: the thresholds themselves are a
choice, and are looked for only among a few round values. Before them stand what the limits as
they are come to, and what new ones do on clips that they were not fitted to. ``--keep FILE`` keeps
what was heard of each clip, ``--kept FILE …`` fits to that without hearing it again.
"""

from __future__ import annotations

import argparse
import pickle
import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from itertools import product
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from assistant.ears.builtin import BuiltinEngine
from assistant.ears.evidence import EvidenceWeights, fit_of
from assistant.ears.hearing import Alternative, Heard
from assistant.ears.judging import Measures, probabilities_of, tier_of
from assistant.ears.thresholds import ScoreTemperature, Thresholds, load_limits
from assistant.ears.utterances import SileroDetector
from tests.benchmarks.speech.corpus import CLEAN, Clip, clips, setting_named
from tests.benchmarks.speech.cut_off import BROKEN
from tests.benchmarks.speech.run import hear
from tests.benchmarks.speech.sentences import heard_language

NOISES = ("clean", "mixer:10")
"""Babble is left out: the detector cuts it into many utterances that hold other people."""
MOST_WRONG = (0.01, 0.005)
"""Part of commands that may be wrong and taken as sure, in noise and in quiet."""
MOST_TALK = 0.005
"""Part of talk that may be taken as sure."""
BROKEN_COST = 0.25
"""What one broken command taken counts against one right command asked about: there are few of
them on a site, and two of three that pass are heard as they were meant."""
_WHOLES = (-3.0, -2.5, -2.0, -1.5, -1.0, -0.5, 0.0, 0.5)
_SURE = (0.75, 0.8, 0.85, 0.9, 0.93, 0.95, 0.96, 0.97, 0.98, 0.985, 0.99)
_CONFUSABLE = (0.0, 0.9, 0.93, 0.95, 0.96, 0.97, 0.98, 0.985, 0.99, 0.995, 0.998)
_APART = (-10.0, -5.0, 0.0, 2.0, 5.0)
_CLOSE_APART = (10.0, 15.0, 20.0, 25.0)
_FITS = (-1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0)
_SHORTER = (0.5, 1.0, 1.5, 2.0, 2.5, 3.0)
"""By how much more a short command must fit."""
_WEIGHTS = tuple(field.name for field in fields(EvidenceWeights) if field.name != "constant")

_AGAINST = ("slow", "ending", "parting", "hurried")
"""What never speaks for a command, whatever a few hundred clips may say."""


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
    def quiet(self) -> bool:
        """Whether there is no noise in it."""
        return self.clip.setting == CLEAN

    @property
    def broken(self) -> bool:
        """Whether it is a command that was broken off, made for tuning."""
        return self.clip.said.topic == BROKEN

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


def temperature_for(found: Iterable[Case]) -> ScoreTemperature:
    """The temperature under which the truth is likeliest, where it was among the alternatives."""
    known = [
        (case, next(n for n, a in enumerate(case.heard.alternatives) if a.canonical == case.truth))
        for case in found
        if case.truth in [one.canonical for one in case.heard.alternatives]
    ]

    def loss(values: np.ndarray) -> float:
        total = 0.0
        for case, at in known:
            chances = probabilities_of(
                case.heard.scores, case.heard.evidence, ScoreTemperature(*values)
            )
            total -= float(np.log(max(chances[at], 1e-4)))
        return total / len(known)

    return ScoreTemperature(*map(float, minimize(loss, [-0.5, 0.5], method="Nelder-Mead").x))


def weights_for(found: Sequence[Case], others: Sequence[Case]) -> EvidenceWeights:
    """The weights that best tell right commands from others, both counting alike (logistic)."""
    said = [case.heard.evidence for case in found if case.right]
    rows = np.array([[one[name] for name in _WEIGHTS]
                     for one in (*said, *(case.heard.evidence for case in others))])  # fmt: skip
    sign = np.array([1.0] * len(said) + [-1.0] * len(others))
    share = np.where(sign > 0, 0.5 / len(said), 0.5 / len(others))
    middle, spread = rows.mean(axis=0), rows.std(axis=0)

    def loss(values: np.ndarray) -> float:
        logits = values[0] + (rows - middle) / spread @ values[1:]
        kept_small = 1e-4 * (values[1:] ** 2).sum()
        return float((share * np.logaddexp(0, -sign * logits)).sum() + kept_small)

    bounds = [(None, 0.0 if name in _AGAINST else None) for name in ("constant", *_WEIGHTS)]
    values = minimize(loss, np.zeros(len(_WEIGHTS) + 1), bounds=bounds).x
    weights = values[1:] / spread
    return EvidenceWeights(float(values[0] - weights @ middle), *map(float, weights))


class Weighed:
    """Clips with what does not change while thresholds are tried out."""

    def __init__(self, found: Sequence[Case], fitted: Thresholds) -> None:
        self.found = found
        self.quiet = all(case.quiet for case in found)
        self._told = {id(case): self._weigh(case, fitted) for case in found}

    @staticmethod
    def _weigh(case: Case, fitted: Thresholds) -> Measures:
        evidence = case.heard.evidence
        chances = probabilities_of(case.heard.scores, evidence, fitted.temperature)
        return Measures(
            float(chances[0]), fit_of(evidence, fitted.fit), fit_of(evidence, fitted.whole)
        )

    def tier(self, case: Case, limits: Thresholds) -> str:
        """What would be done under these thresholds."""
        assert case.first.command is not None
        evidence, measures = case.heard.evidence, self._told[id(case)]
        return tier_of(case.first.command, case.first.words, measures, evidence, limits)


def figures(weighed: Weighed, limits: Thresholds) -> dict[str, float]:
    """What the clips come to, as parts."""
    found = weighed.found
    said = [case for case in found if case.truth is not None]
    talk = [case for case in found if case.truth is None and not case.broken]
    broken = [case for case in found if case.broken]
    tiers = {id(case): weighed.tier(case, limits) for case in found}
    sure = [case for case in said if tiers[id(case)] == "sure"]
    asked = [case for case in said if tiers[id(case)] == "ask"]
    good = sum(case.right for case in sure) + sum(case.offered for case in asked)
    taken, begun = (sum(tiers[id(one)] == "sure" for one in some) for some in (talk, broken))
    return {
        "right": good / max(1, len(said)),
        "wrong": sum(not case.right for case in sure) / max(1, len(said)),
        "asked": len(asked) / max(1, len(said)),
        "talk": taken / max(1, len(talk)),
        "broken": begun / max(1, len(broken)),
    }


def fitted(found: Sequence[Case], start: Thresholds) -> Thresholds:
    """Temperature and weights for these clips, and the round values that go with them."""
    talk = [case for case in found if case.truth is None and not case.broken]
    broken = [case for case in found if case.broken]
    weighed = replace(start, temperature=temperature_for(found),
                      fit=weights_for(found, talk), whole=weights_for(found, broken))  # fmt: skip
    return chosen(Weighed(found, weighed), weighed)


def chosen(weighed: Weighed, start: Thresholds) -> Thresholds:
    """
    The round values that ask least among those that keep the limits on what is wrong.

    One after the other, twice: fits, how whole, what probability is needed, and for
    confusables; how far before its confusables, and before itself with a figure doubled, the
    second model must put a number.
    """
    most_wrong = MOST_WRONG[weighed.quiet]

    def cost(limits: Thresholds) -> float:
        part = figures(weighed, limits)
        over = max(0.0, part["wrong"] - most_wrong) + max(0.0, part["talk"] - MOST_TALK)
        return 20 * over + part["asked"] + BROKEN_COST * part["broken"]

    best = replace(start, sure_probability=0.9, confusable_probability=0.98)
    for _ in range(2):
        tried = [
            replace(best, sure_fit=fit, short_fit=fit + shorter, word_fit=fit + shorter)
            for fit, shorter in product(_FITS, _SHORTER)
        ]
        best = min(tried, key=cost)
        best = min((replace(best, sure_whole=whole) for whole in _WHOLES), key=cost)
        tried = [
            replace(best, sure_probability=sure, confusable_probability=max(sure, alike))
            for sure, alike in product(_SURE, _CONFUSABLE)
        ]
        best = min(tried, key=cost)
        tried = [
            replace(best, confusable_apart=apart, close_apart=close)
            for apart, close in product(_APART, _CLOSE_APART)
        ]
        best = min(tried, key=cost)
        best = min((replace(best, doubled_apart=apart) for apart in _APART), key=cost)
        endings = (*_APART, *_CLOSE_APART)
        best = min((replace(best, ending_apart=apart) for apart in endings), key=cost)
    return best


def compared(found: Sequence[Case], start: Thresholds) -> str:
    """
    What the limits as they are come to, and new ones on the clips that they were not fitted to.

    Every other clip, and then the others; a comment for the file.
    """
    lines = [f"# as they are: {_in_words(figures(Weighed(found, start), start))}"]
    told: dict[str, float] = {}
    for at in (0, 1):
        new = fitted(found[at::2], start)
        for name, part in figures(Weighed(found[1 - at :: 2], new), new).items():
            told[name] = told.get(name, 0.0) + part / 2
    return "\n".join([*lines, f"# fitted anew, on other clips than those: {_in_words(told)}"])


def _in_words(part: Mapping[str, float]) -> str:
    told = {name: f"{100 * value:.1f} %" for name, value in part.items()}
    return (
        f"right in the end {told['right']}, wrong and sure {told['wrong']}, asked "
        f"{told['asked']}, talk taken {told['talk']}, broken off and taken {told['broken']}"
    )


def as_toml(limits: Thresholds, found: Sequence[Case], table: str) -> str:
    """A table of the file, with what it was fitted on."""
    told = _in_words(figures(Weighed(found, limits), limits))
    lines = [
        f"# {len(found)} clips: {told}",
        f"[builtin.{table}]",
    ]
    lines += [f"{one.name} = {getattr(limits, one.name)}" for one in fields(limits)
              if isinstance(getattr(limits, one.name), float)]  # fmt: skip
    for name in ("temperature", "fit", "whole"):
        weights = asdict(getattr(limits, name))
        lines += ["", f"[builtin.{table}.{name}]"]
        lines += [f"{weight} = {value:.3f}" for weight, value in weights.items()]
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
        engine = BuiltinEngine(heard_language(told.manner))
        found = cases(engine, clips("tune", settings, told.manner, told.limit))
    if told.keep:
        told.keep.write_bytes(pickle.dumps(found))
    start = load_limits()
    for table, part in (("quiet", start.quiet), ("loud", start.loud)):
        some = [case for case in found if case.quiet == (table == "quiet")]
        if some:
            print(compared(some, part))
            print(as_toml(fitted(some, part), some, table), end="\n\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
