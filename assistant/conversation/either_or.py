"""Words for asking which of two things was said, and answers that choose one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from assistant.decide.unsaid import UNSAID
from grammar import short_form
from grammar.commands import Command, Reading
from grammar.commands.readings import TakeReading
from grammar.confusable import PAIRS
from grammar.frozen import frozen
from grammar.numbers import DIGITS, TEENS, TENS, ZEROS, spelled_digits
from grammar.words import split_words

_NUMBER_WORDS = frozenset(
    [*DIGITS, *ZEROS, *TEENS, *TENS, "hundred", "thousand", "and", "point", "half", "quarter"]
)
_SOUND_ALIKE = dict(PAIRS["teen"])
_PARTS = ("quarters", "eighth", "eighths", "sixteenth", "sixteenths")
_WHOLE_OR_DECIMAL = re.compile(r"[0-9]+(\.[0-9]+)?")

MOST_SPOKEN = 4
"""Most words of the differing parts; where more differ, both choices are said whole."""


@frozen
class Choice:
    """One of the commands that may have been said, with its words."""

    command: Command
    """The command, complete."""
    words: str
    """The words as heard: "bravo three minus fifteen millimetres"."""


def text_between(choices: Sequence[Choice]) -> str:
    """The question which of the choices was said, or whether the only one was."""
    first = choices[0]
    if len(choices) == 1:
        return f"{short_form(first.command)}: confirm, or cancel that?"
    return f"{' or '.join(short_form(choice.command) for choice in choices)}?"


def spoken_between(choices: Sequence[Choice]) -> str:
    """The same question aloud: only the parts that differ."""
    if len(choices) == 1:
        return f"{_sentence(choices[0].words)}? Confirm, or cancel that."
    parts = differing_parts([choice.words for choice in choices])
    return f"{_sentence(' or '.join(digit_by_digit(parts) or parts))}?"


def answers_to(choices: Sequence[Choice]) -> dict[str, Command]:
    """
    Words that name one of the two choices asked about, each with the choice.

    >>> from grammar import understand
    >>> heard = ("bravo three minus fifteen", "bravo three minus fifty")
    >>> list(answers_to([Choice(understand(words)[0], words) for words in heard]))
    ['fifteen', 'fifty', 'one five', 'five zero']
    """
    if len(choices) < 2:
        return {}
    parts = differing_parts([choice.words for choice in choices])
    if parts[0] == parts[1]:
        return {}
    return {
        part: choice.command
        for ways in (parts, digit_by_digit(parts))
        for part, choice in zip(ways, choices, strict=False)
    }


def digit_by_digit(parts: Sequence[str]) -> list[str]:
    """
    Two confusable numbers digit by digit; empty where they are not confusable.

    The question "fifteen or fifty?" would be as easy to mishear as the reading was, and so
    would its answer.

    >>> digit_by_digit(["one hundred and fifteen", "one hundred and fifty"])
    ['one one five', 'one five zero']
    >>> digit_by_digit(["fifteen", "sixteen"])
    []
    """
    from grammar.figures import in_figures  # only what was heard needs the spoken language

    alike = [" ".join(_SOUND_ALIKE.get(word, word) for word in part.split()) for part in parts]
    figures = [in_figures(part) for part in parts]
    if len(set(alike)) != 1 or not all(_WHOLE_OR_DECIMAL.fullmatch(one) for one in figures):
        return []
    return [spelled_digits(Decimal(one)) for one in figures]


def differing_parts(said: Sequence[str]) -> list[str]:
    """
    The parts in which two sentences differ.

    >>> differing_parts(["alfa one minus twenty five", "alfa one minus twenty"])
    ['twenty five', 'twenty']
    >>> differing_parts(["alfa one plus two inches", "alfa one plus two millimetres"])
    ['inches', 'millimetres']
    """
    first, second = (words.split() for words in said[:2])
    shorter = min(len(first), len(second))
    start = 0
    while start < shorter and first[start] == second[start]:
        start += 1
    end = 0
    while end < shorter - start and first[-1 - end] == second[-1 - end]:
        end += 1
    apart = first[start : len(first) - end] + second[start : len(second) - end]
    if any(_in_a_number(word) for word in apart):
        # A number is said whole: "twenty five or twenty", not "five" against nothing.
        while start and _in_a_number(first[start - 1]):
            start -= 1
        while end and _in_a_number(first[-end]):
            end -= 1
    if start and start + end >= shorter:
        start -= 1
    parts = [words[start : len(words) - end] for words in (first, second)]
    if any(not part or len(part) > MOST_SPOKEN for part in parts):
        return [" ".join(first), " ".join(second)]
    return [" ".join(part) for part in parts]


def _in_a_number(word: str) -> bool:
    return word in _NUMBER_WORDS or word in _PARTS or word.isdigit()


def choice_named(
    text: str, meanings: Sequence[Command], choices: Sequence[Choice]
) -> Command | None:
    """
    The only choice that an answer names; None where it names none, or more than one.

    Parameters
    ----------
    text : str
        The answer as it was said.
    meanings : sequence of Command
        What it can mean by itself, completed where that is possible; empty where it is in no
        phrase.
    choices : sequence of Choice
    """
    named = answers_to(choices).get(" ".join(_words(text)))
    if named is not None:
        return named
    for test in (_is_itself, _has_its_reading):
        found = [choice for choice in choices if any(test(m, choice) for m in meanings)]
        if len(found) == 1:
            return found[0].command
    if meanings:
        # Anything else that makes sense is a command of its own.
        return None
    return _by_its_words(text, choices)


def _is_itself(meaning: Command, choice: Choice) -> bool:
    return meaning == choice.command


def _has_its_reading(meaning: Command, choice: Choice) -> bool:
    """Whether it is the choice's reading: "minus fifteen" or "fifteen" for B3 -15 mm."""
    reading = getattr(choice.command, "reading", None)
    if not isinstance(meaning, TakeReading) or not isinstance(reading, Reading):
        return False
    if meaning.point not in (None, getattr(choice.command, "point", None)):
        return False
    given = meaning.reading
    if given.unit not in (*UNSAID, reading.unit) or abs(given.number) != abs(reading.number):
        return False
    return not given.side_said or (given.number < 0) == (reading.number < 0)


def _by_its_words(text: str, choices: Sequence[Choice]) -> Command | None:
    """The choice of which the answer is a part, where that part is not in the other."""
    if len(choices) < 2:
        return None
    said = _words(text)
    parts = [_words(part) for part in differing_parts([choice.words for choice in choices])]
    found = [
        choice
        for choice, part in zip(choices, parts, strict=False)
        if _holds(_words(choice.words), said) and _holds(said, part)
    ]
    return found[0].command if len(found) == 1 else None


def _words(text: str) -> list[str]:
    return [word.text for word in split_words(text.lower())]


def _holds(longer: Sequence[str], shorter: Sequence[str]) -> bool:
    """Whether one row of words stands within the other, unbroken."""
    count = len(shorter)
    return count > 0 and any(
        list(longer[at : at + count]) == list(shorter) for at in range(len(longer) - count + 1)
    )


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]
