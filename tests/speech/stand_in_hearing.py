"""What was heard, as if a recogniser had heard it, and what came of it."""

from __future__ import annotations

from fractions import Fraction

from assistant.conversation.conversation import Conversation
from assistant.ears.hearing import Alternative, Heard, Tier
from assistant.listening.listening import Taken
from grammar import short_form, understand

FIFTEEN = "bravo three minus fifteen millimetres"
FIFTY = "bravo three minus fifty millimetres"


def heard(
    *words: str, tier: Tier = "ask", chances: tuple[float, ...] = (), **more: object
) -> Heard:
    """As if these had been heard, the likeliest first."""
    chances = chances or tuple([0.6, 0.3, 0.1][: len(words)])
    others = tuple(
        Alternative(said, command, short_form(command), chance, -float(place))
        for place, (said, chance) in enumerate(zip(words, chances, strict=True))
        for command in understand(said)[:1]
    )
    return Heard(words[0], others, tier, others[0].command, **more)  # type: ignore[arg-type]


def readings(talk: Conversation) -> dict[str, Fraction]:
    return {point: reading.mm for point, reading in talk.job.readings.items()}


def said(taken: Taken) -> str:
    assert taken.turn is not None
    return taken.turn.reply.say
