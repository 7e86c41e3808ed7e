"""What can be said of a floor's flatness and levelness, and what it is held to."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import EITHER_FLOOR, Ask, Change, Measure
from grammar.frozen import frozen


@frozen
class AskFlatness(Ask):
    """F-numbers, or why there are none."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR


@frozen
class AskStraightedge(Ask):
    """The largest gap under a straightedge laid anywhere along what was read."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    length: Measure | None = None
    """None for 2 metres."""


@frozen
class ChooseSpec(Change):
    """The floor is held to a specification."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    name: str
    """As said, lower case, single spaces."""


@frozen
class SetOwnSpec(Change):
    """The floor is held to a gap under a straightedge, in somebody's own words."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    gap: Measure
    length: Measure


@frozen
class DropSpecs(Change):
    """The floor is held to nothing any more."""


@frozen
class AskVerdicts(Ask):
    """Whether what the floor is held to is met, as far as the readings tell."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR


@frozen
class ListSpecs(Ask):
    """What a floor can be held to."""


@frozen
class AskScan(Ask):
    """The many points that were imported: what came of them, and the floor from above."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR


@frozen
class DropScan(Change):
    """The points that were imported count for nothing any more."""
