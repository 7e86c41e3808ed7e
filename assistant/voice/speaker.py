"""Saying words aloud without making anybody wait for them."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, ExitStack, nullcontext
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from assistant.errors import LeadsmanError
from assistant.voice.gain import with_loudness
from assistant.voice.high_pass import high_passed
from assistant.voice.trim import trim_pauses


class VoiceError(LeadsmanError):
    """A voice that cannot speak; the text says what to do about it."""


class Speaker(Protocol):
    """Says words aloud."""

    @property
    def speaking(self) -> bool:
        """Whether something is being said, or about to be."""

    def say(self, text: str) -> None:
        """Begin to say it, and return at once. What was being said before is broken off."""

    def stop(self) -> None:
        """Say no more, within a tenth of a second."""

    def wait(self, timeout_s: float | None = None) -> bool:
        """Wait until all is said; False where it took longer."""

    def close(self) -> None:
        """Stop, and release everything."""


@dataclass(frozen=True, slots=True, eq=False)
class Speech:
    """A piece of speech, a sentence or so."""

    samples: np.ndarray
    """(n,) float32, mono, within -1 and 1."""
    rate_hz: int


class Voice(Protocol):
    """Makes speech of words; used from one thread at a time."""

    def speech(self, text: str, /) -> Iterator[Speech]:
        """The words, in one piece or more, all at one rate."""


class Player(Protocol):
    """Plays speech."""

    def play(self, speech: Speech, stop: threading.Event) -> None:
        """Return when it is played or `stop` is set. Raises :class:`LeadsmanError`."""


def as_played(pieces: Sequence[Speech], loudness: float = 1.0) -> Speech:
    """A voice's speech for some words, in one piece, as it is clearest beside a mixer."""
    rate_hz = pieces[0].rate_hz
    sound = np.concatenate([piece.samples for piece in pieces])
    return Speech(with_loudness(high_passed(trim_pauses(sound, rate_hz)), loudness), rate_hz)


OnFault = Callable[[LeadsmanError], None]
WhileSpeaking = Callable[[Speech | None], AbstractContextManager[object]]
"""Entered while something sounds; given the sound, where it is known."""


class BackgroundSpeaker:
    """
    A speaker with one thread of its own: there a voice makes speech and a player plays it.

    `while_speaking` is entered for as long as something sounds, so that the ears can be closed,
    and not while a voice still makes the speech. Faults in the thread are handed to `on_fault`,
    once for each kind; the screen has the words in any case. `loudness` is times the voice's own.
    """

    def __init__(
        self,
        voice: Voice,
        player: Player,
        while_speaking: WhileSpeaking = nullcontext,
        on_fault: OnFault | None = None,
        loudness: float = 1.0,
    ) -> None:
        self._voice = voice
        self._loudness = loudness
        self._player = player
        self._while_speaking = while_speaking
        self._on_fault = on_fault
        self._told: set[str] = set()
        self._change = threading.Condition()
        self._text: str | None = None
        self._busy = False
        self._closed = False
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._work, name="voice", daemon=True)
        self._thread.start()

    @property
    def speaking(self) -> bool:
        """Whether something is being said, or about to be."""
        with self._change:
            return self._busy or self._text is not None

    def say(self, text: str) -> None:
        """Begin to say it, and return at once. What was being said before is broken off."""
        with self._change:
            if self._closed:
                return
            self._stop.set()
            self._text = text if text.strip() else None
            self._change.notify_all()

    def stop(self) -> None:
        """Say no more."""
        with self._change:
            self._text = None
            self._stop.set()
            self._change.notify_all()

    def wait(self, timeout_s: float | None = None) -> bool:
        """Wait until all is said; False where it took longer."""
        with self._change:
            return self._change.wait_for(
                lambda: not self._busy and self._text is None, timeout=timeout_s
            )

    def close(self) -> None:
        """Stop, and end the thread."""
        self.stop()
        with self._change:
            self._closed = True
            self._change.notify_all()
        if self._thread is not threading.current_thread():
            self._thread.join(timeout=2.0)

    # --- the thread -------------------------------------------------------------------

    def _work(self) -> None:
        while (next_one := self._next()) is not None:
            text, stop = next_one
            try:
                self._say_now(text, stop)
            except LeadsmanError as fault:
                self._tell(fault)
            except Exception as fault:  # a broken voice must not end the job's thread
                self._tell(VoiceError(f"The voice failed ({type(fault).__name__}: {fault})."))
            finally:
                with self._change:
                    self._busy = False
                    self._change.notify_all()

    def _next(self) -> tuple[str, threading.Event] | None:
        with self._change:
            self._change.wait_for(lambda: self._closed or self._text is not None)
            if self._closed or self._text is None:
                return None
            text, self._text = self._text, None
            # A new flag for each: one that was set for the last text must not stop this one.
            self._stop = threading.Event()
            self._busy = True
            return text, self._stop

    def _say_now(self, text: str, stop: threading.Event) -> None:
        pieces: list[Speech] = []
        for piece in self._voice.speech(text):
            if stop.is_set():
                return
            pieces.append(piece)
        if not pieces:
            return
        # All of it in one: a voice needs a fiftieth of the time that saying it takes.
        speech = as_played(pieces, self._loudness)
        with ExitStack() as closed_ears:
            with self._change:
                # Together with the flag: whoever stops the mouth may open the ears at once,
                # and nothing may close them after that.
                if stop.is_set():
                    return
                closed_ears.enter_context(self._while_speaking(speech))
            self._player.play(speech, stop)

    def _tell(self, fault: LeadsmanError) -> None:
        if self._on_fault is not None and str(fault) not in self._told:
            self._told.add(str(fault))
            self._on_fault(fault)
