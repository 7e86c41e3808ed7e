"""Answers: F-numbers of lines, and the largest gap under a straightedge."""

from __future__ import annotations

from decimal import Decimal
from math import isinf
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.decide.flatness import check_edge
from assistant.errors import Refusal
from assistant.floor.f_limits import whole_f
from assistant.floor.f_section import SPACING, FSection, section_of
from assistant.floor.in_doubt import doubt_words
from assistant.floor.profiles import GRID, LINE, Lines, lines_of, run_one_way
from assistant.floor.proof_lines import mended_words
from assistant.floor.spec_check import place_on
from assistant.job import Job
from assistant.limits.specs import formula_row
from assistant.reply import wording
from assistant.reply.examples import reading_of
from assistant.reply.replies import Reply, Table
from assistant.units.lengths import metres
from grammar.commands import Command, Measure
from grammar.commands.flatness import AskFlatness, AskStraightedge

USUAL_EDGE = {"mm": Measure(Decimal(2), "m"), "in": Measure(Decimal(10), "ft")}
"""Of a straightedge whose length was not said, by the job's unit: that of BS 8204, and that of
American standards."""


# --- F-numbers ---------------------------------------------------------------------------


def flatness_told(moment: Moment, _command: AskFlatness) -> Reply:
    section = section_of(moment.job)
    data = _flatness_data(section)
    if section.ff is None or section.fl is None:
        return Reply(
            "No FF or FL from these readings.",
            "No flatness number from these readings.",
            section.why,
            data=data,
        )
    ff, fl = whole_f(section.ff), whole_f(section.fl)
    head = f"FF {ff}, FL {fl} by the E1155 formula"
    source = formula_row().source
    details = [*_by_errors(section), *_between(section), f"{source[0].upper()}{source[1:]}."]
    if not section.supported:
        head += ", not by its rules"
        details = [*section.why, *details]
    rows = tuple(
        (name, str(line.count), whole_f(line.ff), whole_f(line.fl)) for name, line in section.lines
    )
    return Reply(
        f"{head}.",
        (f"FF {_spoken(section.ff)}", f"FL {_spoken(section.fl)}"),
        tuple(details),
        (Table("", ("Line", "Readings", "FF", "FL"), rows),),
        data=data,
    )


def _between(section: FSection) -> list[str]:
    if section.ff_between is None or section.fl_between is None:
        return []
    (low, high), (least, most) = section.ff_between, section.fl_between
    return [
        f"Our own interval for the floor between the lines, 9 in 10: FF {whole_f(low)} to "
        f"{whole_f(high)}, FL {whole_f(least)} to {whole_f(most)}."
    ]


def _by_errors(section: FSection) -> list[str]:
    if section.by_errors is None:
        return []
    ff, fl = map(whole_f, section.by_errors)
    return [
        f"By errors of the readings alone a perfect plane would have FF {ff} and FL {fl}: what is "
        "flatter wants a finer instrument."
    ]


def _spoken(number: float) -> str:
    return "no bound" if isinf(number) else wording.spoken_number(int(number + 0.5))


def _flatness_data(section: FSection) -> dict[str, Any]:
    return {
        "lines": [
            {
                "id": name,
                "n": line.count,
                "ff": _finite(line.ff),
                "fl": _finite(line.fl),
                "q": [round(each, 4) for each in line.q.values_mm.tolist()],
            }
            for name, line in section.lines
        ],
        "ff": _finite(section.ff),
        "fl": _finite(section.fl),
        "supported": section.supported,
        "why": " ".join(section.why),
        "own_interval": {
            "ff": _bounds(section.ff_between),
            "fl": _bounds(section.fl_between),
            "confidence": 0.9,
        },
        "by_errors": _bounds(section.by_errors),
        "source": formula_row().source,
    }


def _finite(number: float | None) -> float | None:
    """For JSON, which has no infinity: a plane has no bound, and so no number."""
    return None if number is None or isinf(number) else number


def _bounds(between: tuple[float, float] | None) -> list[float | None] | None:
    return None if between is None else [_finite(each) for each in between]


# --- a straightedge -----------------------------------------------------------------------


def straightedge_told(moment: Moment, command: AskStraightedge) -> Reply:
    from assistant.flatness.straightedge import worst_gap

    job, length = moment.job, command.length or USUAL_EDGE[moment.unit]
    check_edge(length)
    length_m = metres(length)
    found = [
        (lines, worst_gap(lines.along_m, lines.heights_mm, length_m)) for lines in lines_of(job)
    ]
    if not found:
        raise Refusal(
            "A straightedge wants three readings in a row, on the grid or along a line: ",
            reading_of("B3"),
            ".",
            spoken="Three readings in a row are needed first.",
        )
    lines, gap = max(found, key=lambda each: each[1].mm)
    sd = lines.sd_mm * gap.noise
    said = wording.as_said(length)
    where = place_on(job, lines, gap.line, gap.at_m)
    size = wording.length(round(gap.mm, 1), moment.unit)
    details = [
        _reading_words(job, lines, sd),
        *_hidden(job, found, length_m),
        *mended_words(job),
        *doubt_words(job),
    ]
    blind = gap.mm == 0 and all(2 * each.spacing_m >= length_m for each, _ in found)
    if gap.mm > 0:
        ends = [place_on(job, lines, gap.line, each) for each in gap.between_m]
        details.insert(0, f"The edge rests at {ends[0]} and {ends[1]}, {lines.direction}.")
        head = f"Largest gap under {said}: {size} at {where}."
    elif blind:
        apart = wording.distance(round(lines.spacing_m, 3), moment.unit)
        head = f"Points {apart} apart cannot tell of gaps under {said}."
        details = [f"A line read every {SPACING[moment.unit]} would."]
    else:
        head = f"No gap under {said}."
        details.append("A crest that fills the edge leaves no gap between points of contact.")
    rows = tuple(
        (
            each.direction,
            wording.length(round(best.mm, 1), moment.unit),
            place_on(job, each, best.line, best.at_m) if best.mm > 0 else "-",
            wording.distance(round(each.spacing_m, 3), moment.unit),
        )
        for each, best in found
    )
    spoken = f"largest gap {wording.spoken_length(round(gap.mm, 1), moment.unit)}"
    table = Table("", ("Direction", "Largest gap", "At", "Readings every"), rows)
    return Reply(
        head,
        "The points are too far apart." if blind else (spoken, where if gap.mm > 0 else ""),
        tuple(details),
        () if blind else (table,),
        data={
            "straightedge": {
                "length_m": length_m,
                "gap_mm": None if blind else gap.mm,
                "at_m": _at(lines, gap.line, gap.at_m),
                "direction": lines.direction,
                "between_m": list(gap.between_m),
                "along_m": gap.at_m,
                "line": lines.ids[gap.line],
                "edge_m": gap.edge_m,
                "sd_mm": sd,
                "spacing_m": lines.spacing_m,
            }
        },
    )


def _at(lines: Lines, line: int, along_m: float) -> list[float] | None:
    """Place on the floor, x and y; None where nobody said where the line lies."""
    place = lines.places_m[line][abs(lines.along_m - along_m).argmin()].tolist()
    return None if place[0] != place[0] else place


def _reading_words(job: Job, lines: Lines, sd: float) -> str:
    kind = {GRID: "readings of the grid", LINE: "lines"}.get(
        lines.kind, "medians of the scan" if lines.averaged_m else "points of the scan"
    )
    off = wording.error_size(2 * sd, job.reading_unit)
    return f"From {kind}; good to about {off}."


def _hidden(job: Job, found: list[tuple[Lines, Any]], length_m: float) -> list[str]:
    """What readings so far apart do not show."""
    from assistant.flatness.verdicts import hidden_share

    closest = min((lines for lines, _ in found), key=lambda lines: lines.spacing_m)
    spacing = closest.spacing_m
    share = hidden_share(spacing, length_m, closest.averaged_m)
    apart = wording.distance(round(spacing, 3), job.reading_unit)
    edge = wording.distance(length_m, job.reading_unit)
    told = []
    if isinf(share):
        told.append(
            f"Points {apart} apart hide most of what lies under {edge}: this gap is the least "
            "there is."
        )
    else:
        percent = wording.figure(100 * share, 0)
        told.append(
            f"Points {apart} apart can hide {percent} % of a wave as long as the edge, and any "
            "dip between two of them."
        )
    if all(gap.edge_m < length_m - 1e-6 for _, gap in found):
        told.append(f"No line of readings is as long as {edge}: the edge was taken shorter.")
    if run_one_way([lines for lines, _ in found]):
        told.append("One direction only: the other was not read.")
    return told


ANSWERS: dict[type[Command], Answerer] = {
    AskFlatness: flatness_told,
    AskStraightedge: straightedge_told,
}
