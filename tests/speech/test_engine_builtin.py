"""The built-in engine: without its model, and with it."""

from __future__ import annotations

import sys
import time
from pathlib import Path

import numpy as np
import pytest

from assistant.ears import moonshine
from assistant.ears.builtin import BuiltinEngine
from assistant.ears.hearing import EarsError, Heard
from assistant.ears.moonshine import Moonshine, model_folder
from assistant.errors import LeadsmanError
from grammar.spoken import Spoken

RATE = 16_000

# --- without the model ------------------------------------------------------------


def test_without_the_package_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(moonshine, "PACKAGE", "no-such-package-here")
    with pytest.raises(EarsError, match=r"leadsman\[voice\]"):
        model_folder()


def test_a_package_without_the_model_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(moonshine, "PACKAGE", "pytest")
    monkeypatch.setattr(moonshine, "_FOLDER", "moonshine_voice/assets/none-such")
    with pytest.raises(EarsError, match="carries no speech model"):
        model_folder()


def test_without_the_runtime_it_says_how_to_get_it(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setitem(sys.modules, "onnxruntime", None)
    with pytest.raises(LeadsmanError, match=r"leadsman\[voice\]"):
        Moonshine(tmp_path)


# --- with it ------------------------------------------------------------------------


@pytest.fixture(scope="module")
def engine() -> BuiltinEngine:
    pytest.importorskip("onnxruntime", reason="onnxruntime is not installed")
    try:
        return BuiltinEngine()
    except EarsError as missing:
        pytest.skip(str(missing))


def hear(engine: BuiltinEngine, sound: np.ndarray, ahead: bool = False) -> Heard:
    engine.start()
    for at in range(0, len(sound), 1_600):
        engine.feed(sound[at : at + 1_600])
    if ahead:
        engine.maybe_end()
    return engine.finish()


@pytest.fixture(scope="module")
def reading() -> np.ndarray:
    """ "Bravo three minus eighteen millimeters", with the quiet that an utterance comes with."""
    hibari = pytest.importorskip("hibari", reason="hibari-tts is not installed")
    sound = hibari.Hibari()("Bravo three, minus eighteen millimeters.", seed=0)
    at = np.arange(0, len(sound), 24_000 / RATE)
    return np.interp(at, np.arange(len(sound)), sound).astype(np.float32)


@pytest.mark.voice
def test_the_packages_own_code_is_not_loaded(engine: BuiltinEngine) -> None:
    assert engine.info()["runtime"].startswith("onnxruntime")
    assert "moonshine_voice" not in sys.modules


@pytest.mark.voice
def test_a_reading_is_heard(engine: BuiltinEngine, reading: np.ndarray) -> None:
    heard = hear(engine, reading)
    assert (heard.canonical, heard.tier) == ("B3 -18 mm", "sure")
    assert heard.confidence > 0.9
    assert [one.canonical for one in heard.alternatives][1:] != []
    assert heard.speech_s == pytest.approx(len(reading) / RATE)


@pytest.mark.voice
def test_work_done_ahead_gives_the_same_and_costs_no_wait(
    engine: BuiltinEngine, reading: np.ndarray
) -> None:
    late = hear(engine, reading)
    engine.start()
    engine.feed(reading)
    engine.maybe_end()
    time.sleep(2 * late.heard_s)
    early = engine.finish()
    assert early.canonical == late.canonical
    assert early.heard_s < late.heard_s


@pytest.mark.voice
def test_speech_that_goes_on_after_a_pause_is_not_lost(
    engine: BuiltinEngine, reading: np.ndarray
) -> None:
    half = len(reading) * 2 // 5
    engine.start()
    engine.feed(reading[:half])
    engine.maybe_end()
    engine.feed(reading[half:])
    assert engine.finish().canonical == "B3 -18 mm"


@pytest.mark.voice
def test_one_utterance_knows_nothing_of_the_last(
    engine: BuiltinEngine, reading: np.ndarray
) -> None:
    hear(engine, reading)
    engine.start()
    assert engine.finish().tier == "none"


@pytest.mark.voice
@pytest.mark.parametrize("sound", [np.zeros(0), np.zeros(RATE), np.full(RATE // 20, 0.1)])
def test_silence_is_nothing(engine: BuiltinEngine, sound: np.ndarray) -> None:
    heard = hear(engine, sound.astype(np.float32))
    assert (heard.tier, heard.command) == ("none", None)


@pytest.mark.voice
def test_what_is_no_number_does_not_stop_it(engine: BuiltinEngine, reading: np.ndarray) -> None:
    broken = reading.copy()
    broken[100:110] = np.nan
    assert hear(engine, broken).canonical == "B3 -18 mm"


@pytest.mark.voice
def test_noise_is_never_taken(engine: BuiltinEngine) -> None:
    noise = np.random.default_rng(1).standard_normal(2 * RATE).astype(np.float32) * 0.1
    assert hear(engine, noise).tier != "sure"


@pytest.mark.voice
def test_a_long_talk_is_not_decoded(engine: BuiltinEngine) -> None:
    noise = np.random.default_rng(1).standard_normal(20 * RATE).astype(np.float32) * 0.1
    heard = hear(engine, noise)
    assert heard.tier == "again"
    assert heard.heard_s < 0.2


@pytest.mark.voice
def test_settings_can_change_between_utterances(engine: BuiltinEngine, reading: np.ndarray) -> None:
    engine.use(Spoken("digits", names=("Fine 40", "Бета")))
    try:
        info = engine.info()
        assert (info["numbers"], info["missing words"]) == ("digits", "none")
        engine.use(Spoken("digits", names=("Fine 40", "ᚠᚢᚦ")))
        assert engine.info()["missing words"] == "ᚠᚢᚦ"
    finally:
        engine.use(Spoken())
    assert hear(engine, reading).canonical == "B3 -18 mm"
