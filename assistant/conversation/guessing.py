"""A line that no phrase takes: what it was most likely about, with the job as it stands."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace

from assistant.conversation.meanings import Meaning, weigh_meaning
from assistant.decide import World, decide
from assistant.decide.questions import HowHigh
from assistant.errors import Refusal, SurveyError
from assistant.job import Job
from assistant.reply.replies import Reply, as_sentences
from grammar import Misunderstood, short_form, spoken_point, understand
from grammar.aloud import first_way, said_aloud
from grammar.commands import Command
from grammar.commands.depths import AskDepthAtPoint
from grammar.commands.readings import TakeReading
from grammar.commands.walk import TakePoints
from grammar.dictation import dictated
from grammar.frozen import frozen
from grammar.gist import gist
from grammar.slots.measure import SPOKEN_UNITS
from grammar.spoken import Spoken
from grammar.values_said import values_said
from grammar.words import split_words


@frozen
class HeardAs:
    """What a line means as it may have been dictated."""

    meanings: tuple[Command, ...]
    is_sure: bool
    """Whether it can be taken as it is; else it is asked about."""
    point: str | None = None
    """A point that was named with nothing else."""


def heard_as(text: str, job: Job, world: World) -> HeardAs | None:
    """
    What a line means as a phone may have written it; None where nothing in it sounds alike.

    Sure is one meaning alone, a reading in full whose point alone sounds alike.
    """
    could = _could_take(job, world)
    found: dict[Command, bool] = {}
    for said in dictated(split_words(text)):
        alone = _point_alone(said.line)
        if alone is not None:
            return HeardAs((), False, alone.point)
        with suppress(Misunderstood):
            commands = understand(said.line)
            for command in commands:
                if could(command):
                    sure = said.is_sure and len(commands) == 1 and _is_whole_reading(command)
                    found.setdefault(command, sure)
    if not found:
        return None
    return HeardAs(tuple(found), len(found) == 1 and all(found.values()))


def _is_whole_reading(command: Command) -> bool:
    if isinstance(command, TakePoints):
        return all(reading.side_said for reading in command.readings)
    return isinstance(command, TakeReading) and command.reading.side_said


def _could_take(job: Job, world: World) -> Callable[[Command], bool]:
    """Whether a job could take a command."""

    def could(command: Command) -> bool:
        try:
            decide(job, command, world)
        except (Refusal, SurveyError):
            return False
        return True

    return could


@frozen
class Guess:
    """What a line was most likely about."""

    command: Command | None
    """None where the line lacks something that the command needs."""
    question: str
    """Asks for what the line lacks, in few words."""
    point: str | None = None
    """A point whose reading is all that is missing."""
    meaning: Meaning | None = None
    """What the command comes to."""
    refused: Refusal | SurveyError | None = None
    """Why the job cannot take the command."""


def best_guess(text: str, job: Job, world: World) -> Guess | None:
    """What a line was most likely about, as a phone may have written it or else as it stands."""
    heard = next((said for said in dictated(split_words(text)) if said.is_sure), None)
    if heard is not None:
        guess = guess_meaning(heard.line, job, world)
        if guess is not None and guess.command is not None:
            return guess
    return guess_meaning(text, job, world)


def guess_meaning(text: str, job: Job, world: World) -> Guess | None:
    """What a line was most likely about; None where it is about no one thing."""

    alone = _point_alone(text)
    if alone is not None:
        return alone if "?" not in text else guess_of(_told_of(alone.point or ""), job, world)

    found = gist(text, _could_take(job, world), tuple(world.cards))
    if found is None or found.command is None:
        return Guess(None, found.question) if found else None
    return guess_of(found.command, job, world)


def guess_of(command: Command | None, job: Job, world: World) -> Guess | None:
    """What a command comes to with the job as it stands."""
    if command is None:
        return None
    try:
        return Guess(command, "", meaning=weigh_meaning(job, world, command))
    except (Refusal, SurveyError) as refusal:
        return Guess(command, "", refused=refusal)


_BESIDE_A_POINT = frozenset(("point", "is", "reads", "at", "minus", "plus", "-", "+"))
"""Words of a reading that has no value yet."""


def _point_alone(text: str) -> Guess | None:
    """A point that was named with nothing else."""
    values, rest = values_said(split_words(text))
    if [each.sort for each in values] != ["point"]:
        return None
    if any(word.text not in _BESIDE_A_POINT for word in rest):
        return None
    with suppress(Misunderstood):
        for command in understand(f"{values[0].text} level"):
            return Guess(None, "", getattr(command, "point", None))
    return None


def _told_of(point: str) -> Command | None:
    """What asks about a point, named with a question mark."""
    for line in (f"what was {point}", f"how deep at {point}"):
        with suppress(Misunderstood):
            return understand(line)[0]
    return None


def how_high(point: str, unit: str) -> HowHigh:
    """Ask for the reading of a point that was named with nothing else."""
    units = SPOKEN_UNITS[unit][1]
    return HowHigh(
        f"How many {units} at {point}?",
        f"How many {units} at {spoken_point(point)}?",
        _told_of(point) or AskDepthAtPoint(point),
    )


def taken_as(reply: Reply, command: Command) -> Reply:
    """An answer to what was not said in a listed way, with what it was taken for said first."""
    told, said = f"Taken as {short_form(command)}.", f"Taken as {in_words(command)}."
    answer = as_sentences(reply.spoken or reply.headline)
    return replace(reply, headline=f"{told} {reply.headline}", spoken=(said, *answer))


def in_words(command: Command) -> str:
    """A command as it is said aloud, or else as it is typed."""
    said = said_aloud(Spoken(), command)
    return first_way(said) if said else short_form(command)
