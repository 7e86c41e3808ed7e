"""The command line among other programs: pipes, signals, shells, and where answers go."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from assistant.record.journal import Journal


def leadsman(*arguments: str | Path, env: dict[str, str] | None = None) -> subprocess.Popen[bytes]:
    env = dict(os.environ if env is None else env)
    env.pop("PYTHONUNBUFFERED", None)  # or a missing flush would not show
    return subprocess.Popen(
        [sys.executable, "-m", "assistant", *map(str, arguments)],
        preexec_fn=heeds_signals if os.name != "nt" else None,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=Path(__file__).parents[2],
        env=env,
    )


def heeds_signals() -> None:
    """In the child, before it starts: a parent in the background may ignore Ctrl-C."""
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        signal.signal(number, signal.SIG_DFL)


def test_answers_come_line_by_line() -> None:
    with leadsman("run", "-", "--json") as process:
        assert process.stdin is not None
        assert process.stdout is not None
        for n in (1, 2):
            process.stdin.write(f"B{n} -18\n".encode())
            process.stdin.flush()
            assert json.loads(process.stdout.readline())["canonical"] == f"B{n} -18 mm"
        process.stdin.close()
        assert process.wait(10) == 0


def test_a_reader_that_leaves_is_no_fault() -> None:
    with leadsman("run", "-", "--json") as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdin.write(b"tally\n" * 2000)
        process.stdout.readline()
        process.stdout.close()
        process.stdin.close()
        assert process.wait(20) == 141
        assert b"Traceback" not in process.stderr.read()


@pytest.mark.skipif(os.name == "nt", reason="signals of another kind")
def test_ctrl_c_stops_it_quietly_and_what_was_answered_is_kept(tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    with leadsman("run", "-", "--json", "--job", job) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdin.write(b"B3 -18\n")
        process.stdin.flush()
        process.stdout.readline()
        time.sleep(0.05)
        process.send_signal(signal.SIGINT)
        assert process.wait(10) == 130
        assert b"Traceback" not in process.stderr.read()
    with Journal.open(job) as journal:
        assert [said for _, said, *_ in journal.utterances()] == ["B3 -18"]


def test_a_terminal_that_knows_only_ascii() -> None:
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    with leadsman("run", "-", env=environment) as process:
        out, err = process.communicate("room 8 by 6 metres\nB3 ①②".encode(), timeout=20)
    assert process.returncode == 1
    assert b"Room 8 m by 6 m, 48 m?." in out
    assert b"Traceback" not in err


@pytest.mark.skipif(os.name == "nt", reason="signals of another kind")
def test_ctrl_c_stops_it_where_the_tests_ignore_it(tmp_path: Path) -> None:
    """As where the suite is started in the background, or by nohup."""
    ignored = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        test_ctrl_c_stops_it_quietly_and_what_was_answered_is_kept(tmp_path)
    finally:
        signal.signal(signal.SIGINT, ignored)


@pytest.mark.skipif(os.name == "nt", reason="signals of another kind")
@pytest.mark.parametrize(("number", "code"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129)])
def test_told_to_end_it_ends_and_closes_the_job(
    tmp_path: Path, number: signal.Signals, code: int
) -> None:
    job = tmp_path / "floor.leadsman"
    with leadsman("run", "-", "--json", "--job", job) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdin.write(b"B3 -18\n")
        process.stdin.flush()
        process.stdout.readline()
        process.send_signal(number)
        assert process.wait(10) == code
        assert process.stderr.read() == b""
    assert not job.with_name(f"{job.name}-wal").exists()
    with Journal.open(job) as journal:
        assert [said for _, said, *_ in journal.utterances()] == ["B3 -18"]


# --- where answers go ---------------------------------------------------------------------


def in_a_shell(line: str, env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
    program = f'leadsman() {{ "{sys.executable}" -m assistant "$@"; }}'
    return subprocess.run(
        ["bash", "-c", f"{program}\n{line}"],
        capture_output=True,
        text=True,
        check=False,
        cwd=Path(__file__).parents[2],
        env={**os.environ, **(env or {})},
        preexec_fn=heeds_signals,
    )


shells_only = pytest.mark.skipif(os.name == "nt", reason="written for a POSIX shell")


@shells_only
@pytest.mark.parametrize("buffered", ["", "1"])
@pytest.mark.parametrize("command", ["run {lines} --job {job}", "phrases", "--help", "--version"])
def test_a_full_disk_behind_the_answers(
    lines: Path, tmp_path: Path, command: str, buffered: str
) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("no full device here")
    job = tmp_path / "floor.leadsman"
    command = command.format(lines=lines, job=job)
    done = in_a_shell(f"leadsman {command} > /dev/full", {"PYTHONUNBUFFERED": buffered})
    assert done.returncode == 2
    assert "leadsman: the answers cannot be written (No space left on device)" in done.stderr
    assert "mistake" not in done.stderr
    if command.startswith("run"):
        with Journal.open(job) as journal:
            assert [said for _, said, *_ in journal.utterances()] == ["room 8 by 6 metres"]


@shells_only
@pytest.mark.parametrize("command", ["run {lines} --job {job}", "products", "--version"])
def test_nowhere_to_answer(lines: Path, tmp_path: Path, command: str) -> None:
    job = tmp_path / "floor.leadsman"
    done = in_a_shell(f"leadsman {command.format(lines=lines, job=job)} >&-")
    assert done.returncode == 2
    assert "Standard output is closed" in done.stderr
    assert "> /dev/null" in done.stderr
    assert not job.exists()


@shells_only
@pytest.mark.parametrize("json_too", ["", " --json"])
def test_a_reader_that_took_one_line(lines: Path, tmp_path: Path, json_too: str) -> None:
    """As shells count it: 128 and SIGPIPE; quietly, and what was answered is on record."""
    job = tmp_path / "floor.leadsman"
    lines.write_text("tally\n" * 3000)
    done = in_a_shell(
        f"leadsman run {lines} --job {job}{json_too} | head -1; echo ${{PIPESTATUS[0]}} >&2"
    )
    assert done.stderr == "141\n"
    assert len(done.stdout.splitlines()) == 1


@shells_only
def test_nobody_at_standard_input(home: Path) -> None:
    for command in ("leadsman < /dev/null", "leadsman --new floor < /dev/null"):
        done = in_a_shell(command)
        assert (done.returncode, done.stdout) == (2, "")
        assert "has no lines" in done.stderr
        assert "leadsman run FILE" in done.stderr
    assert not list(home.glob("jobs/*.leadsman"))
    assert in_a_shell("leadsman run - < /dev/null").returncode == 0
