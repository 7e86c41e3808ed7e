"""A board beside a chat: what is typed of it, and what its devices say, in the chat's thread."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Awaitable, Callable
from contextlib import suppress
from typing import TYPE_CHECKING

from assistant.board.address import LOOPBACK, PORT, code_lines, own_address
from assistant.errors import LeadsmanError
from assistant.terminal.opening import Opening
from assistant.terminal.screen import Screen

if TYPE_CHECKING:
    from assistant.board.serving import Board
    from assistant.conversation.conversation import Conversation
    from assistant.conversation.shared import SharedTalk
    from assistant.job import Job
    from assistant.record.journal import Journal

BOARD = "/board"
WORDS = {"lan", "talk", "code", "off"}
HOW = (
    "/board shows the job on a page of this machine; /board lan for phones on the same network, "
    "/board lan talk lets them talk, too. /board code lets one more in, /board off ends it."
)
EXPOSED = (
    "Anybody on this network can reach the address; only a device that scans the code is let in, "
    "and a code lets in one. What is sent is not encrypted: on a network of strangers leave it."
)
IN_A_PLAIN_CHAT = (
    "In a plain chat a device's line would have to wait for Enter here. Leave it, and let devices "
    "alone talk: leadsman board --lan --talk"
)
MAY_CHANGE = (
    "Whoever has such a device, or the code, can change the job: read, put right, undo, pour. "
    "Not: end the program, write or put away files."
)


class FollowedTalk:
    """
    The job of a conversation that is open in this program.

    Parameters
    ----------
    conversation : Conversation
    journal : Journal
    """

    def __init__(self, conversation: Conversation, journal: Journal) -> None:
        self._conversation = conversation
        self._journal = journal
        self._seen: Job | None = None

    @property
    def name(self) -> str:
        """What the job is called now."""
        return self._journal.path.stem if self._journal.path is not None else "job"

    def look(self) -> Job | None:
        """The job, where it has changed."""
        job = self._conversation.job  # never changed, only followed by another: any thread may look
        if job is self._seen:
            return None
        self._seen = job
        return job


class BesideBoard:
    """
    Serves a board while the chat goes on.

    Parameters
    ----------
    opening : Opening
        Of the conversation.
    journal : Journal
        Its journal.
    screen : Screen
    port : int
        Where the board is served; 0 takes any that is free.
    takes_lines : bool
        Whether the chat can take what devices say while it waits for its own keyboard.
    why_not : str
        The reason given to a device where it cannot.
    has_keyboard : bool
        Without one the next code is shown by itself, as nobody could ask for it.
    """

    has_talk_key = False

    def __init__(
        self,
        opening: Opening,
        journal: Journal,
        screen: Screen,
        port: int = PORT,
        *,
        takes_lines: bool = True,
        why_not: str = IN_A_PLAIN_CHAT,
        has_keyboard: bool = True,
    ) -> None:
        self._opening = opening
        self._journal = journal
        self._screen = screen
        self._port = port
        self._takes_lines = takes_lines
        self._why_not = why_not
        self._has_keyboard = has_keyboard
        self._arrived = threading.Event()
        self._wake: Callable[[], None] = self._arrived.set
        self._talk: SharedTalk | None = None
        self._board: Board | None = None

    # --- what is typed ----------------------------------------------------------------

    def own(self, line: str) -> bool:
        """Take a line that is about the board; False where it is another."""
        word, *rest = line.casefold().split()
        if word != BOARD:
            return False
        try:
            self._asked(set(rest))
        except LeadsmanError as why:
            self._screen.say(str(why))
        return True

    def open(self, line: str) -> None:
        """The same for a line that has to be done; raises LeadsmanError where it cannot."""
        self._asked(set(line.split()[1:]))

    def _asked(self, words: set[str]) -> None:
        if not words <= WORDS or (words & {"off", "code"} and len(words) > 1):
            raise LeadsmanError(HOW)
        if words == {"off"}:
            was_there = self._board is not None
            self.close()
            self._screen.say("The board is off." if was_there else "There is no board.")
        elif words == {"code"} or (not words and self._board is not None):
            self._show_code()
        else:
            self._open(lan="lan" in words, talks="talk" in words)

    def _open(self, *, lan: bool, talks: bool) -> None:
        from assistant.board.serving import Board
        from assistant.conversation.shared import SharedTalk

        if talks and not self._takes_lines:
            raise LeadsmanError(self._why_not)
        host = own_address() if lan else LOOPBACK
        self.close()
        conversation = self._opening.conversation
        talk = SharedTalk(conversation, self._journal) if talks else None
        self._board = Board(
            FollowedTalk(conversation, self._journal), host, self._port,
            talk=talk, pairs=lan, on_paired=self._paired,
        )  # fmt: skip
        self._talk = talk
        if talk is not None:
            talk.wake = lambda: self._wake()
        self._board.start()
        self._show_code()
        if lan:
            self._screen.say(EXPOSED)
        if talks:
            self._screen.say(MAY_CHANGE)

    def _show_code(self) -> None:
        board = self._board
        if board is None:
            raise LeadsmanError(f"There is no board. {HOW}")
        if board.pairing is None:
            self._screen.say(
                f"The board is at {board.address} on this machine. /board off ends it."
            )
            return
        self._screen.say(f"For one device more: {board.code}")
        for line in code_lines(board.code).splitlines():
            self._screen.say_as_it_is(line)

    def _paired(self) -> None:
        # In the board's thread.
        if self._talk is not None and self._board is not None and self._board.pairing is not None:
            name = self._board.pairing.names[-1]
            more = " /board code lets in one more." if self._has_keyboard else ""
            self._talk.notice(f"({name} is in.{more})")

    # --- what devices say -----------------------------------------------------------------

    def take_all(self) -> None:
        """Hear and show all that devices have sent by now."""
        talk = self._talk
        while talk is not None:
            try:
                item = talk.take_next()
            except KeyboardInterrupt:
                self._screen.say("Stopped. “Tally” or “readings” shows what is on record.")
                continue
            if item is None:
                return
            if isinstance(item, str):
                self._screen.say(item)
                if not self._has_keyboard:
                    self._show_code()
                continue
            line, turn = item
            self._screen.echo(line.text, line.device)
            self._screen.show(turn)

    def wait(self, longest_s: float) -> None:
        """Wait until a device has sent something, where no prompt does."""
        if self._arrived.wait(longest_s):
            self._arrived.clear()

    def key(self) -> None:
        """Some key was pressed."""

    def press(self) -> None:
        """There is no talk key."""

    def status(self) -> str:
        """For the foot of the prompt: that the job is seen from outside."""
        board = self._board
        if board is None:
            return ""
        in_now = len(board.pairing.names) if board.pairing is not None else 0
        paired = f", {in_now} paired" if in_now else ""
        return f"board at {board.address}{paired}{': they can talk' if self._talk else ''}"

    async def watch(self, in_terminal: Callable[[Callable[[], None]], Awaitable[None]]) -> None:
        """Take what devices send, as long as a line is typed."""
        loop, arrived = asyncio.get_running_loop(), asyncio.Event()

        def wake() -> None:
            with suppress(RuntimeError):  # the prompt has ended meanwhile; the next one looks
                loop.call_soon_threadsafe(arrived.set)

        self._wake = wake
        while True:
            arrived.clear()
            if self._talk is not None and not self._talk.is_empty:
                await in_terminal(self.take_all)
            await arrived.wait()

    def close(self) -> None:
        """Serve no longer; may be called twice."""
        if self._talk is not None:
            self._talk.close()
        if self._board is not None:
            self._board.close()
        self._board = self._talk = None
