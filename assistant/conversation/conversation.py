"""One utterance in, one turn out: what was said becomes events on disk, then an answer.

The one place where words, decisions, the record, the job and answers meet. It keeps only
the job, the one waiting question and the last reply. Typed lines, played files and speech
all come this way.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING

from assistant.answers import answer
from assistant.conversation.either_or import Choice
from assistant.conversation.filing import filing_reply, listed_jobs
from assistant.conversation.from_afar import files_are_for_the_keyboard
from assistant.conversation.instead import last_reading, settled_instead
from assistant.conversation.job_on_record import JobOnRecord
from assistant.conversation.lines import help_in_words
from assistant.conversation.meanings import (
    HeardTurn,
    Meaning,
    Possible,
    possible_meanings,
    weigh_meaning,
)
from assistant.conversation.open_question import OpenQuestion, Outcome
from assistant.conversation.question import Waiting
from assistant.conversation.reading_asked import is_only_asked, offered_reading
from assistant.conversation.recording import Record
from assistant.conversation.saying import (
    fault_reply,
    nobody_answered,
    nothing_recorded,
    question_subject,
    refusal_reply,
    still_asked,
    too_long,
    with_lapse,
)
from assistant.conversation.so_far import SaidSoFar
from assistant.conversation.timekeeper import Timekeeper
from assistant.conversation.turns import made_turn, with_question
from assistant.conversation.typed_ahead import TypedAhead
from assistant.conversation.unasked import Unasked
from assistant.conversation.unfinished import Whole, completed
from assistant.conversation.which import which_heard, which_meant
from assistant.decide import Question, World, asks_after, resolve
from assistant.decide.reading_repeated import Settlement
from assistant.errors import JournalError, LeadsmanError, Refusal, SurveyError
from assistant.events.talk import ClockFoundBehind
from assistant.job import Job, being_read
from assistant.record.job_files import JobFiles
from assistant.record.journal import Clock, utc_now
from assistant.record.memory import Memory
from assistant.record.sent_lines import Sender
from assistant.reply.manner import Manner
from assistant.reply.replies import Reply, Turn
from grammar import Misunderstood, short_form, understand
from grammar.commands import Answer, Change, Command, Filing
from grammar.commands.talk import CancelThat, SayAgain, SayInstead

if TYPE_CHECKING:
    from assistant.conversation.unlisted import Step

LONGEST = 1000
"""Most characters of a line. No sentence of a job is a fifth as long; a pasted file is."""


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
        self._memory = memory or Memory()
        self._so_far = SaidSoFar(self._memory)
        self._time = Timekeeper(clock)
        self._journal = journal
        self._files = files
        self._world = replace(world, jobs=lambda: listed_jobs(files, self.job))
        self._on_fault = on_fault
        self._record = JobOnRecord(journal)
        self._last: Reply | None = None
        self._unfinished = ""
        self.ahead = TypedAhead()
        """Says whether lines come faster than anybody sees what came of them."""
        present = replace(world, now=self._time.now(self.job))
        self._open = OpenQuestion(journal, self.job, present)
        self._unasked = Unasked(self.job, self._open.left_open, journal.news)
        self.tell_all: Callable[[Turn], None] = lambda _: None
        """Called with each turn, and with what clocks say, for others who follow the talk."""

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self._record.job

    def out_of_turn(self, command: Command) -> bool:
        """Whether the pour that goes on would refuse it, so that ears may doubt it."""
        from assistant.decide.pour.in_turn import out_of_turn  # for ears only

        return out_of_turn(self.job, command, self._world)

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
        return self._open.question

    @property
    def asked_before(self) -> bool:
        """Whether the waiting question was asked when the job was open before."""
        return self._open.asked_before

    @property
    def expected(self) -> Mapping[str, Command]:
        """Words that would answer the waiting question, as :attr:`Question.expected`."""
        return self._open.expected

    def would_settle(self, command: Command) -> bool:
        """Whether a command names one of the choices in a question about what was heard."""
        return self._open.names(command, self.job)

    def let_lapse(self) -> Reply | None:
        """Let the waiting question lapse, as nobody answers; None where none waits."""
        lapsed, self._open.waiting = self._open.question, None
        self._open.keep(len(self.job.history))
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
            return self._hear(text, self._turn)
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
        turn = self._hear(said, lambda text: self._heard(text, choices, others))
        return HeardTurn(turn, asked=bool(others))

    def hear_either(self, choices: Sequence[Choice], said: str) -> Turn:
        """Ask which of these was said, the likeliest first; "confirm" takes that one."""
        return self._hear(said, lambda text: self._ask_heard(text, choices))

    def _hear(self, text: str, take: Callable[[str], Turn]) -> Turn:
        text = text.encode("utf-8", "replace").decode("utf-8")  # half a character can't be stored
        self._unasked.a_line_came()
        try:
            self._catch_up()
            # What a clock had to say before this line; clocks that this line starts come later.
            self._listen_to_clocks()
            turn = take(text)
            self.ahead.took(text, turn)
            self._unasked.drop_met(self.job, self._world.now)
        except JournalError as fault:
            turn = self._not_ok(text, nothing_recorded(fault))
        except Exception as fault:
            if self._on_fault is None:
                raise
            turn = self._faulty(text, fault)
        self._open.keep(len(self.job.history))
        turn = replace(turn, reply=self._unasked.behind_answer(turn.reply))
        self._last = turn.reply
        turn = with_question(turn, self.pending)
        self.tell_all(turn)
        return turn

    def _listen_to_clocks(self) -> None:
        """Advance to the present time, and note what clocks had to say until then.

        A machine's clock that is behind is recorded, so that it is reported once, and whatever
        runs is timed by the present clock from then on.
        """
        behind = self._unasked.behind = self._time.behind(self.job)
        self._world = replace(
            self._world,
            now=self._time.now(self.job),
            job_file=str(self._journal.path or ""),
            waiting=self._open.asked_text,
        )
        if behind:
            found = ClockFoundBehind(round(behind.total_seconds()))
            self._record.add("", (found,), self._world.now)
        self._unasked.rung = self._time.listen(self.job, self._world.now)

    # --- what kind of thing was said ----------------------------------------------

    def _turn(self, text: str) -> Turn:
        if len(text) > LONGEST:
            return self._not_ok(text, too_long(len(text), LONGEST))
        before, self._unfinished = self._unfinished, ""
        try:
            meanings = understand(help_in_words(text))
        except Misunderstood as miss:
            answered = self._answered(text, ())
            known = answered is not None or miss.is_known
            if not known and (whole := completed(before, text)):
                return self._taken_whole(text, whole)
            return answered or self._unlisted(text, miss)
        if not meanings:
            return self._not_ok(text, Reply("No command in that; nothing recorded."))
        line = being_read(self.job).proof.open_line
        whose = self.ahead.whose_value(meanings, line)
        if whose is not None and not self._open.is_asked:
            return self._not_ok(text, whose, meanings[0])
        if is_only_asked(text, meanings) and not self._open.is_asked:
            return self._done(text, offered_reading(meanings))
        if whole := completed(before, text, meanings, is_asked=self._open.is_asked):
            return self._taken_whole(text, whole)
        return self._meant(text, meanings)

    def _taken_whole(self, text: str, whole: Whole) -> Turn:
        """Take what two lines come to, the first of which was left unfinished."""
        turn = self._take(text, self._possible(whole.meanings), whole.said)
        return replace(turn, taken_as=turn.canonical)

    def _meant(self, text: str, meanings: Sequence[Command]) -> Turn:
        talked = self._talked(text, meanings)
        return talked or self._take(text, self._possible(meanings))

    def _talked(self, text: str, meanings: Sequence[Command]) -> Turn | None:
        """The turn for words about the talk itself or for an answer to the question; else None."""
        if isinstance(meanings[0], SayAgain):
            return self._again(text, meanings[0])
        if (more := self._so_far.more(meanings[0])) is not None:
            return self._ok(text, meanings[0], more)
        answers = [meaning for meaning in meanings if isinstance(meaning, Answer)]
        # "Cancel it" may be a no or an undo: while nothing is asked it is no answer.
        if answers and (self.pending is not None or len(answers) == len(meanings)):
            return self._answered_in_a_word(text, answers[0])
        return self._answered(text, meanings)

    def _heard(self, text: str, choices: Sequence[Choice], others: list[Meaning]) -> Turn:
        """Take the likeliest; `others` gives what is asked about where the job refuses it."""
        likeliest, *rivals = (choice.command for choice in choices)
        talked = self._talked(text, (likeliest,))
        if talked is not None:
            return talked
        found = self._possible((likeliest,))
        if found.refused and isinstance(likeliest, Change):
            others += self._possible(rivals).taken
        return self._ask_among(text, choices, others) if others else self._take(text, found)

    def _again(self, text: str, command: Command) -> Turn:
        """The waiting question once more, or else the last reply."""
        if self.pending:
            reply = still_asked(self.pending)
        else:
            reply = self._last or Reply("Nothing has been said since the job was opened.")
        return self._ok(text, command, reply)

    # --- said in no way that is listed --------------------------------------------

    def _unlisted(self, text: str, miss: Misunderstood) -> Turn:
        """Answer the question it was about, or offer the change; else say what is missing."""
        # Weighing words is loaded with the first line that needs it.
        from assistant.conversation.unlisted import step_for_unlisted

        self._open.drop_offer()
        step = step_for_unlisted(text, miss, self.job, self._world, is_asked=self._open.is_asked)
        if step.reply is not None:
            self._unfinished = text
        return self._done(text, step)

    def _done(self, text: str, step: Step) -> Turn:
        if step.offer is not None:
            self._open.waiting = Waiting(step.offer, text)
            about = step.offer.command if isinstance(step.offer.command, Change) else None
            return self._ok(text, about, still_asked(step.offer))
        if step.reply is not None:
            return self._not_ok(text, step.reply, step.command)
        if step.answer is not None:
            turn = self._carry_out(text, text, step.answer)
        else:
            turn = self._meant(text, step.meanings)
        return replace(turn, taken_as=step.taken_as)

    # --- something new ----------------------------------------------------------

    def _take(self, text: str, found: Possible, said: str | None = None) -> Turn:
        """
        Carry out the one meaning that the job can take, or ask which is meant.

        `said` is what goes on record where that is more than this line.
        """
        said = text if said is None else said
        if not found.taken:
            # The refusal of the most literal meaning makes most sense to the speaker.
            return self._refused(text, *found.refused[0])
        if len(found.taken) > 1:
            which = which_meant([meaning.command for meaning in found.taken])
            return self._ask(text, Waiting(which, said), None, about=which.choices)
        return self._carry_out(text, said, found.taken[0])

    def _possible(self, meanings: Sequence[Command]) -> Possible:
        return possible_meanings(self.job, self._world, meanings)

    def _carry_out(self, text: str, said: str, meaning: Meaning) -> Turn:
        """Ask, answer or record, as the meaning requires."""
        command, decision = meaning.command, meaning.decision
        if meaning.reply is not None:
            return self._ok(text, command, meaning.reply)
        if decision.ask is not None:
            return self._ask(text, Waiting(decision.ask, said), command, about=(command,))
        if isinstance(command, Filing):
            return self._filed(text, command)
        lapsed = None if command.IS_ASIDE else self._open.lapsed((command,))
        before = self.job
        if decision.events:
            self._record.add(said, decision.events, self._world.now)
        if not command.IS_ASIDE:
            asked = asks_after(self.job, command) if decision.events else None
            self._open.waiting = None if asked is None else Waiting(asked, said)
        reply = answer(before, self.job, command, decision.events, self._world)
        return self._leaving(lapsed, text, command, reply)

    def _filed(self, text: str, command: Filing) -> Turn:
        """Do what is to become of the job's file; where that fails, all stays as it was."""
        if self._record.sender is not None:
            return self._not_ok(text, files_are_for_the_keyboard(), command)
        try:
            return self._ok(text, command, filing_reply(self._files, self.job, command))
        except LeadsmanError as why:
            return self._refused(text, command, why)

    def _catch_up(self) -> None:
        """Read the record again, and drop a waiting question whose answer is recorded already."""
        self._open.drop_if_answered_in(self._record.catch_up())

    # --- the question that waits ----------------------------------------------------

    def _ask(
        self, text: str, waiting: Waiting, command: Command | None, about: Sequence[Command]
    ) -> Turn:
        """Ask a question; it waits, and replaces one that waited before."""
        lapsed = self._open.lapsed(about)
        self._open.waiting = waiting
        return self._leaving(lapsed, text, command, still_asked(waiting.question))

    def _ask_heard(self, text: str, choices: Sequence[Choice]) -> Turn:
        """Ask which was said, of the choices that the job can take."""
        found = self._possible([choice.command for choice in choices])
        if not found.taken:
            return self._refused(text, *found.refused[0])
        return self._ask_among(text, choices, found.taken)

    def _ask_among(self, text: str, choices: Sequence[Choice], taken: Sequence[Meaning]) -> Turn:
        words = {choice.command: choice.words for choice in reversed(choices)}
        if len(taken) == 1 and taken[0].decision.ask is not None:
            # The command's own question reads it back too; one is enough.
            return self._carry_out(text, text, taken[0])
        heard = [Choice(meaning.command, words[meaning.said]) for meaning in taken]
        which = which_heard(heard)
        return self._ask(text, Waiting(which, text), which.command, about=which.choices)

    def _answered(self, text: str, meanings: Sequence[Command]) -> Turn | None:
        """The turn that uses the sentence as an answer; None where it is none."""
        came_to = self._open.answered_in_a_sentence(text, meanings, self.job)
        if came_to is None:
            return None
        return self._came_to(text, came_to, meanings[0] if meanings else None)

    def _answered_in_a_word(self, text: str, given: Answer) -> Turn:
        """The turn that uses "below", "confirm" and the like as an answer."""
        if isinstance(given, SayInstead):
            return self._instead(text, given)
        came_to = self._open.answered_in_a_word(given, text, self.job)
        turn = self._came_to(text, came_to, given)
        if isinstance(came_to, Outcome) or isinstance(given, CancelThat):
            return turn
        # The turn shows the answer as said; what it settled is in the events and the reply.
        return replace(turn, command=type(given).__name__, canonical=short_form(given))

    def _came_to(self, text: str, came_to: Settlement | Outcome, command: Command | None) -> Turn:
        if isinstance(came_to, Outcome):
            return self._made(text, came_to.ok, command, came_to.reply)
        return self._settle(text, came_to)

    def _instead(self, text: str, given: SayInstead) -> Turn:
        """Another value for the reading that is asked about, or else for the last one."""
        question = self.pending
        if question is not None:
            settled = settled_instead(question, given, self.job)
            if settled is not None:
                return self._settle(text, settled)
            if self._open.is_asked:
                return self._not_ok(text, still_asked(question), given)
        from assistant.conversation.unlisted import put_right

        return self._done(text, put_right(given, last_reading(self.job), self.job))

    def _settle(self, text: str, settled: Settlement) -> Turn:
        """Carry out the command that waited for an answer."""
        waiting = self._open.waiting
        assert waiting is not None
        try:
            meaning = weigh_meaning(
                self.job, self._world, settled.command, confirmed=settled.confirmed
            )
        except (Refusal, SurveyError) as refusal:
            # It still waits: another answer may be taken, and nobody cancelled it.
            return self._refused(text, settled.command, refusal)
        # If writing fails, the question still waits and the answer can be given again.
        turn = self._carry_out(text, f"{waiting.said}\n{text}", meaning)
        if meaning.decision.ask is None:
            self._open.waiting = None
        return turn

    # --- turns ------------------------------------------------------------------------

    def _ok(self, text: str, command: Command | None, reply: Reply) -> Turn:
        return self._made(text, True, command, reply)

    def _leaving(
        self, lapsed: Question | None, text: str, command: Command | None, reply: Reply
    ) -> Turn:
        """A turn that may leave a question unanswered for good; it says so."""
        turn = self._ok(text, command, with_lapse(reply, lapsed))
        return replace(turn, lapsed=question_subject(lapsed) if lapsed else None)

    def _not_ok(self, text: str, reply: Reply, command: Command | None = None) -> Turn:
        return self._made(text, False, command, reply)

    def _refused(self, text: str, command: Command, why: Exception) -> Turn:
        with suppress(Refusal):  # a command that can't be filled in is shown as it was said
            command = resolve(self.job, command)
        return self._not_ok(text, refusal_reply(why, self.job.reading_unit), command)

    def _made(self, text: str, ok: bool, command: Command | None, reply: Reply) -> Turn:
        turn = made_turn(text, ok, command, reply, self._record.just_added)
        return self._so_far.took(turn, command, self._world.now, self._world.zone)

    def _faulty(self, text: str, fault: Exception) -> Turn:
        """The turn for a fault of the program: says what is on disk, and where to look."""
        assert self._on_fault is not None
        return self._not_ok(
            text, fault_reply(fault, self._record.just_added, self._on_fault(fault))
        )
