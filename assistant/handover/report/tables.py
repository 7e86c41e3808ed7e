"""What of a record a report lists: site, pour, notes, what was accepted."""

from __future__ import annotations

from datetime import datetime
from string import ascii_uppercase

from assistant.handover.csv_text import number_text
from assistant.handover.tables import pour
from assistant.job import Job
from assistant.job.site import EMISSION, PH
from assistant.reply.replies import FloorMap, Table
from grammar.commands.site import Temperature


def at_time(time: datetime) -> str:
    """A time with its day, in this machine's zone."""
    return f"{time.astimezone():%Y-%m-%d %H:%M}"


def zone_words(time: datetime) -> str:
    """
    The zone of the times of a report, as of one of them.

    >>> from datetime import UTC
    >>> zone_words(datetime(2026, 5, 4, tzinfo=UTC).astimezone()).startswith("UTC")
    True
    """
    offset = f"{time.astimezone():%z}"
    return "UTC" if not offset.strip("+-0") else f"UTC{offset[:3]}:{offset[3:5]}"


def site_table(job: Job) -> Table:
    """What was read of air and slab, oldest first."""
    rows = []
    for each in job.site.readings:
        said = each.said
        if isinstance(said, Temperature):
            shown = f"{number_text(said.number)} °{said.scale or 'C'}"
        else:
            shown = f"{number_text(said)}{_UNITS.get(each.kind, ' %')}"
        rows.append((at_time(each.time), each.kind, shown, each.point or ""))
    return Table("Site readings", ("At", "Of", "Reading", "Point"), tuple(rows))


_UNITS = {EMISSION: " lb/1000 ft² in 24 h", PH: ""}


def pour_table(job: Job) -> Table:
    """Batches, fronts and stops, oldest first."""
    rows = tuple(
        (
            at_time(when) if isinstance(when, datetime) else "",
            str(what),
            "" if bags is None else str(bags),
            "" if used is None else str(used),
            "" if water is None else f"{water} L",
            str(words or ""),
        )
        for when, what, bags, used, water, words in pour(job).rows
    )
    return Table("Log of the pour", ("At", "What", "Bags", "Used", "Water", "Words"), rows)


def note_lines(job: Job) -> tuple[str, ...]:
    """Remarks in the installer's own words."""
    return tuple(
        f"{at_time(note.time)}{f', {note.point}' if note.point else ''}: “{note.words}”"
        for note in job.notes
    )


def accepted_lines(job: Job) -> tuple[str, ...]:
    """Reasons against the pour, and readings that were asked about, that somebody accepted."""
    lines = [
        f"{matter}: {'; '.join(each.seen)} “{each.words}”"
        for matter, each in sorted(job.site.accepted.items())
    ]
    lines += [f"{point} was asked about and kept as read." for point in job.survey.accepted]
    return tuple(lines)


def scan_table(floor: FloorMap) -> Table:
    """Squares of a scan from above, the highest number first, as on the map; millimetres."""
    columns = list(dict.fromkeys(spot.point.rstrip("0123456789") for spot in floor.spots))
    at = {spot.point: spot for spot in floor.spots}
    numbers = sorted(
        {int(spot.point.lstrip(ascii_uppercase)) for spot in floor.spots}, reverse=True
    )
    rows = []
    for number in numbers:
        depths = [at[f"{column}{number}"].depth_mm for column in columns]
        shown = ["-" if depth is None else number_text(round(depth, 1)) for depth in depths]
        rows.append((str(number), *shown))
    return Table(f"{floor.shows} in mm, squares from above", ("", *columns), tuple(rows))
