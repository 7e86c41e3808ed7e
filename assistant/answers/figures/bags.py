"""What a number of bags comes to."""

from __future__ import annotations

from assistant.answers.figures.figure import card_needed, figure_reply
from assistant.answers.figures.single import material_needed
from assistant.answers.parts import Answerer, Moment
from assistant.floor.cost import cost_of_bags
from assistant.floor.order import USUAL_RISK_PERCENT, chance_short_percent, makes_m3
from assistant.floor.reach import lower_by_for, reach_of
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.figures import AskBagsEnough, AskBagsReach


def enough_told(moment: Moment, command: AskBagsEnough) -> Reply:
    job, bags = moment.job, command.bags
    card_needed(job, "What a bag makes")
    needed = material_needed(moment, "Counting bags").bags
    spare = bags - needed
    details = [f"By the readings it takes {wording.counted(needed, 'bag')}, waste included."]
    risk = chance_short_percent(job, bags)
    if risk is not None:
        details.append(f"{_short_words(risk)}, floor between the points included.")
    if spare < 0 and (cost := cost_of_bags(job, -spare)):
        details.append(f"The others cost {cost.in_words()}.")
    if spare >= 0:
        over = "none over" if not spare else f"{spare} over"
        shown = f"Enough by the readings, {over}."
        said = f"Enough by the readings, {wording.spoken_number(spare) if spare else 'none'} over."
        if risk is not None and risk > USUAL_RISK_PERCENT:
            shown = f"Just enough by the readings, {over}: {_short_words(risk).lower()}."
            said = "Just enough by the readings. It may run short."
    else:
        shown = f"No, {wording.counted(-spare, 'bag')} short."
        said = f"No, {wording.spoken_count(-spare, 'bag')} short."
    return figure_reply("bags-enough", spare, "bags", shown, said, *details)


def _short_words(percent: float) -> str:
    if percent < 0.5:
        return "Runs short hardly ever"
    if percent > 99.5:
        return "Runs short nearly always"
    return f"Runs short {wording.figure(percent, 0)} times in 100"


def reach_told(moment: Moment, command: AskBagsReach) -> Reply:
    job, unit, bags = moment.job, moment.unit, command.bags
    card_needed(job, "What a bag makes")
    material_needed(moment, "How far bags go")
    reach = reach_of(job, makes_m3(job, bags))
    makes = wording.volume(makes_m3(job, bags), unit)
    if reach.share >= 1:
        return figure_reply(
            "bags-reach",
            1.0,
            "of the floor",
            "The whole floor, by the readings.",
            "The whole floor, by the readings.",
            f"They make {makes} after waste.",
        )
    percent = wording.figure(100 * reach.share, 0)
    details = [f"They make {makes} after waste; at the mean depth that is "
               f"{wording.area(reach.area_m2, unit)}."]  # fmt: skip
    lower = lower_by_for(job, makes_m3(job, bags), unit)
    if lower is not None:
        details.append(
            f"The whole floor would take a finish {wording.length(lower, unit)} lower; "
            f"look first: what if lower finish {wording.length(lower, unit)}."
        )
    return figure_reply(
        "bags-reach",
        reach.share,
        "of the floor",
        f"{percent} % of the pour.",
        f"{wording.spoken_number(round(100 * reach.share))} percent of the pour.",
        *details,
    )


ANSWERS: dict[type[Command], Answerer] = {AskBagsEnough: enough_told, AskBagsReach: reach_told}
