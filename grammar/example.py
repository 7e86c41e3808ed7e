"""Words that may be said, as an example of them is shown to somebody."""

from __future__ import annotations

from collections.abc import Iterable

from grammar.frozen import frozen


@frozen
class Example:
    """
    What could be said, in the units of whoever reads it: an example is there to be said.

    >>> Example("grid 2 metres", "grid 6 feet").in_unit("in")
    'grid 6 feet'
    """

    metric: str
    inches: str
    """The same where readings are in inches."""

    def in_unit(self, unit: str) -> str:
        """The words where readings are in `unit`, ``mm`` or ``in``."""
        return self.inches if unit == "in" else self.metric


Worded = str | Example
"""A piece of a message: words, or an example, which is worded by the job's unit."""


def worded(pieces: Iterable[Worded], unit: str = "mm") -> str:
    """
    All pieces one after the other, for a job whose readings are in `unit`.

    >>> worded(("The room first: ", Example("room 12 by 8 metres", "room 40 by 26 feet"), "."))
    'The room first: room 12 by 8 metres.'
    """
    return "".join(piece if isinstance(piece, str) else piece.in_unit(unit) for piece in pieces)
