"""Opens a conversation in the background of the first prompt, so that nobody waits for it."""

from __future__ import annotations

import threading
from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.conversation.conversation import Conversation


class Opening:
    """
    A conversation that is opened when first needed, with the slow part done beforehand.

    Parameters
    ----------
    converse : callable
        Opens the conversation; called once, where it is used, as a job file belongs to
        the thread that opened it.
    warm_up : callable
        Loads what is slow to load; called in a thread of its own.
    """

    def __init__(self, converse: Callable[[], Conversation], warm_up: Callable[[], None]) -> None:
        self._converse = converse
        self._warm_up = warm_up
        self._thread: threading.Thread | None = None
        self._conversation: Conversation | None = None
        self.fetched = False
        """Whether all has been loaded."""

    @property
    def opened(self) -> bool:
        """Whether there is a conversation yet."""
        return self._conversation is not None

    @property
    def conversation(self) -> Conversation:
        """The conversation; waits for what is still being loaded."""
        if self._thread is not None:
            self._thread.join()
        if self._conversation is None:
            self._conversation = self._converse()
        return self._conversation

    def start(self, when_ready: Callable[[], None] = lambda: None) -> None:
        """Begin loading; a second call does nothing."""
        if self._thread is None:
            self._thread = threading.Thread(target=self._fetch, args=(when_ready,), daemon=True)
            self._thread.start()

    def _fetch(self, when_ready: Callable[[], None]) -> None:
        # A fault here shows again, and better, when the conversation itself is opened.
        with suppress(Exception):
            self._warm_up()
        self.fetched = True
        when_ready()
