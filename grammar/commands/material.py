"""The product, what is added to it, what is lost of it, and how much to order."""

from __future__ import annotations

from decimal import Decimal

from grammar.commands.kinds import Ask, Change
from grammar.frozen import frozen


@frozen
class ChooseProduct(Change):
    """The bag in the installer's hand."""

    name: str
    """As said, lower case, single spaces."""


@frozen
class SetWaste(Change):
    """What is lost in buckets and hoses, on top of the volume."""

    percent: Decimal


@frozen
class ExtendWithAggregate(Change):
    """Aggregate added to the mix, by mass of the powder."""

    percent: Decimal


@frozen
class PourNeat(Change):
    """No aggregate in the mix."""


@frozen
class ListProducts(Ask):
    """The product cards at hand."""


@frozen
class AskWeight(Ask):
    """What the pour weighs on the floor."""


@frozen
class AskOrder(Ask):
    """Bags for a chosen risk of running short."""

    risk: Decimal | None = None
    """Percent; None for the usual 1 in 20."""
    zone: str | None = None
    """None for the whole floor."""


@frozen
class SetBagCost(Change):
    """What one bag costs."""

    amount: Decimal
    currency: str | None = None
    """Any word, as it was said; no rate is ever looked up."""
