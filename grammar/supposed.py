"""Several changes supposed at once: "what if lower 2, product X and at most 12 mm".

The grammar takes them joined by "and". Commas, "with", and names, which hold any word up to the
end of a line, are parted here: a line is cut where each piece is a change by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import islice, product

from grammar.commands import Change, Command
from grammar.commands.readings import TakeReading
from grammar.commands.talk import WhatIf
from grammar.language import name_openers
from grammar.match import meanings_of
from grammar.numbers import DIGITS, TEENS, TENS
from grammar.phrases import PHRASES
from grammar.template import SlotNode, walk_template
from grammar.words import FRACTION, NUMERAL, Word

_LEAD = ("what", "if")
_JOINTS = frozenset(("and", "with", "then"))
_MOST_JOINTS = 8
"""Lines with more places to cut are taken as they stand; each pair of places costs a parse."""
_MOST_MEANINGS = 8

Cut = tuple[tuple[Change, ...], ...]
"""The changes that each piece can mean."""


def several_supposed(words: list[Word]) -> tuple[WhatIf, ...]:
    """
    What a line supposes, cut into as many changes as it holds; empty where it is no such line.

    >>> from grammar.language import short_form
    >>> from grammar.words import split_words
    >>> line = "what if product harbour fine, waste 10 percent with at most 12 mm"
    >>> [short_form(each) for each in several_supposed(split_words(line))]
    ['what if product harbour fine and waste 10 percent and most depth 12 mm']
    """
    if tuple(word.text for word in words[:2]) != _LEAD:
        return ()
    lead, rest = words[:2], words[2:]
    places = [at for at in range(1, len(rest)) if _may_part(rest, at)]
    if not 0 < len(places) <= _MOST_JOINTS:
        return ()

    @cache
    def meant(start: int, end: int) -> tuple[Change, ...]:
        found = meanings_of([*lead, *rest[start:end]])
        changes = [one.change for one in found if isinstance(one, WhatIf) and not one.also]
        return tuple(each for each in changes if not is_bare(each) and not _own_words(each))

    def goes_on(start: int, end: int) -> bool:
        """Whether a comma stands inside one change: "A1 -8, B1 -9". A name would take anything."""
        if end == len(rest) or rest[end].text in _JOINTS:
            return False
        longer = (at for at in (*places, len(rest)) if at > end and meant(start, at))
        return any(not _holds_a_name(rest[start:at]) for at in longer)

    @cache
    def cut(start: int) -> Cut | None:
        """The rest of the line in the most pieces; None where it cannot be cut into changes."""
        best: Cut | None = None
        for end in (*(at for at in places if at > start), len(rest)):
            if not (changes := meant(start, end)) or goes_on(start, end):
                continue
            following = () if end == len(rest) else cut(_after_joint(rest, end))
            if following is not None and (best is None or len(following) + 1 > len(best)):
                best = (changes, *following)
        return best

    found = cut(0)
    if found is None or len(found) < 2:
        return ()
    if all(isinstance(change, TakeReading) for piece in found for change in piece):
        return ()  # readings in one breath are one change
    ways = islice(product(*found), _MOST_MEANINGS)
    return tuple(WhatIf(first, also=tuple(more)) for first, *more in ways)


def _holds_a_name(words: Sequence[Word]) -> bool:
    return any((word.text,) in name_openers() for word in words)


def is_bare(change: Command) -> bool:
    """Whether it is a reading of no point, of which nobody supposes anything."""
    return isinstance(change, TakeReading) and change.point is None


def _own_words(change: Command) -> bool:
    """Whether it holds a sentence of somebody's own, which goes on to the end of the line."""
    return any(
        isinstance(leaf, SlotNode) and leaf.slot == "sentence"
        for phrase in PHRASES
        if phrase.command is type(change)
        for leaf in walk_template(phrase.nodes)
    )


def _may_part(words: Sequence[Word], at: int) -> bool:
    """Whether a change may end before a word, or at it where it joins two."""
    if words[at].text not in _JOINTS:
        return words[at].after_pause
    before = words[at - 1].text
    following = words[at + 1] if at + 1 < len(words) else None
    is_number = following is not None and (
        following.kind in (NUMERAL, FRACTION) or following.text in _NUMBER_WORDS
    )
    # "Two hundred and ten", "five feet and two inches", "an inch and a half" are one number.
    return not (is_number and before in _BEFORE_MORE) and not _is_part(words, at + 1)


_NUMBER_WORDS = frozenset(DIGITS | TEENS | TENS)
_BEFORE_MORE = frozenset("hundred thousand foot feet ft '".split())
_PARTS = ("half", "halves", "quarter", "quarters", "eighth", "eighths", "sixteenth", "sixteenths")


def _is_part(words: Sequence[Word], at: int) -> bool:
    """Whether a fraction stands there: "a half", "five eighths", "3/8"."""
    if at < len(words) and words[at].kind == FRACTION:
        return True
    return any(word.text.startswith(_PARTS) for word in words[at : at + 2])


def _after_joint(words: Sequence[Word], at: int) -> int:
    """The first word of the next piece: after "and", or after a comma and "and"."""
    while at < len(words) and words[at].text in _JOINTS:
        at += 1
    return at
