"""How played lines are shown: on the screen, as JSON, in a picture."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, NamedTuple, Protocol

from assistant.command_line.parts import screen_for
from assistant.command_line.playing import Shows
from assistant.reply.json_lines import json_line
from assistant.reply.replies import Turn

if TYPE_CHECKING:
    from assistant.terminal.screen import Screen


class Remarks(Protocol):
    """Shows a remark between the played lines."""

    def __call__(self, told: str, /) -> None: ...


class Shown(NamedTuple):
    """One way of showing turns."""

    turn: Shows
    remark: Remarks


@contextmanager
def shown_by(options: argparse.Namespace) -> Iterator[Shown]:
    """The way that --json and --svg ask for: turn by turn, a picture at the end."""
    way = _in_json() if options.json else _on(screen_for(options))
    if options.svg is None:
        yield way
        return
    from assistant.terminal.picture import picture_in

    with picture_in(options.svg) as picture:
        yield _both(way, _on(picture.screen))


def _in_json() -> Shown:
    return Shown(lambda line, turn: print(json_line(line, turn), flush=True), lambda _: None)


def _on(screen: Screen) -> Shown:
    def show(_line: int, turn: Turn) -> None:
        screen.echo(turn.text)
        screen.show(turn)
        sys.stdout.flush()

    return Shown(show, lambda told: screen.say(f"# {told}"))


def _both(first: Shown, second: Shown) -> Shown:
    def show(line: int, turn: Turn) -> None:
        first.turn(line, turn)
        second.turn(line, turn)

    def remark(told: str) -> None:
        first.remark(told)
        second.remark(told)

    return Shown(show, remark)
