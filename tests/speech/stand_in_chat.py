"""A chat with a mouth, a clock and a screen that exist only in memory."""

from __future__ import annotations

import io
from datetime import UTC, datetime
from pathlib import Path

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.ears.hearing import Alternative, Heard
from assistant.ears.script import heard_text
from assistant.listening.listen_chat import ListenChat
from assistant.listening.listening import Listening
from assistant.listening.open_ears import HeardOne, OpenEars
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.sound.kept_audio import KeptAudio
from assistant.terminal.opening import Opening
from assistant.terminal.output import PlainOutput
from assistant.terminal.screen import Screen
from assistant.voice.silence import Silence
from grammar import short_form, understand

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


class Mouth(Silence):
    """Keeps what it was given to say."""

    def __init__(self) -> None:
        self.said: list[str] = []
        self.stopped = 0
        self.speaking = False

    def say(self, text: str) -> None:
        self.said.append(text)

    def stop(self) -> None:
        self.stopped += 1


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
        self.screen = Screen(PlainOutput(self.file, 70))
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
