"""
CSV opened by a spreadsheet that people have: nothing is run, and what is a number stays one.

Needs LibreOffice Calc (Debian: libreoffice-calc-nogui, 270 MB, so that .ci/run does not fetch it).
"""

from __future__ import annotations

import shutil
import subprocess
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest

from assistant.handover.csv_text import csv_bytes
from assistant.handover.exports import FORMATS
from assistant.handover.tables import Rows
from assistant.job import Job
from tests.handover.conftest import HOSTILE

SPREADSHEET = shutil.which("soffice") or shutil.which("libreoffice")
pytestmark = [
    pytest.mark.skipif(SPREADSHEET is None, reason="no spreadsheet (Debian: libreoffice-calc)"),
    pytest.mark.slow,
]
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
READ_AS = "--infilter=CSV:44,34,76,1,,1033,false,true"
"""Commas, quotes, UTF-8, from line 1, English, numbers looked for even outside the plain ones: what
opening it by hand does."""
FORMULAS = ("=1+1", "+1+1", "-1+1", "@SUM(1)", '=HYPERLINK("http://x")', "=cmd|' /c x'!A1", " =1+1")


def opened(folder: Path) -> dict[str, list[list[tuple[str, str, str]]]]:
    """Each CSV of a folder as the spreadsheet has it: a cell's type, formula and text."""
    assert SPREADSHEET is not None
    home = (folder / "profile").as_uri()
    files = sorted(folder.glob("*.csv"))
    subprocess.run(
        [SPREADSHEET, f"-env:UserInstallation={home}", "--headless", READ_AS, "--convert-to", "ods",
         "--outdir", str(folder), *map(str, files)],
        check=True, capture_output=True, timeout=300,
    )  # fmt: skip
    return {each.stem: cells(each.with_suffix(".ods")) for each in files}


def cells(sheet: Path) -> list[list[tuple[str, str, str]]]:
    with zipfile.ZipFile(sheet) as packed:
        root = ElementTree.fromstring(packed.read("content.xml"))
    rows = []
    for row in root.iter(f"{TABLE}table-row"):
        found = []
        for cell in row.iter(f"{TABLE}table-cell"):
            kind = cell.get(f"{OFFICE}value-type", "")
            text = cell.get(f"{OFFICE}value") or "".join(cell.itertext())
            times = int(cell.get(f"{TABLE}number-columns-repeated", "1"))
            found += [(kind, cell.get(f"{TABLE}formula", ""), text)] * min(times, 50)
        rows.append(found)
    return rows


def test_nothing_is_run_and_numbers_stay_numbers(floor: Job, hostile: Job, tmp_path: Path) -> None:
    rows = tuple((text, -18, -0.5, 3) for text in (*FORMULAS, *HOSTILE))
    (tmp_path / "bad.csv").write_bytes(csv_bytes(Rows(("text", "a", "b", "c"), rows)))
    for prefix, job in (("even", floor), ("hostile", hostile)):
        for name, content in FORMATS["csv"](job, "floor").items():
            (tmp_path / f"{prefix}-{name}").write_bytes(content)
    sheets = opened(tmp_path)
    run = [
        (name, cell) for name, sheet in sheets.items() for row in sheet for cell in row if cell[1]
    ]
    assert not run, "a formula"
    bad = sheets["bad"][1 : 1 + len(rows)]
    assert [[cell[0] for cell in row[:4]] for row in bad] == [["string"] + ["float"] * 3] * len(
        rows
    )
    assert {tuple(cell[2] for cell in row[1:4]) for row in bad} == {("-18", "-0.5", "3")}
    head, *readings = sheets["even-readings"]
    at = [cell[2] for cell in head].index("reading")
    read = [row[at] for row in readings if len(row) > at and row[at][0]]
    assert len(read) == len(floor.readings)
    assert all(kind == "float" and text.startswith("-") for kind, _, text in read)
