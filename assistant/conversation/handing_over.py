"""Files of the open job for others, put into a folder beside it."""

from __future__ import annotations

from pathlib import Path

from assistant.errors import LeadsmanError
from assistant.handover.files import free_name, write_files
from assistant.handover.told import files_written_reply
from assistant.job import Job
from assistant.record.job_files import JobFiles
from assistant.reply.replies import Reply
from grammar.commands import Filing
from grammar.commands.handover import DrawPicture, ExportJob, WriteReport

FILES = (ExportJob, DrawPicture, WriteReport)
"""The commands that write files."""


def handed_over(files: JobFiles | None, job: Job, command: Filing) -> Reply:
    """
    The reply to what is to be written, once it is.

    A file that is there with other content stays: the new one gets a number.

    Raises LeadsmanError where there is nothing to write yet, or it cannot be.
    """
    if files is None or files.here is None:
        raise LeadsmanError("This job is kept in memory only; it has no file to put others beside.")
    here = files.here
    made, lacks = _made(job, here.stem, command)
    folder = folder_beside(here)
    named = {free_name(folder, name, content): content for name, content in made.items()}
    reply = files_written_reply(write_files(folder, named))
    return reply.adding(*lacks)


def folder_beside(path: Path) -> Path:
    """The folder of a job's files for others."""
    return path.with_name(f"{path.stem}-handover")


def _made(job: Job, name: str, command: Filing) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Files, and why some are missing; LeadsmanError where all are."""
    if not job.history:
        raise LeadsmanError("Nothing is on record yet, so there is nothing to hand over.")
    match command:
        case ExportJob():
            return _exported(job, name)
        case DrawPicture():
            from assistant.handover.pictures import picture_of

            svg, title = picture_of(job, name)
            return {f"{title}.svg": svg.encode()}, ()
        case WriteReport():
            return _report(job, name)
    raise TypeError(f"{type(command).__name__} writes no files")


def _exported(job: Job, name: str) -> tuple[dict[str, bytes], tuple[str, ...]]:
    from assistant.handover.exports import FORMATS

    made: dict[str, bytes] = {}
    lacks: dict[str, None] = {}
    for make in FORMATS.values():
        try:
            made |= make(job, name)
        except LeadsmanError as why:
            lacks[f"Left out: {why}"] = None
    return made, tuple(lacks)


def _report(job: Job, name: str) -> tuple[dict[str, bytes], tuple[str, ...]]:
    from assistant.handover.reports import report_files

    try:
        return report_files(job, name, pdf=True), ()
    except LeadsmanError as why:
        return report_files(job, name), (f"No PDF: {why}",)
