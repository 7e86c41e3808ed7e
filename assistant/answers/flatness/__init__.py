"""Answers about flatness: F-numbers, gaps under a straightedge, and what the floor is held to."""

from __future__ import annotations

from assistant.answers.flatness import numbers, scans, specs
from assistant.answers.parts import Answerer
from grammar.commands import Command

__all__ = ["ANSWERS"]

ANSWERS: dict[type[Command], Answerer] = {**numbers.ANSWERS, **specs.ANSWERS, **scans.ANSWERS}
