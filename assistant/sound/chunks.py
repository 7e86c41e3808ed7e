"""Sound as it comes: chunks of one rate, and gaps where it did not arrive."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

SAMPLE_RATE = 16_000
"""Samples a second that every engine wants; whoever records, resamples."""


@dataclass(frozen=True, slots=True)
class MissingSound:
    """Sound that did not arrive, in its place among the sound that did."""

    reason: Literal["closed", "lost", "back", "overflow", "behind"]
    """The ears were closed on purpose; the microphone went, or is there again; the device, or
    we, could not keep up."""
    seconds: float = 0.0
    """Length of what is missing, as well as it is known."""
    text: str = ""
    """What to tell the user; nothing where there is nothing to tell."""
