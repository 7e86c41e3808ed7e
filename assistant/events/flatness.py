"""What the floor is held to."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from assistant.events.kinds import Event, Setting
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


@frozen
class ScanImported(Event):
    """Points of a floor from a file, as cells; the file is kept beside. Each floor has its last."""

    NAME: ClassVar[str] = "scan-imported"
    VERSION: ClassVar[int] = 2
    file: str | None
    """Its name; None for no scan of that floor any more."""
    digest: str = ""
    """SHA-256 of the file."""
    points: int = 0
    """That lie on the floor."""
    off_floor: int = 0
    """That do not, and count for nothing."""
    swapped: bool = False
    """Whether the second place of each point was taken for the first."""
    finished: bool = False
    """Whether it is of the finished floor."""
    good_to: Measure | None = None
    """Standard deviation of one height, beside what the points themselves show."""
    zero: Measure | None = None
    """Height of the job's zero in the file; None where nobody said, and heights are the file's."""
    side: Measure | None = None
    """Of a cell."""
    columns: int = 0
    rows: int = 0
    cells: str = ""
    """Median, count, spread and kind of all cells, row by row, packed; see ``floor.scans.scan``."""
    corner: tuple[Measure, ...] = ()
    """Least x and y of the first cell; none where it is the room's own corner."""
    single: bool = False
    """Whether a cell's height is a reading's own, and no median of many."""
    turn: Decimal | None = None
    """Degrees that the file's axes were turned by, anticlockwise; None where they were not."""
    either: bool = False
    """Whether no floor has one any more, as was meant before each floor had its own."""

    def in_words(self) -> str:
        return "the scan"
