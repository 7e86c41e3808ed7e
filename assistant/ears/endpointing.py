"""Endpointing: when speech begins and ends, from its probability in each 32 ms frame.

No sound and no model here: a probability for each frame comes in, changes of state go out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

FRAME = 512
"""Samples the detector looks at, 32 ms at 16 kHz."""
FRAME_S = FRAME / 16_000

Step = Literal["began", "maybe ended", "went on", "ended", "too long"]


@dataclass(frozen=True, slots=True)
class EndpointRules:
    """When an utterance begins and ends."""

    begin: float = 0.5
    """Probability that begins speech. Higher misses soft starts, lower takes up knocks."""
    hold: float = 0.35
    """Probability that keeps it going. Higher cuts soft endings, lower hangs on in noise."""
    begin_frames: int = 3
    """Frames in a row that begin it: a knock is shorter than 0.1 s, no command is."""
    pre_roll_s: float = 0.3
    """Sound kept from before the beginning: the detector is late for a soft "s" or "h"."""
    maybe_s: float = 0.25
    """A pause after which an engine may begin to decode. Shorter starts in vain more often."""
    hang_over_s: float = 0.6
    """A pause that ends the utterance. Shorter cuts slow speakers, longer answers later."""
    longest_s: float = 12.0
    """Longest utterance: no command takes half as long, but noise may never pause."""


class Endpointer:
    """The state between frames: whether somebody speaks, and how long they have paused."""

    def __init__(self, rules: EndpointRules | None = None) -> None:
        self.rules = rules or EndpointRules()
        self._maybe = _frames(self.rules.maybe_s)
        self._hang_over = _frames(self.rules.hang_over_s)
        self._longest = _frames(self.rules.longest_s)
        self.reset()

    def reset(self) -> None:
        """Start afresh, with nobody speaking."""
        self.speaking = False
        self.quiet_frames = 0
        """Frames since speech was last heard, while `speaking`."""
        self._spoke = False
        self._frames = 0
        self._row = 0

    def begin(self, spoke: bool = False) -> None:
        """An utterance begins here, by a key; `spoke`: the detector has heard speech in it."""
        self.reset()
        self.speaking = True
        self._spoke = spoke

    def step(self, probability: float) -> Step | None:
        """Take one more frame; returns what it changes, or None."""
        if self.speaking:
            return self._listening(probability)
        self._row = self._row + 1 if probability >= self.rules.begin else 0
        if self._row < self.rules.begin_frames:
            return None
        frames = self._row
        self.begin(spoke=True)
        self._frames = frames
        return "began"

    def _listening(self, probability: float) -> Step | None:
        self._frames += 1
        if probability >= self.rules.hold:
            was_quiet, self.quiet_frames, self._spoke = self.quiet_frames, 0, True
            if self._frames < self._longest:
                return "went on" if was_quiet >= self._maybe else None
        elif self._spoke:
            self.quiet_frames += 1
            if self.quiet_frames >= self._hang_over:
                self.reset()
                return "ended"
            return "maybe ended" if self.quiet_frames == self._maybe else None
        if self._frames < self._longest:
            return None
        self.reset()
        return "too long"


def _frames(seconds: float) -> int:
    """
    The number of whole frames that last at least this long.

    >>> _frames(0.25), _frames(0.6)
    (8, 19)
    """
    return max(1, -int(-seconds // FRAME_S))
