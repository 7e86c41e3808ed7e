"""Lines that nobody sees the answers of before the next one: played from a file, or pasted.

Where a reading among them is refused, the bare values after it would each go one point too early.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.conversation.question import is_bare
from assistant.reply.replies import Reply, Turn
from grammar import Misunderstood, understand
from grammar.commands import Change, Command
from grammar.commands.kinds import OPEN_FLOOR
from grammar.figures import numbers_in

_FIGURE = re.compile(r"\d")
_WORD = re.compile(r"[a-z]+")


class TypedAhead:
    """The line that left a point open, while nobody could see that it did."""

    def __init__(self) -> None:
        self.on = False
        """Whether lines come without anybody seeing what came of the one before."""
        self._refused = ""

    def whose_value(self, meanings: Sequence[Command], line: int | None = None) -> Reply | None:
        """
        What is said to a bare value that may be for the point left open, or for the next.

        While a line is read it may be for the place on it that was left open.
        """
        if not (self.on and self._refused and meanings and all(map(is_bare, meanings))):
            return None
        if line is not None:
            return Reply(
                f"Where on line {line} is that? “{self._refused}” before it was not taken, so "
                f"nothing was recorded. On from the last value: line {line} values, then all of "
                "them.",
                "Which value is that? A line before it was not taken.",
                data={"after": self._refused},
            )
        return Reply(
            f"Which point is that for? “{self._refused}” before it was not taken, so nothing was "
            "recorded. Say the point with its value.",
            "Which point? A line before it was not taken. Say the point with its value.",
            data={"after": self._refused},
        )

    def took(self, text: str, turn: Turn) -> None:
        """Keep in mind a refused line that may have been a reading, until a point is named."""
        if not self.on:
            self._refused = ""
        elif turn.ok:
            if turn.recorded and self._refused and _names_a_point(text):
                self._refused = ""
        elif not self._refused and _may_be_a_reading(text):
            self._refused = text.strip()


def _names_a_point(text: str) -> bool:
    """Whether a line names the point or place it is about."""
    meanings = _meanings(text)
    return bool(meanings) and all(
        _is_on_the_floor(command) and not is_bare(command) for command in meanings
    )


def _may_be_a_reading(text: str) -> bool:
    if not (_FIGURE.search(text) or numbers_in(_WORD.findall(text.lower()))):
        return False
    meanings = _meanings(text)
    # Of a line that no phrase takes nobody knows what it was.
    return not meanings or any(map(_is_on_the_floor, meanings))


def _is_on_the_floor(command: Command) -> bool:
    return isinstance(command, Change) and command.SPEAKS_OF == OPEN_FLOOR


def _meanings(text: str) -> Sequence[Command]:
    try:
        return understand(text)
    except Misunderstood:
        return ()
