"""What was meant, carried out: asked, answered or recorded, and the turn that says so."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace

from assistant.answers import answer
from assistant.conversation.either_or import Choice
from assistant.conversation.filing import filing_reply
from assistant.conversation.from_afar import files_are_for_the_keyboard
from assistant.conversation.job_on_record import JobOnRecord
from assistant.conversation.meanings import Meaning, Possible, possible_meanings, weigh_meaning
from assistant.conversation.open_question import OpenQuestion
from assistant.conversation.question import Waiting
from assistant.conversation.saying import (
    fault_reply,
    question_subject,
    refusal_reply,
    still_asked,
    with_lapse,
)
from assistant.conversation.so_far import SaidSoFar
from assistant.conversation.turns import made_turn
from assistant.conversation.which import which_heard, which_meant
from assistant.decide import Question, World, asks_after, resolve
from assistant.decide.reading_repeated import Settlement
from assistant.errors import LeadsmanError, Refusal, SurveyError
from assistant.job import Job
from assistant.record.job_files import JobFiles
from assistant.reply.replies import Reply, Turn
from grammar.commands import Change, Command, Filing


class CarryingOut:
    """
    Does what was meant: the one place that adds to the record and lets a question wait.

    Parameters
    ----------
    record : JobOnRecord
    question : OpenQuestion
    so_far : SaidSoFar
    files : JobFiles, optional
        This job's file among those of other jobs; without it the job cannot be renamed, copied
        or put away.
    world : World
        Product cards at hand, and the present time.
    """

    def __init__(
        self,
        record: JobOnRecord,
        question: OpenQuestion,
        so_far: SaidSoFar,
        files: JobFiles | None,
        world: World,
    ) -> None:
        self._record = record
        self._question = question
        self._so_far = so_far
        self._files = files
        self.world = world
        """Advanced to the present time before each line."""

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self._record.job

    def possible(self, meanings: Sequence[Command]) -> Possible:
        """The meanings that the job can take; and why not the others."""
        return possible_meanings(self.job, self.world, meanings)

    def take(self, text: str, found: Possible, said: str | None = None) -> Turn:
        """
        Carry out the one meaning that the job can take, or ask which is meant.

        `said` is what goes on record where that is more than this line.
        """
        said = text if said is None else said
        if not found.taken:
            # The refusal of the most literal meaning makes most sense to the speaker.
            return self.refused(text, *found.refused[0])
        if len(found.taken) > 1:
            which = which_meant([meaning.command for meaning in found.taken])
            return self._ask(text, Waiting(which, said), None, about=which.choices)
        return self.carry_out(text, said, found.taken[0])

    def carry_out(self, text: str, said: str, meaning: Meaning) -> Turn:
        """Ask, answer or record, as the meaning requires."""
        command, decision = meaning.command, meaning.decision
        if meaning.reply is not None:
            return self.ok(text, command, meaning.reply)
        if decision.ask is not None:
            return self._ask(text, Waiting(decision.ask, said), command, about=(command,))
        if isinstance(command, Filing):
            return self._filed(text, command)
        lapsed = None if command.IS_ASIDE else self._question.lapsed((command,))
        before = self.job
        if decision.events:
            self._record.add(said, decision.events, self.world.now)
        if not command.IS_ASIDE:
            asked = asks_after(self.job, command) if decision.events else None
            self._question.waiting = None if asked is None else Waiting(asked, said)
        reply = answer(before, self.job, command, decision.events, self.world)
        return self._leaving(lapsed, text, command, reply)

    def _filed(self, text: str, command: Filing) -> Turn:
        """Do what is to become of the job's file; where that fails, all stays as it was."""
        if self._record.sender is not None:
            return self.not_ok(text, files_are_for_the_keyboard(), command)
        try:
            return self.ok(text, command, filing_reply(self._files, self.job, command))
        except LeadsmanError as why:
            return self.refused(text, command, why)

    def _ask(
        self, text: str, waiting: Waiting, command: Command | None, about: Sequence[Command]
    ) -> Turn:
        """Ask a question; it waits, and replaces one that waited before."""
        lapsed = self._question.lapsed(about)
        self._question.waiting = waiting
        return self._leaving(lapsed, text, command, still_asked(waiting.question))

    def offer(self, text: str, question: Question) -> Turn:
        """Ask whether a change was meant; an offer waits for the next line alone."""
        self._question.waiting = Waiting(question, text)
        about = question.command if isinstance(question.command, Change) else None
        return self.ok(text, about, still_asked(question))

    def ask_heard(self, text: str, choices: Sequence[Choice]) -> Turn:
        """Ask which was said, of the choices that the job can take."""
        found = self.possible([choice.command for choice in choices])
        if not found.taken:
            return self.refused(text, *found.refused[0])
        return self.ask_among(text, choices, found.taken)

    def ask_among(self, text: str, choices: Sequence[Choice], taken: Sequence[Meaning]) -> Turn:
        """Ask which was said, of the choices whose meanings the job was found to take."""
        words = {choice.command: choice.words for choice in reversed(choices)}
        if len(taken) == 1 and taken[0].decision.ask is not None:
            # The command's own question reads it back too; one is enough.
            return self.carry_out(text, text, taken[0])
        heard = [Choice(meaning.command, words[meaning.said]) for meaning in taken]
        which = which_heard(heard)
        return self._ask(text, Waiting(which, text), which.command, about=which.choices)

    def settle(self, text: str, settled: Settlement) -> Turn:
        """Carry out the command that waited for an answer."""
        waiting = self._question.waiting
        assert waiting is not None
        try:
            meaning = weigh_meaning(
                self.job, self.world, settled.command, confirmed=settled.confirmed
            )
        except (Refusal, SurveyError) as refusal:
            # It still waits: another answer may be taken, and nobody cancelled it.
            return self.refused(text, settled.command, refusal)
        # If writing fails, the question still waits and the answer can be given again.
        turn = self.carry_out(text, f"{waiting.said}\n{text}", meaning)
        if meaning.decision.ask is None:
            self._question.waiting = None
        return turn

    # --- turns ------------------------------------------------------------------------

    def ok(self, text: str, command: Command | None, reply: Reply) -> Turn:
        """The turn of a line that was taken."""
        return self.made(text, True, command, reply)

    def _leaving(
        self, lapsed: Question | None, text: str, command: Command | None, reply: Reply
    ) -> Turn:
        """A turn that may leave a question unanswered for good; it says so."""
        turn = self.ok(text, command, with_lapse(reply, lapsed))
        return replace(turn, lapsed=question_subject(lapsed) if lapsed else None)

    def not_ok(self, text: str, reply: Reply, command: Command | None = None) -> Turn:
        """The turn of a line that was not taken."""
        return self.made(text, False, command, reply)

    def refused(self, text: str, command: Command, why: Exception) -> Turn:
        """The turn of a command that the job cannot take, with the reason."""
        with suppress(Refusal):  # a command that can't be filled in is shown as it was said
            command = resolve(self.job, command)
        return self.not_ok(text, refusal_reply(why, self.job.reading_unit), command)

    def made(self, text: str, ok: bool, command: Command | None, reply: Reply) -> Turn:
        """The turn of a line, its reply as it is given now: cautions in full once a day."""
        turn = made_turn(text, ok, command, reply, self._record.just_added)
        return self._so_far.took(turn, command, self.world.now, self.world.zone)

    def faulty(self, text: str, fault: Exception, where: str) -> Turn:
        """The turn for a fault of the program: says what is on disk, and where it was noted."""
        return self.not_ok(text, fault_reply(fault, self._record.just_added, where))
