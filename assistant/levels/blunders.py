"""Do the residuals look like chance, and if not, which observation does not belong?"""

from __future__ import annotations

from statistics import NormalDist

import numpy as np

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray
from grammar.frozen import frozen, frozen_identity

ALPHA = 0.001
"""How often a good observation is suspected all the same. Raising it finds smaller blunders
and sends the installer back to good readings more often. Baarda's own choice; from memory."""
POWER = 0.80
"""How often a blunder of the detectable size is found. Baarda's own choice; from memory."""
GLOBAL_ALPHA = 0.05
"""How often a good survey fails the test of all residuals together. From memory."""
UNCHECKED = 1e-6
"""An observation with less redundancy than this is checked by nothing but rounding."""
SAME_W = 1e-6
"""The survey cannot distinguish observations whose w differ, relatively, by less than this."""


@frozen
class GlobalTest:
    """All residuals together against the promised standard deviations (chi-squared)."""

    sigma0: float
    """Residuals over promise; 1 is as promised, nan where nothing is checked."""
    low: float
    high: float
    """The bounds that ``sigma0`` keeps within, 95 times in 100 at the usual alpha."""
    dof: int

    @property
    def too_large(self) -> bool:
        """Worse than promised. Below ``low`` is no fault of the survey, only of the promise."""
        return self.dof > 0 and self.sigma0 > self.high


@frozen_identity
class WTest:
    """Each observation against all the others."""

    w: FloatArray
    """(m,) residual over its own standard deviation; nan where nothing checks it."""
    critical: float
    """Beyond it, on either side, the observation is suspected."""
    detectable_m: FloatArray
    """(m,) the smallest blunder that would be found, 4 times in 5; inf where unchecked."""
    blunder_m: FloatArray
    """(m,) observed minus what all the others say; nan where nothing checks it."""

    def suspects(self) -> tuple[int, ...]:
        """
        The observation that fits worst, if it fits too badly to be chance.

        More than one where the survey cannot tell them apart: of two readings that
        disagree, either may be the wrong one.
        """
        size = np.nan_to_num(np.abs(self.w), nan=0.0)
        worst = float(size.max(initial=0.0))
        if worst <= self.critical:
            return ()
        return tuple(np.flatnonzero(size >= worst * (1 - SAME_W)).tolist())


def global_test(weighted_squares: float, dof: int, alpha: float = GLOBAL_ALPHA) -> GlobalTest:
    """
    Test of all residuals together, two-sided.

    Parameters
    ----------
    weighted_squares : float
        Sum of the squares of residual over standard deviation.
    dof : int
        Observations more than unknowns.
    alpha : float
        Chance that a survey as good as promised fails.

    Examples
    --------
    >>> result = global_test(4.63616, 3)
    >>> round(result.sigma0, 5), round(result.low, 5), round(result.high, 5), result.too_large
    (1.24314, 0.2682, 1.76526, False)
    """
    from scipy.special import gammaincinv

    _check_chance(alpha)
    if dof <= 0:
        return GlobalTest(float("nan"), float("nan"), float("nan"), 0)
    # Quantiles of chi-squared, as scipy.stats has them; that would take a second to load.
    squares = 2 * gammaincinv(dof / 2, np.array([alpha / 2, 1 - alpha / 2]))
    low, high = np.sqrt(squares / dof).tolist()
    return GlobalTest(float(np.sqrt(weighted_squares / dof)), low, high, dof)


def w_test(
    residuals_m: FloatArray,
    redundancy: FloatArray,
    sds_m: FloatArray,
    alpha: float = ALPHA,
    power: float = POWER,
) -> WTest:
    """
    Baarda's test of each observation, the standard deviations taken as known.

    Parameters
    ----------
    residuals_m, redundancy, sds_m : (m,) arrays of float
        Adjusted minus observed; its share left to the residual; promised, above zero.
    alpha, power : float
        See :data:`ALPHA` and :data:`POWER`.

    Notes
    -----
    w = v / (sd sqrt(r)) is standard normal for good observations. The detectable blunder is
    sd d / sqrt(r), with d the sum of the normal's upper points for alpha / 2 and for the
    power: 3.29 + 0.84 = 4.13. Baarda, A testing procedure for use in geodetic networks
    (1968); from memory.

    Examples
    --------
    Two readings of a point that differ by 10 mm: each is checked by the other alone.

    >>> result = w_test(np.array([0.005, -0.005]), np.full(2, 0.5), np.full(2, 0.001))
    >>> print(result.w.round(2), result.blunder_m, result.suspects())
    [ 7.07 -7.07] [-0.01  0.01] (0, 1)
    """
    _check_chance(alpha)
    _check_chance(power)
    checked: BoolArray = np.nan_to_num(redundancy, nan=0.0) > UNCHECKED
    share = np.where(checked, redundancy, np.nan)
    critical = NormalDist().inv_cdf(1 - alpha / 2)
    shift = critical + NormalDist().inv_cdf(power)
    return WTest(
        w=residuals_m / (sds_m * np.sqrt(share)),
        critical=critical,
        detectable_m=np.where(checked, sds_m * shift / np.sqrt(share), np.inf),
        blunder_m=-residuals_m / share,
    )


def _check_chance(chance: float) -> None:
    if not 0 < chance < 1:
        raise SurveyError(f"A chance lies between 0 and 1, not {chance}.")
