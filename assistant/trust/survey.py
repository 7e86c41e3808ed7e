"""Heights of the points above the datum, from what was read in one set-up or many.

The datum is the zero of the first set-up. While that is the only one, and nothing checks or
ties it otherwise, a height is the reading itself, exactly. With more, all readings, ties and
benchmarks are adjusted together; heights then come from floats, kept to a hundred-thousandth
of a millimetre so that sixteenths and thirty-seconds of an inch stay what they are.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from assistant.job import Job
from assistant.once import once
from assistant.trust.survey_state import Height, Mark
from assistant.trust.watches import Watch, good_mm, look_sd_mm, watch

if TYPE_CHECKING:
    from assistant.levels.adjustment import Adjustment, Known
    from assistant.levels.arrays import FloatArray

_PLACES_MM = 100_000
TIES_TO_CLEAR = 2
"""Ties that must agree before readings are believed to be older than a move. Common practice,
no source: one tie only carries over whatever its own reading has."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """Something read that does not fit what all the rest says."""

    what: str
    """In words: ``tie on C4 from set-up 2``."""
    point: str | None
    off_mm: float
    """Read minus what all the others say."""


@dataclass(frozen=True)
class Surveyed:
    """What all that was read comes to."""

    heights_mm: Mapping[str, Fraction]
    """Of each point whose set-up is tied; as the floor is, before any grinding."""
    sd_mm: Mapping[str, float]
    zeros_mm: tuple[Fraction | None, ...]
    """Of each set-up, above the datum; None while nothing ties it."""
    zero_sd_mm: tuple[float, ...]
    watches: tuple[Watch, ...]
    sigma0: float | None = None
    """Misfits over what the instrument promises; None while nothing checks anything."""
    too_large: bool = False
    """The misfits together are more than chance."""
    misfits: tuple[Misfit, ...] = ()
    doubtful: Mapping[str, str] = field(default_factory=dict)
    """Points to read again, and why: ``moved``, ``step``."""
    after_step: frozenset[str] = frozenset()
    """Points read after the zero moved, brought back by checks."""
    untied: tuple[int, ...] = ()
    """Set-ups with readings that nothing ties."""
    own_sd_mm: Mapping[str, float] = field(default_factory=dict)
    """What each point is unsure by from readings of it alone, were all zeros known."""
    shared_mm: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    """What one standard deviation of each error that points share does to each: the zeros'
    errors, which ties hand on. Empty with one set-up. With ``own_sd_mm`` it is the points' whole
    covariance."""
    zeros_shared_mm: tuple[tuple[float, ...], ...] = ()
    """What the same errors do to each zero; none to one that nothing ties."""


@once
def reading_sd_mm(job: Job) -> float:
    """Standard deviation of one reading, from the instrument's settings."""
    return look_sd_mm(job.survey)


@once
def survey_of(job: Job) -> Surveyed:
    """The survey as it stands; worked out once for each job."""
    state = job.survey
    if len(state.set_ups) == 1 and not state.marks:
        return _plain(job)
    watches = tuple(
        watch(job, number, _heights_from(job, number)) for number in range(len(state.set_ups))
    )
    if len(state.set_ups) == 1 and not _joined(job) and not watches[0].correction_mm:
        return _with_doubts(job, _plain(job, watches))
    return _with_doubts(job, _adjusted(job, watches))


def heights_of(job: Job) -> dict[str, Fraction]:
    """Exact height in mm of each point above the datum, as it will be once ground."""
    heights, ground = survey_of(job).heights_mm, job.survey.ground
    if not ground:  # as nearly always; and there is a fraction for each point
        return dict(heights)
    return {point: height - ground.get(point, 0) for point, height in heights.items()}


def above_datum_mm(job: Job, height: Height) -> Fraction | None:
    """A height against the zero it was read from, above the datum; None while that is untied."""
    if height.set_up == 0:
        return height.mm - job.survey.offset_mm
    zero = survey_of(job).zeros_mm[height.set_up]
    return None if zero is None else zero + height.mm - job.survey.offset_mm


def _plain(job: Job, watches: tuple[Watch, ...] = (Watch(()),)) -> Surveyed:
    offset = job.survey.offset_mm
    heights = {
        point: reading.mm - offset if offset else reading.mm
        for point, reading in job.readings.items()
    }
    sd = reading_sd_mm(job) if heights else 0.0
    sds = dict.fromkeys(heights, sd)
    return Surveyed(heights, sds, (Fraction(0),), (0.0,), watches, own_sd_mm=sds)


def _heights_from(job: Job, set_up: int) -> list[Height]:
    heights = [reading for reading in job.readings.values() if reading.set_up == set_up]
    return heights + [m.height for m in job.survey.marks if m.height.set_up == set_up]


def _joined(job: Job) -> tuple[Mark, ...]:
    """Ties, and whatever else was read on a benchmark."""
    return tuple(mark for mark in job.survey.marks if mark.on is not None)


# --- several set-ups -----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Sight:
    """One reading that counts in the adjustment."""

    what: str
    on: str | int
    height: Height
    exact_mm: Fraction
    """Corrected for offset, not for drift."""
    drift_mm: float


def _sights(job: Job, watches: tuple[Watch, ...]) -> list[_Sight]:
    several = len(job.survey.set_ups) > 1
    offset = job.survey.offset_mm
    found = []
    named: list[tuple[str, str | int, Height]] = [
        (point, point, reading) for point, reading in job.readings.items()
    ]
    for mark in _joined(job):
        assert mark.on is not None
        where = mark.on if isinstance(mark.on, str) else f"benchmark {mark.on}"
        named.append((f"{'check' if mark.check else 'tie'} on {where}", mark.on, mark.height))
    for what, on, height in named:
        there = f" from set-up {height.set_up + 1}" if several else ""
        drift = watches[height.set_up].correction_mm.get(height.order, 0.0)
        found.append(_Sight(f"{what}{there}", on, height, height.mm - offset, drift))
    return found


def _adjusted(job: Job, watches: tuple[Watch, ...]) -> Surveyed:
    sights = _sights(job, watches)
    marks = list(dict.fromkeys(sight.on for sight in sights))
    result = _adjust(job, sights, {mark: row for row, mark in enumerate(marks)})
    zeros = tuple(_exact(height * 1000) for height in result.zeros_m.tolist())
    heights, sds, own_sds, shared = {}, {}, {}, {}
    everywhere = np.arange(len(marks))
    own_m, shared_m = result.own_sd_m(everywhere), _steady(result.shared_m(everywhere))
    read_on: dict[str | int, list[_Sight]] = {}
    for sight in sights:
        read_on.setdefault(sight.on, []).append(sight)
    for row, mark in enumerate(marks):
        if not isinstance(mark, str) or mark not in job.readings:
            continue
        height = _height_mm(read_on[mark], zeros, float(result.heights_m[row]) * 1000)
        if height is not None:
            heights[mark] = height
            sds[mark] = float(result.sd_m[row]) * 1000
            own_sds[mark] = float(own_m[row]) * 1000
            shared[mark] = shared_m[row]
    sigma0 = result.sigma0 if result.test.dof else None
    return Surveyed(
        heights_mm=heights,
        sd_mm=sds,
        zeros_mm=zeros,
        zero_sd_mm=tuple(0.0 if sd != sd else sd * 1000 for sd in result.zero_sd_m.tolist()),
        watches=watches,
        sigma0=sigma0,
        too_large=result.test.too_large,
        misfits=tuple(_misfits(result, sights)),
        untied=tuple(n for part in result.loose for n in part.set_ups if _is_read(sights, n)),
        own_sd_mm=own_sds,
        shared_mm=shared,
        zeros_shared_mm=tuple(_steady(result.zeros_shared_m())),
    )


def _steady(shared_m: FloatArray) -> list[tuple[float, ...]]:
    """
    Shared errors in mm, to a millionth.

    So they come out the same to the last digit for the same ties, whatever was read since; what
    was worked out with them can then be used again.
    """
    rows: list[list[float]] = (np.round(np.nan_to_num(shared_m) * 1000, 6) + 0.0).tolist()
    return [tuple(row) for row in rows]


def _adjust(job: Job, sights: list[_Sight], row: dict[str | int, int]) -> Adjustment:
    from assistant.levels.adjustment import Known, Readings, adjust

    readings = Readings(
        set_up=[sight.height.set_up for sight in sights],
        point=[row[sight.on] for sight in sights],
        value_m=[(float(sight.exact_mm) + sight.drift_mm) / 1000 for sight in sights],
        sd_m=reading_sd_mm(job) / 1000,
    )
    placed = {n: mark for n, mark in job.survey.benchmarks.items() if n in row}
    known = Known([row[n] for n in placed], [float(mark.mm) / 1000 for mark in placed.values()])
    return adjust(
        len(row),
        len(job.survey.set_ups),
        readings,
        known_points=known,
        known_zeros=_known_zeros(job),
    )


def _known_zeros(job: Job) -> Known:
    """The datum; for a finished floor also the zeros that the slab's survey found, as they are.

    The slab's points are covered, so what ties those set-ups cannot be read again.
    """
    from assistant.levels.adjustment import Known

    zeros = (Fraction(0),) if job.slab is None else survey_of(job.slab).zeros_mm
    known = {number: zero for number, zero in enumerate(zeros) if zero is not None}
    return Known(list(known), [float(zero) / 1000 for zero in known.values()])


def _is_read(sights: list[_Sight], set_up: int) -> bool:
    return any(sight.height.set_up == set_up for sight in sights)


def _height_mm(
    read: list[_Sight], zeros: tuple[Fraction | None, ...], adjusted_mm: float
) -> Fraction | None:
    """Exact where only one reading says it, and that one needs nothing but its zero."""
    zero = zeros[read[0].height.set_up]
    if len(read) == 1 and zero is not None and not read[0].drift_mm:
        return zero + read[0].exact_mm
    return _exact(adjusted_mm)


def _exact(mm: float) -> Fraction | None:
    return Fraction(round(mm * _PLACES_MM), _PLACES_MM) if mm == mm else None


def _misfits(result: Adjustment, sights: list[_Sight]) -> list[Misfit]:
    found = []
    for suspect in result.suspects:
        if suspect.source.kind == "reading":
            sight = sights[suspect.source.row]
            point = sight.on if isinstance(sight.on, str) else None
            found.append(Misfit(sight.what, point, suspect.blunder_m * 1000))
    return found


# --- what is in doubt ------------------------------------------------------------------


def _with_doubts(job: Job, found: Surveyed) -> Surveyed:
    doubtful: dict[str, str] = {}
    after: set[str] = set()
    for point, reading in job.readings.items():
        seen = found.watches[reading.set_up]
        if reading.order in seen.doubtful:
            doubtful[point] = "step"
        elif reading.order in seen.after_step:
            after.add(point)
    for number, begun in enumerate(job.survey.set_ups):
        if begun.after_move:
            doubtful.update(dict.fromkeys(_moved(job, found, number - 1), "moved"))
    return replace(found, doubtful=doubtful, after_step=frozenset(after))


def _moved(job: Job, found: Surveyed, set_up: int) -> list[str]:
    """
    Points read since the last good check of a set-up whose reference moved afterwards.

    All are believed again where the ties since show that it had not moved at all. Where
    several ties since on such points agree, those were read before the move, and so was
    everything before them.
    """
    most = good_mm(job.survey)
    since = found.watches[set_up].last_good(most) if found.watches[set_up].seen else 0
    before, after = found.zeros_mm[set_up], found.zeros_mm[set_up + 1]
    if before is not None and after is not None and abs(float(after - before)) <= most:
        return []
    read = {
        point: reading
        for point, reading in job.readings.items()
        if reading.set_up == set_up and reading.order >= since
    }
    tied = {
        str(mark.on): float(read[str(mark.on)].mm - mark.height.mm)
        for mark in job.survey.marks
        if mark.height.set_up == set_up + 1 and mark.on in read
    }
    apart = max(tied.values(), default=0.0) - min(tied.values(), default=0.0)
    if len(tied) >= TIES_TO_CLEAR and apart <= most:
        since = max(read[point].order for point in tied) + 1
    return [point for point, reading in read.items() if reading.order >= since]
