"""``leadsman board``: a page that follows the job."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from assistant.command_line.card_commands import Add
from assistant.command_line.handing_over import add_job, job_named
from assistant.command_line.parts import ALL_TAKEN, tell
from assistant.errors import LeadsmanError

if TYPE_CHECKING:
    from assistant.board.guard import Pairing

PORT = 8090
ABOUT = """\
Show the job on a page, as it goes on in another window: next batch, water a
bag, bags used of planned, front, wet edge, forecast, plan. It is only looked
at: nothing can be told or changed on it. Needs the extra “board”.

Only this machine reaches it, at the address that is printed. With --lan every
device on the same network can reach the address, and one that has scanned the
code sees the job's name, figures and plan; a code lets one device in, and the
next is printed then. What is sent is not encrypted: on a network of strangers
leave it. All devices are out again when this command ends."""
EXAMPLES = """\
examples:
  leadsman board
  leadsman board boat-shed --lan"""


def add_board(add: Add) -> None:
    """The command."""
    board = add("board", show_board, "follow the job on a page", ABOUT, EXAMPLES)
    add_job(board)
    board.add_argument("--lan", action="store_true", help="for phones on the same network, too")
    board.add_argument(
        "--port", type=int, default=PORT, metavar="N", help=f"{PORT} where none is said; 0: any"
    )


def show_board(options: argparse.Namespace) -> int:
    """Serve the board until it is stopped."""
    from assistant.board.serving import serve
    from assistant.record.watched import WatchedFile

    if not 0 <= options.port <= 65535:
        raise LeadsmanError(f"--port {options.port}: a port is a number up to 65535.")
    host = own_address() if options.lan else "127.0.0.1"
    file = WatchedFile(job_named(options))
    file.look()  # what is wrong with it is told here, not on a page
    serve(WatchedFile(file.path), host, options.port, lan=options.lan, tell=_tell)
    return ALL_TAKEN


def _tell(address: str, pairing: Pairing | None) -> None:
    """Say where the page is; for other devices as a code too."""
    if pairing is None:
        print(f"The board is at {address} on this machine. Ctrl-C ends it.", flush=True)
        return
    import segno

    whole = f"{address}pair/{pairing.token}"
    print(f"For one device more, on the same network: {whole}", flush=True)
    segno.make(whole, error="m").terminal(out=sys.stdout, compact=True)
    sys.stdout.flush()
    tell("anybody on this network can reach the address; only who scans the code sees the board.")


def own_address() -> str:
    """
    This machine's address on its network.

    Raises LeadsmanError where it has none that only a network of its own reaches.
    """
    import ipaddress
    import socket

    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # Nothing is sent: it only asks the system which way it would go.
            probe.connect(("192.0.2.1", 9))
            found = str(probe.getsockname()[0])
        except OSError as fault:
            raise LeadsmanError("This machine is on no network now; without --lan the board is on "
                                "this machine alone.") from fault  # fmt: skip
    if not ipaddress.ip_address(found).is_private or found.startswith("127."):
        raise LeadsmanError(
            f"This machine's address is {found}, which the whole internet may reach; a board is "
            "for a network of one's own. Without --lan it is on this machine alone."
        )
    return found
