"""How far the reading of a job's floor has come, in a few words."""

from __future__ import annotations

from assistant.floor.places import places_of
from assistant.floor.walk import points_missing
from assistant.job import Job, being_read, is_poured


def progress_words(job: Job) -> str:
    """
    How many points are read, of the floor that lies open; nothing for a job with none.

    Of the words of ``standing`` those that cost no adjustment, as a list has many jobs.
    """
    floor = being_read(job)
    total = len(places_of(floor.layout).names)
    read = total - len(points_missing(floor)) if total else len(floor.readings)
    poured = is_poured(job)
    if not total and not read:
        return "poured" if poured else "nothing read"
    told = f"{read} of {total} read" if total else f"{read} read"
    return f"poured, {told} since" if poured else told
