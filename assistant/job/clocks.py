"""Things that take their time: the hose, the primer, a mix, the finished pour.

Pure: what is started is known from the job, the time now is handed in. How long a thing
takes is for its data sheet; where the product card has it, that counts, else a range of
common practice, and it is said which.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta

from assistant.limits.limits import ONE_MAKER, PRACTICE, card_source
from assistant.products.cards import Card
from assistant.reply.times import shown_length, spoken_length
from grammar.frozen import frozen

CLOCKS = ("hose", "primer", "mix", "pour")

HOSE_MIN = (5, 10)
"""Minutes a filled hose lies on the floor until its water has one temperature."""
PRIMER_MIN = (60, 180)
"""Minutes that water-based primers usually dry; others need a day.
Common practice, no source: the data sheet decides."""
MIX_ENDING_MIN = 5
"""How long before the end of the working time it is said, to finish the wet edge.
Common practice, no source."""


@frozen
class Started:
    """A clock that was started."""

    clock: str
    """``hose``, ``primer``, ``mix`` or ``pour``."""
    time: datetime
    ended: datetime | None = None
    """When somebody said that it was over; None where nobody did, and only time ends it."""


@frozen
class Span:
    """How long a thing takes."""

    least: timedelta
    most: timedelta
    """The same as the least where the length is known."""
    source: str

    @property
    def known(self) -> bool:
        """Whether it is one length, not a range."""
        return self.least == self.most


def span_of(clock: str, card: Card | None) -> Span | None:
    """How long a clock runs; None where only a product card could say, and there is none."""
    if clock == "hose":
        return _minutes(*HOSE_MIN, ONE_MAKER)
    if clock == "primer":
        if card is not None and card.primer_drying_min is not None:
            return _minutes(*card.primer_drying_min, card_source(card))
        return _minutes(*PRIMER_MIN, f"{PRACTICE}; the primer's data sheet decides")
    if card is None:
        return None
    if clock == "mix":
        return _minutes(card.working_time_min, card.working_time_min, card_source(card))
    return _minutes(card.foot_traffic_h * 60, card.foot_traffic_h * 60, card_source(card))


def _minutes(least: float, most: float, source: str) -> Span:
    return Span(timedelta(minutes=least), timedelta(minutes=most), source)


def has_run(started: Started, card: Card | None, now: datetime) -> bool:
    """Whether its longest time is over, or it was ended; without a length, only the latter."""
    if started.ended is not None:
        return True
    span = span_of(started.clock, card)
    return span is not None and now - started.time >= span.most


def time_left(started: Started, card: Card | None, now: datetime) -> timedelta | None:
    """What is left of the longest that it takes, nothing at the least; None where not known."""
    if started.ended is not None:
        return timedelta(0)
    span = span_of(started.clock, card)
    if span is None:
        return None
    return max(timedelta(0), started.time + span.most - now)


# --- what a clock says when its time has come -------------------------------------


@frozen
class Ringing:
    """A moment at which a clock speaks."""

    clock: str
    time: datetime
    text: str
    spoken: str


def ringings(started: Started, card: Card | None) -> tuple[Ringing, ...]:
    """When a clock speaks and what it says, in order; nothing where no length is known."""
    span = span_of(started.clock, card)
    if span is None:
        return ()
    if started.clock == "mix":
        return (*_slaking_ringings(started, card), *_mix_ringings(started, span))
    if started.clock == "pour":
        later = (_ringing(started, wait, _AFTER[name]) for name, wait in waits_after(card).items())
        return (_ringing(started, span.most, _END["pour"]), *later)
    rung = [_ringing(started, span.most, _END[started.clock])]
    if not span.known:
        rung.insert(0, _ringing(started, span.least, _LEAST[started.clock]))
    return tuple(rung)


_LEAST = {
    "hose": "The hose has lain {length}, the least; longer is better.",
    "primer": "The primer has had {length}, the least of its time. "
    "Look and touch as its data sheet says.",
}
_END = {
    "hose": "The hose has lain {length}. Set the zero, or check it.",
    "primer": "The primer has had {length}. Look and touch as its data sheet says before you pour.",
    "mix": "The working time of that mix is over after {length}: leave it be.",
    "pour": "The pour has had {length}, the card's time to foot traffic. "
    "Try it at the edge first; the data sheet decides.",
}


_AFTER = {
    "covering": "The pour has had {length}, the least on the card until it may be covered: "
    "moisture tests and the covering's data sheet decide.",
    "heating": "The pour has had {length}, the card's time until heating in the floor may be "
    "warmed up, a little each day, as its data sheet says.",
}


def waits_after(card: Card | None) -> dict[str, timedelta]:
    """What has to wait longer than foot traffic once the pour is finished, where the card says."""
    hours = {} if card is None else {"covering": card.covering_h, "heating": card.heating_h}
    return {name: timedelta(hours=wait) for name, wait in hours.items() if wait is not None}


def _slaking_ringings(started: Started, card: Card | None) -> tuple[Ringing, ...]:
    """When a mix that has to slake may stand, and when it is stirred once more."""
    if card is None or card.slaking_min is None:
        return ()
    mixed = timedelta(minutes=card.mixing_min or 0.0)
    slaked = mixed + timedelta(minutes=card.slaking_min)
    ready = Ringing(
        "mix", started.time + slaked, "That mix has slaked: stir it once more, and pour.",
        "Slaked, stir it.",
    )  # fmt: skip
    if not mixed:
        return (ready,)
    stands = Ringing(
        "mix", started.time + mixed,
        f"Mixed {shown_length(mixed)}: let it stand {shown_length(slaked - mixed)}.",
        "Mixed, let it stand.",
    )  # fmt: skip
    return (stands, ready)


def _mix_ringings(started: Started, span: Span) -> tuple[Ringing, ...]:
    end = _ringing(started, span.most, _END["mix"])
    warned = span.most - timedelta(minutes=MIX_ENDING_MIN)
    if warned <= timedelta(0):
        return (end,)
    left = timedelta(minutes=MIX_ENDING_MIN)
    ending = "{left} of working time left in that mix."
    return (
        Ringing(
            "mix",
            started.time + warned,
            ending.format(left=shown_length(left)),
            ending.format(left=spoken_length(left)).capitalize(),
        ),
        end,
    )


def _ringing(started: Started, after: timedelta, words: str) -> Ringing:
    return Ringing(
        started.clock,
        started.time + after,
        words.format(length=shown_length(after)),
        words.format(length=spoken_length(after)),
    )


def rung_between(
    running: Iterable[Started], card: Card | None, after: datetime, until: datetime
) -> tuple[Ringing, ...]:
    """What the clocks said after one time and up to another, both handed in; oldest first."""
    rung = [
        each
        for started in running
        for each in ringings(started, card)
        if started.ended is None or each.time <= started.ended
    ]
    return tuple(sorted((r for r in rung if after < r.time <= until), key=lambda r: r.time))


def after_start(running: tuple[Started, ...], started: Started) -> tuple[Started, ...]:
    """The clocks once one more was started: the hose starts anew, mixes run side by side."""
    if started.clock == "mix":
        return (*running, started)
    return (*(each for each in running if each.clock != started.clock), started)


def after_end(running: tuple[Started, ...], clock: str, time: datetime) -> tuple[Started, ...]:
    """The clocks once those of a name are over; what has ended before stays as it ended."""
    return tuple(
        replace(each, ended=time) if each.clock == clock and each.ended is None else each
        for each in running
    )


def after_poured(running: tuple[Started, ...], time: datetime) -> tuple[Started, ...]:
    """The clocks once a batch was poured: of the mixes that run, the oldest is on the floor."""
    oldest = next(
        (n for n, one in enumerate(running) if one.clock == "mix" and one.ended is None), None
    )
    if oldest is None:
        return running
    return (*running[:oldest], replace(running[oldest], ended=time), *running[oldest + 1 :])


ENDED_BY_POUR = ("mix", "primer")
"""The last mix lies on the floor, and the primer under it."""


def latest_started(running: Iterable[Started], clock: str) -> Started | None:
    """The clock of that name that was started last."""
    found = [started for started in running if started.clock == clock]
    return found[-1] if found else None
