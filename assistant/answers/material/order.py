"""Answers about the order: bags for a given risk of running short, and their interval."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.answers.zones.tables import parts_data, parts_table, rounded_up_words
from assistant.decide.zones import known_zone
from assistant.errors import Refusal
from assistant.floor.cost import cost_of_bags
from assistant.floor.interval import left_out_words, no_interval
from assistant.floor.order import USUAL_RISK_PERCENT, Interval, further_bags, interval_of, order_at
from assistant.floor.product_orders import product_orders
from assistant.floor.tally import tally_of
from assistant.floor.walk import points_missing
from assistant.floor.zones import cards_of, in_zone, one_card
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.material import AskOrder


def interval_data(job: Job) -> dict[str, Any]:
    """The interval for programs; null with the reason where too little is known."""
    found = interval_of(job)
    if found is None:
        return {
            "volume_m3_interval": None,
            "bags_interval": None,
            "mean_sd_mm": None,
            "interval_reason": str(no_interval(job)),
        }
    return {
        "volume_m3_interval": list(found.volume_m3),
        "bags_interval": None if found.bags is None else list(found.bags),
        "mean_sd_mm": found.mean_sd_mm,
        "volume_m3_likeliest": found.mean_m3,
    }


def bags_with_interval(job: Job) -> str:
    """``61 bags, 57 to 66.``; only the bags where no interval is known."""
    made, found = tally_of(job).material, interval_of(job)
    if made is None:
        return ""
    text = wording.counted(made.bags, "bag")
    if found is None or found.bags is None:
        return f"{text}."
    return f"{text}, {bags_between(found.bags)}."


def spoken_bags_with_interval(job: Job) -> str:
    """The bags and their interval, to say."""
    made, found = tally_of(job).material, interval_of(job)
    if made is None:
        return ""
    text = wording.spoken_count(made.bags, "bag")
    if found is None or found.bags is None:
        return text
    low, high = (wording.spoken_number(count) for count in found.bags)
    return f"{text}, {low}{f' to {high}' if low != high else ''}"


def interval_details(job: Job) -> list[str]:
    """Lines under the tally."""
    found = interval_of(job)
    if found is None:
        return [no_interval(job).worded(job.reading_unit)] if job.readings else []
    low, high = (wording.volume(volume, job.reading_unit) for volume in found.volume_m3)
    left_out = left_out_words(job)
    return [
        f"With what lies between the points: {low} to {high}, 95 times in 100; "
        f"the mean depth is good to {wording.error_size(found.mean_sd_mm, job.reading_unit)} "
        "(standard deviation).",
        *([left_out] if left_out else []),
    ]


def bags_between(bags: tuple[int, int]) -> str:
    low, high = bags
    return f"{low} to {high}" if low != high else f"{low} for sure"


def ordered(moment: Moment, command: AskOrder) -> Reply:
    whole = moment.job
    zone = None if command.zone is None else known_zone(whole, command.zone)
    job = whole if zone is None else in_zone(whole, zone)
    risk = USUAL_RISK_PERCENT if command.risk is None else command.risk
    if not Decimal("0.1") <= risk <= 50:
        raise Refusal(
            f"A risk of running short is from 0.1 to 50 percent, not {wording.percent(risk)}: "
            "order risk 5 percent.",
            spoken="A risk is from a tenth to fifty percent.",
        )
    if len(cards_of(job)) > 1:
        return by_product(job, risk)
    if one_card(job) is None:
        raise Refusal(
            "The product first, then bags can be counted: product NAME.",
            spoken="The product first.",
        )
    found, tally = sure_interval(job), tally_of(job)
    order = order_at(job, risk)
    rows = further_bags(job, order.bags)
    assert tally.material is not None  # there is a product and a volume
    assert found.bags is not None
    data: dict[str, Any] = {
        "order": {
            "bags": order.bags,
            "risk_percent": float(risk),
            "bags_by_readings": tally.material.bags,
            "bags_interval": list(found.bags),
            "further": [{"bags": row.bags, "risk_percent": row.risk_percent} for row in rows],
        }
    }
    by_readings = wording.counted(tally.material.bags, "bag")
    details = [
        f"By the readings alone {by_readings}; 95 times in 100 {bags_between(found.bags)}.",
        "The risk is that of the floor between the points; spills are in the waste.",
    ]
    if missing := len(points_missing(job)):
        details.append(f"{wording.counted(missing, 'point')} not read yet; the risk counts that.")
    if left_out := left_out_words(job):
        details.append(left_out)
    if cost := cost_of_bags(job, order.bags):
        details.append(f"They cost {cost.in_words()}.")
        data["order"]["cost"] = cost.as_data()
    if zone is not None:
        data["order"]["zone"] = zone
    if job.layout.zones:
        details += rounded_up_words(job)
        data["order"]["zones"] = parts_data(job)
    tables = (parts_table(job, moment.unit),) if job.layout.zones else ()
    shown = tuple((str(row.bags), one_in(row.risk_percent)) for row in rows)
    of = "" if zone is None else f" for {zone}"
    said = "" if zone is None else f" for {wording.spoken_zone(zone)}"
    return Reply(
        f"Order {wording.counted(order.bags, 'bag')}{of}: short {one_in(float(risk))} at most.",
        (f"order {wording.spoken_count(order.bags, 'bag')}{said}", spoken_risk(risk)),
        tuple(details),
        (Table("What each further bag buys", ("Bags", "Runs short"), shown), *tables),
        data=data,
    )


def by_product(job: Job, risk: Decimal) -> Reply:
    """The order of a floor on which several products are poured: bags of each."""
    sure_interval(job)
    orders = product_orders(job, risk)
    total = sum(order.bags for order in orders)
    told = [f"{wording.counted(order.bags, 'bag')} of {order.product}" for order in orders]
    said = [f"{wording.spoken_number(order.bags)} of {order.product}" for order in orders]
    rows = tuple(
        (order.product, ", ".join(order.zones), str(order.by_readings), str(order.bags))
        for order in orders
    )
    details = ["Each product may run short by itself; spills are in the waste."]
    if missing := len(points_missing(job)):
        details.append(f"{wording.counted(missing, 'point')} not read yet; the risk counts that.")
    data: dict[str, Any] = {
        "bags": total,
        "risk_percent": float(risk),
        "products": [order.as_data() for order in orders],
        "zones": parts_data(job),
    }
    return Reply(
        f"Order {wording.join_names(told)}: each short {one_in(float(risk))} at most.",
        (f"order {wording.join_names(said)}", spoken_risk(risk)),
        tuple(details),
        (Table("By product", ("Product", "Zones", "By readings", "Order"), rows),),
        data={"order": data},
    )


def one_in(percent: float) -> str:
    """A chance in words: 1 time in 20."""
    if percent < 0.1:
        return "hardly ever"
    if percent > 66:
        return "probably"
    return f"1 time in {wording.figure(100 / percent, 0 if percent <= 25 else 1)}"


def spoken_risk(risk: Decimal) -> str:
    often = round(100 / risk)
    return f"one pour in {wording.spoken_number(often)} would run short"


def sure_interval(job: Job) -> Interval:
    found = interval_of(job)
    if found is None:
        raise no_interval(job)
    return found


ANSWERS: dict[type[Command], Answerer] = {
    AskOrder: ordered,
}
