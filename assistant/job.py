"""The job as it stands: what the events add up to.

Pure: the same events always give the same job, and a job is never changed,
only followed by another. Lengths are exact millimetres; anything worked out
from them is kept beside the job, never inside the record.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

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
    ReadingAccepted,
    ReadingCorrected,
    ReadingScratched,
    ReadingsTaken,
    ReadingTaken,
    ReadingUnitChosen,
    RoomClosed,
    RoomMeasured,
    UtteranceScratched,
    WallMeasured,
    WasteSet,
)
from assistant.guide.state import GUIDE_EVENTS, GuideState
from assistant.guide.state import after_event as guide_after
from assistant.products.cards import Card, card_from_dict
from assistant.site.state import SITE_EVENTS, SiteState
from assistant.site.state import after_event as site_after
from assistant.times import UNTIMED
from assistant.trust.survey_state import (
    SURVEY_EVENTS,
    Height,
    SurveyState,
    after_reading,
    after_scratch,
    median,
)
from assistant.trust.survey_state import accepted as reading_accepted
from assistant.trust.survey_state import after_event as survey_after
from assistant.units import exact_mm
from grammar.commands import Measure

USUAL_WASTE_PERCENT = Decimal(5)
"""Common practice, no source; a default until the installer says otherwise."""

USUAL_RANGE_MM = Fraction(300)
"""Common practice, no source: what a hose or a short staff takes in from its zero."""


@dataclass(frozen=True, slots=True)
class Door:
    """What is known of one door; anything may still be missing."""

    number: int
    left: Height | None = None
    right: Height | None = None
    outside: Height | None = None
    point: str | None = None


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangular room."""

    first: Measure
    second: Measure


@dataclass(frozen=True, slots=True)
class Wall:
    """One wall of a walked outline."""

    direction: str
    length: Measure


@dataclass(frozen=True, slots=True)
class WalkedRoom:
    """An outline by its walls; not a room until it is closed."""

    walls: tuple[Wall, ...]
    closed: bool = False
    straight_wall_added: bool = False
    """True where the gap to the start is a wall of its own, not a misclosure."""


@dataclass(frozen=True, slots=True)
class Place:
    """A point of its own, by its distances from the corner."""

    first: Measure
    second: Measure


@dataclass(frozen=True)
class Layout:
    """Where things lie: the room, the grid over it, and points of their own."""

    room: Rectangle | WalkedRoom | None = None
    grid: GridSet | None = None
    own_points: Mapping[str, Place] = field(default_factory=dict)
    kept: dict[str, Any] = field(init=False, compare=False, repr=False, default_factory=dict)
    """Room for :func:`~assistant.once.once`."""


@dataclass(frozen=True, slots=True)
class Utterance:
    """One line or breath of speech, and what it recorded."""

    number: int
    said: str
    events: tuple[Event, ...]
    time: datetime = UNTIMED
    """When it was recorded."""


@dataclass(frozen=True)
class Job:
    """Everything known of one floor."""

    layout: Layout = field(default_factory=Layout)
    reading_unit: str = "mm"
    """``mm`` or ``in``: what a reading without a unit is in, and lengths are shown in."""
    reach_mm: Fraction = USUAL_RANGE_MM
    """How far from its zero the instrument reads."""
    card: Card | None = None
    waste_percent: Decimal = USUAL_WASTE_PERCENT
    waste_said: bool = False
    """False while the waste is only the usual one."""
    aggregate_percent: Decimal = Decimal(0)
    finish_mm: Fraction = Fraction(0)
    """Height of the finish above the zero."""
    readings: Mapping[str, Height] = field(default_factory=dict)
    """The one reading that counts at each point."""
    last_point: str | None = None
    """Where the installer read last, so where the walk goes on."""
    doors: Mapping[int, Door] = field(default_factory=dict)
    survey: SurveyState = field(default_factory=SurveyState)
    """The instrument, its set-ups and checks, and what the finish must meet."""
    site: SiteState = field(default_factory=SiteState)
    """Air, slab, moisture, and clocks that were started."""
    guide: GuideState = field(default_factory=GuideState)
    """Where the guide stands."""
    history: tuple[Utterance, ...] = field(default=(), compare=False, repr=False)
    """All that was recorded, undone things too. Not part of what the job *is*:
    a thing done and undone leaves an equal job."""
    kept: dict[str, Any] = field(init=False, compare=False, repr=False, default_factory=dict)
    """Room for :func:`~assistant.once.once`."""

    def depth_mm(self, point: str) -> Fraction | None:
        """Pour depth at a point of known height, exactly; minus where it is above the finish."""
        from assistant.floor import depths_of

        return depths_of(self).get(point)


EMPTY = Job()


# --- events -> job ---------------------------------------------------------------


Told = tuple[int, str, Sequence[Event]] | tuple[int, str, Sequence[Event], datetime]
"""Number, words, events and time of an utterance, as the journal gives them."""


def fold(utterances: Iterable[Told]) -> Job:
    """
    The job that a whole record adds up to.

    Parameters
    ----------
    utterances : iterable of (number, said, events, time)
        In the order they were recorded, as the journal gives them; without times all
        of it happened at once.
    """
    return _fold_history(tuple(_utterance(*told) for told in utterances))


def _utterance(
    number: int, said: str, events: Sequence[Event], time: datetime = UNTIMED
) -> Utterance:
    return Utterance(number, said, tuple(events), time)


def record(
    job: Job, number: int, said: str, events: Sequence[Event], time: datetime = UNTIMED
) -> Job:
    """The job after one more utterance; an undo among its events takes effect."""
    history = (*job.history, Utterance(number, said, tuple(events), time))
    if any(isinstance(event, UtteranceScratched) for event in events):
        return _fold_history(history)
    draft = _Draft(job)
    draft.take_all(events, time)
    return draft.finished(history)


def apply(job: Job, event: Event, time: datetime = UNTIMED) -> Job:
    """
    The job after one event, with no utterance added to its history.

    An :class:`UtteranceScratched` takes effect on the history the job has.
    """
    if isinstance(event, UtteranceScratched):
        tried = (*job.history, Utterance(next_number(job), "", (event,)))
        return replace(_fold_history(tried), history=job.history)
    draft = _Draft(job)
    draft.take_all((event,), time)
    return draft.finished(job.history)


def next_number(job: Job) -> int:
    """The number the next utterance would have, were it recorded now."""
    return job.history[-1].number + 1 if job.history else 1


def in_force(history: Sequence[Utterance]) -> list[Utterance]:
    """The utterances that still count, in order.

    Looked at from the last backwards: what is scratched by something that
    counts does not count, and so cannot scratch anything itself.
    """
    scratched: set[int] = set()
    counting: list[Utterance] = []
    for utterance in reversed(history):
        if utterance.number in scratched:
            continue
        counting.append(utterance)
        scratched.update(
            event.utterance for event in utterance.events if isinstance(event, UtteranceScratched)
        )
    return counting[::-1]


def _fold_history(history: tuple[Utterance, ...]) -> Job:
    draft = _Draft(EMPTY)
    for utterance in in_force(history):
        draft.take_all(utterance.events, utterance.time)
    return draft.finished(history)


class _Draft:
    """A job being added up; the one thing here that changes, and it never leaves this module.

    Its dictionaries are copied once for all events, not once for each.
    """

    def __init__(self, job: Job) -> None:
        self.job = job
        self.layout = job.layout
        self.own_points = dict(job.layout.own_points)
        self.points_placed = False
        self.readings = dict(job.readings)
        self.doors = dict(job.doors)
        self.last_point = job.last_point
        self.changes: dict[str, Any] = {}
        self.survey = job.survey
        self.site = job.site
        self.guide = job.guide
        self.time = UNTIMED

    def take_all(self, events: Sequence[Event], time: datetime) -> None:
        self.time = time
        for event in events:
            _TAKEN_BY[type(event)](self, event)

    def finished(self, history: tuple[Utterance, ...]) -> Job:
        layout = self.layout
        if self.points_placed:
            layout = replace(layout, own_points=self.own_points)
        return replace(
            self.job,
            layout=layout,
            readings=self.readings,
            last_point=self.last_point,
            doors=self.doors,
            survey=self.survey,
            site=self.site,
            guide=self.guide,
            history=history,
            **self.changes,
        )

    def door(self, number: int) -> Door:
        return self.doors.get(number) or Door(number)

    def height(self, said: Measure) -> Height:
        """A height read now, from the set-up in force."""
        return self.survey.height(said, self.time)

    def read(self, point: str, said: Measure, *shown: Measure) -> None:
        self.readings[point] = self.height(said)
        mm = self.readings[point].mm
        self.survey = after_reading(self.survey, point, mm, anew=True, shown=shown)
        self.last_point = point


def _room_measured(draft: _Draft, event: RoomMeasured) -> None:
    draft.layout = replace(draft.layout, room=Rectangle(event.first, event.second))


def _wall_measured(draft: _Draft, event: WallMeasured) -> None:
    room = draft.layout.room
    going_on = isinstance(room, WalkedRoom) and not room.closed
    before = room.walls if isinstance(room, WalkedRoom) and going_on else ()
    walls = (*before, Wall(event.direction, event.length))
    draft.layout = replace(draft.layout, room=WalkedRoom(walls))


def _room_closed(draft: _Draft, event: RoomClosed) -> None:
    room = draft.layout.room
    if isinstance(room, WalkedRoom):
        closed = WalkedRoom(room.walls, True, event.straight_wall_added)
        draft.layout = replace(draft.layout, room=closed)


def _grid_set(draft: _Draft, event: GridSet) -> None:
    draft.layout = replace(draft.layout, grid=event)


def _point_placed(draft: _Draft, event: PointPlaced) -> None:
    draft.own_points[event.point] = Place(event.first, event.second)
    draft.points_placed = True


def _reading_unit_chosen(draft: _Draft, event: ReadingUnitChosen) -> None:
    draft.changes["reading_unit"] = event.unit


def _instrument_range_set(draft: _Draft, event: InstrumentRangeSet) -> None:
    draft.changes["reach_mm"] = exact_mm(event.reach)


def _product_chosen(draft: _Draft, event: ProductChosen) -> None:
    draft.changes["card"] = card_from_dict(event.card)


def _waste_set(draft: _Draft, event: WasteSet) -> None:
    draft.changes.update(waste_percent=event.percent, waste_said=True)


def _aggregate_set(draft: _Draft, event: AggregateSet) -> None:
    draft.changes["aggregate_percent"] = event.percent


def _finish_set(draft: _Draft, event: FinishSet) -> None:
    draft.changes["finish_mm"] = exact_mm(event.height)


def _finish_moved(draft: _Draft, event: FinishMoved) -> None:
    before = draft.changes.get("finish_mm", draft.job.finish_mm)
    draft.changes["finish_mm"] = before + exact_mm(event.by)


def _reading_taken(draft: _Draft, event: ReadingTaken) -> None:
    draft.read(event.point, event.reading)


def _readings_taken(draft: _Draft, event: ReadingsTaken) -> None:
    draft.read(event.point, median(event.readings), *event.readings)


def _reading_corrected(draft: _Draft, event: ReadingCorrected) -> None:
    # The installer stays where they were: a correction does not move the walk.
    was = draft.readings.get(event.point) or draft.height(event.reading)
    now = draft.survey.put_right(was, event.reading)
    draft.readings[event.point] = now
    draft.survey = after_reading(draft.survey, event.point, now.mm, anew=False)


def _reading_accepted(draft: _Draft, event: ReadingAccepted) -> None:
    reading = draft.readings.get(event.point)
    if reading is not None:
        draft.survey = reading_accepted(draft.survey, event.point, reading.mm)


def _reading_scratched(draft: _Draft, event: ReadingScratched) -> None:
    draft.readings.pop(event.point, None)
    draft.survey = after_scratch(draft.survey, event.point)


def _door_measured(draft: _Draft, event: DoorMeasured) -> None:
    known = draft.door(event.door)
    outside = known.outside if event.outside is None else draft.height(event.outside)
    draft.doors[event.door] = replace(
        known, left=draft.height(event.left), right=draft.height(event.right), outside=outside
    )


def _outside_measured(draft: _Draft, event: OutsideMeasured) -> None:
    draft.doors[event.door] = replace(draft.door(event.door), outside=draft.height(event.outside))


def _door_placed(draft: _Draft, event: DoorPlaced) -> None:
    draft.doors[event.door] = replace(draft.door(event.door), point=event.point)


def _survey_event(draft: _Draft, event: Event) -> None:
    draft.survey = survey_after(draft.survey, event, draft.time)


def _site_event(draft: _Draft, event: Event) -> None:
    draft.site = site_after(draft.site, event, draft.time)


def _guide_event(draft: _Draft, event: Event) -> None:
    draft.guide = guide_after(draft.guide, event)


def _utterance_scratched(draft: _Draft, event: UtteranceScratched) -> None:
    """Nothing left to do: what it scratches was never taken up."""


_TAKEN_BY: dict[type[Event], Callable[[_Draft, Any], None]] = {
    RoomMeasured: _room_measured,
    WallMeasured: _wall_measured,
    RoomClosed: _room_closed,
    GridSet: _grid_set,
    PointPlaced: _point_placed,
    ReadingUnitChosen: _reading_unit_chosen,
    InstrumentRangeSet: _instrument_range_set,
    ProductChosen: _product_chosen,
    WasteSet: _waste_set,
    AggregateSet: _aggregate_set,
    FinishSet: _finish_set,
    FinishMoved: _finish_moved,
    ReadingTaken: _reading_taken,
    ReadingsTaken: _readings_taken,
    ReadingAccepted: _reading_accepted,
    ReadingCorrected: _reading_corrected,
    ReadingScratched: _reading_scratched,
    DoorMeasured: _door_measured,
    OutsideMeasured: _outside_measured,
    DoorPlaced: _door_placed,
    UtteranceScratched: _utterance_scratched,
    **dict.fromkeys(SURVEY_EVENTS, _survey_event),
    **dict.fromkeys(SITE_EVENTS, _site_event),
    **dict.fromkeys(GUIDE_EVENTS, _guide_event),
}
