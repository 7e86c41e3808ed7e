"""``leadsman import``: many points of a floor from a file, whole or not at all."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command_line.parts import ALL_TAKEN, AddCommand, screen_for
from assistant.command_line.points_placed import (
    UNITS,
    Asks,
    FileOptions,
    Place,
    placed_in,
    units_of,
)
from assistant.errors import LeadsmanError
from assistant.record.places import jobs_in, user_folders
from assistant.reply import wording
from assistant.terminal.aside import aside
from assistant.wiring import open_journal
from grammar.commands import Measure

if TYPE_CHECKING:
    from assistant.events.flatness import ScanImported
    from assistant.flatness.cells import CellGrid
    from assistant.job import Job
    from assistant.levels.arrays import BoolArray, FloatArray
    from assistant.point_files.points import Points, Seen
    from assistant.record.journal import Journal

ABOUT = """\
Take in a file of points (CSV or TXT of a total station, scanner or laser; PLY
and PCD as text; LAS, LAZ and E57 with the extra “scan”) as the scan of the
floor: the median height of each cell, count and spread. The room has to be told
first, as easting and northing are tried against it. The whole file is kept in
the job's file; a bad row is named and nothing is taken. Up to 5,000,000 points.

Places count from the room's A1 corner along its first and second side; where
that corner has other coordinates in the file: --corner EASTING,NORTHING. Where
its axes are a total station's own: a place on the first side as well, --along
EASTING,NORTHING. A header that says units (x_m, height_mm) is believed."""

EXAMPLES = """\
examples:
  leadsman import floor.csv --units m
  leadsman import points.txt --columns point,northing,easting,height --units m
  leadsman import scan.csv --units mm --corner 1000,2000 --zero 100250
  leadsman import total.txt --units m --corner 51.20,38.71 --along 57.10,40.05

then in the chat: scan · straightedge 2 metres · spec DIN 18202 row 3 · undo"""

USUAL_GOOD_TO = Decimal("0.5")
"""Standard deviation of a scanned height in mm. On one controlled slab scanning agreed with a
digital level within 0.5 mm in 98 of 100 (one firm's validation), so it is seldom better."""
GOOD_TO_OF_FEW = Decimal(1)
"""The same of a height that was read once, as by a total station. Common practice, no source."""
FEWEST_POINTS = 3
"""Fewer make no line to lay an edge along."""
LARGE_BYTES = 2_000_000
"""From here on reading takes about a second, and a bar shows how far it is."""


def add_import(add: AddCommand) -> None:
    """The command with what stands after it."""
    added = add("import", import_file, "take in a file of points of the floor", ABOUT, EXAMPLES)
    added.add_argument("file", type=Path, metavar="FILE", help="the points")
    added.add_argument("--columns", help="what the columns are: point,easting,northing,height")
    added.add_argument("--units", choices=tuple(UNITS), help="of all numbers in the file")
    added.add_argument("--corner", metavar="E,N", help="the A1 corner's coordinates in the file")
    added.add_argument("--along", metavar="E,N", help="a place on the first side, in the file")
    added.add_argument("--zero", metavar="H", help="height of the job's zero in the file")
    added.add_argument(
        "--good-to", metavar="MM",
        help="standard deviation of one height of the instrument; else 0.5 mm, and 1 mm of few "
        "points",
    )  # fmt: skip


def import_file(options: argparse.Namespace) -> int:
    """Read the file, record its cells, tell what came of it."""
    wanted = FileOptions(
        options.columns,
        options.units,
        None if options.corner is None else _pair("--corner", options.corner),
        None if options.along is None else _pair("--along", options.along),
        None if options.zero is None else _number("--zero", options.zero),
        None if options.good_to is None else _number("--good-to", options.good_to),
    )
    path = _job_path(options)
    with open_journal(path) as journal, _stop_told(journal):
        from assistant.answers import answer
        from assistant.decide import World
        from assistant.job import fold, next_number, record
        from assistant.record.attachments import attachment_of
        from grammar.commands.flatness import AskScan

        job = fold(journal.utterances())
        # Asked before a long file is read.
        check_room(job)
        content, points = _read(options.file, wanted, _ask, _floor_named(job))
        event = event_of(job, options.file, points, wanted, _ask)
        kept = attachment_of(options.file.name, content)
        event = replace(event, digest=kept.digest)
        said, now = f"import {options.file.name}", datetime.now(UTC)
        journal.append(said, (event,), now, attached=(kept,))
        after = record(job, next_number(job), said, (event,), now)
        reply = answer(job, after, AskScan(), (event,), World({}, now=now))
    screen_for(options).show_reply(reply)
    return ALL_TAKEN


@contextmanager
def _stop_told(journal: Journal) -> Iterator[None]:
    """Say, where somebody stopped it, whether the file was taken."""
    before = journal.last_utterance()
    try:
        yield
    except KeyboardInterrupt:
        if journal.last_utterance() == before:
            aside("Stopped; nothing was taken.")
        else:
            aside("Stopped after the file was taken; “scan” in the chat shows it, “undo” takes it "
                  "back.")  # fmt: skip
        raise


def _job_path(options: argparse.Namespace) -> Path:
    if options.job is not None:
        return Path(options.job)
    known = jobs_in(user_folders().jobs)
    if not known:
        raise LeadsmanError("There is no job yet, and a scan wants its room: leadsman --new NAME")
    return known[0].path


def _number(option: str, text: str) -> Decimal:
    try:
        number = Decimal(text)
    except InvalidOperation:
        number = Decimal("nan")
    if not number.is_finite() or (option == "--good-to" and number <= 0):
        raise LeadsmanError(f"{option} {text} is no usable number: {option} 0.5")
    return number


def _pair(option: str, text: str) -> Place:
    cells = text.split(",")
    if len(cells) != 2:
        raise LeadsmanError(
            f"{option} {text}: two numbers, easting and northing: {option} 1000,2000"
        )
    return _number(option, cells[0]), _number(option, cells[1])


def _floor_named(job: Job) -> str:
    """The floor that lies open, by its name in our own tables."""
    from assistant.job import being_read
    from assistant.job.surveys import FINISHED, SLAB

    return SLAB if being_read(job).slab is None else FINISHED


def _ask(question: str, answers: tuple[str, ...]) -> str:
    """Ask at a terminal; elsewhere the question is why nothing was taken."""
    if not (sys.stdin and sys.stdin.isatty() and sys.stderr.isatty()):
        raise LeadsmanError(question)
    while True:
        aside(question)
        print(f"{' / '.join(answers)} > ", end="", file=sys.stderr, flush=True)
        said = sys.stdin.readline()
        if not said:
            raise LeadsmanError("No answer; nothing was taken.")
        if said.strip().lower() in answers or not answers[0]:
            return said.strip().lower()


# --- reading the file -----------------------------------------------------------------


def _read(path: Path, wanted: FileOptions, ask: Asks, floor: str) -> tuple[bytes, Points]:
    """The file's bytes, and its points."""
    from assistant.point_files.clouds import CLOUDS, read_cloud
    from assistant.point_files.text import UnknownColumns, read_text

    try:
        content = path.read_bytes()
    except OSError as fault:
        raise LeadsmanError(f"{path} cannot be read: {fault.strerror or fault}.") from fault
    is_cloud = path.suffix.lower() in CLOUDS
    with _shown(len(content), counted=not is_cloud) as seen:
        if is_cloud:
            return content, read_cloud(path, seen)
        try:
            return content, read_text(path, wanted.columns, seen, floor)
        except UnknownColumns as unknown:
            columns = ask(str(unknown), ("",))
    return content, read_text(path, columns, floor=floor)


@contextmanager
def _shown(size: int, *, counted: bool) -> Iterator[Seen]:
    """
    A bar on a terminal where reading takes more than a second; it never reaches the answers.

    It shows the share read where the reader counts bytes, else only that it goes on.
    """
    if size < LARGE_BYTES or sys.stderr is None or not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("reading", total=size if counted else None)
        yield lambda read: progress.advance(task, read)


# --- from points to what is recorded ------------------------------------------------------


def check_room(job: Job) -> FloatArray:
    """The outline of the room; raises LeadsmanError where there is none."""
    from assistant.floor.geometry import outline_of

    outline = outline_of(job.layout)
    if outline is None:
        raise LeadsmanError(
            "The room first: what lies in it is taken, and easting and northing are tried "
            "against it. In the chat: room 12 by 8 metres"
        )
    return outline


def event_of(job: Job, path: Path, points: Points, wanted: FileOptions, ask: Asks) -> ScanImported:
    """
    The cells of a file's points on the floor that lies open.

    Raises LeadsmanError where there is no room, the points do not lie in it, or nobody is there
    to say what the file does not.
    """
    from assistant.events.flatness import ScanImported
    from assistant.floor.geometry import area_of
    from assistant.floor.late_numpy import np
    from assistant.floor.obstacles import is_covered
    from assistant.floor.scans.scan import packed_cells
    from assistant.job import being_read

    outline = check_room(job)
    units = units_of(path, points, wanted.units, ask)
    placed = placed_in(outline, points, units.place, wanted, ask)
    places, height_m = placed.places_m, UNITS[units.height]
    heights = points.height * float(height_m) * 1000
    inside = _inside(outline, places) & ~np.asarray(is_covered(job.layout, places), dtype=bool)
    count = int(inside.sum())
    if count < FEWEST_POINTS:
        raise LeadsmanError(
            f"{path.name}: {wording.counted(count, 'point')} of {len(places)} on the floor to be "
            f"poured, and fewer than {FEWEST_POINTS} show nothing of it. Nothing was taken; single "
            "readings are said in the chat: B3 minus 18."
        )
    cells, few = _cells(places[inside], heights[inside], area_of(job.layout) or 1.0, outline)
    _check_zero(job, cells, wanted.zero, units.height)
    rows, columns = cells.median_mm.shape
    good_to = wanted.good_to_mm or (GOOD_TO_OF_FEW if few else USUAL_GOOD_TO)
    return ScanImported(
        path.name,
        "",
        count,
        len(places) - count,
        placed.swapped,
        being_read(job).slab is not None,
        Measure(good_to, "mm"),
        None if wanted.zero is None else Measure(wanted.zero * height_m * 1000, "mm"),
        Measure(Decimal(str(cells.side_m)), "m"),
        columns,
        rows,
        packed_cells(cells),
        tuple(Measure(Decimal(str(each)), "m") for each in cells.corner_m) if few else (),
        few,
        placed.turn,
    )


def _check_zero(job: Job, cells: CellGrid, zero: Decimal | None, unit: str) -> None:
    """Refuse a zero that no floor lies near: its volume would be one of metres."""
    from assistant.floor.late_numpy import np
    from assistant.floor.plausible_range import farthest_mm

    if zero is None or not np.isfinite(cells.floor_mm).any():
        return
    per_unit = float(UNITS[unit]) * 1000
    middle = float(np.nanmedian(cells.floor_mm))
    off, most = middle - float(zero) * per_unit, float(farthest_mm(job))
    if abs(off) > most:
        side = "above" if off > 0 else "below"
        raise LeadsmanError(
            f"By --zero {zero} the floor would lie {abs(off) / 1000:.2f} m {side} the job's zero, "
            f"and a floor to be poured lies within {most / 1000:g} m of it (common practice, no "
            f"source). In the file it lies at about {middle / per_unit:.3f} {unit}: the job's zero "
            "in the same heights, or leave --zero out. Nothing was taken."
        )


def _cells(
    places: FloatArray, heights: FloatArray, area_m2: float, outline: FloatArray
) -> tuple[CellGrid, bool]:
    """Medians of many points, or few ones as they are; and whether they are few."""
    from assistant.flatness.cells import cell_side_m, cells_of
    from assistant.flatness.few_points import are_few, cells_of_few

    if are_few(len(places), area_m2):
        return cells_of_few(places, heights, area_m2), True
    far = float(outline[:, 0].max()), float(outline[:, 1].max())
    side = cell_side_m(area_m2, max(far), len(places))
    return cells_of(places, heights, side, (0.0, 0.0), far), False


def _inside(outline: FloatArray, places: FloatArray) -> BoolArray:
    import shapely

    room = shapely.Polygon(outline)
    shapely.prepare(room)
    # With its edge: a wall that was measured lies on it.
    inside: BoolArray = shapely.intersects_xy(room, places[:, 0], places[:, 1])
    return inside
