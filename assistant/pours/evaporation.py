"""How fast air takes water from a wet surface, and how far the air's draught matters."""

from __future__ import annotations

from math import isfinite

from assistant.errors import SurveyError
from assistant.pours.material import zero_or_more

__all__ = ["UNCERTAIN_BY", "evaporation_kg_m2_h"]

UNCERTAIN_BY = 0.40
"""Rates really found differ by so much from the formula. Source: ACI SP-338, abstract."""


def evaporation_kg_m2_h(
    air_c: float, surface_c: float, humidity_percent: float, wind_km_h: float
) -> float:
    """
    Evaporation from fresh concrete, kilograms a square metre and hour.

    It was made for concrete: beside an underlayment it says that there is a draught, and is
    no limit.

    Parameters
    ----------
    air_c, surface_c : float
        Temperatures of air and surface, °C, above -18.
    humidity_percent : float
        Relative humidity of the air, 0 to 100.
    wind_km_h : float
        Half a metre above the surface, zero or more.

    Returns
    -------
    float
        Zero where the formula gives less: water settles on the surface. Good to
        :data:`UNCERTAIN_BY`.

    Raises
    ------
    SurveyError
        If a number is out of its range.

    Notes
    -----
    E = 5 ([Tc + 18]^2.5 - r [Ta + 18]^2.5) (V + 4) · 10⁻⁶. Source: P. J. Uno, Plastic shrinkage
    cracking and evaporation formulas, ACI Materials Journal 95 (1998).

    Examples
    --------
    >>> round(evaporation_kg_m2_h(20, 20, 50, 5), 4)
    0.2003
    """
    for what, celsius in (("air", air_c), ("surface", surface_c)):
        if not (isfinite(celsius) and celsius > -18):
            raise SurveyError(f"The formula has no {what} of {celsius} °C.")
    zero_or_more("wind", wind_km_h)
    zero_or_more("humidity", humidity_percent)
    if humidity_percent > 100:
        raise SurveyError(f"Relative humidity is at most 100 percent, not {humidity_percent}.")
    drive: float = (surface_c + 18) ** 2.5 - humidity_percent / 100 * (air_c + 18) ** 2.5
    return max(5 * drive * (wind_km_h + 4) * 1e-6, 0.0)
