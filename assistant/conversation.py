"""One utterance in, one turn out: what was heard becomes events on disk, then an answer.

The only things kept here are the job as it stands, the one question that waits,
and the last reply. Typed lines, played files and a voice all come this way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Protocol

from assistant.answers import answer
from assistant.asked_again import is_about, settled_by, turned
from assistant.choices import Choice, chosen, differing_parts, question_between
from assistant.clocks import Ringing, rung_between
from assistant.decide import Decision, Question, World, decide, resolve, with_side
from assistant.errors import JournalError, Refusal, SurveyError
from assistant.events import Event
from assistant.job import EMPTY, Job, apply, fold, record
from assistant.record.journal import Clock, utc_now
from assistant.replies import Reply, Turn
from assistant.saying import (
    ask_which,
    explained,
    fault_reply,
    left_alone,
    nothing_recorded,
    rung_reply,
    still_asked,
    too_long,
    unanswered,
    with_lapse,
    with_rung,
)
from grammar import Misunderstood, short_form, understand
from grammar.commands import (
    Answer,
    Ask,
    CancelThat,
    ChooseSide,
    Command,
    Confirm,
    CorrectReading,
    Reading,
    SayAgain,
    TakeReading,
    WhatIf,
)

LONGEST = 1000
"""Characters. No sentence of the job is a fifth as long; a pasted file is."""


class Record(Protocol):
    """Where events are kept; a journal, in short."""

    def append(self, said: str, events: Sequence[Event], time: datetime | None = None) -> int:
        """Put on disk what one utterance came to, and when; its number."""

    def utterances(self) -> Iterable[tuple[int, str, Sequence[Event], datetime]]:
        """All that was put there, in order."""


@dataclass(frozen=True, slots=True)
class _Waiting:
    """The question that waits, and what is known of its answer."""

    question: Question
    said: str
    """The words that led to it."""
    choices: tuple[Command, ...] = ()
    """Of a ``which`` or ``heard`` question, the meanings to choose from."""
    heard: tuple[Choice, ...] = ()
    """Of a ``heard`` question, the same with their words."""


@dataclass(frozen=True, slots=True)
class _Meaning:
    """A command that the job can take, and what it comes to."""

    said: Command
    command: Command
    """The same with nothing left to fill in."""
    decision: Decision
    reply: Reply | None = None
    """Of an ask, which is answered at once."""

    @property
    def outcome(self) -> object:
        """What tells two meanings apart: "B3 level" and "B3 0" come to the same."""
        if self.decision.ask is None and self.decision.events:
            return self.decision.events
        return self.command


class Conversation:
    """
    What is said between the installer and the assistant about one job.

    Parameters
    ----------
    journal : Record
        Has the job so far, and takes what is new.
    world : World
        Product cards at hand.
    on_fault : callable, optional
        Told of an error that is a fault of the program, so that it can be kept for
        whoever mends it; gives the place where. Without it the error goes on up.
    clock : callable, optional
        Gives the time of each utterance, with its zone.
    """

    def __init__(
        self,
        journal: Record,
        world: World,
        on_fault: Callable[[Exception], str] | None = None,
        clock: Clock = utc_now,
    ) -> None:
        self._clock = clock
        self._rung_until: datetime | None = None
        self._journal = journal
        self._world = world
        self._on_fault = on_fault
        self._job: Job = EMPTY
        self._behind = True
        self._waiting: _Waiting | None = None
        self._last: Reply | None = None
        self._on_disk: tuple[str, ...] = ()
        self._catch_up()

    @property
    def job(self) -> Job:
        """The job as it stands."""
        return self._job

    @property
    def last_time(self) -> datetime | None:
        """When something was last recorded."""
        return self._job.history[-1].time if self._job.history else None

    @property
    def pending(self) -> Question | None:
        """The question that waits for an answer."""
        return self._waiting.question if self._waiting else None

    def hear(self, text: str) -> Turn:
        """
        Take one utterance.

        When the turn comes back, what it says was recorded is on disk. Nothing that is
        said raises an error; what can't be taken comes back as a turn that is not ok.
        """
        return self._hear(text, self._turn)

    def hear_command(self, command: Command, said: str) -> Turn:
        """Take a command that was recognised beyond doubt, and the words that were heard."""
        return self._hear(said, lambda text: self._meant(text, (command,)))

    def hear_either(self, choices: Sequence[Choice], said: str) -> Turn:
        """Ask which of these was said, the likeliest first; "confirm" takes that one."""
        return self._hear(said, lambda text: self._ask_heard(text, choices))

    def _hear(self, text: str, take: Callable[[str], Turn]) -> Turn:
        text = text.encode("utf-8", "replace").decode("utf-8")  # half a character can't be stored
        self._on_disk = ()
        rung: tuple[Ringing, ...] = ()
        try:
            self._catch_up()
            self._world = replace(self._world, now=self._time_now())
            # What a clock had to say before this was said; what it starts comes later.
            rung = self._rung()
            turn = take(text)
        except JournalError as fault:
            turn = self._not_ok(text, nothing_recorded(fault))
        except Exception as fault:
            if self._on_fault is None:
                raise
            turn = self._faulty(text, fault)
        turn = replace(turn, reply=with_rung(turn.reply, rung))
        self._last = turn.reply
        return self._with_question(turn)

    @property
    def rings(self) -> bool:
        """Whether a clock has something to say that was not heard yet."""
        return bool(self._rung_by(self._time_now()))

    def rung(self) -> Reply | None:
        """What clocks have to say since anything was said; each of it once."""
        self._world = replace(self._world, now=self._time_now())
        rung = self._rung()
        return rung_reply(rung) if rung else None

    def _time_now(self) -> datetime:
        """The clock's time; never before what is on record, whatever was done to the clock."""
        history = self._job.history
        return max(self._clock(), history[-1].time) if history else self._clock()

    def _rung(self) -> tuple[Ringing, ...]:
        now = self._world.now
        rung, self._rung_until = self._rung_by(now), now
        return rung

    def _rung_by(self, now: datetime) -> tuple[Ringing, ...]:
        """What clocks said since they were listened to last; at first, since the record's end.

        So a clock that ended while the program was closed is still heard of.
        """
        job = self._job
        since = self._rung_until or (job.history[-1].time if job.history else now)
        return rung_between(job.site.clocks, job.card, since, now)

    # --- what kind of thing was said ----------------------------------------------

    def _turn(self, text: str) -> Turn:
        if len(text) > LONGEST:
            return self._not_ok(text, too_long(len(text), LONGEST))
        try:
            meanings = understand(text)
        except Misunderstood as miss:
            part = self._chosen(text, ())
            if part is not None and self._waiting is not None:
                return self._settled(text, self._waiting, part)
            return self._not_ok(text, explained(miss))
        if not meanings:
            return self._not_ok(text, Reply("No command in that; nothing recorded."))
        return self._meant(text, meanings)

    def _meant(self, text: str, meanings: Sequence[Command]) -> Turn:
        if isinstance(meanings[0], SayAgain):
            return self._again(text, meanings[0])
        answers = [meaning for meaning in meanings if isinstance(meaning, Answer)]
        if answers:
            return self._settle(text, answers[0])
        settled = self._with_side_now(meanings) or self._chosen(text, meanings)
        if settled is not None and self._waiting is not None:
            return self._settled(text, self._waiting, settled)
        again = settled_by(self.pending, meanings, self._job)
        if again is not None and self._waiting is not None:
            return self._settled(text, self._waiting, again.command, confirmed=again.confirmed)
        return self._take(text, meanings)

    def _again(self, text: str, command: Command) -> Turn:
        """The question that waits, or else the last reply."""
        if self._waiting:
            reply = still_asked(self._waiting.question)
        else:
            reply = self._last or Reply("Nothing has been said since the job was opened.")
        return self._ok(text, command, reply)

    # --- something new ----------------------------------------------------------

    def _take(self, text: str, meanings: Sequence[Command]) -> Turn:
        """Carry out the one meaning that the job can take, or ask which is meant."""
        different, refused = self._possible(meanings)
        if not different:
            # The most literal reading is the one whose refusal makes sense to the speaker.
            command, why = refused[0]
            return self._refused(text, command, why)
        if len(different) > 1:
            return self._ask_which(text, [meaning.command for meaning in different])
        return self._carry_out(text, text, different[0])

    def _possible(
        self, meanings: Sequence[Command]
    ) -> tuple[list[_Meaning], list[tuple[Command, Exception]]]:
        """The meanings that the job can take, each outcome once; and why not the others."""
        possible: list[_Meaning] = []
        refused: list[tuple[Command, Exception]] = []
        for command in meanings:
            try:
                possible.append(self._weigh(command))
            except (Refusal, SurveyError) as refusal:
                refused.append((command, refusal))
        different: list[_Meaning] = []
        for meaning in possible:
            if all(meaning.outcome != other.outcome for other in different):
                different.append(meaning)
        return different, refused

    def _weigh(self, command: Command, *, confirmed: bool = False) -> _Meaning:
        """What a command comes to; nothing is changed by finding out."""
        job, world, said = self._job, self._world, command
        command = resolve(job, command)
        decision = decide(job, command, world, confirmed=confirmed)
        if decision.ask is not None or not isinstance(command, Ask):
            return _Meaning(said, command, decision)
        if isinstance(command, WhatIf):
            events = decide(job, command.change, world, confirmed=True).events
            would_be = _after(job, events, world.now)
            reply = answer(job, would_be, command, events, world)
        else:
            reply = answer(job, job, command, (), world)
        return _Meaning(said, command, decision, reply)

    def _carry_out(self, text: str, said: str, meaning: _Meaning) -> Turn:
        """Ask, answer, or record: whichever the meaning comes to."""
        command, decision = meaning.command, meaning.decision
        if meaning.reply is not None:
            return self._ok(text, command, meaning.reply)
        lapsed = self._lapsed(command)
        if decision.ask is not None:
            self._waiting = _Waiting(decision.ask, said)
            return self._ok(text, command, with_lapse(still_asked(decision.ask), lapsed))
        before = self._job
        if decision.events:
            self._record(said, decision.events)
        self._waiting = None
        reply = answer(before, self._job, command, decision.events, self._world)
        return self._ok(text, command, with_lapse(reply, lapsed))

    def _record(self, said: str, events: Sequence[Event]) -> None:
        """On disk first, then in the job; interrupted between the two, it is read back."""
        self._behind = True
        now = self._world.now
        number = self._journal.append(said, events, now)
        self._on_disk = tuple(event.NAME for event in events)
        self._job = record(self._job, number, said, events, now)
        self._behind = False

    def _catch_up(self) -> None:
        if self._behind:
            self._job = fold(self._journal.utterances())
            self._behind = False

    # --- the question that waits ----------------------------------------------------

    def _settle(self, text: str, given: Answer) -> Turn:
        """Use an answer on the question that waits."""
        waiting = self._waiting
        if waiting is None:
            reply = Reply("No question is waiting for an answer; nothing recorded.")
            return self._not_ok(text, reply, given)
        question = waiting.question
        if isinstance(given, CancelThat):
            self._waiting = None
            return self._ok(text, given, left_alone(question))
        other = turned(question, given.side) if isinstance(given, ChooseSide) else None
        if isinstance(given, ChooseSide) and question.kind == "side":
            turn = self._settled(text, waiting, with_side(question.command, given.side))
        elif other is not None:
            turn = self._settled(text, waiting, other.command, confirmed=other.confirmed)
        elif isinstance(given, Confirm) and question.kind in ("confirm", "suspect", "heard"):
            sure = question.kind != "heard"
            turn = self._settled(text, waiting, question.command, confirmed=sure)
        else:
            return self._not_ok(text, still_asked(question), given)
        # What was said is the answer; what it settled shows in the events and the reply.
        return replace(turn, command=type(given).__name__, canonical=short_form(given))

    def _settled(
        self, text: str, waiting: _Waiting, command: Command, *, confirmed: bool = False
    ) -> Turn:
        """The waiting command, now that it can go ahead."""
        try:
            meaning = self._weigh(command, confirmed=confirmed)
        except (Refusal, SurveyError) as refusal:
            self._waiting = None
            return self._refused(text, command, refusal)
        # If writing fails, the question still waits and the answer can be given again.
        turn = self._carry_out(text, f"{waiting.said}\n{text}", meaning)
        if meaning.decision.ask is None:
            self._waiting = None
        return turn

    def _with_side_now(self, meanings: Sequence[Command]) -> Command | None:
        """
        The waiting command, where its reading was just said again with a side.

        "Minus 18" after "B3 18: below or above?" is the answer, not the next point's
        reading. Only for the very size that was asked about; any other is a reading
        of its own.
        """
        asked = _reading_of(self.pending.command) if self.pending else None
        if asked is None or self.pending is None or self.pending.kind != "side":
            return None
        for meaning in meanings:
            if not isinstance(meaning, TakeReading) or meaning.point is not None:
                continue
            given = meaning.reading
            same_unit = given.unit in (None, asked.unit)
            if given.side_said and same_unit and abs(given.number) == abs(asked.number):
                return with_side(self.pending.command, "below" if given.number < 0 else "above")
        return None

    def _ask_which(self, text: str, commands: Sequence[Command]) -> Turn:
        lapsed = self._lapsed(*commands)
        question = ask_which(commands)
        self._waiting = _Waiting(question, text, tuple(commands))
        reply = Reply(question.text, question.spoken, ask=question.text)
        reply = replace(reply, data={"which": [short_form(command) for command in commands]})
        return self._ok(text, None, with_lapse(reply, lapsed))

    def _ask_heard(self, text: str, choices: Sequence[Choice]) -> Turn:
        """Ask which was said, of those that the job can take."""
        words = {choice.command: choice.words for choice in reversed(choices)}
        possible, refused = self._possible([choice.command for choice in choices])
        if not possible:
            return self._refused(text, *refused[0])
        if len(possible) == 1 and possible[0].decision.ask is not None:
            # That question reads it back too; one is enough.
            return self._carry_out(text, text, possible[0])
        heard = [Choice(meaning.command, words[meaning.said]) for meaning in possible]
        commands = tuple(choice.command for choice in heard)
        lapsed = self._lapsed(*commands)
        question = question_between(heard)
        self._waiting = _Waiting(question, text, commands, tuple(heard))
        reply = Reply(question.text, question.spoken, ask=question.text)
        reply = replace(reply, data={"which": [short_form(command) for command in commands]})
        return self._ok(text, commands[0], with_lapse(reply, lapsed))

    def _chosen(self, text: str, meanings: Sequence[Command]) -> Command | None:
        """What was asked about as heard, where this names one of the two."""
        if self._waiting is None or not self._waiting.heard:
            return None
        filled: list[Command] = []
        for meaning in meanings:
            with suppress(Refusal):  # without a next point a bare reading stays as it is
                filled.append(resolve(self._job, meaning))
        return chosen(text, (*meanings, *filled), self._waiting.heard)

    @property
    def expected(self) -> tuple[str, ...]:
        """Words that would answer the question that waits, and are no command by themselves."""
        heard = self._waiting.heard if self._waiting is not None else ()
        if len(heard) < 2:
            return ()
        return tuple(differing_parts([choice.words for choice in heard]))

    def would_settle(self, command: Command) -> bool:
        """Whether a command names one of those that were asked about as heard."""
        return self._chosen("", (command,)) is not None

    def let_lapse(self) -> Reply | None:
        """Nobody answers: what waits is left undone. None where nothing waits."""
        waiting, self._waiting = self._waiting, None
        return unanswered(waiting.question) if waiting else None

    def _lapsed(self, *commands: Command) -> Question | None:
        """The question that waited, where these commands are no answer to it."""
        waiting = self._waiting
        if waiting is None or waiting.question.command in commands:
            return None
        if any(command in waiting.choices for command in commands):
            return None
        if any(is_about(waiting.question, command) for command in commands):
            return None
        answered = (with_side(waiting.question.command, side) for side in ("below", "above"))
        return None if any(command in commands for command in answered) else waiting.question

    # --- turns ------------------------------------------------------------------------

    def _ok(self, text: str, command: Command | None, reply: Reply) -> Turn:
        return self._made(text, True, command, reply)

    def _not_ok(self, text: str, reply: Reply, command: Command | None = None) -> Turn:
        return self._made(text, False, command, reply)

    def _refused(self, text: str, command: Command, why: Exception) -> Turn:
        with suppress(Refusal):  # what can't be filled in is then shown as it was said
            command = resolve(self._job, command)
        return self._not_ok(text, Reply(str(why), data={"refused": str(why)}), command)

    def _made(self, text: str, ok: bool, command: Command | None, reply: Reply) -> Turn:
        return Turn(
            text=text,
            ok=ok,
            command=type(command).__name__ if command else None,
            canonical=short_form(command) if command else None,
            recorded=self._on_disk,
            reply=reply,
        )

    def _faulty(self, text: str, fault: Exception) -> Turn:
        """A fault of the program's own: what is on disk is said, and where to look."""
        assert self._on_fault is not None
        return self._not_ok(text, fault_reply(fault, self._on_disk, self._on_fault(fault)))

    def _with_question(self, turn: Turn) -> Turn:
        """Whatever was answered, the question that waits stays in sight."""
        asked = self._waiting.question.text if self._waiting else None
        if turn.reply.ask == asked:
            return turn
        return replace(turn, reply=replace(turn.reply, ask=asked))


def _after(job: Job, events: Sequence[Event], time: datetime) -> Job:
    for event in events:
        job = apply(job, event, time)
    return job


def _reading_of(command: Command) -> Reading | None:
    """The one reading that a command is about."""
    if isinstance(command, TakeReading | CorrectReading):
        return command.reading
    return None
