"""Answers to an undo: what no longer counts, or counts again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from assistant import wording
from assistant.answers import best, guide, site, trust
from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.events import (
    AggregateSet,
    DoorMeasured,
    DoorPlaced,
    Event,
    FinishMoved,
    FinishSet,
    GridSet,
    InstrumentRangeSet,
    OutsideMeasured,
    PointPlaced,
    ProductChosen,
    ReadingCorrected,
    ReadingScratched,
    ReadingTaken,
    ReadingUnitChosen,
    RoomClosed,
    RoomMeasured,
    UtteranceScratched,
    WallMeasured,
    WasteSet,
)
from assistant.job import Utterance
from assistant.replies import Reply
from assistant.trust.survey_state import Height
from grammar.commands import Command, ScratchThat

MOST_READINGS = 3
"""Told one by one; an undone grid or unit changes none, an undone reading one."""


def that_scratched(moment: Moment, _command: ScratchThat) -> Reply:
    """To read, in the words it was said in; to say, without the signs that may be typed."""
    utterance, back = _undone(moment)
    what = "Brought back" if back else "Scratched"
    said = " / ".join(utterance.said.splitlines()) or _spoken(utterance)
    reply = Reply(
        f"{what}: {said}.",
        f"{what}: {_spoken(utterance)}.",
        tuple(_readings_changed(moment)),
        data={"undone": {"said": utterance.said, "brought_back": back}},
    )
    return with_matters(moment, reply)


def _undone(moment: Moment) -> tuple[Utterance, bool]:
    """The utterance at the end of a chain of undos, and whether it counts again."""
    by_number = {utterance.number: utterance for utterance in moment.before.history}
    number, back = _scratches(moment.events), True
    utterance = None
    while number is not None:
        utterance, back = by_number[number], not back
        number = _scratches(utterance.events)
    assert utterance is not None  # an undo always scratches something
    return utterance, back


def _scratches(events: Any) -> int | None:
    return next((e.utterance for e in events if isinstance(e, UtteranceScratched)), None)


def _readings_changed(moment: Moment) -> list[str]:
    """The readings that an undo changed, a few of them."""
    before, after = moment.before.readings, moment.after.readings
    changed = [p for p in {**before, **after} if before.get(p) != after.get(p)]
    return [_reading_now(point, after.get(point)) for point in changed[:MOST_READINGS]]


def _reading_now(point: str, reading: Height | None) -> str:
    if reading is None:
        return f"{point} has no reading now."
    return f"{point} is {wording.said_height(reading.said)} again."


def _spoken(utterance: Utterance) -> str:
    """What an utterance recorded, in few words; its first event says enough."""
    event = utterance.events[0]
    return _IN_WORDS[type(event)](event)


def _point_read(event: ReadingTaken | ReadingCorrected) -> str:
    return f"{wording.spoken_name(event.point)}, {wording.spoken_height(event.reading)}"


def _finish_moved(event: FinishMoved) -> str:
    way = "down" if event.by.number < 0 else "up"
    return f"finish {way} {wording.spoken_said(event.by)}"


def _door(event: DoorMeasured | OutsideMeasured | DoorPlaced) -> str:
    return f"door {wording.spoken_number(event.door)}"


_IN_WORDS: dict[type[Event], Callable[[Any], str]] = {
    RoomMeasured: lambda _event: "the room",
    WallMeasured: lambda event: f"the wall {event.direction}",
    RoomClosed: lambda _event: "closing the room",
    GridSet: lambda _event: "the grid",
    PointPlaced: lambda event: f"the place of {wording.spoken_name(event.point)}",
    ReadingUnitChosen: lambda _event: "the reading unit",
    InstrumentRangeSet: lambda _event: "the instrument's range",
    ProductChosen: lambda event: f"product {event.card.get('name', '')}".strip(),
    WasteSet: lambda _event: "the waste",
    AggregateSet: lambda _event: "the aggregate",
    FinishSet: lambda event: f"finish {wording.spoken_height(event.height)}",
    FinishMoved: _finish_moved,
    ReadingTaken: _point_read,
    ReadingCorrected: _point_read,
    ReadingScratched: lambda event: f"scratching {wording.spoken_name(event.point)}",
    DoorMeasured: _door,
    OutsideMeasured: _door,
    DoorPlaced: _door,
    **trust.IN_WORDS,
    **best.IN_WORDS,
    **site.IN_WORDS,
    **guide.IN_WORDS,
}
"""An undo is no row of it: what an undo undoes is told instead."""


ANSWERS: dict[type[Command], Answerer] = {ScratchThat: that_scratched}
