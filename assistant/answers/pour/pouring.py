"""Answers while it is poured: to batches, fronts, counts and holes, and to standing still."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.answers.pour.mixing import water_warnings
from assistant.answers.pour.poured import (
    left_over,
    poured_data,
    poured_lines,
    poured_table,
    yield_line,
)
from assistant.answers.pour.progress_words import (
    end_words,
    fitting,
    forecast_reasons,
    overdue_line,
    pace_lines,
    progress_said,
    progress_shown,
    short_line,
    stock_line,
    waited_line,
)
from assistant.errors import Refusal
from assistant.events.pour import BatchPoured, FrontReached, MixWaterSet, StripPoured
from assistant.floor.pour.parts import front_m, plan_known
from assistant.floor.pour.progress import Progress, progress_of, waited_too_long
from assistant.job.pour import Front
from assistant.reply import wording
from assistant.reply.replies import Reply, SpokenSentence
from assistant.reply.times import minutes_up, shown_length, shown_time, spoken_length
from grammar.commands import Command
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
        f"{'; '.join(fitting(progress_shown(moment, progress)))}.",
        tuple(fitting(progress_said(moment, progress))),
        (
            *waited_line(waited_too_long(job)),
            *overdue_line(progress, now),
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
    return (end_words(progress),)


def front_told(moment: Moment, _command: ReachFront | FinishStrip) -> Reply:
    job, now = moment.job, moment.world.now
    progress, plan = progress_of(job), plan_known(job)
    reached = job.pour.fronts[-1]
    at = front_m(job, reached.at)
    where, said = _where(moment, reached, at)
    data = {"pour": progress.as_data(now), "front": {"at_m": at}}
    if plan is None or progress.forecast is None:
        return Reply(f"{where}; {progress.used} bags.", f"{said}.", data=data)
    shown, aloud = end_words(progress)
    asked = ("Did it go down a hole? Say hole, or no hole",) if progress.asks else ()
    if progress.batch_missing:
        asked = ("Far less than planned: was a batch not told?",)
    elif progress.asks_front:
        asked = ("Front at?",)
    return Reply(
        f"{where}; {shown}.",
        (said, SpokenSentence(aloud, needed=progress.short)),
        (
            *forecast_reasons(moment, progress, plan),
            *short_line(progress),
            *overdue_line(progress, now),
        ),
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


def bags_left_told(moment: Moment, command: CountBagsLeft) -> Reply:
    progress = progress_of(moment.job)
    data = {"pour": progress.as_data(moment.world.now), "bags_left": command.bags}
    stock = progress.stock
    kind = f" of {stock.product}" if stock is not None and progress.several else ""
    left = f"{wording.counted(command.bags, 'bag')}{kind} left"
    said = f"{wording.spoken_count(command.bags, 'bag')} left"
    if progress.forecast is None:
        return Reply(f"{left}, {progress.used} used.", f"{said}.", data=data)
    shown, aloud = end_words(progress)
    return Reply(
        f"{left}; {shown}.",
        (said, SpokenSentence(aloud, needed=progress.short)),
        (*_against_last_count(moment, command), *short_line(progress)),
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
    shown, aloud = end_words(progress)
    plugged = ("Look below and plug it before you go on.",) if command.lost else ()
    return Reply(
        f"{what}; {shown}.",
        (what, SpokenSentence(aloud, needed=progress.short)),
        (*plugged, *forecast_reasons(moment, progress, plan), *short_line(progress)),
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
        details += [stock_line(each) for each in progress.stocks]
    if plan is not None and progress.forecast is not None:
        details.append(f"{end_words(progress)[0]}.")
        details += [*forecast_reasons(moment, progress, plan), *short_line(progress)]
    details += [*yield_line(job), *pace_lines(job, progress)]
    headline = "; ".join(progress_shown(moment, progress))
    return Reply(
        f"{headline}.",
        tuple(progress_said(moment, progress)),
        tuple(details),
        poured_table(moment),
        data={"pour": progress.as_data(now)},
    )


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
        (*(waited_line(waited_too_long(job, now)) or overdue_line(progress, now)), *read),
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
