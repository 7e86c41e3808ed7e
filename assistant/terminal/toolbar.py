"""The running tally in one short line, for the foot of the prompt."""

from __future__ import annotations

from fractions import Fraction

from assistant.floor.tally import Tally
from assistant.floor.walk import points_missing
from assistant.job import Job, being_read, is_poured_over
from assistant.terminal.map_marks import depth_text

GAP = "  "


def toolbar_line(job: Job, tally: Tally, warnings: int, width: int) -> str:
    """
    Points, mean, min to max, bags and warnings, as many as fit.

    What matters least for going on is left out first: the mean, then the range.
    """
    pieces = _pieces(job, tally, warnings)
    for left_out in ((), ("mean",), ("mean", "span"), ("mean", "span", "bags")):
        kept = [text for name, text in pieces.items() if text and name not in left_out]
        line = GAP.join(kept)
        if len(line) <= width:
            return line
    return line[:width]


def _pieces(job: Job, tally: Tally, warnings: int) -> dict[str, str]:
    unit, depths, made = job.reading_unit, tally.depths, tally.material
    span = ""
    if depths is not None and depths.least != depths.most:
        span = f"{_depth(depths.least, unit)} to {_depth(depths.most, unit)} {unit}"
    return {
        "line": _line(job),
        "points": _finished(job) if is_poured_over(job) else _points(tally),
        "mean": f"mean {_depth(depths.mean, unit)} {unit}" if depths else "",
        "span": span,
        "bags": _counted(made.bags, "bag") if made else "",
        "warnings": _counted(warnings, "warning") if warnings else "",
    }


def _finished(job: Job) -> str:
    """The tally after the pour, of the points that are being read now."""
    floor = being_read(job)
    return (
        f"finished floor {len(floor.readings)}/{len(floor.readings) + len(points_missing(floor))}"
    )


def _line(job: Job) -> str:
    """The line that is being read, to which values without a point go."""
    line = being_read(job).proof.line
    if line is None:
        return ""
    return f"line {line.number} {len(line.values)}" + (f"/{line.holds}" if line.holds else "")


def _points(tally: Tally) -> str:
    if not tally.points and not tally.missing:
        return "no points yet"
    of = f"/{tally.points + tally.missing}" if tally.missing else ""
    return f"{tally.points}{of} " + ("point" if tally.points == 1 and not of else "points")


def _depth(depth_mm: Fraction, unit: str) -> str:
    return depth_text(float(depth_mm), unit)


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
