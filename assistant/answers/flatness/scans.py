"""Answers: the many points that were imported, as cells and from above."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from assistant.answers.flatness.scan_map import scan_map
from assistant.answers.parts import Answerer, Moment
from assistant.decide.flatness import NO_SCAN
from assistant.errors import Refusal
from assistant.events.flatness import ScanImported
from assistant.floor.late_numpy import np
from assistant.floor.places_in_words import place_words
from assistant.floor.scans.scan import scan_event, scan_of, scan_sd_mm
from assistant.floor.scans.volume import bags_by_scan, scan_volume_data, scan_volume_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.flatness import AskScan, DropScan

if TYPE_CHECKING:
    from assistant.flatness.cells import CellGrid
    from assistant.levels.arrays import BoolArray

_MOST_NAMED = 3
_HARDLY_M3 = 0.0005
"""Less than half a litre between two scans is called no difference."""


def scan_told(moment: Moment, _command: AskScan) -> Reply:
    from assistant.flatness.cells import CLEAR, FEW, MIXED, NOTHING, STANDS

    job = moment.job
    cells, event = scan_of(job), scan_event(job)
    if cells is None or event is None:
        raise Refusal("There is no scan. At the shell: leadsman import FILE.", spoken=NO_SCAN)
    counts = {kind: int(np.count_nonzero(cells.kind == kind)) for kind in range(5)}
    floor = cells.floor_mm
    if not counts[CLEAR]:
        raise Refusal("No cell of the scan shows clear floor.", spoken="No clear floor in it.")
    low, middle, high = (float(each) for each in np.nanpercentile(floor, [0, 50, 100]))
    side = wording.distance(cells.side_m, moment.unit)
    sd = scan_sd_mm(event, cells)
    good_to = wording.error_size(2 * sd, moment.unit)
    each = round(float(np.median(cells.count[cells.kind == CLEAR])))
    details = [
        f"Too few points for medians: {wording.counted(counts[CLEAR], 'cell')} of {side}, "
        f"{wording.counted(each, 'point')} each, good to about {good_to}."
        if event.single
        else f"Medians of cells of {side}: {counts[CLEAR]} clear, from "
        f"{wording.counted(each, 'point')} each, good to about {good_to}.",
        f"Lowest to highest: {wording.length(round(high - low, 1), moment.unit)}.",
    ]
    if counts[STANDS] + counts[MIXED]:
        details.append(_standing(job, cells, counts[STANDS], counts[MIXED]))
    if counts[FEW] + counts[NOTHING]:
        details.append(
            f"{wording.counted(counts[FEW] + counts[NOTHING], 'cell')} seen by too few points, or "
            "none; in the room's box, its walls cut off more."
        )
    if event.off_floor:
        details.append(f"{event.off_floor} points lie off the floor and count for nothing.")
    if event.turn is not None:
        turn = wording.figure(event.turn, 1)
        details.append(f"The file's axes were turned by {turn}° to lie along the room's sides.")
    if event.swapped:
        details.append("Easting and northing were changed over: only so they lie in the room.")
    details.append(
        "Heights are against the job's zero."
        if event.zero is not None
        else "Heights are the file's own: shape only. The zero's height there: import with --zero."
    )
    details += volume_words(job, moment.unit)
    details.append("The tally stays on the readings; straightedge and spec look at the scan too.")
    floor_map = scan_map(job)
    return Reply(
        f"Scan {event.file}: {event.points} points on the floor.",
        f"Scan of {event.points} points.",
        tuple(details),
        map=floor_map,
        data={
            "scan": {
                **_data(event, cells, counts, sd, (low, middle, high)),
                "volume": scan_volume_data(job),
            }
        },
    )


def volume_words(job: Job, unit: str) -> list[str]:
    """What the scan comes to as a volume, over what it saw, and what its zero is worth."""
    found = scan_volume_of(job)
    if found is None:
        return []
    off = wording.volume(2 * found.sd_m3, unit)
    bags = None if job.slab is not None else bags_by_scan(job, found)
    event = scan_event(job)
    single = event is not None and event.single
    told = (
        f"By the scan {wording.volume(found.fill_m3, unit)} to the finish, good to {off} by errors "
        "of its heights"
    )
    if single:
        told += ", what lies between them not counted"
    if bags is not None:
        told += f"; {wording.counted(bags, 'bag')} with {job.waste_percent} % waste"
    percent = wording.figure(100 * found.seen, 0)
    lines = [
        f"{told}.",
        f"It {'stands for' if single else 'saw'} {percent} % of the floor; the rest is taken to be "
        "as high. A millimetre in its "
        f"zero is {wording.volume(found.a_millimetre_m3, unit)} more or less.",
    ]
    if found.above_m3 > _HARDLY_M3:
        lines.append(
            f"Above the finish by the scan: {wording.volume(found.above_m3, unit)}; not taken off."
        )
    return lines


def _standing(job: Job, cells: CellGrid, standing: int, mixed: int) -> str:
    """How many cells are no floor, and where the first of them are."""
    from assistant.flatness.cells import MIXED, STANDS

    told = wording.counted(standing + mixed, "cell")
    spots = _first_of_each(cells, cells.kind == (STANDS if standing else MIXED))
    where = "; ".join(place_words(job, x, y) for x, y in spots[:_MOST_NAMED])
    more = " and more" if len(spots) > _MOST_NAMED else ""
    return f"{told} with something standing on them, left out: {where}{more}."


def _first_of_each(cells: CellGrid, kind: BoolArray) -> list[tuple[float, float]]:
    """The middle of each group of cells that touch, the largest first."""
    from scipy import ndimage

    marked, count = ndimage.label(kind, structure=np.ones((3, 3)))
    sizes = np.bincount(marked.ravel(), minlength=count + 1)[1:]
    middles = cells.middles_m
    found = []
    for group in (np.argsort(-sizes, kind="stable") + 1).tolist():
        x, y = middles[marked == group].mean(axis=0).tolist()
        found.append((x, y))
    return found


def _data(
    event: ScanImported,
    cells: CellGrid,
    counts: dict[int, int],
    sd: float,
    heights: tuple[float, float, float],
) -> dict[str, Any]:
    from assistant.flatness.cells import CLEAR, FEW, MIXED, NOTHING, STANDS

    low, middle, high = heights
    return {
        "file": event.file,
        "sha256": event.digest,
        "points": event.points,
        "off_floor": event.off_floor,
        "swapped": event.swapped,
        "cell_m": cells.side_m,
        "cells": {
            "clear": counts[CLEAR],
            "standing": counts[STANDS],
            "mixed": counts[MIXED],
            "few": counts[FEW],
            "none": counts[NOTHING],
        },
        "sd_mm": sd,
        "low_mm": low,
        "median_mm": middle,
        "high_mm": high,
        "against": "zero" if event.zero is not None else "file",
        "single": event.single,
        "turn_degrees": None if event.turn is None else float(event.turn),
    }


def scan_dropped(_moment: Moment, _command: DropScan) -> Reply:
    return Reply(
        "The scan counts for nothing any more.", "The scan is dropped.", data={"scan": None}
    )


ANSWERS: dict[type[Command], Answerer] = {AskScan: scan_told, DropScan: scan_dropped}
