"""
What water in a hose level does when it is not all equally warm.

A hose lying flat on the floor carries no height, so its temperature does not matter there.
Where a leg of it runs up or down, the warmer water is lighter and stands higher.
"""

from __future__ import annotations

from math import isfinite, pi, radians, sin

from assistant.errors import SurveyError

STANDARD_GRAVITY_M_S2 = 9.80665
"""Exact by definition."""
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


def expansion_per_k(temperature_c: float) -> float:
    """
    Thermal expansion of water: part of its volume gained for each kelvin.

    Derivative of :func:`density_kg_m3`, worked out by hand.

    >>> round(expansion_per_k(20) * 1e6, 1)
    206.9
    """
    density = density_kg_m3(temperature_c)
    t = temperature_c
    squared, top, bottom = (t - 3.983035) ** 2, t + 301.797, t + 69.34881
    slope = (2 * (t - 3.983035) * top + squared - squared * top / bottom) / (522528.9 * bottom)
    return 999.974950 * slope / density


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


def reservoir_rise_m(
    hose_length_m: float, hose_bore_m: float, reservoir_bore_m: float, from_c: float, to_c: float
) -> float:
    """
    How far the reservoir rises when all the water in the hose warms.

    It shifts all readings alike, so it only harms a survey in which it happens half-way:
    then a check of the zero shows it.

    >>> round(reservoir_rise_m(15, 0.006, 0.060, 20, 25) * 1000, 3)
    0.174
    """
    for length in (hose_length_m, hose_bore_m):
        if not (isfinite(length) and length >= 0):
            raise SurveyError(f"A hose measures zero or more, not {length}.")
    if not (isfinite(reservoir_bore_m) and reservoir_bore_m > 0):
        raise SurveyError(f"A reservoir is wider than nothing, not {reservoir_bore_m}.")
    volume = hose_length_m * pi * hose_bore_m**2 / 4
    gained = volume * (density_kg_m3(from_c) / density_kg_m3(to_c) - 1)
    return gained / (pi * reservoir_bore_m**2 / 4)


def head_pa(
    height_m: float, temperature_c: float, gravity_m_s2: float = STANDARD_GRAVITY_M_S2
) -> float:
    """
    Pressure under so much water.

    >>> round(head_pa(0.001, 20), 5)
    9.78906
    """
    return density_kg_m3(temperature_c) * gravity_m_s2 * height_m


def height_m(
    pressure_pa: float, temperature_c: float, gravity_m_s2: float = STANDARD_GRAVITY_M_S2
) -> float:
    """
    Height of water that gives so much pressure; for a pressure-type instrument.

    A side that is sealed, not open to the same air as the other, shows the weather: a
    barometer that goes up by 1 hPa moves it by 10 mm.

    >>> round(height_m(100, 20) * 1000, 4)
    10.2155
    """
    return pressure_pa / (density_kg_m3(temperature_c) * gravity_m_s2)


def air_scale_error(temperature_c: float, air_density_kg_m3: float = 1.2041) -> float:
    """
    Part of a height that goes missing because air, too, is lighter higher up.

    For a pressure-type instrument open to the air; dry air at 20 °C unless given.

    >>> round(air_scale_error(20) * 1000, 3)
    1.206
    """
    return air_density_kg_m3 / density_kg_m3(temperature_c)


def gravity_m_s2(latitude_deg: float) -> float:
    """
    Normal gravity at sea level.

    Notes
    -----
    Somigliana's formula with the constants of the WGS 84 ellipsoid; from memory.

    >>> round(gravity_m_s2(45), 6)
    9.806198
    """
    if not (isfinite(latitude_deg) and abs(latitude_deg) <= 90):
        raise SurveyError(f"A latitude lies between -90 and 90 degrees, not {latitude_deg}.")
    squared = sin(radians(latitude_deg)) ** 2
    top = 1 + 0.00193185265241 * squared
    below: float = (1 - 0.00669437999014 * squared) ** 0.5
    return 9.7803253359 * top / below


def _within_range(temperature_c: float) -> None:
    if not (isfinite(temperature_c) and COLDEST_C <= temperature_c <= WARMEST_C):
        raise SurveyError(
            f"The density of water is known from {COLDEST_C:g} to {WARMEST_C:g} °C, "
            f"not at {temperature_c} °C."
        )
