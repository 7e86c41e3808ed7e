"""Answers before the first bag: what stands against it, and its water."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.events.pour import MixWaterSet, PourStarted
from assistant.job import Job
from assistant.limits.limits import card_source
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.reply.examples import FRONT
from assistant.reply.replies import LimitWarning, Reply
from assistant.reply.times import shown_time
from assistant.site.before_pour import against_pour, draught_notes
from grammar.commands import Command
from grammar.commands.pour import SetMixWater, StartPour
from grammar.numbers import spelled_digits


def start_told(moment: Moment, _command: StartPour) -> Reply:
    job, now = moment.job, moment.world.now
    started = next((each for each in moment.events if isinstance(each, PourStarted)), None)
    notes = tuple(draught_notes(job))
    water = _water_line(moment)
    if started is None:
        return _not_started(moment, notes)
    anyway: tuple[str, ...] = ()
    if started.words is not None:
        count = wording.counted(len(started.against), "reason")
        anyway = (f"{count} stood against it; on record, in your words: “{started.words}”.",)
    return Reply(
        f"Pour started at {shown_time(now, now, moment.world.zone)}.",
        "Pour started.",
        (
            *anyway,
            *water,
            *notes,
            f"Say batch at each, and {FRONT.in_unit(moment.unit)} or strip 1 done.",
        ),
        data={"pour_started": {"against": list(started.against), "words": started.words}},
    )


def _not_started(moment: Moment, notes: tuple[str, ...]) -> Reply:
    reasons = against_pour(moment.job, moment.world.now)
    lines = tuple(
        f"{number}. {each.message} To clear it: {each.clears_by}. ({each.source})"
        for number, each in enumerate(reasons, start=1)
    )
    return Reply(
        f"Not started: {wording.counted(len(reasons), 'reason')} against it.",
        f"Not started, {wording.spoken_count(len(reasons), 'reason')} against it.",
        (*lines, "All the same: start pour anyway because, and why, in your words.", *notes),
        data={"pour_started": None, "reasons": [each.as_data() for each in reasons]},
    )


def _water_line(moment: Moment) -> tuple[str, ...]:
    said, card = moment.job.setting(MixWaterSet), moment.job.card
    if said is not None:
        return (f"Water {wording.figure(said.litres, 2)} L a bag, for the whole pour.",)
    if card is None:
        return ()
    low_high = wording.liquid(moment.unit, *card.water_l, places=2)
    line = "" if moment.unit == "in" else ", as water 5 litres a bag"
    return (f"Water {low_high} a bag on the card: settle one figure for the whole pour{line}.",)


def water_told(moment: Moment, command: SetMixWater) -> Reply:
    litres = wording.figure(command.litres, 2)
    card = moment.job.card
    made = () if card is None else (_yield_words(moment, card, float(command.litres)),)
    return Reply(
        f"Water {litres} L a bag, for the whole pour.",
        f"Water {spelled_digits(command.litres)} litres a bag.",
        made,
        warnings=water_warnings(moment.job, float(command.litres)),
        data={"mix_water_l": float(command.litres)},
    )


def _yield_words(moment: Moment, card: Card, litres: float) -> str:
    makes = wording.liquid(moment.unit, card.bag_yield_m3(litres) * 1000)
    return f"A bag then makes {makes} neat."


def water_warnings(job: Job, litres: float) -> tuple[LimitWarning, ...]:
    card = job.card
    if card is None:
        return ()
    low, high = card.water_l
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
            f"{wording.figure(litres, 2)} L a bag is {'over' if over else 'under'} the card's "
            f"{wording.figure(low, 2)} to {wording.figure(high, 2)} L: {told}. Throw that mix out, "
            "measure the next.",
            value=litres,
            limit=high if over else low,
            unit="L",
            source=card_source(card),
        ),
    )


ANSWERS: dict[type[Command], Answerer] = {StartPour: start_told, SetMixWater: water_told}
