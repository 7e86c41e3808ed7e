"""Sound as a stream: chunks of one rate, and gaps where sound did not arrive."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

SAMPLE_RATE = 16_000
"""Samples a second that every engine wants; whoever records, resamples."""


@dataclass(frozen=True, slots=True)
class MissingSound:
    """Stands in a stream for sound that did not arrive."""

    reason: Literal["closed", "lost", "back", "overflow", "behind"]
    """A reply was being played; the microphone went, or is there again; the device, or
    we, could not keep up."""
    seconds: float = 0.0
    """Length of the gap, as well as it is known."""
    text: str = ""
    """Message to the user; may be empty."""
