"""Answers about clocks: what was started, what it takes, and what was too early."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from assistant.answers.finished import poured_details
from assistant.answers.parts import Answerer, Moment
from assistant.answers.pour.mixing import water_at_mix
from assistant.answers.pour.poured import poured_data, poured_lines, poured_table
from assistant.events.site import ClockEnded
from assistant.floor.zones import mix_card
from assistant.job import clocks
from assistant.limits.cautions import cautions_at
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from assistant.reply.times import shown_length, shown_time, spoken_length, spoken_time
from grammar.commands import Command
from grammar.commands.site import AskClocks, StartClock

_BEGUN = {
    "hose": "The hose lies on the floor",
    "primer": "Primer is on",
    "mix": "Water is in",
    "pour": "The pour is finished",
}
_UNTIL = {
    "hose": "it settles until",
    "primer": "it dries until",
    "mix": "work it until",
    "pour": "nobody on it until",
}
_NAMES = {"hose": "hose settling", "primer": "primer drying", "mix": "mix", "pour": "foot traffic"}


def clock_started(moment: Moment, command: StartClock) -> Reply:
    reply = _clock_started(moment, command)
    if command.clock != "pour" or not moment.job.pour.batches:
        return reply
    return replace(
        reply,
        details=(*reply.details, *poured_lines(moment)),
        tables=(*reply.tables, *poured_table(moment)),
        data={**reply.data, "poured": poured_data(moment)},
    )


def _clock_started(moment: Moment, command: StartClock) -> Reply:
    job, world = moment.job, moment.world
    started = clocks.latest_started(job.site.clocks, command.clock)
    assert started is not None  # it was started just now
    card = mix_card(job) if command.clock == "mix" else job.card
    begun, span = _BEGUN[command.clock], clocks.span_of(command.clock, card)
    # With a product chosen, the safety words of mixing were given then.
    unwarned = command.clock == "mix" and job.card is None and not _mixed_before(moment)
    cautions = cautions_at("mix") if unwarned else ()
    data = {"clocks": [_as_data(moment, started)]}
    again = command.clock == "pour"
    wet, wet_spoken = _primer_not_dry(moment) if command.clock == "mix" else ((), "")
    if command.clock == "mix":
        water, water_spoken = water_at_mix(moment)
        wet, wet_spoken = (*wet, *water, *_mixed(moment)), f"{water_spoken}{wet_spoken}"
    beside = (
        *wet,
        *(_later(moment, started) if again else ()),
        *_ended(moment),
        *poured_details(moment.job, moment.events, again=again),
    )
    if span is None:
        return Reply(
            f"{begun}. No product card, so no time is known: the bag says how long it has.",
            f"{begun}. No product card, so no time.{wet_spoken}",
            beside,
            cautions=cautions,
            data=data,
        )
    end = started.time + span.most
    until = _UNTIL[command.clock]
    length = shown_length(span.most)
    if not span.known:
        length = f"{shown_length(span.least)} to {length}"
    return Reply(
        f"{begun}; {until} {shown_time(end, world.now, world.zone)}, {shown_length(span.most)}.",
        f"{begun}. {until.capitalize()} {spoken_time(end, world.zone)}, "
        f"{spoken_length(span.most)}.{wet_spoken}",
        (f"{length} ({span.source}).", *beside),
        data=data,
    )


def _mixed(moment: Moment) -> tuple[str, ...]:
    """How long it is mixed, and stands, where the card says."""
    card = mix_card(moment.job)
    if card is None or card.mixing_min is None:
        return ()
    mixed = shown_length(timedelta(minutes=card.mixing_min))
    if card.slaking_min is None:
        return (f"Mix it {mixed}.",)
    stands = shown_length(timedelta(minutes=card.slaking_min))
    return (f"Mix it {mixed}, let it stand {stands}, and stir it once more.",)


def _later(moment: Moment, started: clocks.Started) -> tuple[str, ...]:
    """When it may be covered and its heating warmed up, by the card or by whom."""
    job, world = moment.job, moment.world
    waits = clocks.waits_after(job.card)
    lines = []
    if "covering" in waits:
        at = shown_time(started.time + waits["covering"], world.now, world.zone)
        lines.append(
            f"Covered not before {at}, and not before moisture tests and the covering's data sheet "
            "allow it."
        )
    if "heating" in waits:
        at = shown_time(started.time + waits["heating"], world.now, world.zone)
        lines.append(f"Heating in the floor warmed up from {at}, as its data sheet says.")
    lacking = [name for name in ("covering", "heating") if name not in waits]
    if lacking and job.card is not None:
        lines.append(f"The card does not say of {' or '.join(lacking)}: the data sheet does.")
    return tuple(lines)


def _primer_not_dry(moment: Moment) -> tuple[tuple[str, ...], str]:
    """The note that a mix was begun too early for the primer, to read and to say."""
    card, primer = moment.job.card, clocks.latest_started(moment.job.site.clocks, "primer")
    left = None if primer is None else clocks.time_left(primer, card, moment.world.now)
    span = clocks.span_of("primer", card)
    if not left or span is None:
        return (), ""
    length = shown_length(span.most)
    if not span.known:
        length = f"{shown_length(span.least)} to {length}"
    if span.most - left < span.least:
        shown, said = (
            f"still has {shown_length(left)} to go",
            f"still has {spoken_length(left)} to go",
        )
    else:
        shown, said = f"may need {shown_length(left)} more", f"may need {spoken_length(left)} more"
    return (f"The primer {shown}, of {length} ({span.source}).",), f" The primer {said}."


def _ended(moment: Moment) -> tuple[str, ...]:
    """Which clocks the end of a pour stops."""
    names = [_NAMES[event.clock] for event in moment.events if isinstance(event, ClockEnded)]
    return (f"Ended with it: {wording.join_names(names)}.",) if names else ()


def _mixed_before(moment: Moment) -> bool:
    """Whether there was a mix before: safety words come with the first mix only."""
    return clocks.latest_started(moment.before.site.clocks, "mix") is not None


def clocks_told(moment: Moment, _command: AskClocks) -> Reply:
    job, world = moment.job, moment.world
    started = job.site.clocks
    data = {"clocks": [_as_data(moment, each) for each in started]}
    if not started:
        return Reply("No clock was started: hose on floor, primer on floor, water in.",
                     "No clock was started.", data=data)  # fmt: skip
    running = [each for each in started if not clocks.has_run(each, job.card, world.now)]
    rows = tuple(
        (
            _NAMES[each.clock],
            shown_time(each.time, world.now, world.zone),
            _left(moment, each),
        )
        for each in started
    )
    rows = (*rows, *_later_rows(moment))
    if not running:
        headline = spoken = "No clock is running."
    else:
        headline = f"{wording.counted(len(running), 'clock')} running."
        spoken = " ".join(_said(moment, each) for each in running)
    return Reply(
        headline, spoken, tables=(Table("Clocks", ("What", "Since", "Left"), rows),), data=data
    )


def _later_rows(moment: Moment) -> tuple[tuple[str, str, str], ...]:
    """Covering and heating, which run with foot traffic."""
    poured = clocks.latest_started(moment.job.site.clocks, "pour")
    if poured is None:
        return ()
    now, since = moment.world.now, shown_time(poured.time, moment.world.now, moment.world.zone)
    left = {
        name: max(poured.time + wait - now, timedelta(0))
        for name, wait in clocks.waits_after(moment.job.card).items()
    }
    return tuple((name, since, shown_length(rest) if rest else "over")
                 for name, rest in left.items())  # fmt: skip


def _left(moment: Moment, started: clocks.Started) -> str:
    if started.ended is not None:
        return "ended"
    left = clocks.time_left(started, moment.job.card, moment.world.now)
    if left is None:
        return "not known"
    return shown_length(left) if left else "over"


def _said(moment: Moment, started: clocks.Started) -> str:
    left = clocks.time_left(started, moment.job.card, moment.world.now)
    length = "not known" if left is None else f"{spoken_length(left)} left"
    return f"{_NAMES[started.clock].capitalize()}, {length}."


def _as_data(moment: Moment, started: clocks.Started) -> dict[str, object]:
    card, now = moment.job.card, moment.world.now
    span, left = clocks.span_of(started.clock, card), clocks.time_left(started, card, now)
    return {
        "clock": started.clock,
        "started": started.time.isoformat(),
        "ends": (started.time + span.most).isoformat() if span else None,
        "left_min": left.total_seconds() / 60 if left is not None else None,
        "ended": started.ended.isoformat() if started.ended else None,
        "over": clocks.has_run(started, card, now),
    }


ANSWERS: dict[type[Command], Answerer] = {StartClock: clock_started, AskClocks: clocks_told}
