"""Answers about the mix: its water, and how it flows."""

from __future__ import annotations

from decimal import Decimal

from assistant.answers.parts import Answerer, Moment
from assistant.events.pour import MixWaterSet
from assistant.floor.pour.progress import card_poured
from assistant.floor.zones import cards_of
from assistant.job import Job
from assistant.limits.limits import card_source
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.reply.mix_water import LITRES_A_QUART, water_a_bag, water_line
from assistant.reply.replies import LimitWarning, Reply
from assistant.units.lengths import exact_mm
from grammar.commands import Command
from grammar.commands.pour import SetMixWater, TellFlow
from grammar.numbers import spelled_digits


def water_lines(moment: Moment) -> tuple[str, ...]:
    said, card = moment.job.setting(MixWaterSet), moment.job.card
    if said is not None:
        return (f"Water {_shown(moment, said.litres)} a bag, for the whole pour.",)
    if card is None:
        return ()
    return (
        f"Water {water_a_bag(moment.unit, *card.water_l)} a bag on the card: settle one figure for "
        f"the whole pour, as {water_line(moment.unit, card.mean_water_l)}.",
    )


def water_told(moment: Moment, _command: SetMixWater) -> Reply:
    said, card = moment.job.setting(MixWaterSet), moment.job.card
    assert said is not None  # it was set just now
    litres = said.litres
    made = () if card is None else (_yield_words(moment, card, float(litres)),)
    return Reply(
        f"Water {_shown(moment, litres)} a bag, for the whole pour.",
        f"Water {_spoken(moment, litres)} a bag.",
        made,
        data={"mix_water_l": float(litres)},
    )


def _shown(moment: Moment, litres: Decimal) -> str:
    return water_a_bag(moment.unit, float(litres))


def _spoken(moment: Moment, litres: Decimal) -> str:
    """Litres, or quarts in an inch job."""
    if moment.unit == "in":
        return f"{spelled_digits(round(litres / LITRES_A_QUART, 2).normalize())} quarts"
    return f"{spelled_digits(litres)} litres"


def water_at_mix(moment: Moment) -> tuple[tuple[str, ...], str]:
    """The water that a mix is made with, to read and to say; nothing without one figure."""
    said = moment.job.setting(MixWaterSet)
    if said is None:
        return ((), "")
    shown = _shown(moment, said.litres)
    return (f"Water {shown} a bag.",), f" {_spoken(moment, said.litres).capitalize()} a bag."


def _yield_words(moment: Moment, card: Card, litres: float) -> str:
    makes = wording.liquid(moment.unit, card.bag_yield_m3(litres) * 1000)
    return f"A bag then makes {makes} neat."


def water_warnings(job: Job, litres: float) -> tuple[LimitWarning, ...]:
    """Water past the range of the product that is being poured."""
    card = card_poured(job)
    if card is None:
        return ()
    (low, high), unit = card.water_l, job.reading_unit
    if low <= litres <= high:
        return ()
    over = litres > high
    told = (
        "too much water: cracks, pinholes and a white film that breaks bond"
        if over
        else "too little: it does not flow"
    )
    return (
        LimitWarning(
            "water-over" if over else "water-under",
            "stop" if over else "caution",
            f"{water_a_bag(unit, litres)} a bag is {'over' if over else 'under'} the card's "
            f"{water_a_bag(unit, low, high)}: {told}. Throw that mix out, measure the next.",
            value=litres,
            limit=high if over else low,
            unit="L",
            source=card_source(card),
        ),
    )


def flow_told(moment: Moment, command: TellFlow) -> Reply:
    """The spread beside the range on the card."""
    said, aloud = wording.as_said(command.spread), wording.spoken_said(command.spread)
    card = next((each for each in cards_of(moment.job) if each.flow_mm is not None), None)
    data: dict[str, object] = {"flow_mm": float(exact_mm(command.spread))}
    if card is None or card.flow_mm is None:
        return Reply(
            f"Flow {said}, on record.",
            f"Flow {aloud}.",
            ("No flow test is on the card: its data sheet has the ring and the range.",),
            data=data,
        )
    low, high = card.flow_mm
    flow, unit = float(exact_mm(command.spread)), moment.unit
    span = f"{wording.length(low, unit)} to {wording.length(high, unit)}"
    if low <= flow <= high:
        return Reply(f"Flow {said}, within the card's {span}.", f"Flow {aloud}, good.", data=data)
    over = flow > high
    side = "over" if over else "under"
    told = (
        "measure the water: too much of it bleeds" if over else "measure the water, mix it longer"
    )
    return Reply(
        f"Flow {said}, {side} the card's {span}.",
        f"Flow {aloud}, {side} the card.",
        warnings=(
            LimitWarning(
                f"flow-{side}",
                "stop",
                f"The mix spreads {said}, {side} the card's {span}: do not pour it; {told}, and "
                "try the next.",
                value=flow,
                limit=high if over else low,
                unit="mm",
                source=card_source(card),
            ),
        ),
        data=data,
    )


ANSWERS: dict[type[Command], Answerer] = {SetMixWater: water_told, TellFlow: flow_told}
