"""Typed and spoken in one session: who writes, who speaks, and what becomes of questions."""

from __future__ import annotations

import asyncio
import io
import queue
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput
from rich.console import Console

from assistant.conversation import Conversation
from assistant.decide import World
from assistant.ears.endpoint import Gap
from assistant.ears.hearing import Alternative, EarsError, Heard
from assistant.ears.script import ScriptEngine, heard_text
from assistant.errors import LeadsmanError
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.record.places import Folders
from assistant.spoken import listen_open
from assistant.spoken.kept_audio import KeptAudio
from assistant.spoken.listen_chat import ASK_AGAIN_S, LAPSE_S, ListenChat
from assistant.spoken.listen_open import BesideThePrompt, _plain_session, _typed_session
from assistant.spoken.listening import Listening
from assistant.spoken.open_ears import Arrival, HeardOne, Inbox, Notice, OpenEars, SpeechBegan
from assistant.terminal.prompt import Opening, edited_lines
from assistant.terminal.screen import Screen
from grammar import short_form, understand
from grammar.commands import Command

B3 = "bravo three minus eighteen millimetres"
NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)
FIFTEEN_OR_FIFTY = Heard(
    "bravo three minus fifteen millimetres",
    tuple(
        Alternative(f"bravo three minus {size} millimetres", command, short_form(command), p, 0.0)
        for size, p in (("fifteen", 0.6), ("fifty", 0.4))
        for command in understand(f"bravo three minus {size} millimetres")
    ),
    "ask",
)


class Mouth:
    """Keeps what it was told to say."""

    def __init__(self) -> None:
        self.said: list[str] = []
        self.stopped = 0
        self.speaking = False

    def say(self, text: str) -> None:
        self.said.append(text)

    def stop(self) -> None:
        self.stopped += 1

    def wait(self, timeout_s: float | None = None) -> bool:  # noqa: ARG002
        return True

    def close(self) -> None:
        pass


class Clock:
    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


class Room:
    """A chat with everything handed in."""

    def __init__(self, tmp_path: Path, journal: Journal, ears: OpenEars | None = None) -> None:
        self.talk = Conversation(journal, World(cards_in(shipped_folder())))
        for line in ("room 8 by 6 metres", "grid 2 metres"):
            self.talk.hear(line)
        self.opening = Opening(lambda: self.talk, lambda: None)
        self.opening.conversation  # noqa: B018 - opened now
        self.file = io.StringIO()
        self.screen = Screen(Console(file=self.file, width=70))
        self.mouth, self.clock = Mouth(), Clock()
        self.kept: KeptAudio | None = None
        self.folder = tmp_path
        self.chat = ListenChat(
            self.opening,
            self.screen,
            self.mouth,
            lambda: Listening(self.talk, keep_miss=journal.note_miss),
            ears,
            KeptAudio(tmp_path / "kept.audio"),
            self.clock,
            lambda: NOON,
        )

    @property
    def shown(self) -> str:
        return self.file.getvalue()

    @property
    def readings(self) -> dict[str, int]:
        return {point: int(reading.mm) for point, reading in self.talk.job.readings.items()}

    def hear(self, words: str | Heard, **more: object) -> None:
        one = heard_text(words) if isinstance(words, str) else words
        self.chat.arrived(HeardOne(one, **more))  # type: ignore[arg-type]


@pytest.fixture
def journal() -> Iterator[Journal]:
    with Journal.open(None) as opened:
        yield opened


@pytest.fixture
def room(tmp_path: Path, journal: Journal) -> Room:
    return Room(tmp_path, journal)


# --- one session -------------------------------------------------------------------------


def test_typed_and_spoken_are_one_talk(room: Room) -> None:
    room.hear(B3)
    room.chat.typed("C3 -4")
    room.hear("scratch that")
    assert room.readings == {"B3": -18}
    assert room.shown.startswith(f"> “{B3}” (sure, 100 %)\nB3 18 mm below. Depth 18 mm.\n")
    assert room.mouth.said[0].startswith("Bravo three, one eight millimetres below.")
    assert len(room.mouth.said) == 3


def test_how_sure_it_was_is_shown(room: Room) -> None:
    room.hear(replace(FIFTEEN_OR_FIFTY, snr_db=12.4, heard_s=0.31))
    assert room.shown.startswith(
        "> “bravo three minus fifteen millimetres”\n  (ask, 60 %, 12 dB over the noise, 0.3 s)\n"
    )
    assert "B3 -15 mm or B3 -50 mm?" in room.shown
    assert room.mouth.said == ["One five or five zero?"]


def test_a_question_that_was_heard_is_answered_by_typing(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    room.chat.typed("50")
    assert room.readings == {"B3": -50}


def test_a_question_that_was_typed_is_answered_by_saying(room: Room) -> None:
    room.chat.typed("B3 18")
    room.hear("minus eighteen millimetres")
    assert room.readings == {"B3": -18}


def test_every_utterance_gets_an_answer(room: Room) -> None:
    for words in ("mind the door", "product nothing of the kind", "scratch bravo three", "tally"):
        room.hear(words)
    assert len(room.mouth.said) == 4
    assert room.mouth.said[0] == "Say again."
    assert "mind the door" in room.shown


def test_nothing_heard_after_the_key_is_answered_but_silence_is_not(room: Room) -> None:
    room.hear("")
    assert (room.shown, room.mouth.said) == ("", [])
    room.hear("", by_key=True)
    assert room.mouth.said == ["Nothing heard."]


def test_a_half_heard_utterance_is_asked_for_again(room: Room) -> None:
    room.hear(B3, whole=False)
    assert room.readings == {}
    assert room.mouth.said == ["Say again."]


def test_a_key_or_new_speech_stops_the_mouth(room: Room) -> None:
    for number, stop in enumerate(
        (room.chat.key, room.chat.press, lambda: room.chat.arrived(SpeechBegan())), start=1
    ):
        stop()
        assert room.mouth.stopped == number


def test_a_notice_is_shown(room: Room) -> None:
    room.chat.arrived(Notice("The microphone “Collar” went away. Nothing is heard."))
    assert "went away" in room.shown
    assert room.mouth.said == []
    room.chat.arrived(Notice("The ears failed.", ears_gone=True))
    assert room.mouth.said == ["I hear nothing any more."]


def test_a_clock_is_shown_and_said(room: Room) -> None:
    from assistant.replies import Reply

    room.chat.told(Reply("Clock: priming coat dry.", "The primer is dry."))
    assert "Clock: priming coat dry." in room.shown
    assert room.mouth.said == ["The primer is dry."]


# --- the question that waits ------------------------------------------------------------


def test_unanswered_it_is_asked_again_and_then_lapses(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    assert not room.chat.tick()
    room.clock.now += ASK_AGAIN_S
    assert not room.chat.tick()
    assert room.mouth.said == ["One five or five zero?"] * 2
    room.clock.now += LAPSE_S - 1
    assert not room.chat.tick()
    room.clock.now += 1
    assert room.chat.tick()
    room.chat.lapse()
    assert room.talk.pending is None
    assert room.readings == {}
    assert "not done and nothing is recorded" in room.shown
    room.hear("confirm")
    assert room.readings == {}


def test_as_long_as_somebody_speaks_it_does_not_lapse(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    room.clock.now += ASK_AGAIN_S
    room.mouth.speaking = True
    assert not room.chat.tick()
    assert room.mouth.said == ["One five or five zero?"]
    room.mouth.speaking = False
    room.clock.now += ASK_AGAIN_S - 1
    room.chat.arrived(SpeechBegan())
    room.clock.now += 2
    assert not room.chat.tick()
    assert room.mouth.said == ["One five or five zero?"]


def test_a_typed_question_waits_for_ever(room: Room) -> None:
    room.chat.typed("B3 18")
    for _ in range(3):
        room.clock.now += 1000
        assert not room.chat.tick()
    room.chat.typed("below")
    assert room.readings == {"B3": -18}


def test_a_new_question_has_its_own_time(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    room.clock.now += ASK_AGAIN_S
    room.chat.tick()
    room.hear("cancel that")
    room.hear(FIFTEEN_OR_FIFTY)
    room.clock.now += ASK_AGAIN_S - 1
    assert not room.chat.tick()
    assert len(room.mouth.said) == 4


# --- sound that is kept ---------------------------------------------------------------------


def test_sound_is_kept_where_it_was_asked_for(room: Room) -> None:
    sound = np.zeros(160, np.float32)
    room.hear(B3, sound=sound)
    assert [path.name for path in (room.folder / "kept.audio").iterdir()] == [
        "20260504-120000-000000-sure.wav"
    ]


def test_sound_that_cannot_be_kept_is_told_of_once(room: Room) -> None:
    (room.folder / "kept.audio").write_text("in the way")
    for words in (B3, "tally"):
        room.hear(words, sound=np.zeros(160, np.float32))
    assert room.shown.count("could not be kept") == 1
    assert room.readings == {"B3": -18}


# --- ears in a thread ---------------------------------------------------------------------------


class Level:
    """Takes what is loud for speech."""

    def __call__(self, frame: np.ndarray) -> float:
        return float(np.max(np.abs(frame)) > 0.01)

    def reset(self) -> None:
        pass


class Microphone:
    """Gives what the test puts in, until told that it is over."""

    def __init__(self) -> None:
        self.waiting: queue.SimpleQueue[np.ndarray | Gap | Exception | None] = queue.SimpleQueue()
        self.closed = False
        self.overhear: Callable[[np.ndarray], None] | None = None
        self.mouth_says: Callable[[np.ndarray | None], None] | None = None
        self.opened_now = 0

    def open_now(self) -> None:
        self.opened_now += 1

    def __enter__(self) -> Iterator[np.ndarray | Gap]:
        return self._chunks()

    def __exit__(self, *_: object) -> None:
        self.closed = True
        self.waiting.put(None)

    def _chunks(self) -> Iterator[np.ndarray | Gap]:
        while (item := self.waiting.get(timeout=10)) is not None:
            if isinstance(item, Exception):
                raise item
            yield item

    def speak(self, seconds: float = 0.5, pause: float = 0.8) -> None:
        """Somebody speaks; it goes in as a device gives it, 32 ms at a time."""
        at = np.arange(int(16_000 * seconds)) / 16_000
        sound = np.concatenate(
            (np.sin(2 * np.pi * 200 * at).astype(np.float32) / 4, np.zeros(int(16_000 * pause)))
        ).astype(np.float32)
        for start in range(0, len(sound), 512):
            self.waiting.put(sound[start : start + 512])


class Listener:
    """Open ears, and what they brought."""

    def __init__(self, lines: list[str | Heard], hands_free: bool = False) -> None:
        self.microphone, self.inbox = Microphone(), Inbox()
        self.woken = threading.Event()
        self.inbox.wake = self.woken.set
        self.engine = ScriptEngine(lines)
        self.ears = OpenEars(
            self.engine, self.microphone, self.inbox, hands_free=hands_free, detector=Level()
        )
        self.ears.start()

    def next(self, kind: type[Arrival], wait_s: float = 5.0) -> Arrival | None:  # type: ignore[valid-type]
        until = time.monotonic() + wait_s
        while time.monotonic() < until:
            self.woken.clear()
            item = self.inbox.take()
            if isinstance(item, kind):
                return item
            if item is None:
                self.woken.wait(0.05)
        return None

    def heard(self, wait_s: float = 5.0) -> HeardOne | None:
        found = self.next(HeardOne, wait_s)
        assert found is None or isinstance(found, HeardOne)
        return found


@pytest.fixture
def listener() -> Iterator[Callable[..., Listener]]:
    made: list[Listener] = []

    def make(*lines: str | Heard, hands_free: bool = False) -> Listener:
        made.append(Listener(list(lines), hands_free))
        return made[-1]

    yield make
    for one in made:
        one.ears.close()
        assert one.microphone.closed


def test_hands_free_takes_everything(listener: Callable[..., Listener]) -> None:
    here = listener(B3, "tally", hands_free=True)
    here.microphone.speak()
    here.microphone.speak()
    first, second = here.heard(), here.heard()
    assert first is not None
    assert second is not None
    assert [first.heard.text, second.heard.text] == [B3, "tally"]
    assert first.whole
    assert not first.by_key
    assert first.sound is not None
    assert len(first.sound) > 8000


def test_without_the_key_nothing_is_heard(listener: Callable[..., Listener]) -> None:
    here = listener(B3)
    here.microphone.speak()
    assert here.heard(wait_s=0.3) is None
    here.ears.press()
    assert here.ears.state == "listening"
    here.microphone.speak()
    heard = here.heard()
    assert heard is not None
    assert (heard.heard.text, heard.by_key) == (B3, True)
    assert here.ears.state == "ready"
    here.microphone.speak()
    assert here.heard(wait_s=0.3) is None


def test_what_was_said_before_the_key_is_no_part_of_it(listener: Callable[..., Listener]) -> None:
    here = listener(B3)
    here.microphone.speak(3.0, pause=0.0)  # others talk, without a pause
    assert here.heard(wait_s=0.3) is None
    here.ears.press()
    here.microphone.speak(0.5)
    heard = here.heard()
    assert heard is not None
    assert heard.sound is not None
    assert heard.sound.size < 16_000 * 1.5


def test_the_key_pressed_again_ends_it(listener: Callable[..., Listener]) -> None:
    here = listener(B3)
    here.ears.press()
    here.microphone.speak(0.5, pause=0.0)
    assert here.next(SpeechBegan) is not None
    time.sleep(0.1)
    here.ears.press()
    here.microphone.waiting.put(np.zeros(512, np.float32))
    heard = here.heard()
    assert heard is not None
    assert heard.heard.text == B3
    assert heard.whole


def test_the_key_and_then_silence(listener: Callable[..., Listener]) -> None:
    here = listener(B3)
    here.ears.press()
    here.microphone.waiting.put(np.zeros(16_000 * 13, np.float32))
    heard = here.heard()
    assert heard is not None
    assert (heard.heard.tier, heard.by_key) == ("none", True)
    here.microphone.waiting.put(np.zeros(16_000 * 13, np.float32))
    assert here.heard(wait_s=0.3) is None


def test_sound_that_was_lost_makes_it_half_heard(listener: Callable[..., Listener]) -> None:
    here = listener(B3, hands_free=True)
    here.microphone.speak(0.5, pause=0.0)
    here.microphone.waiting.put(Gap("lost", 0.0, "The microphone “Collar” went away."))
    heard = here.heard()
    assert heard is not None
    assert not heard.whole
    notice = here.next(Notice)
    assert isinstance(notice, Notice)
    assert notice.text == "The microphone “Collar” went away."
    assert not notice.ears_gone


def test_a_microphone_that_is_away_is_told_at_the_foot(
    listener: Callable[..., Listener], tmp_path: Path, journal: Journal
) -> None:
    here = listener(hands_free=True)
    room = Room(tmp_path, journal, here.ears)
    for reason, shown in (("lost", "microphone is away"), ("back", "● listening")):
        here.microphone.waiting.put(Gap(reason, 0.0, "Told."))  # type: ignore[arg-type]
        assert here.next(Notice) is not None
        assert shown in room.chat.status()


@pytest.mark.parametrize("fault", [EarsError("The model stumbled."), ValueError("no")])
def test_ears_that_break_are_told_of(listener: Callable[..., Listener], fault: Exception) -> None:
    here = listener(hands_free=True)
    here.microphone.waiting.put(fault)
    notice = here.next(Notice)
    assert isinstance(notice, Notice)
    assert notice.ears_gone
    assert "typing goes on" in notice.text
    assert here.ears.state == "off"
    here.ears.press()


def test_stop_and_start_listening(
    listener: Callable[..., Listener], tmp_path: Path, journal: Journal
) -> None:
    here = listener(hands_free=True)
    room = Room(tmp_path, journal, here.ears)
    assert room.chat.status() == "● listening"
    room.hear("stop listening")
    assert here.ears.mode == "hushed"
    assert "say “start listening”" in room.chat.status()
    room.hear(B3)
    room.hear(replace(heard_text("start listening"), tier="ask"))
    assert room.readings == {}
    room.hear(B3, by_key=True)
    assert room.readings == {"B3": -18}
    room.hear("start listening")
    assert here.ears.mode == "free"
    room.hear("bravo two minus nine millimetres")
    assert room.readings == {"B3": -18, "B2": -9}
    assert room.mouth.said[-2] == "Listening."
    assert journal.misses() == []


def test_by_key_stop_listening_leaves_the_key(
    listener: Callable[..., Listener], tmp_path: Path, journal: Journal
) -> None:
    here = listener()
    room = Room(tmp_path, journal, here.ears)
    assert room.chat.status() == "space or F2 to talk"
    room.hear("stop listening", by_key=True)
    assert here.ears.mode == "key"
    room.chat.typed("start listening")
    assert here.ears.mode == "free"


def test_a_chat_without_ears_says_so(room: Room) -> None:
    room.chat.typed("start listening")
    assert "leadsman listen" in room.shown
    assert room.chat.status() == ""


# --- at the prompt ------------------------------------------------------------------------------


@pytest.fixture
def keyboard() -> Iterator[PipeInput]:
    with create_pipe_input() as pipe:
        yield pipe


def test_what_is_heard_is_shown_above_the_line_that_is_typed(
    room: Room, keyboard: PipeInput, tmp_path: Path
) -> None:
    inbox = Inbox()
    beside = BesideThePrompt(room.chat, inbox)
    lines = edited_lines(room.opening, Folders(tmp_path), keyboard, DummyOutput(), beside=beside)

    def somebody() -> None:
        inbox.put(HeardOne(heard_text(B3)))
        until = time.monotonic() + 5
        while not room.readings and time.monotonic() < until:
            time.sleep(0.02)
        keyboard.send_text("C3 -4\r\x04")

    thread = threading.Thread(target=somebody)
    thread.start()
    _typed_session(room.chat, lines, room.screen)
    thread.join()
    assert room.readings == {"B3": -18, "C3": -4}
    assert room.shown.index(B3) < room.shown.index("C3 4 mm below")


@pytest.mark.parametrize("key", [" ", "\x1bOQ"])
def test_the_talk_keys(
    listener: Callable[..., Listener],
    tmp_path: Path,
    journal: Journal,
    keyboard: PipeInput,
    key: str,
) -> None:
    here = listener(B3)
    room = Room(tmp_path, journal, here.ears)
    beside = BesideThePrompt(room.chat, here.inbox)
    lines = edited_lines(room.opening, Folders(tmp_path), keyboard, DummyOutput(), beside=beside)

    def somebody() -> None:
        until = time.monotonic() + 5
        keyboard.send_text(key)
        while here.ears.state != "listening" and time.monotonic() < until:
            time.sleep(0.02)
        here.microphone.speak()
        while not room.readings and time.monotonic() < until:
            time.sleep(0.02)
        keyboard.send_text("D3 -7 mm\r\x04")

    thread = threading.Thread(target=somebody)
    thread.start()
    _typed_session(room.chat, lines, room.screen)
    thread.join()
    assert room.readings == {"B3": -18, "D3": -7}
    assert room.mouth.stopped > 5


def test_a_question_lapses_while_a_line_is_typed(
    room: Room, keyboard: PipeInput, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(listen_open, "LOOK_S", 0.01)
    inbox = Inbox()
    lines = edited_lines(
        room.opening,
        Folders(tmp_path),
        keyboard,
        DummyOutput(),
        beside=BesideThePrompt(room.chat, inbox),
    )

    def somebody() -> None:
        inbox.put(HeardOne(FIFTEEN_OR_FIFTY))
        until = time.monotonic() + 5
        while room.talk.pending is None and time.monotonic() < until:
            time.sleep(0.01)
        while room.talk.pending is not None and time.monotonic() < until:
            room.clock.now += 5
            time.sleep(0.05)
        keyboard.send_text("confirm\r\x04")

    thread = threading.Thread(target=somebody)
    thread.start()
    _typed_session(room.chat, lines, room.screen)
    thread.join()
    assert room.readings == {}
    assert "No question is waiting" in room.shown


def test_a_fault_beside_the_line_ends_the_prompt(
    room: Room, keyboard: PipeInput, tmp_path: Path
) -> None:
    class Breaks(BesideThePrompt):
        async def watch(self, in_terminal: object) -> None:  # noqa: ARG002
            await asyncio.sleep(0)
            raise LeadsmanError("broken")

    lines = edited_lines(
        room.opening,
        Folders(tmp_path),
        keyboard,
        DummyOutput(),
        beside=Breaks(room.chat, Inbox()),
    )
    with pytest.raises(LeadsmanError, match="broken"):
        list(lines)


def test_on_a_plain_terminal_enter_is_the_talk_key(
    listener: Callable[..., Listener],
    tmp_path: Path,
    journal: Journal,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    here = listener(B3)
    room = Room(tmp_path, journal, here.ears)

    class Typed:
        def __iter__(self) -> Iterator[str]:
            until = time.monotonic() + 5
            yield "\n"
            while here.ears.state != "listening" and time.monotonic() < until:
                time.sleep(0.02)
            here.microphone.speak()
            while not room.readings and time.monotonic() < until:
                time.sleep(0.02)
            yield "C3 -4\n"
            yield "quit\n"

    monkeypatch.setattr("sys.stdin", Typed())
    _plain_session(room.chat, room.opening, here.inbox, room.screen, ("next point",))
    assert room.readings == {"B3": -18, "C3": -4}
    assert capsys.readouterr().out.startswith("> ")


def test_the_engine_is_told_what_would_answer(
    listener: Callable[..., Listener], tmp_path: Path, journal: Journal
) -> None:
    expected: list[Mapping[str, Command]] = []
    here = listener(B3, "tally", hands_free=True)
    here.engine.expect = expected.append  # type: ignore[attr-defined]
    room = Room(tmp_path, journal, here.ears)
    room.hear(FIFTEEN_OR_FIFTY)
    here.microphone.speak()
    assert here.heard() is not None
    room.chat.typed("confirm")
    here.microphone.speak()
    assert here.heard() is not None
    assert [list(answers) for answers in expected] == [
        ["fifteen", "fifty", "one five", "five zero"],
        [],
    ]
