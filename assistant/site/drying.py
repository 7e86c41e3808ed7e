"""How long a screed or slab may take to dry: rules that disagree, hence a range.

Never permission to go on. The rules assume about 20 °C and at most 65 % relative humidity,
and floors have been found wet long after that time.
"""

from __future__ import annotations

from fractions import Fraction

from assistant.errors import SurveyError
from grammar.frozen import frozen

THICKEST_MM = 300
"""Greatest thickness that the rules are meant for."""


@frozen
class DryingRule:
    """A rule of thumb: a millimetre a day to some thickness, then half a millimetre."""

    quick_mm: Fraction
    source: str

    def days(self, thickness_mm: Fraction) -> Fraction:
        """Days for a thickness in mm."""
        return thickness_mm + max(Fraction(0), thickness_mm - self.quick_mm)


RULES = (
    DryingRule(Fraction(50), "BS 8203 and BS 8204, from memory"),
    DryingRule(Fraction(40), "BS 5385-3:2014 as quoted in an article, which stops at 40 mm"),
    DryingRule(Fraction(75), "a trade page, no standard"),
)


@frozen
class DryingEstimate:
    """The rules' estimates for one thickness, days."""

    least_days: Fraction
    most_days: Fraction
    each: tuple[tuple[DryingRule, Fraction], ...]

    @property
    def agree(self) -> bool:
        """Whether all rules agree."""
        return self.least_days == self.most_days


def drying_estimate(thickness_mm: Fraction) -> DryingEstimate:
    """
    Days that a thickness may take to dry, by every rule.

    Raises
    ------
    SurveyError
        For a thickness of zero, or one that the rules are not meant for.

    Examples
    --------
    >>> estimate = drying_estimate(Fraction(60))
    >>> int(estimate.least_days), int(estimate.most_days)
    (60, 80)
    """
    if not 0 < thickness_mm <= THICKEST_MM:
        raise SurveyError(
            f"Drying rules are for more than 0 and up to {THICKEST_MM} mm: "
            "drying time 60 millimetres."
        )
    each = tuple((rule, rule.days(thickness_mm)) for rule in RULES)
    days = [length for _, length in each]
    return DryingEstimate(min(days), max(days), each)
