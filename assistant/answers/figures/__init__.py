"""Answers that are one number, said first and alone."""

from __future__ import annotations

from assistant.answers.figures import bags, between, single
from assistant.answers.parts import Answerer
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {**single.ANSWERS, **between.ANSWERS, **bags.ANSWERS}
