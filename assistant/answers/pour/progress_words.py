"""How far a pour has come: few words, for somebody with a barrel running."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from decimal import Decimal

from assistant.answers.parts import Moment
from assistant.answers.pour.pace import rounded_m, shown_at
from assistant.floor.pour.plan import PourPlan
from assistant.floor.pour.progress import Progress, behind_min
from assistant.floor.pour.stock import Stock
from assistant.job import Job
from assistant.pours.material import safe_ceil
from assistant.pours.placing import learnt_minutes
from assistant.reply import wording
from assistant.reply.times import minutes_up, shown_length
from grammar.commands import Measure

MOST_WORDS = 12
"""Of a reply while it is poured."""


def fitting(parts: Iterable[str]) -> list[str]:
    """As many parts as fit into few words, the first ones first."""
    told: list[str] = []
    for part in parts:
        if part and len(" ".join([*told, part]).split()) <= MOST_WORDS:
            told.append(part)
    return told


def progress_shown(moment: Moment, progress: Progress) -> Iterable[str]:
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


def progress_said(moment: Moment, progress: Progress) -> Iterable[str]:
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


def overdue_line(progress: Progress, now: datetime) -> tuple[str, ...]:
    if progress.edge_due is None or progress.edge_due > now:
        return ()
    return ("The edge is past its working time: look whether the mix still joins.",)


def waited_line(too_long: tuple[timedelta, timedelta] | None) -> tuple[str, ...]:
    """Warns that the edge waited longer than it may before the batch that met it."""
    if too_long is None:
        return ()
    waited, limit = (shown_length(each) for each in too_long)
    return (f"The edge waited {waited}, of {limit} at most: look whether the mix still joins, or "
            "make it a joint.",)  # fmt: skip


def end_words(progress: Progress) -> tuple[str, str]:
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


def forecast_reasons(moment: Moment, progress: Progress, plan: PourPlan) -> tuple[str, ...]:
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


def short_line(progress: Progress) -> tuple[str, ...]:
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


def stock_line(stock: Stock) -> str:
    """The bags of one product of several."""
    low, high = (round(float(bags)) for bags in stock.forecast.interval)
    there = "" if stock.at_hand is None else f"; {max(stock.at_hand - stock.used, 0)} left"
    return (
        f"{stock.product}: {stock.used} of {safe_ceil(stock.planned)} bags, takes {low} to "
        f"{high}{there}."
    )


def pace_lines(job: Job, progress: Progress) -> Iterable[str]:
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
