"""Mix water of one bag: in litres, or in US quarts in an inch job."""

from __future__ import annotations

from decimal import Decimal

from assistant.reply.wording import figure

LITRES_A_QUART = Decimal("0.946352946")
LITRES_A_GALLON = 4 * LITRES_A_QUART
"""US liquid quart and gallon; NIST Handbook 44, appendix C."""


def litres_said(
    litres: Decimal | None, quarts: Decimal | None = None, gallons: Decimal | None = None
) -> Decimal | None:
    """The litres of what was said; None where nothing was.

    >>> litres_said(None, Decimal(5)), litres_said(None, None, Decimal("1.25"))
    (Decimal('4.7318'), Decimal('4.7318'))
    """
    for said, each in ((quarts, LITRES_A_QUART), (gallons, LITRES_A_GALLON)):
        if said is not None:
            return (said * each).quantize(Decimal("0.0001"))
    return litres


def water_a_bag(unit: str, *litres: float) -> str:
    """A bag's water to read, the least and the most of it where there are two.

    >>> water_a_bag("mm", 4.75, 5.25), water_a_bag("in", 4.75, 5.25)
    ('4.75 to 5.25 L', '5.02 to 5.55 US qt')
    """
    name, each = ("US qt", float(LITRES_A_QUART)) if unit == "in" else ("L", 1.0)
    return f"{' to '.join(figure(one / each, 2) for one in litres)} {name}"


def water_line(unit: str, litres: float) -> str:
    """How a figure for the whole pour is said.

    >>> water_line("mm", 5.0), water_line("in", 5.0)
    ('water 5 litres a bag', 'water 5.3 quarts a bag')
    """
    if unit == "in":
        return f"water {figure(litres / float(LITRES_A_QUART), 1)} quarts a bag"
    return f"water {figure(litres, 2)} litres a bag"
