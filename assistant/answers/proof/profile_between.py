"""A profile between any two places of a floor: by its scan, or the surface through its points."""

from __future__ import annotations

from math import ceil, hypot

from assistant.answers.parts import Moment
from assistant.answers.proof.drawn import height_bar
from assistant.decide.parts import length_of
from assistant.decide.things.obstacles import place_measured
from assistant.errors import Refusal
from assistant.floor.along import Along, Place, heights_along
from assistant.floor.scans.scan import scan_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from assistant.units.lengths import metres
from grammar.commands.proof import AskProfile

MOST_ROWS = 200
"""Of a drawing; more would be a slip in the spacing."""
_SCREEN = 24
"""Rows that fit a screen, where nobody says how far apart."""
_ROUND = {
    "mm": (0.05, 0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0),
    "in": tuple(0.3048 * feet for feet in (0.25, 0.5, 1, 2, 3, 5, 10, 20)),
}
"""Spacings that are easily found on a tape, metres."""
_FINE_M = 0.05
"""Between places of the surface that lowest and highest are looked for at."""
_NOT_SEEN = "not seen"


def profile_between(moment: Moment, command: AskProfile) -> Reply:
    job, unit = moment.job, moment.unit
    start, end = _ends(job, command)
    length_m = hypot(end[0] - start[0], end[1] - start[1])
    if length_m == 0:
        raise Refusal(
            "A profile runs from one place to another: profile from A1 to F4.",
            spoken="A profile runs from one place to another.",
        )
    title = _title(command, start, end, unit)
    every_m = _every_m(command, length_m, unit)
    drawn_at = _steps(length_m, every_m)
    cells = scan_of(job)
    fine_m = _FINE_M if cells is None else cells.side_m / 2
    looked_at = sorted({*_steps(length_m, fine_m), *drawn_at})
    found = heights_along(job, [_place(start, end, at / length_m) for at in looked_at])
    if found is None or all(mm is None for mm in found.heights_mm):
        raise Refusal(
            "Nothing is read along there: points, or a scan of this floor.",
            spoken="Nothing is read along there.",
        )
    heights = dict(zip(looked_at, found.heights_mm, strict=True))
    seen = [(mm, at) for at, mm in heights.items() if mm is not None]
    (low, low_at), (high, high_at) = min(seen), max(seen, key=lambda each: each[0])
    most = max(abs(low), abs(high))
    span = wording.length(round(high - low, 1), unit)
    rows = [_row(at, heights[at], most, unit, found.above) for at in drawn_at]
    return Reply(
        f"{title}: {span} from lowest to highest over {_at(length_m, unit)}.",
        f"{wording.spoken_length(round(high - low, 1), unit)} from lowest to highest.",
        (
            _by(found, cells.side_m if cells is not None else 0.0, unit),
            f"Lowest at {_at(low_at, unit)}, highest at {_at(high_at, unit)}.",
            f"Left of the bar is below {found.above}, right of it above; its ends are "
            f"{wording.length(round(most, 1), unit)} off.",
        ),
        (Table("Profile", ("At", "Height", "Below | above"), tuple(rows)),),
        data={
            "profile": {
                "of": title,
                "by": "scan" if found.by_scan else "surface",
                "above": found.above,
                "names": [],
                "along_m": [round(at, 6) for at in drawn_at],
                "heights_mm": [_rounded(heights[at]) for at in drawn_at],
                "lowest": {"mm": _rounded(low), "at_m": round(low_at, 6)},
                "highest": {"mm": _rounded(high), "at_m": round(high_at, 6)},
            }
        },
    )


def _ends(job: Job, command: AskProfile) -> tuple[Place, Place]:
    if command.start is not None and command.end is not None:
        first, last = (
            tuple(map(metres, place_measured(job, point))) for point in (command.start, command.end)
        )
    else:
        told = (command.along, command.across, command.to_along, command.to_across)
        x, y, to_x, to_y = (metres(each) for each in told if each is not None)
        first, last = (x, y), (to_x, to_y)
    return (first[0], first[1]), (last[0], last[1])


def _title(command: AskProfile, start: Place, end: Place, unit: str) -> str:
    if command.start is not None:
        return f"From {command.start} to {command.end}"
    one, other = (
        " by ".join(wording.distance(each, unit) for each in place) for place in (start, end)
    )
    return f"From {one} to {other}"


def _every_m(command: AskProfile, length_m: float, unit: str) -> float:
    if command.spacing is None:
        fits = [each for each in _ROUND[unit] if length_m / each <= _SCREEN]
        return fits[0] if fits else length_m / _SCREEN
    every_m = metres(length_of(command.spacing, "The spacing of a profile"))
    if length_m / every_m > MOST_ROWS:
        raise Refusal(
            f"Every {wording.as_said(command.spacing)} that is "
            f"{ceil(length_m / every_m)} heights; a profile draws {MOST_ROWS} at most.",
            spoken="That spacing is too small for this profile.",
        )
    return every_m


def _steps(length_m: float, every_m: float) -> list[float]:
    """From the start in even steps, and the end."""
    whole = int(length_m / every_m + 1e-6)
    steps = [round(step * every_m, 9) for step in range(whole + 1)]
    return steps if length_m - steps[-1] < 1e-6 else [*steps, length_m]


def _place(start: Place, end: Place, share: float) -> Place:
    share = min(share, 1.0)
    return (
        start[0] + share * (end[0] - start[0]),
        start[1] + share * (end[1] - start[1]),
    )


def _row(at: float, mm: float | None, most: float, unit: str, above: str) -> tuple[str, ...]:
    if mm is None:
        return (_at(at, unit), _NOT_SEEN, "")
    return (_at(at, unit), wording.height(round(mm, 1) + 0.0, unit, above), height_bar(mm, most))


def _at(along_m: float, unit: str) -> str:
    return wording.distance(round(along_m, 2), unit)


def _by(found: Along, side_m: float, unit: str) -> str:
    if found.by_scan:
        return f"By the scan, in cells of {wording.distance(side_m, unit)}."
    return "By the surface through the points: between two of them it is straight."


def _rounded(mm: float | None) -> float | None:
    return None if mm is None else round(mm, 6) + 0.0
