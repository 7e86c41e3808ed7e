"""A reason not to pour yet."""

from __future__ import annotations

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
