"""The question that waits for an answer, and what counts as one.

One waits at a time. An answer is a word for it ("below", "confirm"), the value said again,
or one of the things that may have been meant or said. What is no answer either leaves it
waiting, or is something new to do, and then it lapses.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from assistant.conversation.either_or import Choice, answers_to, chosen, question_between
from assistant.conversation.reading_repeated import (
    Settlement,
    is_about,
    reading_on_side,
    settled_by,
)
from assistant.conversation.saying import ask_which, still_asked
from assistant.decide import Question, resolve, with_side
from assistant.decide.unit_meant import UNSAID, with_unit
from assistant.errors import Refusal
from assistant.job import Job
from assistant.reply.replies import Reply
from grammar import Misunderstood, short_form, understand
from grammar.commands import Answer, Command, Reading
from grammar.commands.readings import CorrectReading, TakeReading, TakeReadings
from grammar.commands.talk import ChooseSide, ChooseUnit, Confirm


@dataclass(frozen=True, slots=True)
class Waiting:
    """A question that waits, and what is known of its answer."""

    question: Question
    said: str
    """The words that led to it."""
    choices: tuple[Command, ...] = ()
    """Of a ``which`` or ``heard`` question, the meanings to choose from."""
    heard: tuple[Choice, ...] = ()
    """Of a ``heard`` question, the same with their words."""

    def asked(self) -> Reply:
        """The question as it is put at first: for programs, with all there is to choose from."""
        reply = still_asked(self.question)
        if not self.choices:
            return reply
        return replace(reply, data={"which": [short_form(command) for command in self.choices]})

    @property
    def expected(self) -> Mapping[str, Command]:
        """Words that would answer it and are no command by themselves, with what they choose."""
        return answers_to(self.heard)

    # --- what settles it -------------------------------------------------------------

    def settled_by_word(self, given: Answer) -> Settlement | None:
        """What "below", "confirm" and the like settle; None where that is no answer to this."""
        question = self.question
        if isinstance(given, ChooseSide):
            if question.kind in ("side", "unit"):
                return Settlement(with_side(question.command, given.side), confirmed=False)
            if question.kind == "heard":
                return self._on_the_side(given.side)
            return reading_on_side(question, given.side)
        if question.kind == "unit" and isinstance(given, ChooseUnit | Confirm):
            unit = given.unit if isinstance(given, ChooseUnit) else "in"
            return Settlement(with_unit(question.command, unit), confirmed=False)
        if isinstance(given, Confirm) and question.kind in ("confirm", "suspect", "heard"):
            return Settlement(question.command, confirmed=question.kind != "heard")
        return None

    def settled_by_sentence(
        self, text: str, meanings: Sequence[Command], job: Job
    ) -> Settlement | None:
        """
        What a sentence settles that was said as the answer; None where it is none.

        Parameters
        ----------
        text : str
            The sentence as it was said.
        meanings : sequence of Command
            What it can mean by itself; none where it is in no phrase.
        job : Job
            Points and units that were left out are filled in from it.
        """
        command = self._value_given(meanings) or self.named(text, meanings, job)
        if command is not None:
            return Settlement(command, confirmed=False)
        return settled_by(self.question, meanings, job)

    def named(self, text: str, meanings: Sequence[Command], job: Job) -> Command | None:
        """What was asked about as heard, where this names one of the two."""
        if not self.heard:
            return None
        filled: list[Command] = []
        for meaning in meanings:
            with suppress(Refusal):  # without a next point a bare reading stays as it is
                filled.append(resolve(job, meaning))
        return chosen(text, (*meanings, *filled), self.heard)

    def is_unclear(self, meanings: Sequence[Command]) -> bool:
        """
        Whether a value was said with no point, while the reading of a point is asked about.

        It may be the answer, or the next point's reading said before the question was seen:
        taken for either, it may land on the wrong point, and all that follow it.
        """
        return (
            self.question.kind in ("side", "unit", "suspect")
            and isinstance(self.question.command, TakeReading | CorrectReading | TakeReadings)
            and bool(meanings)
            and all(isinstance(one, TakeReading) and one.point is None for one in meanings)
        )

    def _on_the_side(self, side: str) -> Settlement | None:
        """The one of two things heard whose reading is on the side that was said."""
        found = [
            choice.command
            for choice in self.heard
            if (reading := _reading_of(choice.command)) is not None
            and reading.number != 0
            and (reading.number < 0) == (side == "below")
        ]
        return Settlement(found[0], confirmed=False) if len(found) == 1 else None

    def _value_given(self, meanings: Sequence[Command]) -> Command | None:
        """
        The waiting command, where its reading was just said again with its side or unit.

        "Minus 18" after "B3 18: below or above?" is the answer, not the next point's
        reading. Only for the very size that was asked about; any other is a reading
        of its own.
        """
        asked = _reading_of(self.question.command)
        if asked is None or self.question.kind not in ("side", "unit") or self._was_bare():
            return None
        for meaning in meanings:
            if not isinstance(meaning, TakeReading) or meaning.point is not None:
                continue
            given = meaning.reading
            if _says_more(given, asked):
                command = self.question.command
                if given.side_said:
                    command = with_side(command, "below" if given.number < 0 else "above")
                return command if given.unit in UNSAID else with_unit(command, given.unit)
        return None

    def _was_bare(self) -> bool:
        """Whether it was asked about a value alone: then an equal one may be the next point's."""
        with suppress(Misunderstood):
            return any(
                isinstance(m, TakeReading) and m.point is None
                for m in understand(self.said.split("\n")[0])
            )
        return False

    # --- what lets it lapse ----------------------------------------------------------

    def lapses_for(self, commands: Sequence[Command]) -> bool:
        """Whether these commands, about to be carried out or asked about, are no answer to it."""
        asked, kind = self.question.command, self.question.kind
        units = [with_unit(asked, unit) for unit in ("in", "mm")] if kind == "unit" else []
        sides = [with_side(one, side) for one in (asked, *units) for side in ("below", "above")]
        answers = (asked, *units, *sides, *self.choices)
        return not any(
            command in answers or is_about(self.question, command) for command in commands
        )


def which_meant(commands: Sequence[Command], said: str) -> Waiting:
    """Ask which of the meanings of one sentence it is."""
    return Waiting(ask_which(commands), said, tuple(commands))


def which_heard(choices: Sequence[Choice], said: str) -> Waiting:
    """Ask which of these was said; "confirm" takes the first."""
    commands = tuple(choice.command for choice in choices)
    return Waiting(question_between(choices), said, commands, tuple(choices))


def _says_more(given: Reading, asked: Reading) -> bool:
    """Whether a reading is the one asked about with the side or the unit it lacked."""
    if abs(given.number) != abs(asked.number):
        return False
    side_said = given.side_said and not asked.side_said
    unit_said = asked.unit in UNSAID and given.unit not in UNSAID
    same_side = given.number == asked.number or not (given.side_said and asked.side_said)
    return (
        (side_said or unit_said)
        and same_side
        and (unit_said or given.unit in (*UNSAID, asked.unit))
    )


def _reading_of(command: Command) -> Reading | None:
    """The one reading that a command is about."""
    if isinstance(command, TakeReading | CorrectReading):
        return command.reading
    return None
