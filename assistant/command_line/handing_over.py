"""``leadsman export`` and its kin: files of a job for others."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command_line.card_commands import Add
from assistant.command_line.parts import ALL_TAKEN, screen_for
from assistant.errors import LeadsmanError
from assistant.record.places import jobs_in, user_folders
from assistant.wiring import open_journal

if TYPE_CHECKING:
    from assistant.job import Job

EXPORT_ABOUT = """\
Write the job in files that other programs open, into a folder beside you. A
file that is there already is left as it is, unless you say --replace; one that
would come out the same counts as written.

  csv      points, readings, cuts, strips, pour and log, a table each
  dxf      floor.dxf, in metres: outline, what stands there, points, the surface
           with its contours, strips
  landxml  surface.xml, LandXML 1.2: the surface as triangles
  json     job.json: all of it, record included
  geojson  floor.local.json: GeoJSON is longitude and latitude only, and a room
           has none, so its shapes come in the room's own metres, and say so"""
EXPORT_EXAMPLES = """\
examples:
  leadsman export                          the job used last, as csv
  leadsman export boat-shed --format dxf
  leadsman export --job site/floor.leadsman --format json --out handed-over

Heights are against the datum, x along the first side, y along the second."""


def add_handing_over(add: Add) -> None:
    """The commands."""
    export = add("export", export_job, "write files that other programs open", EXPORT_ABOUT,
                 EXPORT_EXAMPLES)  # fmt: skip
    _add_job(export)
    # Said here, as the formats are loaded when one is asked for; a test holds the two together.
    export.add_argument("--format", choices=EXPORTED, default="csv", help="csv where none is said")
    _add_out(export)


EXPORTED = ("csv", "dxf", "landxml", "json", "geojson")


def _add_job(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "name", nargs="?", metavar="JOB", help="a job by its name; else the one used last"
    )


def _add_out(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--out", type=Path, metavar="FOLDER", help="where to; else JOB-handover beside you"
    )
    parser.add_argument(
        "--replace", action="store_true", help="write over files of these names that are there"
    )


def export_job(options: argparse.Namespace) -> int:
    """Write a job in the format asked for."""
    from assistant.handover.exports import FORMATS

    path = job_named(options)
    files = FORMATS[options.format](job_in(path), path.stem)
    return hand_over(options, path, files)


def hand_over(options: argparse.Namespace, path: Path, files: Mapping[str, bytes]) -> int:
    """Write files of a job, and say where they are."""
    from assistant.handover.files import write_files
    from assistant.handover.told import told

    folder = options.out or Path(f"{path.stem}-handover")
    written = write_files(folder, files, replace=options.replace)
    screen_for(options).show_reply(told(written))
    return ALL_TAKEN


def job_named(options: argparse.Namespace) -> Path:
    """The file of the job that was named, or of the one used last; there has to be one."""
    from assistant.record.job_files import found

    folder = user_folders().jobs
    if options.name is not None:
        if options.job is not None:
            raise LeadsmanError("Name the job once: as JOB, or with --job PATH.")
        path = Path(options.name)
        return path if path.is_file() else found(folder, options.name)
    if options.job is not None:
        if not options.job.is_file():
            raise LeadsmanError(f"There is no file {options.job}.")
        return Path(options.job)
    known = jobs_in(folder)
    if not known:
        raise LeadsmanError(
            f"There is no job yet in {folder}. Name the file of one: --job PATH; begin one: "
            "leadsman --new NAME"
        )
    return known[0].path


def job_in(path: Path) -> Job:
    """The job of a file, read while nothing else has it open."""
    from assistant.conversation.job_on_record import JobOnRecord

    with open_journal(path) as journal:
        job = JobOnRecord(journal).job
    if not job.history:
        raise LeadsmanError(f"Nothing is on record in {path}, so there is nothing to hand over.")
    return job
