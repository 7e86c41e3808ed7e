"""Ears in a thread of their own: what they take, by key or hands-free, and what they are given."""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from assistant.ears.script import heard_text
from assistant.errors import EarsError
from assistant.listening.open_ears import Notice, SpeechBegan
from assistant.record.journal import Journal
from assistant.sound.chunks import MissingSound
from grammar.commands import Command
from tests.speech.stand_in_chat import B3, FIFTEEN_OR_FIFTY, Room
from tests.speech.stand_in_ears import Listener


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
    here.microphone.waiting.put(MissingSound("lost", 0.0, "The microphone “Collar” went away."))
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
        here.microphone.waiting.put(MissingSound(reason, 0.0, "Told."))  # type: ignore[arg-type]
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
    room.hear("ears closed")
    assert mode(here) == "hushed"
    assert "say “ears open”" in room.chat.status()
    room.hear(B3)
    room.hear(replace(heard_text("ears open"), tier="ask"))
    assert room.readings == {}
    room.hear(B3, by_key=True)
    assert room.readings == {"B3": -18}
    room.hear("ears open")
    assert mode(here) == "free"
    room.hear("bravo two minus nine millimetres")
    assert room.readings == {"B3": -18, "B2": -9}
    assert room.mouth.said[-2] == "Listening."
    assert journal.misses() == []


def mode(here: Listener) -> str:
    """Asked anew each time, as mypy takes an attribute that was compared for settled."""
    return here.ears.mode


def test_by_key_stop_listening_leaves_the_key(
    listener: Callable[..., Listener], tmp_path: Path, journal: Journal
) -> None:
    here = listener()
    room = Room(tmp_path, journal, here.ears)
    assert room.chat.status() == "space or F2 to talk"
    room.hear("ears closed", by_key=True)
    assert mode(here) == "key"
    room.chat.typed("ears open")
    assert mode(here) == "free"


def test_the_engine_is_told_what_would_answer(
    listener: Callable[..., Listener],
    tmp_path: Path,
    journal: Journal,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    expected: list[Mapping[str, Command]] = []
    here = listener(B3, "tally", hands_free=True)
    monkeypatch.setattr(here.engine, "expect", expected.append)
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
