"""Remarks on record, and which points they are about."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import field
from datetime import datetime

from assistant.reply.times import UNTIMED
from grammar.frozen import frozen

_LABEL = re.compile(r"(?<![^\W_])([a-z]{1,2}[1-9][0-9]?)(?![^\W_])", re.IGNORECASE)


@frozen
class RecordedNote:
    """A remark as it was said."""

    words: str
    point: str | None = None
    """The point named before it."""
    time: datetime = field(default=UNTIMED, compare=False)

    @property
    def points(self) -> tuple[str, ...]:
        """All points it is about: the one named before it, and those named in it."""
        named = (found.upper() for found in _LABEL.findall(self.words))
        return tuple(dict.fromkeys((*((self.point,) if self.point else ()), *named)))


def notes_by_point(notes: Sequence[RecordedNote]) -> Mapping[str, tuple[RecordedNote, ...]]:
    """The remarks about each point, in the order they were made."""
    found: dict[str, tuple[RecordedNote, ...]] = {}
    for note in notes:
        for point in note.points:
            found[point] = (*found.get(point, ()), note)
    return found
