"""What is known of the pour; part of the job, built up from the events."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from datetime import datetime, timedelta
from decimal import Decimal

from assistant.events.kinds import Event, Setting
from assistant.events.pour import (
    BagsLeftCounted,
    BatchPoured,
    BatchSet,
    BatchTimeSet,
    CrewSet,
    DamPlaced,
    DamsTakenUp,
    EdgeStripTold,
    FloorSpiked,
    FlowMeasured,
    FrontReached,
    HoleTold,
    JointsCarried,
    LeftOverExplained,
    MixersSet,
    PourResumed,
    PourStarted,
    PourStopped,
    PumpSet,
    StripPoured,
)
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class Batch:
    """One batch, when it was poured."""

    time: datetime
    bags: int
    water_l: Decimal | None
    crew: Mapping[type[Setting], Setting] = field(default_factory=dict, compare=False)
    """Who mixed it and how, as it was set then."""


@frozen
class Front:
    """Where the front stood once, and the bags used till then."""

    time: datetime
    at: FrontReached | StripPoured
    bags_used: int
    lost: bool | None = None
    """Whether something was lost once since the front before; None where nobody said."""


@frozen
class Counted:
    """Bags that were left, and those used till then."""

    time: datetime
    left: int
    used: int


@frozen
class Pause:
    """A time in which the pour stood still."""

    since: datetime
    until: datetime | None
    """None while it lasts."""
    reason: str | None


@frozen
class PourState:
    """What is known of the pour, as it was said."""

    dams: tuple[DamPlaced, ...] = ()
    """Dams and joints, in the order in which they were described."""
    started: datetime | None = None
    """When it was said to start, or else when the first batch was poured."""
    start: PourStarted | None = None
    """What stood against it when it started; None where it began with a batch, unannounced."""
    batches: tuple[Batch, ...] = ()
    fronts: tuple[Front, ...] = ()
    counted: Counted | None = None
    """The last count of bags left."""
    pauses: tuple[Pause, ...] = ()
    spiked: datetime | None = None
    edge_strip: bool = False
    """Whether somebody said that the edge strip stands."""
    joints: frozenset[int] = frozenset()
    """Numbers of the joints that somebody said are carried through."""
    flow: Measure | None = None
    """How far the mix tried last spread."""
    left_over: str | None = None
    """Why bags were left over, in somebody's words."""

    @property
    def bags_used(self) -> int:
        """Bags poured so far."""
        return sum(batch.bags for batch in self.batches)

    @property
    def stopped(self) -> Pause | None:
        """The pause that lasts."""
        last = self.pauses[-1] if self.pauses else None
        return last if last is not None and last.until is None else None

    def worked(self, since: datetime, until: datetime) -> timedelta:
        """How much of a time it did not stand still."""
        off = timedelta(0)
        for pause in self.pauses:
            begun, ended = max(pause.since, since), min(pause.until or until, until)
            off += max(ended - begun, timedelta(0))
        return max(until - since - off, timedelta(0))


CREW: tuple[type[Setting], ...] = (CrewSet, MixersSet, BatchSet, BatchTimeSet, PumpSet)
"""What is set of who mixes, and how fast."""


def after_event(
    state: PourState,
    event: Event,
    time: datetime,
    settings: Mapping[type[Setting], Setting] | None = None,
) -> PourState:
    """The pour after one of its events, which happened at that time, with what was set then."""
    if isinstance(event, DamPlaced):
        return replace(state, dams=(*(dam for dam in state.dams if dam != event), event))
    if isinstance(event, DamsTakenUp):
        return replace(state, dams=())
    if isinstance(event, PourStarted):
        return replace(state, started=state.started or time, start=event)
    if isinstance(event, BatchPoured):
        said = settings or {}
        crew = {kind: said[kind] for kind in CREW if kind in said}
        batch = Batch(time, event.bags, event.water_l, crew)
        begun = state.started or time
        return _going_on(replace(state, started=begun, batches=(*state.batches, batch)), time)
    if isinstance(event, FrontReached | StripPoured):
        front = Front(time, event, state.bags_used)
        return replace(state, fronts=(*state.fronts, front))
    if isinstance(event, HoleTold):
        *before, last = state.fronts
        return replace(state, fronts=(*before, replace(last, lost=event.lost)))
    if isinstance(event, BagsLeftCounted):
        return replace(state, counted=Counted(time, event.bags, state.bags_used))
    if isinstance(event, FloorSpiked):
        return replace(state, spiked=time)
    if isinstance(event, EdgeStripTold):
        return replace(state, edge_strip=True)
    if isinstance(event, JointsCarried):
        return replace(state, joints=state.joints | set(event.numbers))
    if isinstance(event, FlowMeasured):
        return replace(state, flow=event.spread)
    if isinstance(event, LeftOverExplained):
        return replace(state, left_over=event.words)
    if isinstance(event, PourStopped):
        return replace(state, pauses=(*state.pauses, Pause(time, None, event.reason)))
    return _going_on(state, time)


def _going_on(state: PourState, time: datetime) -> PourState:
    """The pour once it no longer stands still."""
    if state.stopped is None:
        return state
    *before, last = state.pauses
    return replace(state, pauses=(*before, replace(last, until=time)))


POUR_EVENTS: tuple[type[Event], ...] = (
    DamPlaced,
    DamsTakenUp,
    PourStarted,
    BatchPoured,
    FrontReached,
    StripPoured,
    HoleTold,
    EdgeStripTold,
    JointsCarried,
    FlowMeasured,
    LeftOverExplained,
    BagsLeftCounted,
    FloorSpiked,
    PourStopped,
    PourResumed,
)
