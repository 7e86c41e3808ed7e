"""Answers about the whole job: tally, what is missing, warnings, map."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from assistant.answers.finish.source import source_told
from assistant.answers.flatness.scan_map import scan_drawn, scan_map
from assistant.answers.flatness.scans import volume_words
from assistant.answers.material.order import (
    bags_with_interval,
    interval_data,
    interval_details,
    spoken_bags_with_interval,
)
from assistant.answers.material.product import assumed_waste, material_details
from assistant.answers.parts import Answerer, Moment, depth_range, spoken_depth, spoken_first
from assistant.answers.zones.tables import parts_data, parts_table, rounded_up_words
from assistant.decide.zones import known_zone
from assistant.events.proof import PromiseMade
from assistant.floor import warnings as checks
from assistant.floor.finish_source import finish_data
from assistant.floor.geometry import depths_of, outline_of, places_of, untied_points
from assistant.floor.heights import survey_of
from assistant.floor.scan_volume import scan_volume_data
from assistant.floor.tally import Tally, tally_of
from assistant.floor.things_on_map import covered_spots, things_on_map
from assistant.floor.ties import how_to_tie
from assistant.floor.walk import points_missing, skipped_words
from assistant.floor.zone_warnings import zone_warnings
from assistant.floor.zones import card_at, cards_of, in_zone
from assistant.job import Job, WalkedRoom, finished_floor
from assistant.limits.cautions import cautions_at
from assistant.limits.own_limits import NONE
from assistant.reply import wording
from assistant.reply.examples import GRID, ROOM, jambs_of, outside_of, place_of, reading_of
from assistant.reply.replies import FloorMap, MapSpot, Reply, SpokenSentence, ToSay
from grammar.commands import Command
from grammar.commands.overview import AskCautions, AskMap, AskMissing, AskTally, AskWarnings
from grammar.example import Worded, worded
from grammar.frozen import frozen


def tally_told(moment: Moment, command: AskTally) -> Reply:
    if command.zone is not None:
        return _zone_tally(moment, known_zone(moment.job, command.zone))
    job, unit = moment.job, moment.unit
    tally = tally_of(job)
    zones = {"zones": parts_data(job)} if job.layout.zones else {}
    by_scan = {} if (found := scan_volume_data(job)) is None else {"by_scan": found}
    return Reply(
        _tally_headline(job, tally, unit),
        _tally_spoken(job, tally, unit),
        (*_tally_details(job, tally, unit), *rounded_up_words(job)),
        (parts_table(job, unit),) if zones else (),
        warnings=checks.all_warnings(job),
        data={
            "tally": {**tally.as_data(), **interval_data(job), **zones, **by_scan},
            "finish": finish_data(job),
        },
    )


def _zone_tally(moment: Moment, name: str) -> Reply:
    """The same of one zone; what is read of the whole floor tells of what lies between."""
    part, unit = in_zone(moment.job, name), moment.unit
    tally = tally_of(part)
    said = _tally_spoken(part, tally, unit)
    headline = _tally_headline(part, tally, unit)
    return Reply(
        f"{name.capitalize()}: {headline[:1].lower()}{headline[1:]}",
        (wording.spoken_zone(name), *((said,) if isinstance(said, str) else said)),
        tuple(_tally_details(part, tally, unit)),
        warnings=zone_warnings(moment.job, name),
        data={
            "tally": {"zone": name, **tally.as_data(), **interval_data(part)},
            "finish": finish_data(part),
        },
    )


def _tally_headline(job: Job, tally: Tally, unit: str) -> str:
    parts = [_points_read(tally)]
    if tally.depths is not None:
        parts.append(depth_range(tally.depths, unit))
    if tally.volume_m3 is not None:
        parts.append(f"{wording.volume(tally.volume_m3, unit)}.")
    parts.append(bags_with_interval(job))
    return " ".join(part for part in parts if part)


def _points_read(tally: Tally) -> str:
    if not tally.points:
        return "No readings yet."
    if tally.missing:
        return f"{tally.points} of {tally.points + tally.missing} points read."
    return f"{wording.counted(tally.points, 'point')} read."


def _tally_spoken(job: Job, tally: Tally, unit: str) -> ToSay:
    if tally.depths is None:
        return "No readings yet."
    parts = [
        wording.spoken_count(tally.points, "point"),
        f"mean {spoken_depth(tally.depths.mean, unit)}",
        "" if tally.volume_m3 is None else wording.spoken_volume(tally.volume_m3, unit),
        spoken_bags_with_interval(job),
    ]
    if tally.missing:
        parts.append(f"{wording.spoken_number(tally.missing)} to read")
    return tuple(parts)


def _tally_details(job: Job, tally: Tally, unit: str) -> list[str]:
    lines = []
    if tally.area_m2 is not None:
        lines.append(f"Floor {wording.area(tally.area_m2, unit)}.")
    told = source_told(job)
    if job.finish_mm or told:
        lines.append(f"Finish {wording.height(job.finish_mm, unit)}{', ' * bool(told)}{told}.")
    elif not job.finish_said and tally.depths is not None:
        lines.append("Finish at the zero, assumed: nobody has set it.")
    if untied := untied_points(job):
        lines.append(f"Not counted, since nothing ties their set-up: {wording.join_names(untied)}.")
    if skipped := skipped_words(job):
        lines.append(skipped)
    lines += interval_details(job)
    if tally.mean_method_volume_m3 is not None:
        by_hand = wording.volume(tally.mean_method_volume_m3, unit)
        lines.append(f"By hand, mean depth times area: {by_hand}.")
    if tally.high_volume_m3:
        high = wording.volume(tally.high_volume_m3, unit)
        lines.append(f"Above the finish: {high}; not taken off the pour.")
    lines += volume_words(job, unit)
    lines += material_details(job)
    if not cards_of(job):
        lines.append("No product chosen, so no bags: product NAME.")
    elif tally.material is None and tally.waste_assumed:
        lines.append(assumed_waste())
    return lines


@frozen
class Lack:
    """Something the job still lacks, and what to say to give it."""

    id: str
    what: str
    how: tuple[Worded, ...]
    """What to say to give it, or the points that it is about."""
    count: int | None = None
    """How many are lacking, where they can be counted."""
    joint: str = ": "

    def message(self, unit: str) -> str:
        """Both, to read."""
        return wording.sentence(worded((self.what, self.joint, *self.how), unit))


def missing_told(moment: Moment, _command: AskMissing) -> Reply:
    job = moment.job
    lacks, points = missing_from_job(job), points_missing(job)
    messages = [lack.message(moment.unit) for lack in lacks]
    data: dict[str, Any] = {
        "missing": [
            {"id": lack.id, "message": message}
            for lack, message in zip(lacks, messages, strict=True)
        ],
        "points": list(points),
    }
    if wanted := _of_the_proof(job):
        data["proof"] = [{"id": lack.id, "message": lack.message(moment.unit)} for lack in wanted]
    besides = tuple(f"To prove it: {lack.message(moment.unit)}" for lack in wanted)
    if not lacks:
        return Reply("Nothing is missing.", details=besides, data=data)
    return Reply(
        f"{wording.counted(len(lacks), 'thing')} missing. First: {messages[0]}",
        (
            SpokenSentence(f"{wording.spoken_number(len(lacks))} missing"),
            SpokenSentence(f"first, {_spoken(lacks[0])}"),
        ),
        (*messages[1:], *besides),
        data=data,
    )


def _spoken(lack: Lack) -> str:
    """What is lacking, aloud, without how to give it."""
    if lack.count is not None:
        return wording.spoken_count(lack.count, "reading")
    return lack.what[0].lower() + lack.what[1:]


def missing_from_job(job: Job) -> list[Lack]:
    """All that the job still lacks, in the order of the work."""
    if job.slab is not None:
        # All else was needed for the pour.
        return [*_reading_lacks(job), *_line_lacks(job)]
    return [*_room_lacks(job), *_material_lacks(job), *_reading_lacks(job), *_door_lacks(job)]


def _room_lacks(job: Job) -> list[Lack]:
    room, lacks = job.layout.room, []
    if room is None:
        lacks.append(Lack("room", "The room", (ROOM, ", or wall by wall")))
    elif isinstance(room, WalkedRoom) and not room.closed:
        lacks.append(Lack("close-room", "The outline is open", ("close room",)))
    if not places_of(job.layout).names and job.layout.grid is None:
        lacks.append(Lack("grid", "The points", (GRID,)))
    return lacks


def _material_lacks(job: Job) -> list[Lack]:
    return [] if job.card else [Lack("product", "The product", ("product NAME",))]


def _reading_lacks(job: Job) -> list[Lack]:
    lacks = []
    if points := points_missing(job):
        left = wording.counted(len(points), "reading")
        lacks.append(Lack("readings", left, (wording.join_names(points),), len(points)))
    elif not job.readings:
        lacks.append(Lack("readings", "Readings", (reading_of("B3"),)))
    for number in survey_of(job).untied:
        what, how = f"A tie for set-up {number + 1}", how_to_tie(job, number)
        lacks.append(Lack(f"tie:{number + 1}", what, (how,), joint=". "))
    places = places_of(job.layout)
    lost = sorted(set(job.readings) - set(places.row) - set(places.covered))
    if lost:
        lacks.append(Lack("places", f"Places for {wording.join_names(lost)}", (place_of("NAME"),)))
    return lacks


def _line_lacks(job: Job) -> list[Lack]:
    """Lines that were begun and not ended."""
    lacks = []
    for number, line in sorted(job.proof.lines.items()):
        if not line.ended:
            values = f"{len(line.values)} of {line.holds}" if line.holds else f"{len(line.values)}"
            what = f"The end of line {number}, {values} values so far"
            lacks.append(Lack(f"line:{number}", what, (f"go on with line {number}",)))
    return lacks


def _of_the_proof(job: Job) -> list[Lack]:
    """What a proof of the finished floor wants besides; no reading waits for it."""
    if job.slab is None:
        return []
    lacks = []
    for number, door in sorted(job.doors.items()):
        if door.left is None:
            what = f"Door {number}, both jambs again"
            lacks.append(Lack(f"door-jambs:{number}", what, (jambs_of(number),)))
    if job.setting(PromiseMade) is None:
        how = ("promised flat, promised level, or promised both",)
        lacks.append(Lack("promise", "What was promised", how))
    return lacks


def _door_lacks(job: Job) -> list[Lack]:
    if not job.doors:
        return [Lack("doors", "The doors", (jambs_of(1),))]
    lacks = []
    for number, door in sorted(job.doors.items()):
        if door.left is None:
            what = f"Door {number}, both jambs"
            lacks.append(Lack(f"door-jambs:{number}", what, (jambs_of(number),)))
        if door.outside is None:
            what = f"Door {number}, the floor outside"
            lacks.append(Lack(f"door-outside:{number}", what, (outside_of(number),)))
        if door.point is None:
            lacks.append(
                Lack(f"door-place:{number}", f"Door {number}, where", (f"door {number} at B1",))
            )
    return lacks


def cautions_told(moment: Moment, _command: AskCautions) -> Reply:
    """All safety words, with the product's own bag where it is known."""
    card = moment.job.card
    cautions = cautions_at("site", card.bag_kg if card else None)
    told = "The usual cautions; local code, the data sheet and licensed people decide."
    return Reply(
        told,
        cautions=cautions,
        data={"cautions": [caution.id for caution in cautions]},
        at_length=(told,),
    )


def warnings_told(moment: Moment, _command: AskWarnings) -> Reply:
    warnings = checks.all_warnings(moment.job)
    cautions = checks.cautions_of(moment.job)
    counts = [
        (severity, sum(w.severity == severity for w in warnings)) for severity in checks.SEVERITIES
    ]
    data = {"warnings": dict(counts)}
    since = _since_the_pour(moment.job)
    if not warnings:
        return Reply(
            "No limit known here is passed.",
            details=(
                "That is no proof of a sound floor: the data sheet and local code decide.",
                *since,
            ),
            cautions=cautions,
            data=data,
        )
    told = [wording.counted(count, severity) for severity, count in counts if count]
    spoken = [wording.spoken_count(count, severity) for severity, count in counts if count]
    return Reply(
        f"{wording.join_names(told)}. First: {warnings[0].message}",
        (wording.join_names(spoken), f"first, {spoken_first(warnings[0])}"),
        since,
        warnings=warnings,
        cautions=cautions,
        data=data,
    )


def _since_the_pour(job: Job) -> tuple[str, ...]:
    """What the finished floor's survey shows, beside the warnings about the slab."""
    floor = finished_floor(job)
    if floor is None:
        return ()
    known = checks.all_warnings(job)
    own = [f"Finished floor: {w.message}" for w in checks.all_warnings(floor) if w not in known]
    return ("Limits are those of the pour over the slab.", *own)


def map_drawn(moment: Moment, _command: AskMap) -> Reply:
    scanned = scan_map(moment.job)
    if scanned is not None and not moment.job.readings:
        return scan_drawn(scanned)
    floor = floor_map(moment.job)
    if not floor.outline and not floor.spots:
        return Reply(
            f"Nothing to draw yet. The room first: {ROOM.in_unit(moment.unit)}.",
            "Nothing to draw yet.",
            data={"map": None},
        )
    read = sum(spot.depth_mm is not None for spot in floor.spots)
    told = f"{read} of {wording.counted(len(floor.spots), 'point')} read"
    of = wording.spoken_count(len(floor.spots), "point")
    spoken = [f"{wording.spoken_number(read)} of {of} read"]
    if doubtful := sum(bool(spot.doubt) for spot in floor.spots):
        told += f", {doubtful} in doubt"
        spoken.append(f"{wording.spoken_number(doubtful)} in doubt")
    data = {
        "outline_m": [list(corner) for corner in floor.outline],
        "spots": [
            {
                "point": s.point,
                "x_m": s.x_m,
                "y_m": s.y_m,
                "depth_mm": s.depth_mm,
                "flag": s.flag,
                "doubt": s.doubt or None,
                "set_up": s.set_up,
            }
            for s in floor.spots
        ],
        "doors": [{"id": door, "x_m": x, "y_m": y} for door, x, y in floor.doors],
        "covered": [{"point": s.point, "x_m": s.x_m, "y_m": s.y_m} for s in floor.covered],
        "things": [
            {
                "kind": thing.kind,
                "told": thing.told,
                "at_m": [list(place) for place in thing.at_m],
                "points": list(thing.points),
                "stands": thing.stands,
            }
            for thing in floor.things
        ],
    }
    named = {"mm": "millimetres", "in": "inches"}[moment.unit]
    what = "Depths" if moment.job.slab is None else "Heights below the finish"
    more = () if scanned is None else ("There is a scan of it too: scan draws it.",)
    return Reply(f"{what} in {named}, {told}.", tuple(spoken), more, map=floor, data={"map": data})


def floor_map(job: Job) -> FloorMap:
    """The floor from above."""
    outline, places, depths = outline_of(job.layout), places_of(job.layout), depths_of(job)
    spots = tuple(_spot(job, point, at_m, depths.get(point)) for point, at_m in places.at_m.items())
    doors = tuple(
        (number, *places.xy(door.point))
        for number, door in sorted(job.doors.items())
        if door.point in places.row and door.point is not None
    )
    corners = () if outline is None else tuple((x, y) for x, y in outline.tolist())
    shows = "Depth" if job.slab is None else "Below the finish"
    things, covered = things_on_map(job.layout), covered_spots(job.layout)
    return FloorMap(corners, spots, job.reading_unit, doors, shows, things, covered)


def _spot(job: Job, point: str, at: tuple[float, float], depth: Fraction | None) -> MapSpot:
    doubt = survey_of(job).doubtful.get(point, "")
    set_up = job.readings[point].set_up + 1 if point in job.readings else None
    if depth is None:
        return MapSpot(point, *at, None, doubt=doubt, set_up=set_up)
    card, own = (card_at(job, point), job.own_limits) if job.slab is None else (None, NONE)
    flag = checks.over_depth(card, depth, Fraction(job.aggregate_percent), own)
    return MapSpot(point, *at, float(depth), flag, doubt, set_up)


ANSWERS: dict[type[Command], Answerer] = {
    AskTally: tally_told,
    AskMissing: missing_told,
    AskWarnings: warnings_told,
    AskCautions: cautions_told,
    AskMap: map_drawn,
}
