"""Answers about the instrument, its set-ups, ties and checks, and the whole survey."""

from __future__ import annotations

from assistant.answers.parts import Answerer
from assistant.answers.set_ups import holding, instrument, survey_check, ties
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **ties.ANSWERS,
    **instrument.ANSWERS,
    **holding.ANSWERS,
    **survey_check.ANSWERS,
}
