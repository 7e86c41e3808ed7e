"""Was somebody speaking while the mouth spoke, and where may the ears take up again.

While the mouth speaks nothing is heard as words, as it would be our own. But its sound is kept
for a moment, and what the mouth said is taken out of it, so that nobody is left to believe that
they were heard:

- a voice in what is left is somebody else's. The mouth gives way, and what was said is asked
  for again: there is no telling what words were lost under it.
- a voice that goes on when the mouth has ended is half heard. The ears take up only where it
  was quiet for a moment, which also waits for the room to die down.

Only levels compared would do with an earpiece; beside a loudspeaker they miss a voice that is
no louder than the mouth, and a voice that ends with it.
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
"""A voice that comes so soon after another may go on from it, as in any utterance."""
VOICE = 0.5
"""Probability of speech from which a frame counts as a voice."""
HUSH = 0.35
"""Probability below which it counts as quiet; as where an utterance ends."""
ENOUGH_FRAMES = 10
"""Frames of a voice, a third of a second: a cough or a dropped trowel is shorter, and of the mouth
at most six are left."""
LATELY = 5
"""Times the mouth spoke that are remembered: a loudspeaker that distorts leaves more, always."""
FAINTEST = 10 ** (-20 / 10)
"""Of the loudest power; what is fainter is a remnant or somebody far off."""
OTHERS_PART = (0.25, 1.5)
"""Of a frame's power that must be left for it not to be the mouth's. Less is the mouth's own; more
was never there, but taken out of a silence: the mouth was stopped and did not say all of it."""
NEAR_JUMP = 12
"""Frames on both sides of where a device dropped sound that do not tell whose voice it is: where
it was is known to a quarter of a second, and the room goes on for a moment. In simulated rooms
five of 240 dropouts are still taken for somebody. More hears less of others."""
LOOK_S = 0.5
"""Between looks while the mouth speaks; each takes up to a tenth of a second of one core."""
LONGEST_LOOKED_AT_S = 20.0
"""Of one answer. What goes on for longer is a list, and nobody is asked to wait for its end."""
QUIET_FRAMES = 3
"""0.1 s without a voice: between the words of a command it is shorter, measured on the
benchmark's voices; a speaker who hesitates is what `quiet_s` is for."""
LONGEST_S = 1.0
"""A voice that goes on so long after the mouth is nobody's echo: bare rooms ring for two
seconds, but no detector takes the end of that for speech."""
WARM_FRAMES = 15
"""The detector looks at so much from before, to know a voice that is under way."""


class BargeInWatch:
    """
    What the microphone gets while the mouth speaks, and until it is quiet after it.

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
        """The ears are closed from here on; `said` is (n,) float32 at 16 kHz, where it is known."""
        self._said = said
        self._rest = np.zeros(0, np.float32)
        self._closed: list[np.ndarray] = []
        self._after: list[np.ndarray] = []
        self._looked_at = 0
        self._quiet_frames = 0
        self._breath: float | None = None
        self.spoken_over = False
        """Somebody spoke over the mouth."""
        self.under_way = False
        """A voice was going on where the ears took up."""

    def forget(self) -> None:
        """What is said from here on has nothing to do with what the mouth said."""
        self.under_way = self.spoken_over = False
        self._breath = None

    def overheard(self, sound: np.ndarray) -> bool:
        """More of what came while the mouth spoke; True once, where somebody speaks over it."""
        self._closed += self._frames(sound)
        frames = len(self._closed)
        if self.spoken_over or (frames - self._looked_at) * FRAME_S < LOOK_S:
            return False
        self._looked_at = frames
        self.spoken_over = self._is_another(self._others())
        return self.spoken_over

    def settled(self, sound: np.ndarray) -> np.ndarray | None:
        """
        More of what came after the mouth has ended; (n,) float32, 16 kHz mono.

        What the ears take up with, once they may: from a quiet moment on, or after a voice
        has gone on for so long that it is somebody's; :attr:`under_way` tells which.
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
        """Quiet between the last voice and where the ears took up; None where there was none."""
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
        """Numbers of the frames with a voice that is not the mouth's; None where unknown."""
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
        """Numbers of the frames with a voice in what is left of them, (n,)."""
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
            # Not known what is left of it: the mouth itself was the last voice.
            self._breath = self._quiet_frames * FRAME_S
        else:
            if len(others) >= QUIET_FRAMES:
                self._breath = (frames - 1 - others[-1]) * FRAME_S
            self.spoken_over = self.spoken_over or self._is_another(others)
            self._lately.append(len(others))
        self.spoken_over = self.spoken_over or self.under_way


class WatchedSound:
    """
    What a microphone gives, with the ears taking up where they may once the mouth has spoken.

    Parameters
    ----------
    watch : MouthWatch
    is_wanted : callable
        Whether to watch just now; without, the ears take up at once.
    spoken_over : callable
        Told that somebody speaks over the mouth, as soon as it is noticed.
    lost : callable
        Told that somebody did, and says nothing more of it that could be answered.
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
        """The ears are about to be closed for this, (n,) float32 at 16 kHz."""
        self._said = said

    def overheard(self, sound: np.ndarray) -> None:
        """What came while the mouth spoke, (n,) float32, 16 kHz mono."""
        if self._is_wanted() and self._watch.overheard(sound):
            self._spoken_over()

    def began(self, since_s: float) -> tuple[bool, bool]:
        """
        An utterance begins, so long after the ears took up: did it miss its beginning; may it have.

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
        """The same, without what is only the mouth's echo."""
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
        """Somebody who spoke over the mouth and says no more is told that they were not heard."""
        if self._owed_samples:
            self._owed_samples = max(0, self._owed_samples - samples)
            if not self._owed_samples:
                self._lost()
