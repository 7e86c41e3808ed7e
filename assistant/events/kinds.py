"""What every event is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class Event:
    """A fact about the job."""

    NAME: ClassVar[str] = ""
    VERSION: ClassVar[int] = 1
