"""Numbers that nothing else has to be said for, each by its name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from fractions import Fraction

from assistant.answers.figures.figure import card_needed, figure_reply, still_needed
from assistant.answers.finish.own_limits import own_limits_data, own_limits_told
from assistant.answers.finish.source import decided_told, source_since
from assistant.answers.material.order import bags_with_interval, spoken_bags_with_interval
from assistant.answers.parts import Answerer, Moment, depth_words, spoken_depth
from assistant.errors import Refusal
from assistant.floor import warnings as checks
from assistant.floor.depths import depths_of
from assistant.floor.finish_source import finish_data
from assistant.floor.order import interval_of
from assistant.floor.tally import Depths, Material, tally_of
from assistant.floor.walk import next_point, points_missing
from assistant.job import clocks
from assistant.limits.limits import card_source
from assistant.reply import wording
from assistant.reply.examples import GRID, ROOM
from assistant.reply.replies import Reply
from assistant.reply.times import shown_length, shown_time, spoken_length, spoken_time
from grammar.commands import Command
from grammar.commands.figures import AskFigure
from grammar.numbers import spelled_digits


def material_needed(moment: Moment, what: str) -> Material:
    """What the pour takes; a refusal that says what is lacking."""
    tally = tally_of(moment.job)
    if tally.material is None:
        raise still_needed(
            what,
            (
                ("a room", tally.area_m2 is not None),
                ("readings", tally.depths is not None),
                ("a product", moment.job.card is not None),
            ),
        )
    return tally.material


def _depths(moment: Moment) -> Depths:
    depths = tally_of(moment.job).depths
    if depths is None:
        raise Refusal("No readings yet.")
    return depths


def _bags(moment: Moment) -> Reply:
    job = moment.job
    made = material_needed(moment, "Counting bags")
    details = [f"Waste {wording.percent(job.waste_percent)} is in it."]
    if missing := points_missing(job):
        details.append(f"{wording.counted(len(missing), 'point')} not read yet.")
    if interval_of(job) is not None:
        details.append("For a chosen risk of running short: order.")
    if cost := tally_of(job).cost:
        details.append(f"They cost {cost.in_words()}.")
    return figure_reply(
        "bags", made.bags, "bags", bags_with_interval(job), spoken_bags_with_interval(job), *details
    )


def _litres(moment: Moment) -> Reply:
    tally, unit = tally_of(moment.job), moment.unit
    if tally.volume_m3 is None:
        raise still_needed(
            "The volume", (("a room", tally.area_m2 is not None), ("readings", bool(tally.depths)))
        )
    found = interval_of(moment.job)
    details = []
    if found is not None:
        low, high = (wording.volume(volume, unit) for volume in found.volume_m3)
        details.append(f"{low} to {high}, 95 times in 100.")
    return figure_reply(
        "litres",
        1000 * tally.volume_m3,
        "L",
        f"{wording.volume(tally.volume_m3, unit)}, without waste.",
        f"{wording.spoken_volume(tally.volume_m3, unit)}.",
        *details,
    )


def _water(moment: Moment) -> Reply:
    made, unit = material_needed(moment, "All the water"), moment.unit
    shown = wording.liquid(unit, *made.water_l)
    return figure_reply(
        "water",
        sum(made.water_l) / 2,
        "L",
        f"{shown} for {wording.counted(made.bags, 'bag')}.",
        _spoken_liquid(unit, *made.water_l, places=0),
        "One amount for the whole pour, within what the card allows.",
    )


def _water_per_bag(moment: Moment) -> Reply:
    card, unit = card_needed(moment.job, "Water a bag"), moment.unit
    return figure_reply(
        "water-per-bag",
        card.mean_water_l,
        "L",
        f"{wording.liquid(unit, *card.water_l, places=2)} a bag of "
        f"{wording.mass(card.bag_kg, unit)}.",
        _spoken_liquid(unit, *card.water_l, places=2),
        f"Source: {card_source(card)}. The same in every mix.",
    )


def _spoken_liquid(unit: str, *litres: float, places: int) -> str:
    name, factor = ("US gallons", wording.GALLONS_PER_LITRE) if unit == "in" else ("litres", 1.0)
    said = dict.fromkeys(
        spelled_digits(Decimal(wording.figure(each * factor, places))) for each in litres
    )
    return f"{' to '.join(said)} {name}."


def _primer(moment: Moment) -> Reply:
    card, tally, unit = card_needed(moment.job, "Primer"), tally_of(moment.job), moment.unit
    if card.primer_m2_per_l is None:
        raise Refusal(
            "The card does not say how far the primer goes; its own data sheet does.",
            spoken="The card does not say. The primer's data sheet does.",
        )
    made = material_needed(moment, "Primer for the floor") if tally.area_m2 is not None else None
    if made is None or made.primer_l is None:
        raise Refusal("Primer for the floor takes a room: ", ROOM, ".", spoken="The room first.")
    coats = wording.counted(card.primer_coats, "coat")
    return figure_reply(
        "primer",
        made.primer_l,
        "L",
        f"{wording.liquid(unit, made.primer_l)} of primer, {coats}.",
        f"Primer, {_spoken_liquid(unit, made.primer_l, places=1)}",
        f"Source: {card_source(card)}; the primer's own data sheet decides.",
    )


def _mixing_time(moment: Moment) -> Reply:
    card = card_needed(moment.job, "The mixing time")
    if card.mixing_min is None:
        raise Refusal(
            "The card does not say how long to mix; the bag does.",
            spoken="The card does not say. The bag does.",
        )
    return _minutes_reply("mixing-time", card.mixing_min, "Mix each bag", card_source(card))


def _working_time(moment: Moment) -> Reply:
    card = card_needed(moment.job, "The working time")
    return _minutes_reply("working-time", card.working_time_min, "Working time", card_source(card))


def _minutes_reply(name: str, minutes: float, what: str, source: str) -> Reply:
    length = timedelta(minutes=minutes)
    return figure_reply(
        name,
        minutes,
        "min",
        f"{what} {shown_length(length)}.",
        f"{what} {spoken_length(length)}.",
        f"Source: {source}.",
    )


def _mean_depth(moment: Moment) -> Reply:
    mean, unit = _depths(moment).mean, moment.unit
    count = wording.counted(len(depths_of(moment.job)), "point")
    return figure_reply(
        "mean-depth",
        float(mean),
        "mm",
        f"Mean {depth_words(mean, unit)}, of {count}.",
        f"Mean {spoken_depth(mean, unit)}.",
    )


def _deepest(moment: Moment) -> Reply:
    return _extreme(moment, "deepest", "Deepest", max)


def _thinnest(moment: Moment) -> Reply:
    return _extreme(moment, "thinnest", "Thinnest", min)


def _extreme(
    moment: Moment, name: str, what: str, chosen: Callable[..., tuple[str, Fraction]]
) -> Reply:
    _depths(moment)
    job, unit = moment.job, moment.unit
    point, depth = chosen(depths_of(job).items(), key=lambda spot: spot[1])
    return figure_reply(
        name,
        float(depth),
        "mm",
        f"{what} at {point}, {depth_words(depth, unit)}.",
        f"{what}, {wording.spoken_name(point)}, {spoken_depth(depth, unit)}.",
        "Of the points read; between them it may go further.",
        warnings=checks.warnings_about(checks.all_warnings(job), point),
    )


def _area(moment: Moment) -> Reply:
    area_m2, unit = tally_of(moment.job).area_m2, moment.unit
    if area_m2 is None:
        raise Refusal("The room first: ", ROOM, ".", spoken="The room first.")
    return figure_reply(
        "area", area_m2, "m²", f"{wording.area(area_m2, unit)}.", wording.spoken_area(area_m2, unit)
    )


def _points_left(moment: Moment) -> Reply:
    missing = points_missing(moment.job)
    if not missing and not moment.job.readings:
        raise Refusal("No points yet: ", GRID, ".", spoken="No points yet.")
    if not missing:
        return figure_reply("points-left", 0, "points", "All points are read.", "None left.")
    left, first = len(missing), next_point(moment.job) or missing[0]
    return figure_reply(
        "points-left",
        left,
        "points",
        f"{wording.counted(left, 'point')} left, next {first}.",
        f"{wording.spoken_number(left)} left. Next, {wording.spoken_name(first)}.",
        f"Left: {wording.join_names(missing)}.",
    )


def _time_left(moment: Moment) -> Reply:
    job, now = moment.job, moment.world.now
    mixes = [
        (left, each)
        for each in job.site.clocks
        if each.clock == "mix" and (left := clocks.time_left(each, job.card, now))
    ]
    if not mixes:
        raise Refusal(
            "No mix is running: water in starts its working time.",
            spoken="No mix is running.",
        )
    left, _mix = min(mixes, key=lambda mix: mix[0])
    return figure_reply(
        "time-left",
        left.total_seconds() / 60,
        "min",
        f"{shown_length(left)} of working time left.",
        f"{spoken_length(left)} left.",
    )


def _foot_traffic(moment: Moment) -> Reply:
    card = card_needed(moment.job, "The time to foot traffic")
    return _after_pour(moment, "foot-traffic", card.foot_traffic_h, "Foot traffic")


def _covering(moment: Moment) -> Reply:
    card = card_needed(moment.job, "The time to covering")
    if card.covering_h is None:
        raise Refusal(
            "The card does not say when it may be covered; its data sheet does.",
            spoken="The card does not say. The data sheet does.",
        )
    reply = _after_pour(moment, "covering", card.covering_h, "Covering")
    return reply.adding(
        "At the least: what may be laid goes by moisture tests and by the rules of the covering."
    )


def _after_pour(moment: Moment, name: str, hours: float, what: str) -> Reply:
    job, world = moment.job, moment.world
    span = timedelta(hours=hours)
    source = f"Source: {card_source(card_needed(job, what))}; the data sheet decides."
    poured = clocks.latest_started(job.site.clocks, "pour")
    if poured is None:
        return figure_reply(
            name,
            hours,
            "h",
            f"{what} {shown_length(span)} after the pour.",
            f"{what}, {spoken_length(span)} after the pour.",
            source,
        )
    left = poured.time + span - world.now
    if left <= timedelta(0):
        told = f"{what}: the card's time is over. Try it at the edge first."
        return figure_reply(name, 0.0, "h", told, told, source)
    at = poured.time + span
    return figure_reply(
        name,
        left.total_seconds() / 3600,
        "h",
        f"{what} from {shown_time(at, world.now, world.zone)}, in {shown_length(left)}.",
        f"{what} in {spoken_length(left)}.",
        source,
    )


def _finish(moment: Moment) -> Reply:
    job, unit = moment.job, moment.unit
    assumed = "" if job.finish_said else ", assumed"
    reply = figure_reply(
        "finish",
        float(job.finish_mm),
        "mm",
        f"Finish {wording.height(job.finish_mm, unit)}, {decided_told(job)}.",
        f"Finish {wording.spoken_worked_height(job.finish_mm, unit)}{assumed}.",
        *source_since(job),
        *own_limits_told(job),
    )
    data = {"finish": finish_data(job), "own_limits": own_limits_data(job)}
    return replace(reply, data={**reply.data, **data})


def _time(moment: Moment) -> Reply:
    world = moment.world
    shown = shown_time(world.now, world.now, world.zone)
    return figure_reply(
        "time", world.now.isoformat(), "", f"It is {shown}.", spoken_time(world.now, world.zone)
    )


def _cost(moment: Moment) -> Reply:
    material_needed(moment, "The cost")
    cost = tally_of(moment.job).cost
    if cost is None:
        raise Refusal(
            "What a bag costs was not said: bag costs 24 euros.",
            spoken="What a bag costs was not said.",
        )
    bags = wording.counted(material_needed(moment, "The cost").bags, "bag")
    return figure_reply(
        "cost",
        float(cost.amount),
        cost.currency,
        f"{cost.in_words()} for {bags}.",
        f"{cost.in_words()}.",
        "The bags of the tally; no primer, and no work.",
    )


FIGURES: dict[str, Callable[[Moment], Reply]] = {
    "bags": _bags,
    "litres": _litres,
    "water": _water,
    "water-per-bag": _water_per_bag,
    "primer": _primer,
    "mixing-time": _mixing_time,
    "working-time": _working_time,
    "mean-depth": _mean_depth,
    "deepest": _deepest,
    "thinnest": _thinnest,
    "area": _area,
    "points-left": _points_left,
    "time-left": _time_left,
    "foot-traffic": _foot_traffic,
    "covering": _covering,
    "finish": _finish,
    "time": _time,
    "cost": _cost,
}


def figure_told(moment: Moment, command: AskFigure) -> Reply:
    return FIGURES[command.figure](moment)


ANSWERS: dict[type[Command], Answerer] = {AskFigure: figure_told}
