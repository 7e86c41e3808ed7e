"""What can still be done where the bags run short, each way with its numbers."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.answers.pour.pace import rounded_m
from assistant.errors import Refusal
from assistant.floor.pour.plan import plan_of
from assistant.floor.pour.progress import progress_of
from assistant.floor.pour.short import WaysOut, ways_out
from assistant.reply import wording
from assistant.reply.replies import Reply, SpokenSentence
from grammar.commands import Command
from grammar.commands.pour import AskShort


def short_told(moment: Moment, _command: AskShort) -> Reply:
    job = moment.job
    plan, progress = plan_of(job), progress_of(job)
    stock = progress.stock
    if stock is None or stock.at_hand is None:
        raise Refusal("How many bags are there? Bags left 22.", spoken="How many bags are left?")
    found = ways_out(job, plan, stock, progress.parts)
    low, high = (round(float(bags)) for bags in stock.forecast.interval)
    mean = round(float(stock.forecast.mean))
    chance = stock.short_probability or 0.0
    kind = f" of {stock.product}" if progress.several else ""
    data = {"pour": progress.as_data(moment.world.now), "short": _data(found)}
    here = stock.at_hand
    lower = ", lower it" if _can_be_lower(found) else ""
    if not stock.short:
        return Reply(
            f"Not short: takes {mean} bags{kind}, {low} to {high}; {here} there.",
            f"Not short. Takes {wording.spoken_number(mean)}, {wording.spoken_number(here)} there.",
            (f"Short {wording.figure(100 * chance, 0)} times in 100.", *_lines(moment, found)),
            data=data,
        )
    return Reply(
        f"Short by {max(mean - here, 1)}: takes {mean} bags{kind}, {low} to {high}; {here} there.",
        (
            SpokenSentence(f"Short by {wording.spoken_count(max(mean - here, 1), 'bag')}"),
            SpokenSentence(f"Stop at {_said(moment, found)}{lower}, or fetch "
                           f"{wording.spoken_number(found.more_bags)}"),
        ),
        (f"Short {wording.figure(100 * chance, 0)} times in 100.", *_lines(moment, found)),
        data=data,
    )  # fmt: skip


def _said(moment: Moment, found: WaysOut) -> str:
    at = found.stops_at_m if found.dam_m is None else found.dam_m
    return wording.spoken_distance(rounded_m(moment.unit, at, 1), moment.unit)


def _can_be_lower(found: WaysOut) -> bool:
    """Whether a lower finish does, and leaves something everywhere."""
    least = found.least_left_mm
    return bool(found.lower_mm) and (least is None or least > 0)


def _lines(moment: Moment, found: WaysOut) -> tuple[str, ...]:
    unit = moment.unit
    lines = []
    if _can_be_lower(found):
        assert found.lower_mm is not None
        size = wording.length(found.lower_mm, unit)
        at = wording.distance(rounded_m(unit, found.from_m), unit)
        lines.append(
            f"Lower the finish by {size} in all that is left, from {at} on: a step of {size} "
            f"there.{_thinnest(moment, found)}"
        )
    if found.do:
        lines.append("As expected the bags go to the end.")
        return (*lines, *_more(found))
    far = wording.distance(rounded_m(unit, found.stops_at_m, 1), unit)
    dam = "" if found.dam_m is None else "; the last strip's edge before it is at "
    edge = "" if found.dam_m is None else wording.distance(rounded_m(unit, found.dam_m), unit)
    lines.append(f"Stop at a dam or joint: the bags go to about {far}{dam}{edge}.")
    return (*lines, *_more(found))


def _more(found: WaysOut) -> tuple[str, ...]:
    if not found.more_bags:
        return ("With no bag more they do 95 times in 100.",)
    more = wording.counted(found.more_bags, "bag")
    return (f"So many more: {more}, to be sure 95 times in 100.",)


def _thinnest(moment: Moment, found: WaysOut) -> str:
    """What would be left at the thinnest point, and whether the card allows it."""
    if found.least_left_mm is None:
        return ""
    least, card = max(found.least_left_mm, 0.0), moment.job.card
    under = ""
    if card is not None and found.least_left_mm < card.min_mm:
        under = f", under the card's {wording.length(card.min_mm, moment.unit)}"
    return f" The thinnest point would have {wording.length(least, moment.unit)}{under}."


def _data(found: WaysOut) -> dict[str, object]:
    return {
        "more_bags": found.more_bags,
        "lower_mm": None if found.lower_mm is None else float(found.lower_mm),
        "least_left_mm": found.least_left_mm,
        "from_m": found.from_m,
        "stops_at_m": found.stops_at_m,
        "dam_m": found.dam_m,
    }


ANSWERS: dict[type[Command], Answerer] = {AskShort: short_told}
