"""The warnings of one zone: about its points, its doors, its edge, and the weight on it."""

from __future__ import annotations

from assistant.floor.depths import zone_of_point
from assistant.floor.tally import tally_of
from assistant.floor.warnings import all_warnings, warning_kind, warning_subject
from assistant.floor.zones import in_zone
from assistant.job import Job
from assistant.job.zones import REST
from assistant.limits.pour_warnings import weight_warnings
from assistant.reply.replies import LimitWarning

_OF_THE_FLOOR = ("weight", "points-missing", "points-skipped")
"""Worked out for the whole floor, so not said of one zone, which may be heavier, or all read."""


def zone_warnings(job: Job, zone: str) -> tuple[LimitWarning, ...]:
    """All warnings that are about a zone, or about the whole job and so about it too."""
    about = [warning for warning in all_warnings(job) if _is_about(job, warning, zone)]
    material = tally_of(in_zone(job, zone)).material
    heavy = weight_warnings(material.mass_kg_per_m2, job.reading_unit) if material else ()
    return (*about, *heavy)


def _is_about(job: Job, warning: LimitWarning, zone: str) -> bool:
    kind, subject = warning_kind(warning), warning_subject(warning)
    if kind in _OF_THE_FLOOR:
        return False
    if kind == "zone-step":
        return zone in subject.split("/")
    if kind.startswith("door-"):
        door = job.doors.get(int(subject))
        return zone_of_point(job, door.point if door else None) == zone
    if subject in job.readings:
        return zone_of_point(job, subject) == zone
    return not subject or zone == REST
