"""Answers: the many points that were imported, as cells and from above."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from assistant.answers.parts import Answerer, Moment
from assistant.decide.flatness import NO_SCAN
from assistant.errors import Refusal
from assistant.events.flatness import ScanImported
from assistant.floor.geometry import outline_of
from assistant.floor.late_numpy import np
from assistant.floor.places_in_words import place_words
from assistant.floor.scan import scan_event, scan_of, scan_sd_mm
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import FloorMap, MapSpot, Reply
from grammar.commands import Command
from grammar.commands.flatness import AskScan, DropScan

if TYPE_CHECKING:
    from assistant.flatness.cells import Cells
    from assistant.levels.arrays import BoolArray

_MOST_SPOTS = (10, 8)
"""On the map, across and up: what fits a screen of 80 columns."""
_MOST_NAMED = 3


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
    details = [
        f"Medians of cells of {side}: {counts[CLEAR]} clear, from "
        f"{_usual(cells.count[cells.kind == CLEAR])} points each, good to about "
        f"{wording.length(round(2 * sd, 1), moment.unit)}.",
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
    if event.swapped:
        details.append("Easting and northing were changed over: only so they lie in the room.")
    details.append(
        "Heights are against the job's zero."
        if event.zero is not None
        else "Heights are the file's own: shape only. The zero's height there: import with --zero."
    )
    details.append("The tally stays on the readings; straightedge and spec look at the scan too.")
    floor_map = _map(job, cells, middle)
    return Reply(
        f"Scan {event.file}: {event.points} points on the floor.",
        f"Scan of {event.points} points.",
        tuple(details),
        map=floor_map,
        data={"scan": _data(event, cells, counts, sd, (low, middle, high))},
    )


def _usual(counts: Any) -> str:
    return wording.figure(float(np.median(counts)), 0)


def _standing(job: Job, cells: Cells, standing: int, mixed: int) -> str:
    """How many cells are no floor, and where the first of them are."""
    from assistant.flatness.cells import MIXED, STANDS

    told = wording.counted(standing + mixed, "cell")
    spots = _first_of_each(cells, cells.kind == (STANDS if standing else MIXED))
    where = "; ".join(place_words(job, x, y) for x, y in spots[:_MOST_NAMED])
    more = " and more" if len(spots) > _MOST_NAMED else ""
    return f"{told} with something standing on them, left out: {where}{more}."


def _first_of_each(cells: Cells, kind: BoolArray) -> list[tuple[float, float]]:
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
    cells: Cells,
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
    }


def _map(job: Job, cells: Cells, middle: float) -> FloorMap | None:
    """Medians of larger squares below the scan's median; what was not seen is left open."""
    outline = outline_of(job.layout)
    if outline is None:
        return None
    rows, columns = cells.median_mm.shape
    step = max(-(-columns // _MOST_SPOTS[0]), -(-rows // _MOST_SPOTS[1]))
    spots = []
    for row in range(0, rows, step):
        for column in range(0, columns, step):
            part = np.s_[row : row + step, column : column + step]
            x, y = cells.middles_m[part].reshape(-1, 2).mean(axis=0).tolist()
            seen = cells.floor_mm[part]
            name = f"{_letters(column // step)}{row // step + 1}"
            below = None
            if np.isfinite(seen).any():
                below = round(middle - float(np.nanmedian(seen)), 1)
            spots.append(MapSpot(name, x, y, below))
    corners = tuple((x, y) for x, y in outline.tolist())
    return FloorMap(corners, tuple(spots), job.reading_unit, shows="Below the scan's median")


def _letters(column: int) -> str:
    return chr(ord("A") + column)


def scan_dropped(_moment: Moment, _command: DropScan) -> Reply:
    return Reply(
        "The scan counts for nothing any more.", "The scan is dropped.", data={"scan": None}
    )


ANSWERS: dict[type[Command], Answerer] = {AskScan: scan_told, DropScan: scan_dropped}
