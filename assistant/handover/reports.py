"""Reports as files."""

from __future__ import annotations

from assistant.handover.report.contents import report_of
from assistant.handover.report.page import page_html
from assistant.handover.report.paper import page_pdf
from assistant.job import Job
from assistant.reply.times import UNTIMED


def report_files(
    job: Job, name: str, *, short: bool = False, pdf: bool = False
) -> dict[str, bytes]:
    """
    The report as a page, and as a PDF where that is asked for.

    Raises LeadsmanError where a package for it is missing.
    """
    stem = "brief" if short else "report"
    report = report_of(job, name, short=short)
    files = {f"{stem}.html": page_html(report)}
    if pdf:
        files[f"{stem}.pdf"] = page_pdf(report, job.last_time or UNTIMED, short=short)
    return files
