"""Which readings of a floor are in doubt, so that nothing that rests on them is called sure."""

from __future__ import annotations

from assistant.floor.heights import survey_of
from assistant.floor.places import places_of
from assistant.floor.proof_lines import doubtful_values
from assistant.job import Job
from assistant.reply import wording

__all__ = ["doubt_words", "doubtful_lines", "doubtful_names", "doubtful_points"]

_MOST_NAMED = 6


def doubtful_points(job: Job) -> tuple[str, ...]:
    """Points whose reading is in doubt, in walking order."""
    order = places_of(job.layout).row
    return tuple(sorted(survey_of(job).doubtful, key=lambda name: order.get(name, len(order))))


def doubtful_lines(job: Job) -> tuple[str, ...]:
    """Lines with a value that is in doubt."""
    lines = job.proof.lines
    return tuple(
        f"line {number}" for number in sorted(lines) if doubtful_values(job, lines[number])
    )


def doubtful_names(job: Job) -> str:
    """All of them in words; empty where there is none."""
    return wording.join_names([*doubtful_points(job), *doubtful_lines(job)], most=_MOST_NAMED)


def doubt_words(job: Job) -> list[str]:
    """That some readings are in doubt, to stand with a number that rests on them."""
    names = doubtful_names(job)
    return [f"In doubt: {names}. What rests on them may be wrong (survey check)."] if names else []
