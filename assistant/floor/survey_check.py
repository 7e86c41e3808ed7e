"""Whether the survey can be trusted: what disagrees in it, and what to read again."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

from assistant.floor.changed_by_checks import drift_told, read_from
from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.floor.in_doubt import doubtful_lines
from assistant.floor.interval import Spots, natural_fit_of, spots_of
from assistant.floor.late_numpy import np
from assistant.floor.off_plan import (
    checks_in_survey,
    is_of_slab,
    off_as_a_whole_mm,
    unlooked_zeros,
)
from assistant.floor.places import places_of
from assistant.floor.steps import steps_of
from assistant.floor.suspicion import FEWEST_READINGS
from assistant.floor.ties import how_to_tie
from assistant.floor.zero_checks import Watch, good_mm
from assistant.job import Job
from assistant.job.once import cached
from assistant.limits.limits import exact_number
from assistant.reply import wording
from assistant.reply.side_by_side import lengths
from assistant.units.lengths import exact_mm
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import BoolArray
    from assistant.levels.kriged.surface import KrigedSurface
    from assistant.levels.kriged.tiles import Tile
    from assistant.levels.outliers import NeighbourPrediction

TRUST, LOOK, AGAIN = "trust it", "look at these", "do it again"
UNCHECKED = "no objection, but unchecked"
"""Nothing disagrees in the survey, but too little was checked."""

TOO_MANY = 1 / 3
"""Part of the points to read again from which reading all of them again is less work. Our own
choice, no source."""
_WORTH_A_LOOK = 2.5
"""Standard deviations from its neighbours within which no reading is suspect."""


@frozen
class Finding:
    """Something that disagrees in the survey."""

    why: str
    """``untied``, ``hangs``, ``moved``, ``step``, ``tie``, ``jumping``, ``neighbours``,
    ``misfit``, ``zero`` or ``plan``."""
    message: str
    """What disagrees, and what to do about it."""
    points: tuple[str, ...] = ()
    """Points to be read again."""
    what: str | None = None
    """What else to read again: a tie or a benchmark."""
    off_mm: float | None = None
    """Its reading minus what all others give."""


@frozen
class SurveyVerdict:
    """What is to be done about the survey, and why."""

    verdict: str
    findings: tuple[Finding, ...]
    notes: tuple[str, ...]
    """What supports it, and what was not checked."""
    unchecked: tuple[str, ...]
    """Checks that could have shown a fault and were not made."""


@cached
def verdict_of(job: Job) -> SurveyVerdict:
    """
    Trust it, no objection but unchecked, look at these points, or survey again.

    Trust needs a check that could have failed. Surveying again takes more than ties that
    disagree as a whole, since that test by design fails one good survey in forty. Nor is a
    single zero check that is off enough, which may be misread, nor readings that one sound
    tie would confirm.
    """
    findings, unchecked = tuple(_findings(job)), tuple(_unchecked(job))
    may_be_misread = _by_one_look(job)
    points = {
        point
        for finding in findings
        for point in finding.points
        if finding.why != "hangs" and (finding.why != "step" or point not in may_be_misread)
    }
    verdict = LOOK if findings else UNCHECKED if unchecked else TRUST
    lost = len(findings) > 1 and any(finding.why == "misfit" for finding in findings)
    if lost or len(points) > max(TOO_MANY * len(job.readings), 1):
        verdict = AGAIN
    return SurveyVerdict(verdict, findings, tuple(_notes(job)), unchecked)


def _by_one_look(job: Job) -> set[str]:
    """Points doubtful only because of a single odd zero check."""
    found = survey_of(job)
    return {
        point
        for point, why in found.doubtful.items()
        if why == "step" and found.watches[job.readings[point].set_up].alone is not None
    }


def _unchecked(job: Job) -> Iterator[str]:
    found = survey_of(job)
    unseen = unlooked_zeros(job)
    since = "the pour" if all(is_of_slab(job, number) for number in unseen) else "it was set"
    if len(found.watches) == 1 and unseen:
        yield f"the zero since {since}"
    elif unseen:
        numbers = wording.join_names([str(number + 1) for number in unseen])
        yield f"the zero of set-up {numbers} since {since}"
    if _too_few_to_compare(job):
        yield "the readings against each other, with too few on the floor"


def _too_few_to_compare(job: Job) -> bool:
    return len(spots_of(job).names) <= FEWEST_READINGS or not places_of(job.layout).names


def _findings(job: Job) -> Iterator[Finding]:
    yield from _of_set_ups(job)
    yield from _of_zeros(job)
    yield from _of_plan(job)
    yield from _of_ties(job)
    yield from jumping_points(job)
    yield from of_neighbours(job)


def _of_set_ups(job: Job) -> Iterator[Finding]:
    for number in survey_of(job).untied:
        points = read_from(job, number)
        what = f" ({wording.join_names(points)})" if points else ""
        yield Finding(
            "untied",
            f"Nothing ties set-up {number + 1}{what} to the others. {how_to_tie(job, number)}",
            what=f"set-up {number + 1}",
        )
    for number in survey_of(job).hanging:
        points = tuple(
            p for p in read_from(job, number) if survey_of(job).doubtful.get(p) == "hangs"
        )
        yield Finding(
            "hangs",
            f"Set-up {number + 1} ({wording.join_names(points)}) is tied on what is in doubt "
            f"itself. {how_to_tie(job, number)}",
            points,
            what=f"set-up {number + 1}",
        )


def _of_zeros(job: Job) -> Iterator[Finding]:
    found = survey_of(job)
    odd = wording.join_names(
        [_odd_look(n, seen) for n, seen in enumerate(found.watches) if seen.alone]
    )
    for why, told in (
        ("moved", "The reference moved after the last good check"),
        ("step", f"The zero moved between two checks{f', or {odd} was misread' if odd else ''}"),
    ):
        points = tuple(point for point, reason in found.doubtful.items() if reason == why)
        if points:
            yield Finding(why, f"{told}: read {wording.join_names(points)} again.", points)
    for line in doubtful_lines(job):
        yield Finding(
            "moved",
            f"Values of {line} were read while the zero moved, or may have: read it again, from "
            "its start, or another beside it.",
            what=line,
        )
    if found.after_step:
        points = tuple(sorted(found.after_step))
        yield Finding(
            "step",
            f"{wording.join_names(points)}: read after the zero moved, and brought back by the "
            "checks since. They hold if it has been at rest; tie on one of them to see.",
        )
    off = zero_off_mm(job)
    if abs(off) > good_mm(job.survey):
        yield Finding("zero", zero_moved_words(job, off), what="zero", off_mm=off)


def _of_plan(job: Job) -> Iterator[Finding]:
    """A poured floor that is off its plan as a whole, by a zero that nobody looked at since."""
    off = off_as_a_whole_mm(job)
    if off is None or abs(off) <= good_mm(job.survey) or not unlooked_zeros(job):
        return
    size = wording.length(round(abs(off), 1), job.reading_unit)
    yield Finding(
        "plan",
        f"As a whole the floor lies {size} {'above' if off > 0 else 'below'} the planned finish, "
        "and the zero was not looked at since the pour. Look at it before anything is ground or "
        "filled: check zero, with what it shows.",
        what="zero",
        off_mm=off,
    )


def _odd_look(number: int, seen: Watch) -> str:
    on = seen.alone.on if seen.alone else None
    what = "the zero" if on is None else f"benchmark {on}"
    return f"one look at {what} from set-up {number + 1}"


def zero_off_mm(job: Job) -> float:
    """How far off the present zero was at its last check."""
    seen = survey_of(job).watches[-1].seen
    return seen[-1].off_mm if len(seen) > 1 else 0.0


def zero_moved_words(job: Job, off_mm: float) -> str:
    """What to do about a zero that is off, in words."""
    off = wording.length(abs(off_mm), job.reading_unit)
    alone = survey_of(job).watches[-1].alone
    if alone is not None:
        what = "the zero" if alone.on is None else f"benchmark {alone.on}"
        again = "check zero" if alone.on is None else f"check benchmark {alone.on}"
        return (
            f"One look at {what} is off by {off}: misread, or the zero moved. Look once more "
            f"before anything is set again ({again}, with what it shows); a second look that "
            "agrees tells."
        )
    return (
        f"The zero is off by {off}. Set it again and say: check zero level; or begin a "
        "new set up, and tie it."
    )


def _of_ties(job: Job) -> Iterator[Finding]:
    found = survey_of(job)
    for misfit in found.misfits:
        off = wording.length(abs(misfit.off_mm), job.reading_unit)
        side = "above" if misfit.off_mm > 0 else "below"
        told = "Left out of the heights; take it again"
        if not misfit.left_out:
            told = "One of those that disagree"
        points = () if misfit.point is None else (misfit.point,)
        yield Finding(
            "tie",
            f"{wording.sentence(misfit.what)[:-1]} is {off} {side} what all the others say. "
            f"{told}.",
            points,
            misfit.what,
            misfit.off_mm,
        )
    if found.too_large and not found.misfits and found.sigma0 is not None:
        yield Finding(
            "misfit",
            f"Ties and readings disagree {found.sigma0:.1f} times as much as the instrument "
            "should, and no single one is to blame. Check the instrument, and take the ties again.",
        )


def jumping_points(job: Job) -> Iterator[Finding]:
    """Points where the display jumped by more than the instrument's own noise."""
    if not job.survey.shown:
        return
    from assistant.levels.reduction import settle_display

    state = job.survey
    for point, shown in state.shown.items():
        values = [float(exact_mm(value)) / 1000 for value in shown]
        settled = settle_display(
            values, float(state.resolution_mm) / 1000, float(state.repeatability_mm) / 1000
        )
        if settled.wait:
            spread, most = lengths(
                job.reading_unit,
                exact_number(settled.spread_m * 1000),
                exact_number(settled.allowed_m * 1000),
            )
            yield Finding(
                "jumping",
                f"{point} jumped by {spread}; the instrument's own noise is up to {most}. "
                "Let it come to rest and read it again.",
                (point,),
            )


def of_neighbours(job: Job, only: Collection[str] | None = None) -> Iterator[Finding]:
    """Readings that don't fit the floor around; of the named points only, if any."""
    spots = spots_of(job, ground=False)
    floor = natural_fit_of(job)
    if floor is None:
        return
    quiet = {door.point for door in job.doors.values()} | set(job.survey.accepted)
    quiet = quiet.union(*(step.beside for step in steps_of(job)))
    asked = np.array([name not in quiet and (only is None or name in only) for name in spots.names])
    found = [
        (int(tile.rows[row]), look)
        for part, tile in _in_parts(floor, spots)
        for row, look in _suspect(job, part, spots.part(tile.rows), _where(asked, tile))
    ]
    for row, look in sorted(found, key=lambda each: each[0]):
        off_m = float(spots.heights_m[row]) - look.expected_m
        yield _beside_neighbours(job, spots.names[row], off_m * 1000)


def _in_parts(floor: KrigedSurface, spots: Spots) -> Iterator[tuple[KrigedSurface, Tile]]:
    """The floor as a whole, or in tiles with every reading where the fit left some out."""
    from assistant.levels.kriged.tiles import Tile, tiles
    from assistant.levels.kriging import of_part

    everything = np.arange(len(spots.names))
    if len(floor.points_m) == len(everything):
        yield floor, Tile(everything, everything)
        return
    for tile in tiles(spots.xy_m):
        some = spots.part(tile.rows)
        part = of_part(floor, some.xy_m, some.heights_m, some.noise_m, some.shared_m)
        yield part, tile


def _where(asked: BoolArray, tile: Tile) -> list[int]:
    """The rows of the points that are judged in this tile, not only looked at."""
    wanted = tile.judged[asked[tile.judged]]
    return [int(row) for row in np.searchsorted(tile.rows, wanted)]


def _suspect(
    job: Job, floor: KrigedSurface, spots: Spots, rows: list[int]
) -> Iterator[tuple[int, NeighbourPrediction]]:
    """Which of some readings of a fit don't agree with their neighbours."""
    from assistant.levels.outliers import look_at

    for row in rows:
        expected = floor.predict_without(row)
        off = abs(float(expected.mean[0]) - float(spots.heights_m[row]))
        if off < _WORTH_A_LOOK * float(expected.sd[0]):
            continue
        look = look_at(
            floor,
            spots.xy_m[row],
            spots.heights_m[row],
            resolution_m=float(job.survey.resolution_mm) / 1000,
            noise_sd_m=float(spots.noise_m[row]),
            shared_m=spots.shared_m[row],
        )
        if look.suspect:
            yield row, look


def _beside_neighbours(job: Job, point: str, off_mm: float) -> Finding:
    unit = job.reading_unit
    shown = abs(round(off_mm)) if unit == "mm" else abs(off_mm)
    off = f"{wording.length(shown, unit)} {'above' if off_mm > 0 else 'below'}"
    return Finding(
        "neighbours",
        f"{point} is about {off} what its neighbours say. Read it again; if it is so, "
        "confirm it when asked.",
        (point,),
        off_mm=off_mm,
    )


def _notes(job: Job) -> Iterator[str]:
    found = survey_of(job)
    checks = sum(checks_in_survey(job, number) for number in range(len(found.watches)))
    if checks:
        often = "once" if checks == 1 else f"{checks} times"
        after = "after it was set" if job.slab is None else "since the pour"
        yield f"The zero was looked at {often} {after}."
    else:
        since = "it was set" if job.slab is None else "the pour"
        yield f"The zero was not looked at since {since}: check zero level."
    if found.sigma0 is not None:
        how = "more than" if found.too_large else "as"
        yield f"Ties and readings differ {how} the instrument promises (factor {found.sigma0:.1f})."
    yield from drift_told(job)
    on_floor = len(spots_of(job).names)
    if _too_few_to_compare(job):
        yield "Too few points with a place to hold one against the others."
    floor = natural_fit_of(job)
    if floor is not None and len(floor.points_m) < on_floor:
        yield (
            f"Each of the {wording.figure(on_floor, 0)} points was held against all those near it; "
            f"how uneven the floor is as a whole goes by {wording.figure(len(floor.points_m), 0)} "
            "of them."
        )
    sd = wording.error_size(reading_sd_mm(job), job.reading_unit)
    yield f"One reading is good to {sd} (standard deviation), by the instrument's settings."
