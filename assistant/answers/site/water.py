"""What warm water in a fluid hose does to a reading."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal, SurveyError
from assistant.levels.water import leg_error_m
from assistant.reply import wording
from assistant.reply.examples import LEG_AND_REST
from assistant.reply.replies import Reply
from assistant.units.lengths import metres
from assistant.units.temperature import celsius
from grammar.commands import Command
from grammar.commands.site import AskWarmLeg


def warm_leg_told(moment: Moment, command: AskWarmLeg) -> Reply:
    """The error of the reading, and what to do about it."""
    leg, rest = float(celsius(command.leg)), float(celsius(command.rest))
    try:
        error_m = leg_error_m(metres(command.run), rest, leg)
    except SurveyError as why:
        raise Refusal(
            f"{why} Say: ", LEG_AND_REST, ".", spoken="Water is not read so warm or so cold."
        ) from why
    size = wording.length(abs(error_m) * 1000, moment.unit)
    way = "high" if error_m > 0 else "low"
    told = f"The water stands {size} too {way} in that leg." if error_m else "No error in that leg."
    return Reply(
        told,
        details=(
            "A hose lying flat has no such error, however long it is.",
            "Let the hose lie till it is one temperature, then zero it again: hose on floor.",
            f"A rise of {wording.as_said(command.run)}, water density after Tanaka and others, "
            "2001.",
        ),
        data={"warm_leg": {"error_mm": error_m * 1000}},
    )


ANSWERS: dict[type[Command], Answerer] = {AskWarmLeg: warm_leg_told}
