"""The waiting question, and the words that led to it.

Only one waits at a time. The question itself says what counts as its answer. Other words
leave it waiting, or are a new command, and then it lapses.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress

from assistant.decide import Question
from assistant.decide.questions import Sentence
from assistant.decide.reading_repeated import Settlement
from assistant.job import Job, Utterance
from grammar import Misunderstood, understand
from grammar.commands import Answer, Command
from grammar.commands.proof import TakeLineValues
from grammar.commands.readings import TakeReading
from grammar.commands.walk import TakeRun, TakeSame
from grammar.frozen import frozen


@frozen
class Waiting:
    """A question that waits."""

    question: Question
    said: str
    """The words that led to it."""

    def settled_by_word(self, given: Answer, text: str, job: Job) -> Settlement | None:
        """What "below", "confirm" and the like settle; None where they are no answer to this."""
        settled = self.question.settled_by_word(given)
        return settled or self.settled_by_sentence(text, (), job)

    def settled_by_sentence(
        self, text: str, meanings: Sequence[Command], job: Job
    ) -> Settlement | None:
        """
        What a sentence settles as an answer; None where it is none.

        Parameters
        ----------
        text : str
            The sentence as it was said.
        meanings : sequence of Command
            What it can mean by itself; empty where it is in no phrase.
        job : Job
            Fills in points and units that were left out.
        """
        return self.question.settled_by_sentence(self._sentence(text, meanings, job))

    def names(self, command: Command, job: Job) -> bool:
        """Whether a command names one of the choices in a question about what was heard."""
        return self.question.names(self._sentence("", (command,), job)) is not None

    def is_unclear(self, meanings: Sequence[Command]) -> bool:
        """Whether a value without a point could be the answer, or the next point's reading."""
        return self.question.takes_a_value and bool(meanings) and all(map(is_bare, meanings))

    def lapses_for(self, commands: Sequence[Command]) -> bool:
        """Whether these commands, which come next, are no answer to it, so that it lapses."""
        return not any(self.question.stays_open_for(command) for command in commands)

    def is_answered_in(self, utterances: Sequence[Utterance]) -> bool:
        """Whether an utterance on record has answered it."""
        return any(each.said.startswith(f"{self.said}\n") for each in utterances)

    def _sentence(self, text: str, meanings: Sequence[Command], job: Job) -> Sentence:
        return Sentence(text, tuple(meanings), job, self._was_bare())

    def _was_bare(self) -> bool:
        """Whether it is about a value that was said without a point."""
        with suppress(Misunderstood):
            return any(map(is_bare, understand(self.said.split("\n")[0])))
        return False


def is_bare(command: Command) -> bool:
    """Whether a command is a value or several, without a word of what they are of."""
    if isinstance(command, TakeReading):
        return command.point is None
    if isinstance(command, TakeLineValues):
        return command.line is None and len(command.readings) == 1
    if isinstance(command, TakeSame):
        return command.point is None
    return isinstance(command, TakeRun)
