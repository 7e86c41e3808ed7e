"""Makes turns of what was said and the reply to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.decide import Question
from assistant.reply.replies import Reply, Turn
from grammar import short_form
from grammar.commands import Command


def made_turn(
    text: str, ok: bool, command: Command | None, reply: Reply, recorded: Sequence[str]
) -> Turn:
    """A turn: one line or utterance, the command it was taken for, and the outcome."""
    return Turn(
        text=text,
        ok=ok,
        command=type(command).__name__ if command else None,
        canonical=short_form(command) if command else None,
        recorded=tuple(recorded),
        reply=reply,
    )


def with_question(turn: Turn, question: Question | None) -> Turn:
    """The turn with the waiting question, which stays in sight whatever was answered."""
    asked = question.text if question else None
    if turn.reply.ask == asked:
        return turn
    return replace(turn, reply=replace(turn.reply, ask=asked))
