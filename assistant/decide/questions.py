"""Questions that must be answered before anything is recorded: a class for each kind, which
defines what counts as its answer.

Questions about words, which of two things was meant or heard, are in `conversation/which.py`.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from typing import Any, ClassVar

from assistant.decide.reading_repeated import (
    ReadingAsked,
    Settlement,
    reading_on_side,
    said_again,
)
from assistant.decide.unsaid import UNITS_MEANT, UNSAID, with_side, with_unit
from assistant.job import Job
from grammar import GrammarError, short_form, understand
from grammar.commands import Answer, Command, Reading
from grammar.commands.proof import TakeLineValues
from grammar.commands.readings import CorrectReading, TakeReading
from grammar.commands.set_ups import CheckBenchmark, CheckZero, TieOnBenchmark, TieOnPoint
from grammar.commands.talk import ChooseSide, ChooseUnit, Confirm
from grammar.commands.things import AddObstacle
from grammar.frozen import frozen

SIDES = ("below", "above")

LookElsewhere = TieOnBenchmark | TieOnPoint | CheckZero | CheckBenchmark
Look = ReadingAsked | LookElsewhere
"""Commands that give what the instrument showed once, so that a value alone may be another look."""


@frozen
class Sentence:
    """A sentence that was said while a question waits."""

    text: str
    """The words as said."""
    meanings: tuple[Command, ...]
    """What it can mean by itself; empty where it is in no phrase."""
    job: Job
    """Fills in points and units that were left out."""
    was_bare: bool
    """Whether the question is about a value that came without a point."""


@frozen
class Question(ABC):
    """A question to be answered before anything is recorded."""

    IS_SETTLED_BY_YES: ClassVar[bool] = False
    """Whether it only asks for confirmation: once confirmed, it is not asked again."""

    text: str
    spoken: str
    command: Command
    """The command that waits for the answer."""
    data: dict[str, Any] = field(default_factory=dict, compare=False)
    """Numbers for programs; JSON types only."""

    @property
    def choices(self) -> tuple[Command, ...]:
        """The commands to choose from, where it is such a choice."""
        return ()

    @property
    def expected(self) -> Mapping[str, Command]:
        """Words that would answer it but are no command by themselves, with what they choose."""
        return {}

    @property
    def kept(self) -> tuple[tuple[str, str], ...]:
        """What is saved of it on disk: short typed forms, and the words as heard."""
        return ((short_form(self.command), ""),)

    @abstractmethod
    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        """What "below", "confirm" and the like settle; None where they are no answer to this."""

    @abstractmethod
    def settled_by_sentence(self, sentence: Sentence, /) -> Settlement | None:
        """What a sentence settles as the answer; None where it is none."""

    def settled_by_no(self, _text: str, /) -> Settlement | None:
        """What a "no" settles; None where it only puts the question aside."""
        return None

    def names(self, _sentence: Sentence, /) -> Command | None:
        """The choice, of those asked about as heard, that a sentence names."""
        return None

    @property
    @abstractmethod
    def takes_a_value(self) -> bool:
        """
        Whether a value without a point could be its answer, or the next point's reading.

        A guess could put it, and all readings after it, on the wrong points.
        """

    @property
    def is_an_offer(self) -> bool:
        """Whether it only offers what nobody asked for, and so lapses without a word."""
        return False

    def stays_open_for(self, command: Command, /) -> bool:
        """Whether a command answers it or is about it, so that it does not lapse."""
        return command in self._answers() or _look_at_the_same(self.command, command)

    def _answers(self) -> tuple[Command, ...]:
        return (*_sided(self.command), *self.choices)


@frozen
class YesOrNo(Question):
    """Do it or not? Answered by "confirm" only."""

    IS_SETTLED_BY_YES: ClassVar[bool] = True

    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        return Settlement(self.command, confirmed=True) if isinstance(given, Confirm) else None

    def settled_by_sentence(self, _sentence: Sentence, /) -> Settlement | None:
        return None

    @property
    def takes_a_value(self) -> bool:
        return isinstance(self.command, Look | TakeLineValues)


@frozen
class Unsaid(Question):
    """Asks for what the command lacks. Answered too by its reading said again with that."""

    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        if isinstance(given, ChooseSide):
            return Settlement(with_side(self.command, given.side), confirmed=False)
        return None

    def settled_by_sentence(self, sentence: Sentence, /) -> Settlement | None:
        """
        The waiting command, if its reading is said again with its side or unit.

        "Minus 18" after "B3 18: below or above?" is the answer, not the next point's reading.
        Only the same size counts as the answer; any other is a new reading. Where the question
        was about a value without a point, an equal value may be the next point's.
        """
        asked = reading_of(self.command)
        if asked is None or sentence.was_bare:
            return None
        for meaning in sentence.meanings:
            if not isinstance(meaning, TakeReading) or meaning.point is not None:
                continue
            given = meaning.reading
            if _says_more(given, asked):
                command = self.command
                if given.side_said:
                    command = with_side(command, "below" if given.number < 0 else "above")
                if given.unit not in UNSAID:
                    command = with_unit(command, given.unit)
                return Settlement(command, confirmed=False)
        return None

    @property
    def takes_a_value(self) -> bool:
        # It asks about a value, whatever that is of; another one may be meant in its place.
        return True


@frozen
class Offer(Question):
    """What nobody has to answer: it is for the next line, and no file keeps it."""

    @property
    def kept(self) -> tuple[tuple[str, str], ...]:
        return ()

    @property
    def takes_a_value(self) -> bool:
        return False

    @property
    def is_an_offer(self) -> bool:
        return True


@frozen
class HowHigh(Offer):
    """
    A point was named, and nothing else: how high does the floor stand there?

    Its command, what asks about that point, is never carried out.
    """

    def settled_by_word(self, _given: Answer, /) -> Settlement | None:
        return None

    def settled_by_sentence(self, sentence: Sentence, /) -> Settlement | None:
        """The next value that names no point is for this one."""
        for meaning in sentence.meanings:
            if isinstance(meaning, TakeReading) and meaning.point is None:
                point = getattr(self.command, "point", None)
                return Settlement(replace(meaning, point=point), confirmed=False)
        return None


@frozen
class HowBig(Question):
    """Asks how big something on the floor is; answered by its size."""

    def settled_by_word(self, _given: Answer, /) -> Settlement | None:
        return None

    def settled_by_sentence(self, sentence: Sentence, /) -> Settlement | None:
        """The command with the size that was said, put in as it stands."""
        waiting = short_form(self.command)
        kind, at, place = waiting.partition(" at ")
        for said in (f"{kind} {sentence.text}", f"{kind} {sentence.text} round"):
            for meaning in meanings_of(f"{said}{at}{place}"):
                if self.stays_open_for(meaning) and meaning != self.command:
                    return Settlement(meaning, confirmed=False)
        return None

    @property
    def takes_a_value(self) -> bool:
        return False

    def stays_open_for(self, command: Command, /) -> bool:
        """Whether it is the same thing, with its size or without."""
        return (
            isinstance(command, AddObstacle)
            and replace(command, first=None, second=None, shape=None) == self.command
        )


def meanings_of(line: str) -> Sequence[Command]:
    """What a line means; nothing where it is in no phrase."""
    try:
        return understand(line)
    except GrammarError:
        return ()


@frozen
class WhichSide(Unsaid):
    """Asks: below or above?"""


@frozen
class WhichUnit(Unsaid):
    """Asks: of an inch? "Confirm" means yes; the side may be said first."""

    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        if isinstance(given, ChooseUnit | Confirm):
            unit = given.unit if isinstance(given, ChooseUnit) else UNITS_MEANT[0]
            return Settlement(with_unit(self.command, unit), confirmed=False)
        return Unsaid.settled_by_word(self, given)

    def _answers(self) -> tuple[Command, ...]:
        in_units = (with_unit(self.command, unit) for unit in UNITS_MEANT)
        return tuple(each for one in (self.command, *in_units) for each in _sided(one))


@frozen
class ReallySo(Question):
    """Asks about a reading that does not fit the floor: really so, or another value?"""

    IS_SETTLED_BY_YES: ClassVar[bool] = True

    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        if isinstance(given, Confirm):
            return Settlement(self.command, confirmed=True)
        if isinstance(given, ChooseSide) and isinstance(self.command, ReadingAsked):
            return reading_on_side(self.command, given.side)
        return None

    def settled_by_sentence(self, sentence: Sentence, /) -> Settlement | None:
        if not isinstance(self.command, ReadingAsked):
            return None
        return said_again(self.command, sentence.meanings, sentence.job)

    @property
    def takes_a_value(self) -> bool:
        return isinstance(self.command, ReadingAsked)


def reading_of(command: Command) -> Reading | None:
    """The reading that a command is about."""
    if isinstance(command, TakeReading | CorrectReading):
        return command.reading
    return None


def _look_at_the_same(asked: Command, command: Command) -> bool:
    """Whether both are readings of one point, or both looks at one benchmark or zero."""
    if isinstance(asked, ReadingAsked):
        return isinstance(command, ReadingAsked) and command.point == asked.point
    return (
        isinstance(asked, LookElsewhere)
        and isinstance(command, LookElsewhere)
        and type(command) is type(asked)
        and replace(command, reading=asked.reading) == asked
    )


def _sided(command: Command) -> Sequence[Command]:
    """A command as it was said, and with its reading on either side."""
    return (command, *(with_side(command, side) for side in SIDES))


def _says_more(given: Reading, asked: Reading) -> bool:
    """Whether a reading is the one asked about, with the missing side or unit."""
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
