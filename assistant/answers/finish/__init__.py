"""Answers about the finished height: set, best for the floor, and what improving it costs."""

from __future__ import annotations

from assistant.answers.finish import all_over, best, height, own_limits, trades
from assistant.answers.parts import Answerer
from grammar.commands import Command
from grammar.commands.finish import AskBestFinish, AskBestPlane, AskGrindingOptions, AskLifts

_OF_ONE_FINISH = (AskBestFinish, AskBestPlane, AskGrindingOptions, AskLifts)
_ALL: dict[type[Command], Answerer] = {
    **height.ANSWERS,
    **own_limits.ANSWERS,
    **best.ANSWERS,
    **trades.ANSWERS,
}
ANSWERS: dict[type[Command], Answerer] = {
    **_ALL,
    **{kind: all_over.told_all_over(_ALL[kind]) for kind in _OF_ONE_FINISH},
}
