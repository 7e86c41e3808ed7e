"""``leadsman archive`` and ``leadsman open``: a job whole, in one file, and out of it again."""

from __future__ import annotations

import argparse
import unicodedata
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command_line.handing_over import add_job, job_in, job_named
from assistant.command_line.parts import ALL_TAKEN, AddCommand, screen_for, tell
from assistant.errors import LeadsmanError
from assistant.record.places import user_folders
from assistant.wiring import make_folder, open_journal

if TYPE_CHECKING:
    from assistant.job import Job

ARCHIVE_ABOUT = """\
Put a job into one file: its record, the cards of its products, tables, and the
plan and the report where their packages are installed. It is a zip file that
anybody can look into; a list in it has a digest of everything."""
ARCHIVE_EXAMPLES = """\
examples:
  leadsman archive
  leadsman archive boat-shed --out sent/boat-shed.leadsman.zip"""
OPEN_ABOUT = """\
Take a job out of an archive, into the data folder, after everything in it was
held to its digest. A job of that name that is there already stays: the one from
the archive then gets a number. Its other files come into a folder beside it."""
OPEN_EXAMPLES = """\
examples:
  leadsman open boat-shed.leadsman.zip"""


def add_archiving(add: AddCommand) -> None:
    """Both commands."""
    archive = add("archive", make_archive, "put a job into one file", ARCHIVE_ABOUT,
                  ARCHIVE_EXAMPLES)  # fmt: skip
    add_job(archive)
    archive.add_argument("--out", type=Path, metavar="FILE", help="else JOB.leadsman.zip here")
    archive.add_argument("--replace", action="store_true", help="write over a file that is there")
    opened = add("open", open_archive, "take a job out of an archive", OPEN_ABOUT, OPEN_EXAMPLES)
    opened.add_argument("file", type=Path, metavar="FILE", help="the archive")


def make_archive(options: argparse.Namespace) -> int:
    """Pack a job."""
    from assistant.handover.archive import SUFFIX, packed
    from assistant.handover.files import write_files
    from assistant.handover.told import files_written_reply

    path = job_named(options)
    files = dict(_files(job_in(path), path))
    out: Path = options.out or Path(f"{path.stem}{SUFFIX}")
    if out.suffix != ".zip":
        raise LeadsmanError(f"--out {out}: an archive's name ends in .zip: {path.stem}{SUFFIX}")
    content = packed(files, path.stem)
    written = write_files(out.parent, {out.name: content}, replace=options.replace)
    screen_for(options).show_reply(files_written_reply(written))
    return ALL_TAKEN


def _files(job: Job, path: Path) -> Iterator[tuple[str, bytes]]:
    from assistant.floor.zones import cards_of
    from assistant.handover.archive import RECORD
    from assistant.handover.exports import FORMATS
    from assistant.products.card_file import card_text

    yield RECORD, _record(path)
    cards = cards_of(job)
    for name, card in zip(_card_names([card.name for card in cards]), cards, strict=True):
        yield f"cards/{name}.toml", card_text(card.as_dict(), {}).encode()
    for name, content in FORMATS["csv"](job, path.stem).items():
        yield f"tables/{name}", content
    yield from FORMATS["json"](job, path.stem).items()
    try:
        from assistant.handover.pictures import picture_of

        svg, name = picture_of(job, path.stem)
        yield f"pictures/{name}.svg", svg.encode()
    except LeadsmanError as why:
        tell(f"without a picture: {why}")
    try:
        from assistant.handover.reports import report_files

        yield from report_files(job, path.stem, pdf=True).items()
    except LeadsmanError as why:
        tell(f"without a report: {why}")


def _card_names(products: Sequence[str]) -> list[str]:
    """
    Names for the files of cards, which every system has letters for; no two are one.

    >>> _card_names(["Größe Ü", "Grosse U", "\u5b66\u6821", "\u6821"])
    ['grosse-u', 'grosse-u-2', 'card', 'card-2']
    """
    from assistant.record.places import safe_name

    names: list[str] = []
    for product in products:
        latin = unicodedata.normalize("NFKD", safe_name(product)).encode("ascii", "ignore").decode()
        stem = "-".join(filter(None, latin.split("-"))) or "card"
        count = 1
        name = stem
        while name in names:
            count += 1
            name = f"{stem}-{count}"
        names.append(name)
    return names


def _record(path: Path) -> bytes:
    """The record as a whole file of its own, whatever lies beside the job's."""
    import tempfile

    with tempfile.TemporaryDirectory(prefix="leadsman-") as folder, open_journal(path) as journal:
        copy = Path(folder) / "job.leadsman"
        journal.copy_to(copy)
        return copy.read_bytes()


def open_archive(options: argparse.Namespace) -> int:
    """Unpack a job into the data folder."""
    from assistant.conversation.handing_over import folder_beside
    from assistant.handover.archive import RECORD, unpacked
    from assistant.record.places import free_job_path, safe_name
    from assistant.reply.replies import Reply

    job, files = unpacked(options.file)
    folder = user_folders().jobs
    make_folder(folder)
    stem = safe_name(job) or "opened"
    path = free_job_path(folder, stem)
    count = 1
    while folder_beside(path).exists():
        count += 1
        path = free_job_path(folder, f"{stem}-{count}")
    _unpack_record(files.pop(RECORD), path, options.file)
    beside = _unpack_beside(files, folder_beside(path))
    reply = Reply(
        f"Opened as {path.stem}: every file is as it was packed.",
        f"{path.stem.replace('-', ' ')} is opened.",
        (f"To go on with it: leadsman --job {path}", *beside),
        data={"job_file": {"now": str(path)}},
    )
    screen_for(options).show_reply(reply)
    return ALL_TAKEN


def _unpack_record(content: bytes, path: Path, archive: Path) -> None:
    """The record in its place, once it was read and checked as every job file is."""
    import tempfile

    with tempfile.TemporaryDirectory(prefix="leadsman-") as folder:
        copy = Path(folder) / "job.leadsman"
        copy.write_bytes(content)
        try:
            with open_journal(copy) as journal:
                journal.copy_to(path)
        except LeadsmanError as why:
            told = str(why).replace(str(copy), "the record in it")
            raise LeadsmanError(f"{archive} was not opened: {told}") from why


def _unpack_beside(files: dict[str, bytes], folder: Path) -> tuple[str, ...]:
    from assistant.handover.files import write_files

    parts: dict[Path, dict[str, bytes]] = {}
    for name, content in files.items():
        inner = Path(name)
        parts.setdefault(folder / inner.parent, {})[inner.name] = content
    for part, held in parts.items():
        write_files(part, held)
    return (f"Its report, tables and cards: {folder}",) if parts else ()
