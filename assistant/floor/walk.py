"""The walk over the points: where it goes next, and what is left of it."""

from __future__ import annotations

from assistant.floor.heights import survey_of
from assistant.floor.places import places_of
from assistant.job import Job


def next_point(job: Job) -> str | None:
    """
    The point that a value without one is for; None where no such point is sure.

    The point that was named to go to; else one that was mended and is to be read again. Else on
    from the last one read, round to the start, and it begins at the last point itself, so a reading
    struck just now is taken again before the walk goes on. Whoever reads again is likely to go on
    doing so: after a point that was read again the next one in doubt counts as well, and where
    nothing is left, the neighbour on the walk.
    """
    places, walk = places_of(job.layout), job.walk
    if walk.goes_to in places.row:
        return walk.goes_to
    start = places.row.get(job.last_point or "", 0)
    around = (*places.names[start:], *places.names[:start])
    mended = (name for name in around if name in job.proof.mended_at)
    waits = next((n for n in mended if n not in walk.skipped and n not in job.readings), None)
    if waits is not None:
        return waits
    doubtful = survey_of(job).doubtful if walk.is_again else {}
    wanted = (
        name
        for name in around
        if name not in walk.skipped and (name not in job.readings or name in doubtful)
    )
    found = next(wanted, None)
    if found is None and walk.is_again and job.last_point in places.row:
        left = (name for name in places.names[start + 1 :] if name not in walk.skipped)
        return next(left, None)
    return found


def points_missing(job: Job) -> tuple[str, ...]:
    """Points with a place, no reading, and no word that they cannot be read; in walking order."""
    return tuple(
        name
        for name in places_of(job.layout).names
        if name not in job.readings and name not in job.walk.skipped
    )


def points_skipped(job: Job) -> dict[str, str]:
    """Points that cannot be read, with the reason as it was said; in walking order."""
    skipped = job.walk.skipped
    return {name: skipped[name] for name in places_of(job.layout).names if name in skipped}


def skipped_words(job: Job) -> str:
    """
    Which points were skipped and why, as a sentence; empty where none was.

    A reason is quoted as the speaker's.
    """
    skipped = points_skipped(job)
    if not skipped:
        return ""
    told = [f"{name} (“{why}”)" if why else name for name, why in skipped.items()]
    shown = ", ".join(told[:6]) + (f" and {len(told) - 6} more" if len(told) > 6 else "")
    return f"Not read, as said: {shown}. The surface bridges {'it' if len(told) == 1 else 'them'}."
