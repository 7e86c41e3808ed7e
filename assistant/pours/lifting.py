"""How much one person should lift, by the revised NIOSH lifting equation.

Source: NIOSH publication 94-110, Applications Manual for the Revised NIOSH Lifting
Equation (public domain): RWL = LC · HM · VM · DM · AM · FM · CM.
"""

from __future__ import annotations

from assistant.pours.material import zero_or_more

__all__ = ["BEST_CASE_KG", "FROM_THE_FLOOR_KG", "recommended_weight_kg"]

BEST_CASE_KG = 23.0
"""The load constant: all multipliers one."""


def recommended_weight_kg(
    horizontal_cm: float,
    vertical_cm: float,
    distance_cm: float,
    twist_deg: float = 0.0,
    frequency: float = 1.0,
    coupling: float = 1.0,
) -> float:
    """
    Mass that nearly all healthy workers can lift over a shift, kilograms.

    Parameters
    ----------
    horizontal_cm : float
        Hands in front of the ankles; nearer than 25 cm counts as 25, beyond 63 nothing.
    vertical_cm : float
        Hands above the floor at the start, 0 to 175.
    distance_cm : float
        How far the load travels up or down; less than 25 cm counts as 25.
    twist_deg : float
        How far the body is turned, 0 to 135 (multiplier and limits from memory).
    frequency, coupling : float
        The manual's table values, 0 to 1; one where the lift is rare and the grip good.

    Returns
    -------
    float
        Zero where the lift is outside what the equation covers.
    """
    for what, value in (("reach", horizontal_cm), ("height", vertical_cm), ("twist", twist_deg)):
        zero_or_more(what, value)
    zero_or_more("lifting distance", distance_cm)
    if horizontal_cm > 63 or vertical_cm > 175 or distance_cm > 175 or twist_deg > 135:
        return 0.0
    reach = 25 / max(horizontal_cm, 25.0)
    height = 1 - 0.003 * abs(vertical_cm - 75)
    distance = 0.82 + 4.5 / max(distance_cm, 25.0)
    twist = 1 - 0.0032 * twist_deg
    return BEST_CASE_KG * reach * height * distance * twist * frequency * coupling


FROM_THE_FLOOR_KG = recommended_weight_kg(40, 0, 75)
"""A bag picked off the floor over its own width and carried up to hip height."""
