"""Examples of what could be said, in the units that a job is kept in.

They are written in metric; a job in inches shows them in feet and inches, as examples should
work as they are shown.
"""

from __future__ import annotations

import re
from dataclasses import replace

from assistant.reply.replies import Reply

IN_FEET_AND_INCHES = {
    "12 by 8 metres": "40 by 26 feet",
    "3.2 by 4.5 metres": "10 by 15 feet",
    "grid 2 metres": "grid 6 feet",
    "Pins stand metres apart": "Pins stand feet apart",
    "wall east 4.2 metres": "wall east 14 feet",
    "wall north 3 metres": "wall north 10 feet",
    "starting 0.5 metres": "starting 2 feet",
    "rising 0.5 metres": "rising 2 feet",
    "at 25 degrees and rest at 20 degrees": "at 77 degrees and rest at 68 degrees",
    "40 millimetres above zero": "1 1/2 inches above zero",
    "finish 4 millimetres above zero": "finish 1/8 inch above zero",
    "raise finish 3 mm": "raise finish 1/8 inch",
    "1000 m at most": "3280 ft at most",
    "say metres, feet, or another one": "say feet, inches, or another one",
    "left minus 4 right minus 9": "left minus 1/8 right minus 3/8",
    "minus 18, or 18 below": "minus 3/4, or 3/4 below",
    "B3 minus 18": "B3 minus 3/4",
    "to minus 16": "to minus 5/8",
    "benchmark 1 minus 3": "benchmark 1 minus 1/8",
    "outside plus 2": "outside plus 1/8",
}
"""A piece of an example -> the same where readings are in inches."""
_PIECES = re.compile("|".join(rf"\b{re.escape(piece)}\b" for piece in IN_FEET_AND_INCHES))

_THEIR_OWN = re.compile(r"(“[^”]*”|Nearest: .*)")
"""Quoted words of the user, or a line near to them, which are not converted."""


def in_the_units_of(unit: str, text: str) -> str:
    """
    A text with its examples in the units of a job.

    >>> in_the_units_of("in", "The room first: room 12 by 8 metres.")
    'The room first: room 40 by 26 feet.'
    >>> in_the_units_of("mm", "The room first: room 12 by 8 metres.")
    'The room first: room 12 by 8 metres.'
    """
    if unit != "in":
        return text
    return "".join(
        part if _THEIR_OWN.fullmatch(part) else _PIECES.sub(_same_in_inches, part)
        for part in _THEIR_OWN.split(text)
    )


def _same_in_inches(found: re.Match[str]) -> str:
    return IN_FEET_AND_INCHES[found.group()]


def with_examples_in(unit: str, reply: Reply) -> Reply:
    """A reply that could not do what was asked, with its examples in the units of a job."""
    if unit != "in":
        return reply
    return replace(
        reply,
        headline=in_the_units_of(unit, reply.headline),
        spoken=in_the_units_of(unit, reply.spoken),
        details=tuple(in_the_units_of(unit, line) for line in reply.details),
    )
