"""``leadsman import``: many points of a floor from a file, whole or not at all."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.command_line.card_commands import Add
from assistant.command_line.parts import ALL_TAKEN, screen_for
from assistant.errors import LeadsmanError
from assistant.record.places import jobs_in, user_folders
from assistant.terminal.aside import aside
from assistant.wiring import open_journal
from grammar.commands import Measure
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.events.flatness import ScanImported
    from assistant.floor.scan_fit import Fit
    from assistant.job import Job
    from assistant.levels.arrays import BoolArray, FloatArray
    from assistant.point_files.points import Points, Seen

ABOUT = """\
Take in a file of points (CSV or TXT of a total station, scanner or laser; PLY
and PCD as text; LAS, LAZ and E57 with the extra “scan”) as the scan of the
floor: the median height of each cell, count and spread. The room has to be told
first, as easting and northing are tried against it. The whole file is kept in
the job's file; a bad row is named and nothing is taken. Up to 5,000,000 points.

Places count from the room's A1 corner along its first and second side; where
that corner has other coordinates in the file: --corner EASTING,NORTHING."""

EXAMPLES = """\
examples:
  leadsman import floor.csv --units m
  leadsman import points.txt --columns point,northing,easting,height --units m
  leadsman import scan.csv --units mm --corner 1000,2000 --zero 100250

then in the chat: scan · straightedge 2 metres · spec DIN 18202 row 3 · undo"""

UNITS = {"m": Decimal(1), "cm": Decimal("0.01"), "mm": Decimal("0.001"),
         "ft": Decimal("0.3048"), "in": Decimal("0.0254")}  # fmt: skip
USUAL_GOOD_TO = "0.5"
"""Standard deviation of a scanned height in mm. On one controlled slab scanning agreed with a
digital level within 0.5 mm in 98 of 100 (one firm's validation), so it is seldom better."""
LARGE_BYTES = 2_000_000
"""From here on reading takes about a second, and a bar shows how far it is."""

Asks = Callable[[str, tuple[str, ...]], str]
"""Asks for one of several words; raises LeadsmanError where nobody is there to answer."""


@frozen
class Wanted:
    """What was said of a file."""

    columns: str | None
    units: str | None
    corner: tuple[Decimal, Decimal] | None
    zero: Decimal | None
    good_to_mm: Decimal


def add_import(add: Add) -> None:
    """The command with what stands after it."""
    added = add("import", import_file, "take in a file of points of the floor", ABOUT, EXAMPLES)
    added.add_argument("file", type=Path, metavar="FILE", help="the points")
    added.add_argument("--columns", help="what the columns are: point,easting,northing,height")
    added.add_argument("--units", choices=tuple(UNITS), help="of all numbers in the file")
    added.add_argument("--corner", metavar="E,N", help="the A1 corner's coordinates in the file")
    added.add_argument("--zero", metavar="H", help="height of the job's zero in the file")
    added.add_argument(
        "--good-to", metavar="MM", default=USUAL_GOOD_TO,
        help="standard deviation of one height of the instrument; else 0.5 mm",
    )  # fmt: skip


def import_file(options: argparse.Namespace) -> int:
    """Read the file, record its cells, tell what came of it."""
    wanted = Wanted(
        options.columns,
        options.units,
        None if options.corner is None else _pair(options.corner),
        None if options.zero is None else _number("--zero", options.zero),
        _number("--good-to", options.good_to),
    )
    path = _job_path(options)
    with open_journal(path) as journal:
        from assistant.answers import answer
        from assistant.decide import World
        from assistant.job import fold, next_number, record
        from assistant.record.attachments import attachment_of
        from grammar.commands.flatness import AskScan

        job = fold(journal.utterances())
        # Asked before a long file is read.
        check_room(job)
        unit = wanted.units or _unit(options.file, _ask)
        content, points = _read(options.file, wanted, _ask)
        event = event_of(job, options.file.name, points, unit, wanted, _ask)
        kept = attachment_of(options.file.name, content)
        event = replace(event, digest=kept.digest)
        said, now = f"import {options.file.name}", datetime.now(UTC)
        journal.append(said, (event,), now, attached=(kept,))
        after = record(job, next_number(job), said, (event,), now)
        reply = answer(job, after, AskScan(), (event,), World({}, now=now))
    screen_for(options).show_reply(reply)
    return ALL_TAKEN


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


def _pair(text: str) -> tuple[Decimal, Decimal]:
    cells = text.split(",")
    if len(cells) != 2:
        raise LeadsmanError(
            f"--corner {text}: two numbers, easting and northing: --corner 1000,2000"
        )
    return _number("--corner", cells[0]), _number("--corner", cells[1])


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


def _read(path: Path, wanted: Wanted, ask: Asks) -> tuple[bytes, Points]:
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
            return content, read_text(path, wanted.columns, seen)
        except UnknownColumns as unknown:
            columns = ask(str(unknown), ("",))
    return content, read_text(path, columns)


@contextmanager
def _shown(size: int, *, counted: bool) -> Iterator[Seen]:
    """
    A bar on a terminal where reading takes more than a second; it never reaches the answers.

    It shows how far it is where bytes are told; else only that it goes on.
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


def event_of(
    job: Job, name: str, points: Points, unit: str, wanted: Wanted, ask: Asks
) -> ScanImported:
    """
    The cells of a file's points on the floor that lies open.

    Raises LeadsmanError where there is no room, the points do not lie in it, or nobody is there
    to say what the file does not.
    """
    from assistant.events.flatness import ScanImported
    from assistant.flatness.cells import cell_side_m, cells_of
    from assistant.floor.geometry import area_of
    from assistant.floor.late_numpy import np
    from assistant.floor.obstacles import is_covered
    from assistant.floor.scan import packed_cells
    from assistant.job import being_read

    outline = check_room(job)
    first, second = _from_corner(points, wanted, float(UNITS[unit]))
    swapped = _way_round(outline, first, second, points, unit, ask)
    places = np.column_stack((second, first) if swapped else (first, second))
    heights = points.height * float(UNITS[unit]) * 1000
    inside = _inside(outline, places) & ~np.asarray(is_covered(job.layout, places), dtype=bool)
    count = int(inside.sum())
    far = outline.max(axis=0)
    side = cell_side_m(area_of(job.layout) or 1.0, float(far.max()), count)
    cells = cells_of(
        places[inside], heights[inside], side, (0.0, 0.0), (float(far[0]), float(far[1]))
    )
    rows, columns = cells.median_mm.shape
    return ScanImported(
        name,
        "",
        count,
        len(places) - count,
        swapped,
        being_read(job).slab is not None,
        Measure(wanted.good_to_mm, "mm"),
        None if wanted.zero is None else Measure(wanted.zero * UNITS[unit] * 1000, "mm"),
        Measure(Decimal(str(side)), "m"),
        columns,
        rows,
        packed_cells(cells),
    )


def _unit(path: Path, ask: Asks) -> str:
    from assistant.point_files.clouds import CLOUDS

    if path.suffix.lower() in CLOUDS:
        return "m"
    return ask(
        "In which unit are the numbers of the file? --units m, mm, cm, ft or in", tuple(UNITS)
    )


def _from_corner(points: Points, wanted: Wanted, unit_m: float) -> tuple[FloatArray, FloatArray]:
    corner = wanted.corner or (Decimal(0), Decimal(0))
    return (
        (points.first - float(corner[0])) * unit_m,
        (points.second - float(corner[1])) * unit_m,
    )


def _inside(outline: FloatArray, places: FloatArray) -> BoolArray:
    import shapely

    room = shapely.Polygon(outline)
    shapely.prepare(room)
    # With its edge: a wall that was measured lies on it.
    inside: BoolArray = shapely.intersects_xy(room, places[:, 0], places[:, 1])
    return inside


def _way_round(
    outline: FloatArray, first: FloatArray, second: FloatArray, points: Points, unit: str, ask: Asks
) -> bool:
    """Whether the second place of each point runs along the first side."""
    from assistant.floor.scan_fit import fit_of

    fit = fit_of(outline, first, second)
    if fit.lies_as_read and (points.named or not fit.lies_swapped):
        return False
    if fit.lies_as_read:
        way = ask(
            "Does easting or northing come first? Both ways the points lie in the room. "
            "--columns easting,northing,height or northing,easting,height (with point, if there "
            "is one)",
            ("easting", "northing"),
        )
        return way == "northing"
    if not fit.lies_swapped:
        raise LeadsmanError(_not_in_room(outline, fit, unit))
    if not points.named:
        return True
    way = ask(
        "As the columns are named the points do not lie in the room; with easting and northing "
        "changed over they do. Change them over (yes), or nothing is taken: "
        "--columns with northing before easting",
        ("yes", "no"),
    )
    if way != "yes":
        raise LeadsmanError("Nothing was taken.")
    return True


def _not_in_room(outline: FloatArray, fit: Fit, unit: str) -> str:
    size = outline.max(axis=0) - outline.min(axis=0)
    spans = " by ".join(f"{each:.2f}" for each in fit.spans_m)
    told = (
        f"The points do not lie in the room: they span {spans} m as numbers in {unit}, "
        f"from {fit.starts_m[0]:.2f} and {fit.starts_m[1]:.2f} m on; the room is "
        f"{size[0]:.2f} by {size[1]:.2f} m. Nothing was taken."
    )
    for other, metres in UNITS.items():
        scale = float(metres / UNITS[unit])
        spanned = sorted(each * scale for each in fit.spans_m)
        if other != unit and _is_alike(spanned, sorted(size.tolist())):
            return f"{told} In {other} they would be as large as it: --units {other}"
    if _is_alike(sorted(fit.spans_m), sorted(size.tolist())):
        at = ",".join(f"{each / float(UNITS[unit]):g}" for each in fit.starts_m)
        return f"{told} They are as large as it: say where its corner is, about --corner {at}"
    return f"{told} Its corner may have other coordinates in the file: --corner EASTING,NORTHING"


def _is_alike(one: list[float], other: list[float]) -> bool:
    return all(
        0.8 * theirs <= ours <= 1.02 * theirs for ours, theirs in zip(one, other, strict=True)
    )
