"""Somebody speaks while the mouth does: it stops, says so, and nothing is recorded by halves."""

from __future__ import annotations

import io
import queue
import time
from collections.abc import Callable, Iterator
from functools import partial

import numpy as np
import pytest
from scipy.signal import fftconvolve

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.ears.script import ScriptEngine, heard_text
from assistant.listening.listen_chat import SAID_OVER, ListenChat
from assistant.listening.listening import Listening
from assistant.listening.open_ears import HeardOne, Inbox, OpenEars
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.sound.chunks import MissingSound
from assistant.terminal.opening import Opening
from assistant.terminal.output import PlainOutput
from assistant.terminal.screen import Screen
from tests.speech.stand_in_chat import B3, FIFTEEN_OR_FIFTY, Mouth
from tests.speech.stand_in_ears import Level
from tests.speech.stand_in_sound import MOUTH, RANDOM, USER, quiet, voice

MINUS = "minus eighteen millimetres"
"""A whole command, and the end of another one."""


class Room:
    """A microphone in a room where a mouth speaks, ears on it, and the chat behind them."""

    def __init__(self, *lines: str, hands_free: bool = True) -> None:
        self.overhear: Callable[[np.ndarray], None] | None = None
        self.mouth_says: Callable[[np.ndarray | None], None] | None = None
        self._given: queue.SimpleQueue[np.ndarray | MissingSound | Callable[[], None] | None]
        self._given = queue.SimpleQueue()
        self._journal = Journal.open(None)
        self.talk = Conversation(self._journal, World(cards_in(shipped_folder())))
        for line in ("room 8 by 6 metres", "grid 2 metres"):
            self.talk.hear(line)
        opening = Opening(lambda: self.talk, lambda: None)
        opening.conversation  # noqa: B018 - opened now
        self.mouth, self.inbox, self.file = Mouth(), Inbox(), io.StringIO()
        self.ears = OpenEars(
            ScriptEngine(lines), self, self.inbox, hands_free=hands_free, detector=Level()
        )
        self.chat = ListenChat(
            opening,
            Screen(PlainOutput(self.file, 70)),
            self.mouth,
            lambda: Listening(self.talk, keep_miss=self._journal.note_miss),
            self.ears,
        )
        self.ears.start()

    # --- the microphone

    def __enter__(self) -> Iterator[np.ndarray | MissingSound]:
        return self._chunks()

    def __exit__(self, *_: object) -> None:
        self._given.put(None)

    def open_now(self) -> None:
        pass

    def _chunks(self) -> Iterator[np.ndarray | MissingSound]:
        while (item := self._given.get(timeout=10)) is not None:
            if callable(item):
                item()
            else:
                yield item

    # --- what happens in the room

    def hears(self, *sounds: np.ndarray | MissingSound) -> None:
        for sound in sounds:
            if isinstance(sound, MissingSound):
                self._given.put(sound)
                continue
            for at in range(0, len(sound), 400):  # no multiple of a frame
                self._given.put(sound[at : at + 400])

    def mouth_speaks(
        self, said: np.ndarray, *over: np.ndarray, gain: float = 1.0, known: bool = True
    ) -> None:
        """The microphone gets it at some gain and a little late, and what others say over it."""
        self.closes_for(said if known else None)
        sound = gain * np.concatenate((quiet(0.1), said))[: len(said)]
        if over:
            sound += np.concatenate((*over, quiet(len(said) / 16_000)))[: len(said)]
        self.overhears(sound)
        self._given.put(MissingSound("closed", len(said) / 16_000))

    def closes_for(self, said: np.ndarray | None) -> None:
        def told() -> None:
            assert self.mouth_says is not None
            self.mouth_says(said)

        self._given.put(told)
        self._given.put(MissingSound("closed"))

    def overhears(self, sound: np.ndarray) -> None:
        def given(piece: np.ndarray) -> None:
            assert self.overhear is not None
            self.overhear(piece)

        for at in range(0, len(sound), 400):
            self._given.put(partial(given, sound[at : at + 400].astype(np.float32)))

    # --- what comes of it

    def arrive(self, count: int = 1, wait_s: float = 10.0) -> list[HeardOne]:
        """Hand over all that arrives until so many utterances have."""
        found: list[HeardOne] = []
        until = time.monotonic() + wait_s
        while len(found) < count and time.monotonic() < until:
            if (item := self.inbox.take()) is None:
                time.sleep(0.01)
                continue
            self.chat.arrived(item)
            if isinstance(item, HeardOne):
                found.append(item)
        return found

    @property
    def readings(self) -> dict[str, int]:
        return {point: int(reading.mm) for point, reading in self.talk.job.readings.items()}

    @property
    def shown(self) -> str:
        return " ".join(self.file.getvalue().split())

    def close(self) -> None:
        self.ears.close()
        self._journal.close()


@pytest.fixture
def room() -> Iterator[Callable[..., Room]]:
    made: list[Room] = []

    def make(*lines: str, hands_free: bool = True) -> Room:
        made.append(Room(*lines, hands_free=hands_free))
        return made[-1]

    yield make
    for one in made:
        one.close()


# --- half heard -----------------------------------------------------------------------------


def test_what_was_begun_over_the_mouth_is_asked_for_again(room: Callable[..., Room]) -> None:
    here = room(MINUS, B3)
    here.mouth_speaks(voice(2.0, MOUTH))
    here.hears(voice(1.5, MOUTH), quiet(1.0))  # as loud as the mouth: only its going on tells
    (heard,) = here.arrive()
    assert heard.beginning == "missed"
    assert here.readings == {}
    assert "I was speaking, so the beginning of that was not heard" in here.shown
    assert MINUS in here.shown
    assert here.mouth.said == ["I was speaking. Say that again."]
    here.hears(voice(1.5), quiet(1.0))
    here.arrive()
    assert here.readings == {"B3": -18}


def test_what_is_said_after_the_mouth_is_heard_from_its_first_sample(
    room: Callable[..., Room],
) -> None:
    here = room(B3)
    here.mouth_speaks(voice(2.0, MOUTH))
    said = voice(1.2)
    here.hears(voice(0.1, MOUTH), quiet(0.2), said, quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning in ("heard", "doubtful")
    assert here.readings == {"B3": -18}
    assert heard.sound is not None
    loud = np.abs(heard.sound) > 0.2
    assert loud.sum() == (np.abs(said) > 0.2).sum()
    assert not loud[:1600].any()


def test_the_ring_of_a_bare_room_is_nobody(room: Callable[..., Room]) -> None:
    here = room(B3)
    said = voice(2.0, MOUTH)
    # Down by 60 dB in three quarters of a second.
    at = np.arange(12_000) / 16_000
    ring = fftconvolve(said, RANDOM.normal(0, 0.02, len(at)) * 10 ** (-4 * at)).astype(np.float32)
    here.mouth_speaks(said, ring, gain=0.0)
    here.hears(ring[len(said) :], quiet(2.0), voice(1.2), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "heard"
    assert here.readings == {"B3": -18}
    assert here.mouth.stopped == 1
    assert "I was speaking" not in here.shown


def test_one_who_ends_just_after_the_mouth_is_told(room: Callable[..., Room]) -> None:
    here = room()
    here.mouth_speaks(voice(2.0, MOUTH), quiet(1.8), voice(0.2, MOUTH))
    here.hears(voice(0.4, MOUTH), quiet(1.0))
    (heard,) = here.arrive()
    assert (heard.beginning, heard.whole) == ("missed", False)
    assert here.mouth.said == ["I was speaking. Say that again."]


@pytest.mark.parametrize("reason", ["overflow", "behind", "back"])
def test_the_end_of_what_lost_its_middle_is_no_number(
    room: Callable[..., Room], reason: str
) -> None:
    here = room("bravo three", MINUS)
    here.hears(voice(0.8), MissingSound(reason, 0.4, "Sound was lost."), voice(1.0), quiet(1.0))  # type: ignore[arg-type]
    first, second = here.arrive(2)
    assert not first.whole
    assert second.beginning == "cut"
    assert here.readings == {}
    assert here.shown.count("Only a part of that was heard") == 2


def test_after_lost_sound_and_a_pause_all_is_heard(room: Callable[..., Room]) -> None:
    here = room(B3)
    here.hears(MissingSound("overflow", 0.4), quiet(0.8), voice(1.0), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "heard"
    assert here.readings == {"B3": -18}


# --- perhaps half heard -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "readings", "asked"),
    [
        (MINUS, {}, "A1 -18 mm: confirm, or cancel that?"),
        ("take that back", {}, "confirm, or cancel that?"),
        (B3, {"B3": -18}, ""),
        ("tally", {}, ""),
    ],
)
def test_what_may_be_the_end_of_something_longer_is_asked_about(
    room: Callable[..., Room], said: str, readings: dict[str, int], asked: str
) -> None:
    here = room(said, "confirm")
    # A short word over the end of the answer, a breath, and the rest.
    here.mouth_speaks(voice(2.0, MOUTH), quiet(1.75), voice(0.25, MOUTH))
    here.hears(quiet(0.3), voice(1.2), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "doubtful"
    assert here.readings == readings
    assert asked in here.shown
    if asked:
        assert "its beginning may be missing" in here.shown


def test_an_answer_is_taken_all_the_same(room: Callable[..., Room]) -> None:
    here = room("minus fifteen millimetres")
    here.chat.arrived(HeardOne(FIFTEEN_OR_FIFTY))
    here.mouth_speaks(voice(2.0, MOUTH), quiet(1.75), voice(0.25, MOUTH))
    here.hears(quiet(0.25), voice(1.2), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "doubtful"
    assert here.readings == {"B3": -15}


@pytest.mark.parametrize("gain", [0.0, 1.0], ids=["earpiece", "loudspeaker"])
def test_where_nobody_else_was_heard_nothing_is_doubted(
    room: Callable[..., Room], gain: float
) -> None:
    here = room(MINUS)
    here.mouth_speaks(voice(2.0, MOUTH), gain=gain)
    here.hears(quiet(0.2), voice(1.2), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "heard"
    assert here.readings == {"A1": -18}


def test_a_mouth_whose_sound_is_not_known_is_taken_for_anybody(room: Callable[..., Room]) -> None:
    here = room(MINUS, B3)
    here.mouth_speaks(voice(2.0, MOUTH), known=False)
    here.hears(quiet(0.3), voice(1.2), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "doubtful"
    here.mouth_speaks(voice(2.0, MOUTH), known=False)
    here.hears(quiet(1.0), voice(1.2), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "heard"


# --- the mouth gives way ----------------------------------------------------------------------


@pytest.mark.parametrize("size", [MOUTH, USER], ids=["no louder", "louder"])
@pytest.mark.parametrize("gain", [0.0, 1.0], ids=["earpiece", "loudspeaker"])
def test_somebody_who_speaks_over_it_stops_it_and_is_told(
    room: Callable[..., Room], gain: float, size: float
) -> None:
    here = room(MINUS)
    here.mouth_speaks(voice(2.5, MOUTH), quiet(0.4), voice(1.0, size), gain=gain)
    here.hears(quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "missed"
    assert here.mouth.stopped == 1
    assert here.mouth.said == ["I was speaking. Say that again."]
    assert here.readings == {}


def test_somebody_who_goes_on_is_told_at_the_end(room: Callable[..., Room]) -> None:
    here = room(MINUS)
    here.mouth_speaks(voice(1.5, MOUTH), quiet(0.8), voice(0.7))
    # "Bravo three", a breath, "minus eighteen millimetres".
    here.hears(quiet(0.2), voice(1.2), quiet(2.0))
    (heard,) = here.arrive()
    assert heard.beginning == "missed"
    assert here.readings == {}
    assert here.arrive(wait_s=0.3) == []
    assert here.mouth.said == ["I was speaking. Say that again."]


def test_its_own_voice_never_stops_it(room: Callable[..., Room]) -> None:
    here = room()
    for gain in (1.0, 0.1, 3.0, 0.0, 1.0):
        here.mouth_speaks(voice(1.5, MOUTH), gain=gain)
        here.hears(quiet(1.0))
    assert here.arrive(wait_s=0.5) == []
    assert here.mouth.stopped == 0


def test_a_mouth_that_was_stopped_is_nobody_else(room: Callable[..., Room]) -> None:
    here = room()
    said = voice(3.0, MOUTH)
    here.closes_for(said)
    for sound in (said[:16_000], quiet(0.3)):
        here.overhears(sound)
    here.hears(MissingSound("closed", 1.3), quiet(1.5))
    assert here.arrive(wait_s=0.7) == []


def test_a_loudspeaker_that_always_distorts_is_believed_in_the_end(
    room: Callable[..., Room],
) -> None:
    here = room()
    for _ in range(6):
        # What cannot be made of what was said, each time.
        here.mouth_speaks(voice(1.5, MOUTH), quiet(0.3), voice(0.6, MOUTH))
        here.hears(quiet(1.0))
    assert len(here.arrive(3, wait_s=3.0)) in (1, 2)


def test_the_mouth_cannot_talk_with_itself(room: Callable[..., Room]) -> None:
    here = room(*[""] * 6)
    for _ in range(6):
        here.mouth_speaks(voice(1.0, MOUTH))
        here.hears(voice(1.5, MOUTH), quiet(1.0))
        assert len(here.arrive()) == 1
    assert len(here.mouth.said) == SAID_OVER
    assert here.shown.count("I was speaking, so") == 6


def test_hushed_ears_say_nothing_of_it(room: Callable[..., Room]) -> None:
    here = room(MINUS)
    here.ears.hush()
    here.mouth_speaks(voice(1.0, MOUTH), voice(1.0))
    here.hears(voice(1.5, MOUTH), quiet(1.0))
    here.arrive(wait_s=0.5)
    assert here.mouth.said == []
    assert here.shown == ""


# --- the key, and who waits for whom -----------------------------------------------------------


def test_what_is_said_after_the_talk_key_is_whole_however_soon(room: Callable[..., Room]) -> None:
    here = room(B3, hands_free=False)
    here.mouth_speaks(voice(0.5, MOUTH))
    here.chat.press()
    here.hears(voice(1.2), quiet(1.0))
    (heard,) = here.arrive()
    assert (heard.beginning, heard.by_key) == ("heard", True)
    assert here.readings == {"B3": -18}
    assert here.mouth.stopped == 2  # the key, and the voice


def test_an_answer_waits_until_nobody_speaks(room: Callable[..., Room]) -> None:
    here = room("bravo one minus nine millimetres")
    here.hears(voice(0.5))
    until = time.monotonic() + 5
    while not here.ears.busy and time.monotonic() < until:
        time.sleep(0.01)
    here.chat.arrived(HeardOne(heard_text(B3)))
    here.chat.tick()
    assert here.mouth.said == []
    here.hears(voice(0.5), quiet(1.0))
    here.arrive()
    (said,) = here.mouth.said
    assert said.index("Bravo three, one eight") < said.index("Bravo one, nine")
