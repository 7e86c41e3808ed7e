"""Barge-in: did somebody speak while a reply was played, and where can listening go on.

While a reply is played nothing is recognised, as it would be our own words. But the microphone's
sound is kept for a moment and the reply is subtracted from it, so that nobody wrongly believes
that they were heard:

- a voice in the remainder is somebody else's. The reply stops, and they are asked to say it
  again, since some of their words were lost under it.
- a voice that goes on after the reply was only half heard. Listening goes on only after a moment
  of quiet, which also lets the room's echo die down.

Comparing levels would be enough with an earpiece; beside a loudspeaker it misses a voice that is
no louder than the reply, and one that ends with it.
"""

from __future__ import annotations

import statistics
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

import numpy as np

from assistant.ears.endpointing import FRAME, FRAME_S, EndpointRules
from assistant.ears.utterances import Detector
from assistant.sound.chunks import SAMPLE_RATE, MissingSound
from assistant.sound.echo import as_it_came, without_echo
from assistant.sound.loudness import power

ONE_BREATH_S = EndpointRules().hang_over_s
"""A voice that comes this soon after another may continue it, as in any utterance."""
VOICE = 0.5
"""Probability of speech from which a frame counts as a voice."""
HUSH = 0.35
"""Probability below which it counts as quiet; as where an utterance ends."""
ENOUGH_FRAMES = 10
"""Frames of a voice, a third of a second: a cough or a dropped trowel is shorter, and of the reply
at most six are left."""
LATELY = 5
"""Replies that are remembered: a loudspeaker that distorts leaves more of each of them."""
FAINTEST = 10 ** (-20 / 10)
"""Part of the loudest power; fainter sound is left-over echo or somebody far off."""
OTHERS_PART = (0.25, 1.5)
"""Least and most part of a frame's power that may be left where somebody else speaks. Less is the
reply's own; more was subtracted from silence, as the reply was stopped before its end."""
NEAR_JUMP = 12
"""Frames left out on both sides of where a device dropped sound, as it cannot be known whose voice
is in them: the place is known to a quarter of a second, and the room rings on for a moment. In
simulated rooms five of 240 dropouts are still taken for somebody. More hears less of others."""
LOOK_S = 0.5
"""Between checks during a reply; each takes up to a tenth of a second of one core."""
LONGEST_LOOKED_AT_S = 20.0
"""Longest part of one answer. Longer ones are lists, whose end nobody has to wait for."""
QUIET_FRAMES = 3
"""0.1 s without a voice; pauses between the words of a command are shorter, as measured on the
benchmark's voices. For a speaker who hesitates see `quiet_s`."""
LONGEST_S = 1.0
"""A voice that goes on this long after a reply is no echo of it: bare rooms ring for two
seconds, but no detector takes the end of that for speech."""
WARM_FRAMES = 15
"""Sound from before that the detector gets, to notice a voice that has begun already."""


class BargeInWatch:
    """
    Follows the microphone's sound during a reply, and until it is quiet after it.

    Parameters
    ----------
    detector : Detector
        Tells voices from the rest. Nobody else may use it between :meth:`mouth_speaks` and
        the end of :meth:`settled`, as it remembers what it heard.
    """

    def __init__(self, detector: Detector) -> None:
        self._detector = detector
        self._lately: deque[int] = deque(maxlen=LATELY)
        self.mouth_speaks(None)

    def mouth_speaks(self, said: np.ndarray | None) -> None:
        """A reply begins; `said` is its sound, (n,) float32 at 16 kHz, where it is known."""
        self._said = said
        self._rest = np.zeros(0, np.float32)
        self._closed: list[np.ndarray] = []
        self._after: list[np.ndarray] = []
        self._looked_at = 0
        self._quiet_frames = 0
        self._breath: float | None = None
        self.spoken_over = False
        """Somebody spoke during the reply."""
        self.under_way = False
        """A voice was going on where listening went on."""

    def forget(self) -> None:
        """Forget the reply: what is said from here on has nothing to do with it."""
        self.under_way = self.spoken_over = False
        self._breath = None

    def overheard(self, sound: np.ndarray) -> bool:
        """Take more sound from during the reply; True once, where somebody speaks over it."""
        self._closed += self._frames(sound)
        frames = len(self._closed)
        if self.spoken_over or (frames - self._looked_at) * FRAME_S < LOOK_S:
            return False
        self._looked_at = frames
        self.spoken_over = self._is_another(self._others())
        return self.spoken_over

    def settled(self, sound: np.ndarray) -> np.ndarray | None:
        """
        Take more sound from after the reply; (n,) float32, 16 kHz mono.

        Returns the sound to recognise from, once there is any: from a quiet moment on, or after
        a voice so long that it must be somebody's; :attr:`under_way` says which.
        """
        if not self._after:
            self._warm_up()
        for frame in self._frames(sound):
            self._after.append(frame)
            self._look_at(frame)
        if self._quiet_frames >= QUIET_FRAMES and self._after:
            # Some of the quiet goes along: a soft beginning is found late.
            found = self._after[-min(self._quiet_frames, len(self._after)) :]
        elif len(self._after) * FRAME_S >= LONGEST_S:
            found, self.under_way = self._after, True
        else:
            return None
        self._ended()
        return np.concatenate((*found, self._rest))

    @property
    def quiet_s(self) -> float | None:
        """Quiet between the last voice and where listening went on; None where there was none."""
        return self._breath

    # --- frames -------------------------------------------------------------------------

    def _frames(self, sound: np.ndarray) -> list[np.ndarray]:
        sound = np.concatenate((self._rest, sound))
        whole = len(sound) - len(sound) % FRAME
        self._rest = sound[whole:]
        return [sound[at : at + FRAME] for at in range(0, whole, FRAME)]

    def _warm_up(self) -> None:
        self._detector.reset()
        self._quiet_frames = 0
        for frame in self._closed[-WARM_FRAMES:]:
            self._look_at(frame)

    def _look_at(self, frame: np.ndarray) -> None:
        quiet = self._detector(frame) < HUSH
        self._quiet_frames = self._quiet_frames + 1 if quiet else 0

    def _others(self) -> list[int] | None:
        """Numbers of the frames with a voice that is not the reply's; None where unknown."""
        frames = [*self._closed, *self._after]
        if self._said is None or not frames or len(frames) * FRAME_S > LONGEST_LOOKED_AT_S:
            return None
        heard = np.concatenate(frames)
        found = self._voices(frames, without_echo(heard, self._said))
        if len(found) < ENOUGH_FRAMES:
            return found
        came, jumps = as_it_came(heard, self._said)
        if not jumps:
            return found
        found = self._voices(frames, without_echo(heard, came))
        return [at for at in found if all(abs(at - jump / FRAME) > NEAR_JUMP for jump in jumps)]

    def _voices(self, frames: list[np.ndarray], left: np.ndarray) -> list[int]:
        """Numbers of the frames with a voice left after subtracting the reply, (n,)."""
        powers = [power(frame) for frame in frames]
        faintest = FAINTEST * sorted(powers)[-min(QUIET_FRAMES, len(powers))]
        self._detector.reset()
        found = []
        for number, (rest, whole) in enumerate(zip(left.reshape(-1, FRAME), powers, strict=True)):
            voice, size = self._detector(rest) >= VOICE, power(rest)
            least, most = (part * whole for part in OTHERS_PART)
            if voice and max(faintest, least) < size < most:
                found.append(number)
        return found

    # --- what it comes to -----------------------------------------------------------------

    def _is_another(self, others: list[int] | None) -> bool:
        usual = statistics.median(self._lately) if self._lately else 0
        return others is not None and len(others) >= ENOUGH_FRAMES + usual

    def _ended(self) -> None:
        others = self._others()
        frames = len(self._closed) + len(self._after)
        if others is None:
            # What would be left of it is not known: the reply itself was the last voice.
            self._breath = self._quiet_frames * FRAME_S
        else:
            if len(others) >= QUIET_FRAMES:
                self._breath = (frames - 1 - others[-1]) * FRAME_S
            self.spoken_over = self.spoken_over or self._is_another(others)
            self._lately.append(len(others))
        self.spoken_over = self.spoken_over or self.under_way


class WatchedSound:
    """
    A microphone's sound to be recognised, which goes on after each reply where it safely can.

    Parameters
    ----------
    watch : MouthWatch
    is_wanted : callable
        Whether to watch just now; where not, listening goes on at once.
    spoken_over : callable
        Called as soon as somebody is noticed who speaks over the reply.
    lost : callable
        Called where somebody did, and then said nothing more that could be answered.
    """

    def __init__(
        self,
        watch: BargeInWatch,
        is_wanted: Callable[[], bool],
        spoken_over: Callable[[], None],
        lost: Callable[[], None],
    ) -> None:
        self._watch = watch
        self._is_wanted = is_wanted
        self._spoken_over = spoken_over
        self._lost = lost
        self._said: np.ndarray | None = None
        self._held: MissingSound | None = None
        self._held_samples = 0
        self._owed_samples = 0

    def mouth_says(self, said: np.ndarray | None) -> None:
        """A reply is about to be played: this sound, (n,) float32 at 16 kHz."""
        self._said = said

    def overheard(self, sound: np.ndarray) -> None:
        """Take sound from during the reply, (n,) float32, 16 kHz mono."""
        if self._is_wanted() and self._watch.overheard(sound):
            self._spoken_over()

    def began(self, since_s: float) -> tuple[bool, bool]:
        """
        Whether an utterance that begins this long after listening went on missed, or may have
        missed, its beginning.

        Answers for the first one only; the next begins after a pause that was heard.
        """
        watch = self._watch
        missed = watch.under_way or self._owed_samples > 0
        quiet_s = watch.quiet_s
        doubtful = quiet_s is not None and quiet_s + since_s < ONE_BREATH_S
        self._owed_samples = 0
        watch.forget()
        return missed, doubtful

    def items(
        self, chunks: Iterable[np.ndarray | MissingSound]
    ) -> Iterator[np.ndarray | MissingSound]:
        """The microphone's items, without what is only the reply's echo."""
        for item in chunks:
            if isinstance(item, MissingSound):
                yield from self._gap(item)
            elif self._held is None:
                self._pay(len(item))
                yield item
            else:
                yield from self._settling(item)

    def _gap(self, gap: MissingSound) -> Iterator[MissingSound]:
        if self._held is not None:
            yield self._let_go()
        if gap.reason != "closed":
            self._watch.forget()
        elif not gap.seconds:
            self._watch.mouth_speaks(self._said)
        elif self._is_wanted():
            self._held, self._held_samples = gap, 0
            return
        yield gap

    def _settling(self, sound: np.ndarray) -> Iterator[np.ndarray | MissingSound]:
        self._held_samples += len(sound)
        if not self._is_wanted():  # a key: whoever presses it speaks after it
            self._watch.forget()
            yield self._let_go()
            yield sound
            return
        found = self._watch.settled(sound)
        if found is None:
            return
        self._held_samples -= len(found)
        yield self._let_go()
        if self._watch.spoken_over and not self._watch.under_way:
            self._owed_samples = round(ONE_BREATH_S * SAMPLE_RATE)
        yield found

    def _let_go(self) -> MissingSound:
        held, self._held = self._held, None
        assert held is not None
        return replace(held, seconds=held.seconds + self._held_samples / SAMPLE_RATE)

    def _pay(self, samples: int) -> None:
        """Report a voice over the reply that nothing more followed, so was not heard."""
        if self._owed_samples:
            self._owed_samples = max(0, self._owed_samples - samples)
            if not self._owed_samples:
                self._lost()
