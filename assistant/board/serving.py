"""Serves a board, by uvicorn."""

from __future__ import annotations

import logging
import socket
import threading
from collections.abc import Callable
from typing import TYPE_CHECKING

from assistant.board.app import board_app
from assistant.board.following import Followed, FollowedFile, Following
from assistant.board.guard import Guard, Pairing
from assistant.errors import LeadsmanError
from assistant.handover.extras import needed
from assistant.record.journal import utc_now
from assistant.record.watched import WatchedFile

if TYPE_CHECKING:
    import uvicorn

    from assistant.conversation.shared import SharedTalk

Tells = Callable[[str, Pairing | None], None]


class Board:
    """
    A board that listens at its address; LeadsmanError where it cannot, or packages are missing.

    Parameters
    ----------
    followed : Followed
        The job.
    host, port
        Port 0 takes any that is free.
    talk : SharedTalk, optional
        With it paired devices may talk too.
    pairs : bool
        Whether devices have to be paired; where they talk they always have to.
    on_paired : callable
        Called from the board's thread when a device came in.
    """

    def __init__(
        self,
        followed: Followed,
        host: str,
        port: int,
        *,
        talk: SharedTalk | None = None,
        pairs: bool = False,
        on_paired: Callable[[], None] = lambda: None,
    ) -> None:
        with needed("A board", "board"):
            import segno  # noqa: F401  # needed to print the address; if it is missing, the error comes before that
            import uvicorn
        self._listening = _listening(host, port)
        try:
            name = f"{host}:{self._listening.getsockname()[1]}"
            self.address = f"http://{name}/"
            new_name = talk.new_name if talk is not None else lambda: ""
            self.pairing = Pairing(on_paired, new_name) if pairs or talk is not None else None
            names = [name] if pairs else [name, name.replace("127.0.0.1", "localhost")]
            app = board_app(Following(followed, utc_now), talk)
            if talk is None:
                guard = Guard(app, names, self.pairing)
            else:
                from assistant.board.talk_routes import HOME, SAY

                guard = Guard(app, names, self.pairing, takes=SAY, home=HOME)
            self._server = uvicorn.Server(_settings(guard))
        except BaseException:
            self._listening.close()
            raise
        self._thread: threading.Thread | None = None

    @property
    def code(self) -> str:
        """The address that lets one device in; the board's own where none is needed."""
        return self.address if self.pairing is None else f"{self.address}pair/{self.pairing.token}"

    def run(self) -> None:
        """Serve in this thread until the program is stopped."""
        # A phone that walked off is no fault, and a warning of it would come over the typed line.
        logging.getLogger("asyncio").setLevel(logging.ERROR)
        self._server.run(sockets=[self._listening])

    def start(self) -> None:
        """Serve in a thread of its own until :meth:`close`."""
        self._thread = threading.Thread(target=self.run, name="board", daemon=True)
        self._thread.start()

    def close(self) -> None:
        """Serve no longer; may be called twice."""
        if self._thread is not None:
            self._server.should_exit = True
            self._thread.join(5)
            self._thread = None
        self._listening.close()


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
        Called with the address to show, and with the pairing each time there is a new code.
    """

    def tell_again() -> None:
        tell(board.code, board.pairing)

    board = Board(FollowedFile(file), host, port, pairs=lan, on_paired=tell_again)
    try:
        tell_again()
        board.run()
    finally:
        board.close()


def _settings(app: Guard) -> uvicorn.Config:
    import uvicorn

    return uvicorn.Config(
        app,
        # At its end it complains, on the terminal, of every page that still follows.
        log_level="critical",
        access_log=False,
        server_header=False,
        ws="none",
        timeout_graceful_shutdown=1,
        limit_concurrency=100,
    )


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
