"""
How many bags a pour will have taken when it is over, from what it has taken so far.

Two things look alike at first. A floor that runs deep, or bags that yield less than they should,
go on as they began: a ratio of used to planned that stays. A hole takes its share once, and what
is left needs no more than was planned. So the forecast is a mixture of both, until somebody who
looked says which it was.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray
from assistant.pours.material import more_than_zero, zero_or_more
from assistant.pours.parts_seen import begun_with, with_part
from grammar.frozen import frozen, frozen_identity

INTERVAL = 0.90
"""Part of the forecast's distribution that its interval holds."""
ASKS_AT_SD = 2.5
"""A part of the pour that takes this many standard deviations more than was expected of it is
asked about. Lower asks more often where nothing was lost."""
WARNS_OVER = 0.03
WARNS_AT_SD = 0.6
WARNS_AT_CHANCE = 0.9
"""A shortage is warned of where the expected end is over the bags at hand by more than this share
of them, and by more than this part of its standard deviation; or where they do not do with this
chance, near the end of a pour by however little. Lower warns earlier, and for nothing more often:
``python -m tests.benchmarks.pours`` prints how often."""
FRONT_TELLS = (0.7, 0.97)
"""Chances of running short between which it is asked how far the last batch came. Wider asks
more often; ``python -m tests.benchmarks.pours --batch 2`` prints how often."""
COARSE, COARSE_FROM, FRONT_TELLS_COARSE = 0.5, 0.2, 0.35
"""Where a batch is more than this share of a usual strip, its count tells so little that, once
that much of the pour is poured, the front is asked for from that chance on. Of four bags a batch in
strips of 7.5 it makes of 85 shortages in 100 warned of in time 99, for one front more in a
pour; ``python -m tests.benchmarks.pours --batch 4``."""
LOSS_LIKELIER = 2.0
"""It is asked for, too, where so many times likelier than before its count something was lost in
the part seen last: a batch more may be a hole, or no more than where a batch ends."""


@frozen
class Expected:
    """What is expected of a pour before its first bag."""

    ratio_sd: float
    """Of used to planned, what stays for the whole pour: the survey between its points, the zero
    and the yield of a bag, see :func:`ratio_sd`."""
    part_sd: float = 0.06
    """Of used to planned, what one strip differs from the others. Common practice, no source."""
    hole_chance: float = 0.05
    """That something is lost once, in a whole pour. Our own choice, no source."""
    lost_share: float = 0.05
    """Mean and standard deviation of what is then lost, as a share of the planned pour. Our own
    choice, no source."""


def ratio_sd(volume_m3: float, between_sd_m3: float, zero_sd_m3: float, yield_sd: float) -> float:
    """
    Standard deviation of used to planned, of what stays for the whole pour.

    Parameters
    ----------
    volume_m3 : float
        Planned, above zero.
    between_sd_m3, zero_sd_m3 : float
        Standard deviations of the volume: from the floor between its points, and from the zero
        that all readings share.
    yield_sd : float
        Relative, of a bag's yield.

    Examples
    --------
    A zero that is 1 mm off on 48 m² is 48 L, on 0.9 m³ as much as a yield 5.3 % off.

    >>> round(ratio_sd(0.9, 0.0, 0.048, 0.0), 4)
    0.0533
    """
    more_than_zero("planned volume", volume_m3)
    for what, sd in (("survey's", between_sd_m3), ("zero's", zero_sd_m3), ("yield's", yield_sd)):
        zero_or_more(f"{what} standard deviation", sd)
    return sqrt((between_sd_m3**2 + zero_sd_m3**2) / volume_m3**2 + yield_sd**2)


@frozen_identity
class Forecast:
    """The bags at the end of one pour or of many, as mixtures of normal distributions."""

    weights: FloatArray
    """(..., h) chance of each explanation."""
    means: FloatArray
    """(..., h) bags at the end."""
    sds: FloatArray
    """(..., h)"""
    hole_chance: FloatArray
    """(...) that something was lost once in the part seen last, and stays lost."""
    surprise_sd: FloatArray
    """(...) how many standard deviations the part seen last took more than was expected of it."""
    ratio: FloatArray
    """(...) bags expected for each bag planned, of what is still to be poured."""
    begun: float = 0.0
    """What the end counts of a bag that is begun and not all needed, on average."""
    batch: FloatArray | float = 0.0
    """(...) bags of the batch that the last part ends in; zero where its end was read."""
    past: FloatArray | float = 0.0
    """(..., k) bags of the last batch of each part that lie beyond its end, as expected then."""
    coarse: BoolArray | bool = False
    """(...) whether that batch is more than :data:`COARSE` of a usual strip, and enough poured."""
    hole_before: FloatArray | float = 1.0
    """(...) chance that something is lost in a part like the last, before its bags are counted."""

    @property
    def mean(self) -> FloatArray:
        """Bags expected at the end."""
        mean: FloatArray = (self.weights * self.means).sum(axis=-1)
        return mean

    @property
    def sd(self) -> FloatArray:
        """Standard deviation of the bags expected at the end."""
        square = (self.weights * (self.sds**2 + self.means**2)).sum(axis=-1) - self.mean**2
        sd: FloatArray = np.sqrt(np.maximum(square, 0.0))
        return sd

    @property
    def interval(self) -> tuple[FloatArray, FloatArray]:
        """Bags between which the end lies with a chance of :data:`INTERVAL`."""
        tail = (1 - INTERVAL) / 2
        return self.quantile(tail), self.quantile(1 - tail)

    def quantile(self, chance: float) -> FloatArray:
        """Bags that are enough with a chance, (...)."""
        reach = 12 * self.sds
        low, high = (self.means - reach).min(axis=-1), (self.means + reach).max(axis=-1)
        for _ in range(40):
            middle = (low + high) / 2
            enough = 1 - self.chance_over(middle) >= chance
            low, high = np.where(enough, low, middle), np.where(enough, middle, high)
        found: FloatArray = (low + high) / 2
        return found

    def chance_over(self, bags: ArrayLike) -> FloatArray:
        """Chance that the pour takes more than so many bags, (...)."""
        over = np.asarray(bags, dtype=np.float64)[..., None]
        sds = np.maximum(self.sds, 1e-12)
        chance: FloatArray = (self.weights * _normal_above((over - self.means) / sds)).sum(axis=-1)
        return chance

    def short(self, bags: ArrayLike) -> BoolArray:
        """Whether to warn that so many bags will not do, (...)."""
        over = self.mean - np.asarray(bags, dtype=np.float64)
        far: BoolArray = (over > WARNS_OVER * np.asarray(bags)) & (over > WARNS_AT_SD * self.sd)
        return far | (self.chance_short(bags) > WARNS_AT_CHANCE)

    def chance_short(self, bags: ArrayLike) -> FloatArray:
        """Chance that so many whole bags do not do, (...)."""
        return self.chance_over(np.asarray(bags, dtype=np.float64) + self.begun)

    def front_tells(self, bags: ArrayLike) -> BoolArray:
        """
        Whether it would tell much how far the last batch came, (...).

        So many bags may do or not, or it may have been a hole: a count by the batch hides both.
        """
        least, most = np.where(self.coarse, FRONT_TELLS_COARSE, FRONT_TELLS[0]), FRONT_TELLS[1]
        chance = self.chance_short(bags)
        do_or_not = (least < chance) & (chance < most)
        likelier = self.hole_chance > LOSS_LIKELIER * np.maximum(self.hole_before, 1e-9)
        tells: BoolArray = (np.asarray(self.batch) > 0) & (do_or_not | (likelier & ~self.asks))
        return tells

    @property
    def asks(self) -> BoolArray:
        """Whether to ask if the part seen last went down a hole, (...)."""
        asks: BoolArray = self.surprise_sd > ASKS_AT_SD
        return asks

    @property
    def far_less(self) -> BoolArray:
        """Whether the part seen last took as much less than was expected of it, (...)."""
        less: BoolArray = self.surprise_sd < -ASKS_AT_SD
        return less


def forecast(
    planned: ArrayLike,
    used: ArrayLike,
    left: ArrayLike,
    expected: Expected,
    *,
    lost: ArrayLike | None = None,
    part: float | None = None,
    beyond: ArrayLike | None = None,
) -> Forecast:
    """
    The bags at the end of a pour.

    Parameters
    ----------
    planned : (..., k) array_like
        Bags planned for each part poured so far, above zero; k may be nothing. Leading axes are
        pours of their own, one plan of (k,) is that of all.
    used : (..., k) array_like
        Bags that each took.
    left : (...) array_like
        Bags planned for what is still to be poured, zero or more.
    expected : Expected
    lost : (..., k) array_like, optional
        What somebody who looked said of each part: 1 something was lost there once, -1 nothing
        was, 0 nobody was asked.
    part : float, optional
        Bags planned for a usual strip, of which ``expected.part_sd`` speaks; without it the mean
        of the parts, and before the first an eighth of the pour. Parts differ by the square root
        of their size, so that two halves of a strip tell as much as the strip.
    beyond : (..., k) array_like, optional
        Bags of the batch that was poured last where each part ended, zero or more: that much of
        them at most lies beyond the end. Zero for an end that was read where the material stood.
        Without it bags are parts of bags, with it whole ones.

    Returns
    -------
    Forecast

    Raises
    ------
    SurveyError
        If shapes do not fit, or a number is not finite or out of its range.

    Notes
    -----
    Used = ratio · planned + lost + what the part differs. The ratio is normal round 1, what is
    lost normal round its mean, so each explanation (nothing lost, or lost in part j) is a
    conjugate normal whose evidence is known in closed form. At most one loss is taken that nobody
    reported. Where only the batch is known that an end lies in, the normal is cut to it and goes on
    as the one of the same mean and variance: see :mod:`assistant.pours.parts_seen`.

    Examples
    --------
    >>> seen = forecast([4, 4, 4], [4.48, 4.2, 4.4], 49, Expected(0.08, hole_chance=0))
    >>> print(seen.mean.round(3))
    65.794
    """
    plan, taken, said, rest = _checked(planned, used, left, lost)
    count = plan.shape[-1]
    total = (plan.sum(axis=-1) + rest)[..., None]
    usual = part or (float(plan.mean()) if count else float(np.mean(rest)) / 8)
    batches = np.zeros(count) if beyond is None else np.asarray(beyond, dtype=np.float64)
    # Explanations along the last axis: nothing lost unreported, then lost in part j.
    here = np.concatenate([np.zeros((1, count)), np.eye(count)])
    seen = begun_with(expected.ratio_sd, (*taken.shape[:-1], count + 1))
    till, past = taken.cumsum(axis=-1), list[FloatArray]()
    for row in range(count):
        seen = with_part(
            seen,
            plan[..., row, None],
            till[..., row, None],
            expected.part_sd**2 * plan[..., row, None] * usual,
            np.maximum(said[..., row, None] > 0, here[:, row]),
            expected.lost_share * total,
            batches[..., row, None],
        )
        # Of a hole here or earlier, and of none, the likelier by what was seen up to here.
        past.append(till[..., row] - seen.likeliest_taken)
    chances = expected.hole_chance * plan / total if count else plan
    prior = np.concatenate([1 - chances.sum(axis=-1, keepdims=True), chances], axis=-1)
    open_still = np.concatenate([np.ones((*said.shape[:-1], 1)), said == 0], axis=-1)
    log = seen.evidence + np.log(np.maximum(prior * open_still, 1e-300))
    weights = np.exp(log - log.max(axis=-1, keepdims=True))
    weights /= weights.sum(axis=-1, keepdims=True)
    means, variances = seen.end(rest[..., None])
    spread = variances + expected.part_sd**2 * usual * rest[..., None]
    over = np.broadcast_to(rest[..., None] <= 0, means.shape) & (count > 0)
    begun = 0.5 * float(beyond is not None and count > 0)  # a bag begun is a bag used
    means = np.where(over, till[..., -1:] if count else 0.0, means + begun)
    spread = np.where(over, 0.0, spread + begun / 6)
    return Forecast(
        weights,
        means,
        np.sqrt(spread),
        weights[..., -1] if count else np.zeros(taken.shape[:-1]),
        np.where(said[..., -1] == 0, seen.surprise[..., 0], 0.0)
        if count
        else seen.surprise[..., 0],
        (weights * seen.ratio).sum(axis=-1),
        begun,
        batches[..., -1] if count else 0.0,
        np.stack(past, axis=-1) if past else np.zeros((*taken.shape[:-1], 0)),
        (batches[..., -1] > COARSE * usual) & (rest < (1 - COARSE_FROM) * total[..., 0])
        if count
        else False,
        chances[..., -1] if count else 1.0,
    )


def _checked(
    planned: ArrayLike, used: ArrayLike, left: ArrayLike, lost: ArrayLike | None
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    plan = np.asarray(planned, dtype=np.float64)
    taken = np.asarray(used, dtype=np.float64)
    said = np.zeros(taken.shape) if lost is None else np.asarray(lost, dtype=np.float64)
    rest = np.asarray(left, dtype=np.float64)
    if plan.shape not in (taken.shape, taken.shape[-1:]) or said.shape != taken.shape:
        raise SurveyError("Each part of a pour needs its planned bags and the bags it took.")
    if rest.shape not in ((), taken.shape[:-1]):
        raise SurveyError("Each pour needs the bags planned for what is left.")
    if not (np.isfinite(plan).all() and (plan > 0).all()):
        raise SurveyError("A part of a pour was planned with no bags.")
    if not (np.isfinite(taken).all() and (taken >= 0).all()):
        raise SurveyError("A part of a pour took bags that are no number.")
    if not (np.isfinite(rest).all() and (rest >= 0).all()):
        raise SurveyError(f"The bags planned for what is left must be zero or more, not {rest}.")
    return plan, taken, said, rest


def _normal_above(z: FloatArray) -> FloatArray:
    """Upper tail of the standard normal."""
    from scipy.special import ndtr

    above: FloatArray = ndtr(-z)
    return above
