"""What cannot be meant while a floor is poured: it would be refused."""

from __future__ import annotations

from assistant.decide.parts import World
from assistant.decide.pour import DECIDERS
from assistant.errors import Refusal
from assistant.floor.zones import cards_of
from assistant.job import Job, is_poured
from assistant.reply.mix_water import litres_said
from grammar.commands import Command
from grammar.commands.pour import PourBatch


def out_of_turn(job: Job, command: Command, world: World) -> bool:
    """
    Whether a job whose pour has begun would refuse a command of the pour.

    "Start pour" is no longer meant then, nor a strip that the plan has not, nor 9.2 litres for 5.2;
    ears that waver between two words may go by it. Of other commands, and before and after the
    pour, nothing is said.
    """
    decider = DECIDERS.get(type(command))  # type: ignore[arg-type]  # what is asked has none
    if decider is None or job.pour.started is None or is_poured(job):
        return False
    if isinstance(command, PourBatch) and _is_no_water(job, command):
        return True
    try:
        decider(job, command, world)
    except Refusal:
        return True
    return False


FAR_OFF_WATER = 1.5
"""Times the most, or a part of the least, of what a card allows: no batch has so much or so little.
Our own choice, no source."""


def _is_no_water(job: Job, command: PourBatch) -> bool:
    litres = litres_said(command.water, command.quarts, command.gallons)
    cards = cards_of(job)
    if litres is None or not cards:
        return False
    least, most = min(card.water_l[0] for card in cards), max(card.water_l[1] for card in cards)
    return not least / FAR_OFF_WATER <= float(litres) <= most * FAR_OFF_WATER
