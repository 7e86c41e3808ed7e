"""What can be wrong with words, or with a value that should become words."""

from __future__ import annotations


class GrammarError(Exception):
    """Anything that the language cannot take or say; each below says more."""


class Impossible(GrammarError):
    """A way of reading some words that makes no sense; the text is the rule it breaks."""

    start = 0
    """Offset in the text where the senseless part begins."""


class Unsayable(GrammarError):
    """A value that the spoken language has no words for."""
