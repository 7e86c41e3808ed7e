"""Which of all that was said still counts, and what an undo or a redo would reach.

Undoing goes back one thing at a time, redoing forward again, until something new is said:
then what was undone stays so. Nothing leaves the record; an undo and a redo are facts in it.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.events.kinds import Event
from assistant.events.talk import ClockFoundBehind, UtteranceBroughtBack, UtteranceTakenBack
from assistant.job.state import Utterance


def in_force(history: Sequence[Utterance]) -> list[Utterance]:
    """
    The utterances that still count, in order.

    Looked at from the last backwards, the newest word on an utterance decides, of those
    that count themselves: what is undone cannot undo anything.
    """
    counts: dict[int, bool] = {}
    counting: list[Utterance] = []
    for utterance in reversed(history):
        if not counts.get(utterance.number, True):
            continue
        counting.append(utterance)
        for event in utterance.events:
            if isinstance(event, UtteranceTakenBack):
                counts.setdefault(event.utterance, False)
            elif isinstance(event, UtteranceBroughtBack):
                counts.setdefault(event.utterance, True)
    return counting[::-1]


def about_the_record(event: Event) -> bool:
    """Whether an event is about what was said before or the clock, not about the floor."""
    return isinstance(event, UtteranceTakenBack | UtteranceBroughtBack | ClockFoundBehind)


def to_undo(history: Sequence[Utterance]) -> list[Utterance]:
    """What an undo can reach, the next first."""
    return [each for each in reversed(in_force(history)) if _tells_something(each)]


def to_redo(history: Sequence[Utterance]) -> list[Utterance]:
    """What was undone since something was said, the next to come back first."""
    said = len(history)
    while said and not _tells_something(history[said - 1]):
        said -= 1
    now = {each.number for each in in_force(history)}
    return [
        each
        for each in in_force(history[:said])
        if _tells_something(each) and each.number not in now
    ]


def _tells_something(utterance: Utterance) -> bool:
    return not all(about_the_record(event) for event in utterance.events)
