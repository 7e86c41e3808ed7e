"""What was said of the instrument and its set-ups; part of the job, built up from the events.

What it comes to, the heights of the points, is worked out in ``survey.py``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from datetime import datetime
from fractions import Fraction
from typing import TypeVar

from assistant.events.finish import FallSet, HeightFixed, PointGround
from assistant.events.kinds import Event
from assistant.events.readings import StepMarked
from assistant.events.set_ups import (
    BenchmarkChecked,
    BenchmarkPlaced,
    BenchmarkTied,
    InstrumentOffsetSet,
    InstrumentRepeatabilitySet,
    InstrumentResolutionSet,
    PointTied,
    ReferenceMoved,
    SetUpStarted,
    ZeroChecked,
)
from assistant.reply.times import UNTIMED
from assistant.units.lengths import exact_mm
from grammar.commands import Measure
from grammar.frozen import frozen

_Value = TypeVar("_Value")

USUAL_RESOLUTION_MM = Fraction(1)
USUAL_REPEATABILITY_MM = Fraction(1)
"""An instrument that shows whole millimetres and finds a height again within one or two.
Common practice, no source; settings until the installer says otherwise."""


@frozen
class Height:
    """A height against the zero of a set-up, as said and exactly; minus below, plus above."""

    said: Measure
    mm: Fraction
    set_up: int = 0
    """The set-up it was read from, counted from 0."""
    order: int = field(default=0, compare=False)
    """Which of all heights it was, in the order they were read."""
    time: datetime = field(default=UNTIMED, compare=False)


@frozen
class SetUp:
    """One standing of the instrument, with its own zero."""

    order: int = field(default=0, compare=False)
    """Heights from this one on were read from it."""
    time: datetime | None = field(default=None, compare=False)
    """When it began; None for the first one, which began with its first reading."""
    after_move: bool = False
    """Begun because the reference of the one before had moved."""


@frozen
class KnownMark:
    """A reading of something known: a tie, or a check."""

    on: str | int | None
    """A point, a benchmark's number, or None for the zero itself."""
    height: Height
    check: bool
    """Whether it is a check that the zero still stands, and not a tie."""


@frozen
class SurveyState:
    """The instrument, its set-ups, and what was asked of the finish."""

    set_ups: tuple[SetUp, ...] = (SetUp(),)
    marks: tuple[KnownMark, ...] = ()
    benchmarks: Mapping[int, Height] = field(default_factory=dict)
    """Heights above the zero of the first set-up, the datum."""
    resolution_mm: Fraction = USUAL_RESOLUTION_MM
    repeatability_mm: Fraction = USUAL_REPEATABILITY_MM
    offset_mm: Fraction = Fraction(0)
    """What the instrument shows at its zero."""
    steps: tuple[tuple[str, str], ...] = ()
    """Columns, rows or points between which the floor really steps."""
    accepted: Mapping[str, Fraction] = field(default_factory=dict)
    """Readings that were asked about and kept, exact millimetres as read."""
    shown: Mapping[str, tuple[Measure, ...]] = field(default_factory=dict)
    """All values of a display that jumped."""
    fixed: Mapping[str, Height] = field(default_factory=dict)
    """Heights that the finish must meet, against the datum."""
    fall: FallSet | None = None
    ground: Mapping[str, Fraction] = field(default_factory=dict)
    """Millimetres to be ground off."""
    superseded: Mapping[str, tuple[Height, ...]] = field(default_factory=dict)
    """Readings at a point that a later one stands in place of; not what was put right or
    struck."""
    borne_out: Mapping[str, int] = field(default_factory=dict)
    """Readings that were in doubt and that others read again bore out, by their order."""
    heights_taken: int = field(default=0, compare=False)
    """How many heights were read so far."""

    @property
    def set_up(self) -> int:
        """The set-up in force, counted from 0."""
        return len(self.set_ups) - 1

    def height(self, said: Measure, time: datetime) -> Height:
        """A height read now, from the set-up in force."""
        return Height(said, exact_mm(said), self.set_up, self.heights_taken, time)

    def put_right(self, was: Height, said: Measure) -> Height:
        """Another value for a height read before: still of that set-up, and of that time."""
        return replace(was, said=said, mm=exact_mm(said))

    def counted(self) -> SurveyState:
        """The same once one more height has been read."""
        return replace(self, heights_taken=self.heights_taken + 1)


def after_reading(
    state: SurveyState,
    point: str,
    mm: Fraction | None,
    *,
    anew: bool,
    shown: tuple[Measure, ...] = (),
) -> SurveyState:
    """
    The state once a point has a new reading, or none any more.

    What was said of the reading before (accepted, jumping) goes with it; accepted stays what
    is read once more the same. Grinding goes as well where the floor was read anew; a reading
    put right is still that of the floor as it was.
    """
    if point in state.accepted and state.accepted[point] != mm:
        state = replace(state, accepted=without_point(state.accepted, point))
    if shown or point in state.shown:
        state = replace(state, shown=without_point(state.shown, point))
    if shown:
        state = replace(state, shown={**state.shown, point: shown})
    if anew and point in state.ground:
        state = replace(state, ground=without_point(state.ground, point))
    return state.counted()


def after_strike(state: SurveyState, point: str) -> SurveyState:
    """The state once a point has no reading any more."""
    before = state.heights_taken
    return replace(after_reading(state, point, None, anew=True), heights_taken=before)


def after_mending(state: SurveyState, point: str) -> SurveyState:
    """The state once a point was ground or filled: what was read there before is of no use."""
    return replace(after_strike(state, point), superseded=without_point(state.superseded, point))


def with_superseded(state: SurveyState, point: str, before: Height) -> SurveyState:
    """The state once a reading of a point is only what was read there before."""
    kept = (*state.superseded.get(point, ()), before)
    return replace(state, superseded={**state.superseded, point: kept})


def after_acceptance(state: SurveyState, point: str, mm: Fraction) -> SurveyState:
    """The state once a reading that was asked about has been kept."""
    return replace(state, accepted={**state.accepted, point: mm})


def after_pour(state: SurveyState) -> SurveyState:
    """
    What of the slab's survey holds for the floor poured over it.

    The instrument, its set-ups and marks that nothing is poured over, and what the finish
    must meet. What was tied, doubted, stepped or to be ground was the slab, which is covered.
    """
    return replace(
        state,
        marks=tuple(mark for mark in state.marks if not isinstance(mark.on, str)),
        steps=(),
        accepted={},
        shown={},
        ground={},
        superseded={},
        borne_out={},
    )


def with_instrument_of(state: SurveyState, other: SurveyState) -> SurveyState:
    """
    One survey with the instrument as the other one left it.

    Where a pour that stood still goes on, whoever read the floor stands where they stood: its
    set-ups, benchmarks and what was tied and checked on them hold for both. What was tied on a
    point of either floor stays with that floor.
    """
    own = tuple(mark for mark in state.marks if isinstance(mark.on, str))
    shared = tuple(mark for mark in other.marks if not isinstance(mark.on, str))
    return replace(
        state,
        set_ups=other.set_ups,
        marks=(*own, *shared),
        benchmarks=other.benchmarks,
        resolution_mm=other.resolution_mm,
        repeatability_mm=other.repeatability_mm,
        offset_mm=other.offset_mm,
        heights_taken=other.heights_taken,
    )


def without_point(kept: Mapping[str, _Value], point: str) -> dict[str, _Value]:
    """What is kept of all other points."""
    return {name: value for name, value in kept.items() if name != point}


def after_event(state: SurveyState, event: Event, time: datetime) -> SurveyState:
    """The state after one of its events, which happened at that time."""
    match event:
        case SetUpStarted():
            return _new_set_up(state, time, after_move=False)
        case ReferenceMoved():
            return _new_set_up(state, time, after_move=True)
        case BenchmarkPlaced():
            height = Height(event.height, exact_mm(event.height))
            return replace(state, benchmarks={**state.benchmarks, event.benchmark: height})
        case BenchmarkTied():
            return _marked(state, event.benchmark, event.reading, time, check=False)
        case PointTied():
            return _marked(state, event.point, event.reading, time, check=False)
        case ZeroChecked():
            return _marked(state, None, event.reading, time, check=True)
        case BenchmarkChecked():
            return _marked(state, event.benchmark, event.reading, time, check=True)
        case _:
            return _setting(state, event)


def _setting(state: SurveyState, event: Event) -> SurveyState:
    match event:
        case InstrumentResolutionSet():
            return replace(state, resolution_mm=exact_mm(event.step))
        case InstrumentRepeatabilitySet():
            return replace(state, repeatability_mm=exact_mm(event.spread))
        case InstrumentOffsetSet():
            return replace(state, offset_mm=exact_mm(event.offset))
        case StepMarked():
            step = (event.first, event.second)
            kept = tuple(one for one in state.steps if set(one) != set(step))
            return replace(state, steps=(*kept, step))
        case HeightFixed():
            return with_fixed_height(state, event.point, event.height)
        case FallSet():
            return replace(state, fall=event if event.percent else None)
        case _:
            assert isinstance(event, PointGround)
            return replace(state, ground={**state.ground, event.point: exact_mm(event.by)})


def with_fixed_height(state: SurveyState, point: str, height: Measure) -> SurveyState:
    """The state once the finish must meet a height at a point."""
    return replace(state, fixed={**state.fixed, point: Height(height, exact_mm(height))})


def without_fixed_height(state: SurveyState, point: str) -> SurveyState:
    """The state once the finish need not meet one there any more."""
    return replace(state, fixed=without_point(state.fixed, point))


def _new_set_up(state: SurveyState, time: datetime, *, after_move: bool) -> SurveyState:
    begun = SetUp(state.heights_taken, time, after_move)
    return replace(state, set_ups=(*state.set_ups, begun))


def _marked(
    state: SurveyState, on: str | int | None, said: Measure, time: datetime, *, check: bool
) -> SurveyState:
    mark = KnownMark(on, state.height(said, time), check)
    return replace(state, marks=(*state.marks, mark)).counted()


SURVEY_EVENTS: tuple[type[Event], ...] = (
    SetUpStarted,
    ReferenceMoved,
    BenchmarkPlaced,
    BenchmarkTied,
    PointTied,
    ZeroChecked,
    BenchmarkChecked,
    InstrumentResolutionSet,
    InstrumentRepeatabilitySet,
    InstrumentOffsetSet,
    StepMarked,
    HeightFixed,
    FallSet,
    PointGround,
)
"""All but the readings themselves, which the job takes up."""
