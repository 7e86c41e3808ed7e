"""One utterance in, one turn out: what was said becomes events on disk, then an answer.

The door through which typed lines, played files and speech all come. What kind of thing was
said is found in ``taking``, done in ``carrying_out``, and what goes with the answer though
nobody asked is kept in ``unasked``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import datetime

from assistant.conversation.carrying_out import CarryingOut
from assistant.conversation.either_or import Choice
from assistant.conversation.filing import listed_jobs
from assistant.conversation.job_on_record import JobOnRecord
from assistant.conversation.meanings import HeardTurn, Meaning
from assistant.conversation.open_question import OpenQuestion
from assistant.conversation.recording import Record
from assistant.conversation.saying import nobody_answered, nothing_recorded
from assistant.conversation.so_far import SaidSoFar
from assistant.conversation.taking import Taking
from assistant.conversation.timekeeper import Timekeeper
from assistant.conversation.turns import made_turn, with_question
from assistant.conversation.typed_ahead import TypedAhead
from assistant.conversation.unasked import Unasked
from assistant.decide import Question, World
from assistant.errors import JournalError
from assistant.events.talk import ClockFoundBehind
from assistant.job import Job
from assistant.record.job_files import JobFiles
from assistant.record.journal import Clock, utc_now
from assistant.record.memory import Memory
from assistant.record.sent_lines import Sender
from assistant.reply.manner import Manner
from assistant.reply.replies import Reply, Turn
from grammar.commands import Command


class Conversation:
    """
    The conversation between installer and assistant about one job.

    Parameters
    ----------
    journal : Record
        Has the job so far, and takes what is new.
    world : World
        Product cards at hand.
    on_fault : callable, optional
        Called with an error that is a fault of the program, to save it for its maintainers;
        returns where it was saved. Without it the error is raised.
    clock : callable, optional
        Gives the time of each utterance, with its zone.
    memory : Memory, optional
        How replies are said, and the cautions of the day; without it, of this conversation.
    files : JobFiles, optional
        This job's file among those of other jobs; without it the job cannot be renamed, copied
        or put away.
    """

    def __init__(
        self,
        journal: Record,
        world: World,
        on_fault: Callable[[Exception], str] | None = None,
        clock: Clock = utc_now,
        memory: Memory | None = None,
        files: JobFiles | None = None,
    ) -> None:
        self._journal = journal
        self._on_fault = on_fault
        self._memory = memory or Memory()
        self._time = Timekeeper(clock)
        self._record = JobOnRecord(journal)
        self.ahead = TypedAhead()
        """Says whether lines come faster than anybody sees what came of them."""
        present = replace(world, now=self._time.now(self.job))
        self._question = OpenQuestion(journal, self.job, present)
        so_far = SaidSoFar(self._memory)
        world = replace(world, jobs=lambda: listed_jobs(files, self.job))
        self._doing = CarryingOut(self._record, self._question, so_far, files, world)
        self._taking = Taking(self._doing, self._question, so_far, self.ahead)
        self._unasked = Unasked(self.job, self._question.left_open, journal.news)
        self.tell_all: Callable[[Turn], None] = lambda _: None
        """Called with each turn, and with what clocks say, for others who follow the talk."""

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self._record.job

    def out_of_turn(self, command: Command) -> bool:
        """Whether the pour that goes on would refuse it, so that ears may doubt it."""
        from assistant.decide.pour.in_turn import out_of_turn  # for ears only

        return out_of_turn(self.job, command, self._doing.world)

    @property
    def last_time(self) -> datetime | None:
        """When something was last recorded."""
        return self.job.last_time

    @property
    def on_record(self) -> int:
        """
        How many utterances are on disk, one that was interrupted at its answer among them.

        While the disk cannot be read, as many as are known.
        """
        with suppress(JournalError):
            self._catch_up()
        return len(self.job.history)

    @property
    def manner(self) -> Manner:
        """How replies are to be said."""
        return self._memory.manner

    @property
    def pending(self) -> Question | None:
        """The waiting question."""
        return self._question.question

    @property
    def asked_before(self) -> bool:
        """Whether the waiting question was asked when the job was open before."""
        return self._question.asked_before

    @property
    def expected(self) -> Mapping[str, Command]:
        """Words that would answer the waiting question, as :attr:`Question.expected`."""
        return self._question.expected

    def would_settle(self, command: Command) -> bool:
        """Whether a command names one of the choices in a question about what was heard."""
        return self._question.names(command, self.job)

    def let_lapse(self) -> Reply | None:
        """Let the waiting question lapse, as nobody answers; None where none waits."""
        lapsed, self._question.waiting = self._question.question, None
        self._question.keep(len(self.job.history))
        return self._told(nobody_answered(lapsed)) if lapsed else None

    @property
    def rings(self) -> bool:
        """Whether a clock, or the job's opening, has something to say that was not said yet."""
        return self._unasked.is_of_opening or self._time.rings(self.job)

    def rung(self) -> Reply | None:
        """What clocks have to say since the last turn, and what was left open; each of it once."""
        self._listen_to_clocks()
        reply = self._unasked.alone(self.job, waits=self.pending is not None)
        return self._told(reply) if reply is not None else None

    def _told(self, reply: Reply) -> Reply:
        """A reply that nobody asked for, on its way to all."""
        self.tell_all(with_question(made_turn("", True, None, reply, ()), self.pending))
        return reply

    def hear(self, text: str, sender: Sender | None = None) -> Turn:
        """
        Take one utterance, of a device where a sender is named.

        When the turn comes back, what it says was recorded is on disk. Nothing that is
        said raises an error; what can't be taken comes back as a turn that is not ok.
        """
        self._record.sender = sender
        try:
            return self._hear(text, self._taking.line)
        finally:
            self._record.sender = None

    def hear_command(self, choices: Sequence[Choice], said: str) -> HeardTurn:
        """
        Take a command that a recogniser is sure of, and the words that were heard.

        Parameters
        ----------
        choices : sequence of Choice
            The command, and what else may have been said. Where the job cannot take the command,
            say as its row does not exist, but can take another of them, that one is asked about.
        said : str
        """
        others: list[Meaning] = []
        turn = self._hear(said, lambda text: self._taking.heard(text, choices, others))
        return HeardTurn(turn, asked=bool(others))

    def hear_either(self, choices: Sequence[Choice], said: str) -> Turn:
        """Ask which of these was said, the likeliest first; "confirm" takes that one."""
        return self._hear(said, lambda text: self._doing.ask_heard(text, choices))

    def _hear(self, text: str, take: Callable[[str], Turn]) -> Turn:
        text = text.encode("utf-8", "replace").decode("utf-8")  # half a character can't be stored
        self._unasked.a_line_came()
        try:
            self._catch_up()
            # What a clock had to say before this line; clocks that this line starts come later.
            self._listen_to_clocks()
            turn = take(text)
            self.ahead.took(text, turn)
            self._unasked.drop_met(self.job, self._doing.world.now)
        except JournalError as fault:
            turn = self._doing.not_ok(text, nothing_recorded(fault))
        except Exception as fault:
            if self._on_fault is None:
                raise
            turn = self._doing.faulty(text, fault, self._on_fault(fault))
        self._question.keep(len(self.job.history))
        turn = replace(turn, reply=self._unasked.behind_answer(turn.reply))
        self._taking.last = turn.reply
        turn = with_question(turn, self.pending)
        self.tell_all(turn)
        return turn

    def _listen_to_clocks(self) -> None:
        """Advance to the present time, and note what clocks had to say until then.

        A machine's clock that is behind is recorded, so that it is reported once, and whatever
        runs is timed by the present clock from then on.
        """
        behind = self._unasked.behind = self._time.behind(self.job)
        self._doing.world = replace(
            self._doing.world,
            now=self._time.now(self.job),
            job_file=str(self._journal.path or ""),
            waiting=self._question.asked_text,
        )
        if behind:
            found = ClockFoundBehind(round(behind.total_seconds()))
            self._record.add("", (found,), self._doing.world.now)
        self._unasked.rung = self._time.listen(self.job, self._doing.world.now)

    def _catch_up(self) -> None:
        """Read the record again, and drop a waiting question whose answer is recorded already."""
        self._question.drop_if_answered_in(self._record.catch_up())
