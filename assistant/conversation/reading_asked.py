"""Lines that look like a reading and may be none: they are offered, as they stand or otherwise."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.conversation.which import did_you_mean
from assistant.decide import resolve
from assistant.errors import Refusal
from assistant.job import Job
from grammar.commands import Command
from grammar.commands.readings import TakeReading
from grammar.commands.site import TakeSlabTemperature
from grammar.commands.walk import TakePoints

if TYPE_CHECKING:
    from assistant.conversation.unlisted import Step

_THE_ZERO_ITSELF = re.compile(r"\b(?:the|my|our|this|that)\ (?:zero|datum|level)\b", re.IGNORECASE)
"""What readings are taken from, and not a height of nothing."""


def offered_reading(text: str, meanings: Sequence[Command], job: Job) -> Step | None:
    """What to offer in place of taking a line at once; None where it plainly is what it seems.

    Nothing is on record before a yes.
    """
    seems = meanings[0]
    if _is_only_asked(text, meanings) or _is_the_zero(text, meanings):
        return _offer(seems)
    if isinstance(seems, TakeSlabTemperature) and _is_frost_for_want_of_a_point(meanings, job):
        return _offer(seems)
    return None


def _offer(command: Command) -> Step:
    # The frames of the language are loaded with the first line that needs them.
    from assistant.conversation.guessing import in_words
    from assistant.conversation.unlisted import Step

    return Step(offer=did_you_mean(command, in_words(command)))


def _is_only_asked(text: str, meanings: Sequence[Command]) -> bool:
    """Whether a line reads like a reading and ends like a question."""
    return text.rstrip().endswith("?") and all(
        isinstance(meaning, (TakeReading, TakePoints)) for meaning in meanings
    )


def _is_the_zero(text: str, meanings: Sequence[Command]) -> bool:
    """Whether the zero is spoken of that would be a height of nothing at the next point."""
    return _THE_ZERO_ITSELF.search(text) is not None and all(
        isinstance(meaning, TakeReading) and meaning.point is None and not meaning.reading.number
        for meaning in meanings
    )


def _is_frost_for_want_of_a_point(meanings: Sequence[Command], job: Job) -> bool:
    """Whether a figure below nought would be the slab's only as no point is there to be read."""
    heights = [meaning for meaning in meanings if isinstance(meaning, TakeReading)]
    if not heights or heights[0].reading.number >= 0:
        return False
    try:
        resolve(job, heights[0])
    except Refusal:
        return True
    return False
