"""What becomes of a job's file, and the list of jobs: each is done, and the reply says what was."""

from __future__ import annotations

from pathlib import Path

from assistant.errors import JournalError, LeadsmanError
from assistant.events.jobs import ClientNamed
from assistant.floor.progress import progress_words
from assistant.job import Job, fold
from assistant.job.listed import ListedJob
from assistant.record.glance import glance_at
from assistant.record.job_files import JobFiles
from assistant.record.places import JobFile
from assistant.reply.replies import Reply
from grammar.commands import Filing
from grammar.commands.jobs import BringJobBack, CopyJob, PutJobAway, RenameJob

HANDOVER = "grammar.commands.handover"
"""Commands of this matter write files, which takes modules that nothing else needs."""


def filing_reply(files: JobFiles | None, job: Job, command: Filing) -> Reply:
    """
    The reply to what is to become of the job's file, or written of the job, once it is done.

    Raises LeadsmanError where it cannot be done; nothing has changed then.
    """
    if type(command).__module__ == HANDOVER:
        from assistant.conversation.handing_over import handed_over

        return handed_over(files, job, command)
    if files is None or files.here is None:
        raise LeadsmanError("This job is kept in memory only; it has no file.")
    was = files.here
    match command:
        case RenameJob():
            return renamed(was, files.rename(command.name))
        case CopyJob():
            return copied_reply(was, files.copy(command.name))
        case PutJobAway():
            return put_away(was, files.put_away(), open_here=True)
        case BringJobBack():
            now = files.bring_back(command.name)
            return brought_back(now, open_here=files.here == now)
    raise TypeError(f"{type(command).__name__} has nothing to do with files")


def renamed(was: Path, now: Path) -> Reply:
    """The reply once the job has another name."""
    return Reply(
        f"The job is called {now.stem} now; it was {was.stem}.",
        f"Renamed to {_spoken(now)}.",
        (f"In {now}",),
        data={"job_file": {"was": str(was), "now": str(now)}},
    )


def copied_reply(was: Path, copy: Path) -> Reply:
    """There is a copy, and which one is open."""
    return Reply(
        f"Copied to {copy.stem}; {was.stem} stays the one that is open.",
        f"Copied to {_spoken(copy)}.",
        (f"The copy is in {copy}",),
        data={"job_file": {"of": str(was), "copy": str(copy)}},
    )


def exported(was: Path, copy: Path) -> Reply:
    """The reply once there is a copy outside the list."""
    there = copy.resolve()
    return Reply(
        f"Exported {was.stem}: {copy.name} is the whole job.",
        f"{_spoken(was)} exported.",
        (f"In {there}", f"To open it: leadsman --job {copy.name}, from where it is then"),
        data={"job_file": {"of": str(was), "copy": str(there)}},
    )


def put_away(was: Path, now: Path, *, open_here: bool) -> Reply:
    """The reply once the job is out of the list."""
    back = "bring back job" if open_here else f"leadsman jobs back {now.stem}"
    still = "It is still open here till you quit. " if open_here else ""
    return Reply(
        f"{was.stem} is put away; nothing is deleted.",
        f"{_spoken(was)} put away.",
        (f"{still}Back into the list: {back}", f"In {now}"),
        data={"job_file": {"was": str(was), "now": str(now)}},
    )


def brought_back(now: Path, *, open_here: bool) -> Reply:
    """The reply once the job is in the list again."""
    there = f"In {now}" if open_here else f"To open it: leadsman --job {now}"
    return Reply(
        f"{now.stem} is back in the list.",
        f"{_spoken(now)} is back.",
        (there,),
        data={"job_file": {"now": str(now)}},
    )


def _spoken(path: Path) -> str:
    return path.stem.replace("-", " ")


# --- the list of jobs -------------------------------------------------------------------------


MOST_GLANCED = 40
"""Jobs of the list that are looked into, at some 5 ms each; of older ones the name is enough."""


def listed_jobs(files: JobFiles | None, job: Job) -> list[ListedJob]:
    """The jobs of the folder with where the latest stand; of the open one as it is now."""
    if files is None:
        return []
    here, every = files.here, files.listed()
    return [
        *(
            _listed(each, job) if _is(each, here) else job_at_a_glance(each)
            for each in every[:MOST_GLANCED]
        ),
        *(
            ListedJob(each.name, each.path, each.changed, "", is_open=_is(each, here))
            for each in every[MOST_GLANCED:]
        ),
    ]


def _is(file: JobFile, here: Path | None) -> bool:
    # Paths may differ by links on the way.
    return here is not None and here.exists() and file.path.exists() and file.path.samefile(here)


def job_at_a_glance(file: JobFile) -> ListedJob:
    """A job that is not open here, as far as its file tells."""
    try:
        entries = glance_at(file.path)
    except JournalError as why:
        return ListedJob(file.name, file.path, file.changed, str(why))
    job = fold((each.number, each.said, each.events, each.time) for each in entries)
    return _listed(file, job, is_open=False)


def _listed(file: JobFile, job: Job, *, is_open: bool = True) -> ListedJob:
    client = job.setting(ClientNamed)
    name = client.name if client is not None else ""
    return ListedJob(file.name, file.path, file.changed, progress_words(job), name, is_open)
