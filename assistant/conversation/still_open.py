"""A question that was waiting when the job was closed is asked again when it is opened.

Only its words are kept, and its answer must record just what was said. So the words are
taken again against the present job; only where they give the same question does it wait again.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from assistant.conversation.either_or import Choice
from assistant.conversation.meanings import weigh_meaning
from assistant.conversation.question import Waiting
from assistant.conversation.recording import Record
from assistant.conversation.saying import question_subject
from assistant.conversation.which import which_heard, which_meant
from assistant.decide import World
from assistant.errors import JournalError, Refusal, SurveyError
from assistant.job import Job
from assistant.record.left_open import LeftOpen
from assistant.reply.replies import Reply
from grammar import Misunderstood, short_form, understand
from grammar.commands import Command


class KeptOpen:
    """
    Keeps the waiting question on disk, as the terminal may close before its answer.

    Parameters
    ----------
    journal : Record
        Where it is kept, beside the job.
    """

    def __init__(self, journal: Record) -> None:
        self._journal = journal
        self._kept = journal.left_open()

    def taken_up(self, job: Job, world: World) -> tuple[Waiting | None, Reply | None]:
        """The question left open, if it waits again, and the message about it."""
        if self._kept is None:
            return None, None
        waiting = taken_up(self._kept, job, world)
        return waiting, told_of(self._kept, waiting)

    def keep(self, waiting: Waiting | None, after: int) -> None:
        """
        Keep this question, asked after `after` utterances.

        Where that fails only the question is lost; the next line to be recorded says what is
        wrong with the disk.
        """
        # An offer is for the moment; nobody waits for its answer.
        left = to_keep(waiting, after) if waiting and not waiting.question.is_an_offer else None
        kept = self._kept
        stale = left is None and (kept is None or kept.after != after)
        if left == kept or stale:
            return
        with suppress(JournalError):
            self._journal.keep_open(left)
            self._kept = left


def to_keep(waiting: Waiting, after: int) -> LeftOpen:
    """What is kept of a question asked after `after` utterances."""
    said = waiting.said.encode("utf-8", "replace").decode()  # half a character can't be stored
    return LeftOpen(after, waiting.question.text, said, waiting.question.kept)


def taken_up(left: LeftOpen, job: Job, world: World) -> Waiting | None:
    """The question to wait again; None where its words would now give another."""
    for waiting in _possible(left, job, world):
        if waiting.question.text == left.question:
            return waiting
    return None


def told_of(left: LeftOpen, waiting: Waiting | None) -> Reply:
    """
    The message that a question was open when the job was closed; comes before anything else.

    One that waits again is given in few words, as it is shown in full where it waits.
    """
    forms = [form for form, _ in left.commands]
    data = {"was_open": {"question": left.question, "said": left.said, "waits": bool(waiting)}}
    if waiting is None:
        about = f" for {forms[0]}" if forms else ""
        told = f"A question was open: {left.question} Nothing was recorded{about}. Say it again."
        return Reply(told, data=data)
    told = f"A question was open: {' or '.join(forms)}? "
    told += f"Nothing was recorded for {question_subject(waiting.question)}."
    return Reply(told, ("A question was open.", waiting.question.spoken), data=data)


def _possible(left: LeftOpen, job: Job, world: World) -> Iterator[Waiting]:
    named = [(_command(form), words) for form, words in left.commands]
    heard = [Choice(command, words) for command, words in named if command is not None and words]
    if heard:
        yield Waiting(which_heard(heard), left.said)
        return
    commands = [command for command, _ in named if command is not None]
    if len(commands) > 1:
        yield Waiting(which_meant(commands), left.said)
        return
    # The words that led to it, for a question about what they mean.
    for command in (*commands, *_meanings(left.said.splitlines()[-1] if left.said else "")):
        with suppress(Refusal, SurveyError):
            ask = weigh_meaning(job, world, command).decision.ask
            if ask is not None:
                yield Waiting(ask, left.said)


def _command(form: str) -> Command | None:
    """The command that a short form stands for; None where it is not understood."""
    return next((each for each in _meanings(form) if short_form(each) == form), None)


def _meanings(words: str) -> list[Command]:
    with suppress(Misunderstood):
        return list(understand(words))
    return []
