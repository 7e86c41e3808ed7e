"""Ears beside a line that is being typed: one writer to the screen, one session."""

from __future__ import annotations

import asyncio
import threading
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput

from assistant.board.beside import BesideBoard
from assistant.ears.script import heard_text
from assistant.errors import LeadsmanError
from assistant.listening import listen_open
from assistant.listening.listen_open import (
    LISTENS_ALREADY,
    BesideThePrompt,
    _plain_session,
    _typed_session,
)
from assistant.listening.open_ears import HeardOne, Inbox
from assistant.record.journal import Journal
from assistant.record.places import Folders
from assistant.terminal.prompt import edited_lines
from tests.speech.stand_in_chat import B3, FIFTEEN_OR_FIFTY, Room
from tests.speech.stand_in_ears import Listener


@pytest.fixture
def keyboard() -> Iterator[PipeInput]:
    with create_pipe_input() as pipe:
        yield pipe


def test_what_is_heard_is_shown_above_the_line_that_is_typed(
    room: Room, keyboard: PipeInput, tmp_path: Path
) -> None:
    inbox = Inbox()
    beside = BesideThePrompt(room.chat, inbox)
    lines = edited_lines(room.opening, Folders(tmp_path), keyboard, DummyOutput(), beside=beside)

    def somebody() -> None:
        inbox.put(HeardOne(heard_text(B3)))
        until = time.monotonic() + 5
        while not room.readings and time.monotonic() < until:
            time.sleep(0.02)
        keyboard.send_text("C3 -4\r\x04")

    thread = threading.Thread(target=somebody)
    thread.start()
    _typed_session(room.chat, lines, room.screen)
    thread.join()
    assert room.readings == {"B3": -18, "C3": -4}
    assert room.shown.index(B3) < room.shown.index("C3 4 mm below")


@pytest.mark.parametrize("key", [" ", "\x1bOQ"])
def test_the_talk_keys(
    listener: Callable[..., Listener],
    tmp_path: Path,
    journal: Journal,
    keyboard: PipeInput,
    key: str,
) -> None:
    here = listener(B3)
    room = Room(tmp_path, journal, here.ears)
    beside = BesideThePrompt(room.chat, here.inbox)
    lines = edited_lines(room.opening, Folders(tmp_path), keyboard, DummyOutput(), beside=beside)

    def somebody() -> None:
        until = time.monotonic() + 5
        keyboard.send_text(key)
        while here.ears.state != "listening" and time.monotonic() < until:
            time.sleep(0.02)
        here.microphone.speak()
        while not room.readings and time.monotonic() < until:
            time.sleep(0.02)
        keyboard.send_text("D3 -7 mm\r\x04")

    thread = threading.Thread(target=somebody)
    thread.start()
    _typed_session(room.chat, lines, room.screen)
    thread.join()
    assert room.readings == {"B3": -18, "D3": -7}
    assert room.mouth.stopped > 5


def test_a_question_lapses_while_a_line_is_typed(
    room: Room, keyboard: PipeInput, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(listen_open, "LOOK_S", 0.01)
    inbox = Inbox()
    lines = edited_lines(
        room.opening,
        Folders(tmp_path),
        keyboard,
        DummyOutput(),
        beside=BesideThePrompt(room.chat, inbox),
    )

    def somebody() -> None:
        inbox.put(HeardOne(FIFTEEN_OR_FIFTY))
        until = time.monotonic() + 5
        while room.talk.pending is None and time.monotonic() < until:
            time.sleep(0.01)
        while room.talk.pending is not None and time.monotonic() < until:
            room.clock.now += 5
            time.sleep(0.05)
        keyboard.send_text("confirm\r\x04")

    thread = threading.Thread(target=somebody)
    thread.start()
    _typed_session(room.chat, lines, room.screen)
    thread.join()
    assert room.readings == {}
    assert "No question is waiting" in room.shown


def test_a_fault_beside_the_line_ends_the_prompt(
    room: Room, keyboard: PipeInput, tmp_path: Path
) -> None:
    class Breaks(BesideThePrompt):
        async def watch(self, in_terminal: object) -> None:  # noqa: ARG002
            await asyncio.sleep(0)
            raise LeadsmanError("broken")

    lines = edited_lines(
        room.opening,
        Folders(tmp_path),
        keyboard,
        DummyOutput(),
        beside=Breaks(room.chat, Inbox()),
    )
    with pytest.raises(LeadsmanError, match="broken"):
        list(lines)


def test_on_a_plain_terminal_enter_is_the_talk_key(
    listener: Callable[..., Listener],
    tmp_path: Path,
    journal: Journal,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    here = listener(B3)
    room = Room(tmp_path, journal, here.ears)

    class Typed:
        def __iter__(self) -> Iterator[str]:
            until = time.monotonic() + 5
            yield "\n"
            while here.ears.state != "listening" and time.monotonic() < until:
                time.sleep(0.02)
            here.microphone.speak()
            while not room.readings and time.monotonic() < until:
                time.sleep(0.02)
            yield "C3 -4\n"
            yield "quit\n"

    monkeypatch.setattr("sys.stdin", Typed())
    _plain_session(room.chat, room.opening, here.inbox, room.screen, ("next point",))
    assert room.readings == {"B3": -18, "C3": -4}
    assert capsys.readouterr().out.startswith("> ")


def test_a_chat_that_listens_shows_its_board(
    room: Room, keyboard: PipeInput, tmp_path: Path, journal: Journal
) -> None:
    board = BesideBoard(room.opening, journal, room.screen, 0, takes_lines=False,
                        why_not=LISTENS_ALREADY)  # fmt: skip
    lines = edited_lines(room.opening, Folders(tmp_path), keyboard, DummyOutput())
    keyboard.send_text("B3 -18\r/board\r/board talk\r/board nonsense\rC3 -4\r\x04")
    _typed_session(room.chat, lines, room.screen, board.own)
    assert board._board is not None, room.shown
    with urllib.request.urlopen(board._board.address, timeout=10) as page:
        assert b"Waiting for the job" in page.read()
    board.close()
    assert room.readings == {"B3": -18, "C3": -4}
    told = " ".join(room.shown.split())
    assert "The board is at http://127.0.0.1:" in told
    assert "takes no lines of devices" in told
    assert "/board lan talk lets them talk" in told, "what there is"
