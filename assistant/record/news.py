"""What there is to tell of a job file, beside what was said."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Protocol


class FileNews(Protocol):
    """Something that became of the file; told once."""

    @property
    def told(self) -> str:
        """To read."""

    @property
    def spoken(self) -> str:
        """To hear."""

    @property
    def data(self) -> dict[str, Any]:
        """For programs."""


@dataclass(frozen=True, slots=True)
class RecordedAfterAll:
    """The disk failed, and of a line nobody could tell; now it can be read, and there it is."""

    said: str

    @property
    def told(self) -> str:
        """To read."""
        return f"The disk failed over “{self._last}”, but it was recorded after all."

    @property
    def spoken(self) -> str:
        """To hear."""
        return "The disk failed, but the last line was recorded after all."

    @property
    def data(self) -> dict[str, Any]:
        """For programs."""
        return {"recorded_after_all": self._last}

    @property
    def _last(self) -> str:
        return self.said.splitlines()[-1] if self.said else ""
