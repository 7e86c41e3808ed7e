"""Answers about parts of the floor with a name, and about a pour that stops on the way."""

from __future__ import annotations

from assistant.answers.parts import Answerer
from assistant.answers.zones import named, stop
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {**named.ANSWERS, **stop.ANSWERS}
