"""Answers about the whole job: the tally, what is missing, its warnings, and the map."""

from __future__ import annotations

from assistant.answers.overview import drawn_map, matters, missing, tally
from assistant.answers.parts import Answerer
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **tally.ANSWERS,
    **missing.ANSWERS,
    **matters.ANSWERS,
    **drawn_map.ANSWERS,
}
