"""What can be wrong with words, or with a value that should become words."""

from __future__ import annotations


class GrammarError(Exception):
    """Base of all errors here: something that the language cannot take or cannot say."""


class Impossible(GrammarError):
    """Words that can only be read in a way that makes no sense; the message is the rule broken."""

    start = 0
    """Offset in the text where the senseless part begins."""


class LikeTalk(Impossible):
    """Words that open a name, and go on as talk about something: it may be about another matter."""


class Unsayable(GrammarError):
    """A value that the spoken language has no words for."""
