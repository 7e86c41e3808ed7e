"""What is known of one floor, as it was said; never changed in place.

Lengths are exact millimetres. What is worked out from a job is kept beside it, never
in the record.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any, TypeVar, cast

from assistant.events.doors import CoveringSet, DoorRulesSet
from assistant.events.finish import (
    FinishFeathered,
    FinishSet,
    FinishSetAtDoor,
    FinishSetOverHighest,
    LeastDepthSet,
    MostDepthSet,
)
from assistant.events.flatness import ScanImported
from assistant.events.kinds import Event, Setting
from assistant.events.material import AggregateSet, WasteSet
from assistant.events.proof import PunchLimitSet
from assistant.events.readings import ReadingUnitChosen
from assistant.job.guide import GuideState
from assistant.job.layout import Layout, Place
from assistant.job.notes import RecordedNote
from assistant.job.pour import PourState
from assistant.job.proof import Proof
from assistant.job.set_ups import Height, SurveyState
from assistant.job.site import SiteState
from assistant.job.walk import Walk
from assistant.job.zones import Zones
from assistant.limits.door_rules import DOOR_RULES, USA, DoorRules
from assistant.limits.own_limits import OwnLimits
from assistant.products.cards import Card
from assistant.reply.times import UNTIMED
from assistant.units.lengths import exact_mm
from grammar.commands import Measure
from grammar.frozen import frozen

AnySetting = TypeVar("AnySetting", bound=Setting)

USUAL_WASTE_PERCENT = Decimal(5)
"""Common practice, no source; a default until the installer says otherwise."""

USUAL_RANGE_MM = Fraction(300)
"""Common practice, no source: what a hose or a short staff takes in from its zero."""

FinishSource = FinishSet | FinishSetAtDoor | FinishSetOverHighest | FinishFeathered
"""What a finish can have been set by."""


@frozen
class Door:
    """What is known of one door; anything may still be missing."""

    number: int
    left: Height | None = None
    right: Height | None = None
    outside: Height | None = None
    point: str | None = None
    clearance: Measure | None = None
    """What its leaf clears the floor by that lay open then."""


@frozen
class Utterance:
    """One line or breath of speech, and what it recorded."""

    number: int
    said: str
    events: tuple[Event, ...]
    time: datetime = UNTIMED
    """When it was recorded."""
    device: str = ""
    """Which paired device it came from; nothing for the program's own keyboard and ears."""


@frozen
class FinishedFloor:
    """
    The second survey: what was read after the pour, as a :class:`Job` has it of the slab.

    Nothing said after the pour changes what was read before it.
    """

    readings: Mapping[str, Height] = field(default_factory=dict)
    last_point: str | None = None
    doors: Mapping[int, Door] = field(default_factory=dict)
    survey: SurveyState = field(default_factory=SurveyState)
    reach_mm: Fraction = USUAL_RANGE_MM
    own_points: Mapping[str, Place] = field(default_factory=dict)
    """Points placed after the pour."""
    walk: Walk = field(default_factory=Walk)
    lies_open: bool = True
    """False where the pour goes on after it stood still: then the slab lies open again."""
    proof: Proof = field(default_factory=Proof)


@frozen
class Job:
    """
    Everything known of one floor.

    Readings, doors and survey are those of the slab. ``surveys.finished_floor`` gives the same
    job with those of the finished floor in their places.
    """

    layout: Layout = field(default_factory=Layout)
    settings: Mapping[type[Setting], Setting] = field(default_factory=dict)
    """The last of each kind, where one was set; see :meth:`setting`."""
    scans: Mapping[bool, ScanImported] = field(default_factory=dict)
    """The last scan of the slab under False, of the finished floor under True."""
    reach_mm: Fraction = USUAL_RANGE_MM
    """How far from its zero the instrument reads."""
    card: Card | None = None
    finish_mm: Fraction = Fraction(0)
    """Height of the finish above the zero."""
    finish_said: bool = False
    """False while it is at the zero only because nobody said another."""
    finish_from: FinishSource | None = None
    """What it was set from; it may have been moved since. None where nobody set it, and it is
    counted from the zero."""
    zones: Zones = field(default_factory=Zones)
    """Finish and product of zones that have their own."""
    step_limit_mm: Fraction | None = USA.most_mm
    """The most a doorway may step; None where it was said to have no limit."""
    readings: Mapping[str, Height] = field(default_factory=dict)
    """The one reading that counts at each point."""
    last_point: str | None = None
    """Where the installer read last, so where the walk goes on."""
    walk: Walk = field(default_factory=Walk)
    """Where the walk stands besides."""
    doors: Mapping[int, Door] = field(default_factory=dict)
    survey: SurveyState = field(default_factory=SurveyState)
    """The instrument, its set-ups and checks, and what the finish must meet."""
    proof: Proof = field(default_factory=Proof)
    """Lines, gaps and defects of the floor."""
    site: SiteState = field(default_factory=SiteState)
    """Air, slab, moisture, and clocks that were started."""
    pour: PourState = field(default_factory=PourState)
    """Dams, and how far it has come."""
    guide: GuideState = field(default_factory=GuideState)
    """Where the guide stands."""
    notes: tuple[RecordedNote, ...] = ()
    """Remarks in the installer's own words, in the order they were made."""
    finished: FinishedFloor | None = None
    """What was read after the pour; None until something is, or the pour is finished."""
    slab: Job | None = None
    """Of a job that shows the finished floor, the job it was made from; never of the one
    that is kept."""
    whole: Job | None = None
    """Of a job that shows one part of the floor, the job it was made from; never of the one
    that is kept."""
    history: tuple[Utterance, ...] = field(default=(), compare=False, repr=False)
    """All that was recorded, undone things too. Not part of what the job *is*:
    a thing done and undone leaves an equal job."""
    clock_put_back: bool = field(default=False, compare=False, repr=False)
    """Whether times of the history are not as the clock read them; see ``clock_readings``."""
    kept: dict[str, Any] = field(init=False, compare=False, repr=False, default_factory=dict)
    """Room for :func:`~assistant.job.once.cached`."""

    def setting(self, kind: type[AnySetting]) -> AnySetting | None:
        """What was set last of one kind; None while nothing was."""
        return cast("AnySetting | None", self.settings.get(kind))

    @property
    def reading_unit(self) -> str:
        """``mm`` or ``in``: what a reading without a unit is in, and lengths are shown in."""
        chosen = self.setting(ReadingUnitChosen)
        return chosen.unit if chosen else "mm"

    @property
    def waste_percent(self) -> Decimal:
        """What is lost of the product, in per cent of what is poured."""
        said = self.setting(WasteSet)
        return said.percent if said else USUAL_WASTE_PERCENT

    @property
    def waste_said(self) -> bool:
        """False while the waste is only the usual one."""
        return WasteSet in self.settings

    @property
    def own_limits(self) -> OwnLimits:
        """The limits of depth that somebody set beside the product's."""
        least, most = self.setting(LeastDepthSet), self.setting(MostDepthSet)
        return OwnLimits(
            exact_mm(least.depth) if least and least.depth else None,
            exact_mm(most.depth) if most and most.depth else None,
        )

    @property
    def punch_limit_said_mm(self) -> Fraction | None:
        """How far a finished floor may be off before it is to be mended; None while not said."""
        said = self.setting(PunchLimitSet)
        return exact_mm(said.most) if said else None

    @property
    def covering_mm(self) -> Fraction:
        """What is laid on the finished floor; nothing while nobody said so."""
        said = self.setting(CoveringSet)
        return exact_mm(said.thickness) if said and said.thickness else Fraction(0)

    @property
    def door_rules(self) -> DoorRules:
        """Whose rules the step of a doorway is held against."""
        said = self.setting(DoorRulesSet)
        return DOOR_RULES[said.country] if said else USA

    @property
    def aggregate_percent(self) -> Decimal:
        """What is added to the product, in per cent of its mass."""
        said = self.setting(AggregateSet)
        return said.percent if said else Decimal(0)

    @property
    def last_time(self) -> datetime | None:
        """What the clock read when something was last recorded; None before anything was."""
        return self.history[-1].time if self.history else None


EMPTY = Job()
