"""One number about a point, or between two points."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import hypot

from assistant.answers.figures.figure import figure_reply
from assistant.answers.parts import Answerer, Moment
from assistant.decide.readings import check_point, check_read, check_tied
from assistant.errors import Refusal
from assistant.floor.heights import heights_of
from assistant.floor.places import places_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import place_of
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.figures import AskDifference, AskPlace, AskSlope
from grammar.numbers import spelled_digits


def _height_mm(job: Job, point: str) -> Fraction:
    check_read(job, point)
    check_tied(job, point)
    return heights_of(job)[point]


def _rise_mm(job: Job, command: AskDifference | AskSlope) -> Fraction:
    if command.start == command.end:
        raise Refusal("Name two points: difference A1 to D3.")
    return _height_mm(job, command.end) - _height_mm(job, command.start)


def difference_told(moment: Moment, command: AskDifference) -> Reply:
    job, unit = moment.job, moment.unit
    rise = _rise_mm(job, command)
    start, end = command.start, command.end
    said_start, said_end = wording.spoken_name(start), wording.spoken_name(end)
    if rise == 0:
        return figure_reply(
            "difference", 0.0, "mm", f"{start} and {end} are level.",
            f"{said_start} and {said_end}, level.",
        )  # fmt: skip
    side = "higher" if rise > 0 else "lower"
    size = abs(rise)
    details = [] if (found := _slope(job, command)) is None else [f"{_slope_words(*found, unit)}."]
    return figure_reply(
        "difference",
        float(rise),
        "mm",
        f"{end} is {wording.length(size, unit)} {side} than {start}.",
        f"{said_end} is {wording.spoken_length(size, unit)} {side} than {said_start}.",
        *details,
    )


def _slope(job: Job, command: AskDifference | AskSlope) -> tuple[float, float] | None:
    """(rise in mm, distance in m); None where a point has no place."""
    places = places_of(job.layout)
    if command.start not in places.row or command.end not in places.row:
        return None
    (x, y), (u, v) = places.xy(command.start), places.xy(command.end)
    return float(_rise_mm(job, command)), hypot(u - x, v - y)


def _slope_words(rise_mm: float, away_m: float, unit: str) -> str:
    fall = wording.slope(abs(rise_mm) / away_m, unit)
    percent = wording.figure(abs(rise_mm) / away_m / 10, 2)
    return f"{fall} ({percent} %) over {wording.distance(away_m, unit)}"


def slope_told(moment: Moment, command: AskSlope) -> Reply:
    job, unit = moment.job, moment.unit
    _rise_mm(job, command)
    found = _slope(job, command)
    if found is None:
        raise Refusal(
            "A slope takes points that have a place: ",
            place_of("K1"),
            ".",
            spoken="A slope takes points that have a place.",
        )
    rise, away = found
    names = f"{command.start} to {command.end}"
    said = f"{wording.spoken_name(command.start)} to {wording.spoken_name(command.end)}"
    percent = wording.figure(abs(rise) / away / 10, 2)
    if rise == 0:
        return figure_reply("slope", 0.0, "%", f"{names}: level.", f"{said}, level.")
    way = "rises" if rise > 0 else "falls"
    return figure_reply(
        "slope",
        rise / away / 10,
        "%",
        f"{names} {way} {_slope_words(rise, away, unit)}.",
        f"{said}, {way} {spelled_digits(Decimal(percent))} percent.",
    )


def place_told(moment: Moment, command: AskPlace) -> Reply:
    job, unit, point = moment.job, moment.unit, command.point
    check_point(job, point)
    places = places_of(job.layout)
    if point not in places.row:
        raise Refusal(
            f"{point} has no place yet: ",
            place_of(point),
            ".",
            spoken=f"{wording.spoken_name(point)} has no place yet.",
        )
    x, y = places.xy(point)
    across, along = wording.distance(x, unit), wording.distance(y, unit)
    details = [] if (way := _way_there(job, point)) is None else [way]
    reply = figure_reply(
        "place",
        None,
        "m",
        f"{point}: {across} from the left wall, {along} from the wall at row 1.",
        f"{wording.spoken_name(point)}, {wording.spoken_distance(x, unit)} from the left, "
        f"{wording.spoken_distance(y, unit)} from the wall at row one.",
        *details,
        "Seen from the corner at A1, with the letters to the right and the numbers ahead.",
    )
    return reply.adding(data={"place": {"point": point, "x_m": x, "y_m": y}})


def _way_there(job: Job, point: str) -> str | None:
    """From the point read last: how far along the letters, and along the numbers."""
    places, last = places_of(job.layout), job.last_point
    if last is None or last == point or last not in places.row:
        return None
    (x, y), (u, v) = places.xy(last), places.xy(point)
    legs = []
    if abs(u - x) > 1e-9:
        side = "right" if u > x else "left"
        legs.append(f"{wording.distance(abs(u - x), job.reading_unit)} to the {side}")
    if abs(v - y) > 1e-9:
        side = "ahead" if v > y else "back"
        legs.append(f"{wording.distance(abs(v - y), job.reading_unit)} {side}")
    return f"From {last}, read last: {wording.join_names(legs)}."


ANSWERS: dict[type[Command], Answerer] = {
    AskDifference: difference_told,
    AskSlope: slope_told,
    AskPlace: place_told,
}
