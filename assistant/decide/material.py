"""The product, what is added to it, and its waste."""

from __future__ import annotations

from decimal import Decimal

from assistant.decide.parts import Decider, Decision, World
from assistant.errors import CardError, Refusal
from assistant.events.kinds import Event
from assistant.events.material import AggregateSet, BagCostSet, ProductChosen, WasteSet
from assistant.job import Job
from assistant.products.cards import Card, find_card
from assistant.reply import wording
from grammar.commands import Change
from grammar.commands.material import (
    ChooseProduct,
    ExtendWithAggregate,
    PourNeat,
    SetBagCost,
    SetWaste,
)

MOST_FOR_A_BAG = 1_000_000
"""In any currency; a number with more digits is a slip. Our own choice, no source."""


def choose_product(job: Job, command: ChooseProduct, world: World) -> Decision:
    try:
        card = find_card(command.name, world.cards)
    except CardError as fault:
        raise Refusal(str(fault), spoken="No one product has that name.") from fault
    events: tuple[Event, ...] = (ProductChosen(card.as_dict()),)
    if job.aggregate_percent > most_aggregate(card):
        # Aggregate was for the last product: with a new one the mix starts neat.
        events += (AggregateSet(Decimal(0)),)
    return Decision(events)


def most_aggregate(card: Card) -> Decimal:
    """Percent of the powder's mass that a product takes; zero where it takes none."""
    return Decimal(repr(card.max_aggregate_percent or 0.0))


def set_waste(_job: Job, command: SetWaste, _world: World) -> Decision:
    if not 0 <= command.percent <= 100:
        raise Refusal(
            f"Waste is from 0 to 100 percent, not {wording.percent(command.percent)}: "
            "waste 7 percent.",
            spoken="Waste is at most a hundred percent.",
        )
    return Decision((WasteSet(command.percent),))


def extend_with_aggregate(job: Job, command: ExtendWithAggregate, _world: World) -> Decision:
    if command.percent == 0:
        return Decision((AggregateSet(Decimal(0)),))
    card = job.card
    if card is None:
        raise Refusal(
            "The product first; its card says how much aggregate it takes.",
            spoken="The product first.",
        )
    most = most_aggregate(card)
    if not most:
        raise Refusal(
            f"The card of {card.name} allows no aggregate; pour it neat.",
            spoken="Its card allows no aggregate.",
        )
    if not 0 < command.percent <= most:
        raise Refusal(
            f"The card of {card.name} allows aggregate up to {wording.percent(most)} of the "
            f"powder's mass, not {wording.percent(command.percent)}.",
            spoken="Its card does not allow so much aggregate.",
        )
    return Decision((AggregateSet(command.percent),))


def pour_neat(_job: Job, _command: PourNeat, _world: World) -> Decision:
    return Decision((AggregateSet(Decimal(0)),))


def set_bag_cost(_job: Job, command: SetBagCost, _world: World) -> Decision:
    if not 0 < command.amount <= MOST_FOR_A_BAG:
        raise Refusal(
            f"A bag costs more than nothing and at most {MOST_FOR_A_BAG}: bag costs 24.",
            spoken="No bag costs that.",
        )
    return Decision((BagCostSet(command.amount, command.currency or ""),))


DECIDERS: dict[type[Change], Decider] = {
    ChooseProduct: choose_product,
    SetWaste: set_waste,
    ExtendWithAggregate: extend_with_aggregate,
    PourNeat: pour_neat,
    SetBagCost: set_bag_cost,
}
