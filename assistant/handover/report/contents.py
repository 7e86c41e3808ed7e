"""What a report says, as data; the page and the PDF are two renderings of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import TypeVar, cast

from assistant.answers import ANSWERS
from assistant.answers.flatness.scan_map import scan_map
from assistant.answers.parts import Moment
from assistant.answers.site.ready import NOT_CHECKED
from assistant.decide.parts import World
from assistant.errors import LeadsmanError, Refusal, SurveyError
from assistant.events.jobs import AddressSet, ClientNamed
from assistant.floor.places import places_of
from assistant.floor.scans.scan import scan_event
from assistant.floor.spec_check import held_to
from assistant.floor.walk import points_missing
from assistant.floor.warnings import all_warnings, cautions_of
from assistant.handover.picture.plan import plan_svg
from assistant.handover.picture.views import AFTER, DIFFERENCE, PLANNED
from assistant.handover.report.about import job_paragraph, kept_words, record_words, title_of
from assistant.handover.report.plainly import NOTHING_YET, plain_wording
from assistant.handover.report.tables import (
    accepted_lines,
    note_lines,
    pour_table,
    scan_table,
    site_table,
)
from assistant.job import Job, finished_floor
from assistant.reply.replies import Reply, Table
from assistant.reply.times import UNTIMED
from assistant.reply.visible import visible_part
from assistant.site.rules import WHO_DECIDES
from grammar.commands import Command
from grammar.commands.depths import AskCutList
from grammar.commands.doors import AskDoors
from grammar.commands.flatness import AskFlatness, AskScan, AskVerdicts
from grammar.commands.kinds import WHOLE_JOB
from grammar.commands.material import AskOrder
from grammar.commands.overview import AskTally
from grammar.commands.pour import ShowPlan
from grammar.commands.proof import AskDefects, AskLine, AskLines, AskPoured, AskPromise, AskPunch
from grammar.commands.readings import AskReadings
from grammar.commands.set_ups import AskSurveyCheck
from grammar.commands.site import AskReadyToPour
from grammar.frozen import frozen

MOST_WARNINGS = 3
"""On the short form; the rest is counted."""


@frozen
class ReportPicture:
    """A picture and what it shows."""

    id: str
    svg: str
    about: str
    tall: float
    """Its height, of its width."""


@frozen
class Matter:
    """Something to look at: a warning or a caution, with where it comes from."""

    severity: str
    """``stop``, ``caution``, ``note`` or ``care``."""
    message: str
    source: str


@frozen
class ReportPart:
    """One part of a report."""

    id: str
    title: str
    lead: str = ""
    """The answer, in a line."""
    lines: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    matters: tuple[Matter, ...] = ()
    picture: ReportPicture | None = None


@frozen
class Report:
    """All of it."""

    title: str
    about: tuple[str, ...]
    """The job in a paragraph, sentence by sentence."""
    facts: tuple[tuple[str, str], ...]
    """For whom, where, and up to when the record goes."""
    sections: tuple[ReportPart, ...]
    to_sign: tuple[str, ...]
    """Who has to sign for what, a line each."""
    kept: str
    """Where the figures come from."""


TO_SIGN = (
    "Surveyed by",
    "Finish height agreed by",
    "What is listed as accepted, accepted by",
    "Poured by",
    "Floor taken over by",
)
NOT_PROMISED = (
    "This report says what was read, told and worked out. It is no judgement of the structure, "
    "its moisture, or whether anybody may walk or build on it."
)


def report_of(job: Job, name: str, *, short: bool = False) -> Report:
    """
    The report of a job: all of it, or a page for whoever owns the floor.

    Times and what depends on them are those of the last thing on record, so that the same job
    gives the same report whenever it is asked for.
    """
    client, address = job.setting(ClientNamed), job.setting(AddressSet)
    facts = [("Job", name)]
    facts += [("For", client.name)] if client else []
    facts += [("Where", address.words)] if address else []
    facts.append(("Record", record_words(job)))
    make = _short if short else _full
    title = title_of(job, name)
    sections = tuple(section for section in make(job, title) if section is not None)
    report = Report(
        f"Floor report: {title}" if not short else f"Floor in brief: {title}",
        job_paragraph(job),
        tuple(facts),
        sections,
        TO_SIGN if not short else (TO_SIGN[1], TO_SIGN[-1]),
        kept_words(job),
    )
    return all_visible(report)


AnyPart = TypeVar("AnyPart")
LONGEST = 3000
"""Signs of one text; a line of a job has at most a third of it, a file that somebody made may hold
more. Written out as its number a sign takes ten, and a PDF/A takes 32,767 in one piece."""


def all_visible(part: AnyPart) -> AnyPart:
    """A report, or part of it, in which every text is fit to be shown; a picture's own are."""
    made: object = part
    if isinstance(part, str):
        made = visible_part(part, LONGEST)
    elif isinstance(part, tuple):
        made = tuple(all_visible(each) for each in part)
    elif is_dataclass(part) and not isinstance(part, type):
        texts = {field.name: getattr(part, field.name) for field in fields(part)}
        svg = {"svg": part.svg} if isinstance(part, ReportPicture) else {}
        made = type(part)(**{name: all_visible(value) for name, value in texts.items()} | svg)
    return cast(AnyPart, made)


def _short(job: Job, title: str) -> Iterator[ReportPart | None]:
    yield _plan(job, title, AFTER if _surveyed_after(job) else PLANNED)
    tally = _asked(job, AskTally(), "tally", "In figures")
    yield replace(tally, lines=tally.lines[:2], tables=())
    yield replace(_asked(job, AskSurveyCheck(), "survey", "How the survey was checked"),
                  lines=(), tables=())  # fmt: skip
    after = finished_floor(job)
    if after is not None and _surveyed_after(job) and held_to(job):
        yield replace(_asked(after, AskVerdicts(), "held-to", _HELD_TO), lines=())
    # Of the floor that is handed over: its doors are as they were read again.
    warnings = _warnings(after if after is not None and _surveyed_after(job) else job)
    more = len(warnings.matters) - MOST_WARNINGS
    lines = (f"{more} more, in the full report.",) if more > 0 else ()
    yield replace(warnings, matters=warnings.matters[:MOST_WARNINGS], lines=lines)
    yield _not_checked(job)


def _full(job: Job, title: str) -> Iterator[ReportPart | None]:
    yield _plan(job, title, PLANNED)
    yield _asked(job, AskPromise(), "promise", "What was promised")
    yield _asked(job, AskTally(), "tally", "In figures")
    yield _asked(job, AskSurveyCheck(), "survey", "How the survey was checked")
    yield _asked(job, AskReadings(), "readings", "What was read")
    yield _scanned(job, "scan", "What was scanned of the slab")
    yield _asked(job, AskCutList(), "pins", "Pins, and what to cut them to")
    yield _asked(job, AskOrder(), "order", "Material to order")
    yield _asked(job, ShowPlan(), "strips", "The pour, strip by strip")
    yield _site(job)
    yield _ready(job)
    yield _accepted(job)
    yield _warnings(job, planned=_surveyed_after(job))
    yield _cautions(job)
    yield _poured(job)
    if job.pour.batches:
        yield _asked(job, AskPoured(), "laid", "What was really laid")
    if _surveyed_after(job):
        yield _plan(job, title, AFTER)
        after = finished_floor(job)
        assert after is not None
        yield _asked(after, AskReadings(), "finished", "The finished floor, as read")
        yield _asked(after, AskSurveyCheck(), "second-survey", "How that survey was checked")
        yield _plan(job, title, DIFFERENCE)
        yield _scanned(after, "finished-scan", "What was scanned of it")
        yield _doors(after)
        yield _asked(after, AskLines(), "lines", "Lines measured on it, and what they come to")
        yield from _lines(after)
        yield _asked(after, AskVerdicts(), "held-to", _HELD_TO)
        yield _asked(after, AskPunch(), "punch", "To be ground or filled")
        yield _asked(after, AskDefects(), "findings", "Heard and seen on it")
    yield _notes(job)
    yield _not_checked(job)


_HELD_TO = "What the floor is held to"


def _surveyed_after(job: Job) -> bool:
    after = finished_floor(job)
    if after is None:
        return False
    return bool(after.readings or after.proof.lines or scan_event(after) is not None)


# --- sections that are answers ----------------------------------------------------------


def _asked(job: Job, command: Command, id: str, title: str) -> ReportPart:
    """What the assistant answers, as a section; where it cannot yet, why."""
    world = World({}, now=job.last_time or UNTIMED, zone=None)
    if job.slab is not None and command.SPEAKS_OF == WHOLE_JOB:
        job = job.slab
    try:
        # Of the floor that is given, be it the slab or what was poured over it.
        reply = ANSWERS[type(command)](Moment(job, job, (), world), command)
    except (Refusal, SurveyError) as why:
        # The chat says what it wants first; who reads this has none.
        return ReportPart(id, title, NOTHING_YET.get(id) or f"Nothing yet. {why}")
    return _of_reply(id, title, reply)


def _of_reply(id: str, title: str, reply: Reply) -> ReportPart:
    lines = filter(None, map(plain_wording, (*reply.details, *reply.asides)))
    return ReportPart(id, title, plain_wording(reply.headline), tuple(lines), reply.tables)


def _scanned(job: Job, id: str, title: str) -> ReportPart | None:
    """What many imported points show, and their squares as the map has them."""
    if scan_event(job) is None:
        return None
    floor = scan_map(job)
    return replace(
        _asked(job, AskScan(), id, title), tables=() if floor is None else (scan_table(floor),)
    )


# --- sections of the report's own -------------------------------------------------------


def _plan(job: Job, name: str, show: str) -> ReportPart | None:
    id, title = f"plan-{show}", _PLAN_TITLES[show]
    try:
        svg = plan_svg(job, name, show, id=f"picture-{show}")
    except LeadsmanError as why:
        return ReportPart(id, title, f"Nothing yet. {why}")
    about = _unescaped(svg.split("<desc", 1)[1].split(">", 1)[1].split("</desc>", 1)[0])
    width, height = (float(each) for each in svg.split('viewBox="0 0 ')[1].split('"')[0].split())
    return ReportPart(
        id, title, picture=ReportPicture(f"picture-{show}", svg, about, height / width)
    )


_PLAN_TITLES = {
    PLANNED: "The floor from above",
    AFTER: "The finished floor from above",
    DIFFERENCE: "What was poured where",
}


def _unescaped(text: str) -> str:
    from xml.sax.saxutils import unescape

    return unescape(text)


def _site(job: Job) -> ReportPart | None:
    table = site_table(job)
    lead = (
        "As read, every reading with its time." if table.rows else "Nothing was read of the site."
    )
    return ReportPart("site", "Air, slab and moisture", lead, tables=_if_rows(table))


def _ready(job: Job) -> ReportPart | None:
    title = "What stood against pouring"
    start = job.pour.start
    if start is None:
        section = _asked(job, AskReadyToPour(), "ready", title)
        # Both stand at the end, where they are about all of it.
        lines = tuple(line for line in section.lines if line not in (NOT_CHECKED, WHO_DECIDES))
        return replace(section, lines=lines, lead=f"As of the end of this record. {section.lead}")
    if not start.against:
        return ReportPart("ready", title, "Nothing that was checked, when the pour was started.")
    words = f" Started all the same: “{start.words}”" if start.words else ""
    against = tuple(map(plain_wording, start.against))
    return ReportPart("ready", title, f"This, when the pour was started.{words}", against)


def _doors(after: Job) -> ReportPart | None:
    """The doors as they were read again, and the limits that the finished floor passes."""
    warnings = replace(
        _warnings(after), id="finished-doors", title="Doors of it, and limits that it passes"
    )
    if not after.doors:
        return warnings if warnings.matters else None
    doors = _asked(after, AskDoors(), "finished-doors", warnings.title)
    return replace(doors, matters=warnings.matters)


def _lines(after: Job) -> Iterator[ReportPart]:
    """Every value of each line, and F-numbers, or why there are none."""
    read = [line for _, line in sorted(after.proof.lines.items()) if line.values]
    for line in read:
        told = _asked(after, AskLine(line.number), f"line-{line.number}", f"Line {line.number}")
        yield told
    if read:
        yield _asked(after, AskFlatness(), "flatness", "FF and FL from lines")


def _accepted(job: Job) -> ReportPart | None:
    lines = accepted_lines(job)
    lead = "By whoever answers for it, in their words." if lines else "Nothing had to be accepted."
    return ReportPart("accepted", "What was accepted all the same", lead, lines)


def _warnings(job: Job, *, planned: bool = False) -> ReportPart:
    found = tuple(Matter(each.severity, each.message, each.source) for each in all_warnings(job))
    lead = "" if found else "No limit known here is passed. The data sheet and local code decide."
    of = "Warnings of what was planned" if planned else "Warnings"
    return ReportPart("warnings", f"{of}, each with its limit's source", lead, matters=found)


def _cautions(job: Job) -> ReportPart | None:
    found = tuple(Matter("care", each.message, each.source) for each in cautions_of(job))
    return ReportPart("cautions", "Take care", matters=found) if found else None


def _poured(job: Job) -> ReportPart | None:
    table = pour_table(job)
    if not table.rows:
        return ReportPart("pour", "Log of the pour", "Nothing was poured yet.")
    used = job.pour.bags_used
    return ReportPart("pour", "Log of the pour", f"{used} bags used.", tables=(table,))


def _notes(job: Job) -> ReportPart | None:
    lines = note_lines(job)
    return ReportPart("notes", "Noted on site", lines=lines) if lines else None


def _not_checked(job: Job) -> ReportPart:
    after = finished_floor(job)
    lines = _not_read(job, "points")
    if after is not None and _surveyed_after(job):
        lines += _not_read(after, "points of the finished floor")
    lines += [NOT_CHECKED, WHO_DECIDES, NOT_PROMISED]
    return ReportPart("not-checked", "What was not checked", lines=tuple(lines))


def _not_read(floor: Job, what: str) -> list[str]:
    missing, whole = len(points_missing(floor)), len(places_of(floor.layout).names)
    return [f"{missing} of {whole} {what} were not read."] if missing else []


def _if_rows(table: Table) -> tuple[Table, ...]:
    return (table,) if table.rows else ()
