"""Messages about the job file itself."""

from __future__ import annotations

from typing import Any, Protocol

from grammar.frozen import frozen


class FileNews(Protocol):
    """Something that happened to the file; reported once."""

    @property
    def text(self) -> str:
        """The message to read."""

    @property
    def spoken(self) -> str:
        """The message to say."""

    @property
    def data(self) -> dict[str, Any]:
        """The message's data, for programs."""


@frozen
class RecordedAfterAll:
    """The disk failed while a line was written; now it can be read, and the line is there."""

    said: str

    @property
    def text(self) -> str:
        """The message to read."""
        return f"The disk failed over “{self._last}”, but it was recorded after all."

    @property
    def spoken(self) -> str:
        """The message to say."""
        return "The disk failed, but the last line was recorded after all."

    @property
    def data(self) -> dict[str, Any]:
        """The message's data, for programs."""
        return {"recorded_after_all": self._last}

    @property
    def _last(self) -> str:
        return self.said.splitlines()[-1] if self.said else ""
