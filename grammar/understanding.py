"""A line of words to the commands it can mean."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from grammar.commands import Ask, Command
from grammar.commands.talk import WhatIf
from grammar.contractions import in_full
from grammar.errors import Impossible
from grammar.floor_figure import with_its_reading
from grammar.match import NoParse, meanings_of, parse
from grammar.misses import Misunderstood
from grammar.supposed import is_bare, several_supposed
from grammar.words import Word, filler_alone, join_words, split_words, without_courtesies


# Who walks a floor says the same few values over and over; a parse takes as long as all else that a
# reading needs. Commands never change, and nothing but the words decides what they mean.
@lru_cache(maxsize=512)
def understand(text: str) -> tuple[Command, ...]:
    """
    Every distinct thing a line can mean, at least one; none for a line without words.

    Raises
    ------
    Misunderstood
        Says where the line stopped making sense, what would have been accepted
        there, and the nearest line that works.

    Examples
    --------
    >>> understand("bravo three minus eighteen millimetres")
    (TakeReading(point='B3', reading=Reading(number=Decimal('-18'), unit='mm', side_said=True)),)
    """
    words = split_words(text)
    if not words:
        return _likelier(meanings_of(filler_alone(text)))
    try:
        return several_supposed(words) or with_its_reading(words, _likelier(parse(words)))
    except NoParse as stop:
        for less in _said_otherwise(words):
            if commands := several_supposed(less) or _likelier(meanings_of(less)):
                return with_its_reading(less, commands)
        if commands := _meant_widely(text, words):
            return commands
        from grammar.plain_words import in_plain_words  # a line that is understood does without

        if (plain := in_plain_words(words)) and (commands := _in_plain_words(text, plain)):
            return commands
        raise Misunderstood(text, words, stop) from None
    except Impossible as trouble:
        if "?" not in text and (readings := _readings(words)):
            return readings
        raise Misunderstood(text, words, None, trouble) from None


def _meant_widely(text: str, words: list[Word]) -> tuple[Command, ...]:
    """Readings among words of reading them off, or a question among what people put around one."""
    if "?" not in text and (readings := _readings(words)):
        return readings
    if text.rstrip().endswith("?") and (asked := _named_and_asked(words)):
        return asked
    for less in _asked_otherwise(words):
        commands = _likelier(meanings_of(less))
        if commands and all(isinstance(each, Ask) for each in commands):
            return commands
    return ()


_LEADS = ("what is", "how is", "what was", "how many", "show", "what are")
_FEW = 4


def _named_and_asked(words: list[Word]) -> tuple[Command, ...]:
    """What is asked of a thing that is only named: "finish?", "door 1?"."""
    if len(words) > _FEW:
        return ()
    line = join_words(word.text for word in words).removesuffix(" was").removesuffix(" is")
    for lead in _LEADS:
        found = meanings_of(split_words(f"{lead} {line}"))
        if len(found) == 1 and isinstance(found[0], Ask):
            return found
    return ()


def _readings(words: list[Word]) -> tuple[Command, ...]:
    from grammar.read_off import (
        corrected,
        read_off,
    )  # it takes the whole language, which begins here

    return read_off(words) or corrected(words)


def _in_plain_words(text: str, words: list[Word]) -> tuple[Command, ...]:
    """What a line means that was written out with care."""
    for less in (words, *_said_otherwise(words)):
        commands = several_supposed(less) or _likelier(meanings_of(less))
        # "Cheers, thirty eight" is no reading whose side is to be asked.
        if commands and not any(map(_is_bare_number, commands)):
            return commands
    return _meant_widely(text, words)


def _is_bare_number(command: Command) -> bool:
    return is_bare(command) and not getattr(command, "reading").side_said  # noqa: B009


_AS_OFTEN_AS_SAID = ({"undo"}, {"redo"})
"""Words that are done once for each time they are said in one line."""


def _said_otherwise(words: list[Word]) -> Iterator[list[Word]]:
    """The same words without what is only polite, and with those drawn together in full."""
    if (times := len(words)) > 1 and {word.text for word in words} in _AS_OFTEN_AS_SAID:
        yield split_words(f"{words[0].text} {times}")
    yield from without_courtesies(words)
    if full := in_full(words):
        yield full
        yield from without_courtesies(full)


def _asked_otherwise(words: list[Word]) -> Iterator[list[Word]]:
    """The same words as a question, without what people put around one."""
    from grammar.asking import asked_plainly  # a line that is understood does without

    for less in ([*without_courtesies(words), words][0], in_full(words)):
        if less:
            yield from asked_plainly(less)


def _likelier(commands: tuple[Command, ...]) -> tuple[Command, ...]:
    """
    Without a supposed reading of no point, where something else may be meant.

    "Up 2" may be the next point's reading; nobody asks "what if" of a point that is not named.
    """
    named = tuple(
        each
        for each in commands
        if not (isinstance(each, WhatIf) and any(map(is_bare, each.changes)))
    )
    # "Two hundred and ten over the highest" is one change rather than two.
    fewest = min(map(_count_supposed, named or commands), default=0)
    return tuple(each for each in named or commands if _count_supposed(each) == fewest)


def _count_supposed(command: Command) -> int:
    return len(command.changes) if isinstance(command, WhatIf) else 0
