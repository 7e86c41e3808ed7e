"""Answers about the site: conditions, clocks, and whether anything stands against pouring."""

from __future__ import annotations

from assistant.answers.parts import Answerer
from assistant.answers.site import clocks, conditions, ready, water
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **conditions.ANSWERS,
    **water.ANSWERS,
    **ready.ANSWERS,
    **clocks.ANSWERS,
}
