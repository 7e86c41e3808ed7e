"""A line that no phrase takes: what it was most likely about, with the job as it stands."""

from __future__ import annotations

from dataclasses import replace

from assistant.conversation.meanings import Meaning, weighed
from assistant.decide import World, decide
from assistant.errors import Refusal, SurveyError
from assistant.job import Job
from assistant.reply.replies import Reply, as_sentences
from grammar import short_form
from grammar.aloud import first_way, said_aloud
from grammar.commands import Command
from grammar.frozen import frozen
from grammar.gist import gist
from grammar.spoken import Spoken


@frozen
class Guess:
    """What a line was most likely about."""

    command: Command | None
    """None where something is missing."""
    question: str
    """What is missing, asked in few words."""
    meaning: Meaning | None = None
    """What the command comes to."""
    refused: Refusal | SurveyError | None = None
    """Or why the job cannot take it."""


def guessed(text: str, job: Job, world: World) -> Guess | None:
    """What a line was most likely about; None where it is about no one thing."""

    def could(command: Command) -> bool:
        try:
            decide(job, command, world)
        except (Refusal, SurveyError):
            return False
        return True

    found = gist(text, could, tuple(world.cards))
    if found is None or found.command is None:
        return Guess(None, found.question) if found else None
    try:
        return Guess(found.command, "", weighed(job, world, found.command))
    except (Refusal, SurveyError) as refusal:
        return Guess(found.command, "", refused=refusal)


def taken_as(reply: Reply, command: Command) -> Reply:
    """An answer to what was not said in a listed way, with what it was taken for said first."""
    told, said = f"Taken as {short_form(command)}.", f"Taken as {in_words(command)}."
    answer = as_sentences(reply.spoken or reply.headline)
    return replace(reply, headline=f"{told} {reply.headline}", spoken=(said, *answer))


def in_words(command: Command) -> str:
    """A command as it is said aloud, or else as it is typed."""
    said = said_aloud(Spoken(), command)
    return first_way(said) if said else short_form(command)
