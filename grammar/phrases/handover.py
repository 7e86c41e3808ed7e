"""Phrases: files of the job for others."""

from __future__ import annotations

from grammar.commands.handover import DrawPicture, ExportJob, WriteReport
from grammar.phrase import Phrase

_TOPIC = "handing over"

PHRASES: tuple[Phrase, ...] = (
    Phrase(
        "report",
        WriteReport,
        "the job as a page, and as a PDF, with all that was found, used and left unchecked",
        ("report",),
        _TOPIC,
        speakable=False,
        ways=(
            "(write | make | print | create | save) [me] [a] report",
            "report of [this] (job | floor)",
            "hand over [record | job | report]",
        ),
    ),
    Phrase(
        "picture",
        DrawPicture,
        "the floor with its depths, drawn into a file",
        ("picture",),
        _TOPIC,
        speakable=False,
        ways=("(save | write | make | create) [me] [a] picture", "picture file"),
    ),
    Phrase(
        "export",
        ExportJob,
        "tables, drawing, surface and the whole job, in files that other programs open",
        ("export",),
        _TOPIC,
        speakable=False,
        ways=(
            "export [this] (job | floor | everything)",
            "export (points | readings | data)",
        ),
    ),
)
