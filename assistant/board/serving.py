"""Serves a board, by uvicorn."""

from __future__ import annotations

import socket
from collections.abc import Callable

from assistant.board.app import board_app
from assistant.board.following import Following
from assistant.board.guard import Guard, Pairing
from assistant.errors import LeadsmanError
from assistant.handover.extras import needed
from assistant.record.journal import utc_now
from assistant.record.watched import WatchedFile

Tells = Callable[[str, Pairing | None], None]


def serve(file: WatchedFile, host: str, port: int, *, lan: bool, tell: Tells) -> None:
    """
    Serve the board of a job file until the program is stopped.

    Parameters
    ----------
    file, host, port
        Port 0 takes any that is free.
    lan : bool
        Whether devices have to be paired.
    tell : callable
        Called with the page's address, and with the pairing each time there is a new code.
    """
    with needed("A board", "board"):
        import segno  # noqa: F401  # printed with the address: missing, it is told before that
        import uvicorn
    listening = _listening(host, port)
    try:
        name = f"{host}:{listening.getsockname()[1]}"
        address = f"http://{name}/"
        pairing = Pairing(lambda: tell(address, pairing)) if lan else None
        hosts = [name] if lan else [name, name.replace("127.0.0.1", "localhost")]
        app = Guard(board_app(Following(file, utc_now)), hosts, pairing)
        tell(address, pairing)
        config = uvicorn.Config(
            app,
            log_level="error",
            access_log=False,
            server_header=False,
            ws="none",
            timeout_graceful_shutdown=1,
            limit_concurrency=100,
        )
        uvicorn.Server(config).run(sockets=[listening])
    finally:
        listening.close()


def _listening(host: str, port: int) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((host, port))
        listening.listen()  # whoever follows the address at once waits, and is not refused
    except OSError as fault:
        listening.close()
        raise LeadsmanError(
            f"Port {port} of {host} cannot be used: {fault.strerror}. Another: --port 0"
        ) from fault
    return listening
