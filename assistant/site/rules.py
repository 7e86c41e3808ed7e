"""The reasons against pouring now, each with its source and what would clear it.

The rules are the functions in ``RULES``, in the order of the work. None of them ever says
that a floor is safe or dry: a floor with no reasons left is one whose checks were made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime

from assistant.floor.geometry import has_outline
from assistant.floor.heights import survey_of
from assistant.floor.things_in_words import where_words
from assistant.floor.ties import ways_to_tie
from assistant.floor.walk import points_missing
from assistant.floor.warnings import all_warnings, warning_kind, warning_subject
from assistant.job import Job, clocks
from assistant.limits.limits import PRACTICE
from assistant.limits.site_limits import PRIMER_STALE_AFTER, READINGS_STALE_AFTER, ZERO_STALE_AFTER
from assistant.reply import wording
from assistant.reply.replies import LimitWarning
from assistant.reply.times import shown_length
from assistant.site.climate import climate_reasons
from assistant.site.reason import Reason
from assistant.site.slab import slab_reasons
from grammar.frozen import frozen

WHO_DECIDES = (
    "These are the checks that were made, no more: whether the floor may be poured is for local "
    "code, the product's data sheet, the covering's data sheet and whoever answers for the site."
)


@frozen
class Ready:
    """Whether anything that was checked stands against the pour."""

    reasons: tuple[Reason, ...]
    accepted: tuple[tuple[Reason, str], ...] = ()
    """Reasons that somebody answers for, each with the speaker's words."""
    cautions: tuple[LimitWarning, ...] = ()
    """What else is past a limit or should be looked at, and is no reason by itself."""

    @property
    def go(self) -> bool:
        """True where no reason stands; it says nothing about what was not checked."""
        return not self.reasons


def ready_to_pour(job: Job, now: datetime) -> Ready:
    """All reasons against pouring now, in the order of the work."""
    found = tuple(reason for rule in RULES for reason in rule(job, now))
    accepted = tuple((reason, words) for reason in found if (words := _words_for(job, reason)))
    taken = {reason.id for reason, _ in accepted}
    told = (*_DEPTH_KINDS, *MATTER_OF, "points-missing")
    return Ready(
        tuple(reason for reason in found if reason.id not in taken),
        accepted,
        tuple(w for w in all_warnings(job) if w.severity != "stop" and warning_kind(w) not in told),
    )


MATTER_OF = {
    "weight": "weight",
    "door-across": "jambs",
    "out-of-range": "range",
    "zero-unchecked": "zero",
    "readings-stale": "readings",
    "moisture-other": "moisture",
    "old-adhesive": "adhesive",
}
"""Kinds of reason that a person may accept -> their name."""


def _matter(reason: Reason) -> str | None:
    return MATTER_OF.get(reason.id.partition(":")[0])


def _words_for(job: Job, reason: Reason) -> str:
    """The words of whoever accepted a reason; empty where nobody did, or it has changed since."""
    matter = _matter(reason)
    accepted = job.site.accepted.get(matter or "")
    if accepted is None:
        return ""
    return accepted.words if reason.message in accepted.seen else ""


def standing_in(job: Job, now: datetime, matter: str) -> tuple[str, ...]:
    """The present reasons of one matter, accepted or not."""
    found = (reason for rule in RULES for reason in rule(job, now))
    return tuple(reason.message for reason in found if _matter(reason) == matter)


def site_reasons(job: Job, now: datetime) -> tuple[Reason, ...]:
    """The reasons of slab and air only."""
    return (*slab_reasons(job, now), *climate_reasons(job, now))


Rule = Callable[[Job, datetime], Iterable[Reason]]


# --- the survey -----------------------------------------------------------------------


def survey_reasons(job: Job, _now: datetime) -> Iterable[Reason]:
    """Reasons of the survey: room, points and readings."""
    if not has_outline(job.layout):
        yield Reason(
            "room", "The room is not told, so there is no volume.", PRACTICE,
            "room 12 by 8 metres, or wall by wall",
        )  # fmt: skip
    missing = points_missing(job)
    if missing:
        are = "is" if len(missing) == 1 else "are"
        yield Reason(
            "points-missing",
            f"{wording.counted(len(missing), 'point')} {are} not read: "
            f"{wording.join_names(missing, 4)}.",
            "every point of the grid has a reading",
            "read them, or set a grid that fits",
        )
    elif not job.readings:
        yield Reason(
            "readings", "No point of the floor has been read.", PRACTICE,
            "grid 2 metres, then a reading at every point",
        )  # fmt: skip


def trust_reasons(job: Job, _now: datetime) -> Iterable[Reason]:
    """Points doubtful since a zero moved, set-ups without a tie, heights that don't agree."""
    survey = survey_of(job)
    again = "survey check tells what to read again, and why"
    if survey.doubtful:
        points = wording.join_names(tuple(survey.doubtful), 4)
        yield Reason(
            "survey-doubtful",
            f"The zero may have moved, and {points} "
            f"{'is' if len(survey.doubtful) == 1 else 'are'} in doubt.",
            PRACTICE,
            again,
        )
    if survey.untied:
        numbers = wording.join_names([str(number + 1) for number in survey.untied], 4)
        yield Reason(
            "survey-untied",
            f"Nothing ties set-up {numbers} to the others, so its points have no height.",
            "heights of one survey refer to one datum",
            ways_to_tie(job, survey.untied[0]),
        )
    if odd := _odd_points(job):
        does = "does" if len(odd) == 1 else "do"
        yield Reason(
            "survey-suspect",
            f"{wording.join_names(odd, 4)} {does} not fit the floor around.",
            "each reading held against its neighbours' surface, with its uncertainty",
            "read it again, and confirm it if it is so; survey check tells by how much",
        )
    if survey.too_large:
        yield Reason(
            "survey-misfits",
            "Ties and checks disagree by more than the instrument explains.",
            "adjustment of all heights together, by least squares",
            again,
        )


def _odd_points(job: Job) -> tuple[str, ...]:
    """Points that the survey check would have looked at, as their neighbours say otherwise."""
    from assistant.floor.survey_check import verdict_of  # fits the floor: only when asked

    found = (one for one in verdict_of(job).findings if one.why == "neighbours")
    return tuple(point for finding in found for point in finding.points)


def zero_reasons(job: Job, now: datetime) -> Iterable[Reason]:
    """A zero that was not checked, or too long ago, in each set-up that counts."""
    if not job.readings:
        return
    checks = [mark.height for mark in job.survey.marks if mark.check]
    checked = {height.set_up for height in checks}
    if unchecked := sorted({height.set_up for height in job.readings.values()} - checked):
        several = job.survey.set_up > 0
        of = f" of set-up {wording.join_names([str(each + 1) for each in unchecked], 4)}"
        yield Reason(
            "zero-unchecked",
            f"The zero{of * several} was never checked, so nothing shows that it stood still.",
            PRACTICE,
            "check zero level, or what it shows; where that set-up is gone, read its points again "
            "from this one, or accept zero because, and who answers for it",
        )
    if checks and now - max(height.time for height in checks) > ZERO_STALE_AFTER:
        yield Reason(
            "zero-stale",
            f"The zero was last checked more than {shown_length(ZERO_STALE_AFTER)} ago.",
            PRACTICE,
            "set up again, check zero level, and read a few points once more",
        )


def age_reasons(job: Job, now: datetime) -> Iterable[Reason]:
    """Points read so long ago that the floor may have been ground, filled or curled since."""
    old = [point for point, height in job.readings.items()
           if now - height.time > READINGS_STALE_AFTER]  # fmt: skip
    if old:
        yield Reason(
            "readings-stale",
            f"{wording.counted(len(old), 'point')} read more than {READINGS_STALE_AFTER.days} "
            f"days ago: {wording.join_names(old, 4)}.",
            PRACTICE,
            "read them again, or accept readings because, and who has seen the floor since",
        )


def door_reasons(job: Job, _now: datetime) -> Iterable[Reason]:
    """Doors that are missing or incomplete."""
    if not job.doors:
        yield Reason(
            "doors", "No door has been read, and doors settle the finish.", PRACTICE,
            "door 1 left minus 4 right minus 9 outside plus 2",
        )  # fmt: skip
    for number, door in sorted(job.doors.items()):
        lacking = [
            what
            for what, there in (("its jambs", door.left), ("the floor outside", door.outside))
            if there is None
        ]
        if lacking:
            yield Reason(
                f"door:{number}",
                f"Door {number} lacks {wording.join_names(lacking)}.",
                PRACTICE,
                f"door {number} left minus 4 right minus 9 outside plus 2",
            )


def opening_reasons(job: Job, _now: datetime) -> Iterable[Reason]:
    """Openings that the pour would run through."""
    for one in job.layout.things.obstacles:
        if one.is_off_the_area or one.plugged:
            continue
        yield Reason(
            f"opening:{one.number}",
            f"Opening {one.number} {where_words(one)} is not plugged: the pour runs through it.",
            PRACTICE,
            f"plug it and look at the other side, then opening {one.number} plugged",
        )


def product_reasons(job: Job, _now: datetime) -> Iterable[Reason]:
    """No product, so no limits."""
    if job.card is None:
        yield Reason(
            "product", "No product is chosen, so its limits are not known.", PRACTICE,
            "product and its name; products lists the cards at hand",
        )  # fmt: skip


# --- limits passed ------------------------------------------------------------------------

_DEPTH_KINDS = {
    "high-spot": ("stand above the finish", "grind them down, or raise the finish"),
    "under-minimum": (
        "are under the product's minimum",
        "grind them down, raise the finish, or choose a product for thinner depths",
    ),
    "over-maximum": (
        "are over the product's maximum without aggregate",
        "lower the finish, or aggregate or lifts as the data sheet allows",
    ),
    "over-aggregate-maximum": (
        "are over the product's maximum with aggregate",
        "lower the finish, or lifts as the data sheet allows, or a deeper product",
    ),
    "under-own-least": ("are under your own least depth", "raise the finish, or no least depth"),
    "over-own-most": ("are over your own most depth", "lower the finish, or no most depth"),
}
_CLEARS = {
    "door-step": "move the finish; or, where the rules of the place allow more, say how much: "
    "doorway step limit 20 millimetres",
    "weight": "less depth; or a structural engineer, then accept weight because, and their words",
    "door-across": "settle the finish at that door; or accept jambs because, and who has seen it",
    "out-of-range": "read it again within the range; or accept range because, and why it holds",
    "feather": "raise the finish, or choose a product that may run out to nothing",
    "aggregate": "put in less aggregate, or choose a product that takes it",
}


def limit_reasons(job: Job, _now: datetime) -> Iterable[Reason]:
    """Depths that the product does not allow, and all else that is past a hard limit."""
    found: dict[str, list[LimitWarning]] = {}
    for warning in all_warnings(job):
        if warning_kind(warning) in _DEPTH_KINDS:
            found.setdefault(warning_kind(warning), []).append(warning)
        elif warning.severity == "stop" or warning_kind(warning) in MATTER_OF:
            found.setdefault(warning.id, []).append(warning)
    for id, warnings in found.items():
        yield _limit_reason(id, warnings)


def _limit_reason(id: str, warnings: list[LimitWarning]) -> Reason:
    first = warnings[0]
    what, clears = _DEPTH_KINDS.get(
        id, ("", _CLEARS.get(warning_kind(first), "what the warning says; warnings tells it again"))
    )
    message = first.message
    if len(warnings) > 1:
        points = wording.join_names([warning_subject(warning) for warning in warnings], 4)
        message = f"{points} {what}. Warnings tells each."
    return Reason(id, message, first.source, clears)


# --- clocks -------------------------------------------------------------------------------


def clock_reasons(job: Job, now: datetime) -> Iterable[Reason]:
    """A hose still settling, a primer missing or still drying, a pour that is done."""
    hose = clocks.latest_started(job.site.clocks, "hose")
    if hose is not None and not clocks.has_run(hose, job.card, now):
        yield _waiting("hose-settling", "The hose is settling", hose, job, now)
    primer = clocks.latest_started(job.site.clocks, "primer")
    if primer is None:
        yield Reason(
            "primer", "No primer has been put on.", f"{PRACTICE}; the product's data sheet decides",
            "primer on floor, when it is on",
        )  # fmt: skip
    elif not clocks.has_run(primer, job.card, now):
        yield _waiting("primer-drying", "The primer is drying", primer, job, now)
    elif now - primer.time > PRIMER_STALE_AFTER:
        yield Reason(
            "primer-stale",
            f"The primer was put on more than {shown_length(PRIMER_STALE_AFTER)} ago.",
            f"{PRACTICE}; the primer's data sheet decides",
            "prime again, or clean it, as its data sheet says, then primer on floor",
        )
    if clocks.latest_started(job.site.clocks, "pour") is not None:
        yield Reason(
            "poured", "This floor has been poured already.", "this job's record",
            "a new job for another floor or lift; undo if it was a slip",
        )  # fmt: skip


def _waiting(id: str, what: str, started: clocks.Started, job: Job, now: datetime) -> Reason:
    span, left = clocks.span_of(started.clock, job.card), clocks.time_left(started, job.card, now)
    assert span is not None  # hose and primer always have a length
    assert left is not None
    return Reason(
        id,
        f"{what}: {shown_length(left)} to go, of {shown_length(span.most)}.",
        span.source,
        f"wait {shown_length(left)}",
    )


RULES: tuple[Rule, ...] = (
    slab_reasons,
    climate_reasons,
    survey_reasons,
    trust_reasons,
    zero_reasons,
    age_reasons,
    door_reasons,
    opening_reasons,
    product_reasons,
    limit_reasons,
    clock_reasons,
)
