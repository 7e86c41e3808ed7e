"""Where the bags of a pour stand, so that nobody walks wet floor."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.answers.pour.pace import no_pace, shown_at
from assistant.events.pour import WayOutSet
from assistant.floor.pour.plan import PourPlan, plan_of
from assistant.reply import wording
from assistant.reply.mix_water import water_a_bag
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.pour import AskStaging


def staging_told(moment: Moment, _command: AskStaging) -> Reply:
    """Bags of each strip beyond its far edge, on floor that is dry until the next begins."""
    job = moment.job
    plan = plan_of(job)
    if plan.placing is None:
        return no_pace(moment, plan)
    out = job.setting(WayOutSet)
    outside = f"outside door {out.door}" if out else "outside the way out"
    rows = []
    for each, after in zip(plan.strips, (*plan.strips[1:], None), strict=True):
        where = outside
        if after is not None:
            where = f"on strip {after.number}, past {shown_at(moment, each.to_m)}"
            if after.bay != each.bay:
                where = f"on strip {after.number}, in the next bay"
        rows.append((str(each.number), str(each.bags), where))
    last = plan.strips[-1]
    inside = sum(each.bags for each in plan.strips[:-1])
    return Reply(
        f"{wording.counted(inside, 'bag')} inside, each strip's past its far edge; "
        f"{last.bags} {outside}.",
        f"{wording.spoken_count(inside, 'bag')} inside, "
        f"{wording.spoken_number(last.bags)} outside.",
        (
            "Each strip is poured from floor that is still dry; nobody has to step back over it. "
            "On primed floor bags stand on boards.",
            f"Water a bag: {_water(moment, plan)} on the card; one figure for the whole pour.",
        ),
        (Table("Bags", ("Strip", "Bags", "Where"), tuple(rows)),),
        data={
            "staging": [
                {"strip": each.number, "bags": each.bags,
                 "past_m": each.to_m if each is not last else None}
                for each in plan.strips
            ]
        },
    )  # fmt: skip


def _water(moment: Moment, plan: PourPlan) -> str:
    """Mix water of each product, named where there are several."""
    cards = {bay.alike.card.name: bay.alike.card for bay in plan.floor}
    told = [
        f"{water_a_bag(moment.unit, *card.water_l)}{f' of {name}' * (len(cards) > 1)}"
        for name, card in cards.items()
    ]
    return ", ".join(told)


ANSWERS: dict[type[Command], Answerer] = {AskStaging: staging_told}
