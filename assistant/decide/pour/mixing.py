"""The mix: its water, and how it flows."""

from __future__ import annotations

from decimal import Decimal

from assistant.decide.parts import Decider, Decision, World, length_of
from assistant.errors import Refusal
from assistant.events.pour import FlowMeasured, MixWaterSet
from assistant.floor.zones import cards_of
from assistant.job import Job
from assistant.limits.limits import card_source
from assistant.reply import wording
from assistant.reply.mix_water import litres_said, water_a_bag, water_line
from assistant.units.lengths import metres
from grammar.commands import Change
from grammar.commands.pour import SetMixWater, TellFlow

MOST_WATER_L = Decimal(30)
"""For one bag; more is a slip. Our own choice, no source."""
LEAST_FLOW_M, MOST_FLOW_M = 0.03, 0.6
"""Of a flow test; less or more is a slip. Our own choice, no source."""


def set_mix_water(job: Job, command: SetMixWater, _world: World) -> Decision:
    """One figure for the whole pour; one that no card at hand allows is none."""
    litres, unit = litres_said(command.litres, command.quarts, command.gallons), job.reading_unit
    assert litres is not None  # the phrases have one of them
    check_water(litres, unit)
    cards = cards_of(job)
    if cards and not any(card.water_l[0] <= float(litres) <= card.water_l[1] for card in cards):
        card = cards[0]
        low, high = card.water_l
        over = float(litres) > high
        told = "cracks, pinholes and a white film" if over else "it does not flow"
        raise Refusal(
            f"{water_a_bag(unit, float(litres))} a bag is {'over' if over else 'under'} the card's "
            f"{water_a_bag(unit, low, high)} ({card_source(card)}): "
            f"{told}. For the whole pour: {water_line(unit, card.mean_water_l)}.",
            spoken=f"That is {'over' if over else 'under'} what the card allows.",
        )
    return Decision((MixWaterSet(litres),))


def check_water(litres: Decimal, unit: str) -> None:
    """Refuse what no bag takes."""
    if not 0 < litres <= MOST_WATER_L:
        raise Refusal(
            "A bag takes more than nothing and at most "
            f"{water_a_bag(unit, float(MOST_WATER_L))} of water, "
            f"not {water_a_bag(unit, float(litres))}: {water_line(unit, 5.0)}.",
            spoken="No bag takes that much water.",
        )


def tell_flow(_job: Job, command: TellFlow, _world: World) -> Decision:
    spread = length_of(command.spread, "A flow")
    if not LEAST_FLOW_M <= metres(spread) <= MOST_FLOW_M:
        raise Refusal(
            f"A flow test spreads 30 to 600 mm, not {wording.as_said(spread)}: "
            "flow 145 millimetres.",
            spoken="No mix spreads like that.",
        )
    return Decision((FlowMeasured(spread),))


DECIDERS: dict[type[Change], Decider] = {SetMixWater: set_mix_water, TellFlow: tell_flow}
