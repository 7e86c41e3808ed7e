"""The dew point: the temperature at which the air's moisture settles on the slab."""

from __future__ import annotations

from math import isfinite, log

from assistant.errors import SurveyError

# Magnus formula over water, good from -45 to 60 °C.
# Source: WMO Guide No. 8 (Guide to Instruments and Methods of Observation), Annex 4.B.
SLOPE = 17.62
OFFSET_C = 243.12
COLDEST_C, WARMEST_C = -45.0, 60.0


def dew_point_c(air_c: float, humidity_percent: float) -> float:
    """
    Dew point of air.

    Parameters
    ----------
    air_c : float
        °C, -45 to 60.
    humidity_percent : float
        Relative humidity, more than 0 to 100.

    Returns
    -------
    float
        °C, never above the air's own; within 0.04 °C of other formulas in use between
        10 and 30 °C.

    Raises
    ------
    SurveyError
        If the air is outside the formula's range, or the humidity is not above zero.

    Notes
    -----
    Source: WMO Guide No. 8, Annex 4.B, solved for the temperature.

    Examples
    --------
    >>> round(dew_point_c(20, 50), 3)
    9.255
    """
    _check_air(air_c)
    if not 0 < humidity_percent <= 100:
        raise SurveyError(
            f"A relative humidity of {humidity_percent:g} percent is none: "
            "it is more than 0 and at most 100."
        )
    if humidity_percent == 100:
        return air_c  # by definition; the logarithm would leave a rounding error
    gamma = log(humidity_percent / 100) + SLOPE * air_c / (OFFSET_C + air_c)
    return OFFSET_C * gamma / (SLOPE - gamma)


def _check_air(air_c: float) -> None:
    if not (isfinite(air_c) and COLDEST_C <= air_c <= WARMEST_C):
        raise SurveyError(
            f"The dew point formula covers air from {COLDEST_C:g} to {WARMEST_C:g} °C, "
            f"not {air_c:g}."
        )
