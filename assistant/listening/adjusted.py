"""The mouth as it was last asked to be: faster, slower, louder, softer, or silent."""

from __future__ import annotations

from collections.abc import Callable

from assistant.reply.manner import Manner
from assistant.voice.espeak import SystemSpeaker
from assistant.voice.silence import Silence
from assistant.voice.speaker import Speaker

OpenMouth = Callable[[Manner], Speaker]


class AdjustedSpeaker:
    """
    A speaker that is made anew where it is to sound otherwise.

    Parameters
    ----------
    open_mouth : callable
        Makes the speaker for a manner.
    manner : Manner
        The one to begin with.
    speaks : bool
        False begins in silence, until somebody says "speak".
    """

    def __init__(self, open_mouth: OpenMouth, manner: Manner, *, speaks: bool = True) -> None:
        self._open_mouth = open_mouth
        self._manner = manner
        self._speaker: Speaker = open_mouth(manner) if speaks else Silence()
        self._speaks = speaks

    def adjust(self, manner: Manner, *, speaks: bool = False) -> str:
        """
        Sound so from the next word on; `speaks` where it is asked for aloud.

        Returns why it cannot, for a voice that plays by itself; else nothing.
        """
        louder = manner.loudness != self._manner.loudness
        sounds = (manner.speed, manner.loudness) != (self._manner.speed, self._manner.loudness)
        self._manner = manner
        begins, self._speaks = speaks and not self._speaks, self._speaks or speaks
        if begins or (sounds and self._speaks):
            self._speaker.close()
            self._speaker = self._open_mouth(manner)
        if louder and isinstance(self._speaker, SystemSpeaker):
            return "This voice plays by itself: how loud it is, the system's own settings say."
        return ""

    @property
    def speaking(self) -> bool:
        """Whether something is being said, or about to be."""
        return self._speaker.speaking

    def say(self, text: str) -> None:
        """Begin to say it, and return at once."""
        self._speaker.say(text)

    def stop(self) -> None:
        """Say no more."""
        self._speaker.stop()

    def wait(self, timeout_s: float | None = None) -> bool:
        """Wait until all is said; False where it took longer."""
        return self._speaker.wait(timeout_s)

    def close(self) -> None:
        """Stop, and release everything."""
        self._speaker.close()
