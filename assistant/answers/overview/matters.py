"""All warnings of a job, and the usual cautions."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment, spoken_first
from assistant.floor import warnings as checks
from assistant.job import Job, finished_floor
from assistant.limits.cautions import cautions_at
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.overview import AskCautions, AskWarnings


def cautions_told(moment: Moment, _command: AskCautions) -> Reply:
    """All safety words, with the product's own bag where it is known."""
    card = moment.job.card
    cautions = cautions_at("site", card.bag_kg if card else None)
    told = "The usual cautions; local code, the data sheet and licensed people decide."
    return Reply(
        told,
        cautions=cautions,
        data={"cautions": [caution.id for caution in cautions]},
        at_length=(told,),
    )


def warnings_told(moment: Moment, _command: AskWarnings) -> Reply:
    warnings = checks.all_warnings(moment.job)
    cautions = checks.cautions_of(moment.job)
    counts = [
        (severity, sum(w.severity == severity for w in warnings)) for severity in checks.SEVERITIES
    ]
    data = {"warnings": dict(counts)}
    since = _since_the_pour(moment.job)
    if not warnings:
        return Reply(
            "No limit known here is passed.",
            details=(
                "That is no proof of a sound floor: the data sheet and local code decide.",
                *since,
            ),
            cautions=cautions,
            data=data,
        )
    told = [wording.counted(count, severity) for severity, count in counts if count]
    spoken = [wording.spoken_count(count, severity) for severity, count in counts if count]
    return Reply(
        f"{wording.join_names(told)}. First: {warnings[0].message}",
        (wording.join_names(spoken), f"first, {spoken_first(warnings[0])}"),
        since,
        warnings=warnings,
        cautions=cautions,
        data=data,
    )


def _since_the_pour(job: Job) -> tuple[str, ...]:
    """What the finished floor's survey shows, beside the warnings about the slab."""
    floor = finished_floor(job)
    if floor is None:
        return ()
    known = checks.all_warnings(job)
    own = [f"Finished floor: {w.message}" for w in checks.all_warnings(floor) if w not in known]
    return ("Limits are those of the pour over the slab.", *own)


ANSWERS: dict[type[Command], Answerer] = {
    AskWarnings: warnings_told,
    AskCautions: cautions_told,
}
