"""The report, as a page and as a PDF."""

from __future__ import annotations

import html
import io
import re
import time
from html.parser import HTMLParser
from typing import Any

import pypdf
import pytest

from assistant.events.jobs import ClientNamed
from assistant.events.notes import NoteTaken
from assistant.floor.depths import depths_of
from assistant.floor.warnings import all_warnings
from assistant.handover.report.contents import TO_SIGN, report_of
from assistant.handover.report.page import page_html
from assistant.handover.reports import report_files
from assistant.job import EMPTY, Job, next_number, record
from assistant.reply.times import UNTIMED
from assistant.reply.visible import visible
from tests.handover.conftest import HOSTILE, read_all
from tests.job.conftest import Site

VOID = {"meta", "br", "hr", "img", "link", "rect", "circle", "line", "path"}


class Page(HTMLParser):
    """The words of a page, and the names of its elements and attributes."""

    def __init__(self, content: bytes) -> None:
        super().__init__()
        self.words: list[str] = []
        self.names: set[str] = set()
        self.open: list[str] = []
        self.style = ""
        self.feed(content.decode("utf-8"))
        assert not self.open, "every element is closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names |= {tag, *(name for name, _ in attrs)}
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names |= {tag, *(name for name, _ in attrs)}

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] != "style":
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


@pytest.fixture(scope="module")
def poured() -> Job:
    """From the slab to the finished floor, with things that were accepted."""
    site = Site("room 6 by 4 metres", "grid 2 metres", "product example standard",
                "client Mill Lane School", "air 19 degrees", "humidity 55 percent",
                "slab humidity 66 percent at A1", "crew 3", "mixers 2", "batches of 2 bags",
                "minutes per batch 6", "note at B1 crack along the wall")  # fmt: skip
    read_all(site)
    site.told("A1 +3 mm", "batch", "batch", "stop pour because rain came in", "pour on", "batch")
    site.told("pour finished", "A1 level", "B1 -2 mm", "C1 +5 mm", "promised flat",
              "hollow at C1")  # fmt: skip
    return site.job


def pdf_text(content: bytes) -> str:
    pages = pypdf.PdfReader(io.BytesIO(content)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_the_page_says_all_of_it(poured: Job) -> None:
    page = Page(page_html(report_of(poured, "mill-lane")))
    for point in depths_of(poured):
        assert point in page.text
    for said in (
        "Mill Lane School", "A room of 6 m by 4 m: 24 m² to level", "Promised flat; no fall",
        "66 %", "19 °C", "crack along the wall", "rain came in", "What was not checked",
        "6 bags used", "Promised flat.", "Nothing to grind or fill by what was read",
        "The finished floor, as read", "3 of 6 points",
        *(warning.message for warning in all_warnings(poured)),
        *(warning.source for warning in all_warnings(poured)), *TO_SIGN,
    ):  # fmt: skip
        assert said in page.text, said
    for title in ("What was promised", "What was really laid", "To be ground or filled",
                  "Depth to pour", "What was poured, from slab to finished floor"):  # fmt: skip
        assert title in page.text


def test_it_fetches_and_runs_nothing(hostile: Job) -> None:
    content = page_html(report_of(hostile, HOSTILE[1]))
    page = Page(content)
    assert not page.names & {"script", "iframe", "object", "embed", "form", "link", "img", "a"}
    assert not [name for name in page.names if name.startswith("on") or name in ("href", "src")]
    text = content.decode("utf-8")
    assert not re.search(r"@import|url\(", text)
    # The one address in it names what a picture is written in.
    addresses = set(re.findall(r"https?://[^\s\"<&]+", text))
    assert addresses == {"http://www.w3.org/2000/svg", "http://x"}, "the other is a client's name"


def test_bad_names_stay_text_everywhere(hostile: Job) -> None:
    files = report_files(hostile, "floor" + HOSTILE[2], pdf=True)
    page = Page(files["report.html"])
    for name in HOSTILE:
        assert " ".join(visible(name).split()) in page.text
    assert not re.search(r"[\x00-\x08\x0b-\x1f\u202a-\u202e\u2066-\u2069]", html.unescape(
        files["report.html"].decode("utf-8")))  # fmt: skip
    told = pdf_text(files["report.pdf"])
    assert "\\u202e81- 3B" in told
    assert "<script>alert(1)</script>" in told
    assert "#[x]" in told, "what typesets is text there"


def test_the_same_job_gives_the_same_bytes(poured: Job) -> None:
    assert report_files(poured, "floor", pdf=True) == report_files(poured, "floor", pdf=True)


def test_the_pdf_is_tagged_and_for_archives(poured: Job) -> None:
    content = report_files(poured, "mill-lane", pdf=True)["report.pdf"]
    reader = pypdf.PdfReader(io.BytesIO(content))
    root: Any = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert "/StructTreeRoot" in root
    marks = root["/Metadata"].get_data().decode("utf-8")
    # ISO 14289-1 (PDF/UA-1) and ISO 19005-2 (PDF/A-2), conformance level A.
    assert re.search(r"pdfuaid:part>1<", marks)
    assert re.search(r"pdfaid:part>2<", marks)
    assert re.search(r"pdfaid:conformance>A<", marks)
    told = pdf_text(content)
    assert "Floor report: Mill Lane School Job: mill-lane" in told
    assert "What was not checked" in told


@pytest.mark.parametrize("which", ["floor", "notched", "hostile"])
def test_the_short_form_is_one_page(which: str, request: pytest.FixtureRequest) -> None:
    job = request.getfixturevalue(which)
    files = report_files(job, "floor", short=True, pdf=True)
    assert len(pypdf.PdfReader(io.BytesIO(files["brief.pdf"])).pages) == 1
    assert "What was not checked" in Page(files["brief.html"]).text


def test_a_job_with_little_in_it_says_what_there_is_not() -> None:
    for job in (EMPTY, Site("room 4 by 4 metres").job, Site("A1 -4 mm").job):
        text = Page(page_html(report_of(job, "early"))).text
        assert "There are no readings yet" in text or "Depth 4 mm throughout" in text
        assert "It is not poured yet." in text
        Page(page_html(report_of(job, "early", short=True)))


HINTS = re.compile(
    r"To clear it:|Say mixers|spec NAME|begun so:|told so:|: promised flat|: room 12|: check zero|"
    r"\bNAME\b|sets it\)|\(defects\)|plans with it|\byou place\b"
)


def test_nobody_is_told_what_to_type(poured: Job, floor: Job, hostile: Job) -> None:
    early = (EMPTY, Site("room 4 by 4 metres").job, Site("A1 -4 mm", "start pour").job)
    for job in (poured, floor, hostile, *early):
        text = Page(page_html(report_of(job, "floor"))).text
        assert not HINTS.findall(text)


def test_it_judges_nothing(poured: Job, floor: Job) -> None:
    """Whether a floor is dry, safe or strong enough is not for a program to say."""
    for job in (poured, floor):
        text = Page(page_html(report_of(job, "floor"))).text.lower()
        for word in ("adequate", "is safe", "is dry", "certified", "guarantee", "compliant"):
            assert word not in text
        assert "no judgement of the structure" in text


def test_points_that_were_left_out_are_counted(poured: Job) -> None:
    site = Site("room 6 by 4 metres", "grid 2 metres", "A1 -4 mm")
    assert "5 of 6 points were not read" in Page(page_html(report_of(site.job, "floor"))).text
    for short in (False, True):
        text = Page(page_html(report_of(poured, "floor", short=short))).text
        assert "3 of 6 points of the finished floor were not read" in text


def test_doors_and_lines_are_those_of_the_floor_that_is_handed_over() -> None:
    """A door planned 10 mm off the floor outside, and 1 mm off it as it came to be."""
    site = Site("room 8 by 4 metres", "grid 2 metres", "A1 -8", "B1 -8", "A2 -8",
                "door 1 left minus 8 right minus 8 outside minus 10", "pour finished",
                "line 1 from A1 to D1 every 500 mm", "0 -1 -2 -7 0", "end line",
                "line 2 from A2 to D2 every 300 mm", "door 1 left level right minus 9 outside -9",
                "door 1 clearance 1 mm")  # fmt: skip
    report = report_of(site.job, "loft")
    parts = {part.id: part for part in report.sections}
    planned = " ".join(matter.message for matter in parts["warnings"].matters)
    assert "step of 10 mm" in planned
    assert "of what was planned" in parts["warnings"].title
    after = " ".join(matter.message for matter in parts["finished-doors"].matters)
    assert "step of 10 mm" not in after
    assert "clears the floor by 1 mm" in after
    assert parts["finished-doors"].tables
    (values,) = parts["line-1"].tables
    assert "7 mm below" in str(values.rows)
    assert "line-2" not in parts  # nothing is read of it
    assert "every 0.5 m; an F-number wants every 300 mm" in " ".join(parts["flatness"].lines)
    brief = {part.id: part for part in report_of(site.job, "loft", short=True).sections}
    assert brief["warnings"].matters == parts["finished-doors"].matters
    slab = {part.id for part in report_of(Site("room 8 by 4 metres").job, "loft").sections}
    assert not slab & {"finished-doors", "line-1", "flatness"}


def test_its_title_is_whose_floor_it_is_and_where() -> None:
    site = Site("A1 -4 mm")
    assert report_of(site.job, "boat-shed").title == "Floor report: boat shed"
    site.told("address 12 Mill Lane")
    assert report_of(site.job, "boat-shed").title == "Floor report: 12 Mill Lane"
    site.told("client Mill Lane School")
    brief = report_of(site.job, "boat-shed", short=True)
    assert brief.title == "Floor in brief: Mill Lane School, 12 Mill Lane"
    assert brief.facts[0] == ("Job", "boat-shed")


# --- names that nobody foresaw ---------------------------------------------------------------


def named(client: str, note: str = "") -> Job:
    """A small job for a client, with a note."""
    job = Site("room 4 by 4 metres", "grid 2 metres", "product example standard", "A1 -18 mm").job
    for event in (ClientNamed(client), NoteTaken(note)):
        job = record(job, next_number(job), "said", (event,), UNTIMED)
    return job


@pytest.mark.parametrize("short", [False, True])
def test_a_name_that_the_font_lacks_is_still_in_the_pdf(short: bool) -> None:
    """Unicode's numbers of two Chinese signs, a Thai one and a picture; Greek is in the font."""
    name = "\u5b66\u6821 \u0e01 \U0001f600 \u03a3\u03c7\u03bf\u03bb\u03b5\u03af\u03bf"
    files = report_files(named(name), "floor", pdf=True, short=short)
    page, paper = files.values()
    assert name in Page(page).text
    told = pdf_text(paper)
    assert r"\u5b66\u6821 \u0e01 \U0001f600 Σχολείο" in told
    assert "lacks" in told, "what such a number is"
    assert "lacks" not in pdf_text(
        report_files(named("Łódź"), "floor", pdf=True, short=short).popitem()[1]
    )


def test_marks_that_fit_on_no_sign_are_still_in_the_pdf() -> None:
    """An Arabic digit that the font lacks, with a mark that it has: on the number it has not."""
    name = "\u0655\u0661\u0615\u0679\u0647\u0633\u063f\u0601"
    name += "\u0617\u0643\u0616\u0624\u0666\u060a\u0664\u0605\u064c"
    assert r"\u0615" in pdf_text(report_files(named(name), "floor", pdf=True)["report.pdf"])


def test_a_text_of_megabytes_is_cut_and_that_is_said() -> None:
    job = named("<b>\u202e=1+1\n" * 500_000, "=1 " * 500_000)
    files = report_files(job, "floor" * 100_000, pdf=True)
    assert max(map(len, files.values())) < 1_000_000
    text = Page(files["report.html"]).text
    assert "characters more)" in text
    title = text.partition("Job ")[0]
    assert len(title) < 200


def test_times_say_whose_they_are(poured: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    """The half hour of New Delhi, and a place far west: POSIX names count the other way."""
    try:
        for zone, told in (("XST-5:30", "05:30 (UTC+05:30)"), ("XWT11", "13:00 (UTC-11:00)"),
                           ("UTC0", "00:00 (UTC)")):  # fmt: skip
            monkeypatch.setenv("TZ", zone)
            time.tzset()
            assert told in dict(report_of(poured, "floor").facts)["Record"]
    finally:
        monkeypatch.undo()
        time.tzset()
