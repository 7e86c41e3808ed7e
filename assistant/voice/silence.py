"""The speaker that says nothing, for those who read."""

from __future__ import annotations


class Silence:
    """Says nothing, and keeps nothing."""

    speaking = False

    def say(self, text: str) -> None:
        """Nothing is said."""

    def stop(self) -> None:
        """There is nothing to stop."""

    def wait(self, timeout_s: float | None = None) -> bool:  # noqa: ARG002
        """Nothing is being said."""
        return True

    def close(self) -> None:
        """Nothing is open."""
