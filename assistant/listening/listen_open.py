"""Opens a chat that hears or speaks: puts its parts together and connects the typed line."""

from __future__ import annotations

import asyncio
import queue
import sys
import threading
import tomllib
from collections.abc import Awaitable, Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager, nullcontext, suppress
from dataclasses import replace
from importlib import resources
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.board.beside import BesideBoard
from assistant.conversation.lines import LEAVE, utterance_in
from assistant.listening.adjusted import AdjustedSpeaker
from assistant.listening.listen_chat import ListenChat
from assistant.listening.listening import Listening, Prudence
from assistant.listening.open_ears import Inbox, Notice, OpenEars
from assistant.listening.voice_settings import (
    VoiceSettings,
    open_engine,
    open_speaker,
    spoken_language,
)
from assistant.record.memory import Memory
from assistant.record.places import Folders
from assistant.reply.manner import Manner
from assistant.sound.kept_audio import KeptAudio, audio_folder
from assistant.terminal.around_the_line import question_before
from assistant.terminal.opening import Opening
from assistant.terminal.output import output_to
from assistant.terminal.prompt import MARK, edited_lines
from assistant.terminal.screen import Screen
from assistant.terminal.talking import talk
from assistant.wiring import converse, warm_up

if TYPE_CHECKING:
    from assistant.conversation.conversation import Conversation
    from assistant.ears.hearing import Engine
    from assistant.products.cards import Card
    from assistant.record.journal import Journal
    from assistant.voice.speaker import Speaker, Speech, WhileSpeaking
    from grammar.spoken import Spoken

LISTENS_ALREADY = (
    "A chat that listens or speaks shows a board (/board, /board lan) but takes no lines of "
    "devices. For those, in the place of this chat: leadsman board --lan --talk"
)
LOOK_S = 0.5
"""Between checks of a waiting question, which lapses after many seconds."""


def open_listen_chat(
    journal: Journal,
    cards: Mapping[str, Card],
    folders: Folders,
    path: Path,
    settings: VoiceSettings,
    *,
    ears: bool = True,
    plain: bool = False,
    first: Sequence[str] = (),
) -> None:
    """
    The spoken chat, until Ctrl-D; without `ears` it only speaks.

    Raises :class:`LeadsmanError` before anything is heard where a part is missing.
    """
    screen = Screen(output_to(plain=plain))
    opening = Opening(lambda: converse(journal, cards, folders), lambda: warm_up(cards))
    inbox, spoken = Inbox(), spoken_language(settings, cards)
    with ExitStack() as parts:
        open_ears: OpenEars | None = None
        while_speaking: WhileSpeaking = nullcontext
        if ears:
            screen.say("Loading the ears …")
            engine = open_engine(settings, spoken)
            for told in missing_words(engine):
                screen.say(told)
            open_ears, while_speaking = _ears(settings, engine, inbox)
            # Opened here: the job file belongs to the thread that opens it, and the ears only look.
            conversation = opening.conversation
            open_ears.reading_unit = lambda: conversation.job.reading_unit
            open_ears.out_of_turn = conversation.out_of_turn

        def open_mouth(manner: Manner) -> Speaker:
            told_of = lambda fault: inbox.put(Notice(str(fault)))  # noqa: E731
            return open_speaker(replace(settings, speaks=True), while_speaking, told_of, manner)

        manner = Memory(folders.memory).manner
        speaker = AdjustedSpeaker(open_mouth, manner, speaks=settings.speaks)
        parts.callback(speaker.close)
        chat = ListenChat(
            opening,
            screen,
            speaker,
            lambda: listening_to(opening.conversation, journal, spoken),
            open_ears,
            KeptAudio(audio_folder(path)) if settings.keeps_audio else None,
            adjust=speaker.adjust,
        )
        board = BesideBoard(opening, journal, screen, takes_lines=False, why_not=LISTENS_ALREADY)
        parts.callback(board.close)
        if open_ears is not None:
            open_ears.start()
            parts.callback(open_ears.close)
        screen.say(f"Job {path.stem}. Every answered line is on disk, in {path}")
        for told in _how_to(settings, ears=ears):
            screen.say(told)
        if ears and settings.hands_free:
            # For somebody who is not looking at a screen.
            speaker.say("Listening.")
        if plain:
            _plain_session(chat, opening, inbox, screen, first, board.own)
        else:
            lines = edited_lines(
                opening,
                folders,
                tell=chat.tell,
                beside=BesideThePrompt(chat, inbox),
                shown=lambda: screen.asked,
            )
            _typed_session(chat, chain(first, lines), screen, board.own)
    if chat.noting:
        screen.say(f"A note was begun and not ended, so it is not kept: “{chat.noting}”")
    waiting = opening.conversation.pending if opening.opened else None
    open_question = f" Left open, nothing recorded for it: {waiting.text}" if waiting else ""
    screen.say(f"The job is on disk, in {journal.path or path}{open_question}")


def listening_to(
    conversation: Conversation, journal: Journal, spoken: Spoken | None = None
) -> Listening:
    """What hands heard utterances to a conversation, weighing doubtful readings by the floor."""
    from assistant.floor.suspicion import weigh_readings

    return Listening(conversation, prudence(), weigh_readings, journal.note_miss, spoken=spoken)


def prudence() -> Prudence:
    """When to ask although the recogniser is sure, as calibrated with its thresholds."""
    text = resources.files("assistant.ears").joinpath("thresholds.toml").read_text("utf-8")
    return Prudence(**tomllib.loads(text)["noise"])


def missing_words(engine: Engine) -> list[str]:
    """What the recogniser cannot hear, in a sentence."""
    missing = engine.info().get("missing words", "")
    if missing in ("", "none"):
        return []
    return [f"The model has no word for: {missing}. Type those."]


def _ears(settings: VoiceSettings, engine: Engine, inbox: Inbox) -> tuple[OpenEars, WhileSpeaking]:
    from assistant.sound.microphone import Microphone
    from assistant.sound.resample import resample_all

    microphone = Microphone(settings.microphone)
    ears = OpenEars(engine, microphone, inbox, hands_free=settings.hands_free)

    @contextmanager
    def while_speaking(speech: Speech | None) -> Iterator[None]:
        said = resample_all(speech.samples, speech.rate_hz) if speech else None
        with microphone.ears_closed(said):
            yield

    return ears, while_speaking


def _how_to(settings: VoiceSettings, *, ears: bool) -> Iterator[str]:
    if ears and settings.hands_free:
        yield "Say it or type it. “Ears closed” closes them; Ctrl-D ends."
    elif ears:
        yield ("Press space or F2, then say it; or type it. “Ears open” needs no key; Ctrl-D ends.")
    else:
        yield "Type what you would say; the answer is said aloud. Ctrl-D ends."


Own = Callable[[str], bool]
"""Takes a typed line that is no command of the job; False where it is one."""


def _nothing_of_its_own(_line: str) -> bool:
    return False


# --- at the prompt --------------------------------------------------------------------


def _typed_session(
    chat: ListenChat, lines: Iterable[str], screen: Screen, own: Own = _nothing_of_its_own
) -> None:
    talk(lines, chat.opening, screen, chat.typed, own)


class BesideThePrompt:
    """Recogniser and voice while a line is typed; writes above it, and only from its thread."""

    has_talk_key = True

    def __init__(self, chat: ListenChat, inbox: Inbox) -> None:
        self._chat = chat
        self._inbox = inbox

    def key(self) -> None:
        """Some key was pressed."""
        self._chat.key()

    def press(self) -> None:
        """The talk key was pressed."""
        self._chat.press()

    def status(self) -> str:
        """The state of the recogniser."""
        return self._chat.status()

    async def watch(self, in_terminal: Callable[[Callable[[], None]], Awaitable[None]]) -> None:
        """Take what was heard, and check on the waiting question."""
        loop, arrived = asyncio.get_running_loop(), asyncio.Event()

        def wake() -> None:
            with suppress(RuntimeError):  # the prompt has ended meanwhile; the next one looks
                loop.call_soon_threadsafe(arrived.set)

        self._inbox.wake = wake
        while True:
            arrived.clear()
            if not self._inbox.is_empty:
                # Taken only where it is shown: a line sent in between must not swallow it.
                await in_terminal(lambda: self._chat.take_all(self._inbox))
            if self._chat.tick():
                await in_terminal(self._chat.lapse)
            with suppress(TimeoutError):
                await asyncio.wait_for(arrived.wait(), LOOK_S)


# --- where only plain text is taken -------------------------------------------------------


def _plain_session(
    chat: ListenChat,
    opening: Opening,
    inbox: Inbox,
    screen: Screen,
    first: Sequence[str],
    own: Own = _nothing_of_its_own,
) -> None:
    """Lines read in a thread of their own; Enter on an empty line is the talk key."""
    opening.start()
    if (told := opening.conversation.rung()) is not None:
        chat.tell(told)
    typed: queue.SimpleQueue[str | None] = queue.SimpleQueue()
    arrived = threading.Event()
    inbox.wake = arrived.set
    for line in first:
        typed.put(line)

    def read() -> None:
        for line in sys.stdin or ():
            typed.put(line)
            arrived.set()
        typed.put(None)
        arrived.set()

    threading.Thread(target=read, name="typed lines", daemon=True).start()
    _mark(opening, screen)
    while True:
        try:
            arrived.wait(LOOK_S)
            arrived.clear()
            if not _plain_step(chat, opening, inbox, typed, screen, own):
                return
        except KeyboardInterrupt:
            screen.say("Stopped. “Tally” or “readings” shows what is on record.")


def _plain_step(
    chat: ListenChat,
    opening: Opening,
    inbox: Inbox,
    typed: queue.SimpleQueue[str | None],
    screen: Screen,
    own: Own,
) -> bool:
    """Handle all that has come by now; False at the end."""
    if not inbox.is_empty:
        chat.take_all(inbox)
        _mark(opening, screen)
    if chat.tick():
        chat.lapse()
        _mark(opening, screen)
    while not typed.empty():
        line = typed.get()
        text = utterance_in(line) if line is not None else ""
        if line is None or text.casefold() in LEAVE:
            return False
        if not text:
            chat.press()
        elif not own(text):
            chat.typed(text)
        _mark(opening, screen)
    return True


def _mark(opening: Opening, screen: Screen) -> None:
    print(question_before(opening, 80, screen.asked) + MARK, end="", flush=True)
