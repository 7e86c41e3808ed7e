"""What was found to prove a floor: lines, gaps and defects; built up from the events."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from datetime import datetime
from fractions import Fraction
from math import hypot

from assistant.events.kinds import Event
from assistant.events.proof import (
    DefectFound,
    FindingDropped,
    GapMeasured,
    LineEnded,
    LineRead,
    LineStarted,
    LineTakenUp,
    LineValueCorrected,
    PointsMended,
)
from assistant.job.set_ups import Height, SurveyState
from assistant.reply.times import UNTIMED
from assistant.units.lengths import exact_mm, metres
from grammar.commands import Measure
from grammar.frozen import frozen

_SAME_M = 1e-6


@frozen
class ProofLine:
    """Heights along a line, at even spacing from its start on."""

    number: int
    spacing: Measure
    places: tuple[Measure, ...] = ()
    """As of :class:`~assistant.events.proof.LineStarted`."""
    start: str | None = None
    end: str | None = None
    values: tuple[Height, ...] = ()
    ended: bool = False

    @property
    def spacing_m(self) -> float:
        """From one value to the next."""
        return metres(self.spacing)

    @property
    def ends_m(self) -> tuple[tuple[float, float], tuple[float, float]] | None:
        """Its start and end, metres from the A1 corner; None where nobody said where it lies."""
        if not self.places:
            return None
        x, y, to_x, to_y = map(metres, self.places)
        return (x, y), (to_x, to_y)

    @property
    def length_m(self) -> float | None:
        """From its start to its end; None where nobody said where it lies."""
        if self.ends_m is None:
            return None
        (x, y), (to_x, to_y) = self.ends_m
        return hypot(to_x - x, to_y - y)

    @property
    def holds(self) -> int | None:
        """How many values its length takes, both ends counted; None where that is not known."""
        length_m = self.length_m
        return None if length_m is None else int(length_m / self.spacing_m + _SAME_M) + 1

    def place_m(self, index: int) -> tuple[float, float] | None:
        """Where a value was read, counted from 0, metres; None where the line has no place."""
        if self.ends_m is None or not self.length_m:
            return None
        (x, y), (to_x, to_y) = self.ends_m
        part = index * self.spacing_m / self.length_m
        return x + part * (to_x - x), y + part * (to_y - y)


@frozen
class HandLaidGap:
    """The largest gap under a straightedge laid by hand at a point."""

    number: int
    point: str
    gap: Measure
    under: Measure
    time: datetime = field(default=UNTIMED, compare=False)

    @property
    def mm(self) -> Fraction:
        """How wide it was."""
        return exact_mm(self.gap)

    @property
    def under_mm(self) -> Fraction:
        """How long the straightedge was."""
        return exact_mm(self.under)


@frozen
class Defect:
    """Something heard or seen at a point."""

    kind: str
    """``hollow`` or ``pinholes``."""
    number: int
    point: str
    time: datetime = field(default=UNTIMED, compare=False)


@frozen
class Proof:
    """All that was found of one floor."""

    lines: Mapping[int, ProofLine] = field(default_factory=dict)
    open_line: int | None = None
    """The line that values without a point are for."""
    gaps: tuple[HandLaidGap, ...] = ()
    defects: tuple[Defect, ...] = ()
    mended: Mapping[str, int] = field(default_factory=dict)
    """How often points were mended."""
    mended_at: Mapping[str, int] = field(default_factory=dict)
    """How many heights had been read when a point was last mended."""

    @property
    def line(self) -> ProofLine | None:
        """The line that is being read."""
        return None if self.open_line is None else self.lines[self.open_line]

    def numbers(self, kind: str) -> tuple[int, ...]:
        """The numbers in use of ``line``, ``gap`` or a kind of defect."""
        if kind == "line":
            return tuple(self.lines)
        if kind == "gap":
            return tuple(gap.number for gap in self.gaps)
        return tuple(each.number for each in self.defects if each.kind == kind)


def after_event(
    proof: Proof, event: Event, survey: SurveyState, time: datetime
) -> tuple[Proof, SurveyState]:
    """What is found after one of its events; heights of a line are of the set-up in force."""
    match event:
        case LineStarted():
            line = ProofLine(event.line, event.spacing, event.places, event.start, event.end)
            return replace(_with_line(proof, line), open_line=event.line), survey
        case LineRead():
            line, heights = proof.lines[event.line], []
            for said in event.values:
                heights.append(survey.height(said, time))
                survey = survey.counted()
            read = replace(line, values=(*line.values, *heights), ended=False)
            return replace(_with_line(proof, read), open_line=event.line), survey
        case LineValueCorrected():
            return _corrected(proof, event, survey), survey
        case LineEnded():
            ended = replace(proof.lines[event.line], ended=True)
            still = None if proof.open_line == event.line else proof.open_line
            return replace(_with_line(proof, ended), open_line=still), survey
        case LineTakenUp():
            again = replace(proof.lines[event.line], ended=False)
            return replace(_with_line(proof, again), open_line=event.line), survey
        case GapMeasured():
            number = max(proof.numbers("gap"), default=0) + 1
            gap = HandLaidGap(number, event.point, event.gap, event.under, time)
            return replace(proof, gaps=(*proof.gaps, gap)), survey
        case DefectFound():
            number = max(proof.numbers(event.kind), default=0) + 1
            found = Defect(event.kind, number, event.point, time)
            return replace(proof, defects=(*proof.defects, found)), survey
        case PointsMended():
            counts = {point: proof.mended.get(point, 0) + 1 for point in event.points}
            # What an edge showed there is of a floor that was ground or filled since.
            gaps = tuple(gap for gap in proof.gaps if gap.point not in counts)
            taken = dict.fromkeys(counts, survey.heights_taken)
            return replace(
                proof,
                mended={**proof.mended, **counts},
                mended_at={**proof.mended_at, **taken},
                gaps=gaps,
            ), survey
        case _:
            assert isinstance(event, FindingDropped)
            return _without(proof, event), survey


def _with_line(proof: Proof, line: ProofLine) -> Proof:
    return replace(proof, lines={**proof.lines, line.number: line})


def _corrected(proof: Proof, event: LineValueCorrected, survey: SurveyState) -> Proof:
    line = proof.lines[event.line]
    values = list(line.values)
    values[event.number - 1] = survey.put_right(values[event.number - 1], event.value)
    return _with_line(proof, replace(line, values=tuple(values)))


def _without(proof: Proof, event: FindingDropped) -> Proof:
    if event.kind == "line":
        lines = {n: line for n, line in proof.lines.items() if n != event.number}
        still = None if proof.open_line == event.number else proof.open_line
        return replace(proof, lines=lines, open_line=still)
    if event.kind == "gap":
        return replace(proof, gaps=tuple(g for g in proof.gaps if g.number != event.number))
    defects = tuple(
        each for each in proof.defects if (each.kind, each.number) != (event.kind, event.number)
    )
    return replace(proof, defects=defects)


PROOF_EVENTS: tuple[type[Event], ...] = (
    LineStarted,
    LineRead,
    LineValueCorrected,
    LineEnded,
    LineTakenUp,
    GapMeasured,
    DefectFound,
    FindingDropped,
    PointsMended,
)
