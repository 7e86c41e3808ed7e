"""What a page that talks shows, as JSON types; every text with nothing in it that is not seen."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.conversation.shared import Standing, Told
from assistant.reply.replies import Turn
from assistant.reply.visible import visible
from assistant.terminal.screen import reply_lines

COLUMNS = 40
"""Of an answer: as many as stand beside each other at 390 px in a size to be read at arm's
length."""


def told_shown(told: Told) -> dict[str, Any]:
    """A turn, and who it was with."""
    return {"who": told.who, "line": told.line, **turn_shown(told.turn)}


def answer_shown(turn: Turn, standing: Standing, name: str, device: str) -> dict[str, Any]:
    """The answer to a line, and how the talk stands now."""
    return {**turn_shown(turn), "stands": standing_shown(standing, name, device)}


def turn_shown(turn: Turn) -> dict[str, Any]:
    """The words said, the answer line by line, and how it is said aloud."""
    reply = turn.reply
    return {
        "said": visible(turn.text),
        "ok": turn.ok,
        # The question that waits stands apart on the page.
        "lines": [str(line) for line in reply_lines(replace(reply, ask=None), COLUMNS)],
        "say": visible(reply.say),
        "stops": reply.stops,
    }


def standing_shown(standing: Standing, name: str, device: str) -> dict[str, Any]:
    """How the talk stands, for one device."""
    return {
        "number": standing.number,
        "mark": standing.mark,
        "job": visible(name),
        "you": device,
        "question": None if standing.question is None else visible(standing.question),
        "answers": list(standing.answers),
        "next": standing.next_point,
        "read": standing.read,
        "points": standing.points,
    }
