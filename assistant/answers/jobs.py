"""Answers about jobs: whose and where this one is, and which others there are."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, tzinfo
from pathlib import Path
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.events.jobs import AddressSet, ClientNamed
from assistant.floor.progress import progress_words
from assistant.job.listed import ListedJob
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from assistant.reply.times import shown_time
from grammar.commands import Command, Filing
from grammar.commands.jobs import (
    AskJob,
    AskJobs,
    BringJobBack,
    CopyJob,
    PutJobAway,
    RenameJob,
    SetAddress,
    SetClient,
)

MOST_LISTED = 40
"""Jobs listed in the chat, the one used last first."""
BEGIN_ONE = "Begin another at the shell: leadsman --new NAME; open one: leadsman --job PATH"


def client_set(moment: Moment, command: SetClient) -> Reply:
    return _set(moment, "Client", ClientNamed, command.name, "client")


def address_set(moment: Moment, command: SetAddress) -> Reply:
    return _set(moment, "Address", AddressSet, command.words, "address")


def _set(
    moment: Moment, what: str, kind: type[ClientNamed] | type[AddressSet], words: str, name: str
) -> Reply:
    before = moment.before.setting(kind)
    was = "" if before is None else _words_of(before)
    details = (f"It was {was}.",) if was and was != words else ()
    return Reply(f"{what}: {words}", f"{what} noted.", details, data={name: words})


def _words_of(setting: ClientNamed | AddressSet | None) -> str:
    if isinstance(setting, ClientNamed):
        return setting.name
    return "" if setting is None else setting.words


def job_told(moment: Moment, _command: AskJob) -> Reply:
    job, world = moment.job, moment.world
    client = _words_of(job.setting(ClientNamed))
    address = _words_of(job.setting(AddressSet))
    name = Path(world.job_file).stem if world.job_file else ""
    stands = progress_words(job)
    details = [] if client else ["No client named: client NAME"]
    details += [] if address else ["No address: address WORDS"]
    if stands:
        details.append(wording.sentence(stands))
    details.append(f"In {world.job_file}" if name else "Kept in memory, in no file.")
    spoken = [f"job {name}" if name else "a job without a file"]
    spoken += [f"for {client}"] if client else []
    headline = f"Job {name}" if name else "A job without a file"
    headline += f", for {client}" if client else ""
    return Reply(
        wording.sentence(f"{headline}, {address}" if address else headline),
        tuple(spoken),
        tuple(details),
        data={
            "job": {
                "name": name or None, "client": client or None, "address": address or None,
                "file": world.job_file or None, "stands": stands,
            }
        },
    )  # fmt: skip


def jobs_listed(moment: Moment, _command: AskJobs) -> Reply:
    world = moment.world
    return jobs_reply(world.jobs(), world.now, world.zone, most=MOST_LISTED, more=(BEGIN_ONE,))


def jobs_reply(
    jobs: Sequence[ListedJob],
    now: datetime,
    zone: tzinfo | None,
    *,
    most: int | None = None,
    more: Sequence[str] = (),
) -> Reply:
    """
    The list of jobs.

    Parameters
    ----------
    jobs : sequence of ListedJob
        The one last worked on first.
    now, zone
        For the times shown.
    most : int, optional
        How many go into the table; all without it.
    more : sequence of str
        What else can be done, listed under the headline.
    """
    shown = jobs if most is None else jobs[:most]
    rows = tuple(
        (
            f"{job.name} (open)" if job.is_open else job.name,
            f"{job.stands}, for {job.client}" if job.client else job.stands,
            shown_time(job.changed, now, zone),
        )
        for job in shown
    )
    left = len(jobs) - len(shown)
    older = [f"{wording.counted(left, 'older one')} not shown: leadsman jobs"] if left else []
    data = {
        "jobs": [_listed_data(job) for job in jobs],
        "answer": {"id": "jobs", "value": len(jobs), "unit": "jobs"},
    }
    if not rows:
        return Reply("There are no jobs in the list.", details=tuple(more), data=data)
    newest = ", ".join(job.name for job in shown[:3])
    return Reply(
        f"{wording.counted(len(jobs), 'job')}, the one used last first.",
        (f"{wording.spoken_count(len(jobs), 'job')}", f"last used: {newest}"),
        (*older, *more),
        (Table("", ("Job", "Where it stands", "Last used"), rows),),
        data=data,
    )


def _listed_data(job: ListedJob) -> dict[str, Any]:
    return {
        "name": job.name,
        "file": str(job.path),
        "changed": job.changed.isoformat(),
        "stands": job.stands,
        "client": job.client or None,
        "open": job.is_open,
    }


def no_file(_moment: Moment, _command: Filing) -> Reply:
    """What becomes of a file is done where there is one, by the conversation."""
    raise Refusal(
        "This job is kept in memory only; it has no file.", spoken="This job has no file."
    )


ANSWERS: dict[type[Command], Answerer] = {
    SetClient: client_set,
    SetAddress: address_set,
    AskJob: job_told,
    AskJobs: jobs_listed,
    RenameJob: no_file,
    CopyJob: no_file,
    PutJobAway: no_file,
    BringJobBack: no_file,
}
