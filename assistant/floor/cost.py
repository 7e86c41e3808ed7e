"""What the bags cost, where the cost of one was said."""

from __future__ import annotations

from decimal import Decimal

from assistant.events.material import BagCostSet
from assistant.job import Job
from grammar.frozen import frozen


@frozen
class Cost:
    """An amount of money in the currency that was said."""

    amount: Decimal
    currency: str

    def in_words(self) -> str:
        """
        The amount to read, with cents where it has any.

        >>> Cost(Decimal("444.0"), "euros").in_words(), Cost(Decimal("18.5"), "").in_words()
        ('444 euros', '18.50')
        """
        whole = self.amount == self.amount.to_integral_value()
        figures = f"{self.amount:.0f}" if whole else f"{self.amount:.2f}"
        return f"{figures} {self.currency}".strip()

    def as_data(self) -> dict[str, object]:
        """The cost as data, for programs that read the JSON."""
        return {"value": float(self.amount), "unit": self.currency}


def cost_of_bags(job: Job, bags: int) -> Cost | None:
    """So many bags at the cost of one; None where that was not said."""
    said = job.setting(BagCostSet)
    return None if said is None else Cost(said.amount * bags, said.currency)
