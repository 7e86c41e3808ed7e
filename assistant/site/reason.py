"""A reason not to pour yet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from grammar.frozen import frozen


@frozen
class Reason:
    """Something that stands against pouring now."""

    id: str
    """Stable: the same matter always has the same id."""
    message: str
    source: str
    """Who says so, or that it is common practice."""
    clears_by: str
    """What to do about it."""

    def as_data(self) -> dict[str, str]:
        """The reason as data for programs."""
        return {
            "id": self.id,
            "message": self.message,
            "source": self.source,
            "clears_by": self.clears_by,
        }


def once_each(found: Iterable[Iterable[Reason]]) -> Iterator[Reason]:
    """Reasons of several products, the first of each matter."""
    seen: set[str] = set()
    for reason in chain.from_iterable(found):
        if reason.id not in seen:
            seen.add(reason.id)
            yield reason
