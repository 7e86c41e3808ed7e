"""A profile along a line, a row or a column, drawn with letters and figures alone."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from assistant.answers.parts import Answerer, Moment
from assistant.answers.proof.drawn import height_bar
from assistant.answers.proof.profile_between import profile_between
from assistant.decide.proof.lines import line_meant
from assistant.decide.readings import check_line
from assistant.decide.walk import line_in_order
from assistant.errors import Refusal
from assistant.floor.depths import depths_of
from assistant.floor.heights import heights_of
from assistant.floor.places import places_of
from assistant.floor.profiles import ON_THE_LINE_M
from assistant.floor.proof_lines import profile_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.proof import AskProfile
from grammar.frozen import frozen


@frozen
class _Drawn:
    """What is drawn: places along it, heights there and their names."""

    title: str
    names: tuple[str, ...]
    along_m: tuple[float, ...]
    heights_mm: tuple[float, ...]
    zero: str
    """What the heights are against."""


def profile_drawn(moment: Moment, command: AskProfile) -> Reply:
    if command.start is not None or command.along is not None:
        return profile_between(moment, command)
    job, unit = moment.job, moment.unit
    drawn = _of_line(job, command) if command.number is not None else _of_points(job, command)
    low, high = min(drawn.heights_mm), max(drawn.heights_mm)
    span = wording.length(round(high - low, 1), unit)
    long = wording.distance(drawn.along_m[-1] - drawn.along_m[0], unit)
    most = max(abs(low), abs(high))
    rows = tuple(
        (name, wording.distance(along, unit), wording.height(round(mm, 1), unit, drawn.zero),
         height_bar(mm, most))
        for name, along, mm in zip(drawn.names, drawn.along_m, drawn.heights_mm, strict=True)
    )  # fmt: skip
    end = wording.length(round(most, 1), unit)
    return Reply(
        f"{drawn.title}: {span} from lowest to highest over {long}.",
        f"{wording.spoken_length(round(high - low, 1), unit)} from lowest to highest.",
        (f"Left of the bar is below {drawn.zero}, right of it above; its ends are {end} off.",),
        (Table("Profile", ("", "At", "Height", "Below | above"), rows),),
        data={
            "profile": {
                "of": drawn.title,
                "names": list(drawn.names),
                "along_m": list(drawn.along_m),
                "heights_mm": list(drawn.heights_mm),
            }
        },
    )


def _of_line(job: Job, command: AskProfile) -> _Drawn:
    line = line_meant(job, command.number)
    if not line.values:
        raise Refusal(
            f"Line {line.number} has no value yet.",
            spoken="That line has no value yet.",
        )
    profile = profile_of(job, line)
    if profile is None:
        raise Refusal(
            f"The values of line {line.number} are of set-ups that nothing ties together, so they "
            "cannot be drawn as one profile.",
            spoken="That line's set-ups are not tied together.",
        )
    along = [index * line.spacing_m for index in range(len(line.values))]
    names = [str(index + 1) for index in range(len(line.values))]
    return _drawn(f"Line {line.number}", names, along, profile.heights_mm, "the zero")


def _of_points(job: Job, command: AskProfile) -> _Drawn:
    line = command.line or ""
    check_line(job, line)
    places, known = places_of(job.layout), heights_of(job)
    names = [name for name in _in_line(job, line) if name in known]
    what = "Column" if line.isalpha() else "Row"
    if len(names) < 2:
        raise Refusal(
            f"{what} {line} has {wording.counted(len(names), 'point')} with a height; a profile "
            "takes two.",
            spoken="A profile takes two points that were read.",
        )
    x, y = places.xy(names[0])
    along = [hypot(places.xy(name)[0] - x, places.xy(name)[1] - y) for name in names]
    if job.slab is None:
        heights = [float(known[name]) for name in names]
        return _drawn(f"{what} {line}", names, along, heights, "the zero")
    depths = depths_of(job)
    heights = [-float(depths[name]) for name in names]
    return _drawn(f"{what} {line}", names, along, heights, "the finish")


def _in_line(job: Job, line: str) -> list[str]:
    """A row or column of the grid, with the points of one's own that lie on it, in their order."""
    names, places = line_in_order(job, line), places_of(job.layout)
    if not names:
        return names
    way = 1 if line.isalpha() else 0
    beside = places.xy(names[0])[1 - way]
    own = [
        name
        for name in job.layout.own_points
        if name in places.row and abs(places.xy(name)[1 - way] - beside) <= ON_THE_LINE_M
    ]
    return sorted([*names, *own], key=lambda name: places.xy(name)[way])


def _drawn(
    title: str,
    names: Sequence[str],
    along_m: Sequence[float],
    heights_mm: Sequence[float],
    zero: str,
) -> _Drawn:
    rounded = tuple(round(mm, 6) + 0.0 for mm in heights_mm)
    return _Drawn(title, tuple(names), tuple(round(m, 6) for m in along_m), rounded, zero)


ANSWERS: dict[type[Command], Answerer] = {AskProfile: profile_drawn}
