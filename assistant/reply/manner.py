"""How replies are said: how much of them, how fast, how loud, or not at all."""

from __future__ import annotations

from dataclasses import replace

from grammar.frozen import frozen

LENGTHS = ("short", "usual", "long")
FASTER = 1.15
"""Of speech, with each "faster"; a step smaller than a tenth is hardly heard."""
SPEEDS = (0.5, 2.0)
LOUDER = 1.4
"""Of the sound pressure with each "louder", three decibels."""
LOUDNESSES = (0.25, 4.0)


@frozen
class Manner:
    """How replies are said, until it is said otherwise."""

    length: str = "usual"
    """Of ``LENGTHS``."""
    speed: float = 1.0
    """Times the speed that was chosen for the voice."""
    loudness: float = 1.0
    """Times the loudness that the voice has by itself."""
    quiet: bool = False
    """Nothing is said aloud but what stops the work."""

    def adjusted(self, word: str) -> Manner:
        """
        The manner after one word: shorter, longer, slower, faster, softer, louder, quiet, speak.

        >>> Manner().adjusted("shorter").length, Manner().adjusted("quiet").quiet
        ('short', True)
        """
        match word:
            case "shorter" | "longer":
                at = LENGTHS.index(self.length) + (1 if word == "longer" else -1)
                return replace(self, length=LENGTHS[min(max(at, 0), len(LENGTHS) - 1)])
            case "slower" | "faster":
                by = FASTER if word == "faster" else 1 / FASTER
                return replace(self, speed=_within(self.speed * by, SPEEDS))
            case "softer" | "louder":
                by = LOUDER if word == "louder" else 1 / LOUDER
                return replace(self, loudness=_within(self.loudness * by, LOUDNESSES))
            case "quiet" | "speak":
                return replace(self, quiet=word == "quiet")
            case _:
                raise ValueError(f"no manner is called {word!r}")


def _within(number: float, ends: tuple[float, float]) -> float:
    return round(min(max(number, ends[0]), ends[1]), 3)
