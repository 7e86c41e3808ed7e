"""
The reports of the demo's days as they are handed over, to be looked at.

python -m demo.make_reports

Written into ``demo/reports``: the day that is poured and the floor that is proved, as a page each,
and in brief as a PDF. A test holds the pages to what the days come to.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Iterator
from pathlib import Path

from assistant.__main__ import main as leadsman
from assistant.conversation.job_on_record import JobOnRecord
from assistant.handover.reports import report_files
from assistant.job import Job
from assistant.record.journal import Journal

HERE = Path(__file__).parent
FOLDER = HERE / "reports"
DAYS = ("whole_day", "prove_day")


def job_of(day: str) -> Job:
    """What a day comes to."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / f"{day}.leadsman"
        leadsman(["run", str(HERE / f"{day}.txt"), "--json", "--job", str(file)])
        with Journal.open(file) as journal:
            return JobOnRecord(journal).job


def pages() -> Iterator[tuple[str, bytes]]:
    """Names and contents of the pages."""
    for day in DAYS:
        yield f"{day}.html", report_files(job_of(day), day)["report.html"]


def briefs() -> Iterator[tuple[str, bytes]]:
    """Of the short forms as PDF."""
    for day in DAYS:
        yield f"{day}-brief.pdf", report_files(job_of(day), day, short=True, pdf=True)["brief.pdf"]


def words_of(page: bytes) -> str:
    """A page without what a library may draw a hair otherwise: the lines of its pictures."""
    return re.sub(r'( (?:d|x|y|x1|y1|x2|y2)=")[^"]*"', r'\1"', page.decode())


def main() -> None:
    """Write them."""
    FOLDER.mkdir(exist_ok=True)
    for name, content in (*pages(), *briefs()):
        (FOLDER / name).write_bytes(content)


if __name__ == "__main__":
    main()
