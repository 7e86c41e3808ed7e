"""What the rows of ``grammar/phrases/jobs.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "jobs": (
        "jobs ~show ~other",
        "jobs",
        "job other/list/all/which",
        "jobs on/have/got ~which ~show",
    ),
    "put job away": (
        "archive/stow ~job ~one",
        "put job away",
    ),
    "job": (
        "job status/state/stand",
        "grid what/which/got/have/set ~spacing !should !best",
        "spacing what",
        "which setup",
        "where job stand",
        "setup which/what",
        "job called/name/which/what_is",
        "which job",
        "client/address who/what/which",
        "which job ~in ~working",
        "job called/name",
    ),
}
