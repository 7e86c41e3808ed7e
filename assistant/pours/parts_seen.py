"""
What the parts of a pour tell of its ratio, one after the other, for each explanation by itself.

Two numbers are followed: the ratio of used to planned that stays, and what the floor has taken so
far. A front that was read says just how much that was. A strip called done after the batch that
passes its edge says only that it lies within that batch: not in its middle, for where a strip is
planned to take 7.5 bags and differs little, 8 counted bags leave half a bag beyond it, not one.
"""

from __future__ import annotations

import numpy as np

from assistant.levels.arrays import BoolArray, FloatArray
from grammar.frozen import frozen_identity


@frozen_identity
class SeenParts:
    """Ratio and what the floor has taken, by each explanation; (..., h) all of them."""

    ratio: FloatArray
    ratio_variance: FloatArray
    taken: FloatArray
    """Bags."""
    taken_variance: FloatArray
    together: FloatArray
    """Covariance of the ratio and of what was taken."""
    evidence: FloatArray
    """Logarithm of how likely what was seen is."""
    surprise: FloatArray
    """How many standard deviations the part seen last took more than was expected of it."""

    @property
    def likeliest_taken(self) -> FloatArray:
        """What the floor has taken by the explanation that fits best, (...)."""
        best = self.evidence.argmax(axis=-1)[..., None]
        taken: FloatArray = np.take_along_axis(self.taken, best, axis=-1)[..., 0]
        return taken

    def end(self, left: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Mean and variance of what the floor will have taken, so many planned bags on."""
        mean = self.taken + left * self.ratio
        shared = 2 * left * self.together + left**2 * self.ratio_variance
        return mean, self.taken_variance + shared


def begun_with(ratio_sd: float, shape: tuple[int, ...]) -> SeenParts:
    """Before the first bag: as planned, but for what the survey leaves open."""
    zero, one = np.zeros(shape), np.ones(shape)
    return SeenParts(one, one * ratio_sd**2, zero, zero, zero, zero, zero)


def with_part(
    seen: SeenParts,
    planned: FloatArray,
    till: FloatArray,
    noise: FloatArray,
    lost: BoolArray | FloatArray,
    size: FloatArray,
    beyond: FloatArray,
) -> SeenParts:
    """
    What is known once one more part was seen.

    Parameters
    ----------
    seen : Seen
    planned : (..., 1) array
        Bags planned for it.
    till : (..., 1) array
        Bags counted up to its end.
    noise : (..., 1) array
        Variance of what it differs by.
    lost : (..., h) array
        1 where something was lost once in it, by that explanation, else 0.
    size : (..., 1) array
        Mean and standard deviation of what is then lost, bags.
    beyond : (..., 1) array
        Bags of the batch that its end lies in; zero where it was read.
    """
    variance = (
        seen.taken_variance
        + 2 * planned * seen.together
        + planned**2 * seen.ratio_variance
        + noise
        + size**2 * lost
    )
    mean = seen.taken + planned * seen.ratio + size * lost
    together = seen.together + planned * seen.ratio_variance
    sd = np.sqrt(variance)
    last = (till - mean) / sd
    log, moved, left, surprise = -(last**2) / 2 - np.log(sd), last, np.zeros(last.shape), last
    batch = np.broadcast_to(beyond > 0, last.shape)
    if batch.any():
        first = last - np.where(beyond > 0, beyond, 1.0) / sd
        cut = _between(first, last)
        log, moved, left, surprise = (
            np.where(batch, of_batch, read)
            for of_batch, read in zip(
                (*cut, _sd_of(first, last)), (log, moved, left, surprise), strict=True
            )
        )
    gain = together / variance
    return SeenParts(
        seen.ratio + gain * sd * moved,
        seen.ratio_variance - gain * together * (1 - left),
        mean + sd * moved,
        variance * left,
        together * left,
        seen.evidence + log,
        surprise,
    )


def _between(first: FloatArray, last: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
    """
    The standard normal between two places: logarithm of its part, mean and variance there.

    Far from its middle, both sides are taken to be below it, where the logarithm is exact.
    """
    from scipy.special import log_ndtr

    above = first > 0
    low, high = np.where(above, -last, first), np.where(above, -first, last)
    top = log_ndtr(high)
    log = top + np.log1p(-np.exp(np.minimum(log_ndtr(low) - top, -1e-15)))
    at_low, at_high = (np.exp(-(z**2) / 2 - 0.5 * np.log(2 * np.pi) - log) for z in (low, high))
    mean = np.clip(at_low - at_high, low, high)
    variance = 1 + low * at_low - high * at_high - mean**2
    return log, np.where(above, -mean, mean), np.clip(variance, 1e-9, 1.0)


def _sd_of(first: FloatArray, last: FloatArray) -> FloatArray:
    """How far out a batch is: as one whose middle chance lies as far out, standard deviations."""
    from scipy.special import log_ndtr, ndtri_exp

    far = np.where(first > 0, -1.0, 1.0)
    low, high = np.sort(np.stack([far * first, far * last]), axis=0)
    tail = np.logaddexp(log_ndtr(low), log_ndtr(high)) - np.log(2.0)
    found: FloatArray = far * ndtri_exp(tail)
    return found
