"""Small things shared by all the pieces a phrase is made of."""

from __future__ import annotations

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
