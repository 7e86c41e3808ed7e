"""F-numbers of a floor from the lines that were read for them, or why there are none."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.floor.geometry import area_of, outline_of
from assistant.floor.late_numpy import np
from assistant.floor.profiles import LINE, Lines, lines_of
from assistant.job import Job
from assistant.limits.specs import formula_row
from assistant.reply import wording
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.flatness.f_numbers import LineF
    from assistant.flatness.line_rules import Shortfall


@frozen_identity
class Section:
    """F-numbers, from the lines that carry one."""

    lines: tuple[tuple[str, LineF], ...]
    """By name."""
    sd_mm: float
    ff: float | None
    """None where no line carries one; infinite on a plane."""
    fl: float | None
    ff_between: tuple[float, float] | None
    """Our own interval."""
    fl_between: tuple[float, float] | None
    why: tuple[str, ...]
    """What is missing for an E1155 number: each a sentence."""

    @property
    def supported(self) -> bool:
        """Whether the rules for lines and counts that we know of are kept."""
        return self.ff is not None and not self.why


def section_of(job: Job) -> Section:
    """The F-numbers of the floor that the job shows."""
    from assistant.flatness.f_numbers import Constants, f_number, line_f, own_interval, pooled

    found = lines_of(job)
    carrying, why = _carrying(found)
    if not carrying:
        return Section((), 0.0, None, None, None, None, tuple(why))
    row = formula_row()
    constants = Constants(row.ff_mm, row.fl_mm)
    lines = tuple((name, line_f(heights, constants)) for name, heights, _, _ in carrying)
    q, z = [line.q for _, line in lines], [line.z for _, line in lines]
    why += _missing(job, [ends for *_, ends, _ in carrying], sum(each.values_mm.size for each in z))
    return Section(
        lines,
        max(sd for *_, sd in carrying),
        f_number(row.ff_mm, pooled(q).bottom_mm),
        f_number(row.fl_mm, pooled(z).bottom_mm),
        own_interval(q, row.ff_mm),
        own_interval(z, row.fl_mm),
        tuple(why),
    )


def _carrying(
    found: tuple[Lines, ...],
) -> tuple[list[tuple[str, list[float], list[list[float]], float]], list[str]]:
    """Lines that carry an F-number: name, heights, both ends, deviation; and why others do not."""
    from assistant.flatness.f_numbers import FEWEST_POINTS, spacing_counts

    carrying, why = [], []
    for lines in found:
        if lines.kind != LINE:
            continue
        for name, heights, places in zip(lines.ids, lines.heights_mm, lines.places_m, strict=True):
            read = heights[np.isfinite(heights)]
            if not spacing_counts(lines.spacing_m):
                apart = wording.figure(lines.spacing_m * 1000, 0)
                why.append(f"{name} was read every {apart} mm; an F-number wants every 300 mm.")
            elif len(read) < len(heights):
                why.append(f"{name} has a place without a usable height.")
            elif len(read) < FEWEST_POINTS:
                why.append(
                    f"{name} has {len(read)} readings; an F-number wants {FEWEST_POINTS} at least."
                )
            else:
                ends = [places[0].tolist(), places[-1].tolist()]
                carrying.append((name, read.tolist(), ends, lines.sd_mm))
    if not carrying and not why:
        why.append(_NO_LINES)
    return carrying, why


_NO_LINES = (
    "A grid of points, or a scan, never carries an F-number: it wants lines read every 300 mm, "
    "12 readings or more on each."
)


def _missing(job: Job, ends: list[list[list[float]]], z_count: int) -> list[str]:
    from assistant.flatness.line_rules import shortfalls

    placed = [each for each in ends if np.isfinite(each).all()]
    outline = outline_of(job.layout)
    found = shortfalls(placed, z_count, area_of(job.layout), outline)
    told = [_told(each) for each in found]
    if len(placed) < len(ends):
        told.append("Nobody said where every line lies, so not all of its rules could be tried.")
    return list(dict.fromkeys(told))


def _told(missing: Shortfall) -> str:
    found, wanted = (wording.figure(each, 1) for each in (missing.found, missing.wanted))
    match missing.id:
        case "area":
            return f"A section has {wanted} m² at least (from memory); this floor has {found}."
        case "count":
            more = round(missing.wanted - missing.found)
            return (
                f"The lines give {round(missing.found)} differences over 3 m, a section of this "
                f"size wants {round(missing.wanted)} (from memory): {more} more."
            )
        case "edge":
            return f"A line comes to {found} m from a wall; {wanted} m is the least."
        case "apart":
            return f"Two lines run {found} m apart; {wanted} m is the least."
        case "slant":
            return "On a section narrower than 7.5 m lines run at 45° to its longest wall."
        case _:
            return "A line runs from corner to corner."
