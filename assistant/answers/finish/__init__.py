"""Answers about the finished height: set, best for the floor, and what improving it costs."""

from __future__ import annotations

from assistant.answers.finish import best, height, own_limits, trades
from assistant.answers.parts import Answerer
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **height.ANSWERS,
    **own_limits.ANSWERS,
    **best.ANSWERS,
    **trades.ANSWERS,
}
