"""Answers while it is poured: few words, for somebody with a barrel running."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.answers.pour.mixing import water_warnings
from assistant.answers.pour.pace import rounded_m, shown_at
from assistant.answers.pour.poured import (
    left_over,
    poured_data,
    poured_lines,
    poured_table,
    yield_line,
)
from assistant.errors import Refusal
from assistant.events.pour import BatchPoured, FrontReached, MixWaterSet, StripPoured
from assistant.floor.pour_parts import front_m, plan_known
from assistant.floor.pour_plan import PourPlan
from assistant.floor.pour_progress import Progress, behind_min, progress_of, waited_too_long
from assistant.floor.pour_stock import Stock
from assistant.job import Job
from assistant.job.pour import Front
from assistant.pours.material import safe_ceil
from assistant.pours.placing import learnt_minutes
from assistant.reply import wording
from assistant.reply.replies import Reply, SpokenSentence
from assistant.reply.times import minutes_up, shown_length, shown_time, spoken_length
from grammar.commands import Command, Measure
from grammar.commands.pour import (
    AskPour,
    CountBagsLeft,
    FinishStrip,
    GoOnPouring,
    PourBatch,
    ReachFront,
    StopPour,
    TellHole,
    TellLeftOver,
    TellSpiked,
)

MOST_WORDS = 12
"""Of a reply while it is poured."""
READ_MEANWHILE = (
    "What is read meanwhile is of the poured floor; the slab's readings stay as they are."
)
READ_NOW = "What is read from now on is of the slab again; what was read meanwhile is kept."


# --- batches and fronts ----------------------------------------------------------------------


def batch_told(moment: Moment, _command: PourBatch) -> Reply:
    job, now = moment.job, moment.world.now
    progress = progress_of(job)
    poured = next(each for each in moment.events if isinstance(each, BatchPoured))
    said = job.setting(MixWaterSet)
    water = poured.water_l if poured.water_l is not None else (said.litres if said else None)
    warnings = () if water is None else water_warnings(moment.before, float(water))
    crossed = _crossed(moment, progress)
    also = tuple(
        SpokenSentence("stop: too much water" if each.severity == "stop" else "too little water",
                       needed=True)
        for each in warnings
    )  # fmt: skip
    return Reply(
        f"{'; '.join(_fitting(_progress_shown(moment, progress)))}.",
        tuple(_fitting(_progress_said(moment, progress))),
        (
            *_waited(waited_too_long(job)),
            *_overdue(progress, now),
            *(f"{shown}." for shown, _ in crossed),
        ),
        warnings=warnings if poured.water_l is not None else (),
        also=(*(also if poured.water_l is not None else ()),
              *(SpokenSentence(aloud, needed=True) for _, aloud in crossed)),
        data={"pour": progress.as_data(now), "batch": {"bags": poured.bags,
              "water_l": None if water is None else float(water)}},
    )  # fmt: skip


def _crossed(moment: Moment, progress: Progress) -> tuple[tuple[str, str], ...]:
    """That the bags run short, once, with the batch that shows it; to read and to say."""
    if not progress.short or progress_of(moment.before).short:
        return ()
    return (_end_words(progress),)


def _fitting(parts: Iterable[str]) -> list[str]:
    """As many parts as fit into few words, the first ones first."""
    told: list[str] = []
    for part in parts:
        if part and len(" ".join([*told, part]).split()) <= MOST_WORDS:
            told.append(part)
    return told


def _progress_shown(moment: Moment, progress: Progress) -> Iterable[str]:
    now = moment.world.now
    used, planned = _of_product(progress)
    yield f"{used} of {safe_ceil(planned)}" if planned else f"{used} bags"
    if progress.over_plan:
        yield "over plan: front at?"
    if progress.edge_due is not None:
        yield f"edge {_minutes_left(progress, now)} min"
    if progress.front_m is not None:
        yield f"front {wording.as_said(_front_about(moment, progress.front_m))}"
    late = behind_min(moment.job, now)
    if late is not None:
        yield _late(late) if abs(late) >= 1 else "on time"


def _of_product(progress: Progress) -> tuple[int, float | None]:
    """Bags used and planned, of the product that is poured now."""
    stock = progress.stock
    return (progress.used, progress.planned) if stock is None else (stock.used, stock.planned)


def _progress_said(moment: Moment, progress: Progress) -> Iterable[str]:
    now = moment.world.now
    count, planned = _of_product(progress)
    used = wording.spoken_number(count)
    yield f"{used} of {wording.spoken_number(safe_ceil(planned))}" if planned else f"{used} bags"
    if progress.over_plan:
        yield "over plan, where is the front"
    if progress.edge_due is not None:
        left = _minutes_left(progress, now)
        yield f"edge {wording.spoken_count(left, 'minute')}"
    late = behind_min(moment.job, now)
    if late is not None and abs(late) >= 2:
        side = "behind" if late > 0 else "ahead"
        yield f"{wording.spoken_count(round(abs(late)), 'minute')} {side}"
    elif progress.front_m is not None:
        yield f"front {wording.spoken_said(_front_about(moment, progress.front_m))}"


def _front_about(moment: Moment, at_m: float) -> Measure:
    """Where the front should be, to the ten centimetres or the half foot: in few words."""
    if moment.unit == "in":
        return Measure(Decimal(wording.figure(round(at_m / 0.1524) / 2, 1)), "ft")
    return Measure(Decimal(wording.figure(at_m, 1)), "m")


def _late(minutes: float) -> str:
    return f"{round(abs(minutes))} min {'behind' if minutes > 0 else 'ahead'}"


def _minutes_left(progress: Progress, now: datetime) -> int:
    assert progress.edge_due is not None
    return max(minutes_up(progress.edge_due - now), 0)


def _overdue(progress: Progress, now: datetime) -> tuple[str, ...]:
    if progress.edge_due is None or progress.edge_due > now:
        return ()
    return ("The edge is past its working time: look whether the mix still joins.",)


def _waited(too_long: tuple[timedelta, timedelta] | None) -> tuple[str, ...]:
    """Warns that the edge waited longer than it may before the batch that met it."""
    if too_long is None:
        return ()
    waited, limit = (shown_length(each) for each in too_long)
    return (f"The edge waited {waited}, of {limit} at most: look whether the mix still joins, or "
            "make it a joint.",)  # fmt: skip


def front_told(moment: Moment, _command: ReachFront | FinishStrip) -> Reply:
    job, now = moment.job, moment.world.now
    progress, plan = progress_of(job), plan_known(job)
    reached = job.pour.fronts[-1]
    at = front_m(job, reached.at)
    where, said = _where(moment, reached, at)
    data = {"pour": progress.as_data(now), "front": {"at_m": at}}
    if plan is None or progress.forecast is None:
        return Reply(f"{where}; {progress.used} bags.", f"{said}.", data=data)
    shown, aloud = _end_words(progress)
    asked = ("Did it go down a hole? Say hole, or no hole",) if progress.asks else ()
    if progress.batch_missing:
        asked = ("Far less than planned: was a batch not told?",)
    elif progress.asks_front:
        asked = ("Front at?",)
    return Reply(
        f"{where}; {shown}.",
        (said, SpokenSentence(aloud, needed=progress.short)),
        (*_why(moment, progress, plan), *_short_line(progress), *_overdue(progress, now)),
        also=tuple(SpokenSentence(question, needed=True) for question in asked),
        data=data,
    )


def _where(moment: Moment, reached: Front, at_m: float) -> tuple[str, str]:
    at = reached.at
    if isinstance(at, StripPoured):
        return f"Strip {at.strip} done", f"Strip {wording.spoken_number(at.strip)} done"
    assert isinstance(at, FrontReached)
    return (
        f"Front {wording.distance(at_m, moment.unit)}",
        f"Front {wording.spoken_distance(at_m, moment.unit)}",
    )


def _end_words(progress: Progress) -> tuple[str, str]:
    """The bags at the end, and whether they are there; to read and to say."""
    assert progress.forecast is not None
    low, high = (round(float(bags)) for bags in progress.forecast.interval)
    mean = round(float(progress.forecast.mean))
    if progress.short and progress.at_hand is not None:
        missing = max(mean - progress.at_hand, 1)
        return (
            f"SHORT by {missing}: takes {low} to {high}",
            f"short by {wording.spoken_count(missing, 'bag')}",
        )
    kind = f" of {progress.stock.product}" if progress.several and progress.stock else ""
    return (
        f"{mean} bags{kind} in all, {low} to {high}",
        f"{wording.spoken_count(mean, 'bag')} in all",
    )


def _far(moment: Moment, at_m: float) -> str:
    return shown_at(moment, rounded_m(moment.unit, at_m))


def _why(moment: Moment, progress: Progress, plan: PourPlan) -> tuple[str, ...]:
    """Why the forecast is what it is."""
    parts = progress.parts
    if not parts:
        return ()
    last = parts[-1]
    lines = [
        f"This part: {wording.counted(last.used_bags, 'bag')} of "
        f"{wording.figure(last.planned_bags, 1)} planned, from "
        f"{_far(moment, last.from_m)} to {_far(moment, last.to_m)}."
    ]
    if progress.batch_missing:
        lines.append("Far less than planned: was a batch not told? Batch tells it now.")
    if progress.asks_front:
        lines.append(
            "How far the last batch came tells whether the bags do, or some went down a hole: "
            "front at?"
        )
    lost = [part for part in parts if part.lost]
    if lost:
        lines.append(f"{wording.counted(len(lost), 'part')} with a hole, which the rest has not.")
    left = plan.bags - sum(part.planned_bags for part in parts)
    if left > 0:
        percent = wording.figure(100 * progress.ratio, 0)
        lines.append(
            f"The rest is expected to take {percent} % of its plan. "
            "90 times in 100 the end lies in the interval: it begins with what survey, zero and "
            "yield leave open, and learns from each part."
        )
    return tuple(lines)


def _short_line(progress: Progress) -> tuple[str, ...]:
    chance = progress.short_probability
    if chance is None or progress.at_hand is None:
        return ()
    counted = progress.stock is not None and progress.stock.counted
    where = "counted" if counted else "by the tally; bags left counts them"
    percent = wording.figure(100 * chance, 0)
    hint = " Short says what can still be done." if progress.short else ""
    stock = progress.stock
    kind = f" of {stock.product}" if stock is not None and progress.several else ""
    return (f"{progress.at_hand} bags{kind} ({where}): short {percent} times in 100.{hint}",)


def bags_left_told(moment: Moment, command: CountBagsLeft) -> Reply:
    progress = progress_of(moment.job)
    data = {"pour": progress.as_data(moment.world.now), "bags_left": command.bags}
    stock = progress.stock
    kind = f" of {stock.product}" if stock is not None and progress.several else ""
    left = f"{wording.counted(command.bags, 'bag')}{kind} left"
    said = f"{wording.spoken_count(command.bags, 'bag')} left"
    if progress.forecast is None:
        return Reply(f"{left}, {progress.used} used.", f"{said}.", data=data)
    shown, aloud = _end_words(progress)
    return Reply(
        f"{left}; {shown}.",
        (said, SpokenSentence(aloud, needed=progress.short)),
        (*_against_last_count(moment, command), *_short_line(progress)),
        data=data,
    )


def _against_last_count(moment: Moment, command: CountBagsLeft) -> tuple[str, ...]:
    """What the count before leaves, where this one is another."""
    last = moment.before.pour.counted
    if last is None or progress_of(moment.job).several:
        return ()
    off = command.bags - (last.left - (moment.job.pour.bags_used - last.used))
    if not off:
        return ()
    more = f"{wording.counted(abs(off), 'bag')} {'more' if off > 0 else 'fewer'}"
    why = "brought since, or a batch told that was none?" if off > 0 else "a batch not told?"
    return (f"{more} than the last count and the batches since leave: {why}",)


def hole_told(moment: Moment, command: TellHole) -> Reply:
    progress, plan = progress_of(moment.job), plan_known(moment.job)
    data = {"pour": progress.as_data(moment.world.now), "hole": command.lost}
    what = "A hole" if command.lost else "No hole"
    if progress.forecast is None or plan is None:
        return Reply(f"{what}, on record.", data=data)
    shown, aloud = _end_words(progress)
    plugged = ("Look below and plug it before you go on.",) if command.lost else ()
    return Reply(
        f"{what}; {shown}.",
        (what, SpokenSentence(aloud, needed=progress.short)),
        (*plugged, *_why(moment, progress, plan), *_short_line(progress)),
        data=data,
    )


def spiked_told(_moment: Moment, _command: TellSpiked) -> Reply:
    return Reply("Spiked.")


def left_over_told(moment: Moment, _command: TellLeftOver) -> Reply:
    return Reply(
        "On record, why bags were left over.",
        "On record.",
        poured_lines(moment),
        data={"left_over": left_over(moment.job)},
    )


def pour_told(moment: Moment, _command: AskPour) -> Reply:
    job, now = moment.job, moment.world.now
    if job.pour.started is None:
        raise Refusal("The pour has not begun: start pour, or batch 2 bags.",
                      spoken="The pour has not begun.")  # fmt: skip
    progress, plan = progress_of(job), plan_known(job)
    stopped = job.pour.stopped
    details: list[str] = []
    if stopped is not None:
        since = shown_time(stopped.since, now, moment.world.zone)
        why = f": “{stopped.reason}”" if stopped.reason else ""
        details.append(f"It stands still since {since}{why}.")
    if progress.several:
        details += [_stock_line(each) for each in progress.stocks]
    if plan is not None and progress.forecast is not None:
        details.append(f"{_end_words(progress)[0]}.")
        details += [*_why(moment, progress, plan), *_short_line(progress)]
    details += [*yield_line(job), *_pace(job, progress)]
    headline = "; ".join(_progress_shown(moment, progress))
    return Reply(
        f"{headline}.",
        tuple(_progress_said(moment, progress)),
        tuple(details),
        poured_table(moment),
        data={"pour": progress.as_data(now)},
    )


def _stock_line(stock: Stock) -> str:
    """The bags of one product of several."""
    low, high = (round(float(bags)) for bags in stock.forecast.interval)
    there = "" if stock.at_hand is None else f"; {max(stock.at_hand - stock.used, 0)} left"
    return (
        f"{stock.product}: {stock.used} of {safe_ceil(stock.planned)} bags, takes {low} to "
        f"{high}{there}."
    )


def _pace(job: Job, progress: Progress) -> Iterable[str]:
    """How fast it really goes, pauses left out, and what the rest takes at that."""
    batches = job.pour.batches
    minutes = learnt_minutes(
        [(batch.time - batches[0].time).total_seconds() / 60 for batch in batches],
        [batch.bags for batch in batches],
    )
    if minutes is None:
        return
    told = f"Placed so far: {wording.figure(60 / minutes, 0)} bags an hour"
    left = sum(float(each.forecast.mean) - each.used for each in progress.stocks)
    if left <= 0:
        yield f"{told}."
    else:
        rest = shown_length(timedelta(minutes=left * minutes))
        yield f"{told}; the rest takes about {rest} at that."


# --- standing still ----------------------------------------------------------------------------


def stop_told(moment: Moment, command: StopPour) -> Reply:
    used = progress_of(moment.job).used
    why = (f"On record, in your words: “{command.reason}”.",) if command.reason else ()
    return Reply(
        f"Stopped, {wording.counted(used, 'bag')} poured.",
        f"Stopped, {wording.spoken_count(used, 'bag')}.",
        (*why, *poured_lines(moment), "Pour on goes on; pour finished ends it.", READ_MEANWHILE),
        poured_table(moment),
        data={"pour": progress_of(moment.job).as_data(moment.world.now), **_poured(moment)},
    )


def _poured(moment: Moment) -> dict[str, Any]:
    return {"poured": poured_data(moment)}


def going_on_told(moment: Moment, _command: GoOnPouring) -> Reply:
    job, now = moment.job, moment.world.now
    progress, stood = progress_of(job), job.pour.pauses[-1]
    length = timedelta(minutes=minutes_up((stood.until or now) - stood.since))
    read = () if moment.before.finished is None else (READ_NOW,)
    return Reply(
        f"On, after {shown_length(length)}.",
        f"On, after {spoken_length(length)}.",
        (*(_waited(waited_too_long(job, now)) or _overdue(progress, now)), *read),
        data={"pour": progress.as_data(now)},
    )


ANSWERS: dict[type[Command], Answerer] = {
    PourBatch: batch_told,
    ReachFront: front_told,
    FinishStrip: front_told,
    CountBagsLeft: bags_left_told,
    TellSpiked: spiked_told,
    TellLeftOver: left_over_told,
    TellHole: hole_told,
    StopPour: stop_told,
    GoOnPouring: going_on_told,
    AskPour: pour_told,
}
