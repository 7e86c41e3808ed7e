"""Where a job stands, in one line, for whoever opens it again."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.floor.heights import survey_of
from assistant.floor.places import places_of
from assistant.floor.pour.progress import progress_of
from assistant.floor.walk import next_point, points_missing
from assistant.guide.walk import open_step
from assistant.job import Job, being_read, is_poured, is_poured_over
from assistant.reply import wording
from assistant.reply.replies import Reply


def standing_reply(job: Job, *, waits: bool) -> Reply | None:
    """
    What is read, what comes next, and what is in doubt; only what there is to say.

    Parameters
    ----------
    job : Job
    waits : bool
        Whether a question waits for its answer.

    Returns
    -------
    Reply or None
        None for a job of which nothing is on record.
    """
    if not job.history:
        return None
    parts = [*_parts(job), *([("a question waits", "a question waits")] if waits else [])]
    if not parts:
        return None
    return Reply(
        wording.sentence(", ".join(shown for shown, _ in parts)),
        tuple(spoken for _, spoken in parts if spoken),
        data={"standing": [shown for shown, _ in parts]},
    )


def _pour(job: Job) -> Iterator[tuple[str, str]]:
    """How far the pour has come."""
    progress = progress_of(job)
    used = progress.used
    if progress.strip is not None:
        yield f"pouring strip {progress.strip}", f"strip {wording.spoken_number(progress.strip)}"
    yield (
        f"{wording.counted(used, 'bag')} poured",
        f"{wording.spoken_count(used, 'bag')} poured",
    )
    if job.pour.stopped is not None:
        yield "the pour stands still", "the pour stands still"


def _parts(job: Job) -> Iterator[tuple[str, str]]:
    """Each to read, and to say; nothing to say where it can wait."""
    floor, unit = being_read(job), job.reading_unit
    total = len(places_of(floor.layout).names)
    read = total - len(points_missing(floor)) if total else len(floor.readings)
    what = " of the finished floor" if is_poured_over(job) else ""
    if total:
        spoken = f"{wording.spoken_number(read)} of {wording.spoken_number(total)} read"
        yield f"{read} of {total}{what} read", spoken
    elif read:
        yield f"{read}{what} read", f"{wording.spoken_number(read)} read"
    if (line := floor.proof.line) is not None:
        at = f"{len(line.values)} of {line.holds}" if line.holds else f"{len(line.values)}"
        spoken = f"line {wording.spoken_number(line.number)} goes on"
        yield f"line {line.number} goes on, {at} values", spoken
    elif (point := next_point(floor)) is not None:
        yield f"next {point}", f"next, {wording.spoken_name(point)}"
    if job.pour.batches and not is_poured(job):
        yield from _pour(job)
    if floor.survey.set_up:
        yield f"set-up {floor.survey.set_up + 1}", ""
    if doubtful := len(survey_of(floor).doubtful):
        yield f"{doubtful} in doubt", f"{wording.spoken_number(doubtful)} in doubt"
    if job.finish_mm:
        side = "above" if job.finish_mm > 0 else "below"
        yield f"finish {wording.length(abs(job.finish_mm), unit)} {side}", ""
    if (step := open_step(job)) is not None:
        yield f"step {step.number} of the guide", ""
