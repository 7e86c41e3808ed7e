"""Heights along a line as the numeric core takes them, and how a line stands."""

from __future__ import annotations

from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.job import Job
from assistant.job.proof import ProofLine
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
    """The values, counted from 1, that were read while the zero moved at an unknown time."""
    watches = survey_of(job).watches
    return tuple(
        number
        for number, height in enumerate(line.values, 1)
        if height.order in watches[height.set_up].doubtful
    )


def profiles_of(job: Job) -> tuple[Profile, ...]:
    """Those of all lines that have values and can be compared, by their numbers."""
    found = (profile_of(job, job.proof.lines[number]) for number in sorted(job.proof.lines))
    return tuple(profile for profile in found if profile is not None and profile.heights_mm)
