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
class FSection:
    """F-numbers, from the lines that carry one."""

    lines: tuple[tuple[str, LineF], ...]
    """Each line's name with its F-numbers."""
    sd_mm: float
    ff: float | None
    """None where no line carries one; infinite on a plane."""
    fl: float | None
    ff_between: tuple[float, float] | None
    """An interval for FF, worked out in a way of our own."""
    fl_between: tuple[float, float] | None
    why: tuple[str, ...]
    """What is missing for an E1155 number: each a sentence."""
    by_errors: tuple[float, float] | None = None
    """FF and FL that a perfect plane would have by these readings' errors alone; None where that
    matters little."""

    @property
    def supported(self) -> bool:
        """Whether the rules for lines and counts that we know of are kept."""
        return self.ff is not None and not self.why


def section_of(job: Job) -> FSection:
    """The F-numbers of the floor that the job shows."""
    from assistant.flatness.f_numbers import (
        Constants,
        f_number,
        line_f,
        noise_of,
        own_interval,
        pooled_spread,
    )

    found = lines_of(job)
    carrying, why = _carrying(found, job.reading_unit)
    if not carrying:
        return FSection((), 0.0, None, None, None, None, tuple(why))
    row = formula_row()
    constants = Constants(row.ff_mm, row.fl_mm)
    lines = tuple((name, line_f(heights, constants)) for name, heights, _, _ in carrying)
    q, z = [line.q for _, line in lines], [line.z for _, line in lines]
    why += _missing(job, [ends for *_, ends, _ in carrying], sum(each.values_mm.size for each in z))
    sd = max(sd for *_, sd in carrying)
    q_noise, z_noise = noise_of(sd)
    of_q, of_z = pooled_spread(q), pooled_spread(z)
    return FSection(
        lines,
        sd,
        f_number(row.ff_mm, of_q.bottom_mm),
        f_number(row.fl_mm, of_z.bottom_mm),
        own_interval(q, row.ff_mm, noise_mm=q_noise),
        own_interval(z, row.fl_mm, noise_mm=z_noise),
        tuple(why),
        (f_number(row.ff_mm, 3 * q_noise), f_number(row.fl_mm, 3 * z_noise))
        if q_noise > _TOLD * of_q.sd_mm or z_noise > _TOLD * of_z.sd_mm
        else None,
    )


_TOLD = 0.3
"""Share of a value's spread from which on the part due to the readings' errors is shown: a tenth of
its variance. Our own choice."""


def _carrying(
    found: tuple[Lines, ...], unit: str
) -> tuple[list[tuple[str, list[float], list[list[float]], float]], list[str]]:
    """Lines that carry an F-number: name, heights, both ends, deviation; and why others do not."""
    from assistant.flatness.f_numbers import FEWEST_POINTS, spacing_counts

    carrying, why = [], []
    for lines in found:
        if lines.kind != LINE:
            continue
        for id, heights, places in zip(lines.ids, lines.heights_mm, lines.places_m, strict=True):
            read = heights[np.isfinite(heights)]
            name = id.capitalize()
            if not spacing_counts(lines.spacing_m):
                apart = wording.distance(lines.spacing_m, unit)
                why.append(
                    f"{name} was read every {apart}; an F-number wants every {SPACING[unit]}."
                )
            elif len(read) < len(heights):
                why.append(
                    f"{name} has a place without a usable height, or one that was mended since."
                )
            elif len(read) < FEWEST_POINTS:
                why.append(
                    f"{name} has {len(read)} readings; an F-number wants {FEWEST_POINTS} at least."
                )
            else:
                ends = [places[0].tolist(), places[-1].tolist()]
                carrying.append((id, read.tolist(), ends, lines.sd_mm))
    if not carrying and not why:
        why.append(_NO_LINES.format(SPACING[unit]))
    return carrying, why


SPACING = {"mm": "300 mm", "in": "12 in"}
"""Of the readings on a line, by the job's unit."""
_NO_LINES = (
    "A grid of points, or a scan, never carries an F-number: it wants lines read every {}, "
    "12 readings or more on each."
)


def _missing(job: Job, ends: list[list[list[float]]], z_count: int) -> list[str]:
    from assistant.flatness.line_rules import shortfalls

    placed = [each for each in ends if np.isfinite(each).all()]
    found = shortfalls(placed, z_count, area_of(job.layout), outline_of(job.layout))
    told = [_told(each, job.reading_unit) for each in found]
    if len(placed) < len(ends):
        told.append("Nobody said where every line lies, so not all of its rules could be tried.")
    return list(dict.fromkeys(told))


def _told(missing: Shortfall, unit: str) -> str:
    if missing.id == "count":
        more = round(missing.wanted - missing.found)
        return (
            f"The lines give {round(missing.found)} differences over ten spacings, a section of "
            f"this size wants {round(missing.wanted)} (from memory): {more} more."
        )
    if missing.id == "area":
        found, wanted = (wording.area(each, unit) for each in (missing.found, missing.wanted))
        return f"A section has {wanted} at least (from memory); this floor has {found}."
    found, wanted = (
        wording.distance(round(each, 2), unit) for each in (missing.found, missing.wanted)
    )
    match missing.id:
        case "edge":
            return f"A line comes to {found} from a wall; {wanted} is the least."
        case "apart":
            return f"Two lines run {found} apart; {wanted} is the least."
        case "slant":
            narrow = wording.distance(LONGEST_NARROW[unit], unit)
            return f"On a section narrower than {narrow} lines run at 45° to its longest wall."
        case _:
            return "A line runs from corner to corner."


LONGEST_NARROW = {"mm": 7.5, "in": 25 * 0.3048}
"""As it is said in either system; it is decided at 7.5 m."""
