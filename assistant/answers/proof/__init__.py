"""Answers about what proves a floor: its second survey, lines, gaps and defects."""

from __future__ import annotations

from assistant.answers.parts import Answerer
from assistant.answers.proof import findings, lines, poured, profile, punch
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **lines.ANSWERS,
    **findings.ANSWERS,
    **poured.ANSWERS,
    **punch.ANSWERS,
    **profile.ANSWERS,
}
