"""A chat that listens, and a sound card made of nothing for tests that record and play for real."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.ears.hearing import Heard
from assistant.listening.listening import Listening
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from tests.speech.stand_in_chat import NOON, Room
from tests.speech.stand_in_ears import Listener


@pytest.fixture
def journal() -> Iterator[Journal]:
    with Journal.open(None, lambda: NOON) as opened:
        yield opened


@pytest.fixture
def talk(journal: Journal) -> Conversation:
    conversation = Conversation(journal, World(cards_in(shipped_folder())))
    for line in ("room 8 by 6 metres", "grid 2 metres"):
        assert conversation.hear(line).ok
    return conversation


@pytest.fixture
def listening(talk: Conversation, journal: Journal) -> Listening:
    return Listening(talk, keep_miss=journal.note_miss, clock=lambda: NOON)


@pytest.fixture
def room(tmp_path: Path, journal: Journal) -> Room:
    return Room(tmp_path, journal)


@pytest.fixture
def listener() -> Iterator[Callable[..., Listener]]:
    made: list[Listener] = []

    def make(*lines: str | Heard, hands_free: bool = False) -> Listener:
        made.append(Listener(list(lines), hands_free))
        return made[-1]

    yield make
    for one in made:
        one.ears.close()
        assert one.microphone.closed


@dataclass
class VirtualSound:
    """A sound server of our own: what is played into it is what its microphone hears."""

    folder: Path
    server: subprocess.Popen[bytes] | None = None
    helpers: list[subprocess.Popen[bytes]] = field(default_factory=list)

    def start(self) -> None:
        script = self.folder / "virtual.pa"
        script.write_text(
            f"load-module module-native-protocol-unix socket={self.folder}/socket\n"
            "load-module module-null-sink sink_name=room rate=48000 channels=1\n"
            "set-default-sink room\nset-default-source room.monitor\n"
        )
        with (self.folder / "log").open("wb") as log:
            self.server = subprocess.Popen(
                ["pulseaudio", "-n", "-F", str(script), "--daemonize=no", "--exit-idle-time=-1",
                 "--use-pid-file=no", "--disable-shm=yes"],
                stdout=log,
                stderr=log,
            )  # fmt: skip
        until = time.monotonic() + 30
        while time.monotonic() < until and not (self.folder / "socket").exists():
            time.sleep(0.02)

    def stop(self) -> None:
        if self.server is not None:
            self.server.kill()
            self.server.wait(timeout=5)
            self.server = None
        (self.folder / "socket").unlink(missing_ok=True)

    def play(self, wav: Path) -> subprocess.Popen[bytes]:
        """Somebody speaks in the room."""
        return self._help("paplay", "--device=room", str(wav))

    def record(self, wav: Path) -> subprocess.Popen[bytes]:
        """Somebody listens in the room."""
        line = ("parecord", "--device=room.monitor", "--file-format=wav", "--channels=1",
                "--rate=48000", "--format=s16le")  # fmt: skip
        return self._help(*line, "--latency-msec=20", str(wav))

    def _help(self, *line: str) -> subprocess.Popen[bytes]:
        self.helpers.append(subprocess.Popen(line))
        return self.helpers[-1]

    def close(self) -> None:
        for helper in self.helpers:
            helper.kill()
            helper.wait(timeout=5)
        self.stop()


@pytest.fixture
def virtual_sound(monkeypatch: pytest.MonkeyPatch) -> Iterator[VirtualSound]:
    """A running virtual sound card, or the reason why there is none."""
    for program in ("pulseaudio", "paplay", "parecord"):
        if shutil.which(program) is None:
            pytest.skip(f"{program} is not installed (Debian: pulseaudio, pulseaudio-utils)")
    sounddevice = pytest.importorskip("sounddevice", reason="sounddevice is not installed")
    # A short path: a socket's may not be longer than 100 characters.
    with tempfile.TemporaryDirectory(prefix="lv-") as name:
        folder = Path(name)
        for variable in ("HOME", "XDG_RUNTIME_DIR", "PULSE_RUNTIME_PATH"):
            monkeypatch.setenv(variable, name)
        monkeypatch.setenv("PULSE_SERVER", f"unix:{folder}/socket")
        sound = VirtualSound(folder)
        sound.start()
        sounddevice._terminate()
        sounddevice._initialize()
        try:
            if "pulse" not in {device["name"] for device in sounddevice.query_devices()}:
                log = (folder / "log").read_text(errors="replace")[-300:]
                pytest.skip(f"no virtual device (Debian: libasound2-plugins). {log}")
            yield sound
        finally:
            sound.close()
            sounddevice._terminate()
            sounddevice._initialize()
