"""What goes to standard error: wrapped between words on a terminal, whole lines anywhere else."""

from __future__ import annotations

import os
import struct
import subprocess
import sys
from pathlib import Path

import pytest

from assistant.terminal.aside import aside

fcntl = pytest.importorskip("fcntl", reason="no terminals of that kind on this system")
pty = pytest.importorskip("pty")
termios = pytest.importorskip("termios")

ROOT = Path(__file__).parents[2]
TOLD = "leadsman: --new NAME opens the chat on a new job; elsewhere say --job PATH."


def on_a_terminal(columns: int, *arguments: str, **environment: str) -> str:
    """What the program writes to standard error on a terminal so many columns wide."""
    ours, its = pty.openpty()
    fcntl.ioctl(its, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    there = {k: v for k, v in os.environ.items() if k not in ("COLUMNS", "LINES", "NO_COLOR")}
    try:
        done = subprocess.run(
            [sys.executable, "-m", "assistant", *arguments],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=its,
            env={**there, "TERM": "xterm-256color", **environment},
            cwd=ROOT,
            check=False,
        )
        assert done.returncode == 2
        return os.read(ours, 10_000).decode().replace("\r\n", "\n")
    finally:
        os.close(its)
        os.close(ours)


@pytest.mark.parametrize("environment", [{}, {"NO_COLOR": "1"}])
def test_a_long_error_breaks_between_words(environment: dict[str, str]) -> None:
    assert on_a_terminal(60, "--new", "shed", "demo", **environment) == (
        "leadsman: --new NAME opens the chat on a new job; elsewhere\nsay --job PATH.\n"
    )
    narrow = on_a_terminal(30, "--new", "shed", "demo", **environment)
    assert narrow.split() == TOLD.split()
    assert max(map(len, narrow.splitlines())) <= 30


def test_where_it_fits_it_is_one_line() -> None:
    assert on_a_terminal(80, "--new", "shed", "demo") == f"{TOLD}\n"


def test_a_path_stays_whole() -> None:
    path = "/a/long-way/" + "down-below/" * 8 + "lines.txt"
    shown = on_a_terminal(60, "run", path)
    assert path in shown.splitlines()
    assert shown.startswith("leadsman:")
    assert " ".join(shown.split()).endswith("cannot be read: No such file or directory.")


def test_nothing_in_a_name_moves_the_cursor() -> None:
    assert "\x1b" not in on_a_terminal(60, "run", "lines\x1b[2J.txt")


def test_elsewhere_lines_stay_whole(capsys: pytest.CaptureFixture[str]) -> None:
    aside(f"{'a word and ' * 30}the end.\nAnother line.")
    told = capsys.readouterr().err.splitlines()
    assert [line[:9] for line in told] == ["leadsman:", "Another l"]
    assert len(told[0]) > 300


def test_where_there_is_no_standard_error_nobody_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stderr", None)
    aside("a word")
    assert capsys.readouterr().out == ""
