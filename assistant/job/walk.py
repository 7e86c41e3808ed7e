"""The walk from point to point: the next point to read, and points that cannot be read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from grammar.frozen import frozen


@frozen
class Walk:
    """The state of the walk over one floor."""

    goes_to: str | None = None
    """The point that was named to go to, until something is read."""
    is_again: bool = False
    """Whether the point read last had been read before."""
    skipped: Mapping[str, str] = field(default_factory=dict)
    """Points that cannot be read, with the reason as it was said; empty where none was."""
