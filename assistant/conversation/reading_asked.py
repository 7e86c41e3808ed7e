"""A reading with a question mark: is it one, or does somebody ask?"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.conversation.guessing import in_words
from assistant.conversation.unlisted import Step
from assistant.conversation.which import did_you_mean
from grammar.commands import Command
from grammar.commands.readings import TakeReading
from grammar.commands.walk import TakePoints


def is_only_asked(text: str, meanings: Sequence[Command]) -> bool:
    """Whether a line reads like a reading and ends like a question."""
    return text.rstrip().endswith("?") and all(
        isinstance(meaning, (TakeReading, TakePoints)) for meaning in meanings
    )


def offered_reading(meanings: Sequence[Command]) -> Step:
    """Offer it; nothing is on record before a yes."""
    return Step(offer=did_you_mean(meanings[0], in_words(meanings[0])))
