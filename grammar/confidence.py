"""
How sure it is that the likeliest row of a line is the one that is meant.

A score says which row is likeliest, but not how often it is the right one. That is learned from
lines which the scores were not made of: ``tests/paraphrases/fit.py`` leaves out a quarter of the
lines at a time, and a logistic regression of what was right on the evidence below gives its
coefficients, one set for each kind of what a line comes to.
"""

from __future__ import annotations

from functools import cache
from math import exp, log
from typing import NamedTuple

import numpy as np

from grammar.likely import WEIGHTS

KINDS = ("ask", "change", "lack")
"""A question that is answered, a change that is offered, a row that lacks a value."""
_FAR = 1.5
"""A lead is as good as any other from here on; where there is no rival it is so much."""
_MOST_STRANGE = 3


class Evidence(NamedTuple):
    """What is known of the likeliest row of a line; one where something is so, or else zero."""

    score: float
    rival: float
    """How far it is ahead of the next row that takes the values of the line."""
    none: float
    """And of what means no row."""
    behind: float
    """How far it is behind the likeliest row, which can't take the values; zero or less."""
    strange: float
    """Words that nobody said who meant a row."""
    short: float
    """Whether the line has no more than two words."""
    words: float
    """The logarithm of how many words it has."""
    reported: float
    """Whether it reports what somebody said or did."""
    unsure: float
    denies: float
    asks: float
    """Whether it begins as a question does, which is seldom a change."""
    values: float


def evidence(
    *,
    score: float,
    rival: float,
    none: float,
    first: float,
    strange: int,
    words: int,
    values: int,
    reported: bool,
    unsure: bool,
    denies: bool,
    asks: bool,
) -> Evidence:
    """
    The evidence for a row, leads and counts cut where more of them says no more.

    Parameters
    ----------
    score, rival, none, first : float
        Scores of the row, of the next that takes the values, of no row, and of the first of all
        rows, whether it takes them or not.
    strange, words, values : int
        How many there are of each in the line.
    reported, unsure, denies, asks : bool
        By the words of the line.
    """
    return Evidence(
        score=score,
        rival=min(score - rival, _FAR),
        none=min(score - none, _FAR),
        behind=min(score - first, 0.0),
        strange=float(min(strange, _MOST_STRANGE)),
        short=float(words <= 2),
        words=log(words),
        reported=float(reported),
        unsure=float(unsure),
        denies=float(denies),
        asks=float(asks),
        values=float(min(values, _MOST_STRANGE)),
    )


def confidence(kind: str, found: Evidence) -> float:
    """
    How often a row is meant for which there is such evidence, from 0 to 1.

    Parameters
    ----------
    kind : str
        One of `KINDS`.
    found : Evidence
    """
    *coefficients, intercept = _coefficients()[kind]
    total = intercept + sum(each * one for each, one in zip(coefficients, found, strict=True))
    return 1 / (1 + exp(-total))


@cache
def _coefficients() -> dict[str, list[float]]:
    """Of each kind, one for each piece of evidence, and the intercept."""
    with np.load(WEIGHTS, allow_pickle=False) as file:
        return dict(zip(KINDS, file["confidence"].tolist(), strict=True))
