"""Lines that nobody sees the answers of before the next one: played from a file, or pasted.

Where a reading among them is refused, the bare values after it would each go one point too early.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from assistant.conversation.question import is_bare
from assistant.conversation.saying import whose_value
from assistant.decide import Question
from assistant.reply.replies import Reply, Turn
from grammar import Misunderstood, short_form, understand
from grammar.commands import Answer, Change, Command
from grammar.commands.kinds import OPEN_FLOOR
from grammar.commands.readings import SetReadingUnit
from grammar.commands.room import AddPoint, AddWall, CloseRoom, SetGrid, SetRoom
from grammar.commands.things import AddObstacle
from grammar.commands.walk import GoToNextLine, SkipPoint, WalkAlong
from grammar.figures import numbers_in

_FIGURE = re.compile(r"\d")
_WORD = re.compile(r"[a-z]+")
_OF_THE_WALK = frozenset(
    "along next skip go from row column minus plus level same ditto room grid wall readings".split()
)
"""A line that begins with one of these, and is in no phrase, may have said where the walk goes."""
_LAYS_OUT = (
    SetRoom, AddWall, CloseRoom, SetGrid, AddPoint, AddObstacle, SetReadingUnit, WalkAlong,
    GoToNextLine,
)  # fmt: skip
"""What the points of the walk hang on, or the unit of its values."""


class TypedAhead:
    """The line that left a point open, while nobody could see that it did."""

    def __init__(self) -> None:
        self.on = False
        """Whether lines come without anybody seeing what came of the one before."""
        self._refused = ""
        self._is_offered = False
        """Whether that line was only offered, so that a yes or no shows that it was seen."""

    def whose_value(
        self, meanings: Sequence[Command], line: int | None = None, asked: Question | None = None
    ) -> Reply | None:
        """
        What is said to a line that goes by the walk: for the point left open, or for the next?

        While a line is read it may be for the place on it that was left open. Where a question
        waits (`asked`), a value may be its answer, and is not looked at here.
        """
        if not (self.on and meanings and all(map(_goes_by_the_walk, meanings))):
            return None
        if asked is not None:
            is_value = asked.takes_a_value and all(map(is_bare, meanings))
            return None if is_value else _while_it_waits(asked)
        if not self._refused:
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
        """Keep in mind a line not taken that may have been a reading, until a point is named."""
        if not self.on or (self._is_offered and _answers(text)):
            self._refused, self._is_offered = "", False
        elif turn.recorded:
            if self._refused and _names_a_point(text):
                self._refused, self._is_offered = "", False
        elif not self._refused:
            offered = str(turn.reply.data.get("offered", "")) if turn.ok else ""
            settles = any(map(_settles_where, _meanings(offered or text)))
            if settles if offered else not turn.ok and (settles or _may_be_a_reading(text)):
                self._refused, self._is_offered = text.strip(), bool(offered)


def _while_it_waits(asked: Question) -> Reply:
    """A line that goes by the walk, while a question waits that was typed past."""
    if asked.takes_a_value:
        return whose_value(asked)
    about = short_form(asked.command)
    return Reply(
        f"Which point is that for? “{about}” is still open, so nothing was recorded. Say the point "
        "with its value; or confirm, or cancel that.",
        "Which point? A question is still open. Say the point with its value.",
        data={"open": about},
    )


def _goes_by_the_walk(command: Command) -> bool:
    """Whether it is of the point that is next, whichever that is."""
    if isinstance(command, SkipPoint):
        return command.point is None
    return is_bare(command) or isinstance(command, GoToNextLine)


def _answers(text: str) -> bool:
    return any(isinstance(command, Answer) for command in _meanings(text))


def _names_a_point(text: str) -> bool:
    """Whether a line names the point or place it is about."""
    meanings = _meanings(text)
    return bool(meanings) and all(
        _is_on_the_floor(command) and not is_bare(command) for command in meanings
    )


def _may_be_a_reading(text: str) -> bool:
    """Whether a line that no phrase takes may have been one: nobody knows what it was."""
    if _meanings(text):
        return False
    words = _WORD.findall(text.lower())
    if _FIGURE.search(text) or numbers_in(words):
        return True
    return len(words) == 1 or not _OF_THE_WALK.isdisjoint(words[:1])


def _settles_where(command: Command) -> bool:
    """Whether it says what the next value is of: its point, the points there are, or its unit."""
    return _is_on_the_floor(command) or isinstance(command, _LAYS_OUT)


def _is_on_the_floor(command: Command) -> bool:
    return isinstance(command, Change) and command.SPEAKS_OF == OPEN_FLOOR


def _meanings(text: str) -> Sequence[Command]:
    try:
        return understand(text)
    except Misunderstood:
        return ()
