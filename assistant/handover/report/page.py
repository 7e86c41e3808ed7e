"""A report as one page of HTML, which fetches nothing and runs nothing."""

from __future__ import annotations

from pathlib import Path

from assistant.handover.extras import needed
from assistant.handover.report.contents import Report

_TEMPLATE = Path(__file__).with_name("page.html")


def page_html(report: Report) -> bytes:
    """
    The page. LeadsmanError where jinja2 is not installed.

    Every text is escaped where it is put in; of pictures, which are our own SVG, the texts were.
    """
    with needed("A report", "report"):
        import jinja2
    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, keep_trailing_newline=True
    )
    template = environment.from_string(_TEMPLATE.read_text("utf-8"))
    return template.render(report=report).encode("utf-8")
