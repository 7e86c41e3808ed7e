"""What a set-up can soundly be tied on, in words."""

from __future__ import annotations

from assistant.floor.heights import survey_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import tie_on_benchmark, tie_on_point


def sound_benchmarks(job: Job, set_up: int | None = None) -> tuple[int, ...]:
    """Benchmarks whose height was given, or has a sound reading from another set-up."""
    here = job.survey.set_up if set_up is None else set_up
    given = tuple(job.survey.benchmarks)
    sound = survey_of(job).sound
    read = {
        mark.on
        for mark in job.survey.marks
        if isinstance(mark.on, int)
        and mark.on in sound.marks
        and mark.height.set_up != here
        and mark.height.set_up in sound.set_ups
        and mark.height.order not in sound.own
    }
    return given + tuple(sorted(number for number in read if number not in given))


def sound_points(job: Job, set_up: int | None = None) -> tuple[str, ...]:
    """
    Points with a sound reading from another set-up, the best to tie on last.

    That is the one read last; one that was suspect and confirmed only where there is no other.
    """
    here = job.survey.set_up if set_up is None else set_up
    found = survey_of(job)
    read = [
        point
        for point, reading in job.readings.items()
        if reading.set_up != here
        and point in found.heights_mm
        and point not in found.doubtful
        and (reading.set_up in found.sound.set_ups or point in found.sound.marks)
    ]
    return tuple(
        sorted(
            read,
            key=lambda point: (
                # Points corrected by checks are sound only if the zero has not moved since.
                point not in found.after_step,
                point not in job.survey.accepted,
                job.readings[point].order,
            ),
        )
    )


def how_to_tie(job: Job, set_up: int | None = None) -> str:
    """
    What to say to tie a set-up, the present one by default, on something sound.

    Where nothing sound is left, how to get something sound.
    """
    if sound_benchmarks(job, set_up) or sound_points(job, set_up):
        return f"Join it to the others: {ways_to_tie(job, set_up)}."
    return (
        f"{_why_nothing(job)} A mark of known height will do, such as the one the first zero was "
        f"set by: {ways_to_tie(job, set_up)}."
    )


def ways_to_tie(job: Job, set_up: int | None = None) -> str:
    """The lines to say for a tie."""
    benchmarks, points = sound_benchmarks(job, set_up), sound_points(job, set_up)
    ways = [tie_on_benchmark(benchmarks[0])] if benchmarks else []
    ways += [tie_on_point(points[-1])] if points else []
    number = max(job.survey.benchmarks, default=0) + 1
    unit = job.reading_unit
    named = f"benchmark {number} at level, then {tie_on_benchmark(number).in_unit(unit)}"
    return wording.join_names([way.in_unit(unit) for way in ways], last="or") or named


def _why_nothing(job: Job) -> str:
    if not job.readings:
        return "Nothing was read yet to tie it on."
    return "Nothing read is sound to tie on."


def how_to_tie_spoken(job: Job) -> str:
    """The same in short: what to tie the present set-up on."""
    if benchmarks := sound_benchmarks(job):
        return f"Tie on benchmark {wording.spoken_number(benchmarks[0])}."
    if points := sound_points(job):
        return f"Tie on {wording.spoken_name(points[-1])}."
    return "Nothing sound to tie on. Name a benchmark." if job.readings else "Tie it."
