"""The parts that decisions share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime, tzinfo
from typing import Any

from assistant.decide.questions import Question, WhichSide
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.job import Job
from assistant.job.listed import ListedJob
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.reply.times import UNTIMED
from assistant.units.lengths import exact_mm
from grammar.commands import Command, Measure, Reading
from grammar.example import Example
from grammar.frozen import frozen

LONGEST_MM = 1_000_000
"""Longest side, a kilometre. Longer ones are slips of the tongue, with endless grids."""
LONGEST_REASON = 300
"""Characters."""


@frozen
class World:
    """What is known outside the job: product cards, time, folders."""

    cards: Mapping[str, Card]
    """Product cards at hand, by name in lower case."""
    now: datetime = UNTIMED
    """The time of the present utterance."""
    zone: tzinfo | None = UTC
    """The time zone of times shown; None for this machine's own."""
    own_cards: str = ""
    """The folder of the installer's own cards; empty where there is none."""
    job_file: str = ""
    """The file that the job is kept in; empty where it is kept in memory only."""
    jobs: Callable[[], Sequence[ListedJob]] = tuple
    """Gives the jobs on this machine, the one last worked on first; looked up when asked for."""
    waiting: str = ""
    """The question that waits for its answer; empty where none does."""


@frozen
class Decision:
    """The decision on a command."""

    events: tuple[Event, ...] = ()
    ask: Question | None = None
    """From a decider: the question to be confirmed before the events may count.
    From :func:`assistant.decide.decide`: the question, without events."""
    supposed: tuple[Event, ...] = ()
    """For "what if": the events of its change, which are never recorded."""


Decider = Callable[[Job, Any, World], Decision]


def length_of(measure: Measure, what: str) -> Measure:
    """The measure itself, if it is a length that a floor can have; else refused."""
    size = exact_mm(measure)
    if size <= 0:
        raise Refusal(
            f"{what} must be more than nothing, not {wording.as_said(measure)}.",
            spoken=f"{what} must be more than nothing.",
        )
    if size > LONGEST_MM:
        raise Refusal(
            f"{what} can be ",
            Example("1000 m", "3280 ft"),
            f" at most, not {wording.as_said(measure)}.",
            spoken=f"{what} cannot be that long.",
        )
    return measure


def reason_said(words: str | None) -> str | None:
    """A reason in somebody's own words, on one line; None where there is none."""
    reason = " ".join((words or "").split())
    if len(reason) > LONGEST_REASON:
        raise Refusal(
            f"A reason has at most {LONGEST_REASON} characters; say it shorter.",
            spoken="That is too long. Say it shorter.",
        )
    return reason or None


def height_said(reading: Reading) -> Measure:
    """The height to record for a reading whose side is known."""
    return Measure(reading.number, reading.unit)


def lacks_side(reading: Reading) -> bool:
    """Whether below or above must be asked for; level has no side."""
    return not reading.side_said and reading.number != 0


def side_question(command: Command, what: str, reading: Reading) -> Decision:
    """Ask for the side of a reading, which is never guessed."""
    size = Measure(abs(reading.number), reading.unit)
    spoken = f"{wording.spoken_name(what)}, {wording.spoken_said(size)}"
    return Decision(
        ask=WhichSide(
            f"{what}, {wording.as_said(size)}: below or above?",
            f"{wording.sentence(spoken)} Below or above?",
            command,
        )
    )
