"""What is worked out for one finish and one product all over, though zones have their own."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.parts import Answerer, Moment
from assistant.job import Job
from assistant.job.zones import Zones
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command


def told_all_over(answerer: Answerer) -> Answerer:
    """The answer as if no zone had its own, which it then says."""

    def told(moment: Moment, command: Command) -> Reply:
        pours = moment.job.zones.pours
        if not pours:
            return answerer(moment, command)
        before, after = _plain(moment.before), _plain(moment.after)
        reply = answerer(Moment(before, after, moment.events, moment.world), command)
        names = wording.join_names(tuple(pours))
        return reply.adding(
            "Worked out for one finish and one product all over, without what zones have of "
            f"their own: {names}."
        )

    return told


def _plain(job: Job) -> Job:
    return replace(job, zones=Zones())
