"""What tells whether a sentence was said: its fit to the sound, its ending, the time it took."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from difflib import SequenceMatcher

import numpy as np

from assistant.ears.beam_search import Beam, DecodedSentence
from assistant.ears.entries import Hypothesis
from grammar.figures import in_figures


@dataclass(frozen=True, slots=True)
class EvidenceWeights:
    """Weights of what tells a command from something else; the sum is a logit: 0 is even odds."""

    constant: float
    ratio: float
    """Of how far the sentence is behind the free one, habit taken off both, a nat."""
    gap: float
    """Of how far it is behind as the model writes, a nat, shared out over its words."""
    words: float
    """Of each word: noise finds short commands, seldom long ones."""
    slow: float
    """Of the squared logarithm of how much longer it took than such words take."""
    ending: float
    """Of how far the last pieces were behind the likeliest ones there, a nat: what is made of
    a command that was cut off, or of other words, ends on something that was not said."""
    doubt: float
    """Of how unsure the free sentence was, a nat a piece: where nothing fits, little is told."""
    parting: float
    """Of how differently the free sentence ended, a part of its last letters: of "twelve milli"
    the nearest command is "twelve millimetres", but the model would not have written it."""
    phones: float
    """Of how well the sounds of its words fit, nats a frame behind the sounds that fit best."""
    worst_word: float
    """The same of the word that fits worst: "raise", where it says "best"."""
    last_word: float
    """The same of the last word: that of a command that broke off was never said."""
    pauses: float
    """The same of what is before, between and after its words: talk, where it should be quiet."""
    hurried: float
    """Of the part of the last word's sounds that took no longer than a sound can: they were
    put where there is no room for them."""


def says_the_same(free_words: str, words: str) -> bool:
    """
    Whether two ways of writing come to the same words.

    >>> says_the_same("Bravo 3, minus eighteen millimeters.", "bravo three minus 18 millimetres")
    True
    """
    return in_figures(free_words) == in_figures(words)


_ENDING = 3
"""The last piece of the last word, the full stop and the end."""
_LETTER_S = 0.075
"""Seconds a letter takes; the middle of all voices of the benchmark."""
_FIGURE_LETTERS = 4.5
"""Letters of a figure when it is said."""


def evidence_of(
    entry: Hypothesis, free: DecodedSentence, free_words: str, breadth: Beam, speech_s: float
) -> dict[str, float]:
    """What it is judged by; see :class:`EvidenceWeights`."""
    best = entry.best
    gap = best.log_probability - free.log_probability
    behind = best.behind[-_ENDING:] or (0.0,)
    return {
        "ratio": gap - breadth.prior * (best.expected - free.expected),
        "gap": gap / (1 + 0.15 * best.weight),
        "words": best.weight,
        "slow": slowness(entry.words, speech_s),
        "ending": max(behind),
        "doubt": -free.log_probability / (len(free.pieces) + 1),
        "parting": parting(free_words, entry.words),
        **entry.phones,
    }


def parting(free_words: str, words: str) -> float:
    """
    How differently two ways of writing end: 0 is alike, 1 has no letter in common.

    >>> parting("Echo 1 minus 12 milli.", "echo one minus twelve millimetres")
    0.8333333333333334
    >>> parting("Bravo 3, minus eighteen millimeters.", "bravo three minus 18 millimetres")
    0.0
    """
    free, said = (_last_letters(text) for text in (free_words, words))
    return 1.0 - SequenceMatcher(None, free, said, autojunk=False).ratio()


def _last_letters(text: str) -> str:
    return in_figures(text).replace(" ", "")[-_LAST_LETTERS:]


_LAST_LETTERS = 6
"""Fewer than "metres" has would not tell it from "centimetres"; with more, what came before
counts."""


def fit_of(evidence: Mapping[str, float], fit: EvidenceWeights) -> float:
    """How much like a command, or like a whole one, it sounded: a logit."""
    weights = asdict(fit)
    told = (weight * evidence[name] for name, weight in weights.items() if name in evidence)
    return float(fit.constant + sum(told))


def slowness(words: str, speech_s: float) -> float:
    """
    The squared logarithm of how much longer some words took than they usually do.

    >>> slowness("tally", 0.3), round(slowness("tally", 3.0), 1)
    (0.0, 4.3)
    """
    letters = sum(_FIGURE_LETTERS if sign.isdigit() else float(sign.isalpha()) for sign in words)
    times = speech_s / (_LETTER_S * max(letters, 1.0))
    return float(np.log(max(times, 1.0)) ** 2)
