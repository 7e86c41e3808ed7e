"""What comes of a line that no phrase takes: an answer, an offer, or what is missing of it."""

from __future__ import annotations

import re
from dataclasses import replace

from assistant.conversation.guessing import (
    Guess,
    HeardAs,
    best_guess,
    guess_meaning,
    guess_of,
    heard_as,
    how_high,
    in_words,
    taken_as,
)
from assistant.conversation.instead import LastReading, corrected_instead
from assistant.conversation.known_to_the_job import (
    change_of_closed_slab,
    of_the_only_door,
    with_its_sign_turned,
)
from assistant.conversation.meanings import Meaning, possible_meanings
from assistant.conversation.saying import explain_misunderstood, no_such_reading, refusal_reply
from assistant.conversation.which import did_you_mean, which_meant
from assistant.decide import Question, World
from assistant.decide.readings import check_point
from assistant.errors import Refusal
from assistant.job import Job, being_read
from assistant.reply.replies import Reply
from grammar import GrammarError, Misunderstood, short_form, understand
from grammar.clauses import clauses
from grammar.commands import Ask, Change, Command
from grammar.commands.readings import CorrectReading, TakeReading
from grammar.commands.talk import SayInstead
from grammar.commands.walk import TakePoints, TakeRun
from grammar.frozen import frozen
from grammar.otherwise import otherwise
from grammar.small_words import ASKING
from grammar.supposed import is_bare
from grammar.values_said import values_said
from grammar.words import split_words


@frozen
class Step:
    """What to do about a line; one of these, and ``reply`` where nothing is to be done."""

    offer: Question | None = None
    """A change to ask about; it is done only on a yes."""
    answer: Meaning | None = None
    """A question that is answered at once."""
    meanings: tuple[Command, ...] = ()
    """To be taken as if they had been said."""
    reply: Reply | None = None
    """Says why nothing comes of the line."""
    command: Command | None = None
    """The command that the job cannot take."""
    taken_as: str | None = None
    """What an answer is to, or a meaning, in its short form."""


def step_for_unlisted(
    text: str, miss: Misunderstood, job: Job, world: World, *, is_asked: bool
) -> Step:
    """
    What to do about a line that no phrase takes.

    While a question waits (``is_asked``) nothing else is offered in its place.
    """
    if (closed := change_of_closed_slab(text, job)) is not None:
        return Step(reply=refusal_reply(closed, job.reading_unit))
    known = of_the_only_door(text, job) or with_its_sign_turned(text, job)
    if known is not None and not is_asked:
        return _of_known(known, job, world)
    written = otherwise(text)
    step = _written(written, job, world) if written else None
    text = written or text
    heard = _of_own_zone(text, miss, job) or heard_as(text, job, world)
    if step is not None:
        pass
    elif heard is not None:
        step = _dictated(heard, job, world)
    else:
        guess = None if miss.is_known else best_guess(text, job, world)
        if guess is None or guess.command is None:
            step = (not miss.is_known and _of_clauses(text, job, world)) or _guessed(
                guess, miss, job
            )
        else:
            step = _guessed(guess, miss, job)
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


def _written(line: str, job: Job, world: World) -> Step | None:
    """What a line comes to as it was likely meant to be written; None where it is in no phrase."""
    try:
        commands = understand(line)
    except GrammarError:
        return None
    if not commands:
        return None
    command = commands[0]
    if isinstance(command, Ask):
        found = possible_meanings(job, world, commands)
        return _answered(found.taken[0]) if found.taken else None
    if isinstance(command, _ON_THE_SPOT) and "?" not in line:
        return Step(meanings=commands, taken_as=short_form(command))
    return Step(offer=did_you_mean(command, in_words(command))) if len(commands) == 1 else None


_ON_THE_SPOT = (TakeReading, TakePoints, TakeRun, CorrectReading)
"""What was said in full, and only spelled in another way."""


def _of_clauses(text: str, job: Job, world: World) -> Step | None:
    """
    What comes of a line of several pieces; None where not one of them is plainly for the program.

    Beside a piece that is nothing may stand that holds a value: it would be left out unheard.
    """
    if _DENIES.search(text.casefold()):
        return None
    found: list[Guess] = []
    for piece in clauses(text):
        guess = _piece(piece, job, world)
        if guess is not None and guess.command is not None:
            found.append(guess)
        elif values_said(split_words(piece))[0]:
            return None
    kinds = {guess.command for guess in found}
    if len(kinds) > 1:
        if all(isinstance(kind, Change) for kind in kinds) and len(kinds) == 2:
            first, second = (short_form(guess.command) for guess in found if guess.command)
            told = f"One at a time, please. Which first: {first} or {second}?"
            return Step(reply=Reply(told, "One at a time, please. Which first?"))
        return None
    if not found or found[0].meaning is None:
        return None
    meaning = found[0].meaning
    if isinstance(meaning.command, Ask):
        return _answered(meaning)
    command = meaning.command
    if isinstance(command, TakeReading) and not command.reading.side_said:
        return Step(meanings=(command,), taken_as=short_form(command))
    return Step(offer=did_you_mean(command, in_words(command)))


_DENIES = re.compile(r"\b(?:don't|dont|do not|not|never|no|nobody|won't|wait|stop)\b")


def _piece(piece: str, job: Job, world: World) -> Guess | None:
    """What a piece of a line is for by itself: said in full, or clear by what it is about."""
    values = {value.sort for value in values_said(split_words(piece))[0]}
    asks = piece.casefold().split()[0] in ASKING
    try:
        commands = understand(piece)
    except GrammarError:
        asks = asks and len(piece.split()) > 2
        return guess_meaning(piece, job, world) if asks or "point" in values else None
    if len(commands) != 1 or len(piece.split()) < 2 or _is_talk(commands[0]):
        return None
    # A change that holds no value may be anybody's: "same here, I couldn't sleep either".
    if not values and not isinstance(commands[0], Ask):
        return None
    return guess_of(commands[0], job, world)


def _is_talk(command: Command) -> bool:
    return type(command).__module__ == SayInstead.__module__ or _bare(command)


def _bare(command: Command) -> bool:
    return isinstance(command, Change) and is_bare(command)


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
