"""Which files a job is handed over in, by format."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from assistant.handover.csv_text import csv_bytes
from assistant.handover.tables import TABLES
from assistant.job import Job


def _csv(job: Job, _name: str) -> dict[str, bytes]:
    tables = {title: table(job) for title, table in TABLES.items()}
    return {f"{title}.csv": csv_bytes(table) for title, table in tables.items() if table.rows}


def _dxf(job: Job, name: str) -> dict[str, bytes]:
    from assistant.handover.drawing import floor_dxf

    return {"floor.dxf": floor_dxf(job, name)}


def _landxml(job: Job, name: str) -> dict[str, bytes]:
    from assistant.handover.landxml import surface_xml

    return {"surface.xml": surface_xml(job, name)}


def _json(job: Job, name: str) -> dict[str, bytes]:
    from assistant.handover.whole_job import job_json

    return {"job.json": job_json(job, name)}


def _local(job: Job, name: str) -> dict[str, bytes]:
    from assistant.handover.local_map import local_map

    return {"floor.local.json": local_map(job, name)}


FORMATS: Mapping[str, Callable[[Job, str], dict[str, bytes]]] = {
    "csv": _csv,
    "dxf": _dxf,
    "landxml": _landxml,
    "json": _json,
    "geojson": _local,
}
"""A job and its name give plain file names with their contents. Raises LeadsmanError where the job
has too little for it yet, or a package is missing."""
