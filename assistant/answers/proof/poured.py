"""Poured against planned: what was really laid, where it went, and what a bag came to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from assistant.answers.finished import finish_cell
from assistant.answers.parts import Answerer, Moment
from assistant.answers.proof.poured_scans import by_scans_alone, by_scans_data, by_scans_words
from assistant.errors import Refusal
from assistant.floor.in_doubt import doubt_words
from assistant.floor.places import place_of_point
from assistant.floor.pour.poured_depths import Poured, PouredPart, PouredPoint, poured_of
from assistant.floor.scans.difference import laid_by_scans, scans_lack
from assistant.job import Job, finished_floor
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.proof import AskPoured

_MOST_NAMED = 3
"""Points named as the fullest and the emptiest."""
_CLEAR_SDS = 2.0
"""Standard deviations by which a depth is clearly not the planned one."""


def poured_told(moment: Moment, _command: AskPoured) -> Reply:
    job, unit = moment.job, moment.unit
    found, by_scans = poured_of(job), laid_by_scans(job)
    if found is None:
        if by_scans is None:
            raise _nothing_yet(job)
        return by_scans_alone(job, by_scans, unit)
    used = job.pour.bags_used
    mean = wording.length(round(found.mean_mm, 1), unit)
    planned = found.planned_mean_mm
    details = [
        *_litres(found, unit),
        *_yield(found, used),
        *_where(found, unit),
        *by_scans_words(job, by_scans, unit),
        *doubt_words(finished_floor(job) or job),
    ]
    points = wording.counted(len(found.points), "point")
    return Reply(
        f"Poured {mean} deep in the mean; planned {wording.length(round(planned, 1), unit)}, "
        f"at {points}.",
        f"Poured {wording.spoken_length(round(found.mean_mm, 1), unit)} in the mean. "
        f"Planned {wording.spoken_length(round(planned, 1), unit)}.",
        tuple(details),
        (
            *_parts("Strips", "Strip", found.strips, unit),
            *_parts("Zones", "Zone", found.zones, unit),
            _table(found, unit),
        ),
        data={"poured": {**poured_data(job, found), "by_scans": by_scans_data(by_scans)}},
    )


def _nothing_yet(job: Job) -> Refusal:
    if finished_floor(job) is None:
        return Refusal(
            "The floor is not poured on record: pour finished, or verify, then read the points.",
            spoken="The floor is not poured on record.",
        )
    lack = scans_lack(job)
    return Refusal(
        "No point is read both before and after the pour; read the finished floor at the slab's "
        f"points. {lack}".rstrip(),
        spoken="No point is read before and after the pour.",
    )


def _litres(found: Poured, unit: str) -> list[str]:
    if found.litres is None:
        if found.litres_by_triangles is None:
            return []
        about = wording.liquid(unit, found.litres_by_triangles, places=0)
        return [f"By the two surveys about {about}; how sure that is takes more points."]
    low, middle, high = found.litres
    return [
        f"By the two surveys {wording.liquid(unit, middle, places=0)}, 95 % sure between "
        f"{wording.liquid(unit, low, places=0)} and {wording.liquid(unit, high, places=0)}; most "
        "of that is the zero, which moves all of it alike."
    ]


def _yield(found: Poured, used: int) -> list[str]:
    if not used:
        return ["No batch is on record, so what a bag came to is not known."]
    if found.litres is None or found.bag_l is None:
        return [f"{wording.counted(used, 'bag')} used."]
    low, middle, high = (each / used for each in found.litres)
    said = f"{wording.figure(middle, 1)} L a bag ({wording.figure(low, 1)} to " + (
        f"{wording.figure(high, 1)})"
    )
    card = wording.figure(found.bag_l, 1)
    if low <= found.bag_l <= high:
        return [f"{wording.counted(used, 'bag')} used: {said}; the card's {card} L lies within."]
    way = "less" if high < found.bag_l else "more"
    return [
        f"{wording.counted(used, 'bag')} used: {said}, {way} than the card's {card} L. "
        + ("Some went elsewhere: down a hole, under a wall, or left in the buckets."
           if way == "less" else "A zero that moved, or bags that were not told.")
    ]  # fmt: skip


def _where(found: Poured, unit: str) -> list[str]:
    """Where clearly more or less was laid than planned: where it flowed to."""
    over = sorted(found.points, key=_over)
    fuller = [each for each in reversed(over) if _over(each) > _CLEAR_SDS * each.sd_mm]
    emptier = [each for each in over if -_over(each) > _CLEAR_SDS * each.sd_mm]
    told = []
    if fuller:
        told.append(f"More than planned at {_named(fuller, unit)}.")
    if emptier:
        told.append(f"Less than planned at {_named(emptier, unit)}.")
    return told or ["No point is clearly off the plan, by what its readings can tell."]


def _over(each: PouredPoint) -> float:
    return float(each.laid_mm - each.planned_mm)


def _named(points: Sequence[PouredPoint], unit: str) -> str:
    shown = [
        f"{each.name} ({wording.length(abs(each.laid_mm - each.planned_mm), unit)})"
        for each in points[:_MOST_NAMED]
    ]
    more = len(points) - len(shown)
    return wording.join_names(shown) + (f", and {more} more" if more else "")


def _parts(title: str, one: str, parts: Sequence[PouredPart], unit: str) -> tuple[Table, ...]:
    if not parts:
        return ()
    rows = tuple(
        (
            part.name,
            str(part.points),
            wording.length(round(part.planned_mm, 1), unit),
            wording.length(round(part.laid_mm, 1), unit),
            _difference(part.laid_mm - part.planned_mm, unit),
        )
        for part in parts
    )
    return (Table(title, (one, "Points", "Planned", "Laid", "Off plan"), rows),)


def _difference(mm: float, unit: str) -> str:
    size = wording.length(round(abs(mm), 1), unit)
    return "none" if not round(mm, 1) else f"{size} {'more' if mm > 0 else 'less'}"


def _table(found: Poured, unit: str) -> Table:
    rows = tuple(
        (
            each.name,
            wording.length(each.planned_mm, unit),
            wording.length(each.laid_mm, unit),
            wording.error_size(each.sd_mm, unit),
            finish_cell(-each.against_finish_mm, unit),
        )
        for each in found.points
    )
    return Table("Points", ("Point", "Planned", "Laid", "SD", "Against the finish"), rows)


def poured_data(job: Job, found: Poured) -> dict[str, Any]:
    """For programs; millimetres, metres, litres."""
    after = finished_floor(job) or job

    def point(each: PouredPoint) -> dict[str, Any]:
        place = place_of_point(after.layout, each.name)
        return {
            "point": each.name,
            "x_m": None if place is None else place[0],
            "y_m": None if place is None else place[1],
            "planned_mm": float(each.planned_mm),
            "laid_mm": float(each.laid_mm),
            "sd_mm": each.sd_mm,
            "against_finish_mm": float(each.against_finish_mm),
        }

    def part(each: PouredPart) -> dict[str, Any]:
        return {"name": each.name, "points": each.points, "planned_mm": each.planned_mm,
                "laid_mm": each.laid_mm}  # fmt: skip

    by_triangles = found.litres_by_triangles
    litres = list(found.litres) if found.litres else [None, by_triangles, None]
    used = job.pour.bags_used
    return {
        "bags_used": used,
        "litres_survey": litres,
        "mean_mm": found.mean_mm,
        "planned_mean_mm": found.planned_mean_mm,
        "litres_a_bag": litres[1] / used if used and litres[1] is not None else None,
        "card_litres_a_bag": found.bag_l,
        "points": [point(each) for each in found.points],
        "strips": [part(each) for each in found.strips],
        "zones": [part(each) for each in found.zones],
    }


ANSWERS: dict[type[Command], Answerer] = {AskPoured: poured_told}
