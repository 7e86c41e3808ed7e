"""``leadsman export`` and its kin: files of a job for others."""

from __future__ import annotations

import argparse
import os
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command_line.parts import ALL_TAKEN, AddCommand, is_plain, screen_for, tell
from assistant.errors import JobInUseError, LeadsmanError
from assistant.record.places import jobs_in, user_folders
from assistant.terminal.bar import progress_bar
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

PICTURE_ABOUT = """\
Draw the floor from above: depths in steps that get darker, also in a copy
without colours, the walls and what stands there, points with their values,
least and most framed, what is to be ground hatched, strips and the front.

  before       the slab, against the zero
  planned      the depth to pour; shown until the finished floor is surveyed
  after        the finished floor, against its finish; shown from then on
  difference   what was poured"""
PICTURE_EXAMPLES = """\
examples:
  leadsman picture
  leadsman picture boat-shed --show before --out slab.svg
  leadsman picture --along A1 F4           a cut from A1 to F4
  leadsman picture --png                   needs the extra “report”"""

REPORT_ABOUT = """\
Write the job as one page that opens on a phone, fetches nothing and prints:
what was promised, how the survey was checked and what was not, the plan, pins,
material, warnings with their sources, site readings, the pour, what was
accepted, and lines to sign. It judges nothing: local code, the data sheet and
licensed people decide. Needs the extra “report”."""
REPORT_EXAMPLES = """\
examples:
  leadsman report                      report.html
  leadsman report boat-shed --pdf      report.pdf too, tagged, for archives
  leadsman report --short              brief.html, for whoever owns the floor"""


def add_handing_over(add: AddCommand) -> None:
    """The commands."""
    export = add("export", export_job, "write files that other programs open", EXPORT_ABOUT,
                 EXPORT_EXAMPLES)  # fmt: skip
    add_job(export)
    # Said here, as the formats are loaded when one is asked for; a test holds the two together.
    export.add_argument("--format", choices=EXPORTED, default="csv", help="csv where none is said")
    _add_out(export)

    picture = add("picture", draw_picture, "draw the floor with its depths", PICTURE_ABOUT,
                  PICTURE_EXAMPLES)  # fmt: skip
    add_job(picture)
    picture.add_argument("--show", choices=SHOWN, default="", help="what of the floor")
    picture.add_argument(
        "--along", nargs=2, metavar="POINT", help="a cut through it, from one point to another"
    )
    kinds = picture.add_mutually_exclusive_group()
    kinds.add_argument("--svg", dest="png", action="store_false", help="in lines; the usual")
    kinds.add_argument("--png", action="store_true", help="in dots, where lines are not shown")
    picture.set_defaults(png=False)
    _add_out(picture, "FILE", "the file; else in JOB-handover beside you")

    report = add("report", write_report, "write the job as a page and a PDF", REPORT_ABOUT,
                 REPORT_EXAMPLES)  # fmt: skip
    add_job(report)
    report.add_argument("--pdf", action="store_true", help="as PDF too")
    report.add_argument("--short", action="store_true", help="one page, for the owner")
    _add_out(report)


SHOWN = ("before", "planned", "after", "difference")
EXPORTED = ("csv", "dxf", "landxml", "json", "geojson")


def add_job(parser: argparse.ArgumentParser) -> None:
    """Which job, where it is not the one used last."""
    parser.add_argument(
        "name", nargs="?", metavar="JOB", help="a job by its name; else the one used last"
    )


def _add_out(
    parser: argparse.ArgumentParser,
    metavar: str = "FOLDER",
    help: str = "where to; else JOB-handover beside you",
) -> None:
    parser.add_argument("--out", type=Path, metavar=metavar, help=help)
    parser.add_argument(
        "--replace", action="store_true", help="write over files of these names that are there"
    )


def export_job(options: argparse.Namespace) -> int:
    """Write a job in the format asked for."""
    from assistant.handover.exports import FORMATS

    path = job_named(options)
    with progress_bar("writing", plain=is_plain(options)):
        files = FORMATS[options.format](job_in(path), path.stem)
    return hand_over(options, options.out or _folder_of(path), files)


def draw_picture(options: argparse.Namespace) -> int:
    """Draw a job's floor, or a cut through it."""
    from assistant.handover.pictures import as_png, picture_of

    path = job_named(options)
    along = None if options.along is None else tuple(each.upper() for each in options.along)
    with progress_bar("drawing", plain=is_plain(options)):
        svg, name = picture_of(job_in(path), path.stem, options.show, along)
        content, ending = (as_png(svg), ".png") if options.png else (svg.encode(), ".svg")
    if options.out is None:
        return hand_over(options, _folder_of(path), {f"{name}{ending}": content})
    if options.out.suffix.lower() != ending:
        wanted = options.out.with_suffix(ending)
        raise LeadsmanError(f"--out {options.out}: this picture's name ends in {ending}: {wanted}")
    return hand_over(options, options.out.parent, {options.out.name: content})


def write_report(options: argparse.Namespace) -> int:
    """Write a job's report."""
    from assistant.handover.reports import STEPS, report_files

    path = job_named(options)
    with progress_bar(*STEPS, plain=is_plain(options)) as at:
        files = report_files(job_in(path), path.stem, short=options.short, pdf=options.pdf, at=at)
    return hand_over(options, options.out or _folder_of(path), files)


def _folder_of(path: Path) -> Path:
    return Path(f"{path.stem}-handover")


def hand_over(options: argparse.Namespace, folder: Path, files: Mapping[str, bytes]) -> int:
    """Write files into a folder, and say where they are."""
    from assistant.handover.files import write_files
    from assistant.handover.told import files_written_reply

    written = write_files(folder, files, replace=options.replace)
    screen_for(options).show_reply(files_written_reply(written))
    return ALL_TAKEN


def job_named(options: argparse.Namespace) -> Path:
    """The file of the job that was named, or of the one used last; there has to be one."""
    from assistant.record.job_files import existing_file

    folder = user_folders().jobs
    if options.name is not None:
        if options.job is not None:
            raise LeadsmanError("Name the job once: as JOB, or with --job PATH.")
        path = Path(options.name)
        return path if os.path.isfile(path) else existing_file(folder, options.name)
    if options.job is not None:
        if not os.path.isfile(options.job):
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
    """The job of a file; where another window has it open, as far as that has got."""
    from assistant.conversation.job_on_record import JobOnRecord

    try:
        with open_journal(path) as journal:
            job = JobOnRecord(journal).job
    except JobInUseError:
        found = _looked_at(path)
        if found is None:
            raise
        job = found
        tell(f"{path.stem} is open in another window: as it stands there now.")
    if not job.history:
        raise LeadsmanError(f"Nothing is on record in {path}, so there is nothing to hand over.")
    return job


_LOOKS, _BETWEEN_S = 100, 0.02
"""For two seconds: nobody writes as long as that between two looks."""


def _looked_at(path: Path) -> Job | None:
    import time

    from assistant.board.following import FollowedFile
    from assistant.record.watched import WatchedFile

    followed = FollowedFile(WatchedFile(path))
    for _ in range(_LOOKS):
        if (job := followed.look()) is not None:
            return job
        time.sleep(_BETWEEN_S)
    return None
