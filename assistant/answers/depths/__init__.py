"""Answers about depths: at points and places, pins, high and low spots, where to read next."""

from __future__ import annotations

from assistant.answers.depths import at_places, cuts, sureness
from assistant.answers.parts import Answerer
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **at_places.ANSWERS,
    **cuts.ANSWERS,
    **sureness.ANSWERS,
}
