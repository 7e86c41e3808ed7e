"""``leadsman jobs``: the jobs of the data folder, listed, renamed, copied and put away."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command_line.parts import ALL_TAKEN, screen_for
from assistant.errors import LeadsmanError
from assistant.record.places import AWAY, jobs_in, user_folders

if TYPE_CHECKING:
    from assistant.reply.replies import Reply

ABOUT = """\
List the jobs in the data folder, the one used last first, each with where it
stands. That one opens when the program is started without saying which.
A job is renamed, copied or put away while no window has it open; one that is
put away is kept, in the folder “away” beside the others. To take one along,
to another machine or a stick, it is exported: one file, the whole job."""

EXAMPLES = """\
examples:
  leadsman jobs
  leadsman jobs rename boat-shed reading-room
  leadsman jobs copy boat-shed boat-shed-upstairs
  leadsman jobs export boat-shed       boat-shed.leadsman, beside you
  leadsman jobs export boat-shed /media/stick
  leadsman jobs away boat-shed
  leadsman jobs away                   those that were put away
  leadsman jobs back boat-shed
  leadsman jobs --json                 for programs

In the chat the same is said of the job that is open: rename job to …,
copy job to …, put job away, bring back job."""


def add_jobs(command: Callable[..., argparse.ArgumentParser]) -> None:
    """The command with what stands after it."""
    added = command("jobs", jobs, "list jobs, rename, copy or put one away", ABOUT, EXAMPLES)
    added.add_argument(
        "words", nargs="*", metavar="WHAT", help="rename, copy, export, away or back, and names"
    )
    added.add_argument("--json", action="store_true", help="one JSON object")


def jobs(options: argparse.Namespace) -> int:
    """List the jobs, or do what is asked for with one."""
    folder = user_folders().jobs
    reply = _reply_to(options.words, folder)
    if options.json:
        from assistant.reply.json_lines import json_value

        print(json.dumps(json_value(reply.data)))
    else:
        screen_for(options).show_reply(reply)
    return ALL_TAKEN


def _reply_to(words: Sequence[str], folder: Path) -> Reply:
    match list(words):
        case []:
            return _listed(folder)
        case ["away"]:
            return _listed_away(folder / AWAY)
        case [what, *names] if what in _WORDS:
            count, how, do = _WORDS[what]
            if len(names) not in count or not all(names):
                raise LeadsmanError(f"It is said like this: leadsman jobs {what} {how}")
            return do(folder, *names)
        case [what, *_]:
            raise LeadsmanError(
                f"{what!r} is nothing to do with jobs: rename, copy, export, away or back. "
                "Without any of these they are listed."
            )
    raise AssertionError("one of the cases holds")


def _rename(folder: Path, name: str, new_name: str) -> Reply:
    from assistant.conversation.filing import renamed
    from assistant.record.job_files import existing_file, rename

    return renamed(existing_file(folder, name), rename(folder, name, new_name))


def _copy(folder: Path, name: str, new_name: str) -> Reply:
    from assistant.conversation.filing import copied_reply
    from assistant.record.job_files import copy, existing_file

    reply = copied_reply(existing_file(folder, name), copy(folder, name, new_name))
    return replace(reply, headline=f"{reply.headline.partition(';')[0]}.")


def _export(folder: Path, name: str, to: str = "") -> Reply:
    from assistant.conversation.filing import exported
    from assistant.record.job_files import existing_file, export

    path = existing_file(folder, name)
    return exported(path, export(folder, name, Path(to or path.name)))


def _away(folder: Path, name: str) -> Reply:
    from assistant.conversation.filing import put_away as told
    from assistant.record.job_files import existing_file, put_away

    return told(existing_file(folder, name), put_away(folder, name), open_here=False)


def _back(folder: Path, name: str, new_name: str = "") -> Reply:
    from assistant.conversation.filing import brought_back
    from assistant.record.job_files import bring_back

    return brought_back(bring_back(folder, name, new_name), open_here=False)


_WORDS: dict[str, tuple[tuple[int, ...], str, Callable[..., Reply]]] = {
    "rename": ((2,), "NAME NEW-NAME", _rename),
    "copy": ((2,), "NAME NEW-NAME", _copy),
    "export": ((1, 2), "NAME [FOLDER or FILE]", _export),
    "away": ((1,), "NAME", _away),
    "back": ((1, 2), "NAME [NEW-NAME]", _back),
}
"""What can be done: how many names it takes, how they are given, and the function."""


def _listed(folder: Path) -> Reply:
    away = len(jobs_in(folder / AWAY))
    more = (f"{away} put away: leadsman jobs away",) if away else ()
    reply = _list_of(folder, more)
    if not jobs_in(folder):
        told = f"No jobs yet in {folder}. Begin one: leadsman --new NAME"
        return replace(reply, headline=told)
    return reply


def _listed_away(folder: Path) -> Reply:
    reply = _list_of(folder, ("Back into the list: leadsman jobs back NAME",))
    if not jobs_in(folder):
        return replace(reply, headline=f"No jobs were put away in {folder}.", details=())
    return reply


def _list_of(folder: Path, more: Sequence[str]) -> Reply:
    from assistant.answers.jobs import jobs_reply
    from assistant.conversation.filing import job_at_a_glance

    found = [job_at_a_glance(each) for each in jobs_in(folder)]
    reply = jobs_reply(found, datetime.now(UTC), None, more=more)
    count = f"{len(found)} job{'' if len(found) == 1 else 's'}"
    return replace(reply, headline=f"{count} in {folder}")
