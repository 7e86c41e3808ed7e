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
from assistant.reply.mix_water import LITRES_A_QUART, water_line
from assistant.units.lengths import metres
from grammar.commands import Change
from grammar.commands.pour import SetMixWater, TellFlow

MOST_WATER_L = Decimal(30)
"""For one bag; more is a slip. Our own choice, no source."""
LEAST_FLOW_M, MOST_FLOW_M = 0.03, 0.6
"""Of a flow test; less or more is a slip. Our own choice, no source."""


def set_mix_water(job: Job, command: SetMixWater, _world: World) -> Decision:
    """One figure for the whole pour; one that no card at hand allows is none."""
    litres = water_said(command.litres, command.quarts)
    assert litres is not None  # the phrases have one or the other
    check_water(litres)
    cards = cards_of(job)
    if cards and not any(card.water_l[0] <= float(litres) <= card.water_l[1] for card in cards):
        card = cards[0]
        low, high = card.water_l
        over = float(litres) > high
        told = "cracks, pinholes and a white film" if over else "it does not flow"
        raise Refusal(
            f"{wording.figure(litres, 2)} L a bag is {'over' if over else 'under'} the card's "
            f"{wording.liquid(job.reading_unit, low, high, places=2)} ({card_source(card)}): "
            f"{told}. For the whole pour: {water_line(job.reading_unit, card.mean_water_l)}.",
            spoken=f"That is {'over' if over else 'under'} what the card allows.",
        )
    return Decision((MixWaterSet(litres),))


def water_said(litres: Decimal | None, quarts: Decimal | None) -> Decimal | None:
    """The litres of what was said; None where nothing was."""
    if quarts is None:
        return litres
    return (quarts * LITRES_A_QUART).quantize(Decimal("0.0001"))


def check_water(litres: Decimal) -> None:
    """Refuse what no bag takes."""
    if not 0 < litres <= MOST_WATER_L:
        raise Refusal(
            f"A bag takes more than nothing and at most {MOST_WATER_L} litres of water, "
            f"not {wording.figure(litres, 2)}: water 5 litres a bag.",
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
