"""A bar where work takes a while: on a terminal, after a second, and gone afterwards."""

from __future__ import annotations

import io
import time

import pytest

from assistant.terminal.bar import progress_bar


class Terminal(io.StringIO):
    """What somebody would see."""

    def isatty(self) -> bool:
        return True


def work(screen: io.StringIO, *, plain: bool = False) -> str:
    with progress_bar("drawing", "setting", plain=plain, file=screen) as at:
        at("setting")
        time.sleep(0.15)
    return screen.getvalue()


def test_it_shows_only_what_takes_long(monkeypatch: pytest.MonkeyPatch) -> None:
    assert work(Terminal()) == "", "done before anybody could read it"
    monkeypatch.setattr("assistant.terminal.bar.AFTER_S", 0.02)
    shown = work(Terminal())
    assert "setting" in shown
    assert shown.endswith("\x1b[2K"), "nothing of it stays"
    assert work(Terminal(), plain=True) == ""
    assert work(io.StringIO()) == "", "no terminal"


def test_a_fault_during_work_leaves_no_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("assistant.terminal.bar.AFTER_S", 0.02)
    screen = Terminal()

    def broken() -> None:
        with progress_bar("drawing", file=screen):
            time.sleep(0.1)
            raise ValueError("broken")

    with pytest.raises(ValueError, match="broken"):
        broken()
    assert screen.getvalue().endswith("\x1b[2K")
