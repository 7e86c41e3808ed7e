"""Small things shared by all the pieces a phrase is made of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


class Impossible(Exception):
    """A way of reading some words that makes no sense; the text is the rule it breaks."""

    start = 0
    """Offset in the text where the senseless part begins."""


@dataclass(frozen=True, slots=True)
class Bound:
    """A value that fills a field of a command."""

    field: str
    value: Any


@dataclass(frozen=True, slots=True)
class Slot:
    """One kind of thing that a phrase can hold."""

    rule: str
    """Name of its lark rule."""
    short: Callable[[Any], str]
    """The value in its short typed form."""
    told: str
    """What it is called where it is missing: "a point, like B3"."""
    sample: str
    """Words that would fill it."""
