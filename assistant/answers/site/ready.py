"""The answer to "ready to pour": go or not yet, each reason, and who decides."""

from __future__ import annotations

from datetime import datetime

from assistant.answers.parts import Answerer, Moment
from assistant.guide.steps import steps
from assistant.guide.walk import check_of, passed_knowingly
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply
from assistant.site.reason import Reason
from assistant.site.rules import WHO_DECIDES, ready_to_pour
from assistant.site.slab import moisture_tests, takes_tests
from grammar.commands import Command
from grammar.commands.site import AskReadyToPour, AskWhetherDry


def ready_told(moment: Moment, _command: AskReadyToPour) -> Reply:
    job, now = moment.job, moment.world.now
    ready = ready_to_pour(job, now)
    data = {"ready": {"go": ready.go, "finish_assumed": not job.finish_said,
        "reasons": [each.as_data() for each in ready.reasons],
        "accepted": [{**each.as_data(), "words": words} for each, words in ready.accepted],
        "cautions": [{"id": each.id, "message": each.message, "source": each.source}
                     for each in ready.cautions],
    }}  # fmt: skip
    stands = len(ready.cautions) + len(ready.accepted)
    beside = (
        *(f"Accepted, in the speaker's words: {reason.message} “{words}”"
          for reason, words in ready.accepted),
        *(f"{each.severity.capitalize()}: {each.message} ({each.source})"
          for each in ready.cautions),
        *_assumed(job),
        *_passed(job, now),
        NOT_CHECKED,
        WHO_DECIDES,
    )  # fmt: skip
    with_cautions = f" with {wording.counted(stands, 'caution')}" if stands else ""
    said_cautions = f" with {wording.spoken_count(stands, 'caution')}" if stands else ""
    if ready.go:
        return Reply(
            f"Go{with_cautions}: no reason against it was found in what was checked.",
            f"Go{said_cautions}, as far as was checked. Not checked: cracks, bond, cleanliness, "
            "strength. Who answers for the site decides.",
            (*_made(job), *beside),
            data=data,
        )
    count = len(ready.reasons)
    lines = tuple(
        f"{number}. {each.message} To clear it: {each.clears_by}. ({each.source})"
        for number, each in enumerate(ready.reasons, start=1)
    )
    return Reply(
        f"Not yet: {wording.counted(count, 'reason')}{_and(stands)}.",
        f"Not yet, {wording.spoken_count(count, 'reason')}. First: {_short(ready.reasons[0])}",
        (*lines, *beside),
        data=data,
    )


def _assumed(job: Job) -> tuple[str, ...]:
    """What is assumed, as nothing else was said."""
    if job.finish_said or not job.readings:
        return ()
    return ("The finish is assumed to be at the zero, as nobody has said it: finish at zero.",)


NOT_CHECKED = (
    "Not checked here: cracks, bond, cleanliness and strength of the floor, what it can carry, "
    "the age of the bags, the mixer, and the people."
)


def _and(cautions: int) -> str:
    return f", and {wording.counted(cautions, 'caution')}" if cautions else ""


def _short(reason: Reason) -> str:
    """A reason in few words, to say."""
    return _SAID.get(reason.id) or f"{reason.id.replace('-', ' ').replace(':', ' ')}."


_SAID = {
    "substrate": "the floor is not described.",
    "old-adhesive": "old adhesive, have it tested.",
    "moisture-tests": "moisture tests are missing.",
    "ph-test": "the pH is not tested.",
    "slab-humidity": "the slab's humidity is over its limit.",
    "emission": "the moisture emission is over its limit.",
    "ph": "the pH is outside its range.",
    "climate-missing": "air, slab or humidity is not read.",
    "climate-stale": "the readings of the air and slab are too old.",
    "slab-cold": "the slab is too cold for the product.",
    "slab-warm": "the slab is too warm for the product.",
    "air-cold": "the air is too cold for the product.",
    "air-warm": "the air is too warm for the product.",
    "dew-point": "the slab is too near the dew point.",
    "room": "there is no room yet.",
    "points-missing": "points are missing.",
    "readings": "no point has been read.",
    "survey-doubtful": "points are in doubt.",
    "survey-untied": "a set-up is not tied.",
    "survey-misfits": "the survey does not agree with itself.",
    "zero-unchecked": "the zero was never checked.",
    "readings-stale": "points were read too long ago.",
    "zero-stale": "the zero was checked too long ago.",
    "tests-stale": "the moisture tests are too old.",
    "moisture-other": "no moisture is on record.",
    "primer-stale": "the primer is too old.",
    "weight": "the weight, ask an engineer.",
    "doors": "no door has been read.",
    "product": "no product is chosen.",
    "hose-settling": "the hose is settling.",
    "primer": "no primer is on.",
    "primer-drying": "the primer is drying.",
    "poured": "the floor has been poured.",
}


def _made(job: Job) -> tuple[str, ...]:
    """The checks that were made, without judging them."""
    made = [f"the floor ({job.site.substrate})"]
    if takes_tests(job):
        made += [wording.counted(moisture_tests(job).most, "moisture test"), "the pH"]
    made += ["air, slab and dew point", "the survey", "the doors", "the depths against the card"]
    return (f"Checked: {wording.join_names([*made, 'the clocks'], most=9)}.",)


def _passed(job: Job, now: datetime) -> tuple[str, ...]:
    """Steps left out or passed on purpose and not met since, for whoever signs."""
    lines = []
    for step in steps():
        reason = job.guide.skipped.get(step.id)
        if not passed_knowingly(step, job) or check_of(step, job, now).met:
            continue
        if reason is None:
            lines.append(f"Passed knowingly: {step.title.lower()}.")
        else:
            lines.append(f"Skipped: {step.title.lower()}, in the speaker's words: “{reason}”.")
    return tuple(lines)


def whether_dry_told(moment: Moment, _command: AskWhetherDry) -> Reply:
    tests = moisture_tests(moment.job)
    return Reply(
        "No tool can say that a slab is dry. Moisture tests decide, held against the data sheets "
        "of bag and covering.",
        "No tool can say so. Tests and data sheets decide.",
        (
            f"On record: {wording.counted(tests.humidity, 'humidity test')} and "
            f"{tests.emission} of emission; of one kind this area takes {tests.wanted}. "
            "All that was read: site",
            "What stands against pouring: ready to pour. Hose and primer: clocks",
            WHO_DECIDES,
        ),
        data={
            "moisture_tests": {
                "humidity": tests.humidity,
                "emission": tests.emission,
                "wanted": tests.wanted,
            }
        },
    )


ANSWERS: dict[type[Command], Answerer] = {
    AskReadyToPour: ready_told,
    AskWhetherDry: whether_dry_told,
}
