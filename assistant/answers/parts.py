"""The parts that answers share: warnings, depths and the moment they are about."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from assistant.decide.parts import World
from assistant.events.kinds import Event
from assistant.floor import warnings as checks
from assistant.floor.tally import Depths
from assistant.floor.walk import points_missing
from assistant.job import Job
from assistant.job.proof import ProofLine
from assistant.limits.limits import STEP_PLAIN
from assistant.reply import wording
from assistant.reply.replies import LimitWarning, Reply, SpokenSentence
from grammar.frozen import frozen


@frozen
class Moment:
    """The job before and after a command, and the events in between."""

    before: Job
    after: Job
    """The same job for an ask; for "what if", the job as it would be."""
    events: Sequence[Event]
    world: World

    @property
    def job(self) -> Job:
        """The job as it stands now."""
        return self.after

    @property
    def unit(self) -> str:
        """``mm`` or ``in``, in which lengths are shown."""
        return self.after.reading_unit


Answerer = Callable[[Moment, Any], Reply]


# --- warnings beside an answer ----------------------------------------------------------

_SHORT = {
    "high-spot": "High spot",
    "under-minimum": "Under the product's minimum",
    "over-maximum": "Over the product's maximum",
    "over-aggregate-maximum": "Over the maximum with aggregate",
    "under-own-least": "Under your own least depth",
    "over-own-most": "Over your own most depth",
    "feather": "Too thin at the door",
    "out-of-range": "Past the instrument's range, read it again",
    "pin-spacing": "Points are too far apart",
    "weight": "Heavy: ask an engineer",
    "aggregate": "Too much aggregate",
    "untied": "Set-up not tied",
    "zero-moved": "The last look at the zero is off",
    "doubtful": "Readings in doubt",
    "door-leaf": "The leaf is too near to the floor",
    "drain": "The finish does not meet the drain",
    "crack": "A crack, look at it",
    "joint": "A joint, carry it through",
    "zone-step": "A step between zones",
    "restless": "The display jumps: wait, and read again",
}
"""Warnings in few words; what to do about them is in the message. Notes are not said aloud, and
jambs out of level are reported with the door itself."""


_BRIEF = {
    "under-minimum": "Too shallow",
    "over-maximum": "Too deep",
    "over-aggregate-maximum": "Too deep with aggregate",
}
"""The same of a reading, where somebody waits with the next one."""


_STOP = {
    "high-spot": "stop: high spot{many}. Grind it, or raise the finish",
    "under-minimum": "stop: too shallow{many}. Grind it, or raise the finish",
    "over-maximum": "stop: too deep{many}. Lower the finish, or pour in lifts",
    "over-aggregate-maximum": "stop: too deep with aggregate{many}. Lower the finish",
    "feather": "stop: too thin at the door. Raise the finish",
    "aggregate": "stop: too much aggregate. Put in less",
    "zero-moved": "stop: the last look at the zero is off. Look again",
}
"""Of what stops the work: what it is and what to do, however short replies are to be."""


def new_warnings(before: Job, after: Job) -> tuple[LimitWarning, ...]:
    """Warnings that were not there before."""
    known = {warning.id for warning in _settled(before)}
    return tuple(w for w in _settled(after) if w.id not in known)


def _settled(job: Job) -> tuple[LimitWarning, ...]:
    """
    Warnings worth giving unasked.

    The mean weight of a half-finished survey changes with every reading, and a warning
    that comes and goes is soon ignored.
    """
    return checks.warnings_but_weight(job) if points_missing(job) else checks.all_warnings(job)


def gone_warnings(before: Job, after: Job) -> tuple[LimitWarning, ...]:
    """Warnings that are gone."""
    return new_warnings(after, before)


def with_matters(moment: Moment, reply: Reply, own: Iterable[LimitWarning] = ()) -> Reply:
    """
    The answer to a change, with the warnings it caused or ended.

    Parameters
    ----------
    moment, reply
    own : warnings about the very thing changed
    Given even where they were there before.
    """
    wanted = {w.id for w in (*new_warnings(moment.before, moment.after), *own)}
    known = checks.all_warnings if "weight" in wanted else checks.warnings_but_weight
    warnings = tuple(w for w in known(moment.after) if w.id in wanted)
    return replace(
        reply,
        also=(*reply.also, *spoken_warnings(warnings)),
        warnings=warnings,
        cautions=checks.cautions_met(moment.before, moment.after),
    )


def spoken_warnings(warnings: Sequence[LimitWarning]) -> tuple[SpokenSentence, ...]:
    """Warnings to say: each kind once, with a count where there are several."""
    kinds = [checks.warning_kind(warning) for warning in warnings]
    said = []
    for kind in dict.fromkeys(kinds):
        if kind in _SHORT:
            count = kinds.count(kind)
            several = count > 1 and kind != "zone-step"  # which is at no point
            many = f" at {wording.spoken_count(count, 'point')}" if several else ""
            if kind in _STOP and any(
                w.severity == "stop" for w in warnings if checks.warning_kind(w) == kind
            ):
                said.append(SpokenSentence(_STOP[kind].format(many=many), needed=True))
                continue
            brief = f"{_BRIEF[kind]}{many}" if kind in _BRIEF else None
            said.append(SpokenSentence(f"{_SHORT[kind]}{many}", brief))
    said += [
        SpokenSentence(_step_said(warning))
        for warning in warnings
        if checks.warning_kind(warning) == "door-step"
    ]
    return tuple(said)


def _step_said(warning: LimitWarning) -> str:
    door = wording.spoken_number(int(checks.warning_subject(warning)))
    if warning.severity == "stop":
        return f"Door {door} steps more than its limit."
    if warning.severity == "note":
        return f"Door {door} has a step."
    bevel = (warning.limit or 0) <= float(STEP_PLAIN.value)
    return f"Door {door} {'wants a bevel' if bevel else 'steps more than is usual'}."


_NUMBERED = ("drain", "crack", "joint", "door-leaf")
"""Kinds of warning whose subject is a number."""


def spoken_first(warning: LimitWarning) -> str:
    """A single warning, to say: where, and what; no sentence yet."""
    kind, subject = checks.warning_kind(warning), checks.warning_subject(warning)
    if kind == "door-step":
        return _step_said(warning)
    if kind == "door-across":
        return f"Door {wording.spoken_number(int(subject))} is out of level."
    if kind == "zone-step":
        return f"A step from {' to '.join(map(wording.spoken_zone, subject.split('/')))}."
    if kind not in _SHORT:
        return "Points are missing."
    if kind in _NUMBERED:
        what = kind.removesuffix("-leaf")
        return f"{what} {wording.spoken_number(int(subject))}: {_SHORT[kind].lower()}."
    where = f"{wording.spoken_name(subject)}, " if subject else ""
    return f"{where}{_SHORT[kind].lower()}."


# --- the line that is being read -------------------------------------------------------


def line_goes_on(line: ProofLine) -> str:
    """What a value without a point is for while a line is read, as a sentence."""
    return f"A value without a point is number {len(line.values) + 1} of line {line.number}."


def next_on_line(line: ProofLine, data: dict[str, Any]) -> Reply:
    """What comes next while a line is read."""
    at, number = len(line.values) + 1, wording.spoken_number(line.number)
    held = "" if line.holds is None else f" of {line.holds}"
    return Reply(
        f"Next: line {line.number}, point {at}{held}.",
        f"Next, line {number}, point {wording.spoken_number(at)}.",
        ("Points are read with their names meanwhile; end line ends it.",),
        data={**data, "line": line.number, "line_point": at},
    )


# --- depths in an answer -------------------------------------------------------------------


# Never with a sign: minus means below for every reading, but a depth of minus three
# would mean a floor that is too high.


def depth_words(depth_mm: Fraction | float, unit: str) -> str:
    """A depth to read, with its name: ``depth 18 mm``, ``3 mm above the finish``."""
    return f"{'' if depth_mm < 0 else 'depth '}{_without_name(depth_mm, unit)}"


def depth_sentence(depth_mm: Fraction | float, unit: str) -> str:
    """A depth with its name, as a sentence."""
    return f"{'Stands' if depth_mm < 0 else 'Depth'} {_without_name(depth_mm, unit)}."


def about_depth(depth_mm: float, unit: str) -> str:
    """A depth between points, to the millimetre or sixteenth, as it is no more precise."""
    if unit == "mm":
        depth_mm = round(depth_mm)
    return f"{'' if depth_mm < 0 else 'depth '}about {_without_name(depth_mm, unit)}"


def _without_name(depth_mm: Fraction | float, unit: str) -> str:
    """``18 mm``, ``3 mm above the finish``."""
    if depth_mm < 0:
        return f"{wording.length(-depth_mm, unit)} above the finish"
    return wording.length(depth_mm, unit)


def depth_cell(depth_mm: Fraction | float, unit: str) -> str:
    """A depth for a column: ``18 mm``, ``3 mm high``."""
    if depth_mm < 0:
        return f"{wording.length(-depth_mm, unit)} high"
    return wording.length(depth_mm, unit)


def depth_range(depths: Depths, unit: str) -> str:
    """Least, greatest and mean depth in one sentence."""
    least, most, mean = (
        depth_cell(depth, unit) for depth in (depths.least, depths.most, depths.mean)
    )
    if depths.least == depths.most:
        return f"Depth {least} throughout."
    return f"Depth {least} to {most}, mean {mean}."


def spoken_depth(depth_mm: Fraction | float, unit: str) -> str:
    """A depth to say."""
    if depth_mm < 0:
        return f"{wording.spoken_length(-depth_mm, unit)} above the finish"
    return wording.spoken_length(depth_mm, unit)
