"""Heights of the points above the datum, from the readings of one set-up or many.

The datum is the zero of the first set-up. While that is the only one, without a check or tie, a
height is exactly the reading. With more, all readings, ties and benchmarks are adjusted together;
heights then come from floats, rounded to a hundred-thousandth of a millimetre so that sixteenths
and thirty-seconds of an inch stay exact.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from assistant.floor.late_numpy import np
from assistant.floor.odd_looks import cleared_orders, stood_until
from assistant.floor.sights import Sight, heights_from, sights_of, ties_and_benchmark_sights
from assistant.floor.soundness import Soundness, soundness
from assistant.floor.surveyed import Misfit, Surveyed
from assistant.floor.zero_checks import Watch, good_mm, look_sd_mm, watch_zero
from assistant.job import Job
from assistant.job.once import cached
from assistant.job.set_ups import Height

if TYPE_CHECKING:
    from assistant.levels.adjustment import Adjustment, Known
    from assistant.levels.arrays import FloatArray

_PLACES_MM = 100_000


@cached
def reading_sd_mm(job: Job) -> float:
    """Standard deviation of one reading, from the instrument's settings."""
    return look_sd_mm(job.survey)


@cached
def survey_of(job: Job) -> Surveyed:
    """The survey's results, worked out once for each job."""
    state = job.survey
    if len(state.set_ups) == 1 and not state.marks:
        return _plain(job)
    watches = tuple(
        watch_zero(job, number, heights_from(job, number)) for number in range(len(state.set_ups))
    )
    sights = sights_of(job, watches)
    if (
        len(state.set_ups) == 1
        and not ties_and_benchmark_sights(job)
        and not watches[0].correction_mm
    ):
        sound = soundness(job, sights, watches, (0,), frozenset())
        return _with_doubts(job, _plain(job, watches), sound)
    stood: frozenset[int] = frozenset()
    until: dict[int, int] = {}
    while True:
        borne_out = cleared_orders(job, watches, until)
        sound = soundness(job, sights, watches, _sound_zeros(job), stood, borne_out)
        found = _adjusted(job, watches, [sight for sight in sights if sound.counts(sight)])
        more = _stood_still(job, found, sound) - stood
        looks = stood_until(job, found, sound, sights)
        if not more and looks.keys() <= until.keys():
            return _with_doubts(job, _with_odd_looks(found, sights, until, sound), sound)
        stood, until = stood | more, {**looks, **until}


def _with_odd_looks(
    found: Surveyed, sights: list[Sight], until: Mapping[int, int], sound: Soundness
) -> Surveyed:
    """The survey with its odd zero checks named, which no adjustment includes."""
    odd = {seen.order: seen.off_mm for n in until if (seen := found.watches[n].alone)}
    named = [
        Misfit(sight.what, None, odd[sight.height.order], left_out=True)
        for sight in sights
        if sight.height.order in odd and sight.height.order in sound.own
    ]
    return replace(found, misfits=(*named, *found.misfits))


def _sound_zeros(job: Job) -> frozenset[int]:
    """The first set-up; for a finished floor all that were sound when the slab was covered."""
    return frozenset({0}) if job.slab is None else survey_of(job.slab).sound.set_ups


def _stood_still(job: Job, found: Surveyed, sound: Soundness) -> frozenset[int]:
    """Set-ups reported as moved whose zero is as before by later sound ties."""
    stood = set()
    for number, begun in enumerate(job.survey.set_ups):
        before, after = found.zeros_mm[number - 1], found.zeros_mm[number]
        if not begun.after_move or before is None or after is None:
            continue
        as_before = abs(float(after - before)) <= good_mm(job.survey)
        if as_before and {number - 1, number} <= sound.set_ups:
            stood.add(number - 1)
    return frozenset(stood)


def heights_of(job: Job) -> dict[str, Fraction]:
    """Exact height in mm of each point above the datum, after any grinding."""
    heights, ground = survey_of(job).heights_mm, job.survey.ground
    if not ground:  # the usual case, kept quick as there is a fraction for each point
        return dict(heights)
    return {point: height - ground.get(point, 0) for point, height in heights.items()}


def above_datum_mm(job: Job, height: Height) -> Fraction | None:
    """A height above the datum, from one against a set-up's zero; None while that is untied."""
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


# --- several set-ups -----------------------------------------------------------------


def _adjusted(job: Job, watches: tuple[Watch, ...], sights: list[Sight]) -> Surveyed:
    marks = list(dict.fromkeys(sight.on for sight in sights))
    result = _adjust(job, sights, {mark: row for row, mark in enumerate(marks)})
    zeros = tuple(_exact(height * 1000) for height in result.zeros_m.tolist())
    heights, sds, own_sds, shared = {}, {}, {}, {}
    everywhere = np.arange(len(marks))
    own_m, shared_m = result.own_sd_m(everywhere), _steady(result.shared_m(everywhere))
    read_on: dict[str | int, list[Sight]] = {}
    # What is known beside the readings is exact, and is never left out.
    gone = {source.row for source in result.left_out}
    for row, sight in enumerate(sights):
        if row not in gone:
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
    Shared errors in mm, rounded to a millionth.

    So they are identical for the same ties whatever was read since, and what was worked out with
    them can be used again.
    """
    rows: list[list[float]] = (np.round(np.nan_to_num(shared_m) * 1000, 6) + 0.0).tolist()
    return [tuple(row) for row in rows]


def _adjust(job: Job, sights: list[Sight], row: dict[str | int, int]) -> Adjustment:
    from assistant.levels.adjustment import Known, PointObservations, without_blunders

    readings = PointObservations(
        set_up=[sight.height.set_up for sight in sights],
        point=[row[sight.on] for sight in sights],
        value_m=[(float(sight.exact_mm) + sight.drift_mm) / 1000 for sight in sights],
        sd_m=reading_sd_mm(job) / 1000,
    )
    placed = {n: mark for n, mark in job.survey.benchmarks.items() if n in row}
    known = Known([row[n] for n in placed], [float(mark.mm) / 1000 for mark in placed.values()])
    return without_blunders(
        len(row),
        len(job.survey.set_ups),
        readings,
        known_points=known,
        known_zeros=_known_zeros(job),
    )


def _known_zeros(job: Job) -> Known:
    """The datum; for a finished floor also the zeros found by the slab's survey.

    The slab's points are covered, so the ties of those set-ups cannot be read again.
    """
    from assistant.levels.adjustment import Known

    zeros = (Fraction(0),) if job.slab is None else survey_of(job.slab).zeros_mm
    known = {number: zero for number, zero in enumerate(zeros) if zero is not None}
    return Known(list(known), [float(zero) / 1000 for zero in known.values()])


def _is_read(sights: list[Sight], set_up: int) -> bool:
    return any(sight.height.set_up == set_up for sight in sights)


def _height_mm(
    read: list[Sight], zeros: tuple[Fraction | None, ...], adjusted_mm: float
) -> Fraction | None:
    """A point's height; exact where it depends on one reading and the datum only."""
    zero = zeros[read[0].height.set_up]
    if len(read) == 1 and zero is not None and not read[0].drift_mm:
        return zero + read[0].exact_mm
    return _exact(adjusted_mm)


def _exact(mm: float) -> Fraction | None:
    return Fraction(round(mm * _PLACES_MM), _PLACES_MM) if mm == mm else None


def _misfits(result: Adjustment, sights: list[Sight]) -> list[Misfit]:
    """Blunders that were identified and left out; then those that cannot be separated."""
    off_m = dict(zip(result.sources, (-result.residuals_m).tolist(), strict=True))
    blamed = [(source, off_m[source], True) for source in result.left_out]
    several = [(suspect.source, suspect.blunder_m, False) for suspect in result.suspects]
    found = []
    for source, metres, alone in blamed + several:
        sight = sights[source.row]
        point = sight.on if isinstance(sight.on, str) else None
        found.append(Misfit(sight.what, point, metres * 1000, alone))
    return found


# --- what is in doubt ------------------------------------------------------------------


def _with_doubts(job: Job, found: Surveyed, sound: Soundness) -> Surveyed:
    doubtful: dict[str, str] = {}
    after: set[str] = set()
    for point, reading in job.readings.items():
        if point not in sound.marks and reading.order in sound.own:
            doubtful[point] = sound.own[reading.order]
        elif point not in sound.marks and point in found.heights_mm:
            doubtful[point] = "hangs"
        elif reading.order in found.watches[reading.set_up].after_step:
            after.add(point)
    hang = {job.readings[point].set_up for point, why in doubtful.items() if why == "hangs"}
    return replace(
        found,
        doubtful=doubtful,
        after_step=frozenset(after),
        sound=sound,
        hanging=tuple(sorted(hang - sound.set_ups)),
    )
