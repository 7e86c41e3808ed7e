"""A figure of the floor without its unit: how warm the slab is, or how high the floor stands?"""

from __future__ import annotations

from collections.abc import Sequence

from grammar.commands import Command, Reading
from grammar.commands.readings import TakeReading
from grammar.commands.site import TakeSlabTemperature
from grammar.words import Word

_OF_WARMTH = frozenset("degrees degree temperature temp".split())
_FAHRENHEIT = 50
"""Warmer is no slab by Celsius, and few floors are as far from the zero. Raising it lets more
slabs in Fahrenheit be taken for heights."""


def with_its_reading(words: Sequence[Word], commands: tuple[Command, ...]) -> tuple[Command, ...]:
    """
    The commands, with the reading that a figure of the floor may be as well.

    Nobody sees of "floor is minus 9" which of the two it is. "The slab is at 17" is said of
    warmth alone, and so is what could only be Fahrenheit: the job says then what it takes.

    >>> from grammar.language import short_form
    >>> from grammar.match import meanings_of
    >>> from grammar.words import split_words
    >>> for line in ("slab minus 9", "slab 17 degrees", "slab is at 17", "slab 63"):
    ...     words = split_words(line)
    ...     print([short_form(each) for each in with_its_reading(words, meanings_of(words))])
    ['slab -9 degrees', '-9']
    ['slab 17 degrees']
    ['slab 17 degrees']
    ['slab 63 degrees']
    """
    if len(commands) != 1 or not isinstance(commands[0], TakeSlabTemperature):
        return commands
    warmth, said = commands[0].temperature, {word.text for word in words}
    has_side = bool(said & {"minus", "negative", "-", "plus", "positive", "+"})
    is_warmth = warmth.scale or said & _OF_WARMTH
    if is_warmth or (not has_side and ({"slab", "at"} <= said or warmth.number >= _FAHRENHEIT)):
        return commands
    height = Reading(warmth.number, None, side_said=has_side or not warmth.number)
    return (*commands, TakeReading(commands[0].point, height))
