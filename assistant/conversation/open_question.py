"""The one question that waits: what answers it, what lets it lapse, and that it outlives the talk.

It says what an answer comes to and carries nothing out; the conversation does that. It keeps the
question in memory and, through :class:`KeptOpen`, on disk.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assistant.conversation.question import Waiting
from assistant.conversation.recording import Record
from assistant.conversation.saying import (
    left_alone,
    still_asked,
    undone_before_it_was_done,
    whose_value,
)
from assistant.conversation.still_open import KeptOpen
from assistant.decide import Question, World
from assistant.decide.questions import reading_of
from assistant.decide.reading_repeated import Settlement
from assistant.job import Job, Utterance
from assistant.reply.replies import Reply
from grammar.commands import Answer, Command
from grammar.commands.talk import CancelThat, ChooseSide
from grammar.frozen import frozen


@frozen
class Outcome:
    """What an answer came to without a command: the reply, and whether the answer was taken."""

    reply: Reply
    ok: bool


class OpenQuestion:
    """
    The question that waits, if any.

    Parameters
    ----------
    journal : Record
        Where it is kept beside the job, for the terminal may close before its answer.
    job : Job
    world : World
        With the present time; a question left open waits again where its words still ask it.
    """

    def __init__(self, journal: Record, job: Job, world: World) -> None:
        self._kept = KeptOpen(journal)
        self.waiting, self.left_open = self._kept.taken_up(job, world)
        self._taken_up = self.waiting
        self._unclear: Waiting | None = None
        """The one beside which a value was said that lacks its side as well."""

    @property
    def question(self) -> Question | None:
        """The question itself."""
        return self.waiting.question if self.waiting else None

    @property
    def asked_before(self) -> bool:
        """Whether it was asked when the job was open before."""
        return self.waiting is not None and self.waiting is self._taken_up

    @property
    def expected(self) -> Mapping[str, Command]:
        """Words that would answer it, as :attr:`Question.expected`."""
        return self.waiting.question.expected if self.waiting else {}

    @property
    def is_asked(self) -> bool:
        """Whether one waits that is more than an offer."""
        return self.waiting is not None and not self.waiting.question.is_an_offer

    @property
    def asked_text(self) -> str:
        """Its words; empty where none waits that is more than an offer."""
        return self.waiting.question.text if self.waiting and self.is_asked else ""

    def names(self, command: Command, job: Job) -> bool:
        """Whether a command names one of the choices in a question about what was heard."""
        return self.waiting is not None and self.waiting.names(command, job)

    def keep(self, after: int) -> None:
        """Keep it on disk, as asked after `after` utterances."""
        self._kept.keep(self.waiting, after)

    def drop_offer(self) -> None:
        """An offer is for the next line alone."""
        if not self.is_asked:
            self.waiting = None

    def drop_if_answered_in(self, found: Sequence[Utterance]) -> None:
        """Let it wait no longer where its answer is recorded already."""
        if self.waiting and self.waiting.is_answered_in(found):
            self.waiting = None

    def lapsed(self, commands: Sequence[Command]) -> Question | None:
        """The question, where these commands are no answer to it."""
        if self.waiting is None or self.waiting.question.is_an_offer:
            return None
        return self.waiting.question if self.waiting.lapses_for(commands) else None

    def answered_in_a_sentence(
        self, text: str, meanings: Sequence[Command], job: Job
    ) -> Settlement | Outcome | None:
        """What a sentence comes to as an answer; None where it is none."""
        waiting = self.waiting
        if waiting is None:
            return None
        settled = waiting.settled_by_sentence(text, meanings, job)
        if settled is None and waiting.is_unclear(meanings):
            if any(map(_lacks_its_side, meanings)):
                self._unclear = waiting
            return Outcome(whose_value(waiting.question), ok=False)
        return settled

    def taken_back(self) -> Outcome:
        """Undo takes back what was said last, and that is what the question is about."""
        waiting = self.waiting
        assert waiting is not None
        self.waiting = None
        return Outcome(undone_before_it_was_done(waiting.question), ok=True)

    def answered_in_a_word(self, given: Answer, text: str, job: Job) -> Settlement | Outcome:
        """What "below", "confirm" and the like come to; a "no" may end the wait."""
        waiting = self.waiting
        if waiting is None:
            reply = Reply("No question is waiting for an answer; nothing recorded.")
            return Outcome(reply, ok=False)
        if isinstance(given, CancelThat):
            settled = waiting.question.settled_by_no(text)
            if settled is not None:
                return settled
            self.waiting = None
            return Outcome(left_alone(waiting.question), ok=True)
        if isinstance(given, ChooseSide) and waiting is self._unclear:
            # Of that value the side would be as likely.
            return Outcome(whose_value(waiting.question), ok=False)
        settled = waiting.settled_by_word(given, text, job)
        return settled or Outcome(still_asked(waiting.question), ok=False)


def _lacks_its_side(command: Command) -> bool:
    """Whether a side that is said next may be that of this reading."""
    reading = reading_of(command)
    return reading is not None and not reading.side_said
