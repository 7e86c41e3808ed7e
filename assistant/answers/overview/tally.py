"""The tally: depth, volume and bags of the floor, or of a part of it."""

from __future__ import annotations

from assistant.answers.finish.source import source_told
from assistant.answers.flatness.scans import volume_words
from assistant.answers.material.order import (
    bags_with_interval,
    interval_data,
    interval_details,
    spoken_bags_with_interval,
)
from assistant.answers.material.product import assumed_waste, material_details
from assistant.answers.parts import Answerer, Moment, depth_range, spoken_depth
from assistant.answers.zones.tables import parts_data, parts_table, rounded_up_words
from assistant.decide.zones import known_zone
from assistant.floor import warnings as checks
from assistant.floor.depths import untied_points
from assistant.floor.finish_source import finish_data
from assistant.floor.scans.volume import scan_volume_data
from assistant.floor.tally import Tally, tally_of
from assistant.floor.walk import skipped_words
from assistant.floor.zone_warnings import zone_warnings
from assistant.floor.zones import cards_of, in_zone
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply, ToSay
from grammar.commands import Command
from grammar.commands.overview import AskTally


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


ANSWERS: dict[type[Command], Answerer] = {
    AskTally: tally_told,
}
