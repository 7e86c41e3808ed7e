"""Answers about the product, what goes with it, and what it weighs."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.errors import Refusal
from assistant.floor.cost import cost_of_bags
from assistant.floor.tally import Material, tally_of
from assistant.floor.warnings import all_warnings, warnings_about
from assistant.job import USUAL_WASTE_PERCENT, Job
from assistant.pours.material import lb_per_ft2
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.material import (
    AskWeight,
    ChooseProduct,
    ExtendWithAggregate,
    ListProducts,
    PourNeat,
    SetBagCost,
    SetWaste,
)
from grammar.numbers import spelled_digits


def product_chosen(moment: Moment, _command: ChooseProduct) -> Reply:
    job, unit = moment.job, moment.unit
    card = job.card
    assert card is not None  # it was just chosen
    depths = f"{wording.length(card.min_mm, unit)} to {wording.length(card.max_mm, unit)}"
    details = [*card_details(card, unit)]
    if moment.before.aggregate_percent and not job.aggregate_percent:
        was = wording.percent(moment.before.aggregate_percent)
        details.append(f"Poured neat now: this card does not allow {was} aggregate.")
    if not job.waste_said:
        details.append(assumed_waste())
    details += [card.note] if card.note else []
    bags = bags_words(job)
    reply = Reply(
        f"Product {card.name}: {depths} deep.{' ' + bags if bags else ''}",
        (f"product {card.name}", spoken_bags(job)),
        tuple(details),
        data={"product": card.as_dict()},
    )
    return with_matters(moment, reply, warnings_about(all_warnings(job), "pin-spacing"))


def card_details(card: Card, unit: str) -> list[str]:
    """What its card says of a bag, line by line."""
    water = wording.liquid(unit, *card.water_l, places=2)
    makes = wording.liquid(unit, card.mix().yield_m3 * 1000)
    if unit == "in":  # dry goods and what is poured are counted in cubic feet
        makes = f"{wording.figure(card.mix().yield_m3 * wording.CUBIC_FEET_PER_M3, 2)} ft³"
    details = [
        f"{wording.mass(card.bag_kg, unit)} bags with {water} of water, {makes} each; "
        f"pins at most {wording.distance(card.pin_spacing_m, unit)} apart."
    ]
    if card.max_with_aggregate_mm is not None:
        details.append(
            f"With aggregate to {wording.length(card.max_with_aggregate_mm, unit)}, "
            f"at most {wording.figure(card.max_aggregate_percent or 0, 1)} % of the powder's mass."
        )
    return details


def assumed_waste() -> str:
    """Says which waste is assumed, until one is set."""
    return f"Waste {wording.percent(USUAL_WASTE_PERCENT)} assumed; to set it: waste 7 percent."


def bags_words(job: Job) -> str:
    """Bags to read; empty while they are not known."""
    material = tally_of(job).material
    return "" if material is None else f"{wording.counted(material.bags, 'bag')}."


def spoken_bags(job: Job) -> str:
    """Bags to say."""
    material = tally_of(job).material
    return "" if material is None else wording.spoken_count(material.bags, "bag")


def material_details(job: Job) -> list[str]:
    """What to have on site, line by line."""
    material = tally_of(job).material
    if material is None:
        return []
    unit = job.reading_unit
    water = wording.liquid(unit, *material.water_l)
    lines = [_order(job, material), f"Mix water {water} in all."]
    if material.aggregate_kg:
        lines.append(f"Aggregate {wording.mass(material.aggregate_kg, unit, 0)}.")
    if material.primer_l is not None:
        coats = wording.counted(job.card.primer_coats if job.card else 1, "coat")
        lines.append(f"Primer {wording.liquid(unit, material.primer_l)}, {coats}.")
    if cost := tally_of(job).cost:
        lines.append(f"Bags cost {cost.in_words()}.")
    weight = short_weight(material.mass_kg_per_m2, unit)
    lines.append(f"Weight on the floor {weight} on average.")
    return lines


def _order(job: Job, material: Material) -> str:
    waste = wording.percent(job.waste_percent)
    assumed = "" if job.waste_said else " (assumed)"
    text = f"{wording.counted(material.bags, 'bag')} with {waste} waste{assumed}"
    if material.pallets is not None:
        text += f", {wording.counted(material.pallets, 'pallet')}"
    return text + "."


def short_weight(kg_per_m2: float, unit: str) -> str:
    """Weight on the floor in the unit that goes with the readings."""
    if unit == "in":
        return f"{wording.figure(lb_per_ft2(kg_per_m2), 1)} lb/ft²"
    return f"{wording.figure(kg_per_m2, 1)} kg/m²"


def spoken_weight(kg_per_m2: float, unit: str) -> str:
    """Weight on the floor, to say."""
    if unit == "in":
        return f"{_spelled(wording.figure(lb_per_ft2(kg_per_m2), 1))} pounds a square foot"
    return f"{_spelled(wording.figure(kg_per_m2, 0))} kilograms a square metre"


def mix_told(moment: Moment, command: SetWaste | ExtendWithAggregate | PourNeat) -> Reply:
    """Waste and aggregate as they are set, and the bags that come of it."""
    job = moment.job
    if isinstance(command, SetWaste):
        told = f"Waste {wording.percent(job.waste_percent)}."
        spoken = f"Waste {_spelled(wording.figure(job.waste_percent, 2))} percent."
    elif job.aggregate_percent:
        told = f"Aggregate {wording.percent(job.aggregate_percent)} of the powder's mass."
        spoken = f"Aggregate {_spelled(wording.figure(job.aggregate_percent, 2))} percent."
    else:
        told = spoken = "Poured neat, no aggregate."
    bags, was = bags_words(job), tally_of(moment.before).material
    details = [f"{wording.counted(was.bags, 'bag')} before."] if was and bags else []
    made = tally_of(job).material
    data = {
        "waste_percent": float(job.waste_percent),
        "aggregate_percent": float(job.aggregate_percent),
        "bags": made.bags if made else None,
    }
    reply = Reply(f"{told} {bags}".strip(), (spoken, spoken_bags(job)), tuple(details))
    return with_matters(
        moment, replace(reply, data=data), warnings_about(all_warnings(job), "aggregate")
    )


def bag_cost_set(moment: Moment, _command: SetBagCost) -> Reply:
    one = cost_of_bags(moment.job, 1)
    assert one is not None  # it was just set
    told, all_bags = f"A bag costs {one.in_words()}.", tally_of(moment.job).cost
    if all_bags is not None:
        told += f" All of them {all_bags.in_words()}."
    data = {"bag_cost": one.as_data()}
    return Reply(told, told, data=data)


def _spelled(figures: str) -> str:
    return spelled_digits(Decimal(figures))


def products_listed(moment: Moment, _command: ListProducts) -> Reply:
    cards = sorted(moment.world.cards.values(), key=lambda card: card.name)
    folder = moment.world.own_cards
    own = (f"Your own cards go in {folder} (one TOML file each)",) if folder else ()
    if not cards:
        return Reply("There are no product cards at hand.", details=own, data={"products": []})
    unit, chosen = moment.unit, moment.job.card
    rows = tuple(_product_row(card, unit, chosen) for card in cards)
    return Reply(
        f"{wording.counted(len(cards), 'product card')} at hand.",
        f"{wording.spoken_count(len(cards), 'product')}: "
        f"{wording.join_names([card.name for card in cards])}.",
        (f"Chosen: {chosen.name}." if chosen else "None chosen yet: product NAME.", *own),
        (Table("Product cards", ("Name", "Depth", "With aggregate", "Bag", "Pins"), rows),),
        data={"products": [card.as_dict() for card in cards]},
    )


def _product_row(card: Card, unit: str, chosen: Card | None) -> tuple[str, ...]:
    deepest = card.max_with_aggregate_mm
    return (
        card.name + (" *" if chosen and chosen.name == card.name else ""),
        f"{wording.length(card.min_mm, unit)} to {wording.length(card.max_mm, unit)}",
        "none" if deepest is None else f"to {wording.length(deepest, unit)}",
        wording.mass(card.bag_kg, unit),
        f"{wording.distance(card.pin_spacing_m, unit)}",
    )


def weight_told(moment: Moment, _command: AskWeight) -> Reply:
    job, unit = moment.job, moment.unit
    tally = tally_of(job)
    material, depths = tally.material, tally.depths
    if material is None or depths is None:
        lacking = [
            what
            for what, there in (
                ("a room", tally.area_m2), ("readings", tally.depths), ("a product", job.card)
            )
            if there is None
        ]  # fmt: skip
        wanted = wording.join_names(lacking) or "a reading inside the room"
        raise Refusal(f"No weight yet: it takes {wanted}.", spoken=f"No weight yet: {wanted}.")
    mean, most = material.mass_kg_per_m2, material.mass_kg_per_m2_at_deepest
    data = {
        "mean_kg_per_m2": mean,
        "mean_lb_per_ft2": lb_per_ft2(mean),
        "deepest_kg_per_m2": most,
        "deepest_lb_per_ft2": lb_per_ft2(most),
        "total_kg": material.mass_kg,
    }
    return Reply(
        f"{short_weight(mean, unit)} on average, {wording.mass(material.mass_kg, unit, 0)} in all.",
        f"{spoken_weight(mean, unit)} on average.",
        (
            f"Where it is deepest ({wording.length(depths.most, unit)}): "
            f"{short_weight(most, unit)}.",
            "As poured, wet. Whether the floor carries it is for a structural engineer.",
        ),
        warnings=warnings_about(all_warnings(job), "weight"),
        data={"weight": data},
    )


ANSWERS: dict[type[Command], Answerer] = {
    ChooseProduct: product_chosen,
    SetWaste: mix_told,
    ExtendWithAggregate: mix_told,
    PourNeat: mix_told,
    SetBagCost: bag_cost_set,
    ListProducts: products_listed,
    AskWeight: weight_told,
}
