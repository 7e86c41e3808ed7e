"""Recognition in a thread of its own: a microphone's sound in, utterances out to an inbox.

There are three modes. Push to talk: one utterance for each press of the key. Free: everything
that is said. Hushed: only "ears open" is taken.
"""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Literal, Protocol

import numpy as np

from assistant.ears.endpointing import FRAME_S, EndpointRules
from assistant.ears.hearing import NOTHING, Engine, Heard, expect, hear_in_turn, hear_readings_in
from assistant.ears.utterances import (
    Began,
    Detector,
    MaybeEnded,
    Sound,
    SpokenUtterance,
    Utterances,
)
from assistant.errors import LeadsmanError
from assistant.listening.barge_in import BargeInWatch, WatchedSound
from assistant.listening.listening import Beginning
from assistant.sound.chunks import MissingSound
from grammar.commands import Command

UNDER_WAY_S = 0.3
"""A voice that is found this soon after missing sound was there before: the detector takes so
long to notice one in a mixer's noise. Larger refuses people who begin to speak just then."""

Mode = Literal["key", "free", "hushed"]


class Sounds(Protocol):
    """A microphone: opened by ``with``, then chunks of 16 kHz mono and gaps."""

    overhear: Callable[[np.ndarray], None] | None
    """Called with the sound that comes while a reply is played."""
    mouth_says: Callable[[np.ndarray | None], None] | None
    """Called before that with the reply's sound."""

    def open_now(self) -> None:
        """Listen again at once, although a reply was still being played."""

    def __enter__(self) -> Iterable[np.ndarray | MissingSound]:
        """Open it."""

    def __exit__(self, *_: object) -> None:
        """Close it."""


@dataclass(frozen=True, slots=True, eq=False)
class HeardOne:
    """An utterance, as it ended."""

    heard: Heard
    whole: bool = True
    beginning: Beginning = "heard"
    by_key: bool = False
    """A key was pressed for it."""
    sound: np.ndarray | None = None
    """(n,) float32, 16 kHz mono."""


@dataclass(frozen=True, slots=True)
class SpeechBegan:
    """Somebody began to speak, perhaps over the reply; nothing to do but be quiet."""


@dataclass(frozen=True, slots=True)
class Notice:
    """Something that must be shown: a microphone that went away, sound that was lost."""

    text: str
    ears_gone: bool = False
    """Nothing will be heard any more."""


Arrival = HeardOne | SpeechBegan | Notice


class Inbox:
    """A queue of what was heard, for one reader, which is woken when something comes."""

    def __init__(self) -> None:
        self._items: queue.SimpleQueue[Arrival] = queue.SimpleQueue()
        self.wake: Callable[[], None] = lambda: None

    def put(self, item: Arrival) -> None:
        """Add an item, from any thread."""
        self._items.put(item)
        self.wake()

    @property
    def is_empty(self) -> bool:
        """Whether nothing waits."""
        return self._items.empty()

    def take(self) -> Arrival | None:
        """The next item, or None where there is none."""
        try:
            return self._items.get_nowait()
        except queue.Empty:
            return None


class KeyGate:
    """
    Lets the detector be heard only while somebody may speak.

    Between two presses of the key all sound counts as noise, which it is: so an
    utterance starts clean at the key, also in a room full of voices.
    """

    def __init__(self, detector: Detector, is_open: Callable[[], bool]) -> None:
        self._detector = detector
        self._is_open = is_open
        self.frames = 0
        """Frames looked at since the last :meth:`reset`."""

    def __call__(self, frame: np.ndarray) -> float:
        """Probability of speech in (512,) float32; none while the gate is shut."""
        self.frames += 1
        probability = self._detector(frame)
        return probability if self._is_open() else 0.0

    def reset(self) -> None:
        """Start afresh: the next sound does not continue the last."""
        self.frames = 0
        self._detector.reset()


class OpenEars:
    """
    Listens until closed; all that happens goes to the inbox.

    Parameters
    ----------
    engine : Engine
        Loaded, so that the first word is heard.
    microphone : Sounds
    inbox : Inbox
    hands_free : bool
        Begin by taking everything that is said, else wait for the key.
    detector : Detector, optional
    rules : TurnRules, optional
    """

    def __init__(
        self,
        engine: Engine,
        microphone: Sounds,
        inbox: Inbox,
        *,
        hands_free: bool = False,
        detector: Detector | None = None,
        rules: EndpointRules | None = None,
    ) -> None:
        self._engine = engine
        self._microphone = microphone
        self._inbox = inbox
        self.mode: Mode = "free" if hands_free else "key"
        self._detector = detector
        self._rules = rules or EndpointRules()
        self._pressed = False
        self._speaking = False
        self._beginning: Beginning = "heard"
        self._after: MissingSound | None = None
        self._expected: Mapping[str, Command] = {}
        self.reading_unit: Callable[[], str | None] = lambda: None
        self.out_of_turn: Callable[[Command], bool] | None = None
        """Gives the unit of the job's readings; called in this thread when somebody speaks."""
        self._utterances: Utterances | None = None
        self._thread: threading.Thread | None = None
        self.gone = False
        """Whether nothing will be heard any more."""
        self.away = False
        """Whether the microphone is gone at the moment."""

    # --- for the thread that talks to the user ----------------------------------------

    def start(self) -> None:
        """Open the microphone. Raises :class:`LeadsmanError` where there is none."""
        chunks = self._microphone.__enter__()
        detector = self._detector
        if detector is None:
            from assistant.ears.utterances import SileroDetector

            detector = SileroDetector()
        self._gate = KeyGate(detector, self._may_speak)
        self._watched = WatchedSound(
            BargeInWatch(detector),
            lambda: self.mode != "key" and not self._pressed,
            self._is_spoken_over,
            self._was_spoken_over,
        )
        self._microphone.overhear = self._watched.overheard
        self._microphone.mouth_says = self._watched.mouth_says
        self._utterances = Utterances(self._watched.items(chunks), self._gate, self._rules)
        self._thread = threading.Thread(target=self._listen, name="ears", daemon=True)
        self._thread.start()

    def press(self) -> None:
        """The talk key: begin an utterance, or end the one that is being spoken."""
        if self._utterances is None or self.gone:
            return
        if self._pressed and self._speaking:
            self._utterances.end_now()
        else:
            self._pressed = True
            self._microphone.open_now()
            self._utterances.begin_now()

    def expect(self, answers: Mapping[str, Command]) -> None:
        """Set what may answer the waiting question, from the next utterance on."""
        self._expected = answers

    def listen_freely(self) -> None:
        """Take everything that is said."""
        self.mode = "free"

    def hush(self) -> None:
        """Take only what is said with the talk key; where there is none, only "ears open"."""
        self.mode = "hushed" if self.mode in ("free", "hushed") else "key"

    @property
    def state(self) -> str:
        """``off``, ``listening`` (somebody speaks or may), ``ready`` (waits for the key)."""
        if self.gone:
            return "off"
        return "listening" if self._pressed or self.mode == "free" else "ready"

    @property
    def busy(self) -> bool:
        """Whether somebody speaks or has pressed the key to speak, so that we should be silent."""
        return not self.gone and (self._speaking or self._pressed)

    def close(self) -> None:
        """Close the microphone and end the thread."""
        self._microphone.__exit__(None, None, None)
        if self._thread is not None:
            self._thread.join(timeout=3.0)

    # --- the ears' own thread ---------------------------------------------------------

    def _may_speak(self) -> bool:
        return self._pressed or self.mode != "key"

    def _listen(self) -> None:
        assert self._utterances is not None
        try:
            for event in self._utterances.events():
                self._happened(event)
        except LeadsmanError as fault:
            self._end(str(fault))
        except Exception as fault:  # a recogniser that breaks must not take the typed line with it
            self._end(f"The ears failed ({type(fault).__name__}: {fault}).")
        else:
            self.gone = True

    def _end(self, text: str) -> None:
        self.gone = True
        self._inbox.put(Notice(f"{text} Nothing is heard any more; typing goes on.", True))

    def _happened(self, event: Began | Sound | MaybeEnded | SpokenUtterance | MissingSound) -> None:
        if isinstance(event, Began):
            self._speaking = True
            self._beginning = self._how_it_began()
            hear_readings_in(self._engine, self.reading_unit())
            hear_in_turn(self._engine, self.out_of_turn)
            expect(self._engine, self._expected)
            self._engine.start()
            self._inbox.put(SpeechBegan())
        elif isinstance(event, Sound):
            self._engine.feed(event.samples)
        elif isinstance(event, MaybeEnded):
            self._engine.maybe_end()
        elif isinstance(event, SpokenUtterance):
            self._ended(event)
        else:
            self._after = event
            if event.reason in ("lost", "back"):
                self.away = event.reason == "lost"
            if event.text:
                self._inbox.put(Notice(event.text))

    def _how_it_began(self) -> Beginning:
        """Whether its first words may be lost, said before there was sound to hear them in."""
        after, self._after = self._after, None
        if after is None or self._pressed:
            return "heard"
        since_s = max(0, self._gate.frames - self._rules.begin_frames) * FRAME_S
        if after.reason != "closed":
            return "cut" if since_s < UNDER_WAY_S else "heard"
        missed, doubtful = self._watched.began(since_s)
        return "missed" if missed else "doubtful" if doubtful else "heard"

    def _is_spoken_over(self) -> None:
        if self.mode == "free":
            self._inbox.put(SpeechBegan())

    def _was_spoken_over(self) -> None:
        if self.mode == "free":
            self._inbox.put(HeardOne(NOTHING, whole=False, beginning="missed"))

    def _ended(self, utterance: SpokenUtterance) -> None:
        by_key, self._pressed, self._speaking = self._pressed, False, False
        beginning, self._beginning = self._beginning, "heard"
        if self.mode == "key" and not by_key:
            # The rest of an utterance that was too long: nobody was asked to go on.
            return
        spoken = utterance.level_db is not None
        heard = self._engine.finish() if spoken else NOTHING
        self._inbox.put(
            HeardOne(
                replace(heard, snr_db=utterance.snr_db),
                whole=utterance.whole or not spoken,
                beginning=beginning if spoken else "heard",
                by_key=by_key,
                sound=utterance.samples,
            )
        )
