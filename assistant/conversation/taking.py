"""What kind of thing was said: talk about the talk, an answer, a command, or what no row lists."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.conversation.carrying_out import CarryingOut
from assistant.conversation.either_or import Choice
from assistant.conversation.instead import last_reading, settled_instead
from assistant.conversation.lines import help_in_words
from assistant.conversation.meanings import Meaning
from assistant.conversation.open_question import OpenQuestion, Outcome
from assistant.conversation.reading_asked import offered_reading
from assistant.conversation.saying import still_asked, too_long
from assistant.conversation.so_far import SaidSoFar
from assistant.conversation.typed_ahead import TypedAhead
from assistant.conversation.unfinished import Whole, completed
from assistant.decide.reading_repeated import Settlement
from assistant.job import being_read
from assistant.reply.replies import Reply, Turn
from grammar import Misunderstood, short_form, understand
from grammar.commands import Answer, Change, Command
from grammar.commands.talk import CancelThat, SayAgain, SayInstead, TakeBack

if TYPE_CHECKING:
    from assistant.conversation.unlisted import Step

LONGEST = 1000
"""Most characters of a line. No sentence of a job is a fifth as long; a pasted file is."""


class Taking:
    """
    Takes lines and heard commands for what they are, and has them carried out.

    Parameters
    ----------
    doing : CarryingOut
    question : OpenQuestion
        The one that waits, which a line may answer.
    so_far : SaidSoFar
        Has the rest of a long answer, for "more".
    ahead : TypedAhead
        Knows whether a refused line left a point open while nobody could see it.
    """

    def __init__(
        self, doing: CarryingOut, question: OpenQuestion, so_far: SaidSoFar, ahead: TypedAhead
    ) -> None:
        self._doing = doing
        self._question = question
        self._so_far = so_far
        self._ahead = ahead
        self._unfinished = ""
        self.last: Reply | None = None
        """What was said last, for "say again"."""

    def line(self, text: str) -> Turn:
        """The turn of a line as it was typed, or as a recogniser wrote it down."""
        if len(text) > LONGEST:
            return self._doing.not_ok(text, too_long(len(text), LONGEST))
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
            return self._doing.not_ok(text, Reply("No command in that; nothing recorded."))
        line = being_read(self._doing.job).proof.open_line
        asked = self._question.question if self._question.is_asked else None
        whose = self._ahead.whose_value(meanings, line, asked)
        if whose is not None and (asked is None or not self._settles(text, meanings)):
            return self._doing.not_ok(text, whose, meanings[0])
        offered = None if asked else offered_reading(text, meanings, self._doing.job)
        if offered is not None:
            return self._done(text, offered)
        if whole := completed(before, text, meanings, is_asked=self._question.is_asked):
            return self._taken_whole(text, whole)
        return self._meant(text, meanings)

    def _settles(self, text: str, meanings: Sequence[Command]) -> bool:
        """Whether a line is the answer to the question that waits."""
        answer = self._question.answered_in_a_sentence(text, meanings, self._doing.job)
        return isinstance(answer, Settlement)

    def _taken_whole(self, text: str, whole: Whole) -> Turn:
        """Take what two lines come to, the first of which was left unfinished."""
        turn = self._doing.take(text, self._doing.possible(whole.meanings), whole.said)
        return replace(turn, taken_as=turn.canonical)

    def _meant(self, text: str, meanings: Sequence[Command]) -> Turn:
        talked = self._talked(text, meanings)
        return talked or self._doing.take(text, self._doing.possible(meanings))

    def _talked(self, text: str, meanings: Sequence[Command]) -> Turn | None:
        """The turn for words about the talk itself or for an answer to the question; else None."""
        if isinstance(meanings[0], SayAgain):
            return self._again(text, meanings[0])
        if (more := self._so_far.more(meanings[0])) is not None:
            return self._doing.ok(text, meanings[0], more)
        if self._question.is_asked and _undoes_one(meanings):
            return self._came_to(text, self._question.taken_back(), meanings[0])
        answers = [meaning for meaning in meanings if isinstance(meaning, Answer)]
        # "Cancel it" may be a no or an undo: while nothing is asked it is no answer.
        if answers and (self._question.question is not None or len(answers) == len(meanings)):
            return self._answered_in_a_word(text, answers[0])
        return self._answered(text, meanings)

    def heard(self, text: str, choices: Sequence[Choice], others: list[Meaning]) -> Turn:
        """Take the likeliest; `others` gives what is asked about where the job refuses it."""
        likeliest, *rivals = (choice.command for choice in choices)
        talked = self._talked(text, (likeliest,))
        if talked is not None:
            return talked
        found = self._doing.possible((likeliest,))
        if found.refused and isinstance(likeliest, Change):
            others += self._doing.possible(rivals).taken
        if others:
            return self._doing.ask_among(text, choices, others)
        return self._doing.take(text, found)

    def _again(self, text: str, command: Command) -> Turn:
        """The waiting question once more, or else the last reply."""
        if self._question.question:
            reply = still_asked(self._question.question)
        else:
            reply = self.last or Reply("Nothing has been said since the job was opened.")
        return self._doing.ok(text, command, reply)

    # --- said in no way that is listed --------------------------------------------

    def _unlisted(self, text: str, miss: Misunderstood) -> Turn:
        """Answer the question it was about, or offer the change; else say what is missing."""
        # Weighing words is loaded with the first line that needs it.
        from assistant.conversation.unlisted import step_for_unlisted

        self._question.drop_offer()
        step = step_for_unlisted(
            text, miss, self._doing.job, self._doing.world, is_asked=self._question.is_asked
        )
        if step.reply is not None:
            self._unfinished = text
        return self._done(text, step)

    def _done(self, text: str, step: Step) -> Turn:
        if step.offer is not None:
            return self._doing.offer(text, step.offer)
        if step.reply is not None:
            return self._doing.not_ok(text, step.reply, step.command)
        if step.answer is not None:
            turn = self._doing.carry_out(text, text, step.answer)
        else:
            turn = self._meant(text, step.meanings)
        return replace(turn, taken_as=step.taken_as)

    # --- the question that waits --------------------------------------------------

    def _answered(self, text: str, meanings: Sequence[Command]) -> Turn | None:
        """The turn that uses the sentence as an answer; None where it is none."""
        came_to = self._question.answered_in_a_sentence(text, meanings, self._doing.job)
        if came_to is None:
            return None
        return self._came_to(text, came_to, meanings[0] if meanings else None)

    def _answered_in_a_word(self, text: str, given: Answer) -> Turn:
        """The turn that uses "below", "confirm" and the like as an answer."""
        if isinstance(given, SayInstead):
            return self._instead(text, given)
        came_to = self._question.answered_in_a_word(given, text, self._doing.job)
        turn = self._came_to(text, came_to, given)
        if isinstance(came_to, Outcome) or isinstance(given, CancelThat):
            return turn
        # The turn shows the answer as said; what it settled is in the events and the reply.
        return replace(turn, command=type(given).__name__, canonical=short_form(given))

    def _came_to(self, text: str, came_to: Settlement | Outcome, command: Command | None) -> Turn:
        if isinstance(came_to, Outcome):
            return self._doing.made(text, came_to.ok, command, came_to.reply)
        return self._doing.settle(text, came_to)

    def _instead(self, text: str, given: SayInstead) -> Turn:
        """Another value for the reading that is asked about, or else for the last one."""
        question = self._question.question
        if question is not None:
            settled = settled_instead(question, given, self._doing.job)
            if settled is not None:
                return self._doing.settle(text, settled)
            if self._question.is_asked:
                return self._doing.not_ok(text, still_asked(question), given)
        from assistant.conversation.unlisted import put_right

        return self._done(text, put_right(given, last_reading(self._doing.job), self._doing.job))


def _undoes_one(meanings: Sequence[Command]) -> bool:
    return all(isinstance(each, TakeBack) and (each.steps or 1) == 1 for each in meanings)
