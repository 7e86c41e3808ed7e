"""Answers to words about the talk itself: undo and redo, what if, what can be said."""

from __future__ import annotations

from assistant.answers.parts import Answerer
from assistant.answers.talk import alone, phrases, undo, what_if
from grammar.commands import Command

ANSWERS: dict[type[Command], Answerer] = {
    **alone.ANSWERS,
    **undo.ANSWERS,
    **what_if.ANSWERS,
    **phrases.ANSWERS,
}
