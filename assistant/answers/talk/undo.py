"""Answers to undo and redo: what no longer counts, or counts again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.events.readings import (
    FinishedFloorBegun,
)
from assistant.events.talk import UtteranceBroughtBack, UtteranceTakenBack
from assistant.job import Utterance, being_read, is_poured_over, to_redo
from assistant.job.set_ups import Height
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.talk import BringBack, TakeBack

MOST_READINGS = 3
"""Most changed readings listed; undoing a grid or unit changes none, a reading one."""
MOST_SAID = 4
"""Most utterances described where several are undone at once."""


def taken_back(moment: Moment, _command: TakeBack) -> Reply:
    turned = _turned(moment, UtteranceTakenBack)
    reply = _told(moment, turned, "Undone", f"back to before {_spoken(turned[-1])}")
    if not to_redo(moment.before.history):
        # Said once in a row of undos, not at every step.
        reply = replace(
            reply,
            details=(*reply.details, f"Redo brings {'it' if len(turned) == 1 else 'them'} back."),
        )
    return with_matters(moment, reply)


def brought_back(moment: Moment, _command: BringBack) -> Reply:
    turned = _turned(moment, UtteranceBroughtBack)
    reply = _told(moment, turned, "Brought back", f"up to {_spoken(turned[-1])}")
    return with_matters(moment, reply)


def _told(moment: Moment, turned: Sequence[Utterance], what: str, how_far: str) -> Reply:
    """An utterance in its own words to read, and without typed signs to say."""
    said = [_in_its_words(each) for each in turned]
    data = {"undone": {
        "said": turned[-1].said, "brought_back": what == "Brought back",
        "all": [each.said for each in turned],
    }}  # fmt: skip
    if len(turned) == 1:
        headline, spoken = f"{what}: {said[0]}.", f"{what}: {_spoken(turned[0])}."
    else:
        more = [f"{len(said) - MOST_SAID} more"] if len(said) > MOST_SAID else []
        headline = f"{what} {len(turned)}: {'; '.join([*said[:MOST_SAID], *more])}."
        spoken = f"{what} {wording.spoken_number(len(turned))}, {how_far}."
    return Reply(headline, spoken, tuple(_readings_changed(moment)), data=data)


def _turned(
    moment: Moment, kind: type[UtteranceTakenBack] | type[UtteranceBroughtBack]
) -> list[Utterance]:
    """The utterances that were undone or redone, in order."""
    by_number = {utterance.number: utterance for utterance in moment.before.history}
    return [by_number[event.utterance] for event in moment.events if isinstance(event, kind)]


def _in_its_words(utterance: Utterance) -> str:
    return " / ".join(utterance.said.splitlines()) or _spoken(utterance)


def _readings_changed(moment: Moment) -> list[str]:
    """A few of the readings that an undo changed."""
    if is_poured_over(moment.before) != is_poured_over(moment.after):
        now = "finished floor" if is_poured_over(moment.after) else "slab"
        return [f"What is read from now on is of the {now}."]
    before, after = (being_read(job).readings for job in (moment.before, moment.after))
    changed = [p for p in {**before, **after} if before.get(p) != after.get(p)]
    return [_reading_now(point, after.get(point)) for point in changed[:MOST_READINGS]]


def _reading_now(point: str, reading: Height | None) -> str:
    if reading is None:
        return f"{point} has no reading now."
    return f"{point} is {wording.said_height(reading.said)} again."


def _spoken(utterance: Utterance) -> str:
    """What an utterance recorded, in few words, by its first event."""
    events = utterance.events
    event = events[1] if isinstance(events[0], FinishedFloorBegun) and events[1:] else events[0]
    return event.in_words()


ANSWERS: dict[type[Command], Answerer] = {TakeBack: taken_back, BringBack: brought_back}
