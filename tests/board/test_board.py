"""The board: what it shows, and pages that follow it while another window writes."""

from __future__ import annotations

import asyncio
import contextlib
import http.client
import json
import logging
import os
import re
import signal
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from assistant.__main__ import main
from assistant.board.following import FollowedFile, Following
from assistant.board.serving import Board
from assistant.board.shown import board_of
from assistant.errors import JournalError
from assistant.floor.pour.progress import progress_of
from assistant.job import EMPTY
from assistant.record.journal import Journal, utc_now
from assistant.record.places import Folders
from assistant.record.watched import WatchedFile
from assistant.reply.times import UNTIMED
from assistant.wiring import converse, gather_cards
from tests.handover.conftest import read_all
from tests.job.conftest import Site
from tests.signals import heed_endings

READY = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
CREW = ("crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6")


def told(path: Path, *lines: str) -> None:
    """Lines said in a window that is closed again: this process must not hold the file."""
    with Journal.open(path) as journal:
        talk = converse(journal, gather_cards(None, ())[0], Folders(path.parent), remembers=False)
        for line in lines:
            assert talk.hear(line).ok, line


def rows_of(board: dict[str, Any]) -> dict[str, str]:
    return dict(board["rows"])


# --- what it shows --------------------------------------------------------------------


def test_it_shows_what_the_mixer_hand_asks_for() -> None:
    site = Site(*READY)
    assert board_of(site.job, "floor", UNTIMED)["headline"] == "0 of 24 points read."
    read_all(site)
    site.told(*CREW, "water 5 litres per bag", "start pour", "batch")
    site.wait(4)
    board = board_of(site.job, "floor", site.now)
    assert board["headline"] == "Next: batch of 2 bags, strip 1."
    rows = rows_of(board)
    assert rows["Water a bag"] == "5 L"
    assert re.fullmatch(r"2 of \d+", rows["Bags used"])
    assert "bags" in rows["It will take"]
    later = board_of(site.job, "floor", site.now + timedelta(minutes=2))
    assert board["edge_s"] - later["edge_s"] == 120
    site.told("stop pour because the pump broke")
    stopped = board_of(site.job, "floor", site.now)
    assert stopped["headline"] == "It stands still: the pump broke"
    assert stopped["edge_s"] is None or stopped["edge_s"] > 0
    site.told("pour on", "pour finished")
    assert board_of(site.job, "floor", site.now)["headline"] == "Poured."


def test_red_says_why() -> None:
    """Colour is never the only sign (WCAG 2.2, 1.4.1)."""
    site = Site(*READY)
    read_all(site)
    site.told(*CREW, "start pour", "batch")
    assert "Short" not in board_of(site.job, "floor", site.now)["headline"]
    site.told("bags left 40")
    board = board_of(site.job, "floor", site.now)
    assert board["short"]
    needed = round(float(progress_of(site.job).forecast.mean))  # type: ignore[union-attr]
    # Two are in the floor.
    assert board["headline"] == (
        f"Next: batch of 2 bags, strip 1. Short by about {needed - 42} bags."
    )


def test_a_job_with_nothing_in_it_is_shown_too() -> None:
    assert board_of(EMPTY, "a\u202eb", UNTIMED) == {
        "job": "a\\u202eb", "headline": "Not begun.", "rows": [], "edge_s": None, "short": False,
    }  # fmt: skip


# --- the file -------------------------------------------------------------------------


def test_a_file_is_read_again_only_once_it_has_changed(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    told(path, *READY)
    file = WatchedFile(path)
    first = file.look()
    assert first is not None
    assert len(first) == 3
    assert file.look() is None
    told(path, "A1 -12 mm")
    again = file.look()
    assert again is not None
    assert again[:3] == first
    path.unlink()
    with pytest.raises(JournalError, match="cannot be read"):
        file.look()


def test_what_is_being_written_waits_for_the_next_look(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    told(path, *READY)
    journal = tmp_path / "job.leadsman-journal"
    journal.write_bytes(b"undo")
    file = WatchedFile(path)
    assert file.look() is None
    journal.write_bytes(b"")
    assert file.look() is not None


# --- pages that follow ------------------------------------------------------------------


def parsed(text: str) -> tuple[str, str, Any]:
    """Kind, id and data of one server-sent event."""
    parts = dict(line.split(": ", 1) for line in text.strip().splitlines())
    return parts.get("event", ""), parts.get("id", ""), json.loads(parts.get("data", "null"))


async def until(
    following: Following, after: int, last: tuple[str, str]
) -> list[tuple[str, str, Any]]:
    """
    All up to an event, but signs of life, of which a busy machine makes more, and boards that say
    what is wrong: while this process itself has the file open, which no board is served by, it may
    not be looked at. The board that says that this is over is left out as well.
    """
    found: list[tuple[str, str, Any]] = []
    faulty = False
    async for text in following.events(after):
        event = parsed(text)
        over, faulty = faulty, event[0] == "board" and bool(event[2]["fault"])
        if event[0] != "beat" and not faulty and not (over and event[:2] in marks(found)):
            found.append(event)
        if event[:2] == last:
            return found[1:]
    raise AssertionError("events end with the program only")


def marks(events: list[tuple[str, str, Any]]) -> list[tuple[str, str]]:
    return [(kind, id) for kind, id, _ in events]


async def first_of(
    following: Following, after: int | None, count: int
) -> list[tuple[str, str, Any]]:
    found = []
    async for text in following.events(after):
        found.append(parsed(text))
        if len(found) > count:
            return found[1:]  # without how soon to come again
    raise AssertionError("events end with the program only")


def test_who_was_away_is_told_what_came_since(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    told(path, *READY, "A1 -12 mm", "B1 -14 mm")

    async def play() -> None:
        following = Following(FollowedFile(WatchedFile(path)), utc_now)
        task = asyncio.create_task(following.follow())
        while following.seen.number < 5:
            await asyncio.sleep(0.01)
        fresh = await first_of(following, 5, 1)
        assert marks(fresh) == [("board", "5")]
        back = await first_of(following, 3, 3)
        assert marks(back) == [
            ("said", "4"),
            ("said", "5"),
            ("board", "5"),
        ]
        assert back[-1][2]["headline"] == "2 of 24 points read."
        waiting = asyncio.create_task(until(following, 5, ("board", "6")))
        await asyncio.sleep(0.05)
        await asyncio.to_thread(told, path, "C1 -9 mm")
        live = await waiting
        assert marks(live) == [
            ("board", "5"),
            ("said", "6"),
            ("board", "6"),
        ]
        assert "C1" in live[1][2]["words"].upper() or "charlie" in live[1][2]["words"]
        path.unlink()
        while not following.seen.fault:
            await asyncio.sleep(0.01)
        gone = await first_of(following, 6, 1)
        assert "cannot be read" in gone[0][2]["fault"]
        assert gone[0][2]["headline"] == "3 of 24 points read.", "the last that is known stays"
        task.cancel()

    asyncio.run(asyncio.wait_for(play(), 120))


def test_a_board_begun_anew_tells_nothing_twice(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    told(path, *READY, "A1 -12 mm")

    async def play() -> list[tuple[str, str, Any]]:
        following = Following(FollowedFile(WatchedFile(path)), utc_now)
        coming = asyncio.create_task(first_of(following, 3, 2))
        await asyncio.sleep(0)  # the page comes back before the job was looked at
        task = asyncio.create_task(following.follow())
        try:
            return await coming
        finally:
            task.cancel()

    assert marks(asyncio.run(play())) == [("said", "4"), ("board", "4")]


def test_a_page_that_comes_while_a_line_is_written_is_told_once(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    told(path, *READY, "A1 -12 mm")
    being_written = tmp_path / "job.leadsman-journal"
    being_written.write_bytes(b"undo")

    async def play(after: int | None) -> list[tuple[str, str, Any]]:
        following = Following(FollowedFile(WatchedFile(path)), utc_now)
        task = asyncio.create_task(following.follow())
        coming = asyncio.create_task(first_of(following, after, 1))
        await asyncio.sleep(0.1)
        being_written.write_bytes(b"")
        try:
            return await coming
        finally:
            task.cancel()

    for after in (4, None):
        being_written.write_bytes(b"undo")
        assert marks(asyncio.run(play(after))) == [("board", "4")], after


def test_a_quiet_job_gives_signs_of_life(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("assistant.board.following.BEAT_S", 0.05)
    following = Following(FollowedFile(WatchedFile(tmp_path / "none")), utc_now)

    async def play() -> list[tuple[str, str, Any]]:
        task = asyncio.create_task(following.follow())
        try:
            return await first_of(following, 0, 3)
        finally:
            task.cancel()

    found = asyncio.run(play())
    assert [kind for kind, _, _ in found] == ["board", "beat", "beat"]


# --- the program ------------------------------------------------------------------------


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[int, Path]]:
    """A board as a program of its own, its port and the job that it follows."""
    path = tmp_path / "boat-shed.leadsman"
    told(path, *READY, "A1 -12 mm", "B1 -14 mm")
    program = subprocess.Popen(
        [sys.executable, "-m", "assistant", "board", "--job", str(path), "--port", "0"],
        stdout=subprocess.PIPE, text=True, env={**os.environ, "LEADSMAN_HOME": str(tmp_path)},
        preexec_fn=heed_endings,
    )  # fmt: skip
    assert program.stdout is not None
    line = program.stdout.readline()
    port = re.search(r"http://127\.0\.0\.1:(\d+)/", line)
    assert port, line
    yield int(port[1]), path
    program.send_signal(signal.SIGINT)
    assert program.wait(10) == 130
    program.stdout.close()


def test_the_page_comes_and_rogues_are_refused(served: tuple[int, Path]) -> None:
    port, path = served
    before = path.read_bytes()

    def ask(
        method: str, where: str, headers: dict[str, str], body: bytes = b""
    ) -> tuple[int, bytes]:
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
        try:
            connection.putrequest(method, where, skip_host=True)
            for name, value in headers.items():
                connection.putheader(name, value)
            connection.endheaders()
            if body:
                # Refused while it is still being sent, which is the point.
                with contextlib.suppress(BrokenPipeError, ConnectionResetError):
                    connection.send(body)
            answer = connection.getresponse()
            try:
                return answer.status, answer.read(100_000)
            except http.client.IncompleteRead as cut:  # refused, and hung up on, while it is said
                return answer.status, cut.partial
        except (ConnectionResetError, http.client.RemoteDisconnected):
            return 0, b""
        finally:
            connection.close()

    good = {"Host": f"127.0.0.1:{port}"}
    status, page = ask("GET", "/", good)
    assert status == 200
    assert b"<!doctype html>" in page
    assert ask("GET", "/page.js", good)[0] == 200
    for _ in range(20):  # until the file was looked at
        status, plan = ask("GET", "/plan.svg", good)
        if status == 200:
            break
    assert plan.startswith(b"<svg")
    for where in ("/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd", "/page.js/..", "//x", "/x\\y"):
        status, said = ask("GET", where, good)
        assert status in (400, 404), where
        assert b"root:" not in said
    large = {**good, "Content-Length": "10000000"}
    assert ask("POST", "/events", large, b"x" * 10_000_000)[0] in (405, 0)
    assert ask("GET", "/", {"Host": "evil.example"})[0] == 421
    assert ask("GET", "/", {**good, "X": "y" * 200_000})[0] in (400, 431, 0)
    assert ask("GET", "/", good)[0] == 200, "it still stands"
    assert path.read_bytes() == before


def test_phones_that_walk_off_say_nothing_on_the_terminal(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    """What asyncio says when it has sent to nobody for a while would come over the typed line."""
    told(tmp_path / "shed.leadsman", *READY)
    loop = logging.getLogger("asyncio")
    loop.setLevel(logging.NOTSET)
    board = Board(FollowedFile(WatchedFile(tmp_path / "shed.leadsman")), "127.0.0.1", 0)
    board.start()
    try:
        with urllib.request.urlopen(board.address, timeout=30) as page:
            assert page.status == 200
        loop.warning("socket.send() raised exception.")
        loop.error("Task exception was never retrieved")
    finally:
        board.close()
    assert [each.levelname for each in caplog.records] == ["ERROR"]


def test_a_port_that_is_taken_is_told(
    served: tuple[int, Path], capsys: pytest.CaptureFixture[str]
) -> None:
    port, path = served
    assert main(["board", "--job", str(path), "--port", str(port)]) == 2
    assert "Another: --port 0" in capsys.readouterr().err


def test_without_its_packages_it_says_how_to_get_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told(tmp_path / "job.leadsman", *READY)
    for package in ("uvicorn", "segno"):
        with monkeypatch.context() as without:
            without.setitem(sys.modules, package, None)
            assert main(["board", "--job", str(tmp_path / "job.leadsman"), "--port", "0"]) == 2
        assert "pip install 'leadsman[board]'" in capsys.readouterr().err
