"""Answers about the day of the pour: who mixes, and the plan."""

from __future__ import annotations

from assistant.answers.parts import Answerer
from assistant.answers.pour import crew, plan
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {**crew.ANSWERS, **plan.ANSWERS}
