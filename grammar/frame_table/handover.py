"""What the rows of ``grammar/phrases/handover.py`` are about."""

from __future__ import annotations

FRAMES: dict[str, tuple[str, ...]] = {
    "report": (
        "reportword ~make ~want ~job ~print ~client ~pdf ~show",
        "print/write job/it/everything up/pdf/paper/paperwork ~client ~client's",
    ),
    "picture": (
        "pictureword make/save/file/drawn/export/png/write/give/want/need ~floor ~client ~of",
    ),
    "export": (
        "exportword ~job ~floor ~everything ~file ~data ~readings ~points ~office ~as ~to",
        "save/give/send/write/make/get/want file/files/dxf/csv/spreadsheet ~office ~job ~drawing",
        "csv/dxf/spreadsheet/landxml ~of ~points",
    ),
}
