"""Levels against sounds whose level is known."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.sound.loudness import (
    SILENCE_DB,
    Crowd,
    NoiseFloor,
    above_pauses_db,
    clipped_part,
    level_db,
    power,
    quietest_power,
    snr_db,
)


def test_levels() -> None:
    sine = np.sin(2 * np.pi * np.arange(16_000) / 16)
    assert level_db(sine) == pytest.approx(-3.01, abs=0.01)  # exact arithmetic: 10 log10(1/2)
    assert level_db(0.1 * sine) == pytest.approx(-23.01, abs=0.01)
    assert level_db(np.zeros(100)) == SILENCE_DB
    assert level_db(np.zeros(0)) == SILENCE_DB


def test_clipping() -> None:
    assert clipped_part(np.array([0.0, 1.0, -1.0, 0.5])) == 0.5
    assert clipped_part(np.zeros(0)) == 0.0


def test_the_floor_needs_a_few_frames_and_leaves_out_a_dropped_trowel() -> None:
    floor = NoiseFloor()
    for _ in range(7):
        floor.add(1e-4)
    assert floor.level_db is None
    floor.add(1.0)
    assert floor.level_db == pytest.approx(-40)
    floor.forget()
    assert floor.power is None


def test_the_floor_follows_a_mixer_that_is_switched_on() -> None:
    floor = NoiseFloor(frames=20)
    for each in [1e-6] * 50 + [1e-2] * 20:
        floor.add(each)
    assert floor.level_db == pytest.approx(-20)


@pytest.mark.parametrize("true_db", [20.0, 10.0, 5.0, 0.0])
def test_speech_over_noise(true_db: float) -> None:
    noise = 1e-3
    assert snr_db([noise * (1 + 10 ** (true_db / 10))] * 5, noise) == pytest.approx(true_db)


def test_speech_over_nothing_and_nothing_over_noise() -> None:
    assert snr_db([0.1], 0.0) == 60.0
    assert snr_db([1e-3], 1e-3) == -10.0
    assert snr_db([], 1e-3) is None


def test_where_nobody_paused_the_quietest_tenth_stands_in() -> None:
    assert quietest_power([1e-4, *[1e-2] * 9]) == pytest.approx(1e-4)
    assert quietest_power([]) == 0.0


def test_a_crowd_is_told_only_where_it_is_never_quiet() -> None:
    noisy, quiet = Crowd(), Crowd()
    for _ in range(20):
        for crowd, soft in ((noisy, 0.05), (quiet, 1e-5)):
            crowd.is_behind(1.0)
            crowd.is_behind(soft)
    assert [noisy.is_behind(0.05) for _ in range(2)] == [True, True]
    assert [quiet.is_behind(0.05) for _ in range(2)] == [False, False]
    noisy.forget()
    assert not noisy.is_behind(0.05)


def test_power_does_not_overflow_in_the_narrow_type() -> None:
    assert power(np.full(10, 200.0, np.float16)) == pytest.approx(40_000)


def test_speech_above_its_own_pauses() -> None:
    random = np.random.default_rng(1)
    speech = np.where(np.arange(16_000) % 4_000 < 3_000, 0.1, 0.001) * random.normal(size=16_000)
    assert above_pauses_db(speech) == pytest.approx(40.0, abs=3.0)
    loud = speech + 0.05 * random.normal(size=16_000)
    assert above_pauses_db(loud) == pytest.approx(7.0, abs=3.0)
    assert above_pauses_db(np.zeros(16_000)) == 0.0
    assert above_pauses_db(np.zeros(10)) == 0.0
