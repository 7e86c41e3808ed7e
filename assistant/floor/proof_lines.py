"""Heights along a line as the numeric core takes them, and how a line stands."""

from __future__ import annotations

from math import hypot

from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.floor.places import places_of
from assistant.job import Job
from assistant.job.proof import ProofLine
from assistant.reply import wording
from grammar.frozen import frozen


@frozen
class Profile:
    """Heights at even spacing along one line, from its start on."""

    line: int
    spacing_m: float
    heights_mm: tuple[float, ...]
    """Up positive; above the datum where all of its set-ups are tied, else above the one zero
    that all of them were read from."""
    sd_mm: float
    """Standard deviation of one height against the next: the reading's alone."""


def profile_of(job: Job, line: ProofLine) -> Profile | None:
    """
    The heights along a line.

    None where its values were read from several set-ups that are not tied together: they cannot
    be compared.
    """
    set_ups = {height.set_up for height in line.values}
    zeros = dict.fromkeys(set_ups, 0.0)
    if len(set_ups) > 1:
        known = {number: survey_of(job).zeros_mm[number] for number in set_ups}
        if any(zero is None for zero in known.values()):
            return None
        zeros = {number: float(zero) for number, zero in known.items() if zero is not None}
    elif set_ups and (zero := survey_of(job).zeros_mm[next(iter(set_ups))]) is not None:
        zeros = dict.fromkeys(set_ups, float(zero))
    offset, watches = float(job.survey.offset_mm), survey_of(job).watches
    heights = tuple(
        float(height.mm)
        - offset
        + zeros[height.set_up]
        + watches[height.set_up].correction_mm.get(height.order, 0.0)
        for height in line.values
    )
    return Profile(line.number, line.spacing_m, heights, reading_sd_mm(job))


def doubtful_values(job: Job, line: ProofLine) -> tuple[int, ...]:
    """The values, counted from 1, that were read while the zero may have moved."""
    in_doubt = survey_of(job).sound.own
    return tuple(number for number, height in enumerate(line.values, 1) if height.order in in_doubt)


def profiles_of(job: Job) -> tuple[Profile, ...]:
    """Those of all lines that have values and can be compared, by their numbers."""
    found = (profile_of(job, job.proof.lines[number]) for number in sorted(job.proof.lines))
    return tuple(profile for profile in found if profile is not None and profile.heights_mm)


def mended_since(job: Job, line: ProofLine) -> dict[int, str]:
    """
    The values of a line, counted from 0, that are of another floor by now, each with the point that
    was ground or filled since.

    A point's mending reaches as far as to the next value, or half way to the next point. Of a line
    that nobody placed none is known.
    """
    if line.ends_m is None or not job.proof.mended_at:
        return {}
    places = places_of(job.layout)
    mended = [
        (point, at, places.xy(point), max(line.spacing_m, _half_way_m(job, point)) * (1 + _HAIR))
        for point, at in job.proof.mended_at.items()
        if point in places.row
    ]
    found = {}
    for index, height in enumerate(line.values):
        place = line.place_m(index)
        for point, at, (x, y), reach in mended:
            if (
                place is not None
                and height.order < at
                and hypot(place[0] - x, place[1] - y) < reach
            ):
                found[index] = point
    return found


_HAIR = 1e-6


def _half_way_m(job: Job, point: str) -> float:
    places = places_of(job.layout)
    x, y = places.xy(point)
    others = [hypot(x - a, y - b) for name, (a, b) in places.at_m.items() if name != point]
    return min(others, default=0.0) / 2


def mended_words(job: Job) -> list[str]:
    """What was read along lines before the floor was mended there, and counts no more."""
    told = []
    for number in sorted(job.proof.lines):
        since = mended_since(job, job.proof.lines[number])
        if since:
            points = wording.join_names(list(dict.fromkeys(since.values())))
            told.append(
                f"Line {number} was read before {points} was mended: what it showed there counts "
                f"no more. Read it again: line {number} from its start, or another beside it."
            )
    return told
