"""What a board shows of a job, in words that are read from across a room."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from assistant.events.pour import MixWaterSet
from assistant.floor.places import places_of
from assistant.floor.pour.parts import plan_known
from assistant.floor.pour.placing import placing_of
from assistant.floor.pour.progress import Progress, progress_of
from assistant.floor.tally import tally_of
from assistant.floor.zones import one_card
from assistant.job import Job, is_poured
from assistant.reply import wording
from assistant.reply.visible import visible


def board_of(job: Job, name: str, now: datetime) -> dict[str, Any]:
    """
    The board: a headline, rows of what and how much, and how long the wet edge still waits.

    JSON types only. ``edge_s`` counts from `now`; null where no edge waits.
    """
    pouring = bool(job.pour.started) and not is_poured(job)
    progress = progress_of(job)
    edge = progress.edge_due if pouring and job.pour.stopped is None else None
    return {
        "job": visible(name),
        "headline": visible(_headline(job, pouring)),
        "rows": [[what, visible(shown)] for what, shown in _rows(job, pouring) if shown],
        "edge_s": None if edge is None else round((edge - now).total_seconds()),
        "short": progress.short,
    }


def _headline(job: Job, pouring: bool) -> str:
    stopped = job.pour.stopped
    if is_poured(job):
        return "Poured."
    if stopped is not None:
        return f"It stands still: {stopped.reason}" if stopped.reason else "It stands still."
    if not pouring:
        read, whole = len(job.readings), len(places_of(job.layout).names)
        return f"{read} of {whole} points read." if whole else "Not begun."
    batch, strip = placing_of(job), progress_of(job).strip
    what = f"batch of {wording.counted(batch.batch_bags, 'bag')}" if batch else "batch"
    return f"Next: {what}{f', strip {strip}' if strip else ''}.{_short(progress_of(job))}"


def _short(progress: Progress) -> str:
    """By how many bags it will be short; red alone would not say why it is red."""
    if not progress.short or progress.forecast is None or progress.at_hand is None:
        return ""
    missing = max(round(float(progress.forecast.mean)) - progress.at_hand, 1)
    return f" Short by about {wording.counted(missing, 'bag')}."


def _rows(job: Job, pouring: bool) -> list[tuple[str, str]]:
    progress, made, unit = progress_of(job), tally_of(job).material, job.reading_unit
    planned = progress.planned
    rows = [("Water a bag", _water(job))]
    if job.pour.batches:
        of = "" if planned is None else f" of {wording.figure(planned, 0)}"
        rows.append(("Bags used", f"{progress.used}{of}"))
    elif made is not None:
        rows.append(("Bags", str(made.bags)))
    if pouring and progress.front_m is not None and plan_known(job) is not None:
        rows.append(("Front by the bags", wording.distance(progress.front_m, unit)))
    if pouring and progress.forecast is not None:
        low, high = (wording.figure(float(bags), 0) for bags in progress.forecast.interval)
        rows.append(("It will take", f"{low} to {high} bags"))
    if pouring and progress.at_hand is not None:
        rows.append(("Bags left", str(max(progress.at_hand - progress.used, 0))))
    return rows


def _water(job: Job) -> str:
    said, card, unit = job.setting(MixWaterSet), one_card(job), job.reading_unit
    if said is not None:
        return wording.liquid(unit, float(said.litres), places=2)
    return "" if card is None else wording.liquid(unit, *card.water_l, places=2)
