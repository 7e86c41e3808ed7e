"""Answers about limits of depth of one's own, kept apart from the product's."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.floor.depths import depths_of
from assistant.floor.warnings import OWN_KINDS, own_limits_passed, warning_kind
from assistant.job import Job
from assistant.limits.own_limits import NONE, least_allowed, most_allowed
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.finish import OwnLimit

MOST_NAMED = 4
"""Most points past it that are named."""


def own_limit_told(moment: Moment, command: OwnLimit) -> Reply:
    job, end = moment.job, command.end
    now, of_card = _own(job, end), _of_card(job, end)
    data = {"own_limits": {**own_limits_data(job), "past": _past(job, end)}}
    if now is None:
        left = "No limit is left at that end."
        if of_card is not None:
            left = f"The card's {wording.length(of_card, moment.unit)} stays."
        headline = f"No {end} depth of your own any more."
        return with_matters(moment, Reply(headline, headline, (left,), data=data))
    reply = Reply(
        f"Your own {end} depth: {wording.length(now, moment.unit)}.",
        f"Your own {end} depth, {wording.spoken_length(now, moment.unit)}.",
        (*_against_card(job, end, now, of_card), *_points_past(job, end)),
        data=data,
    )
    return _first_of_many(with_matters(moment, reply, own_limits_passed(job, end)))


def _first_of_many(reply: Reply) -> Reply:
    """A few of its warnings, where hundreds of points may be past it: a line counts them all."""
    passed = [w for w in reply.warnings if warning_kind(w) in OWN_KINDS]
    left_out = set(passed[MOST_NAMED:])
    shown = tuple(warning for warning in reply.warnings if warning not in left_out)
    told = (f"{len(left_out)} more like these: warnings.",) if left_out else ()
    return replace(reply, warnings=shown, details=(*reply.details, *told))


def _own(job: Job, end: str) -> Fraction | None:
    return job.own_limits.most_mm if end == "most" else job.own_limits.least_mm


def _of_card(job: Job, end: str) -> Fraction | None:
    if job.card is None:
        return None
    if end == "most":
        return most_allowed(NONE, job.card, Fraction(job.aggregate_percent))[0]
    return least_allowed(NONE, job.card)[0]


def own_limits_data(job: Job) -> dict[str, Any]:
    """The limits of one's own for programs, in millimetres; None where there is none."""
    own = job.own_limits
    return {
        "least_mm": None if own.least_mm is None else float(own.least_mm),
        "most_mm": None if own.most_mm is None else float(own.most_mm),
    }


def own_limits_told(job: Job) -> list[str]:
    """Each limit of one's own, with which of the two counts; nothing where there is none."""
    unit, told = job.reading_unit, []
    for end in ("least", "most"):
        if (now := _own(job, end)) is not None:
            against = " ".join(_against_card(job, end, now, _of_card(job, end)))
            told.append(f"Your own {end} depth: {wording.length(now, unit)}. {against}".rstrip())
    return told


def _against_card(job: Job, end: str, now: Fraction, of_card: Fraction | None) -> list[str]:
    """Which of the two counts: the stricter one, whoever set it."""
    if of_card is None:
        return ["The product's own limits come with its card."] if job.card is None else []
    shown = wording.length(of_card, job.reading_unit)
    if now == of_card:
        return [f"The card says the same, {shown}."]
    is_stricter = now < of_card if end == "most" else now > of_card
    if is_stricter:
        return [f"Stricter than the card's {shown}."]
    return [f"The card's {shown} is stricter, and stays what counts."]


def _past(job: Job, end: str) -> list[str]:
    """The points that are past it, in walking order."""
    own = _own(job, end)
    if own is None:
        return []
    depths = depths_of(job).items()
    return [point for point, depth in depths if (depth > own if end == "most" else depth < own)]


def _points_past(job: Job, end: str) -> list[str]:
    own, depths = _own(job, end), depths_of(job)
    if own is None or not depths:
        return []
    past = _past(job, end)
    if not past:
        return ["Every point that was read is within it."]
    what = "deeper" if end == "most" else "thinner"
    are = "is" if len(past) == 1 else "are"
    points = wording.counted(len(depths), "point")
    return [f"{len(past)} of {points} {are} {what}: {wording.join_names(past, MOST_NAMED)}."]


ANSWERS: dict[type[Command], Answerer] = {OwnLimit: own_limit_told}
