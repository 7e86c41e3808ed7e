"""Mix water as it is said of a bag: in litres, or in US quarts in an inch job."""

from __future__ import annotations

from decimal import Decimal

from assistant.reply.wording import figure

LITRES_A_QUART = Decimal("0.946352946")
"""US liquid quart; NIST Handbook 44, appendix C."""


def water_line(unit: str, litres: float) -> str:
    """How a figure for the whole pour is said.

    >>> water_line("mm", 5.0), water_line("in", 5.0)
    ('water 5 litres a bag', 'water 5.3 quarts a bag')
    """
    if unit == "in":
        return f"water {figure(litres / float(LITRES_A_QUART), 1)} quarts a bag"
    return f"water {figure(litres, 2)} litres a bag"
