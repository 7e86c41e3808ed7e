"""What is poured."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, ClassVar

from assistant.events.kinds import Event, Setting
from grammar.frozen import frozen


@frozen
class ProductChosen(Event):
    """The product, with the whole of its card as it was on that day."""

    NAME: ClassVar[str] = "product-chosen"
    card: dict[str, Any]

    def in_words(self) -> str:
        return f"product {self.card.get('name', '')}".strip()


@frozen
class WasteSet(Setting):
    """Allowance on top of the volume."""

    NAME: ClassVar[str] = "waste-set"
    percent: Decimal

    def in_words(self) -> str:
        return "the waste"


@frozen
class AggregateSet(Setting):
    """Aggregate by mass of the powder; zero is neat."""

    NAME: ClassVar[str] = "aggregate-set"
    percent: Decimal

    def in_words(self) -> str:
        return "the aggregate"


@frozen
class BagCostSet(Setting):
    """What one bag costs."""

    NAME: ClassVar[str] = "bag-cost-set"
    amount: Decimal
    currency: str = ""
    """As it was said; empty where none was."""

    def in_words(self) -> str:
        return "the cost of a bag"
