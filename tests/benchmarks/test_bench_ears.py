"""How long somebody waits for what was heard, with the work begun as they paused and without."""

from __future__ import annotations

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.ears.builtin import BuiltinEngine
from assistant.errors import EarsError
from assistant.sound.resample import resample_all

pytestmark = pytest.mark.voice


@pytest.fixture(scope="module")
def reading() -> np.ndarray:
    pytest.importorskip("soxr", reason="soxr is not installed")
    mouth = pytest.importorskip("hibari", reason="hibari-tts is not installed").Hibari()
    spoken = mouth("Bravo three, minus eighteen millimeters.", seed=0)
    return np.asarray(resample_all(spoken, mouth.sample_rate))


@pytest.fixture(scope="module")
def engine() -> BuiltinEngine:
    try:
        return BuiltinEngine()
    except EarsError as missing:
        pytest.skip(str(missing))


@pytest.mark.parametrize("ahead", [False, True], ids=["at the end", "ahead"])
def test_an_utterance_is_heard(
    benchmark: BenchmarkFixture, engine: BuiltinEngine, reading: np.ndarray, ahead: bool
) -> None:
    def begin() -> None:
        engine.start()
        engine.feed(reading)
        if ahead:
            engine.maybe_end()
            assert engine._early is not None
            engine._early.result()  # they are quiet for longer than it takes

    heard = benchmark.pedantic(engine.finish, setup=begin, rounds=5)
    assert heard.canonical == "B3 -18 mm"
