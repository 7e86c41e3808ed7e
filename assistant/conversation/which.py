"""Questions that words alone give rise to: which of several things was meant, or heard."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress

from assistant.conversation.either_or import (
    Choice,
    answers_to,
    choice_named,
    spoken_between,
    text_between,
)
from assistant.decide import Question, resolve
from assistant.decide.questions import Look, Offer, Sentence, reading_of
from assistant.decide.reading_repeated import Settlement
from assistant.errors import Refusal
from grammar import short_form
from grammar.commands import Answer, Command
from grammar.commands.talk import ChooseSide, Confirm
from grammar.frozen import frozen


@frozen
class WhichMeant(Question):
    """Which meaning of a sentence? Answered by saying the one that is meant."""

    meanings: tuple[Command, ...] = ()

    @property
    def choices(self) -> tuple[Command, ...]:
        return self.meanings

    @property
    def kept(self) -> tuple[tuple[str, str], ...]:
        return tuple((short_form(command), "") for command in self.meanings)

    def settled_by_word(self, _given: Answer, /) -> Settlement | None:
        return None

    def settled_by_sentence(self, _sentence: Sentence, /) -> Settlement | None:
        # Saying one of them is a command that is carried out like any other.
        return None

    @property
    def takes_a_value(self) -> bool:
        # A bare value after it may belong to any of them, or to the point after.
        return any(reading_of(command) is not None for command in self.meanings)


@frozen
class DidYouMean(Offer):
    """A change that a line was most likely about: done on "yes", and forgotten on all else."""

    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        # That it was meant is not yet that it is so: the floor around still looks at it.
        return Settlement(self.command, confirmed=False) if isinstance(given, Confirm) else None

    def settled_by_sentence(self, _sentence: Sentence, /) -> Settlement | None:
        return None


@frozen
class WhichHeard(Question):
    """Which of these was said? "Confirm" takes the first, as does whatever names one of them."""

    heard: tuple[Choice, ...] = ()

    @property
    def choices(self) -> tuple[Command, ...]:
        return tuple(choice.command for choice in self.heard)

    @property
    def expected(self) -> Mapping[str, Command]:
        return answers_to(self.heard)

    @property
    def kept(self) -> tuple[tuple[str, str], ...]:
        return tuple((short_form(each.command), each.words) for each in self.heard)

    def settled_by_word(self, given: Answer, /) -> Settlement | None:
        if isinstance(given, Confirm):
            # Even if heard right it is still compared with the floor around.
            return Settlement(self.command, confirmed=False)
        return self._on_the_side(given.side) if isinstance(given, ChooseSide) else None

    def settled_by_sentence(self, sentence: Sentence, /) -> Settlement | None:
        named = self.names(sentence)
        return None if named is None else Settlement(named, confirmed=False)

    def names(self, sentence: Sentence, /) -> Command | None:
        filled: list[Command] = []
        for meaning in sentence.meanings:
            with suppress(Refusal):  # without a next point a bare reading stays as it is
                filled.append(resolve(sentence.job, meaning))
        return choice_named(sentence.text, (*sentence.meanings, *filled), self.heard)

    @property
    def takes_a_value(self) -> bool:
        return any(isinstance(command, Look) for command in self.choices)

    def _on_the_side(self, side: str) -> Settlement | None:
        """The one of two choices whose reading is on the side that was said."""
        found = [
            command
            for command in self.choices
            if (reading := reading_of(command)) is not None
            and reading.number != 0
            and (reading.number < 0) == (side == "below")
        ]
        return Settlement(found[0], confirmed=False) if len(found) == 1 else None


def which_meant(commands: Sequence[Command]) -> WhichMeant:
    """Ask which of a sentence's meanings was meant, without guessing."""
    forms = [f"“{short_form(command)}”" for command in commands]
    listed = ", ".join(forms[:-1]) + f" or {forms[-1]}"
    return WhichMeant(
        f"That can mean {listed}. Which? Say the one you mean.",
        f"That can mean {listed}. Which one?",
        commands[0],
        _which(commands),
        meanings=tuple(commands),
    )


def did_you_mean(command: Command, in_words: str) -> DidYouMean:
    """Offer a change, with just the values that were said."""
    form = short_form(command)
    return DidYouMean(
        f"Did you mean: {form}?", f"Did you mean {in_words}?", command, {"offered": form}
    )


def which_heard(choices: Sequence[Choice]) -> WhichHeard:
    """
    Ask which of these was said; "confirm" takes the first.

    >>> from grammar import understand
    >>> heard = ("bravo three minus fifteen", "bravo three minus fifty")
    >>> asked = which_heard([Choice(understand(words)[0], words) for words in heard])
    >>> asked.text, asked.spoken
    ('B3 -15 or B3 -50?', 'One five or five zero?')
    """
    return WhichHeard(
        text_between(choices),
        spoken_between(choices),
        choices[0].command,
        _which([choice.command for choice in choices]),
        heard=tuple(choices),
    )


def _which(commands: Sequence[Command]) -> dict[str, list[str]]:
    """All choices as data, for programs that read the JSON."""
    return {"which": [short_form(command) for command in commands]}
