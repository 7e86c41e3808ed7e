"""``leadsman board``: a page that follows the job, and one that talks to it."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from typing import TYPE_CHECKING

from assistant.board.address import LOOPBACK, PORT, code_lines, own_address
from assistant.command_line.handing_over import add_job, job_named
from assistant.command_line.parts import (
    ALL_TAKEN,
    AddCommand,
    cards_at_hand,
    is_plain,
    screen_for,
    tell,
)
from assistant.errors import LeadsmanError
from assistant.record.places import user_folders
from assistant.wiring import converse, open_journal, warm_up

if TYPE_CHECKING:
    from assistant.board.beside import BesideBoard
    from assistant.board.guard import Pairing
    from assistant.record.journal import Journal
    from assistant.terminal.opening import Opening
    from assistant.terminal.screen import Screen

ABOUT = """\
Show the job on a page, as it goes on in another window: next batch, water a
bag, bags used of planned, front, wet edge, forecast, plan. It is only looked
at: nothing can be told or changed on it. Needs the extra “board”.

Only this machine reaches it, at the address that is printed. With --lan every
device on the same network can reach the address, and one that has scanned the
code sees the job's name, figures and plan; a code lets one device in, and the
next is printed then. What is sent is not encrypted: on a network of strangers
leave it. All devices are out again when this command ends.

With --talk the chat is opened here, and a paired device has a page to talk on:
a line for its own keyboard or dictation, big buttons for readings by thumb.
Whoever holds such a device, or gets hold of its code, can change the job: read,
put right, undo, pour. Files are for this keyboard. Every line on record says
which device it came from. In the chat: /board, /board lan talk, /board off."""
EXAMPLES = """\
examples:
  leadsman board
  leadsman board boat-shed --lan
  leadsman board --lan --talk"""

LOOK_S = 0.5
"""Between looks at the clocks where only devices talk."""


def add_board(add: AddCommand) -> None:
    """The command."""
    board = add("board", show_board, "follow the job on a page", ABOUT, EXAMPLES)
    add_job(board)
    board.add_argument("--lan", action="store_true", help="for phones on the same network, too")
    board.add_argument("--talk", action="store_true", help="paired devices may talk, too")
    board.add_argument(
        "--port", type=int, default=PORT, metavar="N", help=f"{PORT} where none is said; 0: any"
    )


def board_beside(
    journal: Journal, port: int = PORT, *, takes_lines: bool = True, has_keyboard: bool = True
) -> Callable[[Opening, Screen], BesideBoard]:
    """Makes the board beside a chat."""

    def made(opening: Opening, screen: Screen) -> BesideBoard:
        from assistant.board.beside import BesideBoard

        return BesideBoard(
            opening, journal, screen, port, takes_lines=takes_lines, has_keyboard=has_keyboard
        )

    return made


def show_board(options: argparse.Namespace) -> int:
    """Serve the board until it is stopped."""
    if not 0 <= options.port <= 65535:
        raise LeadsmanError(f"--port {options.port}: a port is a number up to 65535.")
    return _talk(options) if options.talk else _show(options)


def _show(options: argparse.Namespace) -> int:
    from assistant.board.serving import serve
    from assistant.record.watched import WatchedFile

    host = own_address() if options.lan else LOOPBACK
    file = WatchedFile(job_named(options))
    file.look()  # so that a faulty job file is reported here, and not on a page
    serve(WatchedFile(file.path), host, options.port, lan=options.lan, tell=_tell)
    return ALL_TAKEN


def _tell(code: str, pairing: Pairing | None) -> None:
    """Say where the page is; for other devices as a code too."""
    if pairing is None:
        print(f"The board is at {code} on this machine. Ctrl-C ends it.", flush=True)
        return
    print(f"For one device more, on the same network: {code}", flush=True)
    print(code_lines(code), end="", flush=True)
    tell("anybody on this network can reach the address; only who scans the code sees the board.")


def _talk(options: argparse.Namespace) -> int:
    """The chat with its board; where no line can be edited, what devices say alone."""
    import sys

    path, folders = job_named(options), user_folders()
    cards = cards_at_hand(options.cards, folders)
    asked = "/board lan talk" if options.lan else "/board talk"
    with open_journal(path) as journal:
        if not is_plain(options) and sys.stdin is not None and sys.stdin.isatty():
            from assistant.terminal.prompt import open_chat

            beside = board_beside(journal, options.port)
            open_chat(journal, cards, folders, path, first=(asked,), beside=beside)
            return ALL_TAKEN
        from assistant.terminal.opening import Opening

        screen = screen_for(options)
        opening = Opening(lambda: converse(journal, cards, folders), lambda: warm_up(cards))
        opening.start()
        beside_board = board_beside(journal, options.port, has_keyboard=False)(opening, screen)
        try:
            beside_board.open(asked)
            screen.say("Devices talk; this window shows what they say. Ctrl-C ends it.")
            while True:
                beside_board.wait(LOOK_S)
                beside_board.take_all()
                if (told := opening.conversation.rung()) is not None:
                    screen.show_reply(told)
        finally:
            beside_board.close()
