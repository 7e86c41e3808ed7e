"""A job being added up, and which of its two surveys is open meanwhile."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.job.clocks import latest_started
from assistant.job.proof import Proof
from assistant.job.set_ups import (
    Height,
    after_pour,
    after_reading,
    with_instrument_of,
    with_superseded,
)
from assistant.job.state import Door, FinishedFloor, Job, Utterance
from assistant.job.walk import Walk
from assistant.reply.times import UNTIMED
from grammar.commands import Measure


class Draft:
    """A job being added up; the one thing here that changes, and it never leaves this package.

    Its dictionaries are copied once for all events, not once for each.
    """

    def __init__(self, job: Job) -> None:
        self.job = job
        self.layout = job.layout
        # What is read is taken up by the survey of what lies open: the slab, later the floor
        # that was poured over it. Both have the same parts.
        after = job.finished
        self.slab: dict[str, Any] | None = {} if after is not None and after.lies_open else None
        """What the slab's survey has come to since; None while the slab is being read."""
        self.parked = after if self.slab is None else None
        """The second survey of a pour that goes on; it is taken up again when that is over."""
        self._take_up(after if after is not None and after.lies_open else job)
        self.settings = dict(job.settings)
        self.changes: dict[str, Any] = {}
        self.site = job.site
        self.guide = job.guide
        self.notes = list(job.notes)
        self.pour = job.pour
        self.time = UNTIMED

    def finished(self, history: tuple[Utterance, ...]) -> Job:
        """The job that it has become, with this history."""
        if self.slab is None:
            self._place_points()
            changed = {**self._read(), "finished": self.parked}
        else:
            after = FinishedFloor(**self._read(), own_points=self.own_points)
            changed = {**self.slab, "finished": after}
        return replace(
            self.job,
            layout=self.layout,
            site=self.site,
            guide=self.guide,
            notes=tuple(self.notes),
            pour=self.pour,
            settings=self.settings,
            history=history,
            **changed,
            **self.changes,
        )

    def _take_up(self, survey: Job | FinishedFloor) -> None:
        """What is read from now on is of this survey."""
        placed = survey.layout if isinstance(survey, Job) else survey
        self.own_points = dict(placed.own_points)
        self.points_placed = False
        self.readings = dict(survey.readings)
        self.doors = dict(survey.doors)
        self.last_point = survey.last_point
        self.walk = survey.walk
        self.survey = survey.survey
        self.reach_mm = survey.reach_mm
        self.proof = survey.proof

    def _read(self) -> dict[str, Any]:
        """The parts of the survey that is open."""
        return {
            "readings": self.readings,
            "last_point": self.last_point,
            "walk": self.walk,
            "doors": self.doors,
            "survey": self.survey,
            "reach_mm": self.reach_mm,
            "proof": self.proof,
        }

    def _place_points(self) -> None:
        if self.points_placed:
            self.layout = replace(self.layout, own_points=self.own_points)

    def pour_over(self) -> None:
        """The slab is covered: its survey stays as it is, another one begins."""
        if self.slab is not None:
            return
        self._place_points()
        self.slab = self._read()
        if self.parked is not None:
            parked, instrument, reach_mm = self.parked, self.survey, self.reach_mm
            self.parked = None
            self._take_up(parked)
            self.survey, self.reach_mm = with_instrument_of(parked.survey, instrument), reach_mm
            return
        self.own_points = {}
        self.readings, self.last_point, self.walk = {}, None, Walk()
        self.proof = Proof()
        self.doors = {n: Door(n, point=door.point) for n, door in self.doors.items()}
        self.survey = after_pour(self.survey)

    def pour_on(self) -> None:
        """The slab is not all covered yet: its survey is open again, and the other one waits."""
        if self.slab is None or latest_started(self.site.clocks, "pour") is not None:
            return
        self.parked = FinishedFloor(**self._read(), own_points=self.own_points, lies_open=False)
        instrument, reach_mm = self.survey, self.reach_mm
        self._take_up(replace(self.job, layout=self.layout, **self.slab))
        self.survey, self.reach_mm = with_instrument_of(self.survey, instrument), reach_mm
        self.slab = None

    def door(self, number: int) -> Door:
        """What is known of a door so far."""
        return self.doors.get(number) or Door(number)

    def height(self, said: Measure) -> Height:
        """A height read now, from the set-up in force."""
        return self.survey.height(said, self.time)

    def read(self, point: str, said: Measure, *shown: Measure) -> None:
        """A height was read at a point; of a display that jumped, with all it showed."""
        skipped = {name: why for name, why in self.walk.skipped.items() if name != point}
        self.walk = Walk(is_again=point in self.readings, skipped=skipped)
        if point in self.readings:
            self.survey = with_superseded(self.survey, point, self.readings[point])
        self.readings[point] = self.height(said)
        mm = self.readings[point].mm
        self.survey = after_reading(self.survey, point, mm, anew=True, shown=shown)
        self.last_point = point
