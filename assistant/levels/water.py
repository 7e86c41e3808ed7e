"""
What water in a hose level does when it is not all equally warm.

A hose lying flat on the floor carries no height, so its temperature does not matter there.
Where a leg of it runs up or down, the warmer water is lighter and stands higher.
"""

from __future__ import annotations

from math import isfinite

from assistant.errors import SurveyError

COLDEST_C, WARMEST_C = 0.0, 40.0
"""Between these the density formula holds."""


def density_kg_m3(temperature_c: float) -> float:
    """
    Density of clean water free of air, under standard pressure.

    Parameters
    ----------
    temperature_c : float
        0 to 40 °C.

    Raises
    ------
    SurveyError
        If the temperature is outside that.

    Notes
    -----
    Tanaka, Girard, Davis, Peuto and Bignell, Recommended table for the density of water
    between 0 °C and 40 °C, Metrologia 38 (2001), the formula; coefficients read in a copy.

    Examples
    --------
    >>> round(density_kg_m3(20), 4)
    998.2067
    """
    _within_range(temperature_c)
    t = temperature_c
    shrink = (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881))
    return 999.974950 * (1 - shrink)


def leg_error_m(run_m: float, water_c: float, leg_c: float) -> float:
    """
    Height error of a reading through a leg that is warmer or colder than the rest.

    Parameters
    ----------
    run_m : float
        How far the leg goes up or down, from end to end; 0 for a hose lying flat, however
        long it is.
    water_c : float
        Temperature of the rest of the water, which the readings are made for, °C.
    leg_c : float
        Temperature of the leg, °C.

    Returns
    -------
    error_m : float
        Metres; plus where the leg is lighter, so that the water in it stands too high.

    Raises
    ------
    SurveyError
        If a temperature is outside 0 to 40 °C, or the run is negative or not finite.

    Notes
    -----
    The pressure under the leg, the same on both sides, is short by the density difference
    times the run; as a height of the other water that is run (1 - leg density / density).

    Examples
    --------
    Half a metre up, in the sun.

    >>> round(leg_error_m(0.5, 20, 30) * 1000, 2)
    1.28
    """
    if not (isfinite(run_m) and run_m >= 0):
        raise SurveyError(f"The run of a leg is zero or more, not {run_m}.")
    return run_m * (1 - density_kg_m3(leg_c) / density_kg_m3(water_c))


def _within_range(temperature_c: float) -> None:
    if not (isfinite(temperature_c) and COLDEST_C <= temperature_c <= WARMEST_C):
        raise SurveyError(
            f"The density of water is known from {COLDEST_C:g} to {WARMEST_C:g} °C, "
            f"not at {temperature_c} °C."
        )
