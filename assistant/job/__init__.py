"""The job as it stands: what the events add up to.

Pure: the same events always give the same job, and a job is never changed,
only followed by another. ``state`` is what a job is, ``draft`` what each event
does to it, ``surveys`` its two surveys, ``history`` what of the record counts, ``fold`` the
way from a whole record to the job.
"""

from assistant.job.fold import apply, fold, next_number, record
from assistant.job.history import in_force, to_redo, to_undo
from assistant.job.layout import Layout, Place, Rectangle, WalkedRoom, Wall
from assistant.job.state import (
    EMPTY,
    USUAL_WASTE_PERCENT,
    Door,
    FinishedFloor,
    Job,
    Utterance,
)
from assistant.job.surveys import (
    being_read,
    finished_floor,
    is_poured,
    is_poured_over,
    second_survey_is_open,
    survey_named,
    with_second_survey_begun,
)

__all__ = [
    "EMPTY",
    "USUAL_WASTE_PERCENT",
    "Door",
    "FinishedFloor",
    "Job",
    "Layout",
    "Place",
    "Rectangle",
    "Utterance",
    "WalkedRoom",
    "Wall",
    "apply",
    "being_read",
    "finished_floor",
    "fold",
    "in_force",
    "is_poured",
    "is_poured_over",
    "next_number",
    "record",
    "second_survey_is_open",
    "survey_named",
    "to_redo",
    "to_undo",
    "with_second_survey_begun",
]
