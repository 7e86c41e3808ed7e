"""What the floor is held to."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Setting
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class SpecChosen(Setting):
    """The floor is held to a named specification."""

    NAME: ClassVar[str] = "spec-chosen"
    spec: str | None
    """Its whole name; None for none any more."""

    def in_words(self) -> str:
        return "the spec"


@frozen
class OwnSpecSet(Setting):
    """The floor is held to a gap under a straightedge."""

    NAME: ClassVar[str] = "own-spec-set"
    gap: Measure | None
    """None for none any more."""
    length: Measure | None

    def in_words(self) -> str:
        return "your own limit under a straightedge"
