"""The question whether something of a pour was lost down a hole."""

from __future__ import annotations

from assistant.decide.questions import Offer, Sentence
from assistant.decide.reading_repeated import Settlement
from grammar.commands import Answer
from grammar.commands.pour import TellHole
from grammar.commands.talk import Confirm
from grammar.frozen import frozen


@frozen
class WentDownAHole(Offer):
    """
    Did it go down a hole? Yes or no both say something, and both go on record.

    Nobody has to answer: whoever pours goes on with the next batch.
    """

    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        if isinstance(given, Confirm):
            return Settlement(TellHole(lost=True), confirmed=True)
        return None

    def settled_by_sentence(self, _sentence: Sentence, /) -> Settlement | None:
        return None

    def settled_by_no(self, text: str, /) -> Settlement | None:
        """A bare "no" is an answer; "cancel that" puts the question aside."""
        if text.strip(" .,!").lower() in ("no", "nope", "nah"):
            return Settlement(TellHole(lost=False), confirmed=True)
        return None
