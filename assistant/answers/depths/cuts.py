"""Answers about pins: what to cut them to, and where more are wanted."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from assistant.answers.parts import Answerer, Moment, depth_cell, depth_sentence
from assistant.decide.readings import check_point, check_read, check_tied
from assistant.floor.depths import depths_of
from assistant.floor.places import grid_of
from assistant.floor.steps import cell_of, column_number
from assistant.floor.walk import points_missing, skipped_words
from assistant.floor.warnings import all_warnings, depth_matters, warnings_about
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from assistant.reply.side_by_side import lengths
from assistant.units.lengths import floor_to_sixteenth, inch_text
from grammar.commands import Command
from grammar.commands.depths import AskCut, AskCutList
from grammar.frozen import frozen

SUDDEN_MM = 6
"""Common practice, no source: two neighbouring points with a larger difference in height need a
pin between. Raising it allows steeper falls without one."""

MOST_PLACES = 6


@frozen
class Cut:
    """What one pin is cut to."""

    point: str
    depth_mm: Fraction
    text: str | None
    """``18 mm`` or ``11/16 in``; None where there is no pin to cut."""
    remark: str = ""


def cut_for(point: str, depth_mm: Fraction, unit: str) -> Cut:
    """
    A pin's cut, rounded down: rounded up it would stick out of the finish.

    Whole millimetres or sixteenths of an inch, from the exact depth.
    """
    if depth_mm <= 0:
        return Cut(point, depth_mm, None, "no pin: grind here, or raise the finish")
    if unit == "in":
        inches = floor_to_sixteenth(depth_mm)
        text = inch_text(inches) if inches else None
    else:
        whole = floor(depth_mm)
        text = f"{whole} mm" if whole else None
    return Cut(point, depth_mm, text, "" if text else "no pin: too thin to cut one")


def cut_list(moment: Moment, _command: AskCutList) -> Reply:
    job, unit = moment.job, moment.unit
    cuts = [cut_for(point, depth, unit) for point, depth in depths_of(job).items()]
    data = {"cuts": [_data(cut) for cut in cuts]}
    if not cuts:
        return Reply("No pins to cut yet: no readings.", data=data)
    whole = [cut for cut in cuts if cut.text]
    without = [cut.point for cut in cuts if not cut.text]
    headline = f"{wording.counted(len(whole), 'pin')} to cut"
    if whole:
        shortest, longest = _ends(whole)
        headline += f", {shortest.text} to {longest.text}"
    spoken = [f"{wording.spoken_count(len(whole), 'pin')} to cut"]
    if without:
        spoken.append(f"{wording.spoken_count(len(without), 'point')} without")
    rows = tuple((c.point, depth_cell(c.depth_mm, unit), c.text or c.remark) for c in cuts)
    return Reply(
        f"{headline}.",
        tuple(spoken),
        (*_notes(job, without), "Cuts are rounded down, so that no pin stands proud."),
        (Table("Cut list, in walking order", ("Point", "Depth", "Cut"), rows),),
        warnings=depth_matters(job),
        data=data,
        at_length=(*_said(spoken), *(_cut_said(cut, unit) for cut in cuts)),
        goes_on=True,
    )


def _said(spoken: list[str]) -> list[str]:
    return [wording.sentence(each) for each in spoken]


def _cut_said(cut: Cut, unit: str) -> str:
    """A cut as it is read out: the point, and the length of its pin."""
    length = _spoken_cut(cut, unit) if cut.text else "no pin"
    return f"{wording.sentence(wording.spoken_name(cut.point)).rstrip('.')}, {length}."


def _ends(cuts: list[Cut]) -> tuple[Cut, Cut]:
    by_depth = sorted(cuts, key=lambda cut: cut.depth_mm)
    return by_depth[0], by_depth[-1]


def _notes(job: Job, without: list[str]) -> list[str]:
    notes = []
    if without:
        notes.append(f"No pin at {wording.join_names(without)}: too high or too thin.")
    if missing := points_missing(job):
        notes.append(f"Not read yet: {wording.join_names(missing)}.")
    if skipped := skipped_words(job):
        notes.append(skipped)
    doors = [str(number) for number in sorted(job.doors)]
    at = (
        f"door{'s' if len(doors) > 1 else ''} {wording.join_names(doors)}"
        if doors
        else "every door"
    )
    notes.append(f"Add pins at {at}, and wherever the floor changes suddenly.")
    if sudden := sudden_changes(job):
        depths, unit = depths_of(job), job.reading_unit
        steps = {pair: abs(depths[pair[0]] - depths[pair[1]]) for pair in sudden}
        over, _ = lengths(unit, SUDDEN_MM, min(steps.values()))
        places = [
            f"{one}-{other} ({lengths(unit, step, SUDDEN_MM)[0]})"
            for (one, other), step in steps.items()
        ]
        notes.append(
            f"Sudden between {wording.join_names(places, MOST_PLACES)}: "
            f"over {over} from one point to the next (common practice, no source)."
        )
    return notes


def sudden_changes(job: Job) -> list[tuple[str, str]]:
    """Neighbours on the grid that differ by more than :data:`SUDDEN_MM`, in walking order."""
    grid, depths = grid_of(job.layout), depths_of(job)
    if grid is None:
        return []
    at = {_cell(name): name for name in grid.names}
    found = []
    for name in depths:
        cell = _cell(name)
        if at.get(cell) != name:
            continue  # a single point, not on the grid
        for step in ((1, 0), (0, 1)):
            neighbour = at.get((cell[0] + step[0], cell[1] + step[1]))
            if neighbour in depths and abs(depths[name] - depths[neighbour]) > SUDDEN_MM:
                found.append((name, neighbour))
    return found


def _cell(name: str) -> tuple[int, int]:
    """Column and row of a named point, counted from one."""
    letters, row = cell_of(name)
    return column_number(letters), int(row or 0)


def cut_one(moment: Moment, command: AskCut) -> Reply:
    job, point = moment.job, command.point
    if point not in job.readings:
        check_point(job, point)
    check_read(job, point)
    check_tied(job, point)
    cut = cut_for(point, depths_of(job)[point], moment.unit)
    depth = depth_sentence(cut.depth_mm, moment.unit)
    name = wording.spoken_name(point)
    warnings = warnings_about(all_warnings(job), point)
    data = {"cuts": [_data(cut)]}
    if cut.text is None:
        return Reply(
            f"{point}: {cut.remark}. {depth}",
            f"{name}, {cut.remark}.",
            warnings=warnings,
            data=data,
        )
    return Reply(
        f"{point}: cut {cut.text}. {depth}",
        f"{name}, cut {_spoken_cut(cut, moment.unit)}.",
        warnings=warnings,
        data=data,
    )


def _spoken_cut(cut: Cut, unit: str) -> str:
    if unit == "in":
        return wording.spoken_length(floor_to_sixteenth(cut.depth_mm) * Fraction(127, 5), "in")
    return wording.spoken_length(Fraction(floor(cut.depth_mm)), "mm")


def _data(cut: Cut) -> dict[str, object]:
    return {"point": cut.point, "depth_mm": float(cut.depth_mm), "cut": cut.text}


ANSWERS: dict[type[Command], Answerer] = {AskCutList: cut_list, AskCut: cut_one}
