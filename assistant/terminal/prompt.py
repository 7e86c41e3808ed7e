"""The typed line: where it comes from, and what is heard and shown while it waits.

The prompt is drawn first. The grammar and the numeric core are loaded in the background
while the installer reads it; only the first line may have to wait for them.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterator, Mapping, Sequence
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from assistant.record.places import Folders
from assistant.terminal.around_the_line import Toolbar, completer_of, question_before
from assistant.terminal.endings import ends_through
from assistant.terminal.opening import Opening
from assistant.terminal.output import output_to, terminal_width
from assistant.terminal.plain_typing import sent_at_once
from assistant.terminal.screen import Screen
from assistant.terminal.talking import talk
from assistant.wiring import converse, warm_up

if TYPE_CHECKING:
    from prompt_toolkit import PromptSession
    from prompt_toolkit.application import Application
    from prompt_toolkit.buffer import Buffer
    from prompt_toolkit.history import History
    from prompt_toolkit.input import Input
    from prompt_toolkit.key_binding import KeyBindings
    from prompt_toolkit.output import Output

    from assistant.products.cards import Card
    from assistant.record.journal import Journal
    from assistant.reply.replies import Reply

MARK = "> "

LISTEN_S = 1.0
"""Between checks of the clocks, which count in minutes."""

TALK_KEY = "f2"
"""The key that begins and ends an utterance; space does too where nothing is typed yet."""


class Beside(Protocol):
    """What runs beside the typed line: a recogniser and a voice, or a board."""

    @property
    def has_talk_key(self) -> bool:
        """Whether space on an empty line and F2 are for it."""

    def key(self) -> None:
        """Some key was pressed."""

    def press(self) -> None:
        """The talk key was pressed."""

    def status(self) -> str:
        """A few words for the foot of the prompt."""

    async def watch(self, in_terminal: Callable[[Callable[[], None]], Awaitable[None]]) -> None:
        """Runs as long as the line is typed; what writes to the screen does so in `in_terminal`."""


class BesideChat(Beside, Protocol):
    """The same, with lines of its own."""

    def own(self, line: str) -> bool:
        """Take a line that is for it; False where it is none."""

    def close(self) -> None:
        """The chat has ended."""


def open_chat(
    journal: Journal,
    cards: Mapping[str, Card],
    folders: Folders,
    path: Path,
    *,
    plain: bool = False,
    first: Sequence[str] = (),
    beside: Callable[[Opening, Screen], BesideChat] | None = None,
) -> None:
    """
    The chat on one job, until Ctrl-D; `first` is said before anything is typed.

    What runs beside it is made by `beside`, and closed at the end.
    """
    screen = Screen(output_to(plain=plain))
    opening = Opening(lambda: converse(journal, cards, folders), lambda: warm_up(cards))
    other = beside(opening, screen) if beside is not None else None
    screen.say(f"Job {path.stem}. Every answered line is on disk, in {path}")
    for line in how_to_type(plain=plain):
        screen.say(line)
    tell = screen.show_reply
    # A plain terminal shows nothing while a line is typed on it.
    has_to_tell = journal.has_to_tell or journal.last_utterance() > 0
    if plain and has_to_tell and (told := opening.conversation.rung()):
        tell(told)

    def shown() -> str | None:
        return screen.asked

    if plain:
        lines = plain_lines(opening, shown)
    else:
        lines = edited_lines(opening, folders, tell=tell, beside=other, shown=shown)
    try:
        talk(chain(first, lines), opening, screen, own=other.own if other else lambda _: False)
    finally:
        if other is not None:
            other.close()
    # It may have got another name meanwhile.
    screen.say(_farewell(opening, journal.path or path))


def how_to_type(*, plain: bool) -> Iterator[str]:
    """What to do at the prompt; a screen reader's way in is named where it is not taken."""
    yield "Type what you would say. “?” lists it, “help doors” a part of it; Ctrl-D or “quit” ends."
    if not plain:
        yield "For a screen reader: leadsman --plain"


def _farewell(opening: Opening, path: Path) -> str:
    waiting = opening.conversation.pending if opening.opened else None
    open_question = f" Left open, nothing recorded for it: {waiting.text}" if waiting else ""
    return f"The job is on disk, in {path}{open_question}"


# --- where lines come from -----------------------------------------------------------


def plain_lines(opening: Opening, shown: Callable[[], str | None] = lambda: None) -> Iterator[str]:
    """Lines typed at a terminal that only takes plain text; Ctrl-C drops one, Ctrl-D ends."""
    opening.start()
    yield from sent_at_once(lambda: question_before(opening, terminal_width(), shown()) + MARK)


def edited_lines(
    opening: Opening,
    folders: Folders,
    input: Input | None = None,
    output: Output | None = None,
    tell: Callable[[Reply], None] = lambda _: None,
    beside: Beside | None = None,
    shown: Callable[[], str | None] = lambda: None,
) -> Iterator[str]:
    """
    What is typed, with history, completion and the tally; Ctrl-C drops it, Ctrl-D ends.

    What is pasted comes as one text of several lines. What a clock has to say is shown above
    the line while it is typed.
    """
    session = _session(opening, folders, input, output, beside, shown)
    sent = _Sent(session)

    def listen() -> None:
        session.app.create_background_task(_tell_what_rings(opening, tell))
        if beside is not None:
            session.app.create_background_task(_watch(beside, session.app))

    while True:
        try:
            with ends_through(lambda end: _leave(session.app, end)):
                text = session.prompt(pre_run=listen)
        except KeyboardInterrupt:
            # Ctrl-C a moment after Enter: the line was sent, and is heard.
            text = sent.text
        except EOFError:
            return
        sent.text = ""
        yield text


def _leave(app: Application[str], end: SystemExit) -> None:
    """The prompt ends in its own time, so that it hands back the terminal as it was."""

    def leave() -> None:
        if app.is_running and not app.is_done:
            app.exit(exception=end)

    if app.loop is None:  # not yet at the terminal, or not any more
        raise end
    app.loop.call_soon_threadsafe(leave)


class _Sent:
    """The line sent with Enter, from the moment it was sent."""

    def __init__(self, session: PromptSession[str]) -> None:
        self.text = ""
        self._accept = session.default_buffer.accept_handler
        session.default_buffer.accept_handler = self._take

    def _take(self, buffer: Buffer) -> bool:
        self.text = buffer.text
        return self._accept(buffer) if self._accept is not None else False


async def _tell_what_rings(opening: Opening, tell: Callable[[Reply], None]) -> None:
    """Look at the clocks every second, as long as the line is being typed."""
    from prompt_toolkit.application import run_in_terminal

    def told() -> None:
        # Asked for only where it is shown: a line sent in between must not swallow it.
        reply = opening.conversation.rung()
        if reply is not None:
            tell(reply)

    while True:
        await asyncio.sleep(LISTEN_S)
        if opening.opened and opening.conversation.rings:
            await run_in_terminal(told)


async def _watch(beside: Beside, app: Application[str]) -> None:
    """Let a fault in what runs beside the line end the prompt, as one in the prompt would."""
    from prompt_toolkit.application import run_in_terminal

    async def in_terminal(write: Callable[[], None]) -> None:
        await run_in_terminal(write)
        app.invalidate()

    try:
        await beside.watch(in_terminal)
    except Exception as fault:
        if app.is_running:
            app.exit(exception=fault)


def _talk_keys(beside: Beside) -> KeyBindings:
    from prompt_toolkit.application import get_app
    from prompt_toolkit.filters import Condition
    from prompt_toolkit.key_binding import KeyBindings

    bindings = KeyBindings()
    empty = Condition(lambda: not get_app().current_buffer.text)

    def talk(_: object) -> None:
        beside.press()

    bindings.add(TALK_KEY)(talk)
    bindings.add(" ", filter=empty)(talk)
    return bindings


def _session(
    opening: Opening,
    folders: Folders,
    input: Input | None,
    output: Output | None,
    beside: Beside | None = None,
    shown: Callable[[], str | None] = lambda: None,
) -> PromptSession[str]:
    from prompt_toolkit import PromptSession
    from prompt_toolkit.styles import Style

    toolbar = Toolbar(opening, beside.status if beside is not None else lambda: "")
    session: PromptSession[str] = PromptSession(
        message=lambda: question_before(opening, _columns(session), shown()) + MARK,
        history=_history(folders),
        completer=completer_of(opening),
        complete_while_typing=True,
        bottom_toolbar=lambda: toolbar.text(
            session.default_buffer.document.current_line_before_cursor, _columns(session)
        ),
        reserve_space_for_menu=5,
        enable_suspend=True,
        style=Style.from_dict({"bottom-toolbar": "noreverse"}),
        input=input,
        output=output,
        key_bindings=_talk_keys(beside) if beside is not None and beside.has_talk_key else None,
    )
    if beside is not None:
        session.app.key_processor.before_key_press += lambda _: beside.key()
    _open_when_drawn(opening, session)
    return session


def _open_when_drawn(opening: Opening, session: PromptSession[str]) -> None:
    """Draw the prompt, then load the rest, then open the job."""
    app = session.app

    def fetched() -> None:
        if app.loop is not None and app.is_running:
            app.loop.call_soon_threadsafe(app.invalidate)

    def drawn(_: object) -> None:
        opening.start(fetched)
        if opening.fetched and not opening.opened and app.loop is not None:
            app.loop.call_soon(open_now)

    def open_now() -> None:
        try:
            opening.conversation  # noqa: B018 - opens it
        except Exception as fault:
            if app.is_running:
                app.exit(exception=fault)
        else:
            app.invalidate()

    app.after_render += drawn


def _history(folders: Folders) -> History:
    from prompt_toolkit.history import FileHistory, InMemoryHistory

    try:
        folders.data.mkdir(parents=True, exist_ok=True)
        with folders.history.open("ab"):
            pass
    except OSError:
        # A folder that can't be written must not stop the work; only the history is lost.
        return InMemoryHistory()
    return FileHistory(str(folders.history))


def _columns(session: PromptSession[str]) -> int:
    return session.output.get_size().columns
