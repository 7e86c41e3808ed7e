"""Evidence that a sentence was said: its fit to the sound, its ending, the time it took."""

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
    """Weights of the evidence for a command; the sum is a logit, where 0 is even odds."""

    constant: float
    ratio: float
    """For each nat that the sentence is behind the free one, less their scores in silence."""
    gap: float
    """For each nat that it is behind as the model writes, divided by its words."""
    words: float
    """For each word: noise is taken for short commands, seldom for long ones."""
    slow: float
    """For the squared logarithm of how much longer it took than its words usually do."""
    ending: float
    """For each nat that the last pieces were behind the likeliest ones: a command guessed from one
    that was cut off, or from other words, ends on something that was not said."""
    doubt: float
    """For how unsure the free sentence was, nats a piece: where nothing fits, it says little."""
    parting: float
    """For the part of the last letters in which the free sentence differs: the command nearest to
    "twelve milli" is "twelve millimetres", but the model would not have written it."""
    phones: float
    """For the fit of its words' phones, nats a frame behind the phones that fit best."""
    worst_word: float
    """The same for the word that fits worst, such as "raise" where "best" was said."""
    last_word: float
    """The same for the last word, which was never said in a command that broke off."""
    pauses: float
    """The same for the sound around its words, where talk should not be."""
    hurried: float
    """For the part of the last word's phones that have the least possible length, as phones have
    that are put where nothing was said."""


def says_the_same(free_words: str, words: str) -> bool:
    """
    Whether two ways of writing come to the same words.

    >>> says_the_same("Bravo 3, minus eighteen millimeters.", "bravo three minus 18 millimetres")
    True
    """
    return in_figures(free_words) == in_figures(words)


_ENDING = 3
"""Pieces of an ending: the last of the last word, the full stop and the end."""
_LETTER_S = 0.075
"""Seconds a letter takes; the median over the benchmark's voices."""
_FIGURE_LETTERS = 4.5
"""Letters of a figure's word."""


def evidence_of(
    entry: Hypothesis, free: DecodedSentence, free_words: str, breadth: Beam, speech_s: float
) -> dict[str, float]:
    """The evidence for a sentence; see :class:`EvidenceWeights`."""
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
        "parting": ending_difference(free_words, entry.words),
        **entry.phones,
    }


def ending_difference(free_words: str, words: str) -> float:
    """
    How differently two sentences end: 0 is alike, 1 has no letter in common.

    >>> ending_difference("Echo 1 minus 12 milli.", "echo one minus twelve millimetres")
    0.8333333333333334
    >>> said = "Bravo 3, minus eighteen millimeters."
    >>> ending_difference(said, "bravo three minus 18 millimetres")
    0.0
    """
    free, said = (_last_letters(text) for text in (free_words, words))
    return 1.0 - SequenceMatcher(None, free, said, autojunk=False).ratio()


def _last_letters(text: str) -> str:
    return in_figures(text).replace(" ", "")[-_LAST_LETTERS:]


_LAST_LETTERS = 6
"""Letters compared: fewer could not tell "metres" from "centimetres"; more would include what
came before."""


def fit_of(evidence: Mapping[str, float], fit: EvidenceWeights) -> float:
    """The logit of being a command, or a complete one."""
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
