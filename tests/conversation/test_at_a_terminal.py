"""The chat at a terminal of its own: it is stopped, continued, and ended by a signal."""

from __future__ import annotations

import os
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import pytest

from assistant.record.journal import Journal

pty = pytest.importorskip("pty")
termios = pytest.importorskip("termios")
pytestmark = pytest.mark.slow

LONG_S = 20.0
"""A machine that is busy with other things takes its time to start the program."""
ECHO_AT = 3, 8  # local modes; ECHO, which a typed line switches off


READING = "\x1b[?2004h"
"""Sent as the prompt begins to read keys; till then they go to whatever runs."""


class Terminal:
    """The program at one end of a terminal, and the keyboard at the other."""

    def __init__(self, job: Path, *program: str) -> None:
        self.keyboard, terminal = pty.openpty()
        self.process = subprocess.Popen(
            [sys.executable, *(program or ("-m", "assistant")), "--job", str(job)],
            stdin=terminal,
            stdout=terminal,
            stderr=terminal,
            cwd=Path(__file__).parents[2],
            env={**os.environ, "TERM": "xterm", "NO_COLOR": "1", "COLUMNS": "80"},
            preexec_fn=_on_its_own,
        )
        os.close(terminal)
        self.shown = ""

    def type(self, keys: str, until: str, *, then: str = "") -> None:
        """Type, and wait until something is shown that was not yet; and something after it."""
        begun = len(self.shown)
        os.write(self.keyboard, keys.encode())
        self.wait_for(until, begun)
        self.wait_for(then, self.shown.index(until, begun))

    def wait_for(self, what: str, begun: int = 0) -> None:
        end = time.monotonic() + LONG_S
        while what not in self.shown[begun:]:
            assert time.monotonic() < end, self.shown[begun:]
            self._read()

    def _read(self) -> None:
        if select.select([self.keyboard], [], [], 0.1)[0]:
            read = os.read(self.keyboard, 65_536).decode(errors="replace")
            self.shown += read
            if "\x1b[6n" in read:  # asked where its cursor is
                os.write(self.keyboard, b"\x1b[1;1R")

    def read_to_the_end(self) -> None:
        """Read on what it shows, as a terminal does, until it has ended."""
        end = time.monotonic() + LONG_S
        with suppress(OSError):  # nobody is at the other end any more
            while self.process.poll() is None:
                assert time.monotonic() < end, self.shown
                self._read()

    def stopped(self) -> tuple[int, int]:
        """Wait until it is suspended, reading on what it shows."""
        end = time.monotonic() + LONG_S
        while time.monotonic() < end:
            found = os.waitpid(self.process.pid, os.WUNTRACED | os.WNOHANG)
            if found[0]:
                return found
            self._read()
        raise AssertionError(self.shown)

    @property
    def echoes(self) -> bool:
        modes, echo = ECHO_AT
        return bool(termios.tcgetattr(self.keyboard)[modes] & echo)


def _on_its_own() -> None:
    os.setpgid(0, 0)
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGTSTP):
        signal.signal(number, signal.SIG_DFL)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return tmp_path / "floor.leadsman"


@contextmanager
def opened(job: Path, *program: str) -> Iterator[Terminal]:
    terminal = Terminal(job, *program)
    try:
        yield terminal
    finally:
        terminal.process.kill()
        terminal.process.wait()
        os.close(terminal.keyboard)


@pytest.fixture
def terminal(job: Path) -> Iterator[Terminal]:
    with opened(job) as terminal:
        yield terminal


def said_in(job: Path) -> list[str]:
    with Journal.open(job) as journal:
        return [said for _, said, *_ in journal.utterances()]


@pytest.mark.parametrize(("number", "code"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129)])
def test_told_to_end_at_the_prompt(
    terminal: Terminal, job: Path, number: signal.Signals, code: int
) -> None:
    terminal.type("B3 -18\r", "18 mm below", then=READING)
    assert not terminal.echoes
    terminal.process.send_signal(number)
    assert terminal.process.wait(LONG_S) == code
    assert terminal.echoes  # the shell gets its terminal back as it was
    assert sorted(job.parent.glob(f"{job.name}*")) == [job]
    assert said_in(job) == ["B3 -18"]


TOLD_MEANWHILE = """
import asyncio, os, sys
from assistant.__main__ import main
from assistant.terminal import prompt

async def told(*_):
    if session.default_buffer.history.get_strings():
        os.kill(os.getpid(), {number})
    await asyncio.sleep(60)

def kept(*given, make=prompt._session):
    global session
    session = make(*given)
    return session

prompt._session, prompt._tell_what_rings = kept, told
sys.exit(main(sys.argv[1:]))
"""
"""Asked to end while something goes on beside the line, from the second line on."""


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_told_to_end_while_something_goes_on_beside_the_line(
    job: Path, number: signal.Signals
) -> None:
    with opened(job, "-c", TOLD_MEANWHILE.format(number=int(number))) as terminal:
        terminal.type("B3 -18\r", "18 mm below")
        terminal.read_to_the_end()
        assert terminal.process.wait(LONG_S) == 128 + number
        assert terminal.echoes
        assert "Unhandled" not in terminal.shown
        assert "ENTER" not in terminal.shown
    assert said_in(job) == ["B3 -18"]


def test_ctrl_z_and_on_again(terminal: Terminal, job: Path) -> None:
    terminal.type("B3 -18\r", "18 mm below", then=READING)
    terminal.type("C3 -1", "C3 -1")
    os.write(terminal.keyboard, b"\x1a")
    _, status = terminal.stopped()
    assert os.WIFSTOPPED(status)
    assert terminal.echoes
    terminal.process.send_signal(signal.SIGCONT)
    terminal.wait_for("C3 -1", len(terminal.shown))
    terminal.type("7\r", "17 mm below", then=READING)
    terminal.type("\x04", "The job is on disk")
    assert terminal.process.wait(LONG_S) == 0
    assert said_in(job) == ["B3 -18", "C3 -17"]


def test_ctrl_c_in_a_long_paste(terminal: Terminal, job: Path) -> None:
    """Every line is answered, or said not to have been heard: none is lost between the two."""
    lines = [f"point P{n} at {n} by 1 m" for n in range(1, 2001)]
    terminal.type("B3 -18\r", "18 mm below", then=READING)
    terminal.type("\x1b[200~" + "\n".join(lines) + "\x1b[201~\r", "P20 ")
    terminal.process.send_signal(signal.SIGINT)
    terminal.wait_for("Stopped.")
    terminal.wait_for(READING, terminal.shown.index("Stopped."))
    terminal.type("\x04", "The job is on disk")
    terminal.process.wait(LONG_S)
    recorded = said_in(job)[1:]
    assert recorded == lines[: len(recorded)]
    assert len(recorded) < len(lines)
    told = " ".join(terminal.shown.split())
    rest = len(lines) - len(recorded)
    assert f"the {rest} lines after it" in told or f"the {rest - 1} lines after it" in told
