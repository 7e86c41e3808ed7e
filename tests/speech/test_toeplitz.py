"""Quick equations against scipy's, which go the long way."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.linalg import solve_toeplitz, toeplitz

from assistant.sound import toeplitz as ours
from assistant.sound.toeplitz import toeplitz_solution
from tests.speech.stand_in_sound import voice


def filter_of(sound: np.ndarray, taps: int, firm: float) -> np.ndarray:
    """The first column of a filter's equations; `firm` keeps them from rounding errors."""
    spectrum = np.abs(np.fft.rfft(sound, 2 * len(sound))) ** 2
    column: np.ndarray = np.fft.irfft(spectrum)[:taps]
    column[0] *= 1 + firm
    return column


@pytest.mark.parametrize("taps", [1, 2, 3, 250, 4001])
@pytest.mark.parametrize("sound", ["voice", "noise"])
def test_it_is_what_the_long_way_gives(sound: str, taps: int) -> None:
    random = np.random.default_rng(taps)
    said = voice(2.0, 0.3).astype(float) if sound == "voice" else random.normal(size=8000)
    column, right = filter_of(said, taps, 1e-3), random.normal(size=taps)
    assert toeplitz_solution(column, right) == pytest.approx(
        solve_toeplitz(column, right), rel=1e-4, abs=1e-6 * np.abs(right).max() / column[0]
    )


def test_what_is_left_over_is_small() -> None:
    column, right = filter_of(voice(1.0, 0.3).astype(float), 600, 1e-3), np.arange(600.0)
    left = toeplitz(column) @ toeplitz_solution(column, right) - right
    assert np.linalg.norm(left) < 1e-8 * np.linalg.norm(right)


def test_equations_of_nothing_give_nothing() -> None:
    assert not np.any(toeplitz_solution(np.array([2.0, 1.0, 0.5]), np.zeros(3)))


def test_where_it_comes_no_nearer_it_goes_the_long_way(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ours, "_MOST_STEPS", 2)
    column, right = filter_of(voice(1.0, 0.3).astype(float), 300, 1e-3), np.ones(300)
    assert np.array_equal(toeplitz_solution(column, right), solve_toeplitz(column, right))
