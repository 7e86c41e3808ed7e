"""The job in a paragraph."""

from __future__ import annotations

from assistant.answers.finish.source import decided_told
from assistant.answers.proof.punch import promise_words
from assistant.events.jobs import AddressSet, ClientNamed
from assistant.floor.geometry import area_of, outline_of
from assistant.floor.tally import tally_of
from assistant.floor.zones import cards_of
from assistant.handover.report.tables import at_time, zone_words
from assistant.job import Job, is_poured
from assistant.reply import wording
from assistant.reply.visible import visible

_LONGEST_TITLE = 80
"""It stands on every page of the PDF. Whole, a longer name stands among the facts."""


def title_of(job: Job, name: str) -> str:
    """For whom and where the floor is, as whoever gets the report knows it; else the job's name."""
    client, address = job.setting(ClientNamed), job.setting(AddressSet)
    known = [client.name if client else "", address.words if address else ""]
    title = ", ".join(filter(None, known)) or name.replace("-", " ")
    return wording.clipped(visible(title), _LONGEST_TITLE)


def job_paragraph(job: Job) -> tuple[str, ...]:
    """Room, finish, product and how far it has come; sentences that follow each other."""
    return (*_room(job), *_finish(job), *_product(job), _how_far(job))


def _room(job: Job) -> tuple[str, ...]:
    outline, area_m2 = outline_of(job.layout), area_of(job.layout)
    if outline is None or area_m2 is None:
        return ("The room was not measured yet.",)
    unit = job.reading_unit
    across = (float(outline[:, axis].max() - outline[:, axis].min()) for axis in (0, 1))
    size = " by ".join(wording.distance(each, unit) for each in across)
    corners = len(outline)
    shape = f"A room of {size}" if corners == 4 else f"A room of {corners} corners within {size}"
    things = len(job.layout.things.obstacles)
    stand = "stands or lies" if things == 1 else "stand or lie"
    beside = f", less {wording.counted(things, 'thing')} that {stand} in it" if things else ""
    return (f"{shape}: {wording.area(area_m2, unit)} to level{beside}.",)


def _finish(job: Job) -> tuple[str, ...]:
    unit = job.reading_unit
    lines = [
        f"The finish is {wording.height(job.finish_mm, unit)} of the survey, {decided_told(job)}."
    ]
    fall = job.survey.fall
    if fall is not None:
        lines.append(f"A fall of {wording.percent(fall.percent)} is asked for.")
    else:
        promised = promise_words(job)
        lines.append(
            f"Promised {promised}; no fall was asked for."
            if promised
            else "Whether it is to be flat or level nobody has said; no fall was asked for."
        )
    return tuple(lines)


def _product(job: Job) -> tuple[str, ...]:
    names = [card.name for card in cards_of(job)]
    if not names:
        return ("No product was chosen yet.",)
    made = tally_of(job).material
    bags = f": {wording.counted(made.bags, 'bag')} by the readings, waste included" if made else ""
    return (f"Product {wording.join_names(names)}{bags}.",)


def _how_far(job: Job) -> str:
    if job.finished is not None and job.finished.readings:
        count = wording.counted(len(job.finished.readings), "point")
        return f"It is poured, and {count} of the finished floor were read."
    if is_poured(job):
        return "It is poured; the finished floor was not surveyed yet."
    if job.pour.started is not None:
        return f"The pour has begun, with {wording.counted(job.pour.bags_used, 'bag')} used."
    return "It is not poured yet."


def record_words(job: Job) -> str:
    """From when to when the record goes."""
    if not job.history:
        return "nothing is on record"
    count = wording.counted(len(job.history), "entry", "entries")
    first, last = job.history[0].time, job.history[-1].time
    return f"{at_time(first)} to {at_time(last)} ({zone_words(last)}), {count}"


def kept_words(job: Job) -> str:
    """Where the figures come from."""
    last = f" up to {at_time(job.history[-1].time)}" if job.history else ""
    return (
        f"Worked out by Leadsman from the job's record{last}. Depths and volume are those of the "
        "readings; between them they are estimated."
    )
