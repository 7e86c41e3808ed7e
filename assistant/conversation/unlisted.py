"""What comes of a line that no phrase takes: an answer, an offer, or what is missing of it."""

from __future__ import annotations

from dataclasses import replace

from assistant.conversation.guessing import (
    Guess,
    HeardAs,
    guess_meaning,
    heard_as,
    how_high,
    in_words,
    taken_as,
)
from assistant.conversation.instead import LastReading, corrected_instead
from assistant.conversation.known_to_the_job import of_the_only_door, with_its_sign_turned
from assistant.conversation.meanings import Meaning, possible_meanings
from assistant.conversation.saying import explain_misunderstood, no_such_reading, refusal_reply
from assistant.conversation.which import did_you_mean, which_meant
from assistant.decide import Question, World
from assistant.decide.readings import check_point
from assistant.errors import Refusal
from assistant.job import Job, being_read
from assistant.reply.replies import Reply
from grammar import GrammarError, Misunderstood, short_form, understand
from grammar.commands import Ask, Command
from grammar.commands.talk import SayInstead
from grammar.frozen import frozen


@frozen
class Step:
    """What to do about a line; one of these, and ``reply`` where nothing is to be done."""

    offer: Question | None = None
    """To be asked; it waits."""
    answer: Meaning | None = None
    """A question that is answered at once."""
    meanings: tuple[Command, ...] = ()
    """To be taken as if they had been said."""
    reply: Reply | None = None
    """Why nothing comes of it."""
    command: Command | None = None
    """What the job cannot take."""
    taken_as: str | None = None
    """What an answer is to, or a meaning, in its short form."""


def step_for_unlisted(
    text: str, miss: Misunderstood, job: Job, world: World, *, is_asked: bool
) -> Step:
    """
    What to do about a line that no phrase takes.

    While a question waits (``is_asked``) nothing else is offered in its place.
    """
    known = of_the_only_door(text, job) or with_its_sign_turned(text, job)
    if known is not None and not is_asked:
        return _of_known(known, job, world)
    heard = _of_own_zone(text, miss, job) or heard_as(text, job, world)
    if heard is not None:
        step = _dictated(heard, job, world)
    else:
        step = _guessed(None if miss.is_known else guess_meaning(text, job, world), miss, job)
    if step.offer is None or not is_asked:
        return step
    command = step.offer.command
    nearest = None if isinstance(command, Ask) else short_form(command)
    return Step(reply=explain_misunderstood(miss, job.reading_unit, nearest=nearest))


def _of_known(command: Command, job: Job, world: World) -> Step:
    """Offer what a line means with what the job knows; say why, where the job cannot take it."""
    found = possible_meanings(job, world, (command,))
    if not found.taken:
        return Step(reply=refusal_reply(found.refused[0][1], job.reading_unit), command=command)
    return Step(offer=did_you_mean(command, in_words(command)))


def _of_own_zone(text: str, miss: Misunderstood, job: Job) -> HeardAs | None:
    """
    The line with "zone" before a zone's name, where only that was left out.

    A name of one's own needs it, as any word could be one: a yard is a unit elsewhere.
    """
    if miss.found.lower() not in job.layout.zones:
        return None
    try:
        line = f"{text[: miss.position]}zone {text[miss.position :]}"
        return HeardAs(tuple(understand(line)), is_sure=False)
    except GrammarError:
        return None


def _dictated(heard: HeardAs, job: Job, world: World) -> Step:
    """Take, or ask about, what a phone wrote as it sounded."""
    if heard.point is not None:
        return _height_wanted(heard.point, job)
    command = heard.meanings[0]
    if heard.is_sure:
        return Step(meanings=heard.meanings, taken_as=short_form(command))
    found = possible_meanings(job, world, heard.meanings)
    if len(found.taken) > 1:
        return Step(offer=which_meant([meaning.command for meaning in found.taken]))
    if isinstance(command, Ask):
        if not found.taken:
            asked, why = found.refused[0]
            return Step(reply=refusal_reply(why, job.reading_unit), command=asked)
        return _answered(found.taken[0])
    return Step(offer=did_you_mean(command, in_words(command)))


def _height_wanted(point: str, job: Job) -> Step:
    """Ask for the reading of a point that was named alone; refused where there is no such point."""
    try:
        check_point(being_read(job), point)
    except Refusal as why:
        return Step(reply=refusal_reply(why, job.reading_unit))
    return Step(offer=how_high(point, job.reading_unit))


def _guessed(guess: Guess | None, miss: Misunderstood, job: Job) -> Step:
    """Answer what it was about, offer the change, or say what is missing."""
    unit = job.reading_unit
    if guess is not None and guess.point is not None:
        return _height_wanted(guess.point, job)
    if guess is None or guess.command is None:
        return Step(reply=explain_misunderstood(miss, unit, guess.question if guess else ""))
    if guess.meaning is None:
        why = refusal_reply(guess.refused or Refusal(""), unit)
        told = replace(why, headline=f"{short_form(guess.command)}? {why.headline}")
        return Step(reply=told, command=guess.command)
    if isinstance(guess.meaning.command, Ask):
        return _answered(guess.meaning)
    return Step(offer=did_you_mean(guess.command, in_words(guess.command)))


def _answered(meaning: Meaning) -> Step:
    if meaning.reply is not None:
        meaning = replace(meaning, reply=taken_as(meaning.reply, meaning.said))
    return Step(answer=meaning, taken_as=short_form(meaning.said))


def put_right(given: SayInstead, last: LastReading | None, job: Job) -> Step:
    """Another value for the reading that was taken last."""
    command = corrected_instead(job, last, given) if last else None
    if last is None or command is None:
        return Step(reply=no_such_reading(last), command=given)
    if not last.is_latest:
        return Step(offer=did_you_mean(command, in_words(command)))
    return Step(meanings=(command,))
