"""Everything of a job as one JSON object, for programs; docs/handover.md describes it."""

from __future__ import annotations

import json
from typing import Any

from assistant.answers.overview.drawn_map import floor_map
from assistant.events.jobs import AddressSet, ClientNamed
from assistant.floor.survey_check import verdict_of
from assistant.floor.tally import tally_of
from assistant.floor.warnings import all_warnings
from assistant.floor.zones import cards_of
from assistant.handover.csv_text import number_text
from assistant.handover.tables import TABLES, Rows, in_utc, surveys_of
from assistant.job import Job
from assistant.record.event_rows import row_of
from assistant.reply.json_lines import json_value
from assistant.version import __version__

SCHEMA = "leadsman-job/1"
"""Raised with every change after which a program that reads it would have to read otherwise."""


def job_json(job: Job, name: str) -> bytes:
    """The job with all that is worked out from it; only ASCII, so that every text stays text."""
    return (json.dumps(as_object(job, name), indent=1, allow_nan=False) + "\n").encode("ascii")


def as_object(job: Job, name: str) -> dict[str, Any]:
    """The keys in the order in which they are written."""
    client, address = job.setting(ClientNamed), job.setting(AddressSet)
    return {
        "schema": SCHEMA,
        "written_by": f"Leadsman {__version__}",
        "job": name,
        "client": client.name if client else None,
        "address": address.words if address else None,
        "record_up_to": in_utc(job.last_time) if job.last_time else None,
        "unit_of_readings": job.reading_unit,
        "frame": "metres from the A1 corner: x along the first side, y along the second; heights "
        "in millimetres above the datum, the zero of the first set-up",
        "georeference": None,
        "outline_m": [list(corner) for corner in floor_map(job).outline],
        "things": [
            {"kind": each.kind, "told": each.told, "at_m": [list(at) for at in each.at_m]}
            for each in floor_map(job).things
        ],
        "doors": [
            {
                "number": door.number,
                "point": door.point,
                "left_mm": _mm(door.left),
                "right_mm": _mm(door.right),
                "outside_mm": _mm(door.outside),
            }
            for _, door in sorted(job.doors.items())
        ],
        "products": [json_value(card.as_dict()) for card in cards_of(job)],
        "tally": json_value(tally_of(job).as_data()),
        "survey": {floor: _survey(shown) for floor, shown in surveys_of(job).items()},
        "warnings": [
            {"id": w.id, "severity": w.severity, "message": w.message, "source": w.source}
            for w in all_warnings(job)
        ],
        "tables": {title: _objects(table(job)) for title, table in TABLES.items()},
        "record": [
            {
                "number": each.number,
                "time": in_utc(each.time),
                "said": each.said,
                "device": each.device or None,
                "events": [_event(event) for event in each.events],
            }
            for each in job.history
        ],
    }


def _event(event: Any) -> dict[str, Any]:
    row = row_of(event)
    return {"name": row.name, "version": row.version, "facts": json.loads(row.facts)}


def _mm(height: Any) -> float | None:
    return None if height is None else float(height.mm)


def _survey(floor: Job) -> dict[str, Any]:
    verdict = verdict_of(floor)
    return {
        "verdict": verdict.verdict,
        "findings": [each.message for each in verdict.findings],
        "not_checked": list(verdict.unchecked),
    }


def _objects(table: Rows) -> list[dict[str, Any]]:
    return [dict(zip(table.columns, map(_value, row), strict=True)) for row in table.rows]


def _value(cell: Any) -> Any:
    if cell is None or isinstance(cell, bool | int | str):
        return cell
    if hasattr(cell, "isoformat"):
        return in_utc(cell)
    return float(number_text(cell))
