"""What every event is, and the one that is about the record itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class Event:
    """A fact about the job."""

    NAME: ClassVar[str] = ""
    VERSION: ClassVar[int] = 1


@dataclass(frozen=True, slots=True)
class UtteranceScratched(Event):
    """All that one utterance recorded no longer counts; scratching this one brings it back."""

    NAME: ClassVar[str] = "utterance-scratched"
    utterance: int
