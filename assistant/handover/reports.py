"""Reports as files."""

from __future__ import annotations

from collections.abc import Callable

from assistant.handover.report.contents import report_of
from assistant.handover.report.page import page_html
from assistant.handover.report.paper import page_pdf
from assistant.job import Job
from assistant.reply.times import UNTIMED

STEPS = ("reading the record", "writing the page", "setting the PDF")


def report_files(
    job: Job,
    name: str,
    *,
    short: bool = False,
    pdf: bool = False,
    at: Callable[[str], None] = lambda _: None,
) -> dict[str, bytes]:
    """
    The report as a page, and as a PDF where that is asked for; `at` is called as each step begins.

    Raises LeadsmanError where a package for it is missing.
    """
    stem = "brief" if short else "report"
    at(STEPS[0])
    report = report_of(job, name, short=short)
    at(STEPS[1])
    files = {f"{stem}.html": page_html(report)}
    if pdf:
        at(STEPS[2])
        files[f"{stem}.pdf"] = page_pdf(report, job.last_time or UNTIMED, short=short)
    return files
