"""Answers about the day of the pour: who mixes, the plan, and what goes on while it is poured."""

from __future__ import annotations

from assistant.answers.parts import Answerer
from assistant.answers.pour import crew, mixing, plan, pouring, short, staging, starting
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **crew.ANSWERS,
    **plan.ANSWERS,
    **staging.ANSWERS,
    **starting.ANSWERS,
    **mixing.ANSWERS,
    **pouring.ANSWERS,
    **short.ANSWERS,
}
